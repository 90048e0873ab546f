import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays, instantOf, isoWeekday, isZone, wallClock, zoneOf } from '#lib/core/schedule/zoned-time'

const HOUR = 3_600_000
const berlin = zoneOf('Europe/Berlin')
const newYork = zoneOf('America/New_York')

describe('offsets against law', () => {
  test('summer time in the Union: last Sundays of March and October, 01:00 UTC (Directive 2000/84/EC, art. 2 and 3)', () => {
    const spring = Date.UTC(2026, 2, 29, 1)
    const autumn = Date.UTC(2026, 9, 25, 1)
    expect([spring - 1, spring, autumn - 1, autumn].map(berlin.offsetMinutes)).toEqual([60, 120, 120, 60])
  })

  test('United States: second Sunday of March, first of November, 02:00 local (Energy Policy Act of 2005, sec. 110)', () => {
    const spring = Date.UTC(2026, 2, 8, 7)
    const autumn = Date.UTC(2026, 10, 1, 6)
    expect([spring - 1, spring, autumn - 1, autumn].map(newYork.offsetMinutes)).toEqual([
      -300, -240, -240, -300,
    ])
  })

  test('quarter hours and half-hour changes (IANA zone data)', () => {
    expect(zoneOf('Asia/Kathmandu').offsetMinutes(Date.UTC(2026, 0, 1))).toBe(345)
    expect(zoneOf('Australia/Lord_Howe').offsetMinutes(Date.UTC(2026, 0, 1))).toBe(660)
    expect(zoneOf('Australia/Lord_Howe').offsetMinutes(Date.UTC(2026, 6, 1))).toBe(630)
  })
})

describe('instantOf', () => {
  test('09:00 a week apart across the autumn change is 169 h, across the spring change 167 h', () => {
    const at = (on: string) => instantOf(berlin, on, 540)
    expect((at('2026-10-26') - at('2026-10-19')) / HOUR).toBe(169)
    expect((at('2026-03-30') - at('2026-03-23')) / HOUR).toBe(167)
  })

  test('a day of change is 23 h or 25 h long, midnight to midnight', () => {
    const length = (on: string) => (instantOf(berlin, on, 1440) - instantOf(berlin, on, 0)) / HOUR
    expect(['2026-03-28', '2026-03-29', '2026-10-25'].map(length)).toEqual([24, 23, 25])
  })

  test('a time that never comes moves forward, one that comes twice is the first (RFC 5545, 3.3.5)', () => {
    expect(instantOf(newYork, '2026-03-08', 150)).toBe(Date.UTC(2026, 2, 8, 7, 30))
    expect(instantOf(newYork, '2026-11-01', 90)).toBe(Date.UTC(2026, 10, 1, 5, 30))
  })

  test('is undone by wallClock, except in the second pass of a doubled hour', () => {
    const zones = [
      'Europe/Berlin',
      'America/New_York',
      'Asia/Kathmandu',
      'Australia/Lord_Howe',
      'Pacific/Chatham',
    ]
    let judged = 0
    const quarter = fc.integer({ min: 0, max: 40 * 366 * 96 }).map((n) => Date.UTC(2000, 0, 1) + n * 900_000)
    fc.assert(
      fc.property(fc.constantFrom(...zones), quarter, (name, atMs) => {
        const zone = zoneOf(name)
        const { on, minute } = wallClock(zone, atMs)
        const back = instantOf(zone, on, minute)
        expect(wallClock(zone, back)).toEqual({ on, minute })
        expect(back === atMs || atMs - back === HOUR || atMs - back === HOUR / 2).toBe(true)
        judged++
      }),
      { numRuns: 400 },
    )
    expect(judged).toBe(400)
  })
})

describe('days', () => {
  test('leap years and year ends (ISO 8601)', () => {
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29')
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01')
    expect(addDays('2026-03-01', -1)).toBe('2026-02-28')
  })

  test('every day from 1970 to 2100 as Date has it', () => {
    let on = '1970-01-01'
    for (let n = 0; n < 47_500; n++, on = addDays(on, 1))
      if (on !== new Date(n * 86_400_000).toISOString().slice(0, 10)) throw new Error(`day ${n}: ${on}`)
  })

  test('weekdays: 2005-01-01 was a Saturday, 2010-01-03 a Sunday (ISO 8601 week date examples)', () => {
    expect([isoWeekday('2005-01-01'), isoWeekday('2010-01-03'), isoWeekday('2008-12-29')]).toEqual([6, 7, 1])
  })

  test('what is no day or zone', () => {
    for (const on of ['2026-13-01', '2026-02-30', '2026-2-3', ''])
      expect(() => addDays(on, 1)).toThrow(RangeError)
    expect(() => zoneOf('Mars/Olympus')).toThrow(RangeError)
    expect([isZone('Europe/Berlin'), isZone('Nowhere')]).toEqual([true, false])
  })
})
