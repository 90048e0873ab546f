'use client'
import { useRouter } from 'next/navigation'
import { useEffect, useRef } from 'react'

const SETTLE_MS = 250

interface StreamProps {
  /** With commas between them. */
  readonly wanted: string
  /** When the page was made, ms since 1970. */
  readonly since: number
}

/** Looks at the page again when one of its topics has changed since it was made. */
export function LiveStream({ wanted, since }: StreamProps) {
  const router = useRouter()
  const made = useRef(since)
  made.current = since
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    const source = new EventSource(`/api/live?topics=${encodeURIComponent(wanted)}&since=${made.current}`)
    source.addEventListener('changed', () => {
      // Not pushed back by the next change: what changes all the time is shown all the time.
      timer ??= setTimeout(() => {
        timer = undefined
        router.refresh()
      }, SETTLE_MS)
    })
    return () => {
      clearTimeout(timer)
      source.close()
    }
  }, [router, wanted])
  return null
}
