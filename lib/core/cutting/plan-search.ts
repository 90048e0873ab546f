/**
 * Search over whole plans. Build one board by board; then, over and over, take a few sections of boards (or whole
 * boards) apart and fill them anew (large neighbourhood search, Shaw 1998), walking by late acceptance (Burke and
 * Bykov 2017). Once every part is made, cheaper sets of boards are tried: all parts have to go into that set alone.
 * Parts left over gain in value for the next build (sequential value correction, Belov and Scheithauer 2007).
 * In: Prepared, bounds, limits. Out: the boards used and their sections. Score: weight made, cost, rests.
 * Tests: tests/core/cutting/plan-cuts.test.ts
 */
import { type Rng, seededRng } from '#lib/core/units/rng'
import { type Block, bulkBlocks, pairBlocks, perfectBlocks, singleBlocks } from './blocks'
import { cheaperSets } from './board-sets'
import { areWhole, canHold, usableArea } from './bounds'
import { dualFeasibleCount } from './dual-feasible'
import { BoardFiller, MOST_ROOTS, type Root, restWorth } from './fill-board'
import type { LpSolver } from './lp'
import { PatternSearch } from './pattern-search'
import { patternBound } from './plate-bound'
import { PoolBound } from './pool-bound'
import type { Prepared } from './prepared'
import { BoardProver } from './prove-board'
import { countParts, joinSections, type Section, sectionsOfMoves, type Used } from './section'
import { wholeBoards } from './whole-boards'

export interface SearchOptions {
  readonly seed: number
  readonly maxSteps: number
  readonly shouldStop: () => boolean
  readonly onBetter: (used: readonly Used[]) => void
  /** For the patterns of pattern-search.ts; without one there are none. */
  readonly lp?: LpSolver
}

export interface SearchBounds {
  /** Lowered by proofs on the way. */
  weight: number
  /** Least cost of making everything, as far as proven. */
  allMade: number
  cost(weight: number): number
}

interface Score {
  readonly weight: number
  readonly cost: number
  /** Gathers the rests, so that missing parts find room. */
  readonly pull: number
}

interface Plan {
  readonly used: readonly Used[]
  readonly missing: Int32Array
  readonly score: Score
}

/** A section to be filled anew: which board, and the turns (0 first, 1 second) from its root. */
interface Spot {
  readonly board: number
  readonly path: readonly (0 | 1)[]
  readonly section: Section
}

const MOST_PAIRS = 100
const MOST_PERFECT = 600
/** Random spread of the parts' values. */
const SPREADS = [0, 0, 0, 0.02, 0.08]
const BEAMS = [1, 2, 4, 8, 16, 32, 64, 128]
/** How many of them are used on a large pool. */
const POOL_BEAMS = 5
/** Rounds without a better plan after which a search without a step limit ends. */
const PATIENCE = 3_000
/** The same, once weight and cost are proven: only offcuts can still improve. */
const PATIENCE_PROVEN = 200
const MOST_TRIED = 8
/** Most blocks without waste made at once, and most classes of boards for which they are sought. */
const MOST_WHOLE = 20_000
const MOST_WHOLE_CLASSES = 300
/** Share of a board that parts cover where it counts as used up. */
const WHOLE_FILL = 0.985
/** Cycles before which a proof is tried. */
const PROOF_CYCLES = new Set([0, 2, 5, 9, 13, 17, 21])
/** First cycle in which patterns are priced, and exchanges of boards tried in each. */
const PATTERN_CYCLE = 1
const EXCHANGES = 6
/** Boards taken out of a plan in turn. */
const EXCHANGED = [6, 9, 15]
/** The same where all boards are alike, as a share: only a whole board less is a gain. */
const EXCHANGED_ALIKE = [0.4, 0.7, 1]
/** Different parts above which the linear program over patterns is too slow to be of use. */
const MOST_PATTERN_KINDS = 150
/** Memory of late acceptance. */
const LATE = 40

/** Above 0: a is better. */
function compare(a: Score, b: Score): number {
  const tiny = 1e-9 * Math.max(1, Math.abs(a.weight), Math.abs(b.weight))
  if (Math.abs(a.weight - b.weight) > tiny) return a.weight - b.weight
  if (Math.abs(a.cost - b.cost) > 1e-9 * Math.max(1, a.cost, b.cost)) return b.cost - a.cost
  return a.pull - b.pull
}

export class PlanSearch {
  private readonly prep: Prepared
  private readonly reach: Int32Array
  private readonly bounds: SearchBounds
  private readonly options: SearchOptions
  private readonly rng: Rng
  private readonly filler: BoardFiller
  private readonly prover: BoardProver
  private readonly blocks: readonly Block[]
  /** Value correction, blank by blank. */
  private readonly factor: Float64Array
  private readonly gains: Float64Array
  private readonly byPrice: readonly number[]
  private readonly usable: Float64Array
  private readonly holds: Int8Array
  private best: readonly Used[] = []
  private bestScore: Score = { weight: 0, cost: 0, pull: 0 }
  private bestWorth = -1
  private partsArea = 0
  /** Blocks that leave no waste are worth looking for. */
  private readonly canBeWhole: boolean
  private wholeHits = 0
  private wholeMisses = 0
  /** More boards than one search can fill together. */
  private readonly isLarge: boolean
  /** Made when first wanted; null where it is of no use. */
  private patterns: PatternSearch | null | undefined

  constructor(prep: Prepared, reach: Int32Array, bounds: SearchBounds, options: SearchOptions) {
    this.prep = prep
    this.reach = reach
    this.bounds = bounds
    this.options = options
    this.rng = seededRng(options.seed)
    this.filler = new BoardFiller(prep)
    this.prover = new BoardProver(prep, options.shouldStop)
    const singles = singleBlocks(prep).filter((b) => reach[b.item] > 0)
    this.blocks = [
      ...singles,
      ...bulkBlocks(prep, singles),
      ...perfectBlocks(prep, singles, MOST_PERFECT, 40 * MOST_PERFECT),
      ...pairBlocks(prep, singles, 0.95, MOST_PAIRS),
    ]
    this.factor = new Float64Array(prep.n).fill(1)
    this.gains = new Float64Array(prep.n)
    this.usable = Float64Array.from(prep.classes, usableArea)
    this.byPrice = prep.classes
      .map((c) => c.index)
      .sort((a, b) => this.price(a) - this.price(b) || this.usable[b] - this.usable[a])
    this.holds = new Int8Array(prep.n * prep.classes.length).fill(-1)
    this.isLarge = prep.classes.reduce((sum, c) => sum + c.count, 0) > MOST_ROOTS
    this.canBeWhole = prep.stages === Number.POSITIVE_INFINITY && prep.problem.objective !== 'maxValue'
    for (let i = 0; i < prep.n; i++) this.partsArea += reach[i] * prep.area[i]
  }

  get steps(): number {
    return this.filler.steps
  }

  private price(cls: number): number {
    return this.prep.classes[cls].cost / Math.max(1, this.usable[cls])
  }

  private canHold(cls: number, item: number): boolean {
    const at = cls * this.prep.n + item
    if (this.holds[at] < 0) this.holds[at] = canHold(this.prep, this.prep.classes[cls], item) ? 1 : 0
    return this.holds[at] === 1
  }

  private isOver(): boolean {
    return this.steps >= this.options.maxSteps || this.options.shouldStop()
  }

  /** A first plan, in milliseconds. */
  first(): readonly Used[] {
    const all = this.prep.classes.map((c) => c.count)
    if (this.blocks.length > 0) this.build(all, 1, 0, 4)
    return this.best
  }

  /** Takes a plan found elsewhere as the one to beat. */
  adopt(used: readonly Used[]): void {
    this.offerBest(this.planOf(used))
  }

  /** @returns the best plan found; empty where no part fits any board. Call `first` before. */
  run(): readonly Used[] {
    if (this.blocks.length === 0) return []
    const all = this.prep.classes.map((c) => c.count)
    this.findWhole()
    let idle = 0
    for (let cycle = 0; !this.isOver(); cycle++) {
      const before = this.bestWorth
      const score = this.bestScore
      if (PROOF_CYCLES.has(cycle)) this.prove(cycle)
      if (cycle >= PATTERN_CYCLE) this.choosePatterns(all)
      const fresh = this.rebuild(all, cycle)
      const effort = Math.min(10_000, Math.ceil(100 * 1.2 ** cycle))
      if (this.isAllMade() && !this.isProven() && !this.isPool()) this.squeeze(effort, cycle)
      // Now and then from the new plan, so that the walk does not stay where it began.
      const start = cycle % 2 === 1 && fresh !== null && !this.isAllMade() ? fresh : this.planOf(this.best)
      this.improve(start, all, effort)
      const isBetter = compare(this.bestScore, score) > 0 || this.bestWorth > before
      idle = isBetter ? 0 : idle + effort
      if (idle > (this.isProven() ? PATIENCE_PROVEN : this.patience())) break
    }
    return this.best
  }

  /** Seldom, where boards without waste were hardly ever found. */
  private isWholeLikely(): boolean {
    return this.canBeWhole && (this.wholeMisses < 4 + 2 * this.wholeHits || this.rng.below(60) === 0)
  }

  /** Identical boards: a sharper bound on their number. */
  private proveCount(cycle: number): void {
    const { prep, bounds } = this
    const [cls] = prep.classes
    const { objective } = prep.problem
    if (prep.classes.length !== 1 || cls.zones.length > 0 || objective === 'maxValue') return
    if (!this.isAllMade() || cls.cost <= 0 || this.reach.some((v, i) => v !== prep.demand[i])) return
    if (cycle === 0) bounds.allMade = Math.max(bounds.allMade, dualFeasibleCount(prep, cls) * cls.cost)
    if (cycle !== 2 || this.isProven()) return
    const { count, rounds } = patternBound(
      prep,
      this.bestScore.cost / cls.cost - 1e-9,
      this.options.shouldStop,
    )
    this.filler.steps += rounds
    bounds.allMade = Math.max(bounds.allMade, Math.ceil(count - 1e-6) * cls.cost)
  }

  /** A proof for a single board, or a plan that the search missed. */
  private prove(cycle: number): void {
    if (!this.isProven()) this.proveCount(cycle)
    if (this.isProven() || !this.prover.canTry) return
    const { root, weightBound, steps } = this.prover.attempt(this.bestScore.weight)
    this.filler.steps += steps
    this.bounds.weight = Math.min(this.bounds.weight, weightBound)
    if (root !== null) this.adopt([{ cls: 0, root }])
  }

  /** Many boards, or many alike: which boards and which fillings, by what parts are worth. */
  private choosePatterns(all: readonly number[]): void {
    if (this.patterns === null || this.isProven() || !this.isAllMade() || this.best.length < 2) return
    if (this.patterns === undefined) {
      this.patterns = this.makePatterns(all)
      if (this.patterns === null) return
      for (let k = 0; k < 2; k++) this.offerPatterns(this.patterns.plan(all, this.bestScore.cost))
    }
    for (let k = 0; k < EXCHANGES && !this.isOver() && !this.isProven(); k++) {
      const share = EXCHANGED_ALIKE[this.rng.below(EXCHANGED_ALIKE.length)]
      const isAlike = this.prep.classes.length === 1
      const most = isAlike ? Math.ceil(share * this.best.length) : EXCHANGED[this.rng.below(EXCHANGED.length)]
      this.offerPatterns(this.patterns.exchange(this.best, all, most))
    }
  }

  private offerPatterns(used: readonly Used[] | null): void {
    if (used !== null) this.offerBest(this.planOf(used))
  }

  /** The search by patterns, and the bound that its prices give. */
  private makePatterns(all: readonly number[]): PatternSearch | null {
    const { prep, reach, options, bounds } = this
    const { lp, shouldStop, maxSteps } = options
    const isAlike = prep.classes.length === 1
    if (lp === undefined || (!isAlike && !this.isPool())) return null
    if (this.planOf(this.best).missing.some((n) => n > 0)) return null
    const bound = new PoolBound(prep, reach, shouldStop)
    const { filler, blocks, rng } = this
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
    if (this.isProven() || !this.canBeWhole || this.prep.classes.length > MOST_WHOLE_CLASSES) return
    const all = this.prep.classes.map((c) => c.count)
    const most = Math.min(MOST_WHOLE, this.options.maxSteps / 4)
    for (const used of this.whole(all, this.reach, [], most, 3_000, 2)) this.offerBest(this.planOf(used))
  }

  /** Fills boards without waste where that can be, then the others. @param kept boards that stay */
  private whole(
    left: readonly number[],
    wanted: Int32Array,
    kept: readonly Used[],
    mostBlocks: number,
    mostPeels: number,
    most: number,
  ): Used[][] {
    const { rng } = this
    const { shouldStop } = this.options
    const found = wholeBoards(this.prep, left, wanted, most, { rng, mostBlocks, mostPeels, shouldStop })
    this.filler.steps += found.steps
    const isGood = found.sets.some((set) => set.some((u) => u.root.area > WHOLE_FILL * this.usable[u.cls]))
    if (isGood) this.wholeHits++
    else this.wholeMisses++
    return found.sets.map((set) => {
      const rest = wanted.slice()
      const boards = [...left]
      for (const u of set) {
        countParts(u.root, rest, -1)
        boards[u.cls]--
      }
      this.chooseGains()
      return [...kept, ...set, ...this.fillBoards(rest, boards, this.byPrice, 4, 0, MOST_TRIED)]
    })
  }

  /** New plans from nothing, with ever wider beams; parts that were left over count for more. */
  private rebuild(all: readonly number[], cycle: number): Plan | null {
    if (this.isProven()) return null
    if (this.isAllMade() && cycle > 2) return null
    if (this.isLarge && (cycle > 1 || this.isPool())) return null
    let fresh: Plan | null = null
    const beam = this.beamOf(cycle)
    for (let k = 0; k < 2 && !this.isOver(); k++) {
      const plan = this.build(all, beam, 0.02, this.isLarge ? 4 * MOST_TRIED : MOST_TRIED)
      this.correct(plan.missing)
      if (fresh === null || compare(plan.score, fresh.score) > 0) fresh = plan
    }
    return fresh
  }

  /** All parts are made from a small share of many boards: what counts is which boards. */
  private isPool(): boolean {
    return this.isLarge && this.isAllMade() && this.best.length * 2 < this.prep.classes.length
  }

  private beamOf(cycle: number): number {
    return Math.min(1024, 2 ** Math.min(10, 2 + cycle))
  }

  private patience(): number {
    return this.options.maxSteps === Number.POSITIVE_INFINITY ? PATIENCE : PATIENCE * 10
  }

  private isAllMade(): boolean {
    return this.bestScore.weight >= this.bounds.weight * (1 - 1e-12)
  }

  private isProven(): boolean {
    if (!this.isAllMade()) return false
    const { weight, cost } = this.bestScore
    return cost <= this.bounds.cost(weight) * (1 + 1e-12)
  }

  /** Tries to make all from sets of boards that cost less than the best plan. */
  private squeeze(effort: number, cycle: number): void {
    const used = this.prep.classes.map(() => 0)
    for (const u of this.best) used[u.cls]++
    const sets = cheaperSets(this.prep, this.usable, used, this.bestScore.cost, this.partsArea, this.rng)
    for (const left of sets) {
      if (this.isOver()) return
      const cost = this.bestScore.cost
      let start = this.build(left, this.beamOf(cycle), 0.05, MOST_TRIED)
      for (const used of this.isWholeLikely() ? this.whole(left, this.reach, [], 8_000, 3_000, 1) : []) {
        const plan = this.planOf(used)
        this.offerBest(plan)
        if (compare(plan.score, start.score) > 0) start = plan
      }
      if (this.bestScore.cost >= cost) this.improve(start, left, effort)
      if (this.bestScore.cost < cost) return
    }
  }

  /** Parts that a plan left over are hard: they gain in value. */
  private correct(missing: Int32Array): void {
    for (let i = 0; i < missing.length; i++) {
      if (missing[i] > 0) this.factor[i] = Math.min(4, this.factor[i] * (1.05 + 0.15 * this.rng.next()))
      else this.factor[i] = 1 + (this.factor[i] - 1) * 0.95
    }
  }

  /** Area, or weight, or between: by `toWeight` from 0 to 1. Never 0, so that every wanted part is tried. */
  private setGains(toWeight: number): void {
    const { prep, factor, gains } = this
    let most = 0
    let mean = 0
    for (let i = 0; i < prep.n; i++) {
      most = Math.max(most, prep.weight[i] / prep.area[i])
      mean += prep.area[i] / prep.n
    }
    // Large parts are harder to place later: they count for a little more than their area.
    const power = 0.12 * this.rng.next()
    const spread = this.bestWorth < 0 ? 0 : SPREADS[this.rng.below(SPREADS.length)]
    for (let i = 0; i < prep.n; i++) {
      const dense = most > 0 ? prep.weight[i] / prep.area[i] / most : 1
      const large = prep.area[i] * (prep.area[i] / mean) ** power
      gains[i] = (large * (1 - toWeight) + prep.area[i] * toWeight * Math.max(dense, 1e-6)) * factor[i]
      if (spread > 0) gains[i] *= 1 + spread * this.rng.next()
    }
  }

  private chooseGains(): void {
    const { objective } = this.prep.problem
    if (objective === 'maxValue') this.setGains(this.rng.next() < 0.8 ? 1 : this.rng.next())
    else if (this.bestWorth < 0 || objective !== 'parts' || this.isAllMade()) this.setGains(0)
    else this.setGains([0, 0.5, 1, 1][this.rng.below(4)])
  }

  /** Fills clear boards or sections together, the last first; null where nothing fits. */
  private fill(
    roots: readonly Root[],
    places: readonly { readonly x: number; readonly y: number }[],
    wanted: Int32Array,
    beam: number,
    jitter: number,
    byWeight: boolean,
  ): { readonly sections: readonly Section[]; readonly gain: number } | null {
    const left = this.options.maxSteps - this.steps
    if (left <= 0) return null
    const filling = this.filler.fill(roots, this.blocks, wanted, this.gains, {
      beam,
      jitter,
      ...(byWeight ? { scores: this.prep.weight } : {}),
      rng: this.rng,
      maxStates: left,
      shouldStop: this.options.shouldStop,
    })
    if (filling === null) return null
    const rects = roots.map((r, k) => ({ ...places[k], w: r.w, h: r.h, stage: r.stage }))
    return { sections: sectionsOfMoves(this.prep, rects, filling.moves), gain: filling.gain }
  }

  private rootOf(cls: number): Root {
    const { w, h, zones, allowed } = this.prep.classes[cls]
    return { w, h, stage: this.prep.rootStage, zones, allowed }
  }

  /** A plan from nothing. @param tried boards tried for each board filled */
  private build(left: readonly number[], beam: number, jitter: number, tried: number): Plan {
    this.chooseGains()
    const few = left.reduce((sum, v) => sum + v, 0) <= MOST_ROOTS
    const isTogether = few && this.bestWorth >= 0 && this.rng.below(3) > 0
    const used = isTogether
      ? this.fillTogether(left, this.reach.slice(), beam, jitter)
      : this.fillBoards(this.reach.slice(), [...left], this.byPrice, beam, jitter, tried)
    const plan = this.planOf(used)
    this.offerBest(plan)
    return plan
  }

  /** All the boards in one search, in chance order. */
  private fillTogether(left: readonly number[], wanted: Int32Array, beam: number, jitter: number): Used[] {
    const boards = left.flatMap((n, cls) => new Array<number>(n).fill(cls))
    this.shuffle(boards)
    const places = boards.map(() => ({ x: 0, y: 0 }))
    const roots = boards.map((c) => this.rootOf(c))
    const filled = this.fill(roots, places, wanted, beam, jitter, true)
    if (filled === null) return []
    return boards.map((cls, k) => ({ cls, root: filled.sections[k] })).filter((u) => u.root.parts > 0)
  }

  private planOf(used: readonly Used[]): Plan {
    const { prep } = this
    const missing = this.reach.slice()
    let cost = 0
    let pull = 0
    for (const u of used) {
      countParts(u.root, missing, -1)
      cost += prep.classes[u.cls].cost
      pull += u.root.pull
    }
    let weight = 0
    for (let i = 0; i < prep.n; i++) weight += (this.reach[i] - missing[i]) * prep.weight[i]
    return { used, missing, score: { weight, cost, pull } }
  }

  /**
   * Fills boards until nothing is wanted or nothing fits. Mutates `wanted` and `left`.
   * @param order classes, the preferred ones first
   */
  private fillBoards(
    wanted: Int32Array,
    left: number[],
    order: readonly number[],
    beam: number,
    jitter: number,
    tried: number,
  ): Used[] {
    const used: Used[] = []
    const dead = new Set<number>()
    const origin = [{ x: 0, y: 0 }]
    const isValue = this.prep.problem.objective === 'maxValue'
    for (;;) {
      const largest = this.largestWanted(wanted)
      if (largest < 0) break
      const tries = this.pick(order, left, dead, largest, tried)
      if (tries.length === 0) break
      let choice: Used | null = null
      let choiceScore = Number.NEGATIVE_INFINITY
      for (const cls of tries) {
        const filled = this.fill([this.rootOf(cls)], origin, wanted, beam, jitter, isValue)
        if (filled === null) {
          if (this.steps >= this.options.maxSteps) return used
          dead.add(cls)
          continue
        }
        const root = filled.sections[0]
        const score = this.economy(cls, filled.gain, root.area)
        if (score <= choiceScore) continue
        choiceScore = score
        choice = { cls, root }
      }
      if (choice === null) continue
      used.push(choice)
      left[choice.cls]--
      countParts(choice.root, wanted, -1)
      if (this.bestWorth >= 0 && this.isOver()) break
    }
    return used
  }

  /** Parts per price: area filled over what the board costs; free boards by how well they are filled. */
  private economy(cls: number, gain: number, filled: number): number {
    const { cost } = this.prep.classes[cls]
    const area = this.usable[cls]
    return gain / (cost + 1e-9 * (area + 1)) + (1e-3 * filled) / area
  }

  private largestWanted(wanted: Int32Array): number {
    let at = -1
    for (let i = 0; i < wanted.length; i++) {
      if (wanted[i] > 0 && (at < 0 || this.prep.area[i] > this.prep.area[at])) at = i
    }
    return at
  }

  /** Boards to try next: cheap ones, chance ones, and one that holds the largest part wanted. */
  private pick(
    order: readonly number[],
    left: readonly number[],
    dead: ReadonlySet<number>,
    largest: number,
    tried: number,
  ): number[] {
    const open = order.filter((c) => left[c] > 0 && !dead.has(c))
    if (open.length <= tried) return open
    const picks = new Set<number>([open[0]])
    const from = this.rng.below(open.length)
    for (let k = 0; k < Math.min(open.length, 50); k++) {
      const c = open[(from + k) % open.length]
      if (!this.canHold(c, largest)) continue
      picks.add(c)
      break
    }
    for (let k = 0; k < 4 * tried && picks.size < tried; k++) {
      const r = this.rng.next()
      picks.add(open[Math.floor(open.length * (open.length > 200 ? r ** 5 : r * r))])
    }
    return [...picks]
  }

  /** Offcuts worth keeping, of all boards. */
  private worthOf(used: readonly Used[]): number {
    let worth = 0
    const stack: Section[] = used.map((u) => u.root)
    for (let s = stack.pop(); s !== undefined; s = stack.pop()) {
      if (s.first !== null && s.second !== null) stack.push(s.first, s.second)
      else if (s.block === null) worth += restWorth(this.prep, s.w, s.h)
    }
    return worth
  }

  private offerBest(plan: Plan): boolean {
    const better = compare({ ...plan.score, pull: 0 }, { ...this.bestScore, pull: 0 })
    if (this.bestWorth >= 0 && better < 0) return false
    const worth = this.worthOf(plan.used)
    if (this.bestWorth >= 0 && better === 0 && worth <= this.bestWorth) return false
    this.best = plan.used
    this.bestScore = plan.score
    this.bestWorth = worth
    this.options.onBetter(this.best)
    return true
  }

  /** Late acceptance from `start`, with the boards of `left` only. */
  private improve(start: Plan, left: readonly number[], rounds: number): void {
    let current = start
    const late: Score[] = new Array(LATE).fill(start.score)
    const target = this.bestScore.cost
    const isSingle = left.reduce((sum, v) => sum + v, 0) === 1
    for (let round = 0; round < rounds && !this.isOver(); round++) {
      // A round is a step too, so that rounds in which nothing fits come to an end.
      this.filler.steps++
      if (this.rng.below(10) === 0) this.correct(current.missing)
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
    this.chooseGains()
    const share = this.isLarge && this.isAllMade() && !this.isProven() ? 1 : 3
    const isRefit = current.used.length > 0 && this.rng.below(4) < share
    if (this.rng.below(8) === 0 && this.isWholeLikely()) return this.rewhole(current, left)
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
    const taken = this.chooseBoards(current.used, isPool ? 4 : 3, isPool)
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
    const near = isPool ? Math.min(this.byPrice.length, 20 + 3 * current.used.length) : this.byPrice.length
    for (let k = 0; k < extra; k++) classes.add(this.byPrice[this.rng.below(near)])
    const order = [...classes].filter((c) => left[c] > 0)
    this.shuffle(order)
    const beam = BEAMS[this.rng.below(isPool ? POOL_BEAMS : BEAMS.length)]
    if (this.rng.below(isPool ? 6 : 3) > (isPool ? 4 : 0)) {
      const few = this.prep.classes.map(() => 0)
      for (const k of taken) few[current.used[k].cls]++
      return this.planOf([...kept, ...this.fillTogether(few, wanted, 4 * beam, 0.1 * this.rng.next())])
    }
    const tried = isPool ? 16 : this.rng.below(2) === 0 ? 1 : 4
    const again = this.fillBoards(wanted, left, order, beam, 0.2 * this.rng.next(), tried)
    return this.planOf([...kept, ...again])
  }

  /** Takes a few boards apart and looks for fillings without waste, with a board or two more to choose from. */
  private rewhole(current: Plan, limit: readonly number[]): Plan | null {
    const taken = this.chooseBoards(current.used, 5)
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
    const [used] = this.whole(few, wanted, kept, 4_000, 600, 1)
    return used === undefined ? null : this.planOf(used)
  }

  /** @param byCost the dear ones for what they yield, else the idle ones */
  private chooseBoards(used: readonly Used[], mostTaken: number, byCost = false): Set<number> {
    const bad = (u: Used): number =>
      byCost ? this.prep.classes[u.cls].cost / Math.max(1, u.root.area) : this.idleShare(u.root)
    const most = Math.min(used.length, 1 + this.rng.below(mostTaken))
    const taken = new Set<number>()
    for (let tries = 0; taken.size < most && tries < 20; tries++) {
      const a = this.rng.below(used.length)
      const b = this.rng.below(used.length)
      taken.add(bad(used[a]) > bad(used[b]) ? a : b)
    }
    return taken
  }

  private idleShare(s: Section): number {
    return 1 - s.area / (s.w * s.h)
  }

  /** Takes a few sections apart and fills them again with their own and the missing parts. */
  private refit(current: Plan): Plan | null {
    const spots = this.chooseSpots(current.used)
    if (spots.length === 0) return null
    const wanted = current.missing.slice()
    for (const s of spots) countParts(s.section, wanted, 1)
    this.shuffle(spots)
    if (this.rng.below(3) === 0) spots.sort((a, b) => b.section.w * b.section.h - a.section.w * a.section.h)
    const used = [...current.used]
    const beam = BEAMS[this.rng.below(BEAMS.length)]
    const jitter = 0.3 * this.rng.next()
    const roots = spots.map((spot) => this.partOf(used[spot.board].cls, spot.section))
    const filled = this.fill(
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
      used[spot.board] = { cls: own.cls, root: replaced(own.root, spot.path, 0, fresh) }
    })
    if (used.some((u) => u.root.parts === 0)) return this.planOf(used.filter((u) => u.root.parts > 0))
    let weight = current.score.weight
    for (let i = 0; i < missing.length; i++) {
      if (missing[i] !== current.missing[i]) weight += (current.missing[i] - missing[i]) * this.prep.weight[i]
    }
    return { used, missing, score: { weight, cost: current.score.cost, pull } }
  }

  /** A section as a board of its own. */
  private partOf(cls: number, s: Section): Root {
    const whole = this.prep.classes[cls]
    const zones = whole.zones
      .filter((z) => s.x < z.x1 && s.x + s.w > z.x0 && s.y < z.y1 && s.y + s.h > z.y0)
      .map((z) => ({ x0: z.x0 - s.x, x1: z.x1 - s.x, y0: z.y0 - s.y, y1: z.y1 - s.y, mask: z.mask }))
    return { w: s.w, h: s.h, stage: s.stage, zones, allowed: whole.allowed }
  }

  private chooseSpots(used: readonly Used[]): Spot[] {
    const most = 1 + this.rng.below(3)
    const spots: Spot[] = []
    const mostParts = 4 + this.rng.below(30)
    for (let tries = 0; spots.length < most && tries < 8; tries++) {
      const byIdle = spots.length === 0 || this.rng.below(2) === 0
      const a = this.rng.below(used.length)
      const b = this.rng.below(used.length)
      const isA = !byIdle || this.idleShare(used[a].root) > this.idleShare(used[b].root)
      const spot = this.descend(used, isA ? a : b, byIdle, mostParts)
      if (spot !== null && !spots.some((s) => overlaps(s, spot))) spots.push(spot)
    }
    return spots
  }

  /** Goes down a board by chance, towards idle wood or towards parts, until few enough parts are left. */
  private descend(used: readonly Used[], board: number, byIdle: boolean, mostParts: number): Spot | null {
    let s = used[board].root
    const path: (0 | 1)[] = []
    const idle = (q: Section): number => (byIdle ? q.w * q.h - q.area + 0.02 * q.area : q.area + 1)
    while (s.parts > mostParts && s.first !== null && s.second !== null) {
      const a = idle(s.first)
      const turn = this.rng.next() * (a + idle(s.second)) < a ? 0 : 1
      path.push(turn)
      s = turn === 0 ? s.first : s.second
    }
    return s.parts === 0 ? null : { board, path, section: s }
  }

  private shuffle<T>(list: T[]): void {
    for (let k = list.length - 1; k > 0; k--) {
      const j = this.rng.below(k + 1)
      const v = list[k]
      list[k] = list[j]
      list[j] = v
    }
  }
}

function overlaps(a: Spot, b: Spot): boolean {
  if (a.board !== b.board) return false
  const n = Math.min(a.path.length, b.path.length)
  for (let k = 0; k < n; k++) if (a.path[k] !== b.path[k]) return false
  return true
}

/** The root with one section exchanged. */
function replaced(root: Section, path: readonly (0 | 1)[], depth: number, fresh: Section): Section {
  if (depth === path.length) return fresh
  const { first, second } = root
  if (first === null || second === null) return root
  const isFirst = path[depth] === 0
  const a = isFirst ? replaced(first, path, depth + 1, fresh) : first
  const b = isFirst ? second : replaced(second, path, depth + 1, fresh)
  return joinSections(root, root.dir as 0 | 1, root.at, a, b)
}
