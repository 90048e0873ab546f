/**
 * How good a cut plan is, in words that a maker understands. In: a plan and its question. Out: sentences and shares.
 * Tests: tests/shop/plan-words.test.ts
 */
import { restsOf } from '#lib/core/cutting/offcuts'
import type { CutPlan } from '#lib/core/cutting/problem'
import type { PlanInput } from './plan-input'

const ALMOST_NOTHING = 1e-9

const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`

const boardsOf = (plan: CutPlan): number => plan.layouts.reduce((sum, l) => sum + l.copies, 0)
export const partsWanted = (input: Pick<PlanInput, 'needs'>): number =>
  input.needs.reduce((sum, n) => sum + n.count, 0)
export const partsShort = (plan: CutPlan): number => plan.shortages.reduce((sum, s) => sum + s.missing, 0)

/** @example madeSentence(plan, input) //=> 'All 14 parts come out of 3 boards.' */
export function madeSentence(plan: CutPlan, input: Pick<PlanInput, 'needs'>): string {
  const wanted = partsWanted(input)
  const made = wanted - partsShort(plan)
  const boards = count(boardsOf(plan), 'board')
  if (made === 0) return `None of the ${count(wanted, 'part')} comes out of the pool as it is.`
  if (made === wanted) return `All ${count(wanted, 'part')} come out of ${boards}.`
  return `${made} of ${count(wanted, 'part')} come out of ${boards}; ${wanted - made} ${wanted - made === 1 ? 'is' : 'are'} short.`
}

/** Whether more parts could be made at all from these boards. */
export function reachSentence(plan: CutPlan, input: Pick<PlanInput, 'needs'>): string | null {
  const wanted = partsWanted(input)
  if (partsShort(plan) === 0) return null
  const most = Math.floor(plan.weightBound + ALMOST_NOTHING)
  const made = Math.round(plan.weightMade)
  if (most <= made) return 'Proven: these boards cannot give more.'
  return `More is not ruled out: at best ${Math.min(most, wanted)} of ${wanted}. A longer search may find it.`
}

/** Share by which the wood used could at best be less; 0: proven best. */
export function costGap(plan: Pick<CutPlan, 'cost' | 'costBound'>): number {
  if (plan.cost <= 0) return 0
  const gap = (plan.cost - plan.costBound) / plan.cost
  return gap <= ALMOST_NOTHING ? 0 : gap
}

/**
 * What a longer search could still bring. Of a plan that is short only what is proven: its bound counts no boards at
 * all, and a saving of everything says nothing.
 * @example gapSentence(plan) //=> 'A longer search may save wood: perhaps none, and never more than 4 %.'
 */
export function gapSentence(plan: CutPlan): string | null {
  if (plan.layouts.length === 0) return null
  const gap = costGap(plan)
  const isShort = partsShort(plan) > 0
  if (gap === 0) return `No plan${isShort ? ' for these parts' : ''} uses less wood: that is proven.`
  if (isShort) return null
  return `A longer search may save wood: perhaps none, and never more than ${Math.ceil(gap * 100)} %.`
}

/** Where the wood of the boards used goes, as shares of all of it: 1 in sum. */
export interface WoodShares {
  readonly parts: number
  readonly offcuts: number
  /** Waste, kerf, and ends trimmed off. */
  readonly waste: number
}

export function woodShares(plan: CutPlan, input: Pick<PlanInput, 'boards'>): WoodShares {
  let [all, parts, offcuts] = [0, 0, 0]
  for (const { board, copies, tree } of plan.layouts) {
    const rests = restsOf(tree)
    all += copies * input.boards[board].lengthUm * input.boards[board].widthUm
    parts += copies * rests.blankAreaUm2
    offcuts += copies * rests.offcutAreaUm2
  }
  if (all === 0) return { parts: 0, offcuts: 0, waste: 0 }
  return { parts: parts / all, offcuts: offcuts / all, waste: (all - parts - offcuts) / all }
}
