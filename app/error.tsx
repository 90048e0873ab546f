'use client'
import { useRouter } from 'next/navigation'
import { startTransition, useCallback } from 'react'
import { PageError } from './ui/page-error'

interface Props {
  readonly error: Error & { digest?: string }
  readonly reset: () => void
}

/** In place of a page that could not be made; what stands around it stays. */
export default function ErrorPage({ error, reset }: Props) {
  const router = useRouter()
  const tryAgain = useCallback(
    () =>
      startTransition(() => {
        router.refresh()
        reset()
      }),
    [router, reset],
  )
  return <PageError error={error} tryAgain={tryAgain} />
}
