'use client'
import { buttonClass } from './ui/button'
import { Page } from './ui/sheet'

export default function PageError({
  error,
  reset,
}: {
  readonly error: Error & { digest?: string }
  readonly reset: () => void
}) {
  return (
    <Page
      title="That did not work"
      lead="Something in Fellowbench went wrong. Nothing that was confirmed is lost."
    >
      <div className="grid justify-items-start gap-4">
        <p>
          Try again; if it stays so, tell your admin{error.digest ? ` this reference: ${error.digest}` : ''}.
        </p>
        <button type="button" className={buttonClass('primary')} onClick={reset}>
          Try again
        </button>
      </div>
    </Page>
  )
}
