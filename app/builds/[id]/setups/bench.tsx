'use client'
import clsx from 'clsx'
import { ChevronLeft, ChevronRight } from 'lucide-react'
import { useEffect, useMemo, useOptimistic, useRef, useState, useTransition } from 'react'
import { sayDuration } from '#lib/format/instant'
import { freshForm } from '../../../form-state'
import { KIND_WORDS } from '../../../stations/words'
import { Button, buttonClass } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { send } from '../../../ui/send'
import { Tag } from '../../../ui/tag'
import { tickCuts } from './actions'
import type { BenchSetup } from './bench-sheet'
import { SetupCard } from './setup-card'

const MS = 1000
const HASH = /^#setup-(\d+)$/

export interface Ticked {
  readonly key: string
  readonly memberName: string
}

interface BenchProps {
  readonly planId: string
  readonly setups: readonly BenchSetup[]
  readonly ticks: readonly Ticked[]
  /** Cuts of boards that are recorded as cut: done, and not to be taken back. */
  readonly recorded: readonly string[]
  readonly mayTick: boolean
}

const keysOf = (setup: BenchSetup) => setup.cuts.flatMap((c) => c.keys)
const isOpen = (setup: BenchSetup, ticked: ReadonlySet<string>) => keysOf(setup).some((k) => !ticked.has(k))

/** Ticks are shown at once and taken back if they were not taken. */
function useTicking(planId: string, ticks: readonly Ticked[], recorded: readonly string[]) {
  const [isPending, begin] = useTransition()
  const [refused, setRefused] = useState<string>()
  const saved = useMemo(() => ticks.map((t) => t.key), [ticks])
  const [keys, show] = useOptimistic(
    saved as readonly string[],
    (now, c: { keys: readonly string[]; to: boolean }) =>
      c.to ? [...now, ...c.keys] : now.filter((k) => !c.keys.includes(k)),
  )
  const tick = (changed: readonly string[], to: boolean) =>
    begin(async () => {
      show({ keys: changed, to })
      const form = new FormData()
      form.set('planId', planId)
      form.set('done', String(to))
      for (const key of changed) form.append('key', key)
      setRefused((await send(tickCuts, freshForm, form)).sentence)
    })
  const ticked = useMemo(() => new Set([...keys, ...recorded]), [keys, recorded])
  return { ticked, tick, refused, isPending }
}

/** Which set-up is in hand: the address says it, else the first that is not ticked off when the page opens. */
function useAt(setups: readonly BenchSetup[], ticked: ReadonlySet<string>) {
  const firstOpen = setups.findIndex((s) => isOpen(s, ticked))
  const [at, setAt] = useState(Math.max(firstOpen, 0))
  useEffect(() => {
    const read = () => {
      const number = Number(HASH.exec(location.hash)?.[1])
      if (number >= 1 && number <= setups.length) setAt(number - 1)
    }
    read()
    addEventListener('hashchange', read)
    return () => removeEventListener('hashchange', read)
  }, [setups.length])
  const go = (to: number) => {
    history.replaceState(null, '', `#setup-${to + 1}`)
    setAt(to)
  }
  return { at: Math.min(at, setups.length - 1), go }
}

/** One set-up at a time, with all of them to choose from; on paper all of them. */
export function Bench({ planId, setups, ticks, recorded, mayTick }: BenchProps) {
  const { ticked, tick, refused, isPending } = useTicking(planId, ticks, recorded)
  const { at, go } = useAt(setups, ticked)
  const top = useRef<HTMLDivElement>(null)
  const by = useMemo(() => new Map(ticks.map((t) => [t.key, t.memberName])), [ticks])
  const settled = useMemo(() => new Set(recorded), [recorded])
  const choose = (to: number) => {
    go(to)
    top.current?.scrollIntoView({ block: 'start' })
  }
  return (
    <section aria-label="At the bench" className="grid grid-cols-[minmax(0,1fr)] gap-5" aria-busy={isPending}>
      <div ref={top} className="-mt-4 scroll-mt-4">
        {refused ? (
          <Notice level="stop" role="alert">
            {refused}
          </Notice>
        ) : null}
      </div>
      {setups.map((setup, i) => (
        <div
          key={setup.id}
          className={
            i === at
              ? undefined
              : 'hidden print:block print:break-inside-avoid-page print:border-t-2 print:border-ink print:pt-4'
          }
        >
          <SetupCard
            setup={setup}
            count={setups.length}
            ticked={ticked}
            by={by}
            recorded={settled}
            mayTick={mayTick}
            onTick={tick}
          />
        </div>
      ))}
      <Turning setups={setups} at={at} ticked={ticked} mayTick={mayTick} onTick={tick} choose={choose} />
      <AllSetups setups={setups} at={at} ticked={ticked} choose={choose} />
    </section>
  )
}

interface TurningProps {
  readonly setups: readonly BenchSetup[]
  readonly at: number
  readonly ticked: ReadonlySet<string>
  readonly mayTick: boolean
  readonly onTick: (keys: readonly string[], to: boolean) => void
  readonly choose: (to: number) => void
}

/** Always under the thumb: back, on, and what is left to tick here. */
function Turning({ setups, at, ticked, mayTick, onTick, choose }: TurningProps) {
  const setup = setups[at]
  const left = keysOf(setup).filter((k) => !ticked.has(k))
  const nextOpen = setups.findIndex((s, i) => i !== at && isOpen(s, ticked))
  const isDone = left.length === 0
  return (
    <div className="sticky bottom-[calc(3.55rem+env(safe-area-inset-bottom))] z-20 -mx-4 border-t border-hairline-strong bg-paper px-4 py-2.5 sm:-mx-8 sm:px-8 md:bottom-0 lg:mx-0 lg:px-0 print:hidden">
      <p role="status" className="sr-only">
        Set-up {setup.number}: {setup.title}. {isDone ? 'Ticked off.' : `${left.length} cuts left.`}
      </p>
      <div className="flex items-center gap-2">
        <Button aria-label="Set-up before" disabled={at === 0} onClick={() => choose(at - 1)}>
          <ChevronLeft aria-hidden="true" className="size-5" />
          <span className="max-sm:sr-only">Before</span>
        </Button>
        <div className="flex min-w-0 flex-1 items-center justify-center gap-3 text-center">
          {mayTick && !isDone ? (
            <Button className="max-sm:flex-1" onClick={() => onTick(left, true)}>
              {left.length === 1 ? 'Tick it off' : `Tick off all ${left.length}`}
            </Button>
          ) : null}
          {isDone ? <Tag tone="good">Ticked off</Tag> : null}
          {isDone && nextOpen >= 0 && nextOpen !== at + 1 ? (
            <Button look="quiet" onClick={() => choose(nextOpen)}>
              Next to do: {setups[nextOpen].number}
            </Button>
          ) : null}
        </div>
        <Button
          aria-label="Next set-up"
          look={isDone && at + 1 < setups.length ? 'primary' : 'plain'}
          disabled={at + 1 === setups.length}
          onClick={() => choose(at + 1)}
        >
          <span className="max-sm:sr-only">Next</span>
          <ChevronRight aria-hidden="true" className="size-5" />
        </Button>
      </div>
    </div>
  )
}

type AllProps = Pick<TurningProps, 'setups' | 'at' | 'ticked' | 'choose'>

function AllSetups({ setups, at, ticked, choose }: AllProps) {
  const list = useRef<HTMLDetailsElement>(null)
  return (
    <details ref={list} className="print:hidden">
      <summary className={buttonClass('quiet', '-ml-2')}>All {setups.length} set-ups</summary>
      <ol className="mt-2 divide-y divide-hairline border-y border-hairline">
        {setups.map((setup, i) => {
          const keys = keysOf(setup)
          const done = keys.filter((k) => ticked.has(k)).length
          return (
            <li key={setup.id}>
              <a
                href={`#setup-${setup.number}`}
                aria-current={i === at ? 'step' : undefined}
                onClick={(event) => {
                  event.preventDefault()
                  if (list.current) list.current.open = false
                  choose(i)
                }}
                className={clsx(
                  'grid min-h-12 grid-cols-[2.2rem_minmax(0,1fr)_auto] items-center gap-x-3 py-1.5 hover:bg-accent-wash sm:grid-cols-[2.2rem_8rem_minmax(0,1fr)_5rem_7rem]',
                  i === at && 'bg-accent-wash font-semibold',
                )}
              >
                <span className="text-right text-ink-soft">{setup.number}</span>
                <span className="text-ink-soft max-sm:hidden">{KIND_WORDS[setup.station].word}</span>
                <span className="min-w-0">
                  {setup.title}
                  <span className="block text-[0.9rem] font-normal text-ink-soft sm:hidden">
                    {KIND_WORDS[setup.station].word}, {sayDuration(setup.seconds * MS)}
                  </span>
                </span>
                <span className="text-right font-normal text-ink-soft max-sm:hidden">
                  {sayDuration(setup.seconds * MS)}
                </span>
                <Tag tone={done === keys.length ? 'good' : done > 0 ? 'busy' : 'plain'}>
                  {`${done} of ${keys.length}`}
                </Tag>
              </a>
            </li>
          )
        })}
      </ol>
    </details>
  )
}
