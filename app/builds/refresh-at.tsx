'use client'
import { useEffect } from 'react'
import { useRefresh } from '../ui/use-refresh'

const LONGEST_TIMER_MS = 2_000_000_000

/** Looks at the page again when an instant comes: glue is ready, a booking begins. */
export function RefreshAt({ at }: { readonly at: string | undefined }) {
  const refresh = useRefresh()
  useEffect(() => {
    if (!at) return
    const ms = Date.parse(at) - Date.now() + 500
    if (ms < 0 || ms > LONGEST_TIMER_MS) return
    const timer = setTimeout(refresh, ms)
    return () => clearTimeout(timer)
  }, [refresh, at])
  return null
}
