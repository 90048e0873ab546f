/**
 * Search over whole plans. Build one board by board; then, over and over, take a few sections of boards (or whole
 * boards) apart and fill them anew (large neighbourhood search, Shaw 1998), walking by late acceptance (Burke and
 * Bykov 2017). Once every part is made, cheaper sets of boards are tried: all parts have to go into that set alone.
 * Parts left over gain in value for the next build (sequential value correction, Belov and Scheithauer 2007).
 * In: Prepared, bounds, limits. Out: the boards used and their sections. Score: weight made, cost, rests.
 * Tests: tests/core/cutting/plan-cuts.test.ts
 */
import { type Rng, seededRng } from '#lib/core/units/rng'
import { cheaperSets } from './board-sets'
import { areWhole } from './bounds'
import { MOST_TRIED, PlanBuilder } from './build-plan'
import { DemandPrices } from './demand-prices'
import { MOST_ROOTS } from './fill-board'
import type { LpSolver } from './lp'
import type { PartGains } from './part-gains'
import { PatternSearch } from './pattern-search'
import { isAllMade, isProven, PlanProofs, type SearchBounds } from './plan-proofs'
import { compare, type Plan, planOf, type Score, worthOf } from './plan-score'
import { PoolBound } from './pool-bound'
import type { Prepared } from './prepared'
import { hasNoLimits } from './saw-limits'
import { countParts, type Used } from './section'
import { chooseBoards, chooseSpots, partOf, replaced, shuffle } from './take-apart'

export interface SearchOptions {
  readonly seed: number
  readonly maxSteps: number
  readonly shouldStop: () => boolean
  readonly onBetter: (used: readonly Used[]) => void
  /** For the patterns of pattern-search.ts; without one there are none. */
  readonly lp?: LpSolver
}

const BEAMS = [1, 2, 4, 8, 16, 32, 64, 128]
/** How many of them are used on a large pool. */
const POOL_BEAMS = 5
/** Rounds without a better plan after which a search without a step limit ends. */
const PATIENCE = 20_000
/** The same, once weight and cost are proven: only offcuts can still improve. */
const PATIENCE_PROVEN = 200
/** Most blocks without waste made at once, and most classes of boards for which they are sought. */
const MOST_WHOLE = 20_000
const MOST_WHOLE_CLASSES = 300
/** Work of the tables in one cycle, and rounds from each of their cuttings. */
const PRICED_WORK = 1e8
const PRICED_ROUNDS = 40
/** First cycle in which patterns are priced, and exchanges of boards tried in each. */
const PATTERN_CYCLE = 1
const EXCHANGES = 30
const EXCHANGES_ALIKE = 6
/** Boards taken out of a plan in turn. */
const EXCHANGED = [6, 9, 15]
/** The same where all boards are alike, as a share: only a whole board less is a gain. */
const EXCHANGED_ALIKE = [0.4, 0.7, 1]
/** Different parts above which the linear program over patterns is too slow to be of use. */
const MOST_PATTERN_KINDS = 150
/** Memory of late acceptance. */
const LATE = 40

export class PlanSearch {
  private readonly prep: Prepared
  private readonly reach: Int32Array
  private readonly bounds: SearchBounds
  private readonly options: SearchOptions
  private readonly rng: Rng
  private readonly builder: PlanBuilder
  private readonly gains: PartGains
  private readonly proofs: PlanProofs
  private best: readonly Used[] = []
  private bestScore: Score = { weight: 0, cost: 0, pull: 0 }
  private bestWorth = -1
  private partsArea = 0
  /** Both are made when first wanted; null where they are of no use. */
  private demandPrices: DemandPrices | null | undefined
  private patterns: PatternSearch | null | undefined

  constructor(prep: Prepared, reach: Int32Array, bounds: SearchBounds, options: SearchOptions) {
    this.prep = prep
    this.reach = reach
    this.bounds = bounds
    this.options = options
    this.rng = seededRng(options.seed)
    this.builder = new PlanBuilder(prep, reach, this.rng, options)
    this.gains = this.builder.gains
    this.proofs = new PlanProofs(prep, reach, bounds, this.builder.filler, options.shouldStop)
    for (let i = 0; i < prep.n; i++) this.partsArea += reach[i] * prep.area[i]
  }

  get steps(): number {
    return this.builder.filler.steps
  }

  /** A first plan, in milliseconds. */
  first(): readonly Used[] {
    const all = this.prep.classes.map((c) => c.count)
    if (this.builder.blocks.length > 0) this.build(all, 1, 0, 4)
    return this.best
  }

  /** Takes a plan found elsewhere as the one to beat. */
  adopt(used: readonly Used[]): void {
    this.offerBest(planOf(this.prep, this.reach, used))
  }

  /** @returns the best plan found; empty where no part fits any board. Call `first` before. */
  run(): readonly Used[] {
    if (this.builder.blocks.length === 0) return []
    const all = this.prep.classes.map((c) => c.count)
    this.findWhole()
    let idle = 0
    for (let cycle = 0; !this.builder.isOver(); cycle++) {
      const before = this.bestWorth
      const score = this.bestScore
      const missed = this.proofs.prove(cycle, this.bestScore)
      if (missed !== null) this.adopt(missed)
      if (cycle >= PATTERN_CYCLE) this.choosePatterns(all)
      this.priceDemand(all)
      const fresh = this.rebuild(all, cycle)
      const effort = Math.min(10_000, Math.ceil(100 * 1.2 ** cycle))
      if (this.isAllMade() && !this.isProven() && !this.isPool()) this.squeeze(effort, cycle)
      // Now and then from the new plan, so that the walk does not stay where it began.
      const start =
        cycle % 2 === 1 && fresh !== null && !this.isAllMade()
          ? fresh
          : planOf(this.prep, this.reach, this.best)
      this.improve(start, all, effort)
      const isBetter = compare(this.bestScore, score) > 0 || this.bestWorth > before
      idle = isBetter ? 0 : idle + effort
      if (idle > (this.isProven() ? PATIENCE_PROVEN : this.patience())) break
    }
    return this.best
  }

  /** One clear board: cuttings that forget the demand, at prices that remember it, as new starts. */
  private priceDemand(all: readonly number[]): void {
    const { prep, reach, options, bounds } = this
    if (this.demandPrices === undefined) {
      const [cls] = prep.classes
      const isAlone = prep.classes.length === 1 && cls.count === 1 && cls.zones.length === 0
      const isOpen = isAlone && cls.allowed === null && hasNoLimits(prep)
      this.demandPrices = isOpen ? new DemandPrices(prep, reach, this.rng, options.shouldStop) : null
    }
    let work = 0
    while (this.demandPrices !== null && work < PRICED_WORK && !this.isProven() && !this.builder.isOver()) {
      const found = this.demandPrices.step(this.bestScore.weight)
      if (found === null) {
        this.demandPrices = null
        return
      }
      work += found.work
      this.builder.filler.steps++
      const bound = areWhole(prep.weight) ? Math.floor(found.bound + 1e-6) : found.bound
      bounds.weight = Math.min(bounds.weight, bound)
      const start = planOf(prep, reach, [{ cls: 0, root: found.root }])
      this.offerBest(start)
      if (start.used[0].root.parts > 0) this.improve(start, all, PRICED_ROUNDS)
    }
  }

  /** Many boards, or many alike: which boards and which fillings, by what parts are worth. */
  private choosePatterns(all: readonly number[]): void {
    if (this.patterns === null || this.isProven() || !this.isAllMade() || this.best.length < 2) return
    if (this.patterns === undefined) {
      this.patterns = this.makePatterns(all)
      if (this.patterns === null) return
      for (let k = 0; k < 2; k++) this.offerPatterns(this.patterns.plan(all, this.bestScore.cost))
    }
    const isAlike = this.prep.classes.length === 1
    const tries = isAlike ? EXCHANGES_ALIKE : EXCHANGES
    for (let k = 0; k < tries && !this.builder.isOver() && !this.isProven(); k++) {
      const share = EXCHANGED_ALIKE[this.rng.below(EXCHANGED_ALIKE.length)]
      const most = isAlike ? Math.ceil(share * this.best.length) : EXCHANGED[this.rng.below(EXCHANGED.length)]
      this.offerPatterns(this.patterns.exchange(this.best, all, most))
    }
  }

  private offerPatterns(used: readonly Used[] | null): void {
    if (used !== null) this.offerBest(planOf(this.prep, this.reach, used))
  }

  /** The search by patterns, and the bound that its prices give. */
  private makePatterns(all: readonly number[]): PatternSearch | null {
    const { prep, reach, options, bounds } = this
    const { lp, shouldStop, maxSteps } = options
    const isAlike = prep.classes.length === 1
    if (lp === undefined || (!isAlike && !this.isPool())) return null
    if (planOf(this.prep, this.reach, this.best).missing.some((n) => n > 0)) return null
    const bound = new PoolBound(prep, reach, shouldStop)
    const { rng } = this
    const { filler, blocks } = this.builder
    const patterns = new PatternSearch(prep, reach, bound, { lp, filler, blocks, rng, maxSteps, shouldStop })
    const isUseful = reach.reduce((n, v) => n + (v > 0 ? 1 : 0), 0) <= MOST_PATTERN_KINDS
    patterns.learn(this.best)
    patterns.start(all, isUseful)
    bounds.allMade = Math.max(bounds.allMade, this.roundedCost(bound.best))
    return isUseful ? patterns : null
  }

  /** Up to a whole number, where boards cost whole numbers. */
  private roundedCost(cost: number): number {
    return areWhole(this.prep.classes.map((c) => c.cost)) ? Math.ceil(cost - 1e-6) : cost
  }

  /** Boards that parts use up to the last corner, the rest of the parts on what is left. */
  private findWhole(): void {
    if (this.isProven() || !this.builder.canBeWhole || this.prep.classes.length > MOST_WHOLE_CLASSES) return
    const all = this.prep.classes.map((c) => c.count)
    const most = Math.min(MOST_WHOLE, this.options.maxSteps / 4)
    for (const used of this.builder.whole(all, this.reach, [], most, 3_000, 2, this.isAllMade()))
      this.offerBest(planOf(this.prep, this.reach, used))
  }

  /** New plans from nothing, with ever wider beams; parts that were left over count for more. */
  private rebuild(all: readonly number[], cycle: number): Plan | null {
    if (this.isProven()) return null
    if (this.isAllMade() && cycle > 2) return null
    if (this.builder.isLarge && (cycle > 1 || this.isPool())) return null
    let fresh: Plan | null = null
    const beam = this.beamOf(cycle)
    for (let k = 0; k < 2 && !this.builder.isOver(); k++) {
      const plan = this.build(all, beam, 0.02, this.builder.isLarge ? 4 * MOST_TRIED : MOST_TRIED)
      this.gains.correct(plan.missing)
      if (fresh === null || compare(plan.score, fresh.score) > 0) fresh = plan
    }
    return fresh
  }

  /** All parts are made from a small share of many boards: what counts is which boards. */
  private isPool(): boolean {
    return this.builder.isLarge && this.isAllMade() && this.best.length * 2 < this.prep.classes.length
  }

  private beamOf(cycle: number): number {
    return Math.min(1024, 2 ** Math.min(10, 2 + cycle))
  }

  private patience(): number {
    return this.options.maxSteps === Number.POSITIVE_INFINITY ? PATIENCE : PATIENCE * 10
  }

  private isAllMade(): boolean {
    return isAllMade(this.bestScore, this.bounds)
  }

  private isProven(): boolean {
    return isProven(this.bestScore, this.bounds)
  }

  /** Tries to make all from sets of boards that cost less than the best plan. */
  private squeeze(effort: number, cycle: number): void {
    const used = this.prep.classes.map(() => 0)
    for (const u of this.best) used[u.cls]++
    const sets = cheaperSets(
      this.prep,
      this.builder.usable,
      used,
      this.bestScore.cost,
      this.partsArea,
      this.rng,
    )
    for (const left of sets) {
      if (this.builder.isOver()) return
      const cost = this.bestScore.cost
      let start = this.build(left, this.beamOf(cycle), 0.05, MOST_TRIED)
      for (const used of this.builder.isWholeLikely()
        ? this.builder.whole(left, this.reach, [], 8_000, 3_000, 1, this.isAllMade())
        : []) {
        const plan = planOf(this.prep, this.reach, used)
        this.offerBest(plan)
        if (compare(plan.score, start.score) > 0) start = plan
      }
      if (this.bestScore.cost >= cost) this.improve(start, left, effort)
      if (this.bestScore.cost < cost) return
    }
  }

  /** A plan from nothing. @param tried boards tried for each board filled */
  private build(left: readonly number[], beam: number, jitter: number, tried: number): Plan {
    this.gains.choose(this.isAllMade())
    const few = left.reduce((sum, v) => sum + v, 0) <= MOST_ROOTS
    const isTogether = few && this.bestWorth >= 0 && this.rng.below(3) > 0
    const used = isTogether
      ? this.builder.fillTogether(left, this.reach.slice(), beam, jitter)
      : this.builder.fillBoards(this.reach.slice(), [...left], this.builder.byPrice, beam, jitter, tried)
    const plan = planOf(this.prep, this.reach, used)
    this.offerBest(plan)
    return plan
  }

  private offerBest(plan: Plan): boolean {
    const better = compare({ ...plan.score, pull: 0 }, { ...this.bestScore, pull: 0 })
    if (this.bestWorth >= 0 && better < 0) return false
    const worth = worthOf(this.prep, plan.used)
    if (this.bestWorth >= 0 && better === 0 && worth <= this.bestWorth) return false
    this.best = plan.used
    this.bestScore = plan.score
    this.bestWorth = worth
    this.gains.hasPlan = true
    this.options.onBetter(this.best)
    return true
  }

  /** Late acceptance from `start`, with the boards of `left` only. */
  private improve(start: Plan, left: readonly number[], rounds: number): void {
    let current = start
    const late: Score[] = new Array(LATE).fill(start.score)
    const target = this.bestScore.cost
    const isSingle = left.reduce((sum, v) => sum + v, 0) === 1
    for (let round = 0; round < rounds && !this.builder.isOver(); round++) {
      // A round is a step too, so that rounds in which nothing fits come to an end.
      this.builder.filler.steps++
      if (this.rng.below(10) === 0) this.gains.correct(current.missing)
      const next =
        isSingle && this.rng.below(12) === 0 ? this.again(left, round) : this.neighbour(current, left)
      if (next === null) continue
      const at = round % LATE
      if (compare(next.score, current.score) >= 0 || compare(next.score, late[at]) >= 0) current = next
      late[at] = current.score
      if (current !== next || !this.offerBest(next)) continue
      if (this.bestScore.cost < target) return
      round = Math.max(0, round - (rounds >> 1))
    }
  }

  private neighbour(current: Plan, left: readonly number[]): Plan | null {
    this.gains.choose(this.isAllMade())
    const share = this.builder.isLarge && this.isAllMade() && !this.isProven() ? 1 : 3
    const isRefit = current.used.length > 0 && this.rng.below(4) < share
    if (this.rng.below(8) === 0 && this.builder.isWholeLikely()) return this.rewhole(current, left)
    return isRefit ? this.refit(current) : this.remix(current, left)
  }

  /** One board alone: the whole of it, with a wide beam now and then. */
  private again(left: readonly number[], round: number): Plan {
    const beam = 2 ** this.rng.below(Math.min(11, 3 + Math.floor(round / 100)))
    return this.build(left, beam, 0.15 * this.rng.next(), 1)
  }

  /** Takes a few boards apart and fills them again, with a board or two more to choose from. */
  private remix(current: Plan, limit: readonly number[]): Plan {
    // In a large pool the saving lies in other boards, cheap ones above all.
    const isPool = this.isPool()
    const taken = chooseBoards(this.prep, this.rng, current.used, isPool ? 4 : 3, isPool)
    const kept = current.used.filter((_, k) => !taken.has(k))
    const wanted = current.missing.slice()
    const left = [...limit]
    for (const u of kept) left[u.cls]--
    const classes = new Set<number>()
    for (const k of taken) {
      classes.add(current.used[k].cls)
      countParts(current.used[k].root, wanted, 1)
    }
    const extra = isPool ? 4 + this.rng.below(14) : 1 + this.rng.below(2)
    const near = isPool
      ? Math.min(this.builder.byPrice.length, 20 + 3 * current.used.length)
      : this.builder.byPrice.length
    for (let k = 0; k < extra; k++) classes.add(this.builder.byPrice[this.rng.below(near)])
    const order = [...classes].filter((c) => left[c] > 0)
    shuffle(this.rng, order)
    const beam = BEAMS[this.rng.below(isPool ? POOL_BEAMS : BEAMS.length)]
    if (this.rng.below(isPool ? 6 : 3) > (isPool ? 4 : 0)) {
      const few = this.prep.classes.map(() => 0)
      for (const k of taken) few[current.used[k].cls]++
      return planOf(this.prep, this.reach, [
        ...kept,
        ...this.builder.fillTogether(few, wanted, 4 * beam, 0.1 * this.rng.next()),
      ])
    }
    const tried = isPool ? 16 : this.rng.below(2) === 0 ? 1 : 4
    const again = this.builder.fillBoards(wanted, left, order, beam, 0.2 * this.rng.next(), tried)
    return planOf(this.prep, this.reach, [...kept, ...again])
  }

  /** Takes a few boards apart and looks for fillings without waste, with a board or two more to choose from. */
  private rewhole(current: Plan, limit: readonly number[]): Plan | null {
    const taken = chooseBoards(this.prep, this.rng, current.used, 5, false)
    const kept = current.used.filter((_, k) => !taken.has(k))
    const wanted = current.missing.slice()
    const few = this.prep.classes.map(() => 0)
    for (const k of taken) {
      few[current.used[k].cls]++
      countParts(current.used[k].root, wanted, 1)
    }
    const spare = [...limit]
    for (const u of current.used) spare[u.cls]--
    for (let k = this.rng.below(3); k > 0; k--) {
      const cls = this.rng.below(spare.length)
      if (few[cls] < spare[cls]) few[cls]++
    }
    const [used] = this.builder.whole(few, wanted, kept, 4_000, 600, 1, this.isAllMade())
    return used === undefined ? null : planOf(this.prep, this.reach, used)
  }

  /** Takes a few sections apart and fills them again with their own and the missing parts. */
  private refit(current: Plan): Plan | null {
    const spots = chooseSpots(this.rng, current.used)
    if (spots.length === 0) return null
    const wanted = current.missing.slice()
    for (const s of spots) countParts(s.section, wanted, 1)
    shuffle(this.rng, spots)
    if (this.rng.below(3) === 0) spots.sort((a, b) => b.section.w * b.section.h - a.section.w * a.section.h)
    const used = [...current.used]
    const beam = BEAMS[this.rng.below(BEAMS.length)]
    const jitter = 0.3 * this.rng.next()
    const roots = spots.map((spot) => partOf(this.prep, used[spot.board].cls, spot.section))
    const filled = this.builder.fill(
      roots,
      spots.map((spot) => spot.section),
      wanted,
      beam,
      jitter,
      true,
    )
    if (filled === null) return null
    const missing = wanted
    let pull = current.score.pull
    spots.forEach((spot, k) => {
      const fresh = filled.sections[k]
      countParts(fresh, missing, -1)
      pull += fresh.pull - spot.section.pull
      const own = used[spot.board]
      used[spot.board] = { cls: own.cls, root: replaced(own.root, spot.path, fresh) }
    })
    if (used.some((u) => u.root.parts === 0))
      return planOf(
        this.prep,
        this.reach,
        used.filter((u) => u.root.parts > 0),
      )
    let weight = current.score.weight
    for (let i = 0; i < missing.length; i++) {
      if (missing[i] !== current.missing[i]) weight += (current.missing[i] - missing[i]) * this.prep.weight[i]
    }
    return { used, missing, score: { weight, cost: current.score.cost, pull } }
  }
}
