/**
 * The integer step of one-dimensional cutting, handed to an integer-program library: which of a list of patterns, how
 * often. If the list holds every pattern whose reduced cost is within the gap between bound and best plan, no other
 * pattern can be in a better plan (reduced-cost fixing, as in Baldacci, Christofides, Mingozzi 2008), so the answer
 * proves the plan, or that there is none better.
 * In: sizes, demand, board classes, dual prices. Out: columns; chosen columns. Cost: bounded by the caps given.
 * Tests: tests/core/cutting/pattern-program.test.ts
 */
import type { BarProblem } from './bar-problem'
import { Knapsack } from './knapsack'
import type { LpColumn, LpSolver } from './lp'
import type { Column } from './pattern-lp'
import type { Prices } from './price-patterns'

export interface PatternList {
  readonly columns: readonly Column[]
  /** False: there are more than could be listed. */
  readonly isWhole: boolean
}

const MOST_NODES = 2_000_000
/** Cells of the table that guides the listing: finer than for pricing, since it is made once. */
const MOST_CELLS = 4_096
const SLACK = 1e-9

/**
 * Every pattern that takes no further part and whose reduced cost is at most `gap`.
 * @param most patterns that may be listed
 */
export function patternsWithin(problem: BarProblem, prices: Prices, gap: number, most: number): PatternList {
  const { sizes, demand, classes } = problem
  const columns: Column[] = []
  const sack = new Knapsack(sizes, Math.max(...classes.map((c) => c.length)), MOST_CELLS)
  // A part without a price is a part of patterns all the same.
  sack.load(
    prices.parts.map((p) => Math.max(p, 1e-11)),
    demand,
  )
  const shortest = Array.from(sizes.keys())
    .filter((i) => demand[i] > 0)
    .sort((a, b) => sizes[a] - sizes[b])
  const isFull = (items: Int32Array, counts: Int32Array, room: number): boolean => {
    for (const i of shortest) {
      if (sizes[i] > room) return true
      const k = items.indexOf(i)
      if (k < 0 || counts[k] < demand[i]) return false
    }
    return true
  }
  for (let cls = 0; cls < classes.length; cls++) {
    const { cost, count, length } = classes[cls]
    if (count <= 0) continue
    const floor = cost - prices.counts[cls] - gap - SLACK
    const isWhole = sack.eachWithin(length, floor, MOST_NODES, (items, counts, _, room) => {
      if (isFull(items, counts, room)) columns.push({ cls, cost, items, counts })
      return columns.length > most ? Number.POSITIVE_INFINITY : floor
    })
    if (!isWhole || columns.length > most) return { columns, isWhole: false }
  }
  return { columns, isWhole: true }
}

export interface Chosen {
  /** `none`: no choice of these patterns makes all the demand below the cost; `unknown`: not found out. */
  readonly status: 'optimal' | 'feasible' | 'none' | 'unknown'
  /** One entry a board. */
  readonly columns: readonly Column[]
}

/**
 * Chooses patterns that make all the demand at least cost, at most `most`.
 * @param least a bound on the cost that is known
 */
export function choosePatterns(
  problem: BarProblem,
  columns: readonly Column[],
  lp: LpSolver,
  limits: {
    readonly least: number
    readonly most: number
    readonly nodes: number
    readonly seconds: number
  },
): Chosen {
  const types = problem.sizes.length
  const limited = problem.classes.flatMap((c, k) => (Number.isFinite(c.count) ? [k] : []))
  const costRow = types + limited.length
  const rowOf = new Map(limited.map((c, k) => [c, types + k]))
  const scale = Math.max(1, ...problem.classes.map((c) => c.cost))
  const model: LpColumn[] = columns.map((c) => {
    const row = rowOf.get(c.cls)
    const extra = row === undefined ? [costRow, costRow + 1] : [row, costRow, costRow + 1]
    const ones = row === undefined ? [] : [1]
    return {
      cost: c.cost / scale,
      rows: [...c.items, ...extra],
      coefs: [...c.counts, ...ones, c.cost / scale, c.cost / scale],
      integer: true,
      upper: mostUses(problem, c),
    }
  })
  const answer = lp.solve(
    {
      rows: [
        ...Array.from(problem.demand, (d) => ({ sense: '>=' as const, rhs: d })),
        ...limited.map((c) => ({ sense: '<=' as const, rhs: problem.classes[c].count })),
        { sense: '<=', rhs: limits.most / scale + 1e-7 },
        { sense: '>=', rhs: limits.least / scale - 1e-7 },
      ],
      columns: model,
    },
    { nodes: limits.nodes, seconds: limits.seconds },
  )
  if (answer.status === 'infeasible') return { status: 'none', columns: [] }
  if (answer.status !== 'optimal' && answer.status !== 'feasible') return { status: 'unknown', columns: [] }
  const chosen: Column[] = []
  columns.forEach((c, j) => {
    for (let k = Math.round(answer.x[j]); k > 0; k--) chosen.push(c)
  })
  return { status: answer.status, columns: chosen }
}

function mostUses(problem: BarProblem, c: Column): number {
  let most = 0
  for (let k = 0; k < c.items.length; k++) {
    most = Math.max(most, Math.ceil(problem.demand[c.items[k]] / c.counts[k]))
  }
  return Math.min(most, problem.classes[c.cls].count)
}
