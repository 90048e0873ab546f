/**
 * Bounds on plans of parts that need not be cut one by one, whatever form is chosen: planCuts's own on the problem in
 * which each part takes its least pitch and panels are left out; and wood by area, from boards that each part may come
 * from. A panel's staves take at least its own area. Lengths in micrometres. Tests: tests/core/cutting/form-bounds.test.ts
 */
import { BOUND_EFFORT } from './bounds'
import type { LpSolver } from './lp'
import { type PlanOptions, planCuts } from './plan-cuts'
import type { CutPlan, CutProblem } from './problem'
import { leastPitchUm } from './rows'

/** Steps of the search that only proves a bound. */
const BOUND_STEPS = 2_000
/** Most pairs of parts and boards for which the program is set up. */
const MOST_PAIRS = 4_000
const EVEN = 1e-9
const WEAKER = 1 - 1e-6

export interface FormBounds {
  readonly weight: number
  cost(plan: Pick<CutPlan, 'weightMade'>): number
}

/** Least cost of boards with so much area in all, boards being divisible: no plan that needs it is cheaper. */
function areaCost(problem: CutProblem, areaUm2: number): number {
  const k = problem.kerfUm
  const boards = problem.boards
    .map((b) => ({
      cost: b.cost,
      area: (b.lengthUm + k) * (b.widthUm + k),
      count: b.count === undefined ? 1 : b.count,
    }))
    .sort((a, b) => a.cost / a.area - b.cost / b.area)
  let [left, cost] = [areaUm2, 0]
  for (const { cost: each, area, count } of boards) {
    const used = Math.min(left / area, count ?? Number.POSITIVE_INFINITY)
    cost += used * each
    left -= used * area
    if (left <= 0) break
  }
  return cost
}

/** Wood that parts take from boards that they may come from: an area, and which boards; absent: any. */
interface Want {
  readonly areaUm2: number
  readonly boards: ReadonlySet<number> | null
}

/**
 * Least cost of whole boards from which every want gets its area, parts being divisible; 0 where it is not worked out.
 * Transport relaxation of a bin packing with unlike bins; whole boards by the mixed-integer program.
 */
function wholeBoardCost(problem: CutProblem, wants: readonly Want[], lp: LpSolver): number {
  const k = problem.kerfUm
  const boards = problem.boards.map((b) => ({ ...b, area: (b.lengthUm + k) * (b.widthUm + k) }))
  const pairs = wants.flatMap((want, w) =>
    boards.flatMap((_, b) => (want.boards === null || want.boards.has(b) ? [{ w, b }] : [])),
  )
  if (pairs.length === 0 || pairs.length > MOST_PAIRS) return 0
  const scale = Math.max(...boards.map((b) => b.area))
  const rows = [
    ...wants.map(({ areaUm2 }) => ({ sense: '>=' as const, rhs: (areaUm2 / scale) * (1 - 1e-9) })),
    ...boards.map(() => ({ sense: '<=' as const, rhs: 0 })),
  ]
  const flows = pairs.map(({ w, b }) => ({ cost: 0, rows: [w, wants.length + b], coefs: [1, 1] }))
  const opened = (integer: boolean) =>
    boards.map((board, b) => ({
      cost: board.cost,
      rows: [wants.length + b],
      coefs: [-board.area / scale],
      integer,
      ...(board.count === null ? {} : { upper: board.count ?? 1 }),
    }))
  for (const integer of [true, false]) {
    const answer = lp.solve({ rows, columns: [...flows, ...opened(integer)] }, BOUND_EFFORT)
    if (answer.status === 'optimal') return answer.bound * WEAKER
  }
  return 0
}

const hasBoards = (boards: readonly number[] | undefined): boolean =>
  boards === undefined || boards.length > 0

/** Blanks that may come from the same boards are one want; a panel comes from its own boards or from its staves'. */
function wantsOf(problem: CutProblem, takenUm2: readonly number[]): readonly Want[] {
  const wants = new Map<string, Want>()
  problem.blanks.forEach((blank, i) => {
    if (takenUm2[i] === 0) return
    const ways = [blank, ...problem.blanks.filter((b) => b.stave?.of === i)].map((b) => b.boards)
    const isAny = ways.some((boards) => boards === undefined)
    const boards = isAny ? null : new Set(ways.flatMap((b) => b ?? []))
    const key = boards === null ? 'any' : [...boards].sort((a, b) => a - b).join()
    wants.set(key, { boards, areaUm2: takenUm2[i] + (wants.get(key)?.areaUm2 ?? 0) })
  })
  return [...wants.values()]
}

/** Bounds that hold whatever form is chosen. */
export function boundsOf(problem: CutProblem, options: PlanOptions): FormBounds {
  const k = problem.kerfUm
  const staves = new Map(problem.blanks.flatMap((b) => (b.stave ? [[b.stave.of, b] as const] : [])))
  const isPanel = (i: number): boolean => staves.has(i)
  const plain: CutProblem = {
    ...problem,
    blanks: problem.blanks.map(({ ends: _, ...b }, i) => ({
      ...b,
      lengthUm: leastPitchUm(problem.blanks[i]),
      demand: isPanel(i) ? 0 : b.demand,
    })),
  }
  const relaxed = planCuts(plain, {
    seed: options.seed,
    budget: { ...options.budget, maxSteps: BOUND_STEPS },
    lp: options.lp,
    isCureWanted: false,
  })
  const ofPanels = problem.blanks.reduce((sum, b, i) => {
    const stave = staves.get(i)
    const isMakeable = stave !== undefined && (hasBoards(stave.boards) || hasBoards(b.boards))
    return isMakeable ? sum + b.weight * (b.demand ?? 0) : sum
  }, 0)
  const all = problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0)
  const takenUm2 = problem.blanks.map((b, i) => {
    const widthUm = isPanel(i) ? Math.min(b.widthUm, staves.get(i)?.stave?.panelUm ?? b.widthUm) : b.widthUm
    return (b.demand ?? 0) * (leastPitchUm(b) + k) * (widthUm + k)
  })
  const area = takenUm2.reduce((sum, each) => sum + each, 0)
  const costOfAll = Math.max(
    areaCost(problem, area),
    options.lp === undefined ? 0 : wholeBoardCost(problem, wantsOf(problem, takenUm2), options.lp),
  )
  return {
    weight: Math.min(all, relaxed.weightBound + ofPanels),
    cost: ({ weightMade }) =>
      Math.max(
        weightMade >= all - EVEN ? costOfAll : 0,
        relaxed.weightMade <= weightMade - ofPanels + EVEN ? relaxed.costBound : 0,
      ),
  }
}
