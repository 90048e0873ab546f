import { dayOf } from '#lib/format/instant'

/**
 * A stretch on the shop's clock: «Wed 25 Nov, 14:00 to 15:30», both days where it ends on another.
 * `day` says a day, as sayDay or relativeDay do.
 */
export function spanIn(timeZone: string, day: (on: string) => string) {
  const time = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' })
  return (startAt: Date, endAt: Date): string => {
    const [from, to] = [dayOf(timeZone, startAt), dayOf(timeZone, endAt)]
    const end = time.format(endAt)
    // Midnight belongs to the day that it ends.
    const isSameDay = from === to || (end === '00:00' && endAt.getTime() - startAt.getTime() <= 86_400_000)
    return `${day(from)}, ${time.format(startAt)} to ${isSameDay ? end : `${day(to)}, ${end}`}`
  }
}
