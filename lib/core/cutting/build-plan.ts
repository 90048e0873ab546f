/**
 * Fills boards for a plan: one after another, each time the one that yields most for its price; several in one search;
 * or first those that parts use up to the last corner. Owns the blocks, the board search and what parts gain in it.
 * In: Prepared, what is wanted, which boards may be used. Out: boards in use. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import { type Block, bulkBlocks, pairBlocks, perfectBlocks, singleBlocks } from './blocks'
import { canHold, usableArea } from './bounds'
import { BoardFiller, MOST_ROOTS } from './fill-board'
import type { Root } from './moves'
import { PartGains } from './part-gains'
import type { Prepared } from './prepared'
import { countParts, type Section, sectionsOfMoves, type Used } from './section'
import { shuffle } from './take-apart'
import { wholeBoards } from './whole-boards'

/** Boards tried for each board filled. */
export const MOST_TRIED = 8
const MOST_PAIRS = 100
const MOST_PERFECT = 600
/** Share of a board that parts cover where it counts as used up. */
const WHOLE_FILL = 0.985

export interface BuildLimits {
  readonly maxSteps: number
  readonly shouldStop: () => boolean
}

export class PlanBuilder {
  readonly filler: BoardFiller
  readonly blocks: readonly Block[]
  readonly gains: PartGains
  /** Classes, the cheapest for their area first. */
  readonly byPrice: readonly number[]
  readonly usable: Float64Array
  /** More boards than one search can fill together. */
  readonly isLarge: boolean
  /** Blocks that leave no waste are worth looking for. */
  readonly canBeWhole: boolean
  private readonly holds: Int8Array
  private wholeHits = 0
  private wholeMisses = 0

  constructor(
    private readonly prep: Prepared,
    reach: Int32Array,
    private readonly rng: Rng,
    private readonly options: BuildLimits,
  ) {
    this.filler = new BoardFiller(prep)
    const singles = singleBlocks(prep).filter((b) => reach[b.item] > 0)
    this.blocks = [
      ...singles,
      ...bulkBlocks(prep, singles),
      ...perfectBlocks(prep, singles, MOST_PERFECT, 40 * MOST_PERFECT),
      ...pairBlocks(prep, singles, 0.95, MOST_PAIRS),
    ]
    this.gains = new PartGains(prep, rng)
    this.usable = Float64Array.from(prep.classes, usableArea)
    this.byPrice = prep.classes
      .map((c) => c.index)
      .sort((a, b) => this.price(a) - this.price(b) || this.usable[b] - this.usable[a])
    this.holds = new Int8Array(prep.n * prep.classes.length).fill(-1)
    this.isLarge = prep.classes.reduce((sum, c) => sum + c.count, 0) > MOST_ROOTS
    this.canBeWhole = prep.stages === Number.POSITIVE_INFINITY && prep.problem.objective !== 'maxValue'
  }

  private price(cls: number): number {
    return this.prep.classes[cls].cost / Math.max(1, this.usable[cls])
  }

  private canHold(cls: number, item: number): boolean {
    const at = cls * this.prep.n + item
    if (this.holds[at] < 0) this.holds[at] = canHold(this.prep, this.prep.classes[cls], item) ? 1 : 0
    return this.holds[at] === 1
  }

  isOver(): boolean {
    return this.filler.steps >= this.options.maxSteps || this.options.shouldStop()
  }

  /** Seldom, where boards without waste were hardly ever found. */
  isWholeLikely(): boolean {
    return this.canBeWhole && (this.wholeMisses < 4 + 2 * this.wholeHits || this.rng.below(60) === 0)
  }

  /** Fills boards without waste where that can be, then the others. @param kept boards that stay */
  whole(
    left: readonly number[],
    wanted: Int32Array,
    kept: readonly Used[],
    mostBlocks: number,
    mostPeels: number,
    most: number,
    isAllMade: boolean,
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
      this.gains.choose(isAllMade)
      return [...kept, ...set, ...this.fillBoards(rest, boards, this.byPrice, 4, 0, MOST_TRIED)]
    })
  }

  /** Fills clear boards or sections together, the last first; null where nothing fits. */
  fill(
    roots: readonly Root[],
    places: readonly { readonly x: number; readonly y: number }[],
    wanted: Int32Array,
    beam: number,
    jitter: number,
    byWeight: boolean,
  ): { readonly sections: readonly Section[]; readonly gain: number } | null {
    const left = this.options.maxSteps - this.filler.steps
    if (left <= 0) return null
    const filling = this.filler.fill(roots, this.blocks, wanted, this.gains.values, {
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

  rootOf(cls: number): Root {
    const { w, h, zones, allowed } = this.prep.classes[cls]
    return { w, h, stage: this.prep.rootStage, zones, allowed }
  }

  /** All the boards in one search, in chance order. */
  fillTogether(left: readonly number[], wanted: Int32Array, beam: number, jitter: number): Used[] {
    const boards = left.flatMap((n, cls) => new Array<number>(n).fill(cls))
    shuffle(this.rng, boards)
    const places = boards.map(() => ({ x: 0, y: 0 }))
    const roots = boards.map((c) => this.rootOf(c))
    const filled = this.fill(roots, places, wanted, beam, jitter, true)
    if (filled === null) return []
    return boards.map((cls, k) => ({ cls, root: filled.sections[k] })).filter((u) => u.root.parts > 0)
  }

  /**
   * Fills boards until nothing is wanted or nothing fits. Mutates `wanted` and `left`.
   * @param order classes, the preferred ones first
   */
  fillBoards(
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
          if (this.filler.steps >= this.options.maxSteps) return used
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
      if (this.gains.hasPlan && this.isOver()) break
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
}
