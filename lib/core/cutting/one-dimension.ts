/**
 * Boards of the parts' own width: only the length is cut. Patterns carry the work, not pieces.
 *
 * Bound: the pattern LP by column generation (price-patterns.ts). Plans: filling bar by bar (fill-bars.ts), then diving:
 * fix patterns of the LP (dive-patterns.ts), price again for what is left, and so on (Belov and Scheithauer 2006 use the
 * same residual problems), each dive with other choices. With an LP/MIP library the rest of a dive, once it is small,
 * and the whole problem, where its patterns within the gap can be listed, are decided by an integer step
 * (pattern-program.ts).
 * In: Prepared that `isOneDimensional`. Out: boards used, bound on the cost of making everything.
 * One step is one pivot or one board filled. Tests: tests/core/cutting/one-dimension.test.ts
 */
import { type Rng, seededRng } from '#lib/core/units/rng'
import {
  type Bar,
  type BarProblem,
  barProblemOf,
  barsOf,
  costUnitOf,
  exactly,
  type Members,
  type Residual,
  wholeOf,
} from './bar-problem'
import { coverBars } from './cover-bars'
import { chooseFixed } from './dive-patterns'
import { fillBars } from './fill-bars'
import type { LpSolver } from './lp'
import type { Column } from './pattern-lp'
import { choosePatterns, type PatternList, patternsWithin } from './pattern-program'
import type { Prepared } from './prepared'
import { PatternPricing, type Prices } from './price-patterns'

export interface OneOptions {
  readonly seed: number
  readonly maxSteps: number
  readonly shouldStop: () => boolean
  readonly onBetter: (bars: readonly Bar[]) => void
  /** For the integer step; without one there are only dives. */
  readonly lp?: LpSolver
}

const PERFECT = 1e-6
/** Dives before the integer step (with several lengths fewer), before it is tried once more with a part of the patterns, and at all. */
const FIRST_DIVES = 5
const FIRST_DIVES_OF_MANY = 3
const LATE_DIVES = 40
const MOST_DIVES = 1_000
/** The integer step: all patterns if no more than this, else some of them; nodes of its tree, seconds of each try. */
const MOST_LISTED = 12_000
const SOME_LISTED = 3_000
const MOST_PROGRAM_NODES = 3_000
const FIRST_SECONDS = 1
const LATE_SECONDS = 4
/** With more part types than this, a fractional solution that would do need not be the best one. */
const MANY_TYPES = 180
/** Of a board that a dive has to spare, before it fixes many patterns at once. */
const ROOM = 0.3
/** The rest of a dive is decided at once where its patterns are no more than this; at first, at most, nodes. */
const FIRST_COVERED = 400
const MOST_COVERED = 2_000
const MOST_COVER_NODES = 15_000

export class OneDimension {
  steps = 0
  /** No plan that makes everything costs less. */
  costBound = 0
  private readonly options: OneOptions
  private readonly rng: Rng
  private readonly problem: BarProblem
  private readonly members: Members
  private readonly costUnit: number
  private readonly pool: Column[] = []
  private best: Column[] | null = null
  private bestCost = Number.POSITIVE_INFINITY
  /** Prices of the best bound, and that bound before rounding. */
  private prices: Prices | null = null
  private rawBound = Number.NEGATIVE_INFINITY
  /** The least gap within which the integer step has found its patterns too many. */
  private tooManyWithin = Number.POSITIVE_INFINITY
  private mostCovered = FIRST_COVERED

  constructor(prep: Prepared, options: OneOptions) {
    this.options = options
    this.rng = seededRng(options.seed)
    const { problem, members } = barProblemOf(prep)
    this.problem = problem
    this.members = members
    this.costUnit = costUnitOf(problem)
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

  /** The dearest plan that would be better than the best one. */
  private wanted(): number {
    return this.bestCost - (this.costUnit > 0 ? this.costUnit : this.bestCost * 1e-9)
  }

  /** @returns the best plan that makes everything; null where none was found */
  run(): readonly Bar[] | null {
    if (this.problem.sizes.length === 0) return []
    const first = this.fill(wholeOf(this.problem), 0)
    this.offer(first)
    if (first !== null) this.pool.push(...first)
    const root = new PatternPricing(this.problem, wholeOf(this.problem), this.pool, 0.8, this)
    if (this.priceRoot(root)) {
      for (let k = 0; k < 20 && !this.isProven() && !this.isOver(); k++)
        this.offer(this.fill(wholeOf(this.problem), 0.1))
      this.search(root)
    }
    return this.best === null ? null : barsOf(this.best, this.members)
  }

  private search(root: PatternPricing): void {
    for (let dive = 0; !this.isProven() && !this.isOver(); dive++) {
      const before = this.steps
      this.dive(root, dive)
      // As long again for the root, where it was left unfinished.
      if (!this.isOver()) this.priceRoot(root, { steps: this.steps - before })
      // With several lengths the best few patterns help as well as all; with one length dives come first.
      const isOfMany = this.problem.classes.length > 1
      const mayBePart = dive === LATE_DIVES || isOfMany
      if (dive === (isOfMany ? FIRST_DIVES_OF_MANY : FIRST_DIVES) || dive === LATE_DIVES) {
        if (!this.isHasty(root)) this.priceRoot(root, { isToTheEnd: true })
        while (!this.isProven() && !this.isOver() && this.program(mayBePart));
      }
      if (dive > MOST_DIVES && this.options.maxSteps === Number.POSITIVE_INFINITY) break
    }
  }

  /**
   * Prices the whole problem until the rounded bound cannot rise any more, or to the end; a large one at first only
   * until a fractional solution would better the best plan.
   * @returns false where not everything can be made, or that is not known yet
   */
  private priceRoot(root: PatternPricing, effort: { isToTheEnd?: boolean; steps?: number } = {}): boolean {
    const until = this.steps + (effort.steps ?? Number.POSITIVE_INFINITY)
    const isHasty = this.isHasty(root) && effort.steps === undefined
    return root.run(
      () => this.isOver() || this.steps >= until,
      (value, bound) => {
        this.noteBound(root, bound)
        if (effort.isToTheEnd === true) return false
        if (isHasty && value <= this.wanted()) return true
        return this.costUnit > 0 && this.roundUp(value) <= this.costBound
      },
    )
  }

  /** So large that a fractional solution which would do need not be the best one. */
  private isHasty(at: PatternPricing): boolean {
    return this.problem.classes.length === 1 && at.types.length > MANY_TYPES
  }

  private noteBound(root: PatternPricing, bound: number): void {
    if (bound <= this.rawBound || !Number.isFinite(bound)) return
    this.rawBound = bound
    this.prices = root.prices
    this.costBound = Math.max(this.costBound, this.roundUp(bound))
  }

  private fill(residual: Residual, spread: number): Column[] | null {
    return fillBars(this.problem, residual, this.rng, spread, () => {
      this.steps++
      return this.best !== null && this.isOver()
    })
  }

  private offer(columns: readonly Column[] | null): boolean {
    if (columns === null) return false
    const cost = columns.reduce((sum, c) => sum + c.cost, 0)
    if (cost >= this.bestCost - 1e-9) return false
    this.bestCost = cost
    this.best = [...columns]
    this.options.onBetter(barsOf(this.best, this.members))
    return true
  }

  /** Fixes patterns and prices again until nothing is left, or the best plan cannot be beaten. */
  private dive(root: PatternPricing, dive: number): void {
    const residual = wholeOf(this.problem)
    const fixed: Column[] = []
    let cost = 0
    let at = root
    while (true) {
      for (const c of chooseFixed(at, residual, {
        dive,
        rng: this.rng,
        isHasty: this.isHasty(at) && this.wanted() - cost - at.value() > ROOM,
      })) {
        fixed.push(c)
        cost += c.cost
        residual.left[c.cls]--
        c.items.forEach((t, k) => {
          residual.demand[t] = Math.max(0, residual.demand[t] - c.counts[k])
        })
      }
      if (this.tryRest(residual, fixed, cost)) return
      if (this.isOver() || this.isProven() || residual.demand.every((d) => d <= 0)) return
      at = new PatternPricing(this.problem, residual, this.pool, 0.5, this)
      const room = this.wanted() - cost
      const isHasty = this.isHasty(at)
      const isCovered = at.run(
        () => this.isOver(),
        (value, bound) => bound > room + PERFECT || (isHasty && value <= room + 1e-9),
      )
      if (!isCovered || this.roundUp(cost + at.lp.value() - 1e-7) >= this.bestCost - PERFECT) return
      if (this.isOver() || this.endDive(at, residual, fixed, cost)) return
    }
  }

  /** The rest by filling. */
  private tryRest(residual: Residual, fixed: readonly Column[], cost: number): boolean {
    for (let k = 0; k < 2; k++) {
      const copy = { demand: residual.demand.slice(), left: [...residual.left] }
      const rest = this.fill(copy, k === 0 ? 0 : 0.1)
      if (rest === null) continue
      if (rest.reduce((sum, c) => sum + c.cost, cost) < this.bestCost - PERFECT)
        this.offer([...fixed, ...rest])
      if (this.isProven()) return true
    }
    return false
  }

  /**
   * Decides the rest of a dive at once, where it is small: is there any way to finish it below the best plan?
   * @returns true where the dive is done, one way or the other
   */
  private endDive(at: PatternPricing, residual: Residual, fixed: readonly Column[], cost: number): boolean {
    if (at.prices === null) return false
    const rest: BarProblem = {
      sizes: Int32Array.from(at.types, (t) => this.problem.sizes[t]),
      demand: Int32Array.from(at.types, (t) => residual.demand[t]),
      classes: this.problem.classes.map((c, k) => ({ ...c, count: residual.left[k] })),
    }
    const most = this.wanted() - cost
    const gap = most - at.bound + PERFECT
    const list = patternsWithin(rest, at.prices, gap, this.mostCovered)
    if (!list.isWhole) return false
    const chosen = coverBars(rest, list.columns, at.prices, gap, MOST_COVER_NODES)
    this.steps += list.columns.length
    if (chosen.status === 'unknown') {
      this.mostCovered = Math.max(20, Math.floor(list.columns.length * 0.9))
      return false
    }
    if (chosen.status === 'none') {
      this.mostCovered = Math.min(MOST_COVERED, Math.ceil(this.mostCovered * 1.05))
      return true
    }
    const columns = exactly(chosen.columns, rest.demand).map((c) => ({
      ...c,
      items: Int32Array.from(c.items, (k) => at.types[k]),
    }))
    this.offer([...fixed, ...columns])
    return true
  }

  /** Patterns within the gap; where they are too many those of the least reduced cost, if that may be. */
  private listed(
    prices: Prices,
    most: number,
    mayBePart: boolean,
  ): PatternList & { readonly isPart: boolean } {
    let gap = most - this.rawBound + 1e-7 * Math.max(1, most)
    let list: PatternList = { columns: [], isWhole: false }
    if (gap < 0.9 * this.tooManyWithin) list = patternsWithin(this.problem, prices, gap, MOST_LISTED)
    if (list.isWhole) return { ...list, isPart: false }
    this.tooManyWithin = Math.min(gap, this.tooManyWithin)
    for (let k = 0; k < 12 && mayBePart && !list.isWhole; k++) {
      gap /= 2
      list = patternsWithin(this.problem, prices, gap, SOME_LISTED)
    }
    return { ...list, isPart: true }
  }

  /** The integer step over all patterns that a better plan may use, or where they are too many over some of them. */
  private program(mayBePart: boolean): boolean {
    const { lp } = this.options
    if (lp === undefined || this.prices === null) return false
    const most = this.wanted()
    const list = this.listed(this.prices, most, mayBePart)
    if (!list.isWhole || this.isOver()) return false
    const chosen = choosePatterns(this.problem, list.columns, lp, {
      least: this.costBound,
      most,
      nodes: MOST_PROGRAM_NODES,
      seconds: mayBePart ? LATE_SECONDS : FIRST_SECONDS,
    })
    this.steps += list.columns.length
    if (chosen.status === 'none' && !list.isPart) this.costBound = this.bestCost
    if (chosen.columns.length === 0) return false
    const plan = exactly(chosen.columns, this.problem.demand)
    const cost = plan.reduce((sum, c) => sum + c.cost, 0)
    if (chosen.status === 'optimal' && !list.isPart) {
      this.costBound = Math.max(this.costBound, Math.min(cost, this.bestCost))
    }
    return this.offer(plan)
  }
}
