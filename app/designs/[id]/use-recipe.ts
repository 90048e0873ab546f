'use client'
import { useCallback, useDeferredValue, useEffect, useMemo, useReducer, useRef, useState } from 'react'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import type { LiveModel } from '../../builds/[id]/design/use-design'
import type { Judged } from './recipe-desk'
import { takenOut, valueAt, withValue } from './recipe-path'

const MOST_STEPS = 200

interface State {
  readonly recipe: Recipe
  readonly past: readonly Recipe[]
  /** Path that was typed into last: a word is one step, not its letters. */
  readonly typing: string | null
}

type Change =
  | { readonly kind: 'set'; readonly path: string; readonly value: unknown }
  | { readonly kind: 'take'; readonly path: string }
  | { readonly kind: 'put'; readonly recipe: Recipe }
  | { readonly kind: 'undo' }

function changed(state: State, change: Change): State {
  if (change.kind === 'undo') {
    const [last, ...rest] = state.past
    return last ? { recipe: last, past: rest, typing: null } : state
  }
  if (change.kind === 'put') return { recipe: change.recipe, past: [], typing: null }
  const recipe =
    change.kind === 'set'
      ? withValue(state.recipe, change.path, change.value)
      : takenOut(state.recipe, change.path)
  const goesOn = change.kind === 'set' && state.typing === change.path
  const past = goesOn ? state.past : [state.recipe, ...state.past].slice(0, MOST_STEPS)
  return { recipe, past, typing: change.kind === 'set' ? change.path : null }
}

export interface RecipeEdit {
  readonly recipe: Recipe
  readonly valueAt: (path: string) => unknown
  readonly set: (path: string, value: unknown) => void
  readonly take: (path: string) => void
  readonly put: (recipe: Recipe) => void
  readonly undo: () => void
  readonly steps: number
}

const draftKey = (designId: string) => `recipe ${designId}`

interface Draft {
  readonly version: number
  readonly recipe: Recipe
}

function draftOf(designId: string, version: number): Recipe | null {
  try {
    const draft = JSON.parse(sessionStorage.getItem(draftKey(designId)) ?? 'null') as Draft | null
    return draft?.version === version ? draft.recipe : null
  } catch {
    return null
  }
}

function keepDraft(designId: string, draft: Draft | null): void {
  try {
    if (draft) sessionStorage.setItem(draftKey(designId), JSON.stringify(draft))
    else sessionStorage.removeItem(draftKey(designId))
  } catch {
    // Storage is closed to this page: the draft lives as long as the page does.
  }
}

/** The recipe as it is typed, with its steps back. What is not saved survives a look at another page. */
export function useRecipe(designId: string, version: number, start: Recipe): RecipeEdit {
  const [state, change] = useReducer(changed, { recipe: start, past: [], typing: null })
  const isFirst = useRef(true)
  useEffect(() => {
    if (isFirst.current) {
      isFirst.current = false
      const draft = draftOf(designId, version)
      if (draft && JSON.stringify(draft) !== JSON.stringify(start))
        change({ kind: 'set', path: '', value: draft })
      return
    }
    keepDraft(designId, state.past.length > 0 ? { version, recipe: state.recipe } : null)
  }, [designId, version, start, state])
  const hasSteps = state.past.length > 0
  useEffect(() => {
    if (!hasSteps) return
    const warn = (event: BeforeUnloadEvent) => event.preventDefault()
    addEventListener('beforeunload', warn)
    return () => removeEventListener('beforeunload', warn)
  }, [hasSteps])
  const set = useCallback((path: string, value: unknown) => change({ kind: 'set', path, value }), [])
  const take = useCallback((path: string) => change({ kind: 'take', path }), [])
  const put = useCallback((recipe: Recipe) => change({ kind: 'put', recipe }), [])
  const undo = useCallback(() => change({ kind: 'undo' }), [])
  return {
    recipe: state.recipe,
    valueAt: (path) => valueAt(state.recipe, path),
    set,
    take,
    put,
    undo,
    steps: state.past.length,
  }
}

const NOTHING: Judged = { faults: {}, refusals: {}, remarks: {}, model: null, worth: {} }

export interface LiveRecipe extends LiveModel {
  readonly judged: Judged
  readonly isReady: boolean
  readonly failed: boolean
}

/** What is wrong with the recipe, and the last piece that could be built of it. */
export function useJudged(recipe: Recipe): LiveRecipe {
  const [judge, setJudge] = useState<((recipe: Recipe) => Judged) | null>(null)
  const [failed, setFailed] = useState(false)
  const asked = useDeferredValue(recipe)
  const last = useRef<LiveModel['model']>(null)
  const worths = useRef<Judged['worth']>({})
  useEffect(() => {
    import('./recipe-desk')
      .then(({ judgeRecipe }) => setJudge(() => judgeRecipe))
      .catch(() => setFailed(true))
  }, [])
  return useMemo(() => {
    const found = judge ? judge(asked) : NOTHING
    if (found.model) last.current = found.model
    if (Object.keys(found.worth).length > 0) worths.current = found.worth
    const judged = { ...found, worth: worths.current }
    return {
      judged,
      isReady: judge !== null,
      failed,
      model: last.current,
      isCurrent: found.model !== null,
      refusals: found.refusals,
    }
  }, [judge, asked, failed])
}
