/**
 * How many identical boards all parts need at least: the linear program over cutting patterns (Gilmore and Gomory
 * 1965), its patterns priced by the exact table of one board without demand limits (free-table.ts). Whatever the
 * prices, their total over what one board can yield at most is a bound (Farley 1990), so no rounding can make it
 * false and it may be stopped at any time.
 * In: Prepared with one class of clear boards. Out: a count. Cost: one table a round. Tests: plate-bound.test.ts
 */
import { FreeTable } from './free-table'
import { type Column, PatternLp } from './pattern-lp'
import type { Prepared } from './prepared'
import { countParts } from './section'

/** Most work over all tables, in sums of two rectangles. */
const MOST_WORK = 1.5e9
const MOST_ROUNDS = 400

/** @returns a bound (not rounded), and the rounds taken */
export function patternBound(
  prep: Prepared,
  enough: number,
  shouldStop: () => boolean,
): { readonly count: number; readonly rounds: number } {
  const [cls] = prep.classes
  const kinds: number[] = []
  for (let i = 0; i < prep.n; i++) if (prep.demand[i] > 0) kinds.push(i)
  const demand = kinds.map((i) => prep.demand[i])
  const lp = new PatternLp(demand, [Number.POSITIVE_INFINITY], demand.length + 1, false)
  const may = (i: number): boolean => prep.demand[i] > 0
  let weight = Float64Array.from(prep.area, (a) => a / (cls.w * cls.h))
  let best = 0
  let work = 0
  let rounds = 0
  for (; rounds < MOST_ROUNDS && work < MOST_WORK; rounds++) {
    const priced = { ...prep, weight }
    const table = FreeTable.make(priced, cls.w, cls.h, true, may, MOST_WORK / 8, shouldStop)
    if (table === null) break
    work += table.work
    let total = 0
    for (const i of kinds) total += weight[i] * prep.demand[i]
    const most = table.valueOf(cls.w, cls.h)
    if (most <= 0) break
    best = Math.max(best, (total / most) * (1 - 1e-9))
    if (Math.ceil(best - 1e-6) >= enough) break
    const made = new Int32Array(prep.n)
    countParts(table.sectionOf({ x: 0, y: 0, w: cls.w, h: cls.h, stage: 0 }), made, 1)
    if (!lp.enter(columnOf(kinds, made)) && rounds > 0) break
    while (lp.enterFree()) if (shouldStop()) break
    weight = new Float64Array(prep.n)
    kinds.forEach((i, k) => {
      weight[i] = Math.max(0, lp.duals[k])
    })
  }
  return { count: best, rounds }
}

function columnOf(kinds: readonly number[], made: Int32Array): Column {
  const used = kinds.map((_, k) => k).filter((k) => made[kinds[k]] > 0)
  return {
    cls: 0,
    cost: 1,
    items: Int32Array.from(used),
    counts: Int32Array.from(used, (k) => made[kinds[k]]),
  }
}
