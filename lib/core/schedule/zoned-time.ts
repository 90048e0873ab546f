/**
 * Wall clocks and instants: what a clock on the shop's wall shows, and when that is.
 * In and out: instants in ms since 1970-01-01T00:00Z, days `YYYY-MM-DD`, minutes after local midnight, IANA zones.
 * Method: offsets from the runtime's zone data (Intl); a wall time that comes twice is the earlier, one that never
 * comes is moved forward by the gap (RFC 5545 section 3.3.5 reads local times so).
 * Limits: at most one change of offset within a day of the wall time asked for; years 1970 to 9999.
 * Tests: tests/core/schedule/zoned-time.test.ts
 */
export interface Zone {
  readonly name: string
  /** Minutes that the zone's clocks are ahead of UTC at an instant. */
  readonly offsetMinutes: (atMs: number) => number
}

const MINUTE_MS = 60_000
const DAY_MS = 24 * 60 * MINUTE_MS

/**
 * @throws RangeError for a name that is no zone
 * @example zoneOf('Europe/Berlin').offsetMinutes(Date.UTC(2026, 6, 1)) //=> 120
 */
export function zoneOf(name: string): Zone {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: name,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  })
  const offsetMinutes = (atMs: number): number => {
    const part: Record<string, number> = {}
    for (const { type, value } of format.formatToParts(atMs)) part[type] = Number(value)
    const wallMs = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute)
    return Math.round((wallMs - Math.floor(atMs / MINUTE_MS) * MINUTE_MS) / MINUTE_MS)
  }
  return { name, offsetMinutes }
}

/** @example isZone('Europe/Berlin') //=> true */
export function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: name })
    return true
  } catch {
    return false
  }
}

/** The day of an instant in UTC: H. Hinnant, «chrono-compatible low-level date algorithms», civil_from_days. */
function dayOf(ms: number): string {
  const days = Math.floor(ms / DAY_MS) + 719_468
  const era = Math.floor(days / 146_097)
  const dayOfEra = days - era * 146_097
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  )
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100))
  const fromMarch = Math.floor((5 * dayOfYear + 2) / 153)
  const day = dayOfYear - Math.floor((153 * fromMarch + 2) / 5) + 1
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0)
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
}

function dayMs(on: string): number {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(on) ? Date.parse(`${on}T00:00:00Z`) : Number.NaN
  if (Number.isNaN(ms) || dayOf(ms) !== on) throw new RangeError(`not a day YYYY-MM-DD: ${on}`)
  return ms
}

/** @example isDay('2026-02-30') //=> false */
export function isDay(text: string): boolean {
  try {
    dayMs(text)
    return true
  } catch {
    return false
  }
}

/** @example addDays('2026-02-28', 1) //=> '2026-03-01' */
export const addDays = (on: string, days: number): string => dayOf(dayMs(on) + days * DAY_MS)

/** Monday 1 to Sunday 7 (ISO 8601). @example isoWeekday('2026-11-25') //=> 3 */
export const isoWeekday = (on: string): number => ((dayMs(on) / DAY_MS + 3) % 7) + 1

/**
 * What the wall shows at an instant.
 * @example wallClock(zoneOf('Asia/Kathmandu'), 0) //=> { on: '1970-01-01', minute: 330 }
 */
export function wallClock(zone: Zone, atMs: number): { on: string; minute: number } {
  const wallMs = atMs + zone.offsetMinutes(atMs) * MINUTE_MS
  const minute = Math.floor((((wallMs % DAY_MS) + DAY_MS) % DAY_MS) / MINUTE_MS)
  return { on: dayOf(wallMs), minute }
}

/**
 * When the wall shows `minute` minutes after midnight of a day; 1440 is the next midnight.
 * @example instantOf(zoneOf('Europe/Berlin'), '2026-11-25', 540) //=> Date.UTC(2026, 10, 25, 8)
 */
export function instantOf(zone: Zone, on: string, minute: number): number {
  const wallMs = dayMs(on) + minute * MINUTE_MS
  const before = wallMs - zone.offsetMinutes(wallMs - DAY_MS) * MINUTE_MS
  const after = wallMs - zone.offsetMinutes(wallMs + DAY_MS) * MINUTE_MS
  const shows = (atMs: number) => atMs + zone.offsetMinutes(atMs) * MINUTE_MS === wallMs
  if (shows(before)) return shows(after) ? Math.min(before, after) : before
  return shows(after) ? after : before
}
