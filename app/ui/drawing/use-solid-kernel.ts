'use client'
import { useCallback, useEffect, useState } from 'react'
import type { SolidKernel } from '#lib/core/geometry/solid'

export type KernelState =
  | { readonly status: 'loading' }
  | { readonly status: 'ready'; readonly kernel: SolidKernel }
  | { readonly status: 'failed'; readonly retry: () => void }

/** The solid kernel, fetched when the first drawing or 3-D view of a page is mounted. */
export function useSolidKernel(): KernelState {
  const [kernel, setKernel] = useState<SolidKernel | null>(null)
  const [failed, setFailed] = useState(false)
  const [attempt, setAttempt] = useState(0)
  const retry = useCallback(() => {
    setFailed(false)
    setAttempt((n) => n + 1)
  }, [])

  // biome-ignore lint/correctness/useExhaustiveDependencies: a retry is a new attempt
  useEffect(() => {
    let mounted = true
    import('#lib/engine/solid-kernel-page')
      .then(({ loadSolidKernel }) => loadSolidKernel())
      .then((loaded) => mounted && setKernel(loaded))
      .catch(() => mounted && setFailed(true))
    return () => {
      mounted = false
    }
  }, [attempt])

  if (kernel !== null) return { status: 'ready', kernel }
  return failed ? { status: 'failed', retry } : { status: 'loading' }
}
