import { addDays, instantOf, type Zone } from '#lib/core/schedule/zoned-time'
import { type Hours, type Interval, openIntervals, overlaps } from '#lib/shop/bookings'

export interface Booked {
  readonly id: string
  readonly startAt: Date
  readonly endAt: Date
  readonly status: string
  readonly member: { readonly id: string; readonly name: string }
  readonly build: { readonly id: string; readonly name: string } | null
}

export interface Free {
  readonly startAt: Date
  readonly endAt: Date
}

/** What stands in a day, in the order of the clock: free stretches and bookings. */
export type Entry =
  | ({ readonly kind: 'free' } & Interval)
  | ({ readonly kind: 'booked'; readonly booking: Booked } & Interval)

export interface DayPlan {
  readonly on: string
  readonly open: readonly Interval[]
  readonly entries: readonly Entry[]
}

const intervalOf = (b: Free): Interval => ({ startMs: b.startAt.getTime(), endMs: b.endAt.getTime() })

/** What goes over midnight stands in both days: a booking with its own times, a free stretch cut at midnight. */
export function dayPlans(
  days: readonly string[],
  {
    zone,
    hours,
    bookings,
    free,
  }: { zone: Zone; hours: Hours; bookings: readonly Booked[]; free: readonly Free[] },
): DayPlan[] {
  return days.map((on) => {
    const day = { startMs: instantOf(zone, on, 0), endMs: instantOf(zone, addDays(on, 1), 0) }
    const booked = bookings.map((booking) => ({ kind: 'booked' as const, booking, ...intervalOf(booking) }))
    const gaps = free.map(intervalOf).filter((f) => overlaps(f, day))
    const entries: Entry[] = [
      ...booked.filter((b) => overlaps(b, day)),
      ...gaps.map((f) => ({
        kind: 'free' as const,
        startMs: Math.max(f.startMs, day.startMs),
        endMs: Math.min(f.endMs, day.endMs),
      })),
    ]
    return {
      on,
      open: openIntervals(hours, zone, day),
      entries: entries.sort((a, b) => a.startMs - b.startMs),
    }
  })
}
