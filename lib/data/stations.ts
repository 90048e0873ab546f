import 'server-only'
import { z } from 'zod'
import { zoneOf } from '#lib/core/schedule/zoned-time'
import { err, ok } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { currentStep, firstSlots, freeGaps, openIntervals } from '#lib/shop/bookings'
import { refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import { holdMember } from './internal/member-lock'
import { shopRow } from './internal/shop-row'
import { announce, type Transaction, transact } from './transaction'

const size = (most: number, sentence: string) =>
  z.int(sentence).min(1, sentence).max(most, sentence).nullable()
const minute = (sentence: string) => z.int(sentence).min(0, sentence).max(1440, sentence)

/** What a keeper may change on their own station. Sizes in whole micrometres, null where there is none. */
const tuning = {
  place: z.string().trim().max(120, 'At most 120 characters.'),
  notes: z.string().trim().max(2000, 'At most 2000 characters.'),
  opensMinute: minute('A time of the day, like 08:00.'),
  closesMinute: minute('A time of the day, like 22:00.'),
  kerfUm: size(30_000, 'A kerf is more than 0 and at most 30 mm.'),
  maxRipWidthUm: size(5_000_000, 'More than 0 and at most 5 m.'),
  maxCrosscutWidthUm: size(5_000_000, 'More than 0 and at most 5 m.'),
  minPieceLengthUm: size(2_000_000, 'More than 0 and at most 2 m.'),
  minPieceWidthUm: size(2_000_000, 'More than 0 and at most 2 m.'),
  maxPassUm: size(200_000, 'More than 0 and at most 200 mm.'),
}
const setting = {
  name: z.string().trim().min(1, 'Type a name.').max(80, 'At most 80 characters.'),
  kind: z.enum(
    ['planer', 'tableSaw', 'routerTable', 'drillPress', 'bandSaw', 'laserEngraver', 'assemblyBench'],
    'Choose what it is.',
  ),
  keeperId: z.uuid('Choose who answers for it.'),
  needsInduction: z.boolean(),
  needsApproval: z.boolean(),
}
const opensFirst = (hours: { opensMinute: number; closesMinute: number }) =>
  hours.opensMinute < hours.closesMinute
const hoursFault = { path: ['closesMinute'], message: 'It must close after it opens.' }

const CLASHES = {
  Station_name_key: refusal('alreadyExists', { fields: { name: 'There is a station of that name.' } }),
}

/** The stations that an actor answers for: a keeper their own, an admin all. Stands in the `where` of each write. */
const answersFor = (actor: Actor) => (actor.role === 'admin' ? {} : { keeperId: actor.memberId })

const NO_KEEPER = refusal('badInput', { fields: { keeperId: 'Choose a keeper or an admin.' } })

/** The keeper is kept from being removed or demoted until the station is written. */
const isKeeper = (tx: Transaction, memberId: string) => holdMember(tx, memberId, ['admin', 'keeper'])

export const createStation = action({
  audience: 'admin',
  input: z.object({ ...setting, ...tuning }).refine(opensFirst, hoursFault),
  run: (_, data) =>
    transact(async (tx) => {
      if (!(await isKeeper(tx, data.keeperId))) return err(NO_KEEPER)
      const { id } = await tx.station.create({ data })
      await announce(tx, 'stations')
      return ok({ stationId: id })
    }, CLASHES),
})

export const editStation = action({
  audience: 'admin',
  input: z.object({ stationId: id, ...setting, ...tuning }).refine(opensFirst, hoursFault),
  run: (_, { stationId, ...data }) =>
    transact(async (tx) => {
      if (!(await isKeeper(tx, data.keeperId))) return err(NO_KEEPER)
      const { count } = await tx.station.updateMany({ where: { id: stationId, retiredAt: null }, data })
      if (count !== 1) return err(refusal('notFound'))
      await announce(tx, 'stations')
      await announce(tx, `station:${stationId}`)
      return ok(null)
    }, CLASHES),
})

/** A keeper's own changes: place, notes, hours and limits. Bookings made before stay as they are. */
export const tuneStation = action({
  audience: 'keeper',
  input: z.object({ stationId: id, ...tuning }).refine(opensFirst, hoursFault),
  run: (actor, { stationId, ...data }) =>
    transact(async (tx) => {
      const where = { id: stationId, retiredAt: null, ...answersFor(actor) }
      const { count } = await tx.station.updateMany({ where, data })
      if (count !== 1) return err(refusal('notFound'))
      await announce(tx, `station:${stationId}`)
      return ok(null)
    }),
})

/** Takes a station out of use; its bookings to come are cancelled. */
export const retireStation = action({
  audience: 'admin',
  input: z.object({ stationId: id }),
  run: (actor, { stationId }) =>
    transact(async (tx) => {
      const now = new Date()
      const { count } = await tx.station.updateMany({
        where: { id: stationId, retiredAt: null },
        data: { retiredAt: now },
      })
      if (count !== 1) return err(refusal('notFound'))
      const cancelled = await tx.booking.updateManyAndReturn({
        where: { stationId, status: { in: ['requested', 'approved'] }, endAt: { gt: now } },
        data: {
          status: 'cancelled',
          decidedById: actor.memberId,
          decidedAt: now,
          decisionNote: 'The station is out of use.',
        },
        select: { memberId: true },
      })
      for (const memberId of new Set(cancelled.map((b) => b.memberId)))
        await announce(tx, `member:${memberId}`)
      await announce(tx, 'stations')
      await announce(tx, `station:${stationId}`)
      return ok({ bookings: cancelled.length })
    }),
})

export const giveInduction = action({
  audience: 'keeper',
  input: z.object({ stationId: id, memberId: z.uuid('Choose who was shown.') }),
  run: (actor, { stationId, memberId }) =>
    transact(
      async (tx) => {
        if (!(await holdMember(tx, memberId)))
          return err(refusal('badInput', { fields: { memberId: 'Choose who was shown.' } }))
        const where = { id: stationId, retiredAt: null, ...answersFor(actor) }
        // An update that changes nothing: the station is the actor's until this commits.
        const own = await tx.station.updateMany({ where, data: { retiredAt: null } })
        if (own.count !== 1) return err(refusal('notFound'))
        await tx.induction.create({ data: { stationId, memberId, givenById: actor.memberId } })
        await announce(tx, `station:${stationId}`)
        return ok(null)
      },
      { induction_one_live: refusal('alreadyExists', { fields: { memberId: 'They have it already.' } }) },
    ),
})

export const revokeInduction = action({
  audience: 'keeper',
  input: z.object({ stationId: id, memberId: id }),
  run: (actor, { stationId, memberId }) =>
    transact(async (tx) => {
      const { count } = await tx.induction.updateMany({
        where: { stationId, memberId, revokedAt: null, station: answersFor(actor) },
        data: { revokedAt: new Date() },
      })
      if (count !== 1) return err(refusal('notFound'))
      await announce(tx, `station:${stationId}`)
      return ok(null)
    }),
})

const shown = {
  id: true,
  name: true,
  kind: true,
  place: true,
  notes: true,
  needsInduction: true,
  needsApproval: true,
  opensMinute: true,
  closesMinute: true,
  kerfUm: true,
  maxRipWidthUm: true,
  maxCrosscutWidthUm: true,
  minPieceLengthUm: true,
  minPieceWidthUm: true,
  maxPassUm: true,
  keeper: { select: { id: true, name: true } },
} as const

/** What an actor is to a station. */
const standing = (actor: Actor, s: { keeper: { id: string }; inductions: readonly unknown[] }) => ({
  isInducted: s.keeper.id === actor.memberId || s.inductions.length > 0,
  isMine: s.keeper.id === actor.memberId,
  mayKeep: s.keeper.id === actor.memberId || actor.role === 'admin',
})

const NEXT_FREE_MS = 60 * 60_000
const LOOK_AHEAD_MS = 14 * 24 * 3_600_000

/** All stations in use, when each is next free for an hour, and whether the actor has been shown how to use it. */
export const listStations = query({
  audience: 'member',
  shared: true,
  input: nothing,
  run: async (actor) => {
    const shop = await shopRow()
    const zone = zoneOf(shop.timeZone)
    const startMs = currentStep(Date.now())
    const span = { startMs, endMs: startMs + LOOK_AHEAD_MS }
    const rows = await database().station.findMany({
      where: { retiredAt: null },
      orderBy: { name: 'asc' },
      select: {
        ...shown,
        inductions: { where: { memberId: actor.memberId, revokedAt: null }, select: { id: true } },
        bookings: {
          where: {
            status: { in: ['requested', 'approved'] },
            endAt: { gt: new Date(span.startMs) },
            startAt: { lt: new Date(span.endMs) },
          },
          select: { startAt: true, endAt: true, status: true },
        },
      },
    })
    return ok(
      rows.map(({ bookings, inductions, ...station }) => {
        const taken = bookings.map((b) => ({ startMs: b.startAt.getTime(), endMs: b.endAt.getTime() }))
        const free = firstSlots(freeGaps(openIntervals(station, zone, span), taken), NEXT_FREE_MS, 1)[0]
        return {
          ...station,
          ...standing(actor, { ...station, inductions }),
          nextFreeAt: free ? new Date(free.startMs) : null,
          toDecide: bookings.filter((b) => b.status === 'requested').length,
        }
      }),
    )
  },
})

export const oneStation = query({
  audience: 'member',
  shared: true,
  input: z.object({ stationId: id }),
  run: async (actor, { stationId }) => {
    const found = await database().station.findFirst({
      where: { id: stationId, retiredAt: null },
      select: {
        ...shown,
        inductions: { where: { memberId: actor.memberId, revokedAt: null }, select: { id: true } },
      },
    })
    if (!found) return err(refusal('notFound'))
    const { inductions, ...station } = found
    return ok({ ...station, ...standing(actor, found) })
  },
})

/** Who has been shown how to use a station, for its keeper. */
export const listInductions = query({
  audience: 'keeper',
  input: z.object({ stationId: id }),
  run: async (actor, { stationId }) => {
    const station = await database().station.findFirst({
      where: { id: stationId, ...answersFor(actor) },
      select: {
        inductions: {
          where: { revokedAt: null },
          orderBy: { member: { name: 'asc' } },
          select: {
            givenAt: true,
            member: { select: { id: true, name: true } },
            givenBy: { select: { name: true } },
          },
        },
      },
    })
    if (!station) return err(refusal('notFound'))
    return ok(station.inductions.map((i) => ({ ...i.member, givenAt: i.givenAt, givenBy: i.givenBy.name })))
  },
})
