/**
 * The answer of a cut plan: the verified plan and which part comes out of which piece. Alike blanks are given to the
 * parts in the order in which the model names them, board after board, so that the same plan names the same parts.
 * Tests: tests/shop/plan-result.test.ts
 */
import { leavesOf } from '#lib/core/cutting/offcuts'
import type { CutNode, CutPlan } from '#lib/core/cutting/problem'
import type { PlanInput } from './plan-input'
import { staveId } from './staves'

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
  /** Parts placed; absent in plans of before this was told. */
  readonly parts?: number
}

type Blank = Extract<CutNode, { kind: 'blank' }>

/** How many panels of each need are glued up. */
function panelsOf(plan: CutPlan, needs: PlanInput['needs']): number[] {
  const panels = needs.map(() => 0)
  for (const { tree } of plan.layouts) {
    for (const leaf of leavesOf(tree)) {
      const of = leaf.kind === 'blank' ? needs[leaf.blank]?.stave?.of : undefined
      if (of === undefined || leaf.kind !== 'blank') continue
      panels[of] = Math.max(panels[of], (leaf.stave?.panel ?? 0) + 1)
    }
  }
  return panels
}

/** @throws RangeError when a plan makes more of a blank than parts want it */
export function partsOfPlan(plan: CutPlan, input: Pick<PlanInput, 'needs'>): string[][] {
  const { needs } = input
  const next = panelsOf(plan, needs)
  const idOf = (leaf: Blank): string | undefined => {
    const need = needs[leaf.blank]
    if (need?.stave === undefined) {
      const id = need?.partIds[next[leaf.blank]++]
      return id === undefined || need.stavesMade === undefined ? id : staveId(id, need.stavesMade + 1)
    }
    const panel = needs[need.stave.of]
    const id = panel.partIds[leaf.stave?.panel ?? 0]
    return id === undefined ? id : staveId(id, (panel.stavesMade ?? 0) + (leaf.stave?.at ?? 0) + 1)
  }
  return plan.layouts.map((layout) =>
    leavesOf(layout.tree).flatMap((leaf) => {
      if (leaf.kind !== 'blank') return []
      const id = idOf(leaf)
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
