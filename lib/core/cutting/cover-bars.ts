/**
 * Makes exactly what is wanted from a short list of patterns, or shows that it cannot be done: depth-first, each time for
 * the part type with the fewest patterns left for it (as in exact cover: Knuth 2000).
 * What a plan costs above the bound is the sum of its patterns' reduced costs and of the prices of places left unused, so
 * a pattern is out as soon as that would pass the gap.
 * In: demand, columns, prices, gap. Out: chosen columns, one a bar. Cost: list length a node.
 * Tests: tests/core/cutting/cover-bars.test.ts
 */
import type { BarProblem } from './bar-problem'
import type { Column } from './pattern-lp'
import type { Prices } from './price-patterns'

export interface Cover {
  /** `none`: no choice of these patterns makes all within the gap; `unknown`: not found out. */
  readonly status: 'found' | 'none' | 'unknown'
  readonly columns: readonly Column[]
}

const SLACK = 1e-9

export function coverBars(
  problem: BarProblem,
  columns: readonly Column[],
  prices: Prices,
  gap: number,
  mostNodes: number,
): Cover {
  const search = new CoverSearch(problem, columns, prices, mostNodes)
  const isFound = search.from(
    columns.map((_, p) => p),
    gap + SLACK,
  )
  if (isFound) return { status: 'found', columns: search.chosen.map((p) => columns[p]) }
  return { status: search.nodes > 0 ? 'none' : 'unknown', columns: [] }
}

class CoverSearch {
  readonly chosen: number[] = []
  private readonly need: Int32Array
  private readonly left: number[]
  private readonly reduced: Float64Array
  private readonly choices: Int32Array
  private readonly isTried: Uint8Array

  constructor(
    problem: BarProblem,
    private readonly columns: readonly Column[],
    private readonly prices: Prices,
    public nodes: number,
  ) {
    this.need = problem.demand.slice()
    this.left = problem.classes.map((c) => c.count)
    this.isTried = new Uint8Array(columns.length)
    this.choices = new Int32Array(this.need.length)
    this.reduced = Float64Array.from(columns, (c) => {
      let value = c.cost - prices.counts[c.cls]
      for (let k = 0; k < c.items.length; k++) value -= c.counts[k] * prices.parts[c.items[k]]
      return Math.max(0, value)
    })
  }

  /** What taking the pattern now adds to the bound; Infinity where it is of no use or no bar is left. */
  private loss(p: number): number {
    const { cls, items, counts } = this.columns[p]
    if (this.left[cls] <= 0) return Number.POSITIVE_INFINITY
    let loss = this.reduced[p]
    let isOfUse = false
    for (let k = 0; k < items.length; k++) {
      const over = counts[k] - this.need[items[k]]
      if (over > 0) loss += over * this.prices.parts[items[k]]
      if (over < counts[k]) isOfUse = true
    }
    return isOfUse ? loss : Number.POSITIVE_INFINITY
  }

  /** @param active patterns that may still be taken */
  from(active: readonly number[], gap: number): boolean {
    if (--this.nodes < 0) return false
    const { columns, need, choices } = this
    choices.fill(0)
    const usable: number[] = []
    for (const p of active) {
      if (this.isTried[p] === 1 || this.loss(p) > gap) continue
      usable.push(p)
      const { items } = columns[p]
      for (let k = 0; k < items.length; k++) choices[items[k]]++
    }
    let type = -1
    for (let i = 0; i < need.length; i++) {
      if (need[i] > 0 && (type < 0 || choices[i] < choices[type])) type = i
    }
    if (type < 0) return true
    if (choices[type] === 0) return false
    const branches = usable
      .filter((p) => columns[p].items.includes(type))
      .map((p) => ({ p, loss: this.loss(p) }))
      .sort((a, b) => a.loss - b.loss)
    // What has been tried here need not be tried beside the others again.
    let isFound = false
    let tried = 0
    for (; tried < branches.length && !isFound && this.nodes > 0; tried++) {
      const { p, loss } = branches[tried]
      isFound = this.take(p, usable, gap - loss)
      this.isTried[p] = 1
    }
    for (let b = 0; b < tried; b++) this.isTried[branches[b].p] = 0
    return isFound
  }

  private take(p: number, active: readonly number[], gap: number): boolean {
    const { cls, items, counts } = this.columns[p]
    const made = Int32Array.from(items, (i, k) => Math.min(counts[k], this.need[i]))
    items.forEach((i, k) => {
      this.need[i] -= made[k]
    })
    this.left[cls]--
    this.chosen.push(p)
    if (this.from(active, gap)) return true
    this.chosen.pop()
    this.left[cls]++
    items.forEach((i, k) => {
      this.need[i] += made[k]
    })
    return false
  }
}
