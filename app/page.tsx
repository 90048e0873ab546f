import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { requireActor } from '#lib/auth/session'
import { bookingsToDecide } from '#lib/data/booking-lists'
import { requestsToMe } from '#lib/data/holds'
import { mine } from '#lib/data/today'
import { nearInstantIn, nearSpanIn } from '#lib/format/instant'
import { clearDry } from './actions'
import { WaitTime } from './builds/[id]/waits'
import { NextStepLine } from './builds/next-step'
import { RefreshAt } from './builds/refresh-at'
import { StageTag } from './builds/stage-tag'
import { Heard } from './heard'
import { load, settings } from './load'
import { Requests } from './requests'
import { ButtonLink } from './ui/button'
import { Live } from './ui/live'
import { Notice } from './ui/notice'
import { Empty, Page, Row, Rows, Section } from './ui/sheet'
import { Tag } from './ui/tag'
import { Tap } from './ui/tap'

export const metadata: Metadata = { title: 'Today' }

type Today = Extract<Awaited<ReturnType<typeof mine>>, { ok: true }>['value']
type Say = (at: Date) => string

export default async function TodayPage() {
  const actor = await requireActor()
  const [{ units, timeZone, shopName }, today, holds, bookings] = await Promise.all([
    settings(),
    load(mine, {}),
    load(requestsToMe, {}),
    actor.role === 'member' ? [] : load(bookingsToDecide, {}),
  ])
  const say = nearInstantIn(timeZone, today.now)
  const day = new Intl.DateTimeFormat('en-GB', { timeZone, weekday: 'long', day: 'numeric', month: 'long' })
  const isQuiet = holds.length + bookings.length + today.drying.length + today.booked.length === 0
  return (
    <Page title="Today" lead={`${day.format(today.now)}, ${shopName}`}>
      <Live topics={[`member:${actor.memberId}`, ...today.builds.slice(0, 15).map((b) => `build:${b.id}`)]} />
      <RefreshAt at={nextInstant(today)?.toISOString()} />
      <Requests holds={holds} bookings={bookings} units={units} say={say} />
      {today.lapsing.map((l) => (
        <Lapsing key={l.buildId} lapsing={l} builds={today.builds} say={say} />
      ))}
      {today.builds.length > 0 ? (
        <Builds builds={today.builds} />
      ) : (
        <Firsts today={today} isQuiet={isQuiet} />
      )}
      {today.drying.length > 0 ? <Drying today={today} say={say} /> : null}
      {today.booked.length > 0 ? <Booked today={today} saySpan={nearSpanIn(timeZone, today.now)} /> : null}
      <Heard decisions={today.decisions} remarks={today.remarks} votes={today.votes} say={say} />
    </Page>
  )
}

/** When the page would say something else by itself. */
function nextInstant(today: Today): Date | undefined {
  const instants = [
    ...today.drying.map((w) => w.readyAt),
    ...today.booked.flatMap((b) => [b.startAt, b.endAt]),
    ...today.lapsing.map((l) => l.firstAt),
  ]
  return instants.filter((at) => at > today.now).sort((a, b) => a.getTime() - b.getTime())[0]
}

function Lapsing({
  lapsing,
  builds,
  say,
}: {
  lapsing: Today['lapsing'][number]
  builds: Today['builds']
  say: Say
}) {
  const name = builds.find((b) => b.id === lapsing.buildId)?.name ?? 'a build'
  const what = lapsing.boards === 1 ? '1 board' : `${lapsing.boards} boards`
  return (
    <Notice level="caution" title="Holds run out">
      {what} held for <Link href={`/builds/${lapsing.buildId}/cutting`}>{name}</Link>, the first{' '}
      {say(lapsing.firstAt)}. Hold longer, or cut before then.
    </Notice>
  )
}

function Builds({ builds }: { builds: Today['builds'] }) {
  return (
    <Section
      title="Your builds"
      actions={
        <ButtonLink look="quiet" href="/builds/new">
          Start another
        </ButtonLink>
      }
    >
      <ul className="grid grid-cols-[minmax(0,1fr)] gap-7">
        {builds.map((b) => (
          <li
            key={b.id}
            className="grid grid-cols-[minmax(0,1fr)] gap-1.5 border-l-4 border-hairline-strong pl-4 sm:pl-5"
          >
            <div className="flex flex-wrap items-center justify-between gap-x-4">
              <Link href={`/builds/${b.id}`} className="link min-w-0 text-[1.15rem] font-semibold">
                {b.name}
              </Link>
              <StageTag stage={b.stage} />
            </div>
            {b.next ? <NextStepLine buildId={b.id} step={b.next} makerName="you" isMine /> : null}
          </li>
        ))}
      </ul>
    </Section>
  )
}

/** What someone without a build does first. */
function Firsts({ today, isQuiet }: { today: Today; isQuiet: boolean }) {
  const { hasBoard, hasBuild, hasInduction, hasStations } = today.firsts
  if (hasBuild || (hasBoard && hasInduction))
    return (
      <Empty
        title={isQuiet ? 'Nothing waits for you today' : 'You have no build under way'}
        action={
          <ButtonLink look="primary" href="/builds/new">
            Start a build
          </ButtonLink>
        }
      >
        Start the next one, or look at <Link href="/builds">what the others are making</Link>.
      </Empty>
    )
  const steps = [
    {
      isDone: hasBoard,
      title: 'Log what you took apart',
      text: 'A worn-out piece becomes boards in the pool, with their sizes and their damage.',
      href: '/teardowns/new',
    },
    {
      isDone: false,
      title: 'Start a build',
      text: 'Fit a design to the place where it will stand; the pool may have boards for it already.',
      href: '/builds/new',
    },
    {
      isDone: hasInduction,
      title: 'Ask for an induction',
      text: hasStations
        ? 'A keeper shows you how to use a machine safely; then you may book it.'
        : 'No station is set up yet. Ask an admin.',
      href: '/stations',
    },
  ]
  return (
    <Section title="Where to begin">
      <ol className="grid gap-4">
        {steps.map((step, i) => (
          <li key={step.href} className="grid grid-cols-[2.25rem_1fr] gap-x-3">
            <span aria-hidden="true" className="text-[1.9rem] leading-none font-light text-ink-soft">
              {i + 1}
            </span>
            <div>
              <Link href={step.href} className="link text-[1.15rem] font-semibold">
                {step.title}
              </Link>{' '}
              {step.isDone ? <Tag tone="good">Done</Tag> : null}
              <p className="max-w-[58ch] text-ink-soft">{step.text}</p>
            </div>
          </li>
        ))}
      </ol>
    </Section>
  )
}

function Drying({ today, say }: { today: Today; say: Say }) {
  return (
    <Section title="Drying">
      <Rows label="Drying">
        {today.drying.map((w) => (
          <Row
            key={w.id}
            aside={
              w.state === 'ready' ? (
                <Tap look="primary" action={clearDry} hidden={{ waitId: w.id }}>
                  It is dry
                </Tap>
              ) : undefined
            }
          >
            <p>
              <span className="font-medium">{w.label}</span> in{' '}
              <Link href={`/builds/${w.buildId}#waits`}>{w.buildName}</Link>
            </p>
            <WaitTime wait={w} now={today.now} say={say} />
          </Row>
        ))}
      </Rows>
    </Section>
  )
}

function Booked({ today, saySpan }: { today: Today; saySpan: (from: Date, to: Date) => string }) {
  return (
    <Section
      title="Booked next"
      actions={
        <ButtonLink look="quiet" href="/stations">
          Stations
        </ButtonLink>
      }
    >
      <Rows label="Bookings">
        {today.booked.map((b) => (
          <Row key={b.id} aside={<BookedTag booked={b} />}>
            <p>
              <Link href={`/stations/${b.stationId}`} className="link font-medium">
                {b.stationName}
              </Link>
              {b.place ? <span className="text-ink-soft">, {b.place}</span> : null}
            </p>
            <p className="text-[0.95rem]">
              {saySpan(b.startAt, b.endAt)}
              {b.isMine ? '' : `, ${b.memberName}`}
              {b.buildId ? (
                <>
                  {' '}
                  for <Link href={`/builds/${b.buildId}`}>{b.buildName}</Link>
                </>
              ) : null}
            </p>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}

function BookedTag({ booked: b }: { booked: Today['booked'][number] }) {
  if (b.status === 'requested') return <Tag tone="waiting">Asked for</Tag>
  if (b.hasBegun) return <Tag tone="busy">Now</Tag>
  return <Tag tone="good">{b.isMine ? 'Yours' : 'Agreed'}</Tag>
}
