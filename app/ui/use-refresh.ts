'use client'
import { useRouter } from 'next/navigation'
import { useCallback } from 'react'

/** Whether the shop can be reached just now. */
export const isAnswering = (): Promise<boolean> =>
  fetch('/api/health', { cache: 'no-store' }).then(
    (response) => response.ok,
    () => false,
  )

/**
 * Makes the page again from a shop that answers. Where it does not, the page stays, with what was typed in it: a
 * refresh that fails would throw both away.
 * @returns whether it was asked for
 */
export function useRefresh(): () => Promise<boolean> {
  const router = useRouter()
  return useCallback(async () => {
    if (!(await isAnswering())) return false
    router.refresh()
    return true
  }, [router])
}
