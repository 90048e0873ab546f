/**
 * Calendar days (`YYYY-MM-DD`) as people say them: «today», «in 3 days», «Wed 6 May». A day has no zone and no
 * clock, so nothing here depends on the process's time zone; which day an instant falls on: dayOf in instant.ts.
 * Tests: tests/format/day.test.ts, and under several zones in tests/format/zones.test.ts
 */
const DAY_MS = 86_400_000
const DAY = /^(\d{4})-(\d{2})-(\d{2})$/

const WITHOUT_YEAR = new Intl.DateTimeFormat('en-GB', {
  timeZone: 'UTC',
  weekday: 'short',
  day: 'numeric',
  month: 'short',
})
const WITH_YEAR = new Intl.DateTimeFormat('en-GB', {
  timeZone: 'UTC',
  day: 'numeric',
  month: 'short',
  year: 'numeric',
})

/** Noon UTC of a day. @throws RangeError for what is no day of the calendar */
function noonOf(day: string): number {
  const [, year, month, date] = DAY.exec(day) ?? []
  const noonMs = Date.UTC(Number(year), Number(month) - 1, Number(date), 12)
  if (Number.isNaN(noonMs) || new Date(noonMs).toISOString().slice(0, 10) !== day)
    throw new RangeError(`not a day: ${day}`)
  return noonMs
}

/**
 * Whole days from one day to another; negative when `to` comes first.
 * @example daysBetween('2026-02-27', '2026-03-01') //=> 2
 */
export const daysBetween = (from: string, to: string): number =>
  Math.round((noonOf(to) - noonOf(from)) / DAY_MS)

/** @example sayDay('2026-05-06', '2026-05-01') //=> 'Wed 6 May' */
export function sayDay(day: string, today: string): string {
  const noon = noonOf(day)
  return day.slice(0, 4) === today.slice(0, 4)
    ? WITHOUT_YEAR.format(noon).replace(',', '')
    : WITH_YEAR.format(noon)
}

const NEAR_DAYS = 6

/**
 * A day from where today stands: by name or count within a week, else the date.
 * @example relativeDay('2026-05-04', '2026-05-01') //=> 'in 3 days'
 */
export function relativeDay(day: string, today: string): string {
  const days = daysBetween(today, day)
  if (days === 0) return 'today'
  if (days === 1) return 'tomorrow'
  if (days === -1) return 'yesterday'
  if (Math.abs(days) > NEAR_DAYS) return sayDay(day, today)
  return days > 0 ? `in ${days} days` : `${-days} days ago`
}
