import { calendarFeed } from '#lib/data/calendar'
import { calendarText } from '#lib/documents/calendar'
import { baseUrl } from '../../../address'

/** A member's calendar, `/api/calendar/TOKEN.ics`: who has the address may read it, so nobody may keep or index it. */
export async function GET(_: Request, { params }: { params: Promise<{ file: string }> }) {
  const token = (await params).file.replace(/\.ics$/, '')
  const feed = await calendarFeed(null, { token })
  if (!feed.ok) return new Response('No such calendar.\n', { status: 404 })
  return new Response(calendarText(feed.value, await baseUrl()), {
    headers: {
      'content-type': 'text/calendar; charset=utf-8',
      'content-disposition': 'inline; filename="fellowbench.ics"',
      'cache-control': 'private, no-store',
      'x-robots-tag': 'noindex',
    },
  })
}
