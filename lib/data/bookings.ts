import 'server-only'
import { z } from 'zod'
import { zoneOf } from '#lib/core/schedule/zoned-time'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { bookingFault, type Interval } from '#lib/shop/bookings'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id } from './action'
import { during, LIVE } from './internal/booking-span'
import { instant, note } from './internal/fields'
import { holdMember } from './internal/member-lock'
import { ownOpenBuild } from './internal/own-build'
import { sayInstant, shopRow } from './internal/shop-row'
import { announce, type Transaction, transact } from './transaction'

/** The station in use, locked: one booking of a station is written at a time, so a clash is told by name. */
async function lockStation(tx: Transaction, stationId: string) {
  await tx.$queryRaw`select 1 from "Station" where "id" = ${stationId}::uuid for no key update`
  return tx.station.findFirst({
    where: { id: stationId, retiredAt: null },
    include: { keeper: { select: { id: true, name: true } } },
  })
}

/** The induction is kept from being revoked until the booking is written. */
async function isInducted(tx: Transaction, stationId: string, memberId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    select 1 from "Induction"
    where "stationId" = ${stationId}::uuid and "memberId" = ${memberId}::uuid and "revokedAt" is null
    for share`
  return rows.length > 0
}

async function whoHasIt(
  tx: Transaction,
  actor: Actor,
  stationId: string,
  span: Interval,
  say: (at: Date) => string,
): Promise<Refusal | null> {
  const there = await tx.booking.findFirst({
    where: { stationId, status: { in: [...LIVE] }, ...during(span) },
    orderBy: { startAt: 'asc' },
    select: { startAt: true, endAt: true, memberId: true, member: { select: { name: true } } },
  })
  if (!there) return null
  const who = there.memberId === actor.memberId ? 'You have it yourself' : `${there.member.name} has it`
  const about = `${who} from ${say(there.startAt)} to ${say(there.endAt)}.`
  return refusal('slotTaken', { about })
}

/** My other bookings at that time: allowed, and worth saying. */
async function elsewhere(tx: Transaction, actor: Actor, span: Interval, say: (at: Date) => string) {
  const rows = await tx.booking.findMany({
    where: { memberId: actor.memberId, status: { in: [...LIVE] }, ...during(span) },
    orderBy: { startAt: 'asc' },
    select: { startAt: true, endAt: true, station: { select: { name: true } } },
  })
  return rows.map((b) => `You also have ${b.station.name} from ${say(b.startAt)} to ${say(b.endAt)}.`)
}

/**
 * Asks for a station. Approved at once where no approval is needed or the keeper asks for their own; otherwise it
 * waits for the keeper, and keeps the time meanwhile. `notes` tell of the actor's own bookings at the same time.
 */
export const askForBooking = action({
  audience: 'member',
  input: z.object({
    stationId: id,
    startAt: instant,
    endAt: instant,
    buildId: id.nullish(),
    note,
  }),
  run: (actor, input) => {
    const span = { startMs: Date.parse(input.startAt), endMs: Date.parse(input.endAt) }
    return transact(
      async (tx) => {
        if (!(await holdMember(tx, actor.memberId))) return err(refusal('notSignedIn'))
        const station = await lockStation(tx, input.stationId)
        if (!station) return err(refusal('notFound'))
        const shop = await shopRow(tx)
        const zone = zoneOf(shop.timeZone)
        const fault = bookingFault(span, { hours: station, zone, nowMs: Date.now() })
        if (fault) return err(fault)
        const isKeeper = station.keeperId === actor.memberId
        if (station.needsInduction && !isKeeper && !(await isInducted(tx, station.id, actor.memberId)))
          return err(refusal('notInducted', { about: `It is ${station.keeper.name}.` }))
        if (input.buildId) {
          const build = await ownOpenBuild(tx, actor, input.buildId)
          if (!build.ok) return build
        }
        const say = sayInstant(shop.timeZone)
        const taken = await whoHasIt(tx, actor, station.id, span, say)
        if (taken) return err(taken)
        const notes = await elsewhere(tx, actor, span, say)
        const status = station.needsApproval && !isKeeper ? 'requested' : 'approved'
        const { id } = await tx.booking.create({
          data: {
            stationId: station.id,
            memberId: actor.memberId,
            buildId: input.buildId ?? null,
            startAt: new Date(span.startMs),
            endAt: new Date(span.endMs),
            note: input.note,
            status,
          },
        })
        await announceBooking(tx, {
          stationId: station.id,
          memberId: actor.memberId,
          keeperId: station.keeperId,
        })
        return ok({ bookingId: id, status, notes })
      },
      { booking_no_overlap: refusal('slotTaken') },
    )
  },
})

async function announceBooking(
  tx: Transaction,
  b: { stationId: string; memberId: string; keeperId: string; buildId?: string | null },
): Promise<void> {
  for (const topic of ['stations', `station:${b.stationId}`]) await announce(tx, topic)
  for (const memberId of new Set([b.memberId, b.keeperId])) await announce(tx, `member:${memberId}`)
  if (b.buildId) await announce(tx, `build:${b.buildId}`)
}

/** Why a booking could not be decided or cancelled. */
async function whyNot(
  tx: Transaction,
  bookingId: string,
  may: (b: { memberId: string; keeperId: string }) => boolean,
): Promise<Refusal> {
  const b = await tx.booking.findUnique({
    where: { id: bookingId },
    include: { station: { select: { keeperId: true } }, decidedBy: { select: { name: true } } },
  })
  if (!b) return refusal('notFound')
  if (!may({ memberId: b.memberId, keeperId: b.station.keeperId })) return refusal('notAllowed')
  if (b.endAt <= new Date()) return refusal('alreadyDecided', { about: 'Its time is over.' })
  const by = b.decidedBy ? ` by ${b.decidedBy.name}` : ''
  return refusal('alreadyDecided', { about: `It is ${b.status}${by}.` })
}

async function settled(
  tx: Transaction,
  rows: readonly { stationId: string; memberId: string; buildId: string | null }[],
): Promise<boolean> {
  for (const row of rows) {
    const { keeperId } = await tx.station.findUniqueOrThrow({ where: { id: row.stationId } })
    await announceBooking(tx, { ...row, keeperId })
  }
  return rows.length === 1
}

const touched = { stationId: true, memberId: true, buildId: true } as const

/** The keeper's yes or no; whoever decides first has decided. */
export const decideBooking = action({
  audience: 'keeper',
  input: z.object({ bookingId: id, approve: z.boolean(), note }),
  run: (actor, { bookingId, approve, note }) =>
    transact(async (tx): Promise<Result<{ status: 'approved' | 'declined' }, Refusal>> => {
      const now = new Date()
      const status = approve ? 'approved' : 'declined'
      const rows = await tx.booking.updateManyAndReturn({
        where: {
          id: bookingId,
          status: 'requested',
          endAt: { gt: now },
          station: actor.role === 'admin' ? {} : { keeperId: actor.memberId },
        },
        data: { status, decidedById: actor.memberId, decidedAt: now, decisionNote: note },
        select: touched,
      })
      if (await settled(tx, rows)) return ok({ status })
      const may = (b: { keeperId: string }) => actor.role === 'admin' || b.keeperId === actor.memberId
      return err(await whyNot(tx, bookingId, may))
    }),
})

/** Given up by who made it, or taken back by the keeper. */
export const cancelBooking = action({
  audience: 'member',
  input: z.object({ bookingId: id, note }),
  run: (actor, { bookingId, note }) =>
    transact(async (tx) => {
      const now = new Date()
      const mineOrKept = [{ memberId: actor.memberId }, { station: { keeperId: actor.memberId } }]
      const rows = await tx.booking.updateManyAndReturn({
        where: {
          id: bookingId,
          status: { in: [...LIVE] },
          endAt: { gt: now },
          ...(actor.role === 'admin' ? {} : { OR: mineOrKept }),
        },
        data: { status: 'cancelled', decidedById: actor.memberId, decidedAt: now, decisionNote: note },
        select: touched,
      })
      if (await settled(tx, rows)) return ok(null)
      const may = (b: { memberId: string; keeperId: string }) =>
        actor.role === 'admin' || [b.memberId, b.keeperId].includes(actor.memberId)
      return err(await whyNot(tx, bookingId, may))
    }),
})
