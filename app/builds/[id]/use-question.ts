'use client'
import { useCallback, useEffect, useRef, useState } from 'react'
import type { BrowserWorker, Outcome, Run } from '#lib/engine/browser-worker'

export type Asking<Answer> =
  | { readonly state: 'idle' }
  | { readonly state: 'going'; readonly done: number; readonly of?: number }
  | { readonly state: 'done'; readonly answer: Answer }
  | { readonly state: 'refused'; readonly sentence: string }
  | { readonly state: 'failed' }
  | { readonly state: 'cancelled' }

const settled = <Answer>(outcome: Outcome<Answer>): Asking<Answer> => {
  switch (outcome.kind) {
    case 'done':
      return { state: 'done', answer: outcome.answer }
    case 'refused':
      return { state: 'refused', sentence: outcome.sentence }
    case 'failed':
      return { state: 'failed' }
    case 'cancelled':
      return { state: 'cancelled' }
  }
}

/** One worker a page, ended with it. */
export function useDesk<Ask, Answer>(open: () => BrowserWorker<Ask, Answer>): BrowserWorker<Ask, Answer> {
  const [desk] = useState(open)
  useEffect(() => () => desk.close(), [desk])
  return desk
}

export interface Question<Ask, Answer> {
  readonly asking: Asking<Answer>
  readonly start: (ask: Ask) => void
  readonly stop: () => void
}

/** A question of one kind, asked of a worker on demand; a new one takes the place of the last. */
export function useQuestion<Ask, Answer>(desk: BrowserWorker<Ask, Answer>): Question<Ask, Answer> {
  const [asking, setAsking] = useState<Asking<Answer>>({ state: 'idle' })
  const run = useRef<Run<Answer> | null>(null)
  const drop = useCallback(() => {
    const former = run.current
    run.current = null
    former?.cancel()
  }, [])
  const start = useCallback(
    (ask: Ask) => {
      drop()
      setAsking({ state: 'going', done: 0 })
      const mine = desk.ask(ask, (done, of) => {
        if (run.current === mine) setAsking({ state: 'going', done, ...(of === undefined ? {} : { of }) })
      })
      run.current = mine
      mine.outcome.then((outcome) => {
        if (run.current === mine) setAsking(settled(outcome))
      })
    },
    [desk, drop],
  )
  const stop = useCallback(() => run.current?.cancel(), [])
  useEffect(() => drop, [drop])
  return { asking, start, stop }
}
