/**
 * Boards of the parts' own width as a problem of lengths alone: bars, part types (one a length), whole grid units.
 * In: Prepared. Out: BarProblem and, from patterns that speak of lengths, bars that speak of blanks.
 * Tests: tests/core/cutting/one-dimension.test.ts
 */
import type { Column } from './pattern-lp'
import type { Prepared } from './prepared'
import { gcd } from './subset-sums'

export interface BarClass {
  readonly length: number
  readonly cost: number
  /** Infinity: no limit. */
  readonly count: number
}

export interface BarProblem {
  /** Lengths of the part types, longest first, and how many of each. */
  readonly sizes: Int32Array
  readonly demand: Int32Array
  readonly classes: readonly BarClass[]
}

/** What is still to be made, and the bars left of each class. */
export interface Residual {
  readonly demand: Int32Array
  readonly left: number[]
}

/** Boards cut alike: which class, and how many of each blank. */
export interface Bar {
  readonly cls: number
  readonly counts: ReadonlyMap<number, number>
}

/** The blanks of each part type. */
export type Members = readonly (readonly { readonly blank: number; readonly count: number }[])[]

/** Parts as wide as every board that they may come from, clear boards, machines that take every piece. */
export function isOneDimensional(prep: Prepared): boolean {
  if (prep.classes.length === 0 || prep.n === 0 || prep.stages < (prep.rootStage === 3 ? 2 : 1)) return false
  const { h } = prep.classes[0]
  let shortest = Number.POSITIVE_INFINITY
  for (let i = 0; i < prep.n; i++) {
    if (prep.demand[i] === 0) continue
    if (prep.h[i] !== h || (prep.free[i] === 1 && prep.w[i] <= h)) return false
    shortest = Math.min(shortest, prep.w[i])
  }
  if (prep.classes.some((c) => c.h !== h || c.zones.length > 0 || c.allowed !== null)) return false
  return h <= prep.maxCrosscut && h >= prep.minPieceW && shortest >= prep.minPieceL
}

/** @returns the problem in the largest grid unit that fits all parts, and the blanks of each part type */
export function barProblemOf(prep: Prepared): { readonly problem: BarProblem; readonly members: Members } {
  let unit = 0
  const byLength = new Map<number, { blank: number; count: number }[]>()
  for (let i = 0; i < prep.n; i++) {
    if (prep.demand[i] === 0) continue
    unit = gcd(unit, prep.w[i])
    const list = byLength.get(prep.w[i]) ?? []
    list.push({ blank: i, count: prep.demand[i] })
    byLength.set(prep.w[i], list)
  }
  unit = Math.max(1, unit)
  const types = [...byLength].sort((a, b) => b[0] - a[0])
  const members = types.map(([, list]) => list)
  const problem = {
    sizes: Int32Array.from(types, ([length]) => length / unit),
    demand: Int32Array.from(members, (list) => list.reduce((sum, m) => sum + m.count, 0)),
    classes: prep.classes.map((c) => ({ length: Math.floor(c.w / unit), cost: c.cost, count: c.count })),
  }
  return { problem, members }
}

/** All that is wanted, all bars there. */
export function wholeOf(problem: BarProblem): Residual {
  return { demand: problem.demand.slice(), left: problem.classes.map((c) => c.count) }
}

/** What every sum of bar costs is a multiple of; 0 where costs are not whole. */
export function costUnitOf(problem: BarProblem): number {
  let unit = 0
  for (const { cost } of problem.classes) {
    if (!Number.isSafeInteger(cost)) return 0
    unit = gcd(unit, cost)
  }
  return unit
}

/** Columns speak of lengths; bars speak of blanks. */
export function barsOf(columns: readonly Column[], members: Members): Bar[] {
  const queue = members.map((list) => list.map((m) => ({ ...m })))
  return columns.map((c) => {
    const counts = new Map<number, number>()
    c.items.forEach((type, k) => {
      let need = c.counts[k]
      for (const m of queue[type]) {
        const take = Math.min(need, m.count)
        if (take > 0) counts.set(m.blank, (counts.get(m.blank) ?? 0) + take)
        m.count -= take
        need -= take
        if (need === 0) break
      }
    })
    return { cls: c.cls, counts }
  })
}

/** Patterns that make more than is wanted leave it out. */
export function exactly(columns: readonly Column[], demand: Int32Array): Column[] {
  const left = demand.slice()
  return columns.flatMap((c) => {
    const items: number[] = []
    const counts: number[] = []
    c.items.forEach((type, k) => {
      const n = Math.min(c.counts[k], left[type])
      left[type] -= n
      if (n === 0) return
      items.push(type)
      counts.push(n)
    })
    return items.length === 0
      ? []
      : [{ ...c, items: Int32Array.from(items), counts: Int32Array.from(counts) }]
  })
}
