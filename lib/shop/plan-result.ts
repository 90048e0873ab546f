/**
 * The answer of a cut plan: the verified plan and which part comes out of which piece. Alike blanks are given to the
 * parts in the order in which the model names them, board after board, so that the same plan names the same parts.
 * Tests: tests/shop/plan-result.test.ts
 */
import { leavesOf } from '#lib/core/cutting/offcuts'
import type { CutPlan } from '#lib/core/cutting/problem'
import type { PlanInput } from './plan-input'

export interface PlanResult {
  readonly plan: CutPlan
  /** By layout, then by blank leaf in cutting order: the part's id. */
  readonly partIds: readonly (readonly string[])[]
}

/** What is shown while a better plan is sought. */
export interface PlanProgress {
  readonly elapsedMs: number
  readonly steps: number
  readonly weightMade: number
  readonly weightBound: number
  readonly cost: number
  readonly costBound: number
  readonly boards: number
}

/** @throws RangeError when a plan makes more of a blank than parts want it */
export function partsOfPlan(plan: CutPlan, input: Pick<PlanInput, 'needs'>): string[][] {
  const next = input.needs.map(() => 0)
  return plan.layouts.map((layout) =>
    leavesOf(layout.tree).flatMap((leaf) => {
      if (leaf.kind !== 'blank') return []
      const id = input.needs[leaf.blank]?.partIds[next[leaf.blank]++]
      if (id === undefined) throw new RangeError(`no part wants another blank ${leaf.blank}`)
      return [id]
    }),
  )
}

/** More made, then cheaper boards. A plan is no better than its equal. */
export function isBetterPlan(a: CutPlan, b: CutPlan): boolean {
  if (a.weightMade !== b.weightMade) return a.weightMade > b.weightMade
  return a.cost < b.cost
}

/** The better of two plans for one question, with what the other one proved. */
export function bestOfPlans(found: CutPlan, kept: CutPlan | null): CutPlan {
  if (kept === null) return found
  const [best, other] = isBetterPlan(kept, found) ? [kept, found] : [found, kept]
  const isSameWeight = best.weightMade === other.weightMade
  return {
    ...best,
    weightBound: Math.min(best.weightBound, other.weightBound),
    costBound: isSameWeight ? Math.max(best.costBound, other.costBound) : best.costBound,
    ...((best.cure ?? other.cure) ? { cure: best.cure ?? (isSameWeight ? other.cure : undefined) } : {}),
  }
}
