/**
 * Server-sent events: `changed` with the topic as data, whenever one of `?topics=a,b` changes anywhere in the shop,
 * and at once when one may have changed since the page was made (`&since=`, ms since 1970).
 * The payload says what to look at again, never what it is.
 */
import { currentActor } from '#lib/auth/session'
import { ANYTHING, listener } from '#lib/data/internal/listener'
import { follow } from '#lib/data/live'
import { refusalStatus } from '#lib/shop/refusal'

export const dynamic = 'force-dynamic'

const BEAT_MS = 25_000
/** A page was read a little before it says that it was made; clocks of two servers differ a little. */
const SLACK_MS = 5_000
const HEADERS = {
  'content-type': 'text/event-stream; charset=utf-8',
  'cache-control': 'no-cache, no-transform',
  'x-accel-buffering': 'no',
}

export async function GET(request: Request): Promise<Response> {
  const asked = new URL(request.url).searchParams
  const topics = (asked.get('topics') ?? '').split(',').filter(Boolean)
  const since = Number(asked.get('since') ?? Number.NaN)
  const allowed = await follow(await currentActor(), { topics })
  if (!allowed.ok) return new Response(null, { status: refusalStatus(allowed.error) })
  return new Response(stream(allowed.value.topics, since, request.signal), { headers: HEADERS })
}

function stream(topics: readonly string[], since: number, signal: AbortSignal): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  let close = () => {}
  return new ReadableStream({
    async start(controller) {
      const say = (text: string) => {
        try {
          controller.enqueue(encoder.encode(text))
        } catch {
          close() // the reader has gone
        }
      }
      const stopFollowing = await listener().follow(topics, (topic) =>
        say(`event: changed\ndata: ${topic}\n\n`),
      )
      const beating = setInterval(() => say(': still here\n\n'), BEAT_MS)
      close = () => {
        close = () => {}
        clearInterval(beating)
        stopFollowing()
        signal.removeEventListener('abort', end)
      }
      const end = () => {
        close()
        try {
          controller.close()
        } catch {}
      }
      signal.addEventListener('abort', end)
      say('retry: 2000\n: following\n\n')
      // A page without `since` does not ask: NaN is before nothing and after nothing.
      if (listener().mayHaveChanged(topics, since - SLACK_MS)) say(`event: changed\ndata: ${ANYTHING}\n\n`)
      if (signal.aborted) end()
    },
    cancel: () => close(),
  })
}
