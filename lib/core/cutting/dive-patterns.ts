/**
 * Which patterns of a fractional solution a dive fixes: the whole parts of them all, or of some; where there are none
 * the fullest one, by chance another. Each dive chooses otherwise.
 * In: a solved pricing, residual, the dive's number. Out: columns by part type.
 * Tests: tests/core/cutting/one-dimension.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Residual } from './bar-problem'
import type { Column } from './pattern-lp'
import type { PatternPricing } from './price-patterns'

const WHOLE = 1e-6

/** Takes patterns as long as bars and demand last. */
class Taken {
  readonly columns: Column[] = []
  private readonly demand: Int32Array
  private readonly left: number[]

  constructor(
    residual: Residual,
    private readonly types: Int32Array,
  ) {
    this.demand = residual.demand.slice()
    this.left = [...residual.left]
  }

  /** @param column by row of the LP */
  take(column: Column): boolean {
    if (this.left[column.cls] <= 0) return false
    const made = new Map<number, number>()
    column.items.forEach((row, k) => {
      let places = column.counts[k]
      // A place that is not wanted any more serves for shorter parts (the LP counts on that).
      for (let j = row; j < this.types.length && places > 0; j++) {
        const t = this.types[j]
        const n = Math.min(places, this.demand[t])
        if (n <= 0) continue
        this.demand[t] -= n
        places -= n
        made.set(t, (made.get(t) ?? 0) + n)
      }
    })
    if (made.size === 0) return false
    this.left[column.cls]--
    this.columns.push({
      ...column,
      items: Int32Array.from(made.keys()),
      counts: Int32Array.from(made.values()),
    })
    return true
  }
}

interface Choice {
  readonly dive: number
  readonly rng: Rng
  /** Fixes all patterns used more than half a time at once. */
  readonly isHasty: boolean
}

/** @returns what to fix next; empty where nothing can be */
export function chooseFixed(
  at: PatternPricing,
  residual: Residual,
  { dive, rng, isHasty }: Choice,
): Column[] {
  const taken = new Taken(residual, at.types)
  const solution = at.lp.solution()
  // The first dives fix all that is whole, others leave some of it open, each other ones.
  const keep = dive < 2 ? 1 : 0.5 + 0.5 * rng.next()
  for (const { column, x } of solution) {
    for (let k = 0; k < Math.floor(x + WHOLE); k++) {
      const isOpen = keep < 1 && rng.next() > keep
      if (!isOpen && !taken.take(column)) break
    }
  }
  const rests = solution
    .map((s) => ({ column: s.column, rest: s.x - Math.floor(s.x + WHOLE) }))
    .sort((a, b) => b.rest - a.rest)
  if (isHasty) for (const s of rests) if (s.rest > 0.5) taken.take(s.column)
  if (taken.columns.length > 0 && dive % 2 === 0) return taken.columns
  const first = dive === 0 ? 0 : Math.floor(rests.length * rng.next() ** (2 + 6 / (1 + dive)) * 0.5)
  for (let k = first; k < rests.length; k++) {
    if (rests[k].rest > 0.01 && taken.take(rests[k].column)) return taken.columns
  }
  for (const s of rests) if (taken.take(s.column)) break
  return taken.columns
}
