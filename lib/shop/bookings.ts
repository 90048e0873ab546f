/**
 * When a station may be booked, and when it is free. Pure: bookings are intervals [startMs, endMs) in ms since 1970,
 * opening hours are minutes of the wall clock in the shop's zone, so a day of clock change is an hour longer or
 * shorter. Touching is not overlapping. Tests: tests/shop/bookings.test.ts
 */
import { addDays, instantOf, wallClock, type Zone } from '#lib/core/schedule/zoned-time'
import { type Refusal, refusal } from './refusal'

export const BOOKING_STEP_MS = 15 * 60_000
export const LONGEST_BOOKING_MS = 24 * 3_600_000
/** How far ahead a station may be booked. */
export const BOOKING_HORIZON_MS = 366 * 24 * 3_600_000

export interface Interval {
  readonly startMs: number
  readonly endMs: number
}

export interface Hours {
  readonly opensMinute: number
  readonly closesMinute: number
}

export const overlaps = (a: Interval, b: Interval): boolean => a.startMs < b.endMs && b.startMs < a.endMs

/** The quarter of an hour that is running: it may still be booked. */
export const currentStep = (nowMs: number): number => Math.floor(nowMs / BOOKING_STEP_MS) * BOOKING_STEP_MS

/** What lies in `span` when the station is open; round-the-clock days run into each other. */
export function openIntervals(hours: Hours, zone: Zone, span: Interval): Interval[] {
  const open: Interval[] = []
  const last = wallClock(zone, span.endMs).on
  for (let on = addDays(wallClock(zone, span.startMs).on, -1); on <= last; on = addDays(on, 1)) {
    const startMs = Math.max(instantOf(zone, on, hours.opensMinute), span.startMs)
    const endMs = Math.min(instantOf(zone, on, hours.closesMinute), span.endMs)
    if (startMs >= endMs) continue
    const before = open.at(-1)
    if (before && before.endMs >= startMs) open[open.length - 1] = { startMs: before.startMs, endMs }
    else open.push({ startMs, endMs })
  }
  return open
}

/** What is left of `open` without `taken`, both in any order. */
export function freeGaps(open: readonly Interval[], taken: readonly Interval[]): Interval[] {
  const inOrder = [...taken].sort((a, b) => a.startMs - b.startMs)
  const gaps: Interval[] = []
  for (const day of open) {
    let fromMs = day.startMs
    for (const t of inOrder) {
      if (!overlaps(day, t)) continue
      if (t.startMs > fromMs) gaps.push({ startMs: fromMs, endMs: t.startMs })
      fromMs = Math.max(fromMs, t.endMs)
    }
    if (fromMs < day.endMs) gaps.push({ startMs: fromMs, endMs: day.endMs })
  }
  return gaps.sort((a, b) => a.startMs - b.startMs)
}

/** The first slot of that length in each gap, on whole steps, the earliest first. */
export function firstSlots(gaps: readonly Interval[], lengthMs: number, most: number): Interval[] {
  const slots: Interval[] = []
  for (const gap of gaps) {
    const startMs = Math.ceil(gap.startMs / BOOKING_STEP_MS) * BOOKING_STEP_MS
    if (startMs + lengthMs <= gap.endMs) slots.push({ startMs, endMs: startMs + lengthMs })
    if (slots.length === most) break
  }
  return slots
}

/** Minutes of work in whole steps. @example inWholeSteps(95) //=> 105 */
export const inWholeSteps = (minutes: number): number =>
  Math.ceil((minutes * 60_000) / BOOKING_STEP_MS) * (BOOKING_STEP_MS / 60_000)

/** Why this time cannot be asked for, whoever asks, or null. */
export function bookingFault(
  ask: Interval,
  { hours, zone, nowMs }: { hours: Hours; zone: Zone; nowMs: number },
): Refusal | null {
  const fault = (field: 'startAt' | 'endAt', sentence: string) =>
    refusal('badInput', { fields: { [field]: sentence } })
  if (ask.startMs % BOOKING_STEP_MS !== 0) return fault('startAt', 'Start on a quarter of an hour.')
  if (ask.endMs % BOOKING_STEP_MS !== 0) return fault('endAt', 'End on a quarter of an hour.')
  if (ask.endMs <= ask.startMs) return fault('endAt', 'The end must come after the start.')
  if (ask.endMs - ask.startMs > LONGEST_BOOKING_MS) return fault('endAt', 'Book at most 24 hours at a time.')
  if (ask.startMs < currentStep(nowMs)) return fault('startAt', 'That time is past.')
  if (ask.startMs > nowMs + BOOKING_HORIZON_MS) return fault('startAt', 'Book at most a year ahead.')
  const around = { startMs: ask.startMs - LONGEST_BOOKING_MS, endMs: ask.endMs + LONGEST_BOOKING_MS }
  const isOpen = openIntervals(hours, zone, around).some(
    (o) => o.startMs <= ask.startMs && ask.endMs <= o.endMs,
  )
  return isOpen ? null : refusal('outsideHours', { about: `It is open ${sayHours(hours)}.` })
}

const clock = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

/** @example sayHours({ opensMinute: 480, closesMinute: 1320 }) //=> 'from 08:00 to 22:00' */
export const sayHours = ({ opensMinute, closesMinute }: Hours): string =>
  opensMinute === 0 && closesMinute === 1440
    ? 'round the clock'
    : `from ${clock(opensMinute)} to ${clock(closesMinute)}`
