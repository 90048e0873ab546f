import { expect, test } from 'vitest'
import {
  MAX_WAIT_HOURS,
  MIN_WAIT_HOURS,
  readyAt,
  WAIT_KINDS,
  WAIT_PRACTICE,
  waitState,
} from '#lib/shop/waits'

const now = new Date('2026-05-05T12:00:00Z')

test('ready at its very instant, not before', () => {
  const at = readyAt(now, 1.5)
  expect(at.toISOString()).toBe('2026-05-05T13:30:00.000Z')
  const wait = { readyAt: at, clearedAt: null }
  expect(waitState(wait, now)).toBe('running')
  expect(waitState(wait, new Date(at.getTime() - 1))).toBe('running')
  expect(waitState(wait, at)).toBe('ready')
  expect(waitState({ readyAt: at, clearedAt: now }, now)).toBe('cleared')
})

test('a whole day of waiting over the change of clocks is 24 hours, not a day on the calendar', () => {
  const before = new Date('2026-10-24T12:00:00Z')
  expect(readyAt(before, 24).getTime() - before.getTime()).toBe(24 * 3_600_000)
})

test('hours to begin with are common practice', () => {
  // Common practice: wood glue 24 h before load; water-based filler 2 to 4 h; waterborne coats 2 to 4 h apart, oil 6 to 24 h.
  expect(WAIT_PRACTICE.glue.hours).toBe(24)
  for (const kind of ['filler', 'paint', 'clearCoat'] as const) {
    expect(WAIT_PRACTICE[kind].hours).toBeGreaterThanOrEqual(2)
    expect(WAIT_PRACTICE[kind].hours).toBeLessThanOrEqual(4)
  }
  expect(WAIT_PRACTICE.oil.hours).toBeGreaterThanOrEqual(6)
  expect(WAIT_PRACTICE.oil.hours).toBeLessThanOrEqual(24)
  expect(WAIT_PRACTICE.oil.caution).toMatch(/rags/)
  for (const kind of WAIT_KINDS) {
    expect(WAIT_PRACTICE[kind].hours).toBeGreaterThanOrEqual(MIN_WAIT_HOURS)
    expect(WAIT_PRACTICE[kind].hours).toBeLessThanOrEqual(MAX_WAIT_HOURS)
  }
})
