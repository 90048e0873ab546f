/**
 * Several builds on one pool: planned one after another, each on the boards that those before it leave, and all
 * together. What planning together saves is the difference; it is never worse, since the plans one after another are a
 * plan together, too.
 * In: a problem whose blanks belong to groups (builds), the order in which builds would go by themselves. Out: the
 * best plan together and the plans one after another, all told in the blanks of the problem.
 * Cost: 3/10 of the time or steps for the plans one after another. Tests: tests/core/cutting/plan-together.test.ts
 */
import { countMade } from './forms'
import { leavesOf } from './offcuts'
import type { PlanOptions } from './plan-cuts'
import { planForms } from './plan-forms'
import type { CutPlan, CutProblem } from './problem'
import { pieceAreaUm2 } from './rows'

export interface Groups {
  /** By blank: which build it is for. */
  readonly of: readonly number[]
  /** Builds in the order in which they would choose their boards: most wanted first. */
  readonly order: readonly number[]
}

export interface TogetherPlans {
  readonly plan: CutPlan
  /** By build, as they stand when planned one after another. */
  readonly alone: readonly CutPlan[]
}

const ALONE_SHARE = 0.3

/** The problem of one build on the boards that are left. */
function problemAlone(problem: CutProblem, of: readonly number[], group: number, taken: ReadonlySet<number>) {
  return {
    ...problem,
    boards: problem.boards.map((board, i) => (taken.has(i) ? { ...board, count: 0 } : board)),
    blanks: problem.blanks.map((blank, i) => (of[i] === group ? blank : { ...blank, demand: 0 })),
  }
}

/** The plans one after another as one plan of all. */
function united(problem: CutProblem, plans: readonly CutPlan[]): CutPlan {
  const layouts = plans.flatMap((plan) => plan.layouts).sort((a, b) => a.board - b.board)
  const made = countMade(problem, layouts)
  const area = layouts.reduce((sum, l) => {
    const { lengthUm, widthUm } = problem.boards[l.board]
    return sum + l.copies * lengthUm * widthUm
  }, 0)
  const blankArea = layouts.reduce(
    (sum, l) =>
      sum +
      l.copies *
        leavesOf(l.tree).reduce((s, leaf) => (leaf.kind === 'blank' ? s + pieceAreaUm2(leaf) : s), 0),
    0,
  )
  return {
    status: 'feasible',
    layouts,
    weightMade: problem.blanks.reduce((sum, b, i) => sum + b.weight * made[i], 0),
    weightBound: problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0),
    cost: layouts.reduce((sum, l) => sum + l.copies * problem.boards[l.board].cost, 0),
    costBound: 0,
    yield: area > 0 ? blankArea / area : 0,
    shortages: problem.blanks.flatMap((b, i) => {
      const missing = (b.demand ?? 0) - made[i]
      return missing > 0 ? [{ blank: i, missing, why: 'contention' as const }] : []
    }),
    steps: plans.reduce((sum, plan) => sum + plan.steps, 0),
  }
}

const EVEN = 1e-9

const isBetter = (a: CutPlan, b: CutPlan): boolean =>
  Math.abs(a.weightMade - b.weightMade) > EVEN ? a.weightMade > b.weightMade : a.cost < b.cost - EVEN

/** Bounds of the search together hold for the plans one after another as well. */
function withBounds(plan: CutPlan, proven: CutPlan): CutPlan {
  const weightBound = Math.min(plan.weightBound, Math.max(proven.weightBound, plan.weightMade))
  const isSame = Math.abs(plan.weightMade - proven.weightMade) <= EVEN
  const costBound = isSame ? Math.min(plan.cost, proven.costBound) : 0
  const isBest = plan.weightMade >= weightBound - EVEN && plan.cost <= costBound + EVEN
  return { ...plan, weightBound, costBound, status: isBest ? 'optimal' : 'feasible' }
}

export interface TogetherOptions extends PlanOptions {
  /** Time for all of it; with `budget.nowMs` it is shared out. Absent: shared by steps alone. */
  readonly milliseconds?: number
}

/** The options for one of the plans one after another. */
function aloneOptions(options: TogetherOptions, nth: number, count: number): PlanOptions {
  const { budget, milliseconds, seed, lp } = options
  const share = ALONE_SHARE / count
  const began = budget.nowMs?.() ?? 0
  const until = milliseconds === undefined ? Number.POSITIVE_INFINITY : began + milliseconds * share
  return {
    seed: seed + nth,
    lp,
    isCureWanted: false,
    budget: {
      ...budget,
      maxSteps: Number.isFinite(budget.maxSteps)
        ? Math.max(1, Math.floor(budget.maxSteps * share))
        : budget.maxSteps,
      shouldStop: () => (budget.shouldStop?.() ?? false) || (budget.nowMs?.() ?? 0) > until,
    },
  }
}

/**
 * @throws RangeError unless every blank has a group
 * @example planTogether(problem, { of: [0, 1], order: [0, 1] }, options).plan.cost //=> 1200
 */
export function planTogether(problem: CutProblem, groups: Groups, options: TogetherOptions): TogetherPlans {
  if (groups.of.length !== problem.blanks.length) throw new RangeError(`groups: ${groups.of.length}`)
  const alone: CutPlan[] = []
  const taken = new Set<number>()
  groups.order.forEach((group, nth) => {
    const own = problemAlone(problem, groups.of, group, taken)
    const plan = planForms(own, aloneOptions(options, nth, groups.order.length))
    for (const { board } of plan.layouts) taken.add(board)
    alone[group] = plan
  })
  const first = united(problem, Object.values(alone))
  options.onBetter?.(first)
  let best = first
  const offer = (plan: CutPlan): void => {
    if (!isBetter(plan, best)) return
    best = plan
    options.onBetter?.(plan)
  }
  const used = Number.isFinite(options.budget.maxSteps) ? first.steps : 0
  const found = planForms(problem, {
    ...options,
    budget: { ...options.budget, maxSteps: Math.max(1, options.budget.maxSteps - used) },
    onBetter: offer,
  })
  const plan = isBetter(first, found) ? withBounds(first, found) : found
  return { plan, alone }
}
