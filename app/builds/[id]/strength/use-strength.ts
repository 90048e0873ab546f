'use client'
import { useCallback, useEffect, useRef, useState } from 'react'
import type { ParameterValues } from '#lib/core/design/model'
import type { StrengthOptions } from '#lib/core/statics/strength'
import type { BrowserWorker, Outcome, Run } from '#lib/engine/browser-worker'
import { strengthDesk } from '#lib/engine/strength-client'
import type { StrengthAnswer, StrengthAsk } from '#lib/engine/strength-run'

/** What every question is about: the design, its numbers and what it is judged for. */
export interface Asked {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly options: StrengthOptions
}

export type Desk = BrowserWorker<StrengthAsk, StrengthAnswer>
type Kind = StrengthAnswer['kind']
export type AnswerOf<K extends Kind> = Extract<StrengthAnswer, { kind: K }>

/** One worker a page, ended with it. */
export function useDesk(): Desk {
  const [desk] = useState(strengthDesk)
  useEffect(() => () => desk.close(), [desk])
  return desk
}

export type Asking<K extends Kind> =
  | { readonly state: 'idle' }
  | { readonly state: 'going'; readonly done: number; readonly of?: number }
  | { readonly state: 'done'; readonly answer: AnswerOf<K> }
  | { readonly state: 'refused'; readonly sentence: string }
  | { readonly state: 'failed' }
  | { readonly state: 'cancelled' }

const settled = <K extends Kind>(outcome: Outcome<StrengthAnswer>): Asking<K> => {
  switch (outcome.kind) {
    case 'done':
      return { state: 'done', answer: outcome.answer as AnswerOf<K> }
    case 'refused':
      return { state: 'refused', sentence: outcome.sentence }
    case 'failed':
      return { state: 'failed' }
    case 'cancelled':
      return { state: 'cancelled' }
  }
}

/** A question of one kind, asked on demand; a new one takes the place of the last. */
export function useQuestion<K extends Kind>(desk: Desk) {
  const [asking, setAsking] = useState<Asking<K>>({ state: 'idle' })
  const run = useRef<Run<StrengthAnswer> | null>(null)
  const drop = useCallback(() => {
    const former = run.current
    run.current = null
    former?.cancel()
  }, [])
  const start = useCallback(
    (ask: StrengthAsk & { readonly kind: K }) => {
      drop()
      setAsking({ state: 'going', done: 0 })
      const mine = desk.ask(ask, (done, of) => {
        if (run.current === mine) setAsking({ state: 'going', done, ...(of === undefined ? {} : { of }) })
      })
      run.current = mine
      mine.outcome.then((outcome) => {
        if (run.current === mine) setAsking(settled<K>(outcome))
      })
    },
    [desk, drop],
  )
  const stop = useCallback(() => run.current?.cancel(), [])
  useEffect(() => drop, [drop])
  return { asking, start, stop }
}
