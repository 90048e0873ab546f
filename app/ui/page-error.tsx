'use client'
import { useEffect } from 'react'
import { buttonClass } from './button'
import { Page } from './sheet'
import { isAnswering } from './use-refresh'

const LOOK_AGAIN_MS = 2_000

interface Props {
  readonly error: Error & { digest?: string }
  /** Should stay the same function from one rendering to the next. */
  readonly tryAgain: () => void
}

/** A fault of the shop has a reference. Without one the connection broke off: the page comes back by itself. */
export function PageError({ error, tryAgain }: Props) {
  const isCutOff = error.digest === undefined
  useEffect(() => {
    if (!isCutOff) return
    const timer = setInterval(async () => {
      if (await isAnswering()) tryAgain()
    }, LOOK_AGAIN_MS)
    return () => clearInterval(timer)
  }, [isCutOff, tryAgain])
  return (
    <Page
      title="That did not work"
      lead={
        isCutOff
          ? 'The page was cut off on its way here. Nothing that was confirmed is lost.'
          : 'Something in Fellowbench went wrong. Nothing that was confirmed is lost.'
      }
    >
      <div className="grid justify-items-start gap-4">
        <p>
          {isCutOff
            ? 'It comes back as soon as the shop answers. If it does not, tell your admin.'
            : `Try again; if it stays so, tell your admin this reference: ${error.digest}.`}
        </p>
        <button type="button" className={buttonClass('primary')} onClick={tryAgain}>
          Try again
        </button>
      </div>
    </Page>
  )
}
