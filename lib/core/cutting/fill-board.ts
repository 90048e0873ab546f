/**
 * Fills one board: a beam search over guillotine moves. A move takes the newest open piece, cuts one block from
 * its corner (after a strip that dodges a defect, if need be) and leaves two rests, split crosscut-first or
 * rip-first. Guide: area lost over area gained (Libralesso and Fontan 2021), where a rest counts as lost at once
 * as far as no sum of parts can reach its edge (normal patterns).
 * In: a board class, what is still wanted, what each part gains. Out: the best filling found and its moves.
 * Not guaranteed: optimality. Cost: beam x moves x blocks. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Block } from './blocks'
import type { BoardClass, Prepared, Zone } from './prepared'
import { gcd, largestSums } from './subset-sums'

export interface Filling {
  readonly gain: number
  /** Worth of the rests, by `offcutWorth`. */
  readonly worth: number
  /** Shifted area that parts cover. */
  readonly area: number
  /** Blanks used and how many of each. */
  readonly items: readonly number[]
  readonly counts: readonly number[]
  readonly moves: readonly Move[]
}

/** One move: which piece (0: the board; else 8 x move number + slot), which block, how. */
export interface Move {
  readonly piece: number
  readonly id: number
  readonly block: Block
  /** 0: the rest is divided by a crosscut first; 1: by a rip first. */
  readonly split: 0 | 1
  readonly dx: number
  readonly dy: number
}

export interface FillOptions {
  readonly beam: number
  /** Random spread of the guide, 0: none. */
  readonly jitter: number
  readonly rng: Rng
  /** Most states made. */
  readonly maxStates: number
  /** Asked every few milliseconds. */
  readonly shouldStop: () => boolean
}

/** Slots of the pieces that a move leaves, as part of their number. */
export const SLOT = { left: 1, below: 2, right: 3, above: 4 } as const

const PIECE = 6 // x, y, w, h, stage x 2 + direction, number
const MAX_OPEN = 40
const GRID = 4096

/** What a rest is worth keeping for: its area in square metres to the power 1.5, 0 where it is too small to keep. */
export function restWorth(prep: Prepared, w: number, h: number): number {
  const l = w - prep.kerf
  const b = h - prep.kerf
  const { minLengthUm, minWidthUm } = prep.problem.offcut
  if (l <= 0 || b <= 0 || l < minLengthUm || b < minWidthUm) return 0
  const m2 = l * b * 1e-12
  return m2 * Math.sqrt(m2)
}

class Beam {
  pieces = new Float64Array(0)
  open = new Int32Array(0)
  rem = new Int32Array(0)
  gain = new Float64Array(0)
  lost = new Float64Array(0)
  area = new Float64Array(0)
  worth = new Float64Array(0)
  node = new Int32Array(0)
  n = 0
  reserve(states: number, items: number): void {
    if (this.open.length < states) {
      this.open = new Int32Array(states)
      this.gain = new Float64Array(states)
      this.lost = new Float64Array(states)
      this.area = new Float64Array(states)
      this.worth = new Float64Array(states)
      this.node = new Int32Array(states)
      this.pieces = new Float64Array(states * MAX_OPEN * PIECE)
    }
    if (this.rem.length < states * items) this.rem = new Int32Array(states * items)
  }
}

/** Reusable memory for filling one board after another. */
export class BoardFiller {
  steps = 0
  private readonly prep: Prepared
  private cur = new Beam()
  private next = new Beam()
  // active blocks of this fill
  private blocks: Block[] = []
  private bw = new Float64Array(0)
  private bh = new Float64Array(0)
  private bgain = new Float64Array(0)
  private bloss = new Float64Array(0)
  private bjit = new Float64Array(0)
  private bneed = new Int32Array(0) // up to 4 (item, count) pairs a block
  private local = new Int32Array(0)
  private items: number[] = []
  // best candidates of a level
  private cState = new Int32Array(0)
  private cBlock = new Int32Array(0)
  private cSplit = new Int32Array(0)
  private cDx = new Float64Array(0)
  private cDy = new Float64Array(0)
  private cGuide = new Float64Array(0)
  private cn = 0
  // move arena
  private nParent = new Int32Array(1024)
  private nPiece = new Float64Array(1024)
  private nBlock = new Int32Array(1024)
  private nSplit = new Uint8Array(1024)
  private nDx = new Float64Array(1024)
  private nDy = new Float64Array(1024)
  private nn = 0
  private readonly sumX = new Int32Array(GRID * 2 + 1)
  private readonly sumY = new Int32Array(GRID * 2 + 1)
  private readonly bits = new Uint32Array((GRID * 2) / 32 + 1)
  private unitX = 1
  private unitY = 1
  private minW = 0
  private minH = 0
  private density = 1
  private cls!: BoardClass
  private beam = 1
  private readonly seen = new Set<number>()
  private work = 0

  constructor(prep: Prepared) {
    this.prep = prep
    this.local = new Int32Array(prep.n)
  }

  /**
   * @param wanted how many of each blank may be used here
   * @param gains what one of each blank is worth to the caller; 0 or less: leave it out
   */
  fill(
    cls: BoardClass,
    all: readonly Block[],
    wanted: Int32Array,
    gains: Float64Array,
    options: FillOptions,
  ): Filling | null {
    this.cls = cls
    this.beam = options.beam
    if (!this.activate(all, wanted, gains, options)) return null
    this.sums(wanted)
    this.nn = 1
    const m = this.items.length
    this.cur.reserve(options.beam, m)
    this.next.reserve(options.beam, m)
    this.reserveCandidates(options.beam)
    this.start(wanted)
    return this.search(options)
  }

  private activate(
    all: readonly Block[],
    wanted: Int32Array,
    gains: Float64Array,
    options: FillOptions,
  ): boolean {
    const { cls, prep } = this
    const blocks: Block[] = []
    this.items = []
    const { local } = this
    local.fill(-1)
    for (const b of all) {
      if (b.w > cls.w || b.h > cls.h) continue
      let ok = true
      for (let k = 0; k < b.needs.length; k++) {
        const i = b.needs[k]
        if (wanted[i] < b.counts[k] || gains[i] <= 0 || (cls.allowed !== null && cls.allowed[i] === 0)) {
          ok = false
          break
        }
      }
      if (!ok || (b.dir !== -1 && b.stages > prep.stages)) continue
      blocks.push(b)
      for (const i of b.needs) {
        if (local[i] < 0) {
          local[i] = this.items.length
          this.items.push(i)
        }
      }
    }
    if (blocks.length === 0) return false
    this.blocks = blocks
    this.loadBlocks(gains, options)
    return true
  }

  private loadBlocks(gains: Float64Array, options: FillOptions): void {
    const { blocks, prep } = this
    if (this.bw.length < blocks.length) {
      this.bw = new Float64Array(blocks.length)
      this.bh = new Float64Array(blocks.length)
      this.bgain = new Float64Array(blocks.length)
      this.bloss = new Float64Array(blocks.length)
      this.bjit = new Float64Array(blocks.length)
      this.bneed = new Int32Array(blocks.length * 8)
    }
    this.density = 0
    for (const i of this.items) this.density = Math.max(this.density, gains[i] / prep.area[i])
    this.minW = Number.POSITIVE_INFINITY
    this.minH = Number.POSITIVE_INFINITY
    for (let k = 0; k < blocks.length; k++) {
      const b = blocks[k]
      this.bw[k] = b.w
      this.bh[k] = b.h
      this.minW = Math.min(this.minW, b.w)
      this.minH = Math.min(this.minH, b.h)
      let gain = 0
      for (let q = 0; q < 4; q++) {
        const has = q < b.needs.length
        this.bneed[k * 8 + q * 2] = has ? this.local[b.needs[q]] : -1
        this.bneed[k * 8 + q * 2 + 1] = has ? b.counts[q] : 0
        if (has) gain += gains[b.needs[q]] * b.counts[q]
      }
      this.bgain[k] = gain
      this.bloss[k] = b.w * b.h - gain / this.density
      this.bjit[k] = options.jitter > 0 ? 1 + options.jitter * (options.rng.next() - 0.5) : 1
    }
  }

  private sums(wanted: Int32Array): void {
    const { prep, items, cls } = this
    let g = 0
    for (const i of items) g = gcd(gcd(g, prep.w[i]), prep.h[i])
    const sizes: number[] = []
    const copies: number[] = []
    for (const axis of [0, 1]) {
      const span = axis === 0 ? cls.w : cls.h
      const unit = span / g <= GRID * 2 ? g : span / GRID
      sizes.length = 0
      copies.length = 0
      for (const i of items) {
        const turnedToo = prep.free[i] === 1
        sizes.push(Math.round((axis === 0 ? prep.w[i] : prep.h[i]) / unit))
        copies.push(wanted[i])
        if (!turnedToo) continue
        sizes.push(Math.round((axis === 0 ? prep.h[i] : prep.w[i]) / unit))
        copies.push(wanted[i])
      }
      const limit = Math.floor(span / unit + 1e-9)
      largestSums(sizes, copies, limit, axis === 0 ? this.sumX : this.sumY, this.bits)
      if (axis === 0) this.unitX = unit
      else this.unitY = unit
    }
  }

  private reserveCandidates(beam: number): void {
    if (this.cState.length >= beam) return
    this.cState = new Int32Array(beam)
    this.cBlock = new Int32Array(beam)
    this.cSplit = new Int32Array(beam)
    this.cDx = new Float64Array(beam)
    this.cDy = new Float64Array(beam)
    this.cGuide = new Float64Array(beam)
  }

  private start(wanted: Int32Array): void {
    const { cur, cls } = this
    cur.n = 1
    for (let k = 0; k < this.items.length; k++) cur.rem[k] = wanted[this.items[k]]
    cur.gain[0] = 0
    cur.area[0] = 0
    cur.worth[0] = 0
    cur.node[0] = 0
    cur.open[0] = 1
    cur.lost[0] = this.hopeless(cls.w, cls.h)
    cur.pieces.set([0, 0, cls.w, cls.h, 0, 0], 0)
  }

  /** Area of a piece that no sum of parts can use; all of it when no part fits. */
  private hopeless(w: number, h: number): number {
    if (w < this.minW || h < this.minH) return w * h
    const u = this.sumX[Math.floor(w / this.unitX + 1e-9)] * this.unitX
    const v = this.sumY[Math.floor(h / this.unitY + 1e-9)] * this.unitY
    return w * h - Math.min(u, w) * Math.min(v, h)
  }

  private search(options: FillOptions): Filling | null {
    let bestGain = 0
    let bestWorth = -1
    let bestNode = 0
    let bestArea = 0
    const startSteps = this.steps
    while (this.cur.n > 0) {
      const { cur } = this
      this.cn = 0
      let isPerfect = false
      for (let s = 0; s < cur.n; s++) {
        if (this.isStopped(options)) return this.bestSoFar(bestNode, bestGain, bestWorth, bestArea)
        while (cur.open[s] > 0 && !this.expand(s)) this.close(cur, s)
        if (cur.open[s] > 0) continue
        if (cur.gain[s] > bestGain || (cur.gain[s] === bestGain && cur.worth[s] > bestWorth)) {
          bestGain = cur.gain[s]
          bestWorth = cur.worth[s]
          bestNode = cur.node[s]
          bestArea = cur.area[s]
          isPerfect ||= cur.lost[s] === 0
        }
      }
      if (isPerfect || this.cn === 0) break
      this.advance()
      if (this.steps - startSteps >= options.maxStates) break
    }
    return this.bestSoFar(bestNode, bestGain, bestWorth, bestArea)
  }

  private isStopped(options: FillOptions): boolean {
    this.work += this.blocks.length
    if (this.work < 20_000) return false
    this.work = 0
    return options.shouldStop()
  }

  /** The best finished state; where the search was stopped before any: the fullest unfinished one. */
  private bestSoFar(node: number, gain: number, worth: number, area: number): Filling | null {
    if (node > 0) return this.result(node, gain, worth, area)
    const { cur } = this
    let best = -1
    for (let s = 0; s < cur.n; s++) if (best < 0 || cur.gain[s] > cur.gain[best]) best = s
    if (best < 0 || cur.node[best] === 0) return null
    while (cur.open[best] > 0) this.close(cur, best)
    return this.result(cur.node[best], cur.gain[best], cur.worth[best], cur.area[best])
  }

  /** The top piece of a state becomes a rest. */
  private close(b: Beam, s: number): void {
    const at = (s * MAX_OPEN + b.open[s] - 1) * PIECE
    const w = b.pieces[at + 2]
    const h = b.pieces[at + 3]
    b.lost[s] += w * h - this.hopeless(w, h)
    b.worth[s] += restWorth(this.prep, w, h)
    b.open[s]--
  }

  private has(s: number, block: number): boolean {
    const base = s * this.items.length
    for (let q = block * 8; q < block * 8 + 8; q += 2) {
      const item = this.bneed[q]
      if (item < 0) return true
      if (this.cur.rem[base + item] < this.bneed[q + 1]) return false
    }
    return true
  }

  /** Offers every move on the top piece of a state; false if there is none. Hot loop. */
  private expand(s: number): boolean {
    const { cur, bw, bh } = this
    const at = (s * MAX_OPEN + cur.open[s] - 1) * PIECE
    const x = cur.pieces[at]
    const y = cur.pieces[at + 1]
    const w = cur.pieces[at + 2]
    const h = cur.pieces[at + 3]
    const stage = cur.pieces[at + 4]
    const touches = this.zonesTouch(x, y, w, h)
    const lost = cur.lost[s] - this.hopeless(w, h)
    let any = false
    for (let k = 0; k < this.blocks.length; k++) {
      if (bw[k] > w || bh[k] > h || !this.has(s, k)) continue
      if (touches && this.isBlocked(k, x, y)) {
        const dx = this.dodgeX(k, x, y, w)
        if (dx > 0) any = this.offer(s, k, w, h, stage, dx, 0, lost) || any
        const dy = this.dodgeY(k, x, y, h)
        if (dy > 0) any = this.offer(s, k, w, h, stage, 0, dy, lost) || any
      } else any = this.offer(s, k, w, h, stage, 0, 0, lost) || any
    }
    return any
  }

  private zonesTouch(x: number, y: number, w: number, h: number): boolean {
    const { zones } = this.cls
    for (let q = 0; q < zones.length; q++) {
      const z = zones[q]
      if (x < z.x1 && x + w > z.x0 && y < z.y1 && y + h > z.y0) return true
    }
    return false
  }

  private blocker(k: number, x: number, y: number): Zone | null {
    const { zones } = this.cls
    const m = this.blocks[k].members
    for (let q = 0; q < zones.length; q++) {
      const z = zones[q]
      for (let p = 0; p < m.length; p += 5) {
        if (z.mask !== null && z.mask[m[p]] === 0) continue
        const px = x + m[p + 1]
        const py = y + m[p + 2]
        if (px < z.x1 && px + m[p + 3] > z.x0 && py < z.y1 && py + m[p + 4] > z.y0) return z
      }
    }
    return null
  }

  private isBlocked(k: number, x: number, y: number): boolean {
    return this.blocker(k, x, y) !== null
  }

  /** Smallest strip along x that lets the block clear the zones; 0: none. */
  private dodgeX(k: number, x: number, y: number, w: number): number {
    let dx = 0
    for (let tries = 0; tries < 64; tries++) {
      const z = this.blocker(k, x + dx, y)
      if (z === null) return dx
      const step = z.x1 - x
      dx = Math.max(step, dx + 1, this.prep.kerf + 1)
      if (dx + this.bw[k] > w) return 0
    }
    return 0
  }

  private dodgeY(k: number, x: number, y: number, h: number): number {
    let dy = 0
    for (let tries = 0; tries < 64; tries++) {
      const z = this.blocker(k, x, y + dy)
      if (z === null) return dy
      const step = z.y1 - y
      dy = Math.max(step, dy + 1, this.prep.kerf + 1)
      if (dy + this.bh[k] > h) return 0
    }
    return 0
  }

  private canCrosscut(w: number, h: number): boolean {
    const { prep } = this
    return w >= prep.minPieceL && h >= prep.minPieceW && h <= prep.maxCrosscut
  }

  /** A rip that leaves `first` of height h: one side of the blade must suit the fence. */
  private canRip(w: number, h: number, first: number): boolean {
    const { prep } = this
    if (w < prep.minPieceL || h < prep.minPieceW) return false
    return first <= prep.maxRip || (h - first > prep.kerf && h - first <= prep.maxRip)
  }

  /** Both ways to split the rest, where machines and stages allow them. */
  private offer(
    s: number,
    k: number,
    w0: number,
    h0: number,
    stage0: number,
    dx: number,
    dy: number,
    lost0: number,
  ): boolean {
    let w = w0
    let h = h0
    let stage = stage0
    let lost = lost0 + this.bloss[k]
    if (dx > 0) {
      if (!this.canCrosscut(w, h)) return false
      stage = nextStage(stage, 0)
      lost += this.hopeless(dx, h)
      w -= dx
    }
    if (dy > 0) {
      if (!this.canRip(w, h, dy)) return false
      stage = nextStage(stage, 1)
      lost += this.hopeless(w, dy)
      h -= dy
    }
    const a = this.bw[k]
    const b = this.bh[k]
    const gained = (this.cur.gain[s] + this.bgain[k]) / this.density
    let any = false
    for (let split = 0; split < 2; split++) {
      if (split === 1 && (w === a || h === b)) break
      if (!this.isSplitAllowed(k, w, h, stage, split)) continue
      const rest =
        split === 0
          ? (w > a ? this.hopeless(w - a, h) : 0) + (h > b ? this.hopeless(a, h - b) : 0)
          : (h > b ? this.hopeless(w, h - b) : 0) + (w > a ? this.hopeless(w - a, b) : 0)
      any = true
      this.keep(((lost + rest) / gained + 1e-7) * this.bjit[k], s, k, split, dx, dy)
    }
    return any
  }

  private isSplitAllowed(k: number, w: number, h: number, stage0: number, split: number): boolean {
    const a = this.bw[k]
    const b = this.bh[k]
    let stage = stage0
    let cw = w
    let ch = h
    for (let turn = 0; turn < 2; turn++) {
      const dir = split === 0 ? turn : 1 - turn
      if (dir === 0 && cw > a) {
        if (!this.canCrosscut(cw, ch)) return false
        stage = nextStage(stage, 0)
        cw = a
      } else if (dir === 1 && ch > b) {
        if (!this.canRip(cw, ch, b)) return false
        stage = nextStage(stage, 1)
        ch = b
      }
    }
    const block = this.blocks[k]
    let used = stage >> 1
    if (block.dir >= 0) used += block.stages - (used > 0 && (stage & 1) === block.dir ? 1 : 0)
    return used <= this.prep.stages
  }

  /** Best `beam` candidates, as a heap with the worst on top. */
  private keep(guide: number, s: number, k: number, split: number, dx: number, dy: number): void {
    const g = this.cGuide
    let at: number
    if (this.cn < this.beam) {
      at = this.cn++
      while (at > 0) {
        const up = (at - 1) >> 1
        if (g[up] >= guide) break
        this.moveCandidate(up, at)
        at = up
      }
    } else {
      if (guide >= g[0]) return
      at = 0
      for (;;) {
        let child = 2 * at + 1
        if (child >= this.cn) break
        if (child + 1 < this.cn && g[child + 1] > g[child]) child++
        if (g[child] <= guide) break
        this.moveCandidate(child, at)
        at = child
      }
    }
    g[at] = guide
    this.cState[at] = s
    this.cBlock[at] = k
    this.cSplit[at] = split
    this.cDx[at] = dx
    this.cDy[at] = dy
  }

  private moveCandidate(from: number, to: number): void {
    this.cGuide[to] = this.cGuide[from]
    this.cState[to] = this.cState[from]
    this.cBlock[to] = this.cBlock[from]
    this.cSplit[to] = this.cSplit[from]
    this.cDx[to] = this.cDx[from]
    this.cDy[to] = this.cDy[from]
  }

  private advance(): void {
    const { next } = this
    next.n = 0
    this.seen.clear()
    for (let c = 0; c < this.cn; c++) this.apply(c)
    const old = this.cur
    this.cur = next
    this.next = old
  }

  private newNode(parent: number, piece: number, c: number): number {
    if (this.nn === this.nParent.length) this.growArena()
    const id = this.nn++
    this.nParent[id] = parent
    this.nPiece[id] = piece
    this.nBlock[id] = this.cBlock[c]
    this.nSplit[id] = this.cSplit[c]
    this.nDx[id] = this.cDx[c]
    this.nDy[id] = this.cDy[c]
    return id
  }

  private growArena(): void {
    const n = this.nParent.length * 2
    const grown = <T extends Int32Array | Float64Array | Uint8Array>(from: T, to: T): T => {
      to.set(from as never)
      return to
    }
    this.nParent = grown(this.nParent, new Int32Array(n))
    this.nPiece = grown(this.nPiece, new Float64Array(n))
    this.nBlock = grown(this.nBlock, new Int32Array(n))
    this.nSplit = grown(this.nSplit, new Uint8Array(n))
    this.nDx = grown(this.nDx, new Float64Array(n))
    this.nDy = grown(this.nDy, new Float64Array(n))
  }

  /** Makes the state of a candidate, unless one just like it was made on this level. */
  private apply(c: number): void {
    const { cur, next } = this
    const s = this.cState[c]
    const k = this.cBlock[c]
    const m = this.items.length
    const t = next.n
    next.rem.set(cur.rem.subarray(s * m, s * m + m), t * m)
    for (let q = k * 8; q < k * 8 + 8 && this.bneed[q] >= 0; q += 2) {
      next.rem[t * m + this.bneed[q]] -= this.bneed[q + 1]
    }
    const top = cur.open[s] - 1
    const from = (s * MAX_OPEN + top) * PIECE
    const to = t * MAX_OPEN * PIECE
    next.pieces.set(cur.pieces.subarray(s * MAX_OPEN * PIECE, from), to)
    next.open[t] = top
    next.gain[t] = cur.gain[s] + this.bgain[k]
    next.area[t] = cur.area[s] + this.blocks[k].area
    next.worth[t] = cur.worth[s]
    const w = cur.pieces[from + 2]
    const h = cur.pieces[from + 3]
    next.lost[t] = cur.lost[s] - this.hopeless(w, h) + this.bloss[k]
    this.leave(t, from, c)
    const hash = this.hash(t, m)
    if (this.seen.has(hash)) return
    this.seen.add(hash)
    this.steps++
    next.node[t] = this.newNode(cur.node[s], cur.pieces[from + 5], c)
    this.number(t, next.node[t], top)
    next.n++
  }

  /** The rests of a move; the smaller goes on top, so that it is filled first. */
  private leave(t: number, from: number, c: number): void {
    const { cur } = this
    const k = this.cBlock[c]
    const split = this.cSplit[c]
    const dx = this.cDx[c]
    const dy = this.cDy[c]
    let x = cur.pieces[from]
    let y = cur.pieces[from + 1]
    let w = cur.pieces[from + 2]
    let h = cur.pieces[from + 3]
    let stage = cur.pieces[from + 4]
    if (dx > 0) {
      stage = nextStage(stage, 0)
      this.push(t, x, y, dx, h, stage, SLOT.left)
      x += dx
      w -= dx
    }
    if (dy > 0) {
      stage = nextStage(stage, 1)
      this.push(t, x, y, w, dy, stage, SLOT.below)
      y += dy
      h -= dy
    }
    const a = this.bw[k]
    const b = this.bh[k]
    if (split === 0) {
      const s1 = w > a ? nextStage(stage, 0) : stage
      const s2 = nextStage(s1, 1)
      const isRightFirst = (w - a) * h > a * (h - b)
      if (w > a && isRightFirst) this.push(t, x + a, y, w - a, h, s1, SLOT.right)
      if (h > b) this.push(t, x, y + b, a, h - b, s2, SLOT.above)
      if (w > a && !isRightFirst) this.push(t, x + a, y, w - a, h, s1, SLOT.right)
    } else {
      const s1 = h > b ? nextStage(stage, 1) : stage
      const s2 = nextStage(s1, 0)
      const isAboveFirst = (h - b) * w > b * (w - a)
      if (h > b && isAboveFirst) this.push(t, x, y + b, w, h - b, s1, SLOT.above)
      if (w > a) this.push(t, x + a, y, w - a, b, s2, SLOT.right)
      if (h > b && !isAboveFirst) this.push(t, x, y + b, w, h - b, s1, SLOT.above)
    }
  }

  private push(t: number, x: number, y: number, w: number, h: number, stage: number, slot: number): void {
    const { next } = this
    const isOpen = next.open[t] < MAX_OPEN && this.anyFits(t, w, h)
    if (!isOpen) {
      next.lost[t] += w * h
      next.worth[t] += restWorth(this.prep, w, h)
      return
    }
    next.lost[t] += this.hopeless(w, h)
    const at = (t * MAX_OPEN + next.open[t]) * PIECE
    const p = next.pieces
    p[at] = x
    p[at + 1] = y
    p[at + 2] = w
    p[at + 3] = h
    p[at + 4] = stage
    p[at + 5] = slot
    next.open[t]++
  }

  private anyFits(t: number, w: number, h: number): boolean {
    if (w < this.minW || h < this.minH) return false
    const { bw, bh } = this
    const m = this.items.length
    for (let k = 0; k < this.blocks.length; k++) {
      if (bw[k] > w || bh[k] > h) continue
      const q = k * 8
      if (this.next.rem[t * m + this.bneed[q]] >= this.bneed[q + 1]) return true
    }
    return false
  }

  private hash(t: number, m: number): number {
    const { next } = this
    let a = 0
    for (let k = 0; k < m; k++) a = (Math.imul(a, 31) + next.rem[t * m + k]) | 0
    let b = next.open[t]
    const base = t * MAX_OPEN * PIECE
    for (let k = 0; k < next.open[t]; k++) {
      const p = base + k * PIECE
      b = (Math.imul(b, 0x01000193) ^ (next.pieces[p] + 7 * next.pieces[p + 1])) | 0
      b = (Math.imul(b, 0x01000193) ^ (next.pieces[p + 2] + 13 * next.pieces[p + 3])) | 0
    }
    return (a >>> 0) * 1_048_576 + (b & 0xfffff)
  }

  /** Gives the pieces just left their numbers. */
  private number(t: number, node: number, from: number): void {
    const { next } = this
    for (let k = from; k < next.open[t]; k++) next.pieces[(t * MAX_OPEN + k) * PIECE + 5] += node * 8
  }

  private result(node: number, gain: number, worth: number, area: number): Filling {
    const moves: Move[] = []
    const used = new Map<number, number>()
    for (let id = node; id > 0; id = this.nParent[id]) {
      const block = this.blocks[this.nBlock[id]]
      moves.push({
        piece: this.nPiece[id],
        id,
        block,
        split: this.nSplit[id] as 0 | 1,
        dx: this.nDx[id],
        dy: this.nDy[id],
      })
      for (let k = 0; k < block.needs.length; k++) {
        used.set(block.needs[k], (used.get(block.needs[k]) ?? 0) + block.counts[k])
      }
    }
    moves.reverse()
    return { gain, worth, area, items: [...used.keys()], counts: [...used.values()], moves }
  }
}

/** Stage x 2 + direction after one more cut. A state with no cut yet has stage 0. */
function nextStage(stage: number, dir: 0 | 1): number {
  if (stage >= 2 && (stage & 1) === dir) return stage
  return ((stage >> 1) + 1) * 2 + dir
}
