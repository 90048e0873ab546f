/**
 * The integer step of one-dimensional cutting, handed to an integer-program library: which of a list of patterns, how
 * often. If the list holds every pattern whose reduced cost is within the gap between bound and best plan, no other
 * pattern can be in a better plan (reduced-cost fixing, as in Baldacci, Christofides, Mingozzi 2008), so the answer
 * proves the plan, or that there is none better.
 * In: sizes, demand, board classes, dual prices. Out: columns; chosen columns. Cost: bounded by the caps given.
 * Tests: tests/core/cutting/pattern-program.test.ts
 */
import type { LpColumn, LpSolver } from './lp'
import type { Column } from './pattern-lp'

export interface BarClass {
  readonly length: number
  readonly cost: number
  /** Infinity: no limit. */
  readonly count: number
}

export interface BarProblem {
  /** Lengths of the part types, and how many of each. */
  readonly sizes: Int32Array
  readonly demand: Int32Array
  readonly classes: readonly BarClass[]
}

/** Dual prices at which no pattern pays: parts at least 0, board counts at most 0. */
export interface Prices {
  readonly parts: Float64Array
  readonly counts: readonly number[]
}

export interface PatternList {
  readonly columns: readonly Column[]
  /** False: there are more than could be listed. */
  readonly isWhole: boolean
}

const MOST_NODES = 3_000_000

/**
 * Every pattern that takes no further part and whose reduced cost is at most `gap`.
 * @param most patterns that may be listed
 */
export function patternsWithin(problem: BarProblem, prices: Prices, gap: number, most: number): PatternList {
  const columns: Column[] = []
  const lister = new Lister(problem, prices.parts, most)
  for (let cls = 0; cls < problem.classes.length; cls++) {
    const { cost, count, length } = problem.classes[cls]
    if (count <= 0) continue
    const floor = cost - prices.counts[cls] - gap
    if (!lister.list(length, floor, (items, counts) => columns.push({ cls, cost, items, counts }))) {
      return { columns, isWhole: false }
    }
  }
  return { columns, isWhole: true }
}

class Lister {
  private readonly order: number[]
  private nodes = 0
  private listed = 0

  constructor(
    private readonly problem: BarProblem,
    private readonly parts: Float64Array,
    private readonly most: number,
  ) {
    const { sizes } = problem
    this.order = Array.from(sizes.keys())
      .filter((i) => problem.demand[i] > 0)
      .sort((a, b) => parts[b] / sizes[b] - parts[a] / sizes[a] || sizes[b] - sizes[a])
  }

  /** @returns false where a cap was met */
  list(length: number, floor: number, onPattern: (items: Int32Array, counts: Int32Array) => void): boolean {
    const { order, parts } = this
    const { sizes, demand } = this.problem
    const n = order.length
    const sumSize = new Float64Array(n + 1)
    const sumValue = new Float64Array(n + 1)
    order.forEach((i, k) => {
      const copies = Math.min(demand[i], Math.floor(length / sizes[i]))
      sumSize[k + 1] = sumSize[k] + copies * sizes[i]
      sumValue[k + 1] = sumValue[k] + copies * parts[i]
    })
    const counts = new Int32Array(n)
    const shortest = Array.from(order).sort((a, b) => sizes[a] - sizes[b])
    const at = new Int32Array(sizes.length)
    order.forEach((i, k) => {
      at[i] = k
    })
    /** What the parts from the k-th on could be worth in the room if they could be divided. */
    const upper = (k: number, room: number): number => {
      let [low, high] = [k, n]
      while (low < high) {
        const middle = (low + high + 1) >> 1
        if (sumSize[middle] - sumSize[k] <= room) low = middle
        else high = middle - 1
      }
      const whole = sumValue[low] - sumValue[k]
      if (low === n) return whole
      return whole + ((room - (sumSize[low] - sumSize[k])) * parts[order[low]]) / sizes[order[low]]
    }
    const isFull = (room: number): boolean => {
      for (const i of shortest) {
        if (sizes[i] > room) return true
        if (counts[at[i]] < demand[i]) return false
      }
      return true
    }
    const visit = (from: number, room: number, value: number): boolean => {
      if (++this.nodes > MOST_NODES) return false
      if (value >= floor - 1e-9 && isFull(room)) {
        if (++this.listed > this.most) return false
        const used = order.map((_, k) => k).filter((k) => counts[k] > 0)
        onPattern(
          Int32Array.from(used, (k) => order[k]),
          Int32Array.from(used, (k) => counts[k]),
        )
      }
      for (let k = from; k < n; k++) {
        if (value + upper(k, room) < floor - 1e-9) break
        const i = order[k]
        const fit = Math.min(demand[i], Math.floor(room / sizes[i]))
        for (let c = 1; c <= fit; c++) {
          counts[k] = c
          if (!visit(k + 1, room - c * sizes[i], value + c * parts[i])) return false
        }
        counts[k] = 0
      }
      return true
    }
    return visit(0, length, 0)
  }
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
