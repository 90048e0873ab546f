'use client'
import clsx from 'clsx'
import { Check } from 'lucide-react'
import { useId } from 'react'
import type { BenchCuts } from './bench-sheet'

interface Props {
  readonly cuts: BenchCuts
  readonly ticked: ReadonlySet<string>
  readonly by: ReadonlyMap<string, string>
  /** Done because their board is recorded as cut. */
  readonly recorded: ReadonlySet<string>
  readonly mayTick: boolean
  readonly onTick: (keys: readonly string[], to: boolean) => void
}

/** Alike cuts: one tick for all that are left, and one by one for whoever counts. */
export function TickRow(props: Props) {
  const { cuts, ticked } = props
  const done = cuts.keys.filter((k) => ticked.has(k)).length
  return (
    <li className="break-inside-avoid">
      <Tick
        {...props}
        keys={cuts.keys}
        title={cuts.title}
        state={done === cuts.keys.length ? 'all' : done > 0 ? `${done} of ${cuts.keys.length}` : 'none'}
      >
        {cuts.which ? <span className="block">{cuts.which}</span> : null}
        {cuts.note}
        <DoneBy {...props} />
      </Tick>
      {cuts.keys.length > 1 ? (
        <details className="-mt-3.5 ml-13 print:hidden">
          <summary className="inline-flex min-h-11 items-center pr-4 text-[0.95rem] font-medium text-accent">
            One by one
          </summary>
          <ul aria-label={cuts.title} className="pb-2">
            {cuts.keys.map((key, i) => (
              <li key={key}>
                <Tick
                  {...props}
                  keys={[key]}
                  title={cuts.names[i]}
                  state={ticked.has(key) ? 'all' : 'none'}
                  small
                />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </li>
  )
}

function DoneBy({ cuts, ticked, by, recorded }: Props) {
  if (cuts.keys.every((k) => recorded.has(k)))
    return <span className="block">Done: the board is recorded as cut.</span>
  const names = [...new Set(cuts.keys.flatMap((k) => (ticked.has(k) && by.has(k) ? [by.get(k)!] : [])))]
  return names.length > 0 ? <span className="block">Ticked off by {names.join(' and ')}.</span> : null
}

interface TickProps {
  readonly keys: readonly string[]
  readonly title: string
  /** `all`, `none`, or how many in words. */
  readonly state: string
  readonly ticked: ReadonlySet<string>
  readonly recorded: ReadonlySet<string>
  readonly mayTick: boolean
  readonly onTick: (keys: readonly string[], to: boolean) => void
  readonly small?: boolean
  readonly children?: React.ReactNode
}

function Tick(props: TickProps) {
  const { keys, title, state, ticked, recorded, onTick, small, children } = props
  const id = useId()
  const isDone = state === 'all'
  const mayTick = props.mayTick && keys.some((k) => !recorded.has(k))
  const isSome = !isDone && state !== 'none'
  const change = () =>
    onTick(isDone ? keys.filter((k) => !recorded.has(k)) : keys.filter((k) => !ticked.has(k)), !isDone)
  return (
    <label
      className={clsx(
        'relative flex gap-4',
        small ? 'min-h-11 items-center py-1' : 'min-h-14 items-start py-3',
        mayTick && 'cursor-pointer',
      )}
    >
      <input
        type="checkbox"
        checked={isDone}
        aria-describedby={children ? id : undefined}
        aria-label={isSome ? `${title}, ${state} done` : title}
        disabled={!mayTick}
        onChange={change}
        className="peer absolute top-0 left-0 size-full cursor-[inherit] opacity-0"
      />
      <span
        aria-hidden="true"
        className={clsx(
          'grid shrink-0 place-items-center border-2 peer-focus-visible:outline-3 peer-focus-visible:outline-offset-2 peer-focus-visible:outline-accent',
          small ? 'size-7' : 'size-9',
          isDone ? 'border-good bg-good-wash text-good' : 'border-hairline-strong bg-sheet',
        )}
      >
        {isDone ? <Check strokeWidth={3} className={small ? 'size-5' : 'size-6'} /> : null}
        {isSome ? <span className="size-3.5 bg-good" /> : null}
      </span>
      <span className="min-w-0">
        <span
          className={clsx(small || 'text-[1.12rem] font-semibold', isDone && 'text-ink-soft line-through')}
        >
          {title}
        </span>
        {isSome ? <span className="ml-3 font-medium text-good">{state} done</span> : null}
        {children ? (
          <span id={id} className="block max-w-[72ch] text-ink-soft">
            {children}
          </span>
        ) : null}
      </span>
    </label>
  )
}
