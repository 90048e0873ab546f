// Checks against RFC 5545 (September 2009); the section stands beside each.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CalendarEntry, calendarText } from '#lib/documents/calendar'

const ID = '5f0c7c1e-6a0e-4a53-9c57-0d7f0d6f3f11'
const entry = (over: Partial<CalendarEntry> = {}): CalendarEntry => ({
  id: ID,
  startAt: new Date('2026-03-29T00:30:00Z'),
  endAt: new Date('2026-03-29T02:30:00Z'),
  status: 'approved',
  note: '',
  updatedAt: new Date('2026-03-01T09:08:07Z'),
  isToDecide: false,
  station: { id: 'saw', name: 'Table saw', place: 'Bay 2' },
  member: { name: 'Max' },
  build: null,
  ...over,
})
const text = (...entries: CalendarEntry[]) =>
  calendarText({ member: 'Max', shop: 'Mill Lane shop', entries }, 'https://shop.example.org')

/** Content lines, unfolded: a CRLF followed by a space or tab is taken out (3.1). */
const unfolded = (t: string) => t.replace(/\r\n[ \t]/g, '').split('\r\n')
const valuesOf = (t: string, name: string) =>
  unfolded(t).flatMap((line) => (line.startsWith(`${name}:`) ? [line.slice(name.length + 1)] : []))

/** TEXT as a reader takes it apart, written from 3.3.11 and not from our writer. */
function readText(value: string): string {
  let out = ''
  for (let i = 0; i < value.length; i++) {
    if (value[i] !== '\\') {
      expect(value[i], 'unescaped SEMICOLON or COMMA').not.toMatch(/[;,]/)
      out += value[i]
      continue
    }
    const next = value[++i]
    expect(next, 'an escape that 3.3.11 does not know').toMatch(/[\\;,nN]/)
    out += /[nN]/.test(next) ? '\n' : next
  }
  return out
}

describe('an iCalendar object', () => {
  test('content lines end with CRLF, the last one too, and no CR or LF stands alone (3.1)', () => {
    const t = text(entry({ note: 'one\r\ntwo\rthree\nfour' }))
    expect(t.endsWith('END:VCALENDAR\r\n')).toBe(true)
    expect(t.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  })

  test('lines are at most 75 octets without the break, and no character is cut in two (3.1)', () => {
    const note = 'Eichenbrett, längs gehobelt — «große» 🪚🪵 '.repeat(12)
    const t = text(
      entry({ note, station: { id: 'x', name: 'Ñandú 🪚 '.repeat(20), place: 'é'.repeat(100) } }),
    )
    const lines = t.split('\r\n').map((line) => Buffer.byteLength(line))
    expect(Math.max(...lines)).toBeLessThanOrEqual(75)
    expect(lines.filter((n) => n > 60).length).toBeGreaterThan(5)
    expect(t).not.toContain('\ufffd')
    expect(readText(valuesOf(t, 'DESCRIPTION')[0])).toBe(note)
  })

  test('VERSION:2.0 and PRODID once (3.6, 3.7.3, 3.7.4); begins and ends properly (3.4)', () => {
    const t = text(entry())
    expect(valuesOf(t, 'VERSION')).toEqual(['2.0'])
    expect(valuesOf(t, 'PRODID')).toHaveLength(1)
    const marks = unfolded(t).filter((line) => /^(BEGIN|END):/.test(line))
    expect(marks).toEqual(['BEGIN:VCALENDAR', 'BEGIN:VEVENT', 'END:VEVENT', 'END:VCALENDAR'])
  })

  test('UID and DTSTAMP once an event, and DTSTART since there is no METHOD (3.6.1)', () => {
    const t = text(entry(), entry({ id: '7d6f0e55-0000-4000-8000-000000000000' }))
    expect(valuesOf(t, 'METHOD')).toEqual([])
    for (const name of ['UID', 'DTSTAMP', 'DTSTART', 'DTEND']) expect(valuesOf(t, name)).toHaveLength(2)
    const uids = valuesOf(t, 'UID')
    expect(new Set(uids).size).toBe(2)
    expect(valuesOf(text(entry({ note: 'changed' })), 'UID')[0]).toBe(uids[0])
    expect(unfolded(t).filter((line) => line.startsWith('DURATION'))).toEqual([])
  })

  test('instants in UTC, form 2 of DATE-TIME, on the night when clocks change (3.3.5); DTSTAMP too (3.8.7.2)', () => {
    const t = text(entry())
    expect(valuesOf(t, 'DTSTART')).toEqual(['20260329T003000Z'])
    expect(valuesOf(t, 'DTSTAMP')).toEqual(['20260301T090807Z'])
    expect(t).not.toContain('TZID')
  })

  test('DTEND is not part of the event (3.6.1, 3.8.2.2): two bookings that touch share no instant', () => {
    const second = entry({
      id: 'b',
      startAt: new Date('2026-03-29T02:30:00Z'),
      endAt: new Date('2026-03-29T04:00:00Z'),
    })
    const t = text(entry(), second)
    expect(valuesOf(t, 'DTEND')[0]).toBe('20260329T023000Z')
    expect(valuesOf(t, 'DTSTART')[1]).toBe(valuesOf(t, 'DTEND')[0])
  })

  test('BACKSLASH, SEMICOLON, COMMA and line breaks are escaped, COLON is not (3.3.11)', () => {
    const t = text(entry({ note: 'a\\b;c,d:e\nf' }))
    expect(valuesOf(t, 'DESCRIPTION')).toEqual(['a\\\\b\\;c\\,d:e\\nf'])
  })

  test('STATUS of an event is TENTATIVE or CONFIRMED (3.8.1.11)', () => {
    const asked = entry({ status: 'requested' })
    expect(valuesOf(text(entry()), 'STATUS')).toEqual(['CONFIRMED'])
    expect(valuesOf(text(asked), 'STATUS')).toEqual(['TENTATIVE'])
    const toDecide = text({ ...asked, isToDecide: true })
    expect(valuesOf(toDecide, 'STATUS')).toEqual(['TENTATIVE'])
    expect(valuesOf(toDecide, 'SUMMARY')).toEqual(['To decide: Max\\, Table saw'])
    // Somebody else's time does not make the keeper busy (3.8.2.7).
    expect(valuesOf(toDecide, 'TRANSP')).toEqual(['TRANSPARENT'])
  })

  test('any note comes out as it went in, whatever is in it; no line of it becomes a property', () => {
    let judged = 0
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 300 }), (note) => {
        const nasty = `${note}\r\nEND:VEVENT\nBEGIN:VALARM`
        const t = text(entry({ note: nasty }))
        expect(unfolded(t).filter((line) => line === 'BEGIN:VALARM')).toEqual([])
        for (const line of t.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
        expect(readText(valuesOf(t, 'DESCRIPTION')[0])).toBe(nasty.replace(/\r\n?/g, '\n'))
        judged++
      }),
      { numRuns: 300 },
    )
    expect(judged).toBe(300)
  })

  test('control characters are taken out (3.3.11)', () => {
    const t = text(entry({ note: 'a\u0000b\u0007c\u007fd\te' }))
    expect(valuesOf(t, 'DESCRIPTION')).toEqual(['a b c d e'])
  })

  test('nothing booked is still a calendar', () => {
    expect(unfolded(text()).filter((line) => line.startsWith('BEGIN:'))).toEqual(['BEGIN:VCALENDAR'])
  })
})
