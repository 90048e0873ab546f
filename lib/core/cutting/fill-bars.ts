/**
 * A plan at once: bar after bar is filled as well as it can be with what is left, parts worth a little more than their
 * length so that the long ones go first, spread by chance.
 * In: BarProblem, residual, rng. Out: columns, or null where it cannot be finished. Cost: one filling a bar.
 * Tests: tests/core/cutting/one-dimension.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { BarProblem, Residual } from './bar-problem'
import { Knapsack } from './knapsack'
import type { Column } from './pattern-lp'

/** Most nodes of the search that fills one bar. */
const MOST_FILL_NODES = 3_000

/**
 * @param residual is used up
 * @param spread of the values, as a share of them
 * @param onBar called for each filling; true: give up
 */
export function fillBars(
  problem: BarProblem,
  residual: Residual,
  rng: Rng,
  spread: number,
  onBar: () => boolean,
): Column[] | null {
  const { sizes, classes } = problem
  const { demand, left } = residual
  const power = 1 + 0.1 * rng.next()
  const values = Float64Array.from(
    sizes,
    (s) => sizes[0] * (s / sizes[0]) ** power * (1 + spread * (rng.next() - 0.5)),
  )
  const sack = new Knapsack(sizes, Math.max(...classes.map((c) => c.length)))
  let wanted = demand.reduce((sum, d) => sum + d, 0)
  const out: Column[] = []
  while (wanted > 0) {
    sack.load(values, demand)
    const choice = bestBar(problem, sack, left)
    if (choice === null) return null
    let times = left[choice.cls]
    choice.items.forEach((i, k) => {
      times = Math.min(times, Math.floor(demand[i] / choice.counts[k]))
    })
    for (let t = 0; t < times; t++) out.push(choice)
    left[choice.cls] -= times
    choice.items.forEach((i, k) => {
      demand[i] -= times * choice.counts[k]
      wanted -= times * choice.counts[k]
    })
    if (onBar()) return null
  }
  return out
}

/** The filling that yields the most for its price. */
function bestBar(problem: BarProblem, sack: Knapsack, left: readonly number[]): Column | null {
  let best: Column | null = null
  let bestScore = Number.NEGATIVE_INFINITY
  problem.classes.forEach(({ length, cost }, cls) => {
    if (left[cls] <= 0) return
    const { value, items, counts } = sack.goodWithin(length, MOST_FILL_NODES)
    const score = value / Math.max(1e-9, cost)
    if (items.length === 0 || score <= bestScore) return
    bestScore = score
    best = { cls, cost, items, counts }
  })
  return best
}
