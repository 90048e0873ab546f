import type { Metadata } from 'next'
import { requireActor } from '#lib/auth/session'
import { overview } from '#lib/data/builds'
import { ofBuild as commentsOf } from '#lib/data/comments'
import { ofBuild as hardwareOf } from '#lib/data/hardware'
import { ofBuild as waitsOf } from '#lib/data/waits'
import { instantIn, nearInstantIn, nearSpanIn } from '#lib/format/instant'
import { nameList } from '#lib/shop/build-stage'
import { load, settings } from '../../load'
import { ButtonLink } from '../../ui/button'
import { Live } from '../../ui/live'
import { Notice } from '../../ui/notice'
import { Facts, Page, Row, Rows, Section } from '../../ui/sheet'
import { Tag } from '../../ui/tag'
import { NextStepLine } from '../next-step'
import { RefreshAt } from '../refresh-at'
import { StageTag } from '../stage-tag'
import { Comments } from './comments'
import { Ending, Notes } from './ending'
import { Hardware } from './hardware'
import { buildHeader } from './header'
import { Short } from './short'
import { Waits } from './waits'

export const metadata: Metadata = { title: 'Overview' }

type Overview = Extract<Awaited<ReturnType<typeof overview>>, { ok: true }>['value']

export default async function BuildPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [actor, { units, timeZone }, build, seen, waits, hardware, comments] = await Promise.all([
    requireActor(),
    settings(),
    buildHeader(buildId),
    load(overview, { buildId }),
    load(waitsOf, { buildId }),
    load(hardwareOf, { buildId }),
    load(commentsOf, { buildId }),
  ])
  const now = new Date()
  const say = nearInstantIn(timeZone, now)
  const mayWork = build.mayChange && build.isOpen
  const { total, made } = seen.facts.parts
  return (
    <Page
      title={build.name}
      cells={[
        { label: 'Stage', value: <StageTag stage={seen.stage} /> },
        { label: 'Maker', value: build.isMine ? 'You' : build.makerName },
        { label: 'Design', value: build.designName ?? 'None yet' },
        { label: 'Parts cut', value: `${made} of ${total}` },
        { label: 'Begun', value: instantIn(timeZone)(build.createdAt).replace(/,.*/, '') },
      ]}
    >
      <Live topics={[`build:${buildId}`, `member:${actor.memberId}`, 'pool', 'hardware']} />
      <RefreshAt at={nextInstant(seen, waits, now)?.toISOString()} />
      {seen.next ? (
        <NextStepLine
          large
          buildId={buildId}
          step={seen.next}
          makerName={build.makerName}
          isMine={build.isMine}
        />
      ) : (
        <Closed build={build} say={say} />
      )}
      <Short short={seen.short} units={units} buildId={buildId} />
      {seen.facts.boards.planned > 0 ? <Boards seen={seen} buildId={buildId} isOpen={build.isOpen} /> : null}
      {seen.bookings.length > 0 ? (
        <Bookings seen={seen} saySpan={nearSpanIn(timeZone, now)} meId={actor.memberId} />
      ) : null}
      {build.isOpen || waits.length > 0 ? (
        <Waits buildId={buildId} waits={waits} mayWork={mayWork} now={now} say={say} />
      ) : null}
      {hardware.wanted.length > 0 ? (
        <Hardware buildId={buildId} wanted={hardware.wanted} mayTake={hardware.mayTake && build.isOpen} />
      ) : null}
      <Notes buildId={buildId} name={build.name} notes={seen.notes} mayChange={build.mayChange} />
      <Comments buildId={buildId} comments={comments} say={say} />
      {build.mayChange ? (
        <Ending
          buildId={buildId}
          isOpen={build.isOpen}
          partsLeft={total - made}
          held={seen.facts.boards.held + seen.facts.boards.asked}
        />
      ) : null}
    </Page>
  )
}

/** When the page would say something else by itself. */
function nextInstant(seen: Overview, waits: readonly { readyAt: Date }[], now: Date): Date | undefined {
  const instants = [...waits.map((w) => w.readyAt), ...seen.bookings.flatMap((b) => [b.startAt, b.endAt])]
  return instants.filter((at) => at > now).sort((a, b) => a.getTime() - b.getTime())[0]
}

function Closed({
  build,
  say,
}: {
  build: { finishedAt: Date | null; abandonedAt: Date | null }
  say: (at: Date) => string
}) {
  return build.finishedAt ? (
    <Notice level="good" title={`Finished ${say(build.finishedAt)}`}>
      Its boards and bookings were given back.
    </Notice>
  ) : (
    <Notice title={build.abandonedAt ? `Given up ${say(build.abandonedAt)}` : 'Given up'}>
      Its boards and bookings were given back.
    </Notice>
  )
}

function Boards({ seen, buildId, isOpen }: { seen: Overview; buildId: string; isOpen: boolean }) {
  const { planned, cut, held, asked, changed } = seen.facts.boards
  const open = planned - cut - held - asked - changed
  return (
    <Section
      title="Boards of the plan"
      actions={
        <ButtonLink look="quiet" href={`/builds/${buildId}/cutting`}>
          See them
        </ButtonLink>
      }
    >
      <Facts
        bare
        items={[
          { label: 'In the plan', value: planned },
          ...(isOpen ? [{ label: 'Held for it', value: held }] : []),
          ...(asked > 0 ? [{ label: `Asked of ${nameList(seen.facts.askedOwners)}`, value: asked }] : []),
          ...(isOpen && open > 0 ? [{ label: 'Not held yet', value: open }] : []),
          ...(isOpen && changed > 0
            ? [{ label: 'Changed or gone', value: <Tag tone="caution">{`${changed}`}</Tag> }]
            : []),
          { label: 'Cut', value: cut },
        ]}
      />
    </Section>
  )
}

function Bookings({
  seen,
  saySpan,
  meId,
}: {
  seen: Overview
  saySpan: (from: Date, to: Date) => string
  meId: string
}) {
  return (
    <Section title="Booked">
      <Rows label="Bookings">
        {seen.bookings.map((b) => (
          <Row
            key={b.id}
            aside={
              b.status === 'approved' ? <Tag tone="good">Agreed</Tag> : <Tag tone="waiting">Asked for</Tag>
            }
          >
            <a className="link font-medium" href={`/stations/${b.stationId}`}>
              {b.stationName}
            </a>
            <p className="text-[0.95rem]">
              {saySpan(b.startAt, b.endAt)}
              {b.memberId === meId ? '' : `, by ${b.memberName}`}
            </p>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}
