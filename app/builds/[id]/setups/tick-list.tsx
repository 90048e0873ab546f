'use client'
import clsx from 'clsx'
import { Check } from 'lucide-react'
import { useOptimistic, useState, useTransition } from 'react'
import { freshForm } from '../../../form-state'
import { buttonClass } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { tickCuts } from './actions'

export interface TickItem {
  readonly key: string
  readonly title: string
  /** Where it is from and how it lies. */
  readonly note: string
  readonly by?: string
}

interface Props {
  readonly planId: string
  readonly items: readonly TickItem[]
  readonly done: readonly string[]
  readonly mayTick: boolean
  readonly label: string
}

/** The cuts of one set-up, ticked off with a thumb. A tick is shown at once and taken back if it was not taken. */
export function TickList({ planId, items, done, mayTick, label }: Props) {
  const [isPending, begin] = useTransition()
  const [refused, setRefused] = useState<string>()
  const [ticked, show] = useOptimistic(
    done,
    (now: readonly string[], c: { keys: readonly string[]; to: boolean }) =>
      c.to ? [...now, ...c.keys] : now.filter((k) => !c.keys.includes(k)),
  )
  const change = (keys: readonly string[], to: boolean) =>
    begin(async () => {
      show({ keys, to })
      const form = new FormData()
      form.set('planId', planId)
      form.set('done', String(to))
      for (const key of keys) form.append('key', key)
      setRefused((await tickCuts(freshForm, form)).sentence)
    })
  const open = items.filter((i) => !ticked.includes(i.key)).map((i) => i.key)
  return (
    <div aria-busy={isPending}>
      {refused ? (
        <Notice level="stop" role="alert">
          {refused}
        </Notice>
      ) : null}
      <ul aria-label={label} className="divide-y divide-hairline border-y border-hairline">
        {items.map((item) => (
          <li key={item.key}>
            <TickRow
              item={item}
              isDone={ticked.includes(item.key)}
              mayTick={mayTick}
              onTick={(to) => change([item.key], to)}
            />
          </li>
        ))}
      </ul>
      {mayTick && open.length > 1 ? (
        <button type="button" className={buttonClass('quiet', 'mt-1')} onClick={() => change(open, true)}>
          Tick all {open.length} off
        </button>
      ) : null}
    </div>
  )
}

function TickRow({
  item,
  isDone,
  mayTick,
  onTick,
}: {
  item: TickItem
  isDone: boolean
  mayTick: boolean
  onTick: (to: boolean) => void
}) {
  return (
    <label className={clsx('flex min-h-14 items-center gap-4 py-2', mayTick && 'cursor-pointer')}>
      <input
        type="checkbox"
        checked={isDone}
        disabled={!mayTick}
        onChange={(event) => onTick(event.target.checked)}
        className="peer sr-only"
      />
      <span
        aria-hidden="true"
        className={clsx(
          'grid size-9 shrink-0 place-items-center border-2 peer-focus-visible:outline-3 peer-focus-visible:outline-accent',
          isDone ? 'border-good bg-good-wash text-good' : 'border-hairline-strong bg-sheet text-transparent',
        )}
      >
        <Check strokeWidth={3} className="size-6" />
      </span>
      <span className="min-w-0">
        <span className={clsx('font-medium', isDone && 'text-ink-soft line-through')}>{item.title}</span>
        <span className="block text-[0.92rem] text-ink-soft">
          {item.note}
          {isDone && item.by ? ` Done by ${item.by}.` : ''}
        </span>
      </span>
    </label>
  )
}
