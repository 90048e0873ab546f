import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { instantOf, zoneOf } from '#lib/core/schedule/zoned-time'
import {
  BOOKING_STEP_MS,
  bookingFault,
  firstSlots,
  freeGaps,
  type Interval,
  inWholeSteps,
  openIntervals,
  overlaps,
} from '#lib/shop/bookings'

const HOUR = 3_600_000
const berlin = zoneOf('Europe/Berlin')
const at = (on: string, hour: number) => instantOf(berlin, on, hour * 60)
const span = (on: string, from: number, to: number): Interval => ({
  startMs: at(on, from),
  endMs: at(on, to),
})
const hours = { opensMinute: 480, closesMinute: 1320 }
const nowMs = at('2026-03-20', 12)
const fault = (ask: Interval, over: object = {}) => bookingFault(ask, { hours, zone: berlin, nowMs, ...over })

describe('half-open intervals', () => {
  test('s1 < e2 and s2 < e1: touching is not overlapping', () => {
    expect(overlaps({ startMs: 0, endMs: 2 }, { startMs: 2, endMs: 3 })).toBe(false)
    expect(overlaps({ startMs: 0, endMs: 2 }, { startMs: 1, endMs: 3 })).toBe(true)
    expect(overlaps({ startMs: 0, endMs: 9 }, { startMs: 4, endMs: 5 })).toBe(true)
  })
})

describe('what may be asked for', () => {
  test('within opening hours, on whole quarters', () => {
    expect(fault(span('2026-03-21', 8, 22))).toBeNull()
    expect(fault(span('2026-03-21', 7.75, 9))).toMatchObject({ code: 'outsideHours' })
    expect(fault(span('2026-03-21', 21, 22.25))).toMatchObject({ code: 'outsideHours' })
    expect(fault(span('2026-03-21', 9 + 1 / 60, 10))?.fields?.startAt).toMatch(/quarter/)
    expect(fault(span('2026-03-21', 9, 10 + 1 / 60))?.fields?.endAt).toMatch(/quarter/)
  })

  test('not backwards, not empty, not past, not longer than a day, not years ahead', () => {
    expect(fault(span('2026-03-21', 10, 9))?.fields).toHaveProperty('endAt')
    expect(fault(span('2026-03-21', 10, 10))?.fields).toHaveProperty('endAt')
    expect(fault(span('2026-03-20', 11, 13))?.fields).toHaveProperty('startAt')
    expect(fault(span('2028-03-21', 10, 11))?.fields).toHaveProperty('startAt')
    expect(fault({ startMs: at('2026-03-21', 8), endMs: at('2026-03-22', 9) })?.fields).toHaveProperty(
      'endAt',
    )
  })

  test('the quarter of an hour that is running may still be booked', () => {
    const seven = nowMs + 7 * 60_000
    expect(fault(span('2026-03-20', 12, 13), { nowMs: seven })).toBeNull()
    expect(fault(span('2026-03-20', 11.75, 13), { nowMs: seven })?.code).toBe('badInput')
  })

  test('on the days that clocks change, hours are those of the wall (Europe: 2026-03-29 and 2026-10-25)', () => {
    for (const on of ['2026-03-29', '2026-10-25']) {
      expect(fault(span(on, 8, 9))).toBeNull()
      expect(fault(span(on, 7, 8))?.code).toBe('outsideHours')
      expect(fault(span(on, 22, 23))?.code).toBe('outsideHours')
    }
    // 08:00 of the wall is 07:00Z before the change and 06:00Z after it.
    expect(fault({ startMs: Date.UTC(2026, 2, 28, 7), endMs: Date.UTC(2026, 2, 28, 8) })).toBeNull()
    expect(fault({ startMs: Date.UTC(2026, 2, 29, 6), endMs: Date.UTC(2026, 2, 29, 7) })).toBeNull()
  })

  test('a station that never closes may be booked over midnight, one with hours may not', () => {
    const night = { startMs: at('2026-03-21', 22), endMs: at('2026-03-22', 2) }
    expect(fault(night, { hours: { opensMinute: 0, closesMinute: 1440 } })).toBeNull()
    expect(fault(night, { hours: { opensMinute: 0, closesMinute: 1439 } })?.code).toBe('outsideHours')
  })
})

describe('what is free', () => {
  test('opening hours of three days, one of them an hour shorter', () => {
    const all = openIntervals({ opensMinute: 60, closesMinute: 300 }, berlin, {
      startMs: at('2026-03-28', 0),
      endMs: at('2026-03-31', 0),
    })
    expect(all.map((o) => (o.endMs - o.startMs) / HOUR)).toEqual([4, 3, 4])
  })

  test('gaps between bookings, and the first slot in each', () => {
    const open = openIntervals(hours, berlin, { startMs: at('2026-03-21', 0), endMs: at('2026-03-22', 0) })
    const taken = [span('2026-03-21', 12, 13), span('2026-03-21', 8, 9), span('2026-03-21', 13, 21.5)]
    const gaps = freeGaps(open, taken)
    expect(gaps).toEqual([span('2026-03-21', 9, 12), span('2026-03-21', 21.5, 22)])
    expect(firstSlots(gaps, HOUR, 5)).toEqual([span('2026-03-21', 9, 10)])
    expect(firstSlots(gaps, HOUR / 2, 5)).toHaveLength(2)
    expect(firstSlots(gaps, 4 * HOUR, 5)).toEqual([])
  })

  test('every slot offered may be asked for and overlaps nothing; judged slots are counted', () => {
    let judged = 0
    const quarter = fc.integer({ min: 0, max: 20 * 96 })
    const booking = fc.tuple(quarter, fc.integer({ min: 1, max: 40 }))
    fc.assert(
      fc.property(fc.array(booking, { maxLength: 30 }), fc.integer({ min: 1, max: 56 }), (rows, steps) => {
        const taken = rows.map(([n, length]) => {
          const startMs = at('2026-03-21', 0) + n * BOOKING_STEP_MS
          return { startMs, endMs: startMs + length * BOOKING_STEP_MS }
        })
        const open = openIntervals(hours, berlin, { startMs: nowMs, endMs: nowMs + 21 * 24 * HOUR })
        for (const slot of firstSlots(freeGaps(open, taken), steps * BOOKING_STEP_MS, 6)) {
          expect(fault(slot)).toBeNull()
          expect(taken.filter((t) => overlaps(t, slot))).toEqual([])
          judged++
        }
      }),
      { numRuns: 200 },
    )
    expect(judged).toBeGreaterThan(200)
  })

  test('work is booked in whole quarters', () =>
    expect([95, 1, 15, 90].map(inWholeSteps)).toEqual([105, 15, 15, 90]))
})
