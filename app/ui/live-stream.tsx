'use client'
import { useEffect, useRef } from 'react'
import { useRefresh } from './use-refresh'

const SETTLE_MS = 250
const RETRY_MS = 3_000
/** A stream that the browser has given up is asked for again: soon, then less and less often. */
const LONGEST_PAUSE_MS = 60_000

interface StreamProps {
  /** With commas between them. */
  readonly wanted: string
  /** When the page was made, ms since 1970. */
  readonly since: number
}

/** Looks at the page again when one of its topics has changed since it was made. */
export function LiveStream({ wanted, since }: StreamProps) {
  const refresh = useRefresh()
  const made = useRef(since)
  made.current = since
  useEffect(() => {
    let look: ReturnType<typeof setTimeout> | undefined
    let again: ReturnType<typeof setTimeout> | undefined
    let pauseMs = RETRY_MS
    let source: EventSource
    let isGone = false
    // Not pushed back by the next change: what changes all the time is shown all the time.
    const changed = (inMs = SETTLE_MS) => {
      look ??= setTimeout(async () => {
        const isDone = await refresh()
        look = undefined
        if (!isDone && !isGone) changed(RETRY_MS)
      }, inMs)
    }
    const open = () => {
      source = new EventSource(`/api/live?topics=${encodeURIComponent(wanted)}&since=${made.current}`)
      source.addEventListener('changed', () => changed())
      source.addEventListener('open', () => {
        pauseMs = RETRY_MS
      })
      source.addEventListener('error', () => {
        if (source.readyState !== EventSource.CLOSED || isGone) return
        again = setTimeout(open, pauseMs)
        pauseMs = Math.min(pauseMs * 2, LONGEST_PAUSE_MS)
      })
    }
    open()
    return () => {
      isGone = true
      clearTimeout(look)
      clearTimeout(again)
      source.close()
    }
  }, [refresh, wanted])
  return null
}
