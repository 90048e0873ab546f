/**
 * Published cutting instances as plain JSON (see docs/formats.md), and answers to them: the door for benchmarks and for
 * anyone who wants to check a result with their own tools. Sizes are whole numbers in the instance's own unit; the
 * engine reads them as micrometres, so they stay exact.
 * In: PublishedInstance. Out: CutProblem; PublishedAnswer. Tests: tests/core/cutting/published.test.ts
 */
import type { CutNode, CutPlan, CutProblem } from './problem'

export interface PublishedInstance {
  readonly name: string
  readonly dim: 1 | 2
  readonly objective: 'min_bins' | 'min_cost' | 'max_value' | 'feasibility'
  readonly stock: readonly {
    readonly w: number
    readonly h?: number
    readonly count: number | null
    readonly cost?: number
  }[]
  readonly items: readonly {
    readonly w: number
    readonly h?: number
    readonly demand: number | null
    readonly rotate?: boolean
    readonly value?: number
  }[]
  readonly kerf?: number
  readonly defects?: readonly {
    readonly stock: number
    readonly x: number
    readonly y: number
    readonly w: number
    readonly h: number
  }[]
  readonly stages?: number | null
  readonly seconds?: number
}

export interface PublishedAnswer {
  readonly name: string
  readonly status: CutPlan['status']
  readonly value: number | null
  readonly bound: number | null
  readonly seconds: number
  readonly layout: readonly {
    readonly stock: number
    readonly copies: number
    readonly parts: readonly {
      readonly item: number
      readonly x: number
      readonly y: number
      readonly w: number
      readonly h: number
    }[]
    readonly cuts: CutNode
  }[]
}

const OBJECTIVES = {
  min_bins: 'minBoards',
  min_cost: 'minCost',
  max_value: 'maxValue',
  feasibility: 'feasibility',
} as const

/** Width of a 1-D board and its parts: any one number does. */
const ONE_D = 1

/**
 * @throws RangeError for an unknown objective; sizes are checked by `planCuts`
 * @example problemFromPublished(instance).objective //=> 'minBoards'
 */
export function problemFromPublished(instance: PublishedInstance): CutProblem {
  const objective = OBJECTIVES[instance.objective]
  if (objective === undefined) throw new RangeError(`objective: ${String(instance.objective)}`)
  const across = (h: number | undefined): number => (instance.dim === 1 ? ONE_D : (h ?? 0))
  return {
    kerfUm: instance.kerf ?? 0,
    boards: instance.stock.map((s, i) => ({
      id: `s${i}`,
      lengthUm: s.w,
      widthUm: across(s.h),
      cost: s.cost ?? 1,
      count: s.count,
    })),
    blanks: instance.items.map((t, i) => ({
      id: `i${i}`,
      lengthUm: t.w,
      widthUm: across(t.h),
      demand: t.demand,
      grain: t.rotate === true ? ('free' as const) : ('along' as const),
      weight: objective === 'maxValue' ? (t.value ?? t.w * across(t.h)) : t.w * across(t.h),
    })),
    zones: (instance.defects ?? []).map((d) => ({
      board: d.stock,
      xUm: d.x,
      yUm: d.y,
      lengthUm: d.w,
      widthUm: d.h,
      blocks: 'all' as const,
    })),
    limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: instance.stages ?? null },
    offcut: { minLengthUm: 1, minWidthUm: 1 },
    objective,
  }
}

function partsOf(tree: CutNode): PublishedAnswer['layout'][number]['parts'] {
  const parts: { item: number; x: number; y: number; w: number; h: number }[] = []
  const stack: CutNode[] = [tree]
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    if (node.kind === 'cut') {
      if (node.second !== undefined) stack.push(node.second)
      stack.push(node.first)
    } else if (node.kind === 'blank') {
      parts.push({ item: node.blank, x: node.xUm, y: node.yUm, w: node.lengthUm, h: node.widthUm })
    }
  }
  return parts
}

/**
 * Value and bound in the instance's own terms: boards, cost or value; null where the demand is not all made
 * (and for feasibility, where there is nothing to count).
 */
export function answerFor(instance: PublishedInstance, plan: CutPlan, seconds: number): PublishedAnswer {
  const isMax = instance.objective === 'max_value'
  const isComplete = plan.shortages.length === 0
  const counts = instance.objective !== 'feasibility'
  return {
    name: instance.name,
    status: plan.status,
    value: isMax ? plan.weightMade : isComplete && counts ? plan.cost : null,
    bound: isMax ? plan.weightBound : isComplete && counts ? plan.costBound : null,
    seconds,
    layout: plan.layouts.map((l) => ({
      stock: l.board,
      copies: l.copies,
      parts: partsOf(l.tree),
      cuts: l.tree,
    })),
  }
}
