import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { daysBetween, relativeDay, sayDay } from '#lib/format/day'

describe('days', () => {
  it('counts over months, leap years and the change of clocks', () => {
    expect(daysBetween('2026-02-27', '2026-03-01')).toBe(2)
    expect(daysBetween('2028-02-27', '2028-03-01')).toBe(3)
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2)
    expect(daysBetween('2026-01-02', '2025-12-31')).toBe(-2)
    // 1970-01-01 to 2000-01-01 is 10,957 days (Julian day numbers 2440588 and 2451545).
    expect(daysBetween('1970-01-01', '2000-01-01')).toBe(10_957)
  })

  it('goes there and back', () => {
    let judged = 0
    const day = fc
      .date({ min: new Date('1990-01-01'), max: new Date('2090-01-01'), noInvalidDate: true })
      .map((date) => date.toISOString().slice(0, 10))
    fc.assert(
      fc.property(day, day, day, (a, b, c) => {
        expect(daysBetween(a, b) + daysBetween(b, c)).toBe(daysBetween(a, c))
        judged++
      }),
    )
    expect(judged).toBeGreaterThan(0)
  })

  it.each([
    ['2026-05-01', 'today'],
    ['2026-05-02', 'tomorrow'],
    ['2026-04-30', 'yesterday'],
    ['2026-05-04', 'in 3 days'],
    ['2026-05-07', 'in 6 days'],
    ['2026-04-25', '6 days ago'],
    ['2026-05-08', 'Fri 8 May'],
    ['2026-04-24', 'Fri 24 Apr'],
    ['2027-01-03', '3 Jan 2027'],
  ])('%s is %s', (day, expected) => {
    expect(relativeDay(day, '2026-05-01')).toBe(expected)
  })

  it('refuses days that are not in the calendar', () => {
    for (const day of ['', '2026-02-29', '2026-13-01', '2026-5-1', '2026-05-01T00:00', 'today'])
      expect(() => sayDay(day, '2026-05-01')).toThrow(RangeError)
  })
})
