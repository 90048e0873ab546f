'use client'
import { useEffect, useMemo, useReducer, useRef, useState } from 'react'
import { Kept } from '#lib/core/units/kept'
import type { Outcome } from '#lib/engine/browser-worker'
import { variantDesk } from '#lib/engine/variant-client'
import type { VariantAnswer, VariantAsk } from '#lib/engine/variant-run'

export type VariantDesk = ReturnType<typeof variantDesk>

/** One worker a page, ended with it. */
export function useVariantDesk(): VariantDesk {
  const [desk] = useState(variantDesk)
  useEffect(() => () => desk.close(), [desk])
  return desk
}

/** Answers by their whole question, for as long as the page's script lives; the oldest goes first. */
const kept = new Kept<Outcome<VariantAnswer>>(300)

type AnswerOf<A extends VariantAsk> = Extract<VariantAnswer, { kind: A['kind'] }>

export type Answered<A extends VariantAsk> =
  | { readonly state: 'waiting' }
  | { readonly state: 'done'; readonly answer: AnswerOf<A> }
  /** A sentence for the reader. */
  | { readonly state: 'refused'; readonly sentence: string }

const FAILED = 'The calculation failed: a fault of the program, not of the design. Reload to try again.'

function answered<A extends VariantAsk>(outcome: Outcome<VariantAnswer> | undefined): Answered<A> {
  if (!outcome || outcome.kind === 'cancelled') return { state: 'waiting' }
  if (outcome.kind === 'done') return { state: 'done', answer: outcome.answer as AnswerOf<A> }
  return { state: 'refused', sentence: outcome.kind === 'refused' ? outcome.sentence : FAILED }
}

function settle(key: string, outcome: Outcome<VariantAnswer>): void {
  if (outcome.kind !== 'cancelled') kept.set(key, outcome)
}

/** Answers in the order of the questions. A question that was answered before is not asked again. */
export function useAnswers<A extends VariantAsk>(desk: VariantDesk, asks: readonly A[]): Answered<A>[] {
  const [, look] = useReducer((n: number) => n + 1, 0)
  const all = JSON.stringify(asks)
  const asked = useRef(new Set<string>())
  useEffect(() => () => asked.current.clear(), [])
  useEffect(() => {
    let isGone = false
    for (const ask of JSON.parse(all) as VariantAsk[]) {
      const key = JSON.stringify(ask)
      if (kept.has(key) || asked.current.has(key)) continue
      asked.current.add(key)
      desk.ask(ask).outcome.then((outcome) => {
        settle(key, outcome)
        if (!isGone) look()
      })
    }
    return () => {
      isGone = true
    }
  }, [all, desk])
  const keys = useMemo(() => (JSON.parse(all) as VariantAsk[]).map((ask) => JSON.stringify(ask)), [all])
  return keys.map((key) => answered<A>(kept.get(key)))
}

/**
 * The answer to the last question of a stream of them: one is worked on at a time, those in between are skipped.
 * What was answered last stays until the next answer.
 */
export function useLatestAnswer<A extends VariantAsk>(
  desk: VariantDesk,
  ask: A | null,
): { readonly answer: AnswerOf<A> | null; readonly isCurrent: boolean } {
  const wanted = ask === null ? null : JSON.stringify(ask)
  const latest = useRef(wanted)
  latest.current = wanted
  const isBusy = useRef(false)
  const [found, setFound] = useState<{ key: string; answer: AnswerOf<A> } | null>(null)
  // Of the page, not of one question: whoever is answered asks the last one, which may have come meanwhile.
  const isThere = useRef(false)
  useEffect(() => {
    isThere.current = true
    return () => {
      isThere.current = false
    }
  }, [])
  useEffect(() => {
    const next = () => {
      const key = latest.current
      if (!isThere.current || isBusy.current || key === null) return
      const take = (outcome: Outcome<VariantAnswer>) => {
        settle(key, outcome)
        if (outcome.kind === 'done' && isThere.current)
          setFound({ key, answer: outcome.answer as AnswerOf<A> })
        return outcome.kind
      }
      const known = kept.get(key)
      if (known) return void take(known)
      isBusy.current = true
      desk.ask(JSON.parse(key) as VariantAsk).outcome.then((outcome) => {
        isBusy.current = false
        take(outcome)
        if (latest.current !== key) next()
      })
    }
    if (wanted !== null) next()
  }, [wanted, desk])
  return { answer: found?.answer ?? null, isCurrent: found !== null && found.key === wanted }
}
