import 'server-only'
import { ICalCalendar, ICalEventStatus, ICalEventTransparency } from 'ical-generator'

/**
 * Bookings as an iCalendar object (RFC 5545) for a calendar application to subscribe to. Instants in UTC, so that
 * no zone has to be described; a booking that waits for an answer is TENTATIVE. Tests: tests/documents/calendar.test.ts
 */
export interface CalendarEntry {
  readonly id: string
  readonly startAt: Date
  readonly endAt: Date
  readonly status: string
  readonly note: string
  readonly updatedAt: Date
  /** Someone else's request that waits for the reader's yes or no. */
  readonly isToDecide: boolean
  readonly station: { readonly id: string; readonly name: string; readonly place: string }
  readonly member: { readonly name: string }
  readonly build: { readonly name: string } | null
}

export interface CalendarFeed {
  readonly member: string
  readonly shop: string
  readonly entries: readonly CalendarEntry[]
}

// Control characters have no place in TEXT (RFC 5545, 3.3.11); line breaks become \n.
const plain = (text: string) =>
  text
    .replace(/\r\n?/g, '\n')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
    .replace(/[\u0000-\u0009\u000b-\u001f\u007f]/g, ' ')

const summaryOf = (e: CalendarEntry): string => {
  if (e.isToDecide) return `To decide: ${e.member.name}, ${e.station.name}`
  return e.status === 'requested' ? `${e.station.name} (asked for)` : e.station.name
}

/** @param baseUrl where the shop is reached, `https://shop.example.org`, for links back */
export function calendarText(feed: CalendarFeed, baseUrl: string): string {
  const calendar = new ICalCalendar({
    name: plain(`${feed.shop}: ${feed.member}`),
    prodId: { company: 'Fellowbench', product: 'Bookings', language: 'EN' },
    ttl: 15 * 60,
  })
  for (const e of feed.entries) {
    const description = [e.build && `For ${e.build.name}`, e.note].filter(Boolean).join('\n')
    calendar.createEvent({
      id: `booking-${e.id}@fellowbench`,
      start: e.startAt,
      end: e.endAt,
      // Of a published object DTSTAMP says when the information was last revised (RFC 5545, 3.8.7.2).
      stamp: e.updatedAt,
      lastModified: e.updatedAt,
      summary: plain(summaryOf(e)),
      location: e.station.place ? plain(e.station.place) : null,
      description: description ? plain(description) : null,
      url: `${baseUrl}/stations/${e.station.id}`,
      status: e.status === 'approved' ? ICalEventStatus.CONFIRMED : ICalEventStatus.TENTATIVE,
      transparency: e.isToDecide ? ICalEventTransparency.TRANSPARENT : ICalEventTransparency.OPAQUE,
    })
  }
  // Every content line ends with CRLF, the last one too (RFC 5545, 3.1).
  return `${calendar.toString().replace(/(\r\n)?$/, '')}\r\n`
}
