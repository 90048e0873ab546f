import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { all } from '#lib/data/builds'
import { nameList, turnWords } from '#lib/shop/build-stage'
import { load } from '../load'
import { ButtonLink } from '../ui/button'
import { Live } from '../ui/live'
import { Empty, Page, Row, Rows, Section } from '../ui/sheet'
import { Tag } from '../ui/tag'
import { StageTag } from './stage-tag'

export const metadata: Metadata = { title: 'Builds' }

type Build = Extract<Awaited<ReturnType<typeof all>>, { ok: true }>['value']['builds'][number]

/** A page follows 20 topics at most. */
const FOLLOWED = 18

interface Props {
  readonly searchParams: Promise<{ show?: string }>
}

export default async function BuildsPage({ searchParams }: Props) {
  const show = (await searchParams).show === 'closed' ? 'closed' : 'open'
  const { builds, count } = await load(all, { show })
  const mine = builds.filter((b) => b.isMine)
  const others = builds.filter((b) => !b.isMine)
  return (
    <Page
      title={show === 'open' ? 'Builds' : 'Builds that have ended'}
      lead={
        show === 'open'
          ? 'Everything that is being made in the shop.'
          : 'Finished and given up, the last first.'
      }
      actions={
        <ButtonLink look="primary" href="/builds/new">
          Start a build
        </ButtonLink>
      }
    >
      <Live topics={['builds', 'pool', ...builds.slice(0, FOLLOWED).map((b) => `build:${b.id}`)]} />
      <p className="-mt-4 flex flex-wrap gap-x-5">
        <Filter href="/builds" isHere={show === 'open'}>
          Under way
        </Filter>
        <Filter href="/builds?show=closed" isHere={show === 'closed'}>
          Ended
        </Filter>
      </p>
      {builds.length === 0 ? <NoBuilds show={show} /> : null}
      {mine.length > 0 ? (
        <Section title="Yours">
          <BuildRows builds={mine} />
        </Section>
      ) : null}
      {others.length > 0 ? (
        <Section title="Other members’">
          <BuildRows builds={others} />
        </Section>
      ) : null}
      {count > builds.length ? (
        <p className="text-ink-soft">
          {builds.length} of {count} are shown: those that changed last.
        </p>
      ) : null}
    </Page>
  )
}

function Filter({ href, isHere, children }: { href: string; isHere: boolean; children: string }) {
  return (
    <Link
      href={href}
      aria-current={isHere ? 'page' : undefined}
      className={`inline-flex min-h-11 items-center border-b-2 ${isHere ? 'border-accent font-semibold' : 'border-transparent text-ink-soft hover:text-ink'}`}
    >
      {children}
    </Link>
  )
}

function NoBuilds({ show }: { show: 'open' | 'closed' }) {
  if (show === 'closed')
    return <Empty title="Nothing has ended yet">Builds stand here once they are finished or given up.</Empty>
  return (
    <Empty
      title="Nothing is being made just now"
      action={
        <ButtonLink look="primary" href="/builds/new">
          Start the first build
        </ButtonLink>
      }
    >
      Choose a design, fit it to its place, and see whether the pool has the boards for it.
    </Empty>
  )
}

function BuildRows({ builds }: { builds: readonly Build[] }) {
  return (
    <Rows>
      {builds.map((b) => (
        <Row key={b.id} aside={<State build={b} />}>
          <Link href={`/builds/${b.id}`} className="link text-[1.1rem] font-semibold">
            {b.name}
          </Link>
          {b.next ? <p className="max-w-[58ch]">{b.next.sentence}</p> : null}
          <p className="text-[0.92rem] text-ink-soft">{people(b)}</p>
        </Row>
      ))}
    </Rows>
  )
}

function State({ build: b }: { build: Build }) {
  return (
    <div className="grid gap-0.5 sm:min-w-44 sm:justify-items-end">
      <StageTag stage={b.stage} />
      {b.short > 0 && b.stage !== 'short' && b.next ? (
        <Tag tone="caution">{`${b.short} ${b.short === 1 ? 'part' : 'parts'} short`}</Tag>
      ) : null}
      {b.next && !['maker', 'time'].includes(b.next.turn.of) ? (
        <span className="caption">waits for {turnWords(b.next.turn, b.makerName)}</span>
      ) : null}
    </div>
  )
}

function people(b: Build): string {
  const maker = b.isMine ? 'You' : b.makerName
  const others = b.others.length > 0 ? `, with ${nameList(b.others)}` : ''
  return [b.designName, `${maker}${others}`].filter(Boolean).join(' · ')
}
