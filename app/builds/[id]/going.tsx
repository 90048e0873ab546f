'use client'
import { Button } from '../../ui/button'

interface GoingProps {
  readonly label: string
  readonly done: number
  /** Absent: nobody knows how many there will be. */
  readonly of?: number
  /** What is counted: «pieces drawn». */
  readonly counted: string
  readonly stop: () => void
}

/** Work that goes on in the worker: how far, and a way to stop it. */
export function Going({ label, done, of, counted, stop }: GoingProps) {
  const share = of ? done / of : undefined
  return (
    <div className="grid max-w-xl gap-3 border-l-4 border-accent bg-accent-wash px-4 py-3 print:hidden">
      <div className="flex flex-wrap items-center justify-between gap-3">
        <div>
          <p className="font-semibold" role="status">
            {label}
          </p>
          <p className="text-[0.92rem] text-ink-soft">
            {done}
            {of ? ` of ${of}` : ''} {counted}
          </p>
        </div>
        <Button onClick={stop}>Stop</Button>
      </div>
      <div
        role="progressbar"
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={share === undefined ? undefined : Math.round(share * 100)}
        className="h-2.5 overflow-hidden border border-accent bg-sheet"
      >
        <div
          className={share === undefined ? 'h-full w-1/3 animate-pulse bg-accent' : 'h-full bg-accent'}
          style={share === undefined ? undefined : { width: `${share * 100}%` }}
        />
      </div>
    </div>
  )
}
