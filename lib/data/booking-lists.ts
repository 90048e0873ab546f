import 'server-only'
import { z } from 'zod'
import { zoneOf } from '#lib/core/schedule/zoned-time'
import { err, ok } from '#lib/core/units/result'
import {
  currentStep,
  firstSlots,
  freeGaps,
  type Interval,
  inWholeSteps,
  LONGEST_BOOKING_MS,
  openIntervals,
} from '#lib/shop/bookings'
import { refusal } from '#lib/shop/refusal'
import { id, nothing, query } from './action'
import { database } from './client'
import { during, LIVE } from './internal/booking-span'
import { instant } from './internal/fields'
import { shopRow } from './internal/shop-row'

const SEARCH_MS = 28 * 24 * 3_600_000
const MOST_SLOTS = 6

const asInterval = (b: { startAt: Date; endAt: Date }): Interval => ({
  startMs: b.startAt.getTime(),
  endMs: b.endAt.getTime(),
})

const shownToAll = {
  id: true,
  startAt: true,
  endAt: true,
  status: true,
  station: { select: { id: true, name: true, kind: true, place: true } },
  member: { select: { id: true, name: true } },
  build: { select: { id: true, name: true } },
} as const

/** Notes are between the maker and the keeper. */
const shown = { ...shownToAll, note: true, decisionNote: true } as const

/** Live bookings of a station that touch a span of at most 31 days, and what is free in it from now on. */
export const stationTimes = query({
  audience: 'member',
  shared: true,
  input: z.object({ stationId: id, from: instant, to: instant }),
  run: async (_, { stationId, from, to }) => {
    const span = { startMs: Date.parse(from), endMs: Date.parse(to) }
    const length = span.endMs - span.startMs
    if (length <= 0 || length > 31 * 24 * 3_600_000)
      return err(refusal('badInput', { fields: { to: 'Look at 31 days at most.' } }))
    const station = await database().station.findFirst({ where: { id: stationId, retiredAt: null } })
    if (!station) return err(refusal('notFound'))
    const bookings = await database().booking.findMany({
      where: { stationId, status: { in: [...LIVE] }, ...during(span) },
      orderBy: { startAt: 'asc' },
      select: shownToAll,
    })
    const { timeZone } = await shopRow()
    const fromMs = Math.max(span.startMs, currentStep(Date.now()))
    const open =
      fromMs < span.endMs ? openIntervals(station, zoneOf(timeZone), { ...span, startMs: fromMs }) : []
    const gaps = freeGaps(open, bookings.map(asInterval))
    return ok({
      bookings,
      free: gaps.map((g) => ({ startAt: new Date(g.startMs), endAt: new Date(g.endMs) })),
    })
  },
})

/** The next times of that length at which a station is open and free, within four weeks; one in each gap. */
export const freeSlots = query({
  audience: 'member',
  shared: true,
  input: z.object({
    stationId: id,
    minutes: z
      .int()
      .min(1, 'At least a minute.')
      .max(LONGEST_BOOKING_MS / 60_000, 'At most 24 hours at a time.'),
    from: instant.nullish(),
  }),
  run: async (_, { stationId, minutes, from }) => {
    const station = await database().station.findFirst({ where: { id: stationId, retiredAt: null } })
    if (!station) return err(refusal('notFound'))
    const { timeZone } = await shopRow()
    const startMs = Math.max(currentStep(Date.now()), from ? Date.parse(from) : 0)
    const span = { startMs, endMs: startMs + SEARCH_MS }
    const taken = await database().booking.findMany({
      where: { stationId, status: { in: [...LIVE] }, ...during(span) },
      select: { startAt: true, endAt: true },
    })
    const gaps = freeGaps(openIntervals(station, zoneOf(timeZone), span), taken.map(asInterval))
    const slots = firstSlots(gaps, inWholeSteps(minutes) * 60_000, MOST_SLOTS)
    return ok(slots.map((s) => ({ startAt: new Date(s.startMs), endAt: new Date(s.endMs) })))
  },
})

/** My bookings that have not ended, and what was declined or taken back lately, the next first. */
export const myBookings = query({
  audience: 'member',
  input: nothing,
  run: async (actor) =>
    ok(
      await database().booking.findMany({
        where: { memberId: actor.memberId, endAt: { gt: new Date() } },
        orderBy: { startAt: 'asc' },
        select: shown,
        take: 200,
      }),
    ),
})

/** What waits for my yes or no as keeper, the next first. An admin sees their own stations here, not all. */
export const bookingsToDecide = query({
  audience: 'keeper',
  input: nothing,
  run: async (actor) =>
    ok(
      await database().booking.findMany({
        where: { status: 'requested', endAt: { gt: new Date() }, station: { keeperId: actor.memberId } },
        orderBy: { startAt: 'asc' },
        select: shown,
        take: 200,
      }),
    ),
})

/** What waits at one station, for who answers for it. */
export const stationRequests = query({
  audience: 'keeper',
  input: z.object({ stationId: id }),
  run: async (actor, { stationId }) => {
    const own = actor.role === 'admin' ? {} : { keeperId: actor.memberId }
    const station = await database().station.findFirst({ where: { id: stationId, ...own } })
    if (!station) return err(refusal('notFound'))
    return ok(
      await database().booking.findMany({
        where: { stationId, status: 'requested', endAt: { gt: new Date() } },
        orderBy: { startAt: 'asc' },
        select: shown,
        take: 200,
      }),
    )
  },
})

/** Live bookings for a build, for its page. */
export const bookingsOfBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_, { buildId }) =>
    ok(
      await database().booking.findMany({
        where: { buildId, status: { in: [...LIVE] } },
        orderBy: { startAt: 'asc' },
        select: shownToAll,
      }),
    ),
})
