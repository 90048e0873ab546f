/**
 * Boards of the parts' own width: only the length is cut. Patterns carry the work, not pieces.
 *
 * Bound: the pattern LP by column generation. Plans: best fit, then subset-sum filling with corrected values, then
 * diving: fix the whole parts of the LP's patterns, price again for what is left, fix the fullest pattern, and so on
 * (Belov and Scheithauer 2006 use the same residual problems), each dive with other choices; with an LP library an
 * integer step between dives (pattern-program.ts).
 * In: Prepared that `isOneDimensional`. Out: boards used, bound on the cost of making everything.
 * One step is one pivot or one board filled. Tests: tests/core/cutting/one-dimension.test.ts
 */
import { type Rng, seededRng } from '#lib/core/units/rng'
import { Knapsack } from './knapsack'
import type { LpSolver } from './lp'
import { type Column, PatternLp } from './pattern-lp'
import { type BarProblem, choosePatterns, type Prices, patternsWithin } from './pattern-program'
import type { Prepared } from './prepared'
import { gcd } from './subset-sums'

/** Boards cut alike: which class, and how many of each blank. */
export interface Bar {
  readonly cls: number
  readonly counts: ReadonlyMap<number, number>
}

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

export interface OneOptions {
  readonly seed: number
  readonly maxSteps: number
  readonly shouldStop: () => boolean
  readonly onBetter: (bars: readonly Bar[]) => void
  /** For the integer step; without one there are only dives. */
  readonly lp?: LpSolver
}

interface Residual {
  readonly demand: Int32Array
  readonly left: number[]
}

const PERFECT = 1e-6
/** Most patterns taken from one pricing, and most nodes of the search that fills one bar. */
const MOST_COLUMNS = 12
const MOST_FILL_NODES = 3_000
/** Dives before the integer step, before it is tried once more with a part of the patterns, and at all. */
const FIRST_DIVES = 3
const LATE_DIVES = 40
const MOST_DIVES = 1_000
/** The integer step: all patterns if no more than this, else some of them; nodes of its tree, seconds of each try. */
const MOST_LISTED = 12_000
const SOME_LISTED = 3_000
const MOST_PROGRAM_NODES = 3_000
const PROGRAM_SECONDS = 4

interface Smoothing {
  /** The duals of the best bound. */
  center: Float64Array
  best: number
  /** Of the centre, at first. */
  readonly weight: number
  misses: number
}

/**
 * Farley's bound (1990): the duals shrunk until no pattern pays are a feasible dual solution, whatever rounding
 * errors the simplex has made. The duals of limited boards only ever lower it.
 */
function boundOf(duals: Float64Array, demand: Int32Array, limits: number, scale: number): number {
  if (!Number.isFinite(scale)) return Number.NEGATIVE_INFINITY
  let value = 0
  for (let i = 0; i < demand.length; i++) value += duals[i] * demand[i]
  return limits + value / scale
}

export class OneDimension {
  steps = 0
  /** No plan that makes everything costs less. */
  costBound = 0
  private readonly options: OneOptions
  private readonly rng: Rng
  /** Lengths in grid units, longest first, and the blanks of each length. */
  private readonly sizes: Int32Array
  private readonly demand: Int32Array
  private readonly members: { readonly blank: number; readonly count: number }[][] = []
  private readonly lengths: Int32Array
  private readonly costs: Float64Array
  private readonly counts: number[]
  private readonly costUnit: number
  private pool: Column[] = []
  private best: Column[] | null = null
  private bestCost = Number.POSITIVE_INFINITY
  private hasBound = false
  /** Prices of the best bound, at which no pattern pays, and that bound before rounding. */
  private prices: Prices | null = null
  private rawBound = Number.NEGATIVE_INFINITY

  constructor(prep: Prepared, options: OneOptions) {
    this.options = options
    this.rng = seededRng(options.seed)
    let g = 0
    const byLength = new Map<number, { blank: number; count: number }[]>()
    for (let i = 0; i < prep.n; i++) {
      if (prep.demand[i] === 0) continue
      g = gcd(g, prep.w[i])
      const list = byLength.get(prep.w[i])
      if (list === undefined) byLength.set(prep.w[i], [{ blank: i, count: prep.demand[i] }])
      else list.push({ blank: i, count: prep.demand[i] })
    }
    const unit = Math.max(1, g)
    const lengths = [...byLength.keys()].sort((a, b) => b - a)
    this.sizes = Int32Array.from(lengths, (l) => l / unit)
    this.members = lengths.map((l) => byLength.get(l) as { blank: number; count: number }[])
    this.demand = Int32Array.from(this.members, (list) => list.reduce((sum, m) => sum + m.count, 0))
    this.lengths = Int32Array.from(prep.classes, (c) => Math.floor(c.w / unit))
    this.costs = Float64Array.from(prep.classes, (c) => c.cost)
    this.counts = prep.classes.map((c) => c.count)
    let u = 0
    for (const c of this.costs) u = Number.isSafeInteger(c) ? gcd(u, c) : Number.NaN
    this.costUnit = Number.isNaN(u) || u === 0 ? 0 : u
  }

  private isOver(): boolean {
    return this.steps >= this.options.maxSteps || this.options.shouldStop()
  }

  /** Rounded up to what a sum of board costs can be. */
  private roundUp(cost: number): number {
    return this.costUnit > 0 ? Math.ceil(cost / this.costUnit - 1e-7) * this.costUnit : cost
  }

  private isProven(): boolean {
    return this.bestCost <= this.costBound * (1 + 1e-12) + 1e-9
  }

  /** @returns the best plan that makes everything; null where none was found */
  run(): readonly Bar[] | null {
    if (this.sizes.length === 0) return []
    const first = this.greedy(this.whole(), 0)
    this.offer(first)
    if (first !== null) this.pool.push(...first)
    const root = this.price(this.whole(), true)
    for (let k = 0; k < 20 && !this.isProven() && !this.isOver(); k++)
      this.offer(this.greedy(this.whole(), 0.1))
    for (let dive = 0; root !== null && !this.isProven() && !this.isOver(); dive++) {
      this.dive(root, dive)
      // With several lengths the best few patterns help as well as all; with one length dives come first.
      const mayBePart = dive === LATE_DIVES || this.lengths.length > 1
      if (dive === FIRST_DIVES || dive === LATE_DIVES) {
        while (!this.isProven() && !this.isOver() && this.program(mayBePart));
      }
      if (dive > MOST_DIVES && this.options.maxSteps === Number.POSITIVE_INFINITY) break
    }
    return this.best === null ? null : this.bars(this.best)
  }

  private whole(): Residual {
    return { demand: this.demand.slice(), left: [...this.counts] }
  }

  private offer(columns: readonly Column[] | null): boolean {
    if (columns === null) return false
    let cost = 0
    for (const c of columns) cost += c.cost
    if (cost >= this.bestCost - 1e-9) return false
    this.bestCost = cost
    this.best = [...columns]
    this.options.onBetter(this.bars(this.best))
    return true
  }

  /**
   * Solves the pattern LP of a residual.
   * @param isRoot the whole problem: its bound is a bound for all
   * @returns null where the demand cannot be covered
   */
  private price(r: Residual, isRoot: boolean): { lp: PatternLp; types: Int32Array } | null {
    const types = Int32Array.from(
      Array.from({ length: this.sizes.length }, (_, i) => i).filter((i) => r.demand[i] > 0),
    )
    const at = new Int32Array(this.sizes.length).fill(-1)
    types.forEach((t, k) => {
      at[t] = k
    })
    const demand = Int32Array.from(types, (t) => r.demand[t])
    const most = Math.max(...this.costs)
    const lp = new PatternLp(demand, r.left, most * 50 + 1)
    this.takePool(lp, at, r)
    const sizes = Int32Array.from(types, (t) => this.sizes[t])
    const limit = Math.max(...this.lengths.filter((_, c) => r.left[c] > 0))
    const sack = new Knapsack(sizes, demand, limit)
    const center = this.firstCenter(types)
    const state = { center, best: Number.NEGATIVE_INFINITY, weight: isRoot ? 0.8 : 0.5, misses: 0 }
    for (let round = 0; round < 20_000; round++) {
      while (lp.enterFree()) this.steps++
      if (this.isOver()) return isRoot && round === 0 ? null : lp.uncovered() > 1e-6 ? null : { lp, types }
      if (!this.priceIn(lp, types, sack, r, demand, isRoot, state)) break
      if (isRoot && this.isRootDone(lp)) break
    }
    return lp.uncovered() > 1e-6 ? null : { lp, types }
  }

  /** Prices in proportion to length, at which no board pays: where the smoothing of duals starts. */
  private firstCenter(types: Int32Array): Float64Array {
    let perUnit = Number.POSITIVE_INFINITY
    this.costs.forEach((cost, c) => {
      perUnit = Math.min(perUnit, cost / Math.max(1, this.lengths[c]))
    })
    return Float64Array.from(types, (t) => this.sizes[t] * perUnit)
  }

  /** The rounded bound cannot rise any more: further pricing is of no use to it. */
  private isRootDone(lp: PatternLp): boolean {
    return (
      lp.uncovered() < 1e-6 &&
      this.costUnit > 0 &&
      this.hasBound &&
      this.roundUp(lp.value()) <= this.costBound
    )
  }

  /** Patterns known already that suit the residual. */
  private takePool(lp: PatternLp, at: Int32Array, r: Residual): void {
    const fits: Column[] = []
    for (const c of this.pool) {
      if (r.left[c.cls] <= 0) continue
      let ok = true
      for (let k = 0; k < c.items.length && ok; k++) ok = c.counts[k] <= r.demand[c.items[k]]
      if (ok) fits.push({ ...c, items: Int32Array.from(c.items, (i) => at[i]) })
    }
    for (let again = true, rounds = 0; again && rounds < 50; rounds++) {
      again = false
      for (const c of fits) {
        if (lp.saving(c) <= 1e-7 || !lp.enter(c)) continue
        again = true
        this.steps++
        while (lp.enterFree()) this.steps++
      }
    }
  }

  /**
   * Prices patterns in; false when none pays any more. Priced are not the duals of the moment, which jump about, but a
   * point between them and the best known ones (smoothing: Wentges 1997; Pessoa, Sadykov, Uchoa, Vanderbeck 2018).
   */
  private priceIn(
    lp: PatternLp,
    types: Int32Array,
    sack: Knapsack,
    r: Residual,
    demand: Int32Array,
    isRoot: boolean,
    state: Smoothing,
  ): boolean {
    const weight = lp.uncovered() > 1e-6 ? 0 : Math.max(0, 1 - (state.misses + 1) * (1 - state.weight))
    const duals = Float64Array.from(lp.duals.subarray(0, lp.types), (d, i) =>
      Math.max(0, weight * state.center[i] + (1 - weight) * d),
    )
    const limitDuals = this.costs.map((_, cls) => (1 - weight) * Math.min(0, lp.limitDual(cls)))
    sack.load(duals, demand)
    let any = false
    let scale = 1
    let limits = 0
    for (let cls = 0; cls < this.lengths.length; cls++) {
      if (r.left[cls] <= 0) continue
      const price = this.costs[cls] - limitDuals[cls]
      if (Number.isFinite(r.left[cls])) limits += limitDuals[cls] * r.left[cls]
      const found = sack.manyWithin(this.lengths[cls], price, MOST_COLUMNS)
      if (found[0].bound > price + 1e-9) {
        scale = Math.max(scale, price > 0 ? found[0].bound / price : Number.POSITIVE_INFINITY)
      }
      for (const { items, counts } of found) {
        const column = { cls, cost: this.costs[cls], items, counts }
        if (lp.saving(column) <= 1e-7 || !lp.enter(column)) continue
        any = true
        this.steps++
        this.pool.push({ ...column, items: Int32Array.from(items, (k) => types[k]) })
      }
    }
    const value = boundOf(duals, demand, limits, scale)
    if (isRoot && Number.isFinite(value)) {
      this.costBound = Math.max(this.costBound, this.roundUp(value))
      this.hasBound = true
      if (value > this.rawBound) {
        this.rawBound = value
        this.prices = { parts: this.spread(types, duals, scale), counts: Array.from(limitDuals) }
      }
    }
    if (value > state.best + 1e-12) {
      state.best = value
      state.center = duals.map((d) => d / scale)
    }
    if (any) state.misses = 0
    else if (weight > 0) state.misses++
    return any || weight > 0
  }

  /** By length instead of by row. */
  private spread(types: Int32Array, duals: ArrayLike<number>, scale: number): Float64Array {
    const out = new Float64Array(this.sizes.length)
    types.forEach((t, k) => {
      out[t] = duals[k] / scale
    })
    return out
  }

  /** The integer step over all patterns that a better plan may use, or where they are too many over the known ones. */
  private program(mayBePart: boolean): boolean {
    const { lp } = this.options
    if (lp === undefined || this.prices === null) return false
    const problem: BarProblem = {
      sizes: this.sizes,
      demand: this.demand,
      classes: Array.from(this.lengths, (length, c) => ({
        length,
        cost: this.costs[c],
        count: this.counts[c],
      })),
    }
    const most = this.bestCost - (this.costUnit > 0 ? this.costUnit : this.bestCost * 1e-9)
    const slack = 1e-7 * Math.max(1, most)
    let gap = most - this.rawBound + slack
    let list = patternsWithin(problem, this.prices, gap, MOST_LISTED)
    const isWhole = list.isWhole
    if (!isWhole && !mayBePart) return false
    // Too many: those of the least reduced cost, without a proof.
    for (let k = 0; k < 12 && !list.isWhole; k++) {
      gap /= 2
      list = patternsWithin(problem, this.prices, gap, SOME_LISTED)
    }
    if (!list.isWhole || this.isOver()) return false
    const chosen = choosePatterns(problem, list.columns, lp, {
      least: this.costBound,
      most,
      nodes: MOST_PROGRAM_NODES,
      seconds: PROGRAM_SECONDS,
    })
    this.steps += list.columns.length
    if (chosen.status === 'none' && isWhole) this.costBound = this.bestCost
    if (chosen.columns.length === 0) return false
    const plan = this.exactly(chosen.columns)
    const cost = plan.reduce((sum, c) => sum + c.cost, 0)
    if (chosen.status === 'optimal' && isWhole) {
      this.costBound = Math.max(this.costBound, Math.min(cost, this.bestCost))
    }
    return this.offer(plan)
  }

  /** Patterns that make more than is wanted leave it out. */
  private exactly(columns: readonly Column[]): Column[] {
    const left = this.demand.slice()
    return columns.flatMap((c) => {
      const items: number[] = []
      const counts: number[] = []
      c.items.forEach((t, k) => {
        const n = Math.min(c.counts[k], left[t])
        left[t] -= n
        if (n === 0) return
        items.push(t)
        counts.push(n)
      })
      return items.length === 0
        ? []
        : [{ ...c, items: Int32Array.from(items), counts: Int32Array.from(counts) }]
    })
  }

  /** Fills bar by bar; values near the lengths, spread by chance. */
  private greedy(r: Residual, spread: number): Column[] | null {
    const out: Column[] = []
    const n = this.sizes.length
    const values = new Float64Array(n)
    const longest = this.sizes[0]
    const power = 1 + 0.1 * this.rng.next()
    for (let i = 0; i < n; i++) {
      values[i] = longest * (this.sizes[i] / longest) ** power * (1 + spread * (this.rng.next() - 0.5))
    }
    const limit = Math.max(...this.lengths)
    let wanted = 0
    for (let i = 0; i < n; i++) wanted += r.demand[i]
    const sack = new Knapsack(this.sizes, r.demand, limit)
    while (wanted > 0) {
      sack.load(values, r.demand)
      const choice = this.bestBar(sack, r)
      if (choice === null) return null
      let times = r.left[choice.cls]
      for (let k = 0; k < choice.items.length; k++) {
        times = Math.min(times, Math.floor(r.demand[choice.items[k]] / choice.counts[k]))
      }
      for (let t = 0; t < times; t++) out.push(choice)
      r.left[choice.cls] -= times
      for (let k = 0; k < choice.items.length; k++) {
        r.demand[choice.items[k]] -= times * choice.counts[k]
        wanted -= times * choice.counts[k]
      }
      this.steps++
      if (this.best !== null && this.isOver()) return null
    }
    return out
  }

  private bestBar(sack: Knapsack, r: Residual): Column | null {
    let best: Column | null = null
    let bestScore = Number.NEGATIVE_INFINITY
    for (let cls = 0; cls < this.lengths.length; cls++) {
      if (r.left[cls] <= 0) continue
      const { value, items, counts } = sack.goodWithin(this.lengths[cls], MOST_FILL_NODES)
      if (items.length === 0) continue
      const score = value / Math.max(1e-9, this.costs[cls])
      if (score <= bestScore) continue
      bestScore = score
      best = { cls, cost: this.costs[cls], items, counts }
    }
    return best
  }

  /** Fixes patterns and prices again until nothing is left, or the best plan cannot be beaten. */
  private dive(root: { lp: PatternLp; types: Int32Array }, dive: number): void {
    const r = this.whole()
    const fixed: Column[] = []
    let cost = 0
    let at: { lp: PatternLp; types: Int32Array } | null = root
    while (at !== null) {
      const chosen = this.chooseFixed(at, r, dive)
      for (const c of chosen) {
        fixed.push(c)
        cost += c.cost
        r.left[c.cls]--
        for (let k = 0; k < c.items.length; k++) r.demand[c.items[k]] -= c.counts[k]
      }
      if (this.tryRest(r, fixed, cost)) return
      if (this.isOver() || this.isProven() || r.demand.every((d) => d <= 0)) return
      at = this.price({ demand: r.demand.map((d) => Math.max(0, d)), left: r.left }, false)
      if (at === null || this.roundUp(cost + at.lp.value() - 1e-7) >= this.bestCost - PERFECT) return
    }
  }

  /** The rest by greedy filling. */
  private tryRest(r: Residual, fixed: readonly Column[], cost: number): boolean {
    const demand = r.demand.map((d) => Math.max(0, d))
    for (let k = 0; k < 2; k++) {
      const rest = this.greedy({ demand: demand.slice(), left: [...r.left] }, k === 0 ? 0 : 0.1)
      if (rest === null) continue
      if (rest.reduce((sum, c) => sum + c.cost, cost) < this.bestCost - PERFECT)
        this.offer([...fixed, ...rest])
      if (this.isProven()) return true
    }
    return false
  }

  /** Whole parts of the LP's patterns; where there are none, the fullest one, by chance another. */
  private chooseFixed(at: { lp: PatternLp; types: Int32Array }, r: Residual, dive: number): Column[] {
    const out: Column[] = []
    const demand = r.demand.slice()
    const left = [...r.left]
    const take = (column: Column): boolean => {
      if (left[column.cls] <= 0) return false
      const items: number[] = []
      const counts: number[] = []
      for (let k = 0; k < column.items.length; k++) {
        let places = column.counts[k]
        // A place that is not wanted any more serves for shorter parts (the LP counts on that).
        for (let j = column.items[k]; j < at.types.length && places > 0; j++) {
          const t = at.types[j]
          const n = Math.min(places, demand[t])
          if (n <= 0) continue
          demand[t] -= n
          places -= n
          const known = items.indexOf(t)
          if (known < 0) {
            items.push(t)
            counts.push(n)
          } else counts[known] += n
        }
      }
      if (items.length === 0) return false
      left[column.cls]--
      out.push({ ...column, items: Int32Array.from(items), counts: Int32Array.from(counts) })
      return true
    }
    const solution = at.lp.solution()
    // Some dives fix all that is whole, others leave some of it open, each other ones.
    const keep = dive % 4 < 2 ? 1 : 0.5 + 0.5 * this.rng.next()
    for (const { column, x } of solution) {
      for (let k = 0; k < Math.floor(x + 1e-6); k++) {
        const isOpen = keep < 1 && this.rng.next() > keep
        if (!isOpen && !take(column)) break
      }
    }
    if (out.length > 0 && dive % 2 === 0) return out
    const rests = solution
      .map((s) => ({ column: s.column, rest: s.x - Math.floor(s.x + 1e-6) }))
      .sort((a, b) => b.rest - a.rest)
    const first = dive === 0 ? 0 : Math.floor(rests.length * this.rng.next() ** (2 + 6 / (1 + dive)) * 0.5)
    for (let k = first; k < rests.length; k++) if (rests[k].rest > 0.01 && take(rests[k].column)) return out
    for (const s of rests) if (take(s.column)) return out
    return out
  }

  /** Columns speak of lengths; bars speak of blanks. */
  private bars(columns: readonly Column[]): Bar[] {
    const queue = this.members.map((list) => list.map((m) => ({ ...m })))
    const bars: Bar[] = []
    for (const c of columns) {
      const counts = new Map<number, number>()
      for (let k = 0; k < c.items.length; k++) {
        let need = c.counts[k]
        for (const m of queue[c.items[k]]) {
          const take = Math.min(need, m.count)
          if (take > 0) counts.set(m.blank, (counts.get(m.blank) ?? 0) + take)
          m.count -= take
          need -= take
          if (need === 0) break
        }
      }
      bars.push({ cls: c.cls, counts })
    }
    return bars
  }
}
