/**
 * The cutting engine's door: which part comes out of which board, in which cuts, and how good that is at best.
 *
 * A first plan fills one board after another (the board whose parts cost least wood first); then it is improved by
 * taking a few boards apart and filling them again (large neighbourhood search), with the missing parts tried anew.
 * In: CutProblem, seed, budget. Out: CutPlan with bounds. One step is one state of the board search.
 * `optimal` speaks of weight and cost, and only where the bound meets the plan; offcuts and settings are best effort.
 * Deterministic for a seed and a step budget. Tests: tests/core/cutting/, figures: docs/methods/cutting.md
 */
import type { Budget } from '#lib/core/units/budget'
import { singleBlocks } from './blocks'
import { areaCostBound, areaWeightBound, reachableDemand } from './bounds'
import { checkProblem } from './check-problem'
import type { LpSolver } from './lp'
import { PlanSearch, type Used } from './plan-search'
import { type Prepared, prepare } from './prepared'
import type { BoardLayout, CutPlan, CutProblem } from './problem'
import { countParts, treeOf } from './section'
import { cureFor, shortagesOf } from './shortage'

export interface PlanOptions {
  readonly seed: number
  readonly budget: Budget
  /** Called with every better plan, the first one included. */
  readonly onBetter?: (plan: CutPlan) => void
  /** Makes the bounds sharper; see lp.ts. */
  readonly lp?: LpSolver
}

/** Assigns physical boards to the filled ones, and counts alike layouts together. */
function layoutsOf(prep: Prepared, used: readonly Used[]): BoardLayout[] {
  const taken = prep.classes.map(() => 0)
  const groups = new Map<string, { board: number; copies: number; tree: BoardLayout['tree'] }>()
  for (const u of used) {
    const cls = prep.classes[u.cls]
    let skip = taken[u.cls]++
    let board = -1
    for (const m of cls.members) {
      if (skip < m.count) {
        board = m.board
        break
      }
      skip -= m.count
    }
    const tree = treeOf(prep, u.root)
    const key = `${board} ${JSON.stringify(tree)}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, { board, copies: 1, tree })
    else group.copies++
  }
  return [...groups.values()].sort((a, b) => a.board - b.board)
}

interface Bounds {
  readonly weight: number
  /** Cost bound for a weight made, remembered. */
  readonly cost: (weight: number) => number
}

function totalsOf(prep: Prepared, used: readonly Used[]) {
  const made = new Int32Array(prep.n)
  const { boards, blanks } = prep.problem
  let cost = 0
  let boardArea = 0
  for (const u of used) {
    const cls = prep.classes[u.cls]
    const b = boards[cls.members[0].board]
    cost += cls.cost
    boardArea += b.lengthUm * b.widthUm
    countParts(u.root, made, 1)
  }
  let weight = 0
  let area = 0
  blanks.forEach((b, i) => {
    weight += made[i] * b.weight
    area += made[i] * b.lengthUm * b.widthUm
  })
  return { made, cost, weight, yield: boardArea > 0 ? area / boardArea : 0 }
}

function statusOf(
  problem: CutProblem,
  plan: Pick<CutPlan, 'weightMade' | 'weightBound' | 'cost' | 'costBound' | 'layouts'>,
  isComplete: boolean,
  totalWeight: number,
  stoppedFromOutside: boolean,
): CutPlan['status'] {
  const isAtWeight = plan.weightMade >= plan.weightBound - 1e-9 * Math.max(1, plan.weightBound)
  const isAtCost = plan.cost <= plan.costBound + 1e-9 * Math.max(1, plan.cost)
  if (problem.objective === 'parts' || problem.objective === 'maxValue') {
    if (isAtWeight && (isAtCost || problem.objective === 'maxValue')) return 'optimal'
    if (plan.layouts.length > 0) return 'feasible'
    return stoppedFromOutside ? 'cancelled' : 'outOfBudget'
  }
  if (isComplete) {
    return isAtWeight && (isAtCost || problem.objective === 'feasibility') ? 'optimal' : 'feasible'
  }
  if (plan.weightBound < totalWeight * (1 - 1e-9)) return 'infeasible'
  return stoppedFromOutside ? 'cancelled' : 'outOfBudget'
}

/** All but the cure, which is worth working out only once. */
function planOf(
  prep: Prepared,
  used: readonly Used[],
  bounds: Bounds,
  steps: number,
  isStopped: boolean,
): CutPlan {
  const { problem } = prep
  const totals = totalsOf(prep, used)
  const shortages = shortagesOf(prep, totals.made)
  const totalWeight = problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0)
  const figures = {
    layouts: layoutsOf(prep, used),
    weightMade: totals.weight,
    weightBound: Math.max(bounds.weight, totals.weight),
    cost: totals.cost,
    costBound: Math.min(bounds.cost(totals.weight), totals.cost),
  }
  return {
    ...figures,
    status: statusOf(problem, figures, shortages.length === 0, totalWeight, isStopped),
    yield: totals.yield,
    shortages,
    steps,
  }
}

/**
 * Plans the cutting of a problem.
 * @returns the best plan found within the budget; it always passes `verifyCutPlan`
 * @throws RangeError for a problem that cannot be meant, naming the value
 * @example planCuts(problem, { seed: 1, budget: { maxSteps: 100_000 } }).status //=> 'optimal'
 */
export function planCuts(problem: CutProblem, options: PlanOptions): CutPlan {
  checkProblem(problem)
  const prep = prepare(problem)
  const reach = reachableDemand(prep)
  const costs = new Map<number, number>()
  const bounds: Bounds = {
    weight: areaWeightBound(prep, reach),
    cost: (weight) => {
      const known = costs.get(weight) ?? areaCostBound(prep, reach, weight)
      costs.set(weight, known)
      return known
    },
  }
  let isStopped = false
  const shouldStop = (): boolean => {
    isStopped ||= options.budget.shouldStop?.() ?? false
    return isStopped
  }
  const search = new PlanSearch(prep, reach, bounds, {
    seed: options.seed,
    maxSteps: options.budget.maxSteps,
    shouldStop,
    onBetter: (used) => options.onBetter?.(planOf(prep, used, bounds, search.steps, false)),
  })
  const best = search.run()
  const plan = planOf(prep, best, bounds, search.steps, isStopped)
  if (plan.shortages.length === 0) return plan
  const { made } = totalsOf(prep, best)
  // A cancel has been heard; the cure is bounded in itself, and asked for after it no more.
  const cure = isStopped ? undefined : cureFor(prep, singleBlocks(prep, true), made, shouldStop)
  return cure === undefined ? plan : { ...plan, cure }
}
