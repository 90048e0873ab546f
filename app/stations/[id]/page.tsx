import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { addDays, instantOf, isDay, wallClock, zoneOf } from '#lib/core/schedule/zoned-time'
import { freeSlots, stationRequests, stationTimes } from '#lib/data/booking-lists'
import { all as allBuilds } from '#lib/data/builds'
import { people } from '#lib/data/members'
import { listInductions, oneStation } from '#lib/data/stations'
import { relativeDay, sayDay } from '#lib/format/day'
import { dayOf, nearInstantIn } from '#lib/format/instant'
import { sayLength } from '#lib/format/length'
import { inWholeSteps, sayHours } from '#lib/shop/bookings'
import { spanIn } from '../../bookings/span'
import { load, settings } from '../../load'
import { ButtonLink, buttonClass } from '../../ui/button'
import { Live } from '../../ui/live'
import { Notice } from '../../ui/notice'
import { Facts, Page, Section } from '../../ui/sheet'
import { KIND_WORDS, sayMinutes } from '../words'
import { BookForm } from './book-form'
import { dayPlans } from './day'
import { Inductions, Requests } from './keeper-panel'
import { Week } from './week'

export const metadata: Metadata = { title: 'Station' }

const DAYS = 7
const DEFAULT_MINUTES = 60

interface Asked {
  readonly minutes?: string
  readonly build?: string
  /** First day shown. */
  readonly day?: string
  /** Start that was tapped, ms since 1970. */
  readonly at?: string
}

interface Props {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<Asked>
}

/** Minutes from the address, if they are some that can be booked. */
function minutesOf(asked: Asked): number {
  const minutes = Number(asked.minutes)
  return Number.isInteger(minutes) && minutes >= 1 && minutes <= 1440
    ? inWholeSteps(minutes)
    : DEFAULT_MINUTES
}

type Station = Extract<Awaited<ReturnType<typeof oneStation>>, { ok: true }>['value']

function limitsOf(s: Station, units: 'mm' | 'in') {
  const facts = [
    ['Kerf', s.kerfUm],
    ['Widest rip', s.maxRipWidthUm],
    ['Widest crosscut', s.maxCrosscutWidthUm],
    ['Shortest safe piece', s.minPieceLengthUm],
    ['Narrowest safe piece', s.minPieceWidthUm],
    ['Deepest pass', s.maxPassUm],
  ] as const
  return facts.flatMap(([label, um]) => (um === null ? [] : [{ label, value: sayLength(um, units) }]))
}

/** What the page needs to know, all at once. */
async function gather(stationId: string, minutes: number, from: string, timeZone: string, station: Station) {
  const zone = zoneOf(timeZone)
  const days = Array.from({ length: DAYS }, (_, i) => addDays(from, i))
  const iso = (on: string) => new Date(instantOf(zone, on, 0)).toISOString()
  const [times, slots, builds, requests, inducted, everyone] = await Promise.all([
    load(stationTimes, { stationId, from: iso(from), to: iso(addDays(from, DAYS)) }),
    load(freeSlots, { stationId, minutes, from: iso(from) }),
    load(allBuilds, { show: 'open' }),
    station.mayKeep ? load(stationRequests, { stationId }) : [],
    station.mayKeep ? load(listInductions, { stationId }) : [],
    station.mayKeep ? load(people, {}) : [],
  ])
  const plans = dayPlans(days, { zone, hours: station, ...times })
  return { plans, slots, builds: builds.builds.filter((b) => b.isMine), requests, inducted, everyone }
}

export default async function StationPage({ params, searchParams }: Props) {
  const [{ id: stationId }, asked, me] = await Promise.all([params, searchParams, settings()])
  const station = await load(oneStation, { stationId })
  const now = new Date()
  const today = dayOf(me.timeZone, now)
  const minutes = minutesOf(asked)
  const from = asked.day && isDay(asked.day) && asked.day > today ? asked.day : today
  const { plans, slots, builds, requests, inducted, everyone } = await gather(
    stationId,
    minutes,
    from,
    me.timeZone,
    station,
  )
  const zone = zoneOf(me.timeZone)
  const near = nearInstantIn(me.timeZone, now)
  const saySpan = spanIn(me.timeZone, (on) => relativeDay(on, today))
  const time = new Intl.DateTimeFormat('en-GB', { timeZone: me.timeZone, hour: '2-digit', minute: '2-digit' })
  const href = (over: Record<string, string | number | undefined>, hash = '') => {
    const query = new URLSearchParams()
    for (const [key, value] of Object.entries({
      minutes,
      build: asked.build,
      day: from,
      at: asked.at,
      ...over,
    }))
      if (value !== undefined) query.set(key, String(value))
    return `/stations/${stationId}?${query}${hash}`
  }
  const tapped = Number(asked.at) > now.getTime() - 900_000 ? Number(asked.at) : undefined
  const begin = tapped ?? slots[0]?.startAt.getTime() ?? instantOf(zone, from, station.opensMinute)
  const shown = wallClock(zone, begin)
  const mayBook = station.isInducted || !station.needsInduction
  const limits = limitsOf(station, me.units)
  const notInducted = everyone.filter(
    (p) => p.id !== station.keeper.id && !inducted.some((i) => i.id === p.id),
  )
  return (
    <Page
      title={station.name}
      above={<Link href="/stations">Stations</Link>}
      cells={[
        { label: 'Kind', value: KIND_WORDS[station.kind].word },
        { label: 'Keeper', value: station.isMine ? 'You' : station.keeper.name },
        { label: 'Open', value: sayHours(station) },
        { label: 'Place', value: station.place || '—' },
      ]}
      actions={
        station.mayKeep ? <ButtonLink href={`/stations/${stationId}/edit`}>Change it</ButtonLink> : null
      }
    >
      <Live topics={[`station:${stationId}`]} />
      <Requests requests={requests} saySpan={saySpan} />
      <Section title="Book" id="book">
        <div className="grid gap-5">
          {mayBook ? null : (
            <Notice level="caution">
              You need an induction here before you can book. Ask {station.keeper.name} to show you.
            </Notice>
          )}
          {station.notes ? <p className="max-w-[68ch] whitespace-pre-line">{station.notes}</p> : null}
          {mayBook ? (
            <>
              <div>
                <p className="mb-2">
                  Next free for <strong className="font-semibold">{sayMinutes(minutes)}</strong>
                </p>
                {slots.length === 0 ? (
                  <p className="max-w-[60ch] text-ink-soft">
                    Nothing that long within four weeks. Split the work into shorter bookings, or look at the
                    days below.
                  </p>
                ) : (
                  <ul className="flex flex-wrap gap-2">
                    {slots.map((s) => (
                      <li key={s.startAt.getTime()}>
                        <Link
                          href={href({ at: s.startAt.getTime() }, '#book')}
                          scroll={false}
                          aria-current={s.startAt.getTime() === begin ? 'true' : undefined}
                          className={buttonClass(
                            'plain',
                            'aria-[current]:border-accent aria-[current]:bg-accent-wash aria-[current]:font-semibold',
                          )}
                        >
                          {near(s.startAt)}
                        </Link>
                      </li>
                    ))}
                  </ul>
                )}
              </div>
              <BookForm
                key={`${begin} ${minutes} ${asked.build}`}
                stationId={stationId}
                needsApproval={station.needsApproval && !station.isMine}
                keeper={station.keeper.name}
                day={shown.on}
                startMinute={shown.minute}
                hours={station}
                minutes={minutes}
                today={today}
                builds={builds}
                buildId={asked.build}
              />
            </>
          ) : null}
          <Notice level="caution" title="The usual cautions">
            {KIND_WORDS[station.kind].caution} The machine’s manual and local rules come first.
          </Notice>
        </div>
      </Section>
      <Section
        title={from === today ? 'The next days' : `From ${sayDay(from, today)}`}
        actions={
          <>
            {from > today ? (
              <ButtonLink
                look="quiet"
                href={href({ day: maxDay(addDays(from, -DAYS), today) })}
                scroll={false}
              >
                Earlier
              </ButtonLink>
            ) : null}
            <ButtonLink look="quiet" href={href({ day: addDays(from, DAYS) })} scroll={false}>
              Later
            </ButtonLink>
          </>
        }
      >
        <Week
          days={plans}
          sayDay={(on) => (on === today ? `Today, ${sayDay(on, today)}` : sayDay(on, today))}
          sayTime={(at) => time.format(at)}
          hrefFor={(startMs) => href({ at: startMs }, '#book')}
          meId={me.memberId}
          mayKeep={station.mayKeep}
        />
      </Section>
      {limits.length > 0 ? (
        <Section title="Limits" note="As its keeper set them; the machine’s manual decides.">
          <Facts items={limits} />
        </Section>
      ) : null}
      {station.mayKeep && station.needsInduction ? (
        <Inductions
          stationId={stationId}
          station={station.name}
          inducted={inducted}
          others={notInducted}
          sayDay={(at) => sayDay(dayOf(me.timeZone, at), today)}
        />
      ) : null}
    </Page>
  )
}

const maxDay = (a: string, b: string) => (a > b ? a : b)
