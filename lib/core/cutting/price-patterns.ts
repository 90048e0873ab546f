/**
 * Column generation for what is left to be made: patterns are priced into the linear program (pattern-lp.ts) until it
 * is good enough, hopeless or solved.
 * Priced are not the duals of the moment, which jump about, but a point between them and the best known ones (smoothing:
 * Wentges 1997; Pessoa, Sadykov, Uchoa, Vanderbeck 2018). Whatever the duals, shrunk until no pattern pays they give a
 * bound (Farley 1990), which no rounding error of the simplex can make false.
 * In: BarProblem, residual, known patterns. Out: fractional solution, bound with its prices. One step is one pivot.
 * Tests: tests/core/cutting/one-dimension.test.ts
 */
import type { BarProblem, Residual } from './bar-problem'
import { Knapsack } from './knapsack'
import { type Column, PatternLp } from './pattern-lp'

/** Dual prices at which no pattern pays: parts at least 0, board counts at most 0. */
export interface Prices {
  readonly parts: Float64Array
  readonly counts: readonly number[]
}

/** Most patterns taken from one pricing. */
const MOST_COLUMNS = 12
const COVERED = 1e-6
const PAYS = 1e-7
/** Numbers that pivots may change between two looks at the clock. */
const WORK_BETWEEN = 2e6

export class PatternPricing {
  readonly lp: PatternLp
  /** The part types of the LP's rows. */
  readonly types: Int32Array
  /** No cover of the residual costs less; not rounded. The prices that say so, by row. */
  bound = Number.NEGATIVE_INFINITY
  prices: Prices | null = null
  private readonly demand: Int32Array
  private readonly row: Int32Array
  private readonly sack: Knapsack
  /** The duals of the best bound, how far they are kept to, and pricings there that found nothing. */
  private center: Float64Array
  private misses = 0
  private isSolved = false

  /**
   * @param weight of the best known duals, at first
   * @param work counts the steps
   */
  constructor(
    private readonly problem: BarProblem,
    private readonly residual: Residual,
    private readonly pool: Column[],
    private readonly weight: number,
    private readonly work: { steps: number },
  ) {
    const { sizes, classes } = problem
    this.types = Int32Array.from(sizes.keys()).filter((t) => residual.demand[t] > 0)
    this.row = new Int32Array(sizes.length).fill(-1)
    this.types.forEach((t, k) => {
      this.row[t] = k
    })
    this.demand = Int32Array.from(this.types, (t) => residual.demand[t])
    this.lp = new PatternLp(this.demand, residual.left, Math.max(...classes.map((c) => c.cost)) * 50 + 1)
    const longest = Math.max(...classes.map((c, k) => (residual.left[k] > 0 ? c.length : 0)))
    this.sack = new Knapsack(
      Int32Array.from(this.types, (t) => sizes[t]),
      longest,
    )
    // Prices in proportion to length, at which no board pays.
    const perUnit = Math.min(...classes.map((c) => c.cost / Math.max(1, c.length)))
    this.center = Float64Array.from(this.types, (t) => sizes[t] * perUnit)
  }

  /** What the fractional solution costs; Infinity while it does not make everything. */
  value(): number {
    return this.lp.uncovered() > COVERED ? Number.POSITIVE_INFINITY : this.lp.value()
  }

  /**
   * Prices on until `isEnough` says so, nothing pays any more, or `isOver`.
   * @returns whether everything can be made, in fractions
   */
  run(isOver: () => boolean, isEnough: (value: number, bound: number) => boolean): boolean {
    if (this.lp.pivots === 0) this.takePool(isOver)
    while (!this.isSolved) {
      if (!this.settle(isOver) || isEnough(this.value(), this.bound) || isOver()) break
      this.isSolved = !this.priceIn()
    }
    return this.value() < Number.POSITIVE_INFINITY
  }

  /** Patterns known already that suit the residual, the newest first. */
  private takePool(isOver: () => boolean): void {
    const { lp, row, pool, residual } = this
    const fits: Column[] = []
    for (let p = pool.length - 1; p >= 0; p--) {
      const c = pool[p]
      if (residual.left[c.cls] <= 0) continue
      let isIn = true
      for (let k = 0; k < c.items.length && isIn; k++) isIn = c.counts[k] <= residual.demand[c.items[k]]
      if (isIn) fits.push({ ...c, items: Int32Array.from(c.items, (t) => row[t]) })
    }
    for (let isAgain = true, rounds = 0; isAgain && rounds < 50; rounds++) {
      isAgain = false
      for (const c of fits) {
        if (lp.saving(c) <= PAYS || !lp.enter(c)) continue
        isAgain = true
        this.work.steps++
      }
      if (!this.settle(isOver)) return
    }
  }

  /** Takes in what needs no pricing. @returns false where it was stopped */
  private settle(isOver: () => boolean): boolean {
    const often = Math.ceil(WORK_BETWEEN / this.lp.rows ** 2)
    for (let k = 1; this.lp.enterFree(); k++) {
      this.work.steps++
      if (k % often === 0 && isOver()) return false
    }
    return true
  }

  /** @returns false when no pattern pays any more */
  private priceIn(): boolean {
    const { lp, sack, residual, problem } = this
    const isCovered = lp.uncovered() <= COVERED
    const weight = isCovered ? Math.max(0, 1 - (this.misses + 1) * (1 - this.weight)) : 0
    const duals = Float64Array.from(lp.duals.subarray(0, lp.types), (d, i) =>
      Math.max(0, weight * this.center[i] + (1 - weight) * d),
    )
    const limits = problem.classes.map((_, cls) => (1 - weight) * Math.min(0, lp.limitDual(cls)))
    sack.load(duals, this.demand)
    let any = false
    let scale = 1
    problem.classes.forEach(({ length, cost }, cls) => {
      if (residual.left[cls] <= 0) return
      const price = cost - limits[cls]
      const found = sack.manyWithin(length, price, MOST_COLUMNS)
      if (found[0].bound > price + 1e-9) {
        scale = Math.max(scale, price > 0 ? found[0].bound / price : Number.POSITIVE_INFINITY)
      }
      for (const { items, counts } of found) if (this.take({ cls, cost, items, counts })) any = true
    })
    this.noteBound(duals, limits, scale)
    if (any) this.misses = 0
    else if (weight > 0) this.misses++
    return any || weight > 0
  }

  private take(column: Column): boolean {
    if (this.lp.saving(column) <= PAYS || !this.lp.enter(column)) return false
    this.work.steps++
    this.pool.push({ ...column, items: Int32Array.from(column.items, (k) => this.types[k]) })
    return true
  }

  /** The duals of limited boards only ever lower the bound. */
  private noteBound(duals: Float64Array, limits: readonly number[], scale: number): void {
    if (!Number.isFinite(scale)) return
    let value = 0
    duals.forEach((d, k) => {
      value += (d * this.demand[k]) / scale
    })
    limits.forEach((d, cls) => {
      if (this.residual.left[cls] > 0 && Number.isFinite(this.residual.left[cls]))
        value += d * this.residual.left[cls]
    })
    if (value <= this.bound + 1e-12) return
    this.bound = value
    this.center = duals.map((d) => d / scale)
    this.prices = { parts: this.center, counts: limits }
  }
}
