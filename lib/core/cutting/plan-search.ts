/**
 * Search over whole plans: build one board by board, then take a few boards apart and fill them again, keep what is
 * better (large neighbourhood search, Shaw 1998). Parts that were left over gain in value for the next build
 * (sequential value correction, Mukhacheva 1967; Belov and Scheithauer 2007).
 * In: Prepared, bounds, limits. Out: the boards used and their fillings. Score: weight made, then cost, then rests.
 * Tests: tests/core/cutting/plan-cuts.test.ts
 */
import { type Rng, seededRng } from '#lib/core/units/rng'
import { type Block, bulkBlocks, pairBlocks, singleBlocks } from './blocks'
import { canHold, usableArea } from './bounds'
import { BoardFiller, type Filling } from './fill-board'
import type { BoardClass, Prepared } from './prepared'

export interface Used {
  /** Index of the board class. */
  readonly cls: number
  readonly filling: Filling
}

export interface SearchOptions {
  readonly seed: number
  readonly maxSteps: number
  readonly shouldStop: () => boolean
  readonly onBetter: (used: readonly Used[]) => void
}

interface Score {
  weight: number
  cost: number
  /** Offcuts worth keeping. */
  worth: number
  /** Offcuts, and rests gathered on few boards: what the walk follows. */
  pull: number
}

const MOST_PAIRS = 400
const BEAMS = [1, 1, 2, 2, 4, 4, 8, 16, 32]
/** Rounds without a better plan after which a search without a step limit ends. */
const PATIENCE = 2_000
/** The same, once weight and cost are proven: only offcuts can still improve. */
const PATIENCE_PROVEN = 150
const MOST_TRIED = 8

const isBetter = (a: Score, b: Score, last: 'worth' | 'pull'): number => {
  const tiny = 1e-9 * Math.max(1, Math.abs(a.weight), Math.abs(b.weight))
  if (Math.abs(a.weight - b.weight) > tiny) return a.weight - b.weight
  if (Math.abs(a.cost - b.cost) > 1e-9 * Math.max(1, a.cost, b.cost)) return b.cost - a.cost
  return a[last] - b[last]
}

export class PlanSearch {
  private readonly prep: Prepared
  private readonly reach: Int32Array
  private readonly bounds: { readonly weight: number; readonly cost: (weight: number) => number }
  private readonly options: SearchOptions
  private readonly rng: Rng
  private readonly filler: BoardFiller
  private readonly blocks: readonly Block[]
  /** Value correction, blank by blank. */
  private readonly factor: Float64Array
  private readonly gains: Float64Array
  private readonly byPrice: readonly number[]
  private readonly usable: Float64Array
  private readonly holds: Int8Array
  private best: Used[] = []
  private bestScore: Score = { weight: 0, cost: 0, worth: 0, pull: 0 }
  private hasBest = false

  constructor(
    prep: Prepared,
    reach: Int32Array,
    bounds: { readonly weight: number; readonly cost: (weight: number) => number },
    options: SearchOptions,
  ) {
    this.prep = prep
    this.reach = reach
    this.bounds = bounds
    this.options = options
    this.rng = seededRng(options.seed)
    this.filler = new BoardFiller(prep)
    const singles = singleBlocks(prep).filter((b) => reach[b.item] > 0)
    this.blocks = [...singles, ...bulkBlocks(prep, singles), ...pairBlocks(prep, singles, 0.95, MOST_PAIRS)]
    this.factor = new Float64Array(prep.n).fill(1)
    this.gains = new Float64Array(prep.n)
    this.usable = Float64Array.from(prep.classes, usableArea)
    this.byPrice = prep.classes
      .map((c) => c.index)
      .sort((a, b) => this.price(a) - this.price(b) || this.usable[b] - this.usable[a])
    this.holds = new Int8Array(prep.n * prep.classes.length).fill(-1)
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

  /** @returns the best plan found; empty where no part fits any board */
  run(): readonly Used[] {
    if (this.blocks.length === 0) return []
    let current = this.build(1, 0, 4)
    this.offerBest(current)
    const rounds = this.prep.classes.length > 60 ? 1 : 6
    for (let r = 0; r < rounds && !this.isOver() && !this.isProven(); r++) {
      this.correct(current)
      const next = this.build(2 ** (r + 1), 0.02, MOST_TRIED)
      this.offerBest(next)
      if (isBetter(this.scoreOf(next), this.scoreOf(current), 'pull') >= 0) current = next
    }
    this.improve(this.best)
    return this.best
  }

  private isProven(): boolean {
    const { weight, cost } = this.bestScore
    if (weight < this.bounds.weight * (1 - 1e-12)) return false
    return cost <= this.bounds.cost(weight) * (1 + 1e-12)
  }

  /** Parts that the plan left over are hard: they gain in value. */
  private correct(used: readonly Used[]): void {
    const missing = this.missingOf(used)
    for (let i = 0; i < missing.length; i++) {
      if (missing[i] > 0) this.factor[i] = Math.min(4, this.factor[i] * (1.1 + 0.2 * this.rng.next()))
    }
  }

  /** Area, or weight, or between: by `toWeight` from 0 to 1. Never 0, so that every wanted part is tried. */
  private setGains(toWeight: number): void {
    const { prep, factor, gains } = this
    let most = 0
    for (let i = 0; i < prep.n; i++) most = Math.max(most, prep.weight[i] / prep.area[i])
    for (let i = 0; i < prep.n; i++) {
      const dense = most > 0 ? prep.weight[i] / prep.area[i] / most : 1
      gains[i] = prep.area[i] * (1 - toWeight + toWeight * Math.max(dense, 1e-6)) * factor[i]
    }
  }

  private chooseGains(): void {
    const { objective } = this.prep.problem
    const isAllMade = this.hasBest && this.bestScore.weight >= this.bounds.weight * (1 - 1e-12)
    if (objective === 'maxValue') this.setGains(this.rng.next() < 0.8 ? 1 : this.rng.next())
    else if (isAllMade || !this.hasBest) this.setGains(0)
    else this.setGains([0, 0, 0.5, 1][this.rng.below(4)])
  }

  private fill(cls: number, wanted: Int32Array, beam: number, jitter: number): Filling | null {
    const left = this.options.maxSteps - this.steps
    if (left <= 0) return null
    return this.filler.fill(this.prep.classes[cls], this.blocks, wanted, this.gains, {
      beam,
      jitter,
      rng: this.rng,
      maxStates: left,
      shouldStop: this.options.shouldStop,
    })
  }

  /** A plan from nothing. @param tried boards tried for each board filled */
  private build(beam: number, jitter: number, tried: number): Used[] {
    this.chooseGains()
    const wanted = this.reach.slice()
    const left = this.prep.classes.map((c) => c.count)
    return this.fillBoards(wanted, left, this.byPrice, beam, jitter, tried)
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
    for (;;) {
      const rest = this.largestWanted(wanted)
      if (rest < 0) break
      const tries = this.pick(order, left, dead, rest, tried)
      if (tries.length === 0) break
      let choice: Used | null = null
      let choiceScore = Number.NEGATIVE_INFINITY
      for (const cls of tries) {
        const filling = this.fill(cls, wanted, beam, jitter)
        if (filling === null) {
          if (this.steps >= this.options.maxSteps) return used
          dead.add(cls)
          continue
        }
        const score = this.economy(cls, filling)
        if (score <= choiceScore) continue
        choiceScore = score
        choice = { cls, filling }
      }
      if (choice === null) continue
      used.push(choice)
      left[choice.cls]--
      choice.filling.items.forEach((i, k) => {
        wanted[i] -= choice.filling.counts[k]
      })
      if (used.length > 1 && this.hasBest && this.isOver()) break
    }
    return used
  }

  /** Parts per price: area filled over what the board costs; free boards by how well they are filled. */
  private economy(cls: number, filling: Filling): number {
    const { cost } = this.prep.classes[cls]
    const area = this.usable[cls]
    return filling.gain / (cost + 1e-9 * (area + 1)) + (1e-3 * filling.area) / area
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
      picks.add(open[Math.floor(open.length * r * r)])
    }
    return [...picks]
  }

  private missingOf(used: readonly Used[]): Int32Array {
    const missing = this.reach.slice()
    for (const u of used) {
      u.filling.items.forEach((i, k) => {
        missing[i] -= u.filling.counts[k]
      })
    }
    return missing
  }

  private scoreOf(used: readonly Used[]): Score {
    const { prep } = this
    const score: Score = { weight: 0, cost: 0, worth: 0, pull: 0 }
    for (const u of used) {
      const cls = prep.classes[u.cls]
      score.cost += cls.cost
      score.worth += u.filling.worth
      const idle = Math.max(0, cls.w * cls.h - u.filling.area) * 1e-12
      score.pull += u.filling.worth + 0.3 * idle * Math.sqrt(idle)
      for (let k = 0; k < u.filling.items.length; k++) {
        score.weight += u.filling.counts[k] * prep.weight[u.filling.items[k]]
      }
    }
    return score
  }

  private offerBest(used: readonly Used[]): boolean {
    const score = this.scoreOf(used)
    if (this.hasBest && isBetter(score, this.bestScore, 'worth') <= 0) return false
    this.hasBest = true
    this.best = [...used]
    this.bestScore = score
    this.options.onBetter(this.best)
    return true
  }

  private improve(start: readonly Used[]): void {
    let current = [...start]
    let currentScore = this.scoreOf(current)
    let idle = 0
    let round = 0
    const isSingle = this.prep.classes.length === 1 && this.prep.classes[0].count === 1
    while (!this.isOver()) {
      const patience = this.isProven()
        ? PATIENCE_PROVEN
        : this.options.maxSteps === Number.POSITIVE_INFINITY
          ? PATIENCE
          : PATIENCE * 50
      if (++idle > patience) break
      if (currentScore.weight < this.bounds.weight && this.rng.below(20) === 0) this.correct(current)
      const next = isSingle ? this.again(++round) : this.remix(current)
      const score = this.scoreOf(next)
      if (isBetter(score, currentScore, 'pull') < 0) continue
      current = next
      currentScore = score
      if (this.offerBest(next)) idle = 0
    }
  }

  /** One board alone: the same search, ever wider. */
  private again(round: number): Used[] {
    const beam = 2 ** Math.min(12, 1 + Math.floor(Math.log2(1 + round) * 1.7))
    return this.build(beam, round % 2 === 0 ? 0.05 : 0.15 * this.rng.next(), 1)
  }

  /** Takes a few boards apart and fills them again, with a board or two more to choose from. */
  private remix(current: readonly Used[]): Used[] {
    this.chooseGains()
    const taken = this.choose(current)
    const kept = current.filter((_, k) => !taken.has(k))
    const wanted = this.missingOf(kept)
    const left = this.prep.classes.map((c) => c.count)
    for (const u of kept) left[u.cls]--
    const classes = new Set<number>()
    for (const k of taken) classes.add(current[k].cls)
    const extra = this.rng.below(3)
    for (let k = 0; k < extra; k++) {
      const r = this.rng.next()
      classes.add(this.byPrice[Math.floor(this.byPrice.length * r)])
    }
    const order = [...classes]
    this.shuffle(order)
    const beam = BEAMS[this.rng.below(BEAMS.length)]
    const tried = this.rng.below(2) === 0 ? 1 : 4
    const again = this.fillBoards(wanted, left, order, beam, 0.2 * this.rng.next(), tried)
    return [...kept, ...again]
  }

  private choose(current: readonly Used[]): Set<number> {
    const most = Math.min(current.length, 1 + this.rng.below(4))
    const taken = new Set<number>()
    for (let tries = 0; taken.size < most && tries < 20; tries++) {
      const a = this.rng.below(current.length)
      const b = this.rng.below(current.length)
      taken.add(this.idleShare(current[a]) > this.idleShare(current[b]) ? a : b)
    }
    return taken
  }

  private idleShare(u: Used): number {
    const cls: BoardClass = this.prep.classes[u.cls]
    return 1 - u.filling.area / (cls.w * cls.h)
  }

  private shuffle(list: number[]): void {
    for (let k = list.length - 1; k > 0; k--) {
      const j = this.rng.below(k + 1)
      const v = list[k]
      list[k] = list[j]
      list[j] = v
    }
  }
}
