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
import { type Bar, isOneDimensional } from './bar-problem'
import { type Block, singleBlocks } from './blocks'
import {
  areaCostBound,
  areaWeightBound,
  reachableDemand,
  transportCostBound,
  transportWeightBound,
} from './bounds'
import { checkProblem } from './check-problem'
import { DefectTable } from './defect-table'
import { FreeTable } from './free-table'
import type { LpSolver } from './lp'
import { OneDimension } from './one-dimension'
import { PlanSearch } from './plan-search'
import { type BoardClass, type Prepared, prepare } from './prepared'
import type { BoardLayout, CutPlan, CutProblem } from './problem'
import { hasNoLimits } from './saw-limits'
import { countParts, rowSection, type Section, treeOf, type Used } from './section'
import { cureFor, shortagesOf } from './shortage'

export interface PlanOptions {
  readonly seed: number
  readonly budget: Budget
  /** Called with every better plan, the first one included. */
  readonly onBetter?: (plan: CutPlan) => void
  /** Makes the bounds sharper; see lp.ts. */
  readonly lp?: LpSolver
  /** A short trial: no sharper bounds, no cure. */
  readonly isTrial?: boolean
  /** Absent: a plan that is short says which board would cure it. */
  readonly isCureWanted?: boolean
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
    const isOnly = (prep.problem.boards[board].count ?? 1) === 1 && prep.problem.boards[board].count !== null
    const key = isOnly ? `${board}` : `${board} ${JSON.stringify(tree)}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, { board, copies: 1, tree })
    else group.copies++
  }
  return [...groups.values()].sort((a, b) => a.board - b.board)
}

interface Bounds {
  readonly weight: number
  /** Cost bound for a weight made. */
  cost(weight: number): number
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

/** Bars as layouts: parts in a row, the longest first. */
function usedOfBars(prep: Prepared, bars: readonly Bar[]): Used[] {
  const blocks = new Map(singleBlocks(prep).flatMap((b) => (b.turned ? [] : [[b.item, b] as const])))
  return bars.map((bar) => {
    const cls = prep.classes[bar.cls]
    const row = [...bar.counts]
      .sort((a, b) => prep.w[b[0]] - prep.w[a[0]] || a[0] - b[0])
      .flatMap(([item, n]) => new Array<Block>(n).fill(blocks.get(item) as Block))
    return { cls: bar.cls, root: rowSection(prep, { x: 0, y: 0, w: cls.w, h: cls.h, stage: 0 }, row) }
  })
}

/** Length only: patterns. Null where it does not apply, or where not everything can be made. */
function planLengths(
  prep: Prepared,
  options: PlanOptions,
  shouldStop: () => boolean,
  onBetter: (used: readonly Used[], search: OneDimension) => void,
): { used: readonly Used[]; search: OneDimension } | null {
  const { blanks } = prep.problem
  if (!isOneDimensional(prep) || prep.problem.objective === 'maxValue') return null
  if (blanks.some((b, i) => b.demand !== prep.demand[i])) return null
  const search: OneDimension = new OneDimension(prep, {
    seed: options.seed,
    maxSteps: options.budget.maxSteps,
    shouldStop,
    lp: options.lp,
    onBetter: (bars) => onBetter(usedOfBars(prep, bars), search),
  })
  const bars = search.run()
  return bars === null ? null : { used: usedOfBars(prep, bars), search }
}

/** Sums that the table of a board may take when it can prove a plan, and when it is only a bound. */
const EXACT_WORK = 4e9
const BOUND_WORK = 1e8
/** Most board classes for which a table is made for its bound. */
const MOST_TABLES = 12

interface Exact {
  readonly value: number
  /** Absent where the value forgets zones and is a bound only. */
  readonly root?: Section
}

/** One clear or flawed board by the exact tables, demand forgotten; null where it would take too long. */
function solveBoard(prep: Prepared, cls: BoardClass, work: number, shouldStop: () => boolean): Exact | null {
  if (cls.zones.length > 0 && work === EXACT_WORK) {
    const table = DefectTable.make(prep, cls, shouldStop)
    if (table !== null) return table.answer()
  }
  const may = (i: number): boolean => cls.allowed === null || cls.allowed[i] === 1
  const table = FreeTable.make(prep, cls.w, cls.h, true, may, work, shouldStop)
  if (table === null) return null
  const value = table.valueOf(cls.w, cls.h)
  if (cls.zones.length > 0) return { value }
  return { value, root: table.sectionOf({ x: 0, y: 0, w: cls.w, h: cls.h, stage: 0 }) }
}

/**
 * Sharpens the weight bound by what each board could yield at most, and hands back the plan where that is one: a
 * single board on which no demand is exceeded and no machine refuses a cut.
 */
function tighten(prep: Prepared, bounds: KnownBounds, shouldStop: () => boolean): readonly Used[] | null {
  if (prep.classes.length > MOST_TABLES) return null
  const isAlone = prep.classes.length === 1 && prep.classes[0].count === 1
  const isFree = prep.problem.blanks.every((b) => b.demand === null)
  const work = isAlone && isFree && hasNoLimits(prep) ? EXACT_WORK : BOUND_WORK
  let total = 0
  for (const cls of prep.classes) {
    if (!Number.isFinite(cls.count)) return null
    const exact = solveBoard(prep, cls, work, shouldStop)
    if (exact === null) return null
    total += exact.value * cls.count
    if (exact.root === undefined || !isAlone || !hasNoLimits(prep)) continue
    const made = new Int32Array(prep.n)
    countParts(exact.root, made, 1)
    if (!made.every((m, i) => m <= prep.demand[i])) continue
    bounds.weight = Math.min(bounds.weight, exact.value)
    return exact.root.parts > 0 ? [{ cls: 0, root: exact.root }] : []
  }
  const isWhole = prep.weight.every(Number.isSafeInteger)
  bounds.weight = Math.min(bounds.weight, isWhole ? total : total * (1 + 1e-12))
  return null
}

/** Weight and cost, each the sharpest of what is known; costs are remembered. */
class KnownBounds implements Bounds {
  weight: number
  /** Least cost of making everything, from a search. */
  allMade = 0
  private readonly known = new Map<number, number>()
  constructor(
    private readonly prep: Prepared,
    private readonly reach: Int32Array,
    private readonly lp: LpSolver | undefined,
  ) {
    this.weight = areaWeightBound(prep, reach)
  }
  /** What the LP solver knows better; takes longer. */
  sharpen(): void {
    if (this.lp === undefined) return
    this.weight = Math.min(this.weight, transportWeightBound(this.prep, this.reach, this.lp))
    this.isSharp = true
    this.known.clear()
  }
  private isSharp = false
  cost(weight: number): number {
    let cost = this.known.get(weight)
    if (cost === undefined) {
      cost = areaCostBound(this.prep, this.reach, weight)
      if (this.lp !== undefined && this.isSharp && weight >= this.weight * (1 - 1e-12)) {
        cost = Math.max(cost, transportCostBound(this.prep, this.reach, weight, this.lp))
      }
      this.known.set(weight, cost)
    }
    const isAll = this.prep.weight.every((w) => w > 0) && weight >= this.weight * (1 - 1e-12)
    return isAll ? Math.max(cost, this.allMade) : cost
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
  const bounds = new KnownBounds(prep, reach, options.lp)
  let isStopped = false
  const shouldStop = (): boolean => {
    isStopped ||= options.budget.shouldStop?.() ?? false
    return isStopped
  }
  const lengths = planLengths(prep, options, shouldStop, (used, search) => {
    bounds.allMade = search.costBound
    options.onBetter?.(planOf(prep, used, bounds, search.steps, false))
  })
  if (lengths !== null) {
    bounds.allMade = lengths.search.costBound
    return planOf(prep, lengths.used, bounds, lengths.search.steps, isStopped)
  }
  const search: PlanSearch = new PlanSearch(prep, reach, bounds, {
    seed: options.seed,
    maxSteps: options.budget.maxSteps,
    shouldStop,
    onBetter: (used) => options.onBetter?.(planOf(prep, used, bounds, search.steps, false)),
    ...(options.isTrial === true ? {} : { lp: options.lp }),
  })
  const first = planOf(prep, search.first(), bounds, search.steps, false)
  const isTrial = options.isTrial === true
  if (first.status !== 'optimal' && !isTrial && !shouldStop()) bounds.sharpen()
  if (first.weightMade < bounds.weight * (1 - 1e-12) && !isTrial && !shouldStop()) {
    const exact = tighten(prep, bounds, shouldStop)
    if (exact !== null) search.adopt(exact)
  }
  const best = search.run()
  const plan = planOf(prep, best, bounds, search.steps, isStopped)
  if (plan.shortages.length === 0 || isTrial || options.isCureWanted === false) return plan
  const { made } = totalsOf(prep, best)
  // A cancel has been heard; the cure is bounded in itself, and asked for after it no more.
  const cure = isStopped ? undefined : cureFor(prep, singleBlocks(prep, true), made, shouldStop)
  return cure === undefined ? plan : { ...plan, cure }
}
