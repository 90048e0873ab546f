import type { Metadata } from 'next'
import { differences } from '#lib/core/design/recipe/differences'
import { open } from '#lib/data/own-designs'
import { dayOf } from '#lib/format/instant'
import { load, settings } from '../../load'
import { ButtonLink } from '../../ui/button'
import { AskFirst } from '../../ui/dialog'
import { Live } from '../../ui/live'
import { Notice } from '../../ui/notice'
import { Page, Section } from '../../ui/sheet'
import { removeDesign } from '../actions'
import { CopyForm } from '../copy-form'
import { DifferencesList } from '../differences-list'
import { Editor } from './editor'
import { ShareForm } from './share-form'

export const metadata: Metadata = { title: 'Design' }

interface Props {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>>
}

export default async function OwnDesignPage({ params, searchParams }: Props) {
  const [{ id: designId }, asked] = await Promise.all([params, searchParams])
  const version = Number(asked.version) || undefined
  const { units, timeZone } = await settings()
  const design = await load(open, version === undefined ? { designId } : { designId, version })
  const isOld = design.number !== design.last
  const newest = isOld ? await load(open, { designId }) : design
  const name = `own:${designId}@${design.last}`
  return (
    <Page
      title={design.name}
      above={<a href="/designs">All designs</a>}
      cells={[
        { label: 'Made by', value: design.ownerName },
        { label: 'Version', value: isOld ? `${design.number} of ${design.last}` : String(design.last) },
        { label: 'Shared', value: design.sharing === 'shop' ? 'With the shop' : 'With nobody' },
      ]}
      actions={
        <ButtonLink href={`/builds/new?design=${encodeURIComponent(name)}`}>Start a build from it</ButtonLink>
      }
    >
      <Live topics={['designs']} />
      {isOld ? (
        <Notice level="caution" title={`This is version ${design.number}`}>
          Version {design.last} is the newest.{' '}
          {design.mayChange ? 'If you save this one, it becomes the newest again. ' : null}
          <a href={`/designs/${designId}`}>Go to the newest</a>
        </Notice>
      ) : null}
      {design.mayChange ? null : <Notice>{design.ownerName} made this design: copy it to change it.</Notice>}
      <Editor
        key={version ?? 'newest'}
        designId={designId}
        start={design.recipe}
        newest={{ version: design.last, recipe: newest.recipe }}
        units={units}
        mayChange={design.mayChange}
      />
      <Section
        title="Versions"
        note="A build keeps the version that it was begun with until its maker takes a newer one."
      >
        <ol reversed className="divide-y divide-hairline border-y border-hairline">
          {design.versions.map((v) => (
            <li key={v.number} className="flex flex-wrap items-baseline gap-x-4 gap-y-1 py-2">
              <a
                href={
                  v.number === design.last
                    ? `/designs/${designId}`
                    : `/designs/${designId}?version=${v.number}`
                }
                aria-current={v.number === design.number ? 'page' : undefined}
                className="link min-h-11 content-center font-medium"
              >
                Version {v.number}
              </a>
              <span className="min-w-0 flex-1 basis-56 wrap-anywhere">{v.note}</span>
              <span className="text-[0.92rem] text-ink-soft">
                {v.memberName}, {dayOf(timeZone, v.at)}
              </span>
            </li>
          ))}
        </ol>
        {isOld ? (
          <div className="mt-5">
            <h3 className="mb-1 font-semibold">
              From version {design.number} to version {design.last}
            </h3>
            <DifferencesList all={differences(design.recipe, newest.recipe)} />
          </div>
        ) : null}
      </Section>
      <Section title={design.mayChange ? 'Sharing' : 'Your own copy'}>
        <div className="grid max-w-xl gap-5">
          {design.mayChange ? <ShareForm designId={designId} sharing={design.sharing} /> : null}
          <CopyForm from={name} name={design.name} />
          {design.mayChange ? (
            <div>
              <AskFirst
                label="Take this design away"
                look="stop"
                question={`Take «${design.name}» away?`}
                consequence="It is offered to nobody any more. Builds that are made to it go on as they are."
                yes="Take it away"
                action={removeDesign}
                hidden={{ designId }}
              />
            </div>
          ) : null}
        </div>
      </Section>
    </Page>
  )
}
