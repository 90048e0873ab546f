/**
 * One clear board with demand limits, by the table without them (free-table.ts): whoever uses more of a part than is
 * wanted pays a price for each, which rises until it is not worth it (Lagrangian relaxation of the demand; subgradient
 * steps as in Held and Karp 1971). Every set of prices gives a bound: the table's value and what the demand would pay.
 * Its cutting, without what is too much of, is where the plan search starts anew.
 * In: Prepared with one clear board, no machine limits. Out: bound and sections. Cost: one table a step.
 * Tests: tests/core/cutting/demand-prices.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import { FreeTable } from './free-table'
import type { Prepared } from './prepared'
import { countParts, joinSections, restSection, type Section } from './section'

/** Most work of one table. */
const MOST_WORK = 3e8
/** Steps without a better bound after which they are halved. */
const PATIENCE = 12
const LEAST_PACE = 1e-2
/** Random spread of the prices after that, as a share of the weight, and the pace from there. */
const SHAKE = 0.1
const SHAKEN_PACE = 0.2

export interface PricedCutting {
  /** No cutting within the demand makes more. */
  readonly bound: number
  /** A cutting within the demand. */
  readonly root: Section
  readonly work: number
}

export class DemandPrices {
  private readonly prices: Float64Array
  private readonly demand: Int32Array
  private bestPrices: Float64Array
  private best = Number.POSITIVE_INFINITY
  private pace = 1
  private idle = 0

  constructor(
    private readonly prep: Prepared,
    reach: Int32Array,
    private readonly rng: Rng,
    private readonly shouldStop: () => boolean,
  ) {
    this.demand = reach
    this.prices = new Float64Array(prep.n)
    this.bestPrices = this.prices.slice()
  }

  /**
   * One step. @param made the weight of the best plan so far
   * @returns null where a table takes too long
   */
  step(made: number): PricedCutting | null {
    const { prep, prices, demand } = this
    const [cls] = prep.classes
    if (this.pace < LEAST_PACE) this.shake()
    const weight = prep.weight.map((w, i) => Math.max(0, w - prices[i]))
    const may = (i: number): boolean => demand[i] > 0
    const table = FreeTable.make({ ...prep, weight }, cls.w, cls.h, true, may, MOST_WORK, this.shouldStop)
    if (table === null) return null
    let bound = table.valueOf(cls.w, cls.h)
    for (let i = 0; i < prep.n; i++)
      if (demand[i] > 0) bound += Math.min(prices[i], prep.weight[i]) * demand[i]
    const root = table.sectionOf({ x: 0, y: 0, w: cls.w, h: cls.h, stage: prep.rootStage })
    this.follow(root, bound, made)
    return { bound: bound * (1 + 1e-12), root: this.within(root, demand.slice()), work: table.work }
  }

  /** Prices have settled, and would repeat themselves: a little beside the best ones, for other cuttings. */
  private shake(): void {
    this.pace = SHAKEN_PACE
    this.idle = 0
    for (let i = 0; i < this.prep.n; i++) {
      const spread = SHAKE * this.prep.weight[i] * (this.rng.next() - 0.5)
      this.prices[i] = Math.min(this.prep.weight[i], Math.max(0, this.bestPrices[i] + spread))
    }
  }

  /** Moves the prices: up where too many were used, down where fewer than wanted. */
  private follow(root: Section, bound: number, made: number): void {
    const { prep, prices, demand } = this
    if (bound < this.best - 1e-9) {
      this.best = bound
      this.bestPrices = prices.slice()
      this.idle = 0
    } else if (++this.idle >= PATIENCE) {
      this.idle = 0
      this.pace /= 2
      prices.set(this.bestPrices)
    }
    const used = new Int32Array(prep.n)
    countParts(root, used, 1)
    let norm = 0
    for (let i = 0; i < prep.n; i++) {
      used[i] -= demand[i]
      if (used[i] > 0 || prices[i] > 0) norm += used[i] * used[i]
    }
    if (norm === 0) {
      this.pace = 0
      return
    }
    const stride = (this.pace * Math.max(bound - made, 1e-9 * bound)) / norm
    for (let i = 0; i < prep.n; i++) {
      prices[i] = Math.min(prep.weight[i], Math.max(0, prices[i] + stride * used[i]))
    }
  }

  /** The same cutting with rests in place of the parts that nobody wants. Counts `left` down. */
  private within(s: Section, left: Int32Array): Section {
    const { first, second, block } = s
    if (first !== null && second !== null) {
      const a = this.within(first, left)
      const b = this.within(second, left)
      return a.parts + b.parts === 0 ? restSection(this.prep, s) : joinSections(s, s.dir as 0 | 1, s.at, a, b)
    }
    if (block === null) return s
    if (left[block.item] > 0) {
      left[block.item]--
      return s
    }
    return restSection(this.prep, s)
  }
}
