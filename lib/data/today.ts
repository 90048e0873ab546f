/**
 * Today: what waits for the actor as maker, what is drying, what is booked next, what others decided. A fixed number
 * of queries, however many builds. Requests that wait for a yes are in holds.ts and booking-lists.ts.
 * Tests: tests/data/today.test.ts
 */
import 'server-only'
import { ok } from '#lib/core/units/result'
import { buildStage } from '#lib/shop/build-stage'
import { waitState } from '#lib/shop/waits'
import { nothing, query } from './action'
import { database } from './client'
import { buildFacts } from './internal/build-facts'
import { sayNear } from './internal/say-near'

const HOUR_MS = 3_600_000
const LOOK_BACK_MS = 7 * 24 * HOUR_MS
const LOOK_AHEAD_MS = 7 * 24 * HOUR_MS
const LAPSE_SOON_MS = 24 * HOUR_MS
const MOST = 100

const openBuild = { finishedAt: null, abandonedAt: null }

/** My open builds; those that wait for me first, then those changed last. */
async function myBuilds(memberId: string, now: Date) {
  const rows = await database().build.findMany({
    where: { memberId, ...openBuild },
    select: { id: true, name: true },
    orderBy: [{ updatedAt: 'desc' }, { id: 'asc' }],
    take: MOST,
  })
  const [facts, say] = await Promise.all([
    buildFacts(
      rows.map((r) => r.id),
      now,
    ),
    sayNear(now),
  ])
  const builds = rows.map((r) => ({ ...r, ...buildStage(facts.get(r.id)!, say) }))
  const isMine = (b: (typeof builds)[number]) => b.next?.turn.of === 'maker'
  return [...builds.filter(isMine), ...builds.filter((b) => !isMine(b))]
}

/** What dries in my builds, the first to be ready first. */
async function drying(memberId: string, now: Date) {
  const rows = await database().wait.findMany({
    where: { clearedAt: null, build: { memberId, ...openBuild } },
    select: {
      id: true,
      kind: true,
      label: true,
      readyAt: true,
      clearedAt: true,
      build: { select: { id: true, name: true } },
    },
    orderBy: [{ readyAt: 'asc' }, { id: 'asc' }],
    take: MOST,
  })
  return rows.map(({ build, clearedAt, ...w }) => ({
    ...w,
    state: waitState({ ...w, clearedAt }, now),
    buildId: build.id,
    buildName: build.name,
  }))
}

const BOOKED = {
  id: true,
  status: true,
  startAt: true,
  endAt: true,
  memberId: true,
  member: { select: { name: true } },
  station: { select: { id: true, name: true, place: true, keeperId: true } },
  build: { select: { id: true, name: true } },
} as const

/** My bookings and those at stations that I keep, in the week to come. */
async function booked(memberId: string, now: Date) {
  const rows = await database().booking.findMany({
    where: {
      status: { in: ['requested', 'approved'] },
      endAt: { gt: now },
      startAt: { lt: new Date(now.getTime() + LOOK_AHEAD_MS) },
      OR: [{ memberId }, { station: { keeperId: memberId }, status: 'approved' }],
    },
    select: BOOKED,
    orderBy: [{ startAt: 'asc' }, { id: 'asc' }],
    take: MOST,
  })
  return rows.map(({ member, station, build, ...b }) => ({
    ...b,
    isMine: b.memberId === memberId,
    hasBegun: b.startAt <= now,
    memberName: member.name,
    stationId: station.id,
    stationName: station.name,
    place: station.place,
    buildId: build?.id ?? null,
    buildName: build?.name ?? null,
  }))
}

export interface Decision {
  readonly id: string
  readonly what: 'hold' | 'booking'
  /** lapsed: nobody answered, or its time ran out. */
  readonly answer: 'yes' | 'no' | 'lapsed' | 'takenBack'
  /** «Board 14», «Table saw, today, 14:00». */
  readonly about: string
  readonly by: string | null
  readonly note: string
  readonly at: Date
  readonly href: string
}

/** Answers of owners to what I asked for, and holds of mine that ran out. */
async function holdDecisions(memberId: string, since: Date): Promise<Decision[]> {
  const rows = await database().hold.findMany({
    where: {
      memberId,
      build: openBuild,
      OR: [
        { decidedAt: { gt: since }, decidedById: { not: memberId } },
        { status: 'lapsed', endedAt: { gt: since } },
      ],
    },
    select: {
      id: true,
      status: true,
      buildId: true,
      decidedAt: true,
      endedAt: true,
      decidedBy: { select: { name: true } },
      board: { select: { number: true } },
    },
    orderBy: [{ createdAt: 'desc' }],
    take: MOST,
  })
  return rows.map((h) => ({
    id: h.id,
    what: 'hold',
    answer: h.status === 'lapsed' ? 'lapsed' : h.status === 'declined' ? 'no' : 'yes',
    about: `Board ${h.board.number}`,
    by: h.status === 'lapsed' ? null : (h.decidedBy?.name ?? null),
    note: '',
    at: (h.status === 'lapsed' ? h.endedAt : h.decidedAt) as Date,
    href: `/builds/${h.buildId}/cutting`,
  }))
}

const BOOKING_ANSWER = { approved: 'yes', declined: 'no', cancelled: 'takenBack' } as const

/** Answers of keepers to what I asked for. */
async function bookingDecisions(
  memberId: string,
  since: Date,
  say: (at: Date) => string,
): Promise<Decision[]> {
  const rows = await database().booking.findMany({
    where: {
      memberId,
      decidedAt: { gt: since },
      decidedById: { not: memberId },
      status: { in: ['approved', 'declined', 'cancelled'] },
    },
    select: {
      id: true,
      status: true,
      startAt: true,
      decidedAt: true,
      decisionNote: true,
      decidedBy: { select: { name: true } },
      station: { select: { id: true, name: true } },
    },
    orderBy: { decidedAt: 'desc' },
    take: MOST,
  })
  return rows.map((b) => ({
    id: b.id,
    what: 'booking',
    answer: BOOKING_ANSWER[b.status as keyof typeof BOOKING_ANSWER],
    about: `${b.station.name}, ${say(b.startAt)}`,
    by: b.decidedBy?.name ?? null,
    note: b.decisionNote,
    at: b.decidedAt as Date,
    href: `/stations/${b.station.id}`,
  }))
}

/** Boards that my builds lose within a day, a line a build. */
async function lapsingSoon(memberId: string, now: Date) {
  const rows = await database().hold.groupBy({
    by: ['buildId'],
    where: {
      status: 'live',
      expiresAt: { gt: now, lt: new Date(now.getTime() + LAPSE_SOON_MS) },
      build: { memberId, ...openBuild },
    },
    _count: true,
    _min: { expiresAt: true },
  })
  return rows.map((r) => ({ buildId: r.buildId, boards: r._count, firstAt: r._min.expiresAt as Date }))
}

/** What others said about my builds lately, the newest first. */
async function remarks(memberId: string, since: Date) {
  const rows = await database().comment.findMany({
    where: {
      deletedAt: null,
      createdAt: { gt: since },
      memberId: { not: memberId },
      build: { memberId, ...openBuild },
    },
    select: {
      id: true,
      body: true,
      createdAt: true,
      member: { select: { name: true } },
      build: { select: { id: true, name: true } },
      variant: { select: { id: true, name: true, deletedAt: true } },
    },
    orderBy: { createdAt: 'desc' },
    take: 5,
  })
  return rows.map(({ member, build, variant, ...c }) => ({
    ...c,
    memberName: member.name,
    buildId: build.id,
    buildName: build.name,
    variant: variant && !variant.deletedAt ? { id: variant.id, name: variant.name } : null,
  }))
}

/** Who voted for which variant of my builds lately, the newest first. */
async function votes(memberId: string, since: Date) {
  const rows = await database().vote.findMany({
    where: {
      at: { gt: since },
      memberId: { not: memberId },
      member: { removedAt: null },
      build: { memberId, ...openBuild },
    },
    select: {
      id: true,
      at: true,
      member: { select: { name: true } },
      build: { select: { id: true, name: true } },
      variant: { select: { name: true } },
    },
    orderBy: { at: 'desc' },
    take: 5,
  })
  return rows.map(({ id, at, member, build, variant }) => ({
    id,
    at,
    memberName: member.name,
    buildId: build.id,
    buildName: build.name,
    variantName: variant.name,
  }))
}

/** What a new member has not done yet. */
async function firsts(memberId: string) {
  const [boards, builds, inductions, kept, stations] = await Promise.all([
    database().board.count({ where: { ownerId: memberId } }),
    database().build.count({ where: { memberId } }),
    database().induction.count({ where: { memberId, revokedAt: null } }),
    database().station.count({ where: { keeperId: memberId, retiredAt: null } }),
    database().station.count({ where: { retiredAt: null } }),
  ])
  return {
    hasBoard: boards > 0,
    hasBuild: builds > 0,
    hasInduction: inductions > 0 || kept > 0,
    hasStations: stations > 0,
  }
}

export const mine = query({
  audience: 'member',
  input: nothing,
  run: async ({ memberId }) => {
    const now = new Date()
    const since = new Date(now.getTime() - LOOK_BACK_MS)
    const say = await sayNear(now)
    const [builds, dries, times, holds, bookings, lapsing, said, voted, first] = await Promise.all([
      myBuilds(memberId, now),
      drying(memberId, now),
      booked(memberId, now),
      holdDecisions(memberId, since),
      bookingDecisions(memberId, since, say),
      lapsingSoon(memberId, now),
      remarks(memberId, since),
      votes(memberId, since),
      firsts(memberId),
    ])
    const decisions = [...holds, ...bookings].sort((a, b) => b.at.getTime() - a.at.getTime()).slice(0, 12)
    return ok({
      now,
      builds,
      drying: dries,
      booked: times,
      decisions,
      lapsing,
      remarks: said,
      votes: voted,
      firsts: first,
    })
  },
})
