/**
 * Boards filled with next to no waste: blocks that use their rectangle up (whole-blocks.ts) are peeled off a board's
 * sides, full length or full width at a time, until a block fits exactly or a small rest with the board's defects is
 * left. Then fillings of different boards that share no part are chosen together, the boards with least choice first.
 * In: Prepared without a limit of stages, boards, what is wanted. Out: filled boards. No promise that they are the best.
 * Cost: one step a block or rectangle looked at. Tests: tests/core/cutting/whole-boards.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Block } from './blocks'
import { blockedWithin } from './bounds'
import { blocker, zonesTouch } from './dodge'
import type { BoardClass, Prepared } from './prepared'
import { canCrosscut, canRip } from './saw-limits'
import { blockSection, cutSection, type Rect, restSection, type Section } from './section'
import { blockOf, type Whole, type WholeBlocks, wholeBlocks } from './whole-blocks'

/**
 * A block taken off one side (0 left, 1 right, 2 below, 3 above), or one that is just the rectangle (4); no block: a
 * crosscut (5) or rip (6) in two, `at` from the corner, or a rest (7).
 */
interface Peel {
  readonly whole: Whole | null
  readonly block: Block | null
  readonly side: 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7
  readonly at: number
}
const REST: Peel = { whole: null, block: null, side: 7, at: 0 }

interface Filling {
  readonly cls: number
  readonly peels: readonly Peel[]
  readonly counts: ReadonlyMap<number, number>
  readonly area: number
  /** Wood wasted that no defect takes. */
  readonly loss: number
}

export interface WholeBoard {
  readonly cls: number
  readonly root: Section
}

export interface WholeOptions {
  readonly rng: Rng
  /** Most blocks made. */
  readonly mostBlocks: number
  /** Most rectangles looked at, board by board. */
  readonly mostPeels: number
  readonly shouldStop: () => boolean
}

/** Largest share of a board that a rest may waste. */
const MOST_LOSS = 0.12
const MOST_FILLINGS = 60
const MOST_DEPTH = 16
const MOST_PENDING = 3
/** Times that a board is peeled, in other orders, and the chance each time that a piece with defects is cut in two. */
const ROUNDS = 6
const PARTING = [0.05, 1, 0.3]
/** Choices of fillings tried. */
const TRIES = 24
/** Shares of a board that a filling may waste, the strictest first. */
const TIERS = [0, 0.005, 0.03, MOST_LOSS]

interface Box {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

class Peeler {
  steps = 0
  private peels: Peel[] = []
  private readonly blocks = new Map<Whole, Block | null>()
  private readonly sorted = new Map<readonly Whole[], readonly Whole[]>()
  private left: Int32Array
  /** Lengths and widths that blocks have. */
  private readonly sizes: readonly [readonly number[], readonly number[]]
  private found = new Map<string, Filling>()
  private area = 0
  private loss = 0
  /** Rectangles that wait. */
  private readonly open: Box[] = []
  private cls: BoardClass
  private budget = 0
  private mostLoss = 0
  private skips = 0
  private parting = 0
  constructor(
    private readonly prep: Prepared,
    private readonly wholes: WholeBlocks,
    wanted: Int32Array,
    private readonly rng: Rng,
    private readonly shouldStop: () => boolean,
  ) {
    this.left = wanted.slice()
    this.sizes = [[...wholes.byLength.keys()], [...wholes.byHeight.keys()]]
    this.cls = prep.classes[0]
  }

  fillings(cls: BoardClass, mostPeels: number): Filling[] {
    this.cls = cls
    this.found = new Map()
    this.mostLoss = MOST_LOSS * cls.w * cls.h
    const isFlawed = cls.zones.length > 1
    for (let round = 0; round < ROUNDS; round++) {
      this.sorted.clear()
      this.budget = mostPeels / ROUNDS
      this.skips = round === 0 ? 0 : 0.25
      this.parting = isFlawed ? PARTING[round % PARTING.length] : 0
      this.peel(0, 0, cls.w, cls.h, -1)
      if (this.budget > 0 && round === 0 && !isFlawed) break
      if (this.shouldStop()) break
    }
    return [...this.found.values()].sort((a, b) => a.loss - b.loss || b.area - a.area).slice(0, MOST_FILLINGS)
  }

  private peel(x: number, y: number, w: number, h: number, last: number): void {
    if (this.budget-- <= 0) return
    this.steps++
    if ((this.steps & 63) === 0 && this.shouldStop()) this.budget = 0
    const { cls, prep } = this
    const touches = cls.zones.length > 0 && zonesTouch(cls.zones, x, y, w, h)
    if (this.peels.length > 0) this.leave(x, y, w, h, touches)
    if (this.peels.length >= MOST_DEPTH) return
    if (canCrosscut(prep, w, h)) this.peelOff(x, y, w, h, 0, touches, last)
    this.peelOff(x, y, w, h, 1, touches, last)
    if (touches && this.open.length < MOST_PENDING && this.rng.next() < this.parting) this.part(x, y, w, h)
  }

  /** The rectangle becomes a rest. */
  private leave(x: number, y: number, w: number, h: number, touches: boolean): void {
    const loss = w * h - (touches ? blockedWithin(this.cls, x, y, w, h) : 0)
    if (this.loss + loss > this.mostLoss) return
    this.peels.push(REST)
    this.loss += loss
    this.next()
    this.loss -= loss
    this.peels.pop()
  }

  /** On with the rectangle that waits, or the board is done. */
  private next(): void {
    const r = this.open.pop()
    if (r === undefined) {
      this.record()
      return
    }
    this.peel(r.x, r.y, r.w, r.h, -1)
    this.open.push(r)
  }

  /** Defects apart from one another: a cut between them at the edge of a block that lies in a corner. */
  private part(x: number, y: number, w: number, h: number): void {
    for (let dir = 0 as 0 | 1; dir < 2; dir++) {
      const cuts = this.cutsApart(x, y, w, h, dir as 0 | 1)
      this.budget -= cuts.length / 4
      for (const at of cuts) {
        if (this.budget <= 0) return
        const one = dir === 0 ? { x, y, w: at, h } : { x, y, w, h: at }
        const two = dir === 0 ? { x: x + at, y, w: w - at, h } : { x, y: y + at, w, h: h - at }
        if (dir === 0 ? !canCrosscut(this.prep, w, h) : !canRip(this.prep, w, h, at)) continue
        this.peels.push({ whole: null, block: null, side: dir === 0 ? 5 : 6, at })
        this.open.push(two)
        this.peel(one.x, one.y, one.w, one.h, -1)
        this.open.pop()
        this.peels.pop()
      }
    }
  }

  /** Where blocks end that start at either end, with defects on both sides and none cut through. */
  private cutsApart(x: number, y: number, w: number, h: number, dir: 0 | 1): number[] {
    const from = dir === 0 ? x : y
    const span = dir === 0 ? w : h
    const spans = this.cls.zones
      .filter((z) => x < z.x1 && x + w > z.x0 && y < z.y1 && y + h > z.y0)
      .map((z) => (dir === 0 ? [z.x0 - from, z.x1 - from] : [z.y0 - from, z.y1 - from]))
    const least = Math.min(...spans.map((s) => s[1]))
    const most = Math.max(...spans.map((s) => s[0]))
    if (least > most) return []
    const cuts = new Set<number>()
    const sizes = this.sizes[dir]
    this.budget -= sizes.length / 64
    for (let k = 0; k < sizes.length; k++) {
      for (const at of [sizes[k], span - sizes[k]]) {
        if (at >= least && at <= most && at > 0 && at < span && spans.every((s) => s[0] >= at || s[1] <= at))
          cuts.add(at)
      }
    }
    return [...cuts]
  }

  /** @param dir 0: pieces of full height, crosscut off; 1: of full length, ripped off */
  private peelOff(
    x: number,
    y: number,
    w: number,
    h: number,
    dir: 0 | 1,
    touches: boolean,
    last: number,
  ): void {
    const list = this.listOf(dir === 0 ? this.wholes.byHeight.get(h) : this.wholes.byLength.get(w))
    const span = dir === 0 ? w : h
    const before = last < 0 ? 0 : (this.peels[this.peels.length - 1].whole?.parts.length ?? 0)
    this.budget -= list.length / 64
    for (let k = 0; k < list.length; k++) {
      if (this.budget <= 0) return
      if (this.skips > 0 && this.rng.next() < this.skips) continue
      const b = list[k]
      const size = dir === 0 ? b.w : b.h
      if (size > span || (size === span && dir === 1)) continue
      // Two in a row the same way are one block, if that block was made.
      if (!touches && last === dir && b.parts.length + before <= this.wholes.completeTo) continue
      if (!this.isAvailable(b)) continue
      const block = this.blockFor(b)
      if (block === null) continue
      if (size === span) {
        if (!touches || blocker(this.cls.zones, block, x, y) === null)
          this.place(b, block, 4, () => this.next())
        continue
      }
      if (dir === 1 && !canRip(this.prep, w, h, size)) continue
      const [dx, dy] = dir === 0 ? [size, 0] : [0, size]
      if (!touches || blocker(this.cls.zones, block, x, y) === null) {
        this.place(b, block, dir === 0 ? 0 : 2, () => this.peel(x + dx, y + dy, w - dx, h - dy, dir))
      }
      if (!touches) continue
      if (blocker(this.cls.zones, block, x + w - b.w, y + h - b.h) === null) {
        this.place(b, block, dir === 0 ? 1 : 3, () => this.peel(x, y, w - dx, h - dy, dir))
      }
    }
  }

  private place(whole: Whole, block: Block, side: Peel['side'], then: () => void): void {
    for (const i of whole.parts) this.left[i]--
    this.peels.push({ whole, block, side, at: 0 })
    this.area += block.area
    then()
    this.area -= block.area
    this.peels.pop()
    for (const i of whole.parts) this.left[i]++
  }

  private record(): void {
    const { loss } = this
    const counts = new Map<number, number>()
    for (const p of this.peels) for (const i of p.whole?.parts ?? []) counts.set(i, (counts.get(i) ?? 0) + 1)
    const key = [...counts].sort((a, b) => a[0] - b[0]).join(' ')
    const known = this.found.get(key)
    if (known !== undefined && known.loss <= loss) return
    this.found.set(key, { cls: this.cls.index, peels: [...this.peels], counts, area: this.area, loss })
  }

  private isAvailable(b: Whole): boolean {
    const { left, cls } = this
    const { parts } = b
    let run = 0
    for (let k = 0; k < parts.length; k++) {
      run = k > 0 && parts[k] === parts[k - 1] ? run + 1 : 1
      if (left[parts[k]] < run) return false
      if (cls.allowed !== null && cls.allowed[parts[k]] === 0) return false
    }
    return true
  }

  private blockFor(b: Whole): Block | null {
    let block = this.blocks.get(b)
    if (block === undefined) {
      block = blockOf(this.prep, b)
      this.blocks.set(b, block)
    }
    return block
  }

  /** The large ones first, more or less. */
  private listOf(list: readonly Whole[] | undefined): readonly Whole[] {
    if (list === undefined) return []
    let sorted = this.sorted.get(list)
    if (sorted === undefined) {
      const keyed = list.map((b) => ({ b, key: b.w * b.h * (0.5 + this.rng.next()) }))
      sorted = keyed.sort((a, b) => b.key - a.key).map((k) => k.b)
      this.sorted.set(list, sorted)
    }
    return sorted
  }
}

/** The board's section: the peels in the order in which they were found. */
function sectionOf(prep: Prepared, r: Rect, peels: readonly Peel[]): Section {
  let at = 0
  const rest = (q: Rect): Section => {
    const p = peels[at++]
    if (p === undefined || p.side === 7) return restSection(prep, q)
    const { block, side } = p
    if (block === null) return cutSection(q, side === 5 ? 0 : 1, p.at, rest, rest)
    const own = (o: Rect): Section => blockSection(o, block)
    if (side === 4) return own(q)
    const dir = side < 2 ? 0 : 1
    const size = dir === 0 ? block.w : block.h
    if (side === 0 || side === 2) return cutSection(q, dir, size, own, rest)
    return cutSection(q, dir, (dir === 0 ? q.w : q.h) - size, rest, own)
  }
  return rest(r)
}

/** Chooses fillings that share no part. */
class Chooser {
  constructor(
    private readonly prep: Prepared,
    private readonly byClass: ReadonlyMap<number, readonly Filling[]>,
    private readonly wanted: Int32Array,
    private readonly counts: readonly number[],
    private readonly rng: Rng,
  ) {}

  /** @param mostLoss share of the board that a filling may waste */
  choose(mostLoss: number, chance: number): Filling[] {
    const left = this.wanted.slice()
    const boards = [...this.counts]
    const chosen: Filling[] = []
    let open = [...this.byClass]
      .map(([cls, list]) => ({ cls, list: list.filter((f) => f.loss <= mostLoss * this.sizeOf(cls)) }))
      .filter((o) => o.list.length > 0)
    while (open.length > 0) {
      for (const o of open) o.list = o.list.filter((f) => isOpen(f, left))
      open = open.filter((o) => o.list.length > 0 && boards[o.cls] > 0)
      if (open.length === 0) break
      const next = this.tightest(open, chance)
      const f = next.list[chance > 0 ? Math.floor(next.list.length * this.rng.next() ** 3) : 0]
      chosen.push(f)
      boards[f.cls]--
      for (const [i, n] of f.counts) left[i] -= n
    }
    return chosen
  }

  private sizeOf(cls: number): number {
    return this.prep.classes[cls].w * this.prep.classes[cls].h
  }

  /** The board with least choice; by chance one that is nearly so. */
  private tightest<T extends { readonly list: readonly Filling[] }>(open: readonly T[], chance: number): T {
    let best = open[0]
    let least = Number.POSITIVE_INFINITY
    for (const o of open) {
      const key = (o.list.length + 2 * (o.list[0].loss > 0 ? 1 : 0)) * (1 + chance * this.rng.next())
      if (key >= least) continue
      least = key
      best = o
    }
    return best
  }
}

function isOpen(f: Filling, left: Int32Array): boolean {
  for (const [i, n] of f.counts) if (left[i] < n) return false
  return true
}

/** One after the other: blocks of what is left, fillings, a choice among them, until no board is filled well. */
class WholeFinder {
  steps = 0
  constructor(
    private readonly prep: Prepared,
    private readonly options: WholeOptions,
  ) {}

  /** The fullest first. */
  choices(counts: readonly number[], wanted: Int32Array, isFirst: boolean): Filling[][] {
    const { prep, options } = this
    const { shouldStop, rng } = options
    const open = prep.classes.filter((c) => counts[c.index] > 0)
    const most = options.mostBlocks
    const limits = { most, mostTries: most * 400, fits: fitsAny(open), shouldStop }
    const wholes = wholeBlocks(prep, wanted, limits)
    const peeler = new Peeler(prep, wholes, wanted, rng, shouldStop)
    const byClass = new Map<number, readonly Filling[]>()
    for (const cls of open) {
      if (shouldStop()) break
      const fillings = peeler.fillings(cls, options.mostPeels)
      if (fillings.length > 0) byClass.set(cls.index, fillings)
    }
    this.steps += wholes.count + peeler.steps
    const chooser = new Chooser(prep, byClass, wanted, counts, rng)
    const sets = new Map<string, { chosen: Filling[]; area: number }>()
    for (let k = 0; k < TRIES && byClass.size > 0; k++) {
      const tier = k & 3
      if (tier > 1 && sets.size > 0) continue
      if (tier === 3 && !isFirst) continue
      const chosen = chooser.choose(TIERS[tier], k < 4 ? 0 : 0.8)
      const area = chosen.reduce((sum, f) => sum + f.area, 0)
      const key = `${chosen.length} ${area}`
      if (chosen.length > 0 && !sets.has(key)) sets.set(key, { chosen, area })
    }
    return [...sets.values()].sort((x, y) => y.area - x.area).map((s) => s.chosen)
  }

  /** Goes on from a first choice. */
  goOn(counts: readonly number[], wanted: Int32Array, first: readonly Filling[]): Filling[] {
    const all: Filling[] = []
    const boards = [...counts]
    const left = wanted.slice()
    let chosen = first
    while (chosen.length > 0) {
      all.push(...chosen)
      for (const f of chosen) {
        boards[f.cls]--
        for (const [i, n] of f.counts) left[i] -= n
      }
      if (this.options.shouldStop()) break
      chosen = this.choices(boards, left, false)[0] ?? []
    }
    return all
  }
}

/**
 * @param counts how many of each class may be used
 * @param wanted how many of each blank
 * @param most how many sets are made
 * @returns sets of filled boards; and the steps taken
 */
export function wholeBoards(
  prep: Prepared,
  counts: readonly number[],
  wanted: Int32Array,
  most: number,
  options: WholeOptions,
): { readonly sets: readonly (readonly WholeBoard[])[]; readonly steps: number } {
  const finder = new WholeFinder(prep, options)
  const firsts = finder.choices(counts, wanted, true)
  const board = (f: Filling): WholeBoard => {
    const { w, h } = prep.classes[f.cls]
    return { cls: f.cls, root: sectionOf(prep, { x: 0, y: 0, w, h, stage: 0 }, f.peels) }
  }
  const sets = firsts.slice(0, most).map((first) => finder.goOn(counts, wanted, first).map(board))
  return { sets, steps: finder.steps }
}

/** Whether some of the boards takes a size. */
export function fitsAny(open: readonly BoardClass[]): (w: number, h: number) => boolean {
  const largest = open
    .filter(
      (c) =>
        !open.some(
          (d) => d !== c && d.w >= c.w && d.h >= c.h && (d.w > c.w || d.h > c.h || d.index < c.index),
        ),
    )
    .map((c) => [c.w, c.h] as const)
  return (w, h) => {
    for (const [bw, bh] of largest) if (w <= bw && h <= bh) return true
    return false
  }
}
