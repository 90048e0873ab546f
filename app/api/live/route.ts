/**
 * Server-sent events: `changed` with the topic as data, whenever one of `?topics=a,b` changes anywhere in the shop.
 * The payload says what to look at again, never what it is.
 */
import { currentActor } from '#lib/auth/session'
import { listener } from '#lib/data/internal/listener'
import { follow } from '#lib/data/live'
import { refusalStatus } from '#lib/shop/refusal'

export const dynamic = 'force-dynamic'

const BEAT_MS = 25_000
const HEADERS = {
  'content-type': 'text/event-stream; charset=utf-8',
  'cache-control': 'no-cache, no-transform',
  'x-accel-buffering': 'no',
}

export async function GET(request: Request): Promise<Response> {
  const topics = (new URL(request.url).searchParams.get('topics') ?? '').split(',').filter(Boolean)
  const allowed = await follow(await currentActor(), { topics })
  if (!allowed.ok) return new Response(null, { status: refusalStatus(allowed.error) })
  return new Response(stream(allowed.value.topics, request.signal), { headers: HEADERS })
}

function stream(topics: readonly string[], signal: AbortSignal): ReadableStream<Uint8Array> {
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
      if (signal.aborted) end()
    },
    cancel: () => close(),
  })
}
