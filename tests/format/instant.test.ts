import { expect, test } from 'vitest'
import { dayOf, instantIn, nearInstantIn, nearSpanIn, sayDuration } from '#lib/format/instant'

test('the shop has its own clock', () => {
  const at = new Date('2026-05-05T22:30:00Z')
  expect(instantIn('Europe/Berlin')(at)).toBe('Wed 6 May, 00:30')
  expect(instantIn('America/New_York')(at)).toBe('Tue 5 May, 18:30')
  expect(dayOf('Europe/Berlin', at)).toBe('2026-05-06')
})

test('today and tomorrow, also over the night when clocks are put forward', () => {
  // Clocks in Berlin went forward on 29 March 2026 (EU directive 2000/84/EC: last Sunday of March, 01:00 UTC).
  const say = nearInstantIn('Europe/Berlin', new Date('2026-03-28T22:00:00Z'))
  expect(say(new Date('2026-03-28T22:30:00Z'))).toBe('today, 23:30')
  expect(say(new Date('2026-03-29T21:59:00Z'))).toBe('tomorrow, 23:59')
  expect(say(new Date('2026-03-29T22:01:00Z'))).toBe('Mon 30 Mar, 00:01')
})

test('spans say the day once', () => {
  const say = nearSpanIn('Europe/Berlin', new Date('2026-05-05T06:00:00Z'))
  const at = (hour: number) => new Date(Date.UTC(2026, 4, 5, hour))
  expect(say(at(12), at(13))).toBe('today, 14:00 to 15:00')
  expect(say(at(21), at(23))).toBe('today, 23:00 to tomorrow, 01:00')
})

test('durations', () => {
  expect(sayDuration(95 * 60_000)).toBe('1 h 35 min')
  expect(sayDuration(60 * 60_000)).toBe('1 h')
  expect(sayDuration(1)).toBe('1 min')
  expect(sayDuration(-5)).toBe('0 min')
  expect(sayDuration(26 * 3_600_000)).toBe('1 d 2 h')
})
