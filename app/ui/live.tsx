'use client'
import { useRouter } from 'next/navigation'
import { useEffect } from 'react'

const SETTLE_MS = 250

/** Looks at the page again when one of its topics changes anywhere in the shop. */
export function Live({ topics }: { readonly topics: readonly string[] }) {
  const router = useRouter()
  const wanted = topics.join(',')
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    const source = new EventSource(`/api/live?topics=${encodeURIComponent(wanted)}`)
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
