/**
 * One clear board, solved exactly: which multisets of parts can be cut from which rectangles. Every multiset keeps its
 * smallest rectangles (none both shorter and narrower than another); two multisets join side by side or one above the
 * other. What cannot lead to `target` any more is dropped: by the wood that it wastes inside, the strips beside it
 * that no sum of parts fills, and the most that the remaining parts could add (fractional knapsack over the area).
 * So a table that ends without a rectangle that fits the board proves that the target cannot be reached.
 * Method: bottom-up with bounds (Wang 1983; Viswanathan and Bagchi 1993), on Pareto lists of whole multisets.
 * In: Prepared without machine limits, the board. Out: a best section, or a proof, or neither. One step a multiset.
 * Cost: pairs of multisets; refused above limits. Tests: tests/core/cutting/block-table.test.ts
 */
import { type Block, singleBlocks } from './blocks'
import type { BoardClass, Prepared } from './prepared'
import { blockSection, cutSection, type Rect, restSection, type Section } from './section'
import { gcd, largestSums } from './subset-sums'

export interface TableOptions {
  /** Least weight asked for. */
  readonly target: number
  /** Whether more than the target is of no use. */
  readonly isTargetEnough: boolean
  readonly mostSets: number
  /** Most pairs of multisets looked at. */
  readonly mostPairs: number
  readonly shouldStop: () => boolean
}

export interface TableAnswer {
  /** Heaviest that fits the board, of those at or above the target. */
  readonly section: Section | null
  readonly weight: number
  /** Nothing was left out: where there is no section, nothing reaches the target. */
  readonly isComplete: boolean
  readonly steps: number
}

/** A rectangle that holds a multiset, and how it came about. */
interface Shape {
  readonly w: number
  readonly h: number
  readonly dir: 0 | 1
  readonly first: Shape | null
  readonly second: Shape | null
  readonly block: Block | null
}

/** A multiset: how many of each kind, packed into two words with a guard bit above each digit. */
interface Multiset {
  readonly lo: number
  readonly hi: number
  readonly size: number
  readonly area: number
  readonly weight: number
  /** From the shortest and widest to the longest and narrowest. */
  shapes: Shape[]
}

/** Bits of a word: two of them make an exact key. */
const WORD = 26
const GRID = 4_096

interface Digits {
  readonly word: Uint8Array
  readonly shift: Uint8Array
  readonly biasLo: number
  readonly biasHi: number
  readonly guardLo: number
  readonly guardHi: number
}

/** Where each kind's digit lies; null where two words are not enough. */
function digitsFor(demand: readonly number[]): Digits | null {
  const word = new Uint8Array(demand.length)
  const shift = new Uint8Array(demand.length)
  const used = [0, 0]
  const bias = [0, 0]
  const guard = [0, 0]
  for (let k = 0; k < demand.length; k++) {
    const bits = Math.ceil(Math.log2(demand[k] + 1)) + 1
    const at = used[0] + bits <= WORD ? 0 : 1
    if (used[at] + bits > WORD) return null
    word[k] = at
    shift[k] = used[at]
    bias[at] += (2 ** (bits - 1) - 1 - demand[k]) * 2 ** used[at]
    guard[at] += 2 ** (used[at] + bits - 1)
    used[at] += bits
  }
  return { word, shift, biasLo: bias[0], biasHi: bias[1], guardLo: guard[0], guardHi: guard[1] }
}

/** Largest sum of sizes not above a length; the length itself where the grid is too coarse to say. */
class Reach {
  private readonly sums: Int32Array
  private readonly unit: number
  constructor(sizes: readonly number[], copies: readonly number[], span: number) {
    let unit = 0
    for (const s of sizes) unit = gcd(unit, s)
    this.unit = unit
    const limit = unit > 0 ? Math.floor(span / unit) : 0
    this.sums = new Int32Array(unit > 0 && limit <= GRID ? limit + 1 : 0)
    if (this.sums.length === 0) return
    const grid = sizes.map((s) => s / unit)
    largestSums(grid, copies, limit, this.sums, new Uint32Array((limit >>> 5) + 1))
  }
  of(length: number): number {
    return this.sums.length === 0 ? length : this.sums[Math.floor(length / this.unit)] * this.unit
  }
}

class BlockTable {
  private readonly kinds: number[]
  private readonly sets = new Map<number, Multiset>()
  private readonly bySize: Multiset[][] = []
  /** Kinds by weight over area, the best first. */
  private readonly dense: number[]
  private readonly reachX: Reach
  private readonly reachY: Reach
  private readonly target: number
  private pairs = 0
  private isOver = false
  constructor(
    private readonly prep: Prepared,
    private readonly board: BoardClass,
    private readonly digits: Digits,
    kinds: number[],
    private readonly options: TableOptions,
  ) {
    this.kinds = kinds
    this.target = options.target * (1 - 1e-12)
    this.dense = kinds.map((_, k) => k).sort((a, b) => this.density(kinds[b]) - this.density(kinds[a]))
    const sizes = (turn: boolean): number[] =>
      kinds.flatMap((i) => {
        const [own, other] = turn ? [prep.h[i], prep.w[i]] : [prep.w[i], prep.h[i]]
        return prep.free[i] === 1 ? [own, other] : [own]
      })
    const copies = kinds.flatMap((i) => new Array<number>(prep.free[i] === 1 ? 2 : 1).fill(prep.demand[i]))
    this.reachX = new Reach(sizes(false), copies, board.w)
    this.reachY = new Reach(sizes(true), copies, board.h)
  }

  private density(item: number): number {
    return this.prep.weight[item] / this.prep.area[item]
  }

  run(): TableAnswer {
    this.addSingles()
    const done: Multiset[] = []
    for (let size = 1; size < this.bySize.length && !this.isOver; size++) {
      for (const set of this.bySize[size] ?? []) {
        if (set.shapes.length === 0) continue
        done.push(set)
        this.joinAll(set, done)
        if (this.isOver) break
      }
    }
    return this.answer()
  }

  private answer(): TableAnswer {
    let best: Multiset | null = null
    for (const set of this.sets.values()) {
      if (set.weight < this.target || set.shapes.length === 0) continue
      if (best === null || set.weight > best.weight) best = set
    }
    const { w, h } = this.board
    const whole = { x: 0, y: 0, w, h, stage: 0 }
    return {
      section: best === null ? null : this.placed(whole, best.shapes[0]),
      weight: best?.weight ?? 0,
      isComplete: !this.isOver,
      steps: this.sets.size,
    }
  }

  private addSingles(): void {
    const { prep, digits } = this
    for (const b of singleBlocks(prep)) {
      const k = this.kinds.indexOf(b.item)
      if (k < 0) continue
      const bit = 2 ** digits.shift[k]
      const [lo, hi] = digits.word[k] === 0 ? [bit, 0] : [0, bit]
      const set = this.setFor(lo, hi, 1, b.area, prep.weight[b.item])
      if (set !== null && this.isHopeful(set, b.w, b.h)) {
        insert(set, { w: b.w, h: b.h, dir: 0, first: null, second: null, block: b })
      }
    }
  }

  private setFor(lo: number, hi: number, size: number, area: number, weight: number): Multiset | null {
    const key = lo + hi * 2 ** WORD
    let set = this.sets.get(key)
    if (set !== undefined) return set
    if (this.sets.size >= this.options.mostSets) {
      this.isOver = true
      return null
    }
    set = { lo, hi, size, area, weight, shapes: [] }
    this.sets.set(key, set)
    this.bySize[size] ??= []
    this.bySize[size].push(set)
    return set
  }

  /** Hot loop: every multiset done so far that shares no part too many. */
  private joinAll(a: Multiset, done: readonly Multiset[]): void {
    const { biasLo, biasHi, guardLo, guardHi } = this.digits
    const lo = a.lo + biasLo
    const hi = a.hi + biasHi
    const mostArea = this.board.w * this.board.h - a.area
    for (let k = 0; k < done.length; k++) {
      if ((++this.pairs & 4095) === 0 && (this.pairs > this.options.mostPairs || this.options.shouldStop())) {
        this.isOver = true
        return
      }
      const b = done[k]
      if (((lo + b.lo) & guardLo) !== 0 || ((hi + b.hi) & guardHi) !== 0 || b.area > mostArea) continue
      this.join(a, b)
      if (this.isOver) return
    }
  }

  private join(a: Multiset, b: Multiset): void {
    const p = a.shapes
    const q = b.shapes
    const { w: boardW, h: boardH } = this.board
    // Side by side: as high as the higher one. Both lists run from low and wide to high and narrow.
    for (let i = 0, j = 0; i < p.length && j < q.length; ) {
      const h = Math.max(p[i].h, q[j].h)
      while (i + 1 < p.length && p[i + 1].h <= h) i++
      while (j + 1 < q.length && q[j + 1].h <= h) j++
      const w = p[i].w + q[j].w
      if (w <= boardW) this.offer(a, b, w, h, 0, p[i], q[j])
      const [up, uq] = [i + 1 < p.length ? p[i + 1].h : Infinity, j + 1 < q.length ? q[j + 1].h : Infinity]
      if (up === Infinity && uq === Infinity) break
      if (up <= uq) i++
      else j++
    }
    // One above the other: from high and narrow to low and wide.
    for (let i = p.length - 1, j = q.length - 1; i >= 0 && j >= 0; ) {
      const w = Math.max(p[i].w, q[j].w)
      while (i > 0 && p[i - 1].w <= w) i--
      while (j > 0 && q[j - 1].w <= w) j--
      const h = p[i].h + q[j].h
      if (h <= boardH) this.offer(a, b, w, h, 1, p[i], q[j])
      const [up, uq] = [i > 0 ? p[i - 1].w : Infinity, j > 0 ? q[j - 1].w : Infinity]
      if (up === Infinity && uq === Infinity) break
      if (up <= uq) i--
      else j--
    }
  }

  private offer(
    a: Multiset,
    b: Multiset,
    w: number,
    h: number,
    dir: 0 | 1,
    first: Shape,
    second: Shape,
  ): void {
    const area = a.area + b.area
    if (w * h - area > this.mostWaste()) return
    const lo = a.lo + b.lo
    const hi = a.hi + b.hi
    const known = this.sets.get(lo + hi * 2 ** WORD)
    if (known !== undefined && isCovered(known, w, h)) return
    const like = known ?? { lo, hi, size: a.size + b.size, area, weight: a.weight + b.weight, shapes: [] }
    if (!this.isHopeful(like, w, h)) return
    const set = this.setFor(lo, hi, like.size, area, like.weight)
    if (set === null) return
    insert(set, { w, h, dir, first, second, block: null })
    if (this.options.isTargetEnough && set.weight >= this.target) this.isOver = true
  }

  private waste = -1
  /** What all may waste at most where every kind weighs its area; else no limit. */
  private mostWaste(): number {
    if (this.waste >= 0) return this.waste
    const best = this.density(this.kinds[this.dense[0]])
    this.waste = this.board.w * this.board.h - this.target / best + 1e-6
    return this.waste
  }

  /** Whether the target can still be reached with this multiset in a w x h rectangle. */
  private isHopeful(set: Multiset, w: number, h: number): boolean {
    const { board, prep, digits } = this
    if (w > board.w || h > board.h) return false
    const [overX, overY] = [board.w - w, board.h - h]
    const idle = w * (overY - this.reachY.of(overY)) + h * (overX - this.reachX.of(overX))
    let area = board.w * board.h - w * h - idle
    let weight = set.weight
    if (weight >= this.target) return true
    for (const k of this.dense) {
      const item = this.kinds[k]
      const word = digits.word[k] === 0 ? set.lo : set.hi
      const used = Math.floor(word / 2 ** digits.shift[k]) & maskFor(prep.demand[item])
      const n = Math.min(prep.demand[item] - used, area / prep.area[item])
      if (n <= 0) continue
      weight += n * prep.weight[item]
      area -= n * prep.area[item]
      if (weight >= this.target) return true
    }
    return weight >= this.target
  }

  private placed(r: Rect, s: Shape): Section {
    const { prep } = this
    const rest = (q: Rect): Section => restSection(prep, q)
    const own = (q: Rect): Section => {
      if (s.block !== null) return blockSection(q, s.block)
      const [first, second] = [s.first as Shape, s.second as Shape]
      return cutSection(
        q,
        s.dir,
        s.dir === 0 ? first.w : first.h,
        (p) => this.placed(p, first),
        (p) => this.placed(p, second),
      )
    }
    const ripped = (q: Rect): Section => (q.h > s.h ? cutSection(q, 1, s.h, own, rest) : own(q))
    return r.w > s.w ? cutSection(r, 0, s.w, ripped, rest) : ripped(r)
  }
}

const maskFor = (demand: number): number => 2 ** Math.ceil(Math.log2(demand + 1)) - 1

function isCovered(set: Multiset, w: number, h: number): boolean {
  for (const s of set.shapes) if (s.w <= w && s.h <= h) return true
  return false
}

/** Keeps the list of smallest rectangles, from low and wide to high and narrow. */
function insert(set: Multiset, shape: Shape): void {
  if (isCovered(set, shape.w, shape.h)) return
  const kept = set.shapes.filter((s) => s.w < shape.w || s.h < shape.h)
  let at = 0
  while (at < kept.length && kept[at].h < shape.h) at++
  kept.splice(at, 0, shape)
  set.shapes = kept
}

/**
 * @param board without zones
 * @returns null where there are too many kinds of parts
 */
export function solveOneBoard(prep: Prepared, board: BoardClass, options: TableOptions): TableAnswer | null {
  const kinds: number[] = []
  for (let i = 0; i < prep.n; i++) {
    if (prep.demand[i] > 0 && (board.allowed === null || board.allowed[i] === 1)) kinds.push(i)
  }
  if (kinds.length === 0) return null
  const digits = digitsFor(kinds.map((i) => prep.demand[i]))
  if (digits === null) return null
  return new BlockTable(prep, board, digits, kinds, options).run()
}
