import 'server-only'
import type { Interval } from '#lib/shop/bookings'

/** Bookings that keep their time from others. */
export const LIVE = ['requested', 'approved'] as const

/** Bookings that overlap a span; touching is not overlapping. */
export const during = (span: Interval) => ({
  startAt: { lt: new Date(span.endMs) },
  endAt: { gt: new Date(span.startMs) },
})
