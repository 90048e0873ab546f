'use client'
import { useRouter } from 'next/navigation'
import { useEffect } from 'react'

const LONGEST_TIMER_MS = 2_000_000_000

/** Looks at the page again when an instant comes: glue is ready, a booking begins. */
export function RefreshAt({ at }: { readonly at: string | undefined }) {
  const router = useRouter()
  useEffect(() => {
    if (!at) return
    const ms = Date.parse(at) - Date.now() + 500
    if (ms < 0 || ms > LONGEST_TIMER_MS) return
    const timer = setTimeout(() => router.refresh(), ms)
    return () => clearTimeout(timer)
  }, [router, at])
  return null
}
