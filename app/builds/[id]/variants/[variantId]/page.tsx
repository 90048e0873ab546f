import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { ofBuild as commentsOf } from '#lib/data/comments'
import { ofBuild as stillsOf } from '#lib/data/stills'
import { ofBuild } from '#lib/data/variant-sheet'
import { nearInstantIn } from '#lib/format/instant'
import { findDesign } from '../../../../designs/find-design'
import { load, settings } from '../../../../load'
import { ButtonLink } from '../../../../ui/button'
import { Live } from '../../../../ui/live'
import { Page } from '../../../../ui/sheet'
import { Tag } from '../../../../ui/tag'
import { buildHeader } from '../../header'
import { Voices } from '../voices'
import { VoteButton } from '../vote-button'
import { PinnedPictures } from './pinned-pictures'

interface Props {
  readonly params: Promise<{ id: string; variantId: string }>
  readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>>
}

export const metadata: Metadata = { title: 'Variant' }

/** One variant to look at, point at and talk about. */
export default async function VariantPage({ params, searchParams }: Props) {
  const [{ id: buildId, variantId }, asked] = await Promise.all([params, searchParams])
  const [{ timeZone }, build, sheet, comments, stills] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(ofBuild, { buildId }),
    load(commentsOf, { buildId, variantId }),
    load(stillsOf, { buildId }),
  ])
  const variant = sheet.variants.find((v) => v.id === variantId)
  if (!variant) notFound()
  const model = (await findDesign(variant.designId))?.build(variant.parameters)
  const parts = model?.ok ? model.value.parts.map(({ id, name }) => ({ id, name })) : []
  const say = nearInstantIn(timeZone, new Date())
  return (
    <Page
      title={variant.name}
      lead={`Of «${build.name}», by ${build.isMine ? 'you' : build.makerName}.`}
      actions={
        <>
          <ButtonLink href={`/builds/${buildId}/design?variant=${variantId}`}>
            {sheet.mayChange ? 'Change its numbers' : 'See its numbers'}
          </ButtonLink>
          <ButtonLink href={`/builds/${buildId}/variants`}>Side by side</ButtonLink>
        </>
      }
    >
      <Live topics={[`build:${buildId}`]} />
      <div className="flex flex-wrap items-center gap-x-6 gap-y-2">
        {variant.chosen ? <Tag tone="good">Chosen</Tag> : null}
        <Voices variant={variant} />
        {sheet.isOpen ? <VoteButton buildId={buildId} variant={variant} /> : null}
      </div>
      <PinnedPictures
        variant={{
          id: variant.id,
          name: variant.name,
          version: variant.version,
          designId: variant.designId,
          parameters: variant.parameters,
        }}
        parts={parts}
        mayComment={sheet.isOpen}
        stills={stills
          .filter((s) => s.variantId === variantId)
          .map(({ createdAt, ...s }) => ({ ...s, said: say(createdAt) }))}
        first={typeof asked.picture === 'string' ? asked.picture : undefined}
        comments={comments.map(({ createdAt, variant: about, ...c }) => ({
          ...c,
          said: say(createdAt),
          isOlder: about?.isOlder ?? false,
        }))}
      />
    </Page>
  )
}
