/**
 * Instants as the shop's clock shows them. In: instants (UTC) and the shop's IANA zone. Out: «Tue 3 May, 14:00».
 * Tests: tests/format/instant.test.ts
 */
const MINUTE_MS = 60_000
const HOUR_MIN = 60
const DAY_MIN = 24 * HOUR_MIN

const parts = (timeZone: string, options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat('en-GB', { timeZone, ...options })

/** @example instantIn('Europe/Berlin')(new Date('2026-05-05T12:00:00Z')) //=> 'Tue 5 May, 14:00' */
export function instantIn(timeZone: string): (at: Date) => string {
  const day = parts(timeZone, { weekday: 'short', day: 'numeric', month: 'short' })
  const time = parts(timeZone, { hour: '2-digit', minute: '2-digit' })
  return (at) => `${day.format(at).replace(',', '')}, ${time.format(at)}`
}

/** The calendar day in the shop, `YYYY-MM-DD`. @example dayOf('Europe/Berlin', new Date('2026-05-05T23:00:00Z')) //=> '2026-05-06' */
export const dayOf = (timeZone: string, at: Date): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(at)

/** «today, 14:00», «tomorrow, 9:30», else the day. */
export function nearInstantIn(timeZone: string, now: Date): (at: Date) => string {
  const say = instantIn(timeZone)
  const time = parts(timeZone, { hour: '2-digit', minute: '2-digit' })
  // Noon of a day plus 24 h is always the next day, also when the clocks change.
  const noon = new Date(`${dayOf(timeZone, now)}T12:00:00Z`)
  const next = new Date(noon.getTime() + DAY_MIN * MINUTE_MS).toISOString().slice(0, 10)
  return (at) => {
    const day = dayOf(timeZone, at)
    if (day === dayOf(timeZone, now)) return `today, ${time.format(at)}`
    return day === next ? `tomorrow, ${time.format(at)}` : say(at)
  }
}

/** A stretch of time by its two ends: «today, 14:00 to 15:30», the day once where it is one day. */
export function nearSpanIn(timeZone: string, now: Date): (startAt: Date, endAt: Date) => string {
  const say = nearInstantIn(timeZone, now)
  const time = parts(timeZone, { hour: '2-digit', minute: '2-digit' })
  return (startAt, endAt) => {
    const isOneDay = dayOf(timeZone, startAt) === dayOf(timeZone, endAt)
    return `${say(startAt)} to ${isOneDay ? time.format(endAt) : say(endAt)}`
  }
}

/** A stretch of time in words, never shorter than it is. @example sayDuration(95 * 60_000) //=> '1 h 35 min' */
export function sayDuration(ms: number): string {
  const minutes = Math.max(0, Math.ceil(ms / MINUTE_MS))
  if (minutes < HOUR_MIN) return `${minutes} min`
  const [days, hours] = [Math.floor(minutes / DAY_MIN), Math.floor((minutes % DAY_MIN) / HOUR_MIN)]
  const said =
    days > 0
      ? [`${days} d`, hours && `${hours} h`]
      : [`${hours} h`, minutes % HOUR_MIN && `${minutes % HOUR_MIN} min`]
  return said.filter(Boolean).join(' ')
}
