import { beforeAll, describe, expect, test } from 'vitest'
import {
  bookingsOfBuild,
  bookingsToDecide,
  freeSlots,
  myBookings,
  stationRequests,
  stationTimes,
} from '#lib/data/booking-lists'
import { askForBooking, cancelBooking, decideBooking } from '#lib/data/bookings'
import { database } from '#lib/data/client'
import { giveInduction, revokeInduction } from '#lib/data/stations'
import type { Actor } from '#lib/shop/actor'
import { build, member, shop, station } from './arrange'

let admin: Actor
let keeper: Actor
let maker: Actor
let other: Actor

beforeAll(async () => {
  await shop()
  admin = await member('admin', 'Ada')
  keeper = await member('keeper', 'Kim')
  maker = await member('member', 'Max')
  other = await member('member', 'Olga')
})

/** Hours from the next midnight (UTC) but one. */
const at = (hours: number) => {
  const day = Math.ceil(Date.now() / 86_400_000 + 1) * 86_400_000
  return new Date(day + hours * 3_600_000).toISOString()
}
const ask = (actor: Actor, s: { id: string }, from: number, to: number, over: object = {}) =>
  askForBooking(actor, { stationId: s.id, startAt: at(from), endAt: at(to), ...over })
async function asked(...args: Parameters<typeof ask>) {
  const result = await ask(...args)
  if (!result.ok) throw new Error(JSON.stringify(result.error))
  return result.value
}

describe('asking for a station', () => {
  test('50 at once for one slot: exactly one has it, each other is told who, none throws', async () => {
    const saw = await station(keeper)
    const makers = await Promise.all(Array.from({ length: 50 }, (_, i) => member('member', `Maker ${i}`)))
    const results = await Promise.all(makers.map((m, i) => ask(m, saw, 9 + (i % 3) * 0.25, 11)))
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    const winner = makers[results.findIndex((r) => r.ok)].name
    for (const r of results)
      if (!r.ok)
        expect(r.error).toMatchObject({
          code: 'slotTaken',
          about: expect.stringMatching(`^${winner} has it from`),
        })
    expect(await database().booking.count({ where: { stationId: saw.id } })).toBe(1)
  })

  test('the database itself refuses an overlap written around the action', async () => {
    const saw = await station(keeper)
    await asked(maker, saw, 9, 11)
    const row = { stationId: saw.id, memberId: other.memberId, startAt: at(10), endAt: at(12) }
    await expect(database().booking.create({ data: row })).rejects.toThrow(/booking_no_overlap/)
  })

  test('touching is not overlapping; a cancelled or declined time is free again', async () => {
    const saw = await station(keeper, { needsApproval: true })
    const first = await asked(maker, saw, 9, 10)
    await asked(other, saw, 10, 11)
    expect(await ask(other, saw, 9.75, 10)).toMatchObject({ error: { code: 'slotTaken' } })
    expect(await ask(maker, saw, 9.5, 10)).toMatchObject({
      error: { code: 'slotTaken', about: expect.stringMatching(/^You have it yourself from/) },
    })
    expect((await cancelBooking(maker, { bookingId: first.bookingId })).ok).toBe(true)
    const second = await asked(other, saw, 9, 10)
    await decideBooking(keeper, { bookingId: second.bookingId, approve: false })
    await asked(maker, saw, 9, 10)
  })

  test('approved at once where no approval is needed, or by the keeper for their own; else asked', async () => {
    const [open, asks] = [await station(keeper), await station(keeper, { needsApproval: true })]
    expect((await asked(maker, open, 9, 10)).status).toBe('approved')
    expect((await asked(maker, asks, 9, 10)).status).toBe('requested')
    expect((await asked(keeper, asks, 11, 12)).status).toBe('approved')
    expect((await asked(admin, asks, 13, 14)).status).toBe('requested')
  })

  test('needs a live induction where the station demands it; the keeper has it', async () => {
    const saw = await station(keeper, { needsInduction: true })
    const both = { stationId: saw.id, memberId: maker.memberId }
    expect(await ask(maker, saw, 9, 10)).toMatchObject({
      error: { code: 'notInducted', about: 'It is Kim.' },
    })
    await giveInduction(keeper, both)
    await asked(maker, saw, 9, 10)
    await revokeInduction(keeper, both)
    expect(await ask(maker, saw, 11, 12)).toMatchObject({ error: { code: 'notInducted' } })
    await asked(keeper, saw, 11, 12)
  })

  test('in the shop’s hours, in the shop’s zone', async () => {
    const saw = await station(keeper, { opensMinute: 480, closesMinute: 1320 })
    // 12:00Z is 13:00 or 14:00 in Berlin; 22:00Z is closed all year.
    await asked(maker, saw, 12, 13)
    expect(await ask(maker, saw, 22, 23)).toMatchObject({
      error: { code: 'outsideHours', about: 'It is open from 08:00 to 22:00.' },
    })
  })

  test('a sentence beside what is wrong', async () => {
    const saw = await station(keeper)
    expect(await ask(maker, saw, 10, 9)).toMatchObject({ error: { fields: { endAt: expect.any(String) } } })
    expect(await ask(maker, saw, -72, -71)).toMatchObject({
      error: { fields: { startAt: 'That time is past.' } },
    })
    expect(await ask(maker, saw, 0, 25)).toMatchObject({ error: { fields: { endAt: expect.any(String) } } })
    const junk = { stationId: saw.id, startAt: 'tomorrow', endAt: '', note: 'x'.repeat(1001) }
    const result = await askForBooking(maker, junk)
    expect(!result.ok && Object.keys(result.error.fields!).sort()).toEqual(['endAt', 'note', 'startAt'])
  })

  test('one’s own overlap at another station is allowed and told', async () => {
    const [saw, planer] = [await station(keeper), await station(keeper, { name: 'The planer' })]
    const busy = await member()
    await asked(busy, planer, 9, 11)
    const { notes } = await asked(busy, saw, 10, 12)
    expect(notes).toEqual([expect.stringMatching(/^You also have The planer from .+ to .+\.$/)])
  })

  test('for a build of one’s own only; not at a station out of use', async () => {
    const saw = await station(keeper)
    const mine = await build(maker)
    expect(await ask(other, saw, 9, 10, { buildId: mine.id })).toMatchObject({
      error: { code: 'notAllowed' },
    })
    const { bookingId } = await asked(maker, saw, 9, 10, { buildId: mine.id })
    expect(await bookingsOfBuild(other, { buildId: mine.id })).toMatchObject({ value: [{ id: bookingId }] })
    const old = await station(keeper, { retiredAt: new Date() })
    expect(await ask(maker, old, 9, 10)).toMatchObject({ error: { code: 'notFound' } })
  })

  test('not by who was removed at that moment: nothing live is left behind', async () => {
    const saw = await station(keeper)
    const { removeMember } = await import('#lib/data/members')
    for (let i = 0; i < 6; i++) {
      const gone = await member()
      const [booked] = await Promise.all([
        ask(gone, saw, 30 + i, 31 + i),
        removeMember(admin, { memberId: gone.memberId }),
      ])
      if (!booked.ok) expect(booked.error.code).toBe('notSignedIn')
      expect(
        await database().booking.count({ where: { memberId: gone.memberId, status: { not: 'cancelled' } } }),
      ).toBe(0)
    }
  })
})

describe('deciding', () => {
  test('20 yes and no at once: the first decides, the others are told', async () => {
    const saw = await station(keeper, { needsApproval: true })
    const { bookingId } = await asked(maker, saw, 9, 10)
    const results = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        decideBooking(i % 2 ? keeper : admin, { bookingId, approve: i % 3 === 0, note: `no ${i}` }),
      ),
    )
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    for (const r of results)
      if (!r.ok) expect(r.error).toMatchObject({ code: 'alreadyDecided', about: expect.any(String) })
    const row = await database().booking.findUniqueOrThrow({ where: { id: bookingId } })
    const index = results.findIndex((r) => r.ok)
    expect(row).toMatchObject({
      status: index % 3 === 0 ? 'approved' : 'declined',
      decisionNote: `no ${index}`,
    })
  })

  test('waits for the keeper of that station, listed with its note', async () => {
    const second = await member('keeper', 'Second')
    const saw = await station(second, { needsApproval: true })
    const { bookingId } = await asked(maker, saw, 9, 10, { note: 'Two oak legs' })
    expect(await bookingsToDecide(second, {})).toMatchObject({
      value: [{ id: bookingId, note: 'Two oak legs' }],
    })
    expect(await stationRequests(second, { stationId: saw.id })).toMatchObject({ value: [{ id: bookingId }] })
    expect(await decideBooking(keeper, { bookingId, approve: true })).toMatchObject({
      error: { code: 'notAllowed' },
    })
    expect(await decideBooking(second, { bookingId, approve: false, note: 'Blade is out' })).toMatchObject({
      value: { status: 'declined' },
    })
    expect(await bookingsToDecide(second, {})).toEqual({ ok: true, value: [] })
    const mine = await myBookings(maker, {})
    expect(mine.ok && mine.value.find((b) => b.id === bookingId)).toMatchObject({
      decisionNote: 'Blade is out',
    })
  })

  test('cancelled by its maker or keeper, once, and not when it is over', async () => {
    const saw = await station(keeper)
    const one = await asked(maker, saw, 9, 10)
    expect(await cancelBooking(other, { bookingId: one.bookingId })).toMatchObject({
      error: { code: 'notAllowed' },
    })
    expect((await cancelBooking(keeper, { bookingId: one.bookingId, note: 'Blade is out' })).ok).toBe(true)
    expect(await cancelBooking(maker, { bookingId: one.bookingId })).toMatchObject({
      error: { code: 'alreadyDecided' },
    })
    const past = await database().booking.create({
      data: {
        stationId: saw.id,
        memberId: maker.memberId,
        startAt: at(-80),
        endAt: at(-79),
        status: 'approved',
      },
    })
    expect(await cancelBooking(maker, { bookingId: past.id })).toMatchObject({
      error: { code: 'alreadyDecided', about: 'Its time is over.' },
    })
  })
})

describe('what is free', () => {
  test('the next slots, each of which can be booked', async () => {
    const saw = await station(keeper, { opensMinute: 480, closesMinute: 1320 })
    await asked(other, saw, 12, 14)
    const slots = await freeSlots(maker, { stationId: saw.id, minutes: 95, from: at(0) })
    if (!slots.ok) throw new Error()
    expect(slots.value).toHaveLength(6)
    for (const slot of slots.value) {
      expect(slot.endAt.getTime() - slot.startAt.getTime()).toBe(105 * 60_000)
      const iso = { startAt: slot.startAt.toISOString(), endAt: slot.endAt.toISOString() }
      expect((await askForBooking(maker, { stationId: saw.id, ...iso })).ok).toBe(true)
    }
    const longer = await freeSlots(maker, { stationId: saw.id, minutes: 15 * 60 })
    expect(longer).toEqual({ ok: true, value: [] })
  })

  test('a span of days: who has it, and the gaps; notes stay between maker and keeper', async () => {
    const saw = await station(keeper)
    await asked(other, saw, 9, 10, { note: 'secret gift' })
    const times = await stationTimes(maker, { stationId: saw.id, from: at(0), to: at(24) })
    expect(times).toMatchObject({
      value: {
        bookings: [{ member: { name: 'Olga' } }],
        free: [
          { startAt: new Date(at(0)), endAt: new Date(at(9)) },
          { startAt: new Date(at(10)), endAt: new Date(at(24)) },
        ],
      },
    })
    expect(JSON.stringify(times)).not.toContain('secret')
    expect(await stationTimes(maker, { stationId: saw.id, from: at(0), to: at(24 * 40) })).toMatchObject({
      error: { code: 'badInput' },
    })
  })
})
