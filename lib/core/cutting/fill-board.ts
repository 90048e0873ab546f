/**
 * Fills one board: a beam search over guillotine moves. A move takes the newest open piece, cuts one block from
 * its corner (after a strip that dodges a defect, if need be) and leaves two rests, split crosscut-first or
 * rip-first. Guide: area lost over area gained (Libralesso and Fontan 2021), where a rest counts as lost at once
 * as far as no sum of parts can reach its edge (normal patterns).
 * In: a board class, what is still wanted, what each part gains. Out: the best filling found and its moves.
 * Not guaranteed: optimality. Cost: beam x moves x blocks. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import { BeamStates, MAX_OPEN, PIECE } from './beam-states'
import { BestMoves } from './best-moves'
import type { Block } from './blocks'
import { blocker, dodgeX, dodgeY, zonesTouch } from './dodge'
import { MoveTree } from './move-tree'
import { type Filling, nextStage, type Root, SLOT } from './moves'
import type { Prepared, Zone } from './prepared'
import { canCrosscut, canRip } from './saw-limits'
import { UsableLengths } from './usable-lengths'

export interface FillOptions {
  readonly beam: number
  /** What finished fillings are compared by, blank by blank; absent: the gains that guide the search. */
  readonly scores?: Float64Array
  /** Random spread of the guide, 0: none. */
  readonly jitter: number
  readonly rng: Rng
  /** Most states made. */
  readonly maxStates: number
  /** Asked every few milliseconds. */
  readonly shouldStop: () => boolean
}

/** Roots that one search may fill together; more must be filled in turn. */
export const MOST_ROOTS = 16

/** Reusable memory for filling one board after another. */
export class BoardFiller {
  steps = 0
  private readonly prep: Prepared
  private readonly pool = new BeamStates()
  /** First slot and number of the states of this level; first slot of the next. */
  private base = 0
  private count = 0
  private nextBase = 0
  private nextCount = 0
  // active blocks of this fill
  private blocks: Block[] = []
  private bw = new Float64Array(0)
  private bh = new Float64Array(0)
  private bgain = new Float64Array(0)
  private bscore = new Float64Array(0)
  private bloss = new Float64Array(0)
  private bjit = new Float64Array(0)
  private bhash = new Int32Array(0)
  private barea = new Float64Array(0)
  /** Where a block's (item, copies) pairs begin in `need`; one more entry for the end. */
  private bfrom = new Int32Array(1)
  private need = new Int32Array(0)
  private local = new Int32Array(0)
  private items: number[] = []
  private readonly moves = new BestMoves()
  private readonly tree = new MoveTree()
  private readonly lengths: UsableLengths
  private minW = 0
  private minH = 0
  private density = 1
  private roots: readonly Root[] = []
  private beam = 1
  private seenKey = new Int32Array(0)
  private seenLevel = new Int32Array(0)
  private level = 0
  private work = 0
  /** What a look at a block costs: more with many zones. */
  private effort = 1
  private singles = 0
  private isMasked = false
  private hasZones = false
  /** The piece being expanded. */
  private px = 0
  private py = 0
  private proot = 0
  private ptouch = false
  /** Area that stands for a gain where nothing has been gained yet. */
  private fair = 1

  constructor(prep: Prepared) {
    this.prep = prep
    this.lengths = new UsableLengths(prep)
    this.local = new Int32Array(prep.n)
  }

  /**
   * Fills the roots together, the last one first.
   * @param wanted how many of each blank may be used here
   * @param gains what one of each blank is worth to the caller; 0 or less: leave it out
   */
  fill(
    roots: readonly Root[],
    all: readonly Block[],
    wanted: Int32Array,
    gains: Float64Array,
    options: FillOptions,
  ): Filling | null {
    if (roots.length > MOST_ROOTS) throw new RangeError(`roots: ${roots.length}`)
    this.roots = roots
    this.beam = options.beam
    if (!this.activate(all, wanted, gains, options)) return null
    this.isMasked = roots.some((r) => r.allowed !== null)
    this.lengths.load(roots, this.items, wanted, { w: this.minW, h: this.minH })
    this.tree.clear()
    this.pool.reserve(options.beam * 2, this.items.length)
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
    const { prep } = this
    const blocks: Block[] = []
    this.items = []
    const { local } = this
    local.fill(-1)
    for (const b of all) {
      if (!this.fitsARoot(b)) continue
      let ok = true
      for (let k = 0; k < b.needs.length; k++) {
        const i = b.needs[k]
        if (wanted[i] < b.counts[k] || gains[i] <= 0) {
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
    let singles = 0
    while (singles < blocks.length && blocks[singles].dir === -1) singles++
    this.singles = singles
    this.loadBlocks(gains, options)
    return true
  }

  private fitsARoot(b: Block): boolean {
    for (const r of this.roots) {
      if (b.w <= r.w && b.h <= r.h && isAllowed(r.allowed, b.needs)) return true
    }
    return false
  }

  private reserveBlocks(n: number): void {
    if (this.bw.length >= n) return
    this.bw = new Float64Array(n)
    this.bh = new Float64Array(n)
    this.bgain = new Float64Array(n)
    this.bscore = new Float64Array(n)
    this.bloss = new Float64Array(n)
    this.bjit = new Float64Array(n)
    this.barea = new Float64Array(n)
    this.bhash = new Int32Array(n)
    this.bfrom = new Int32Array(n + 1)
  }

  private loadBlocks(gains: Float64Array, options: FillOptions): void {
    const { blocks, prep } = this
    this.reserveBlocks(blocks.length)
    let needs = 0
    for (const b of blocks) needs += b.needs.length
    if (this.need.length < needs * 2) this.need = new Int32Array(needs * 2)
    this.density = 0
    for (const i of this.items) this.density = Math.max(this.density, gains[i] / prep.area[i])
    this.minW = Number.POSITIVE_INFINITY
    this.minH = Number.POSITIVE_INFINITY
    let at = 0
    for (let k = 0; k < blocks.length; k++) {
      const b = blocks[k]
      this.bw[k] = b.w
      this.bh[k] = b.h
      this.minW = Math.min(this.minW, b.w)
      this.minH = Math.min(this.minH, b.h)
      let gain = 0
      let score = 0
      let hash = 0
      this.bfrom[k] = at
      for (let q = 0; q < b.needs.length; q++) {
        this.need[at++] = this.local[b.needs[q]]
        this.need[at++] = b.counts[q]
        gain += gains[b.needs[q]] * b.counts[q]
        score += (options.scores ?? gains)[b.needs[q]] * b.counts[q]
        hash = (hash + Math.imul(b.counts[q], mix(b.needs[q]))) | 0
      }
      this.bgain[k] = gain
      this.bscore[k] = score
      this.barea[k] = b.area
      this.bhash[k] = hash
      this.bloss[k] = b.w * b.h - gain / this.density
      this.bjit[k] = options.jitter > 0 ? 1 + options.jitter * (options.rng.next() - 0.5) : 1
    }
    this.bfrom[blocks.length] = at
  }

  private reserveCandidates(beam: number): void {
    if (this.moves.state.length >= beam) {
      this.moves.reserve(beam)
      return
    }
    this.moves.reserve(beam)
    const slots = 2 ** Math.ceil(Math.log2(beam * 4))
    this.seenKey = new Int32Array(slots)
    this.seenLevel = new Int32Array(slots)
    this.level = 0
  }

  private start(wanted: Int32Array): void {
    const { pool, roots } = this
    this.base = 0
    this.nextBase = this.beam
    this.count = 1
    for (let k = 0; k < this.items.length; k++) pool.rem[k] = wanted[this.items[k]]
    pool.gain[0] = 0
    pool.score[0] = 0
    pool.area[0] = 0
    pool.worth[0] = 0
    pool.node[0] = 0
    pool.hash[0] = 0
    pool.open[0] = 0
    pool.lost[0] = 0
    this.hasZones = false
    this.effort = 1
    this.fair = this.minW * this.minH
    for (let k = 0; k < roots.length; k++) {
      const r = roots[k]
      this.push(0, 0, 0, r.w, r.h, r.stage, -1 - k, k)
      if (r.zones.length > 0) this.hasZones = true
      this.effort = Math.max(this.effort, 1 + 4 * r.zones.length)
    }
  }

  /** The same, and what zones take that block every part. */
  private loss(root: number, x: number, y: number, w: number, h: number): number {
    const { zones } = this.roots[root]
    const own = this.lengths.hopeless(w, h)
    if (zones.length === 0) return own
    let taken = 0
    for (let q = 0; q < zones.length; q++) {
      const z = zones[q]
      if (z.mask !== null) continue
      const l = Math.min(z.x1, x + w) - Math.max(z.x0, x)
      const b = Math.min(z.y1, y + h) - Math.max(z.y0, y)
      if (l > 0 && b > 0) taken += l * b
    }
    return Math.min(w * h, Math.max(own, taken))
  }

  private search(options: FillOptions): Filling | null {
    const { pool } = this
    let bestScore = 0
    let bestGain = 0
    let bestWorth = -1
    let bestNode = 0
    let bestArea = 0
    const startSteps = this.steps
    while (this.count > 0) {
      this.moves.count = 0
      let isPerfect = false
      for (let s = this.base; s < this.base + this.count; s++) {
        if (this.isStopped(options)) return this.bestSoFar(bestNode, bestGain, bestWorth, bestArea)
        while (pool.open[s] > 0 && !this.expand(s)) this.close(s)
        if (pool.open[s] > 0) continue
        const score = pool.score[s]
        if (bestNode === 0 || score > bestScore || (score === bestScore && pool.worth[s] > bestWorth)) {
          bestScore = score
          bestGain = pool.gain[s]
          bestWorth = pool.worth[s]
          bestNode = pool.node[s]
          bestArea = pool.area[s]
          isPerfect ||= pool.lost[s] <= 0
        }
      }
      if (isPerfect || this.moves.count === 0) break
      this.advance()
      if (this.steps - startSteps >= options.maxStates) break
    }
    return this.bestSoFar(bestNode, bestGain, bestWorth, bestArea)
  }

  private isStopped(options: FillOptions): boolean {
    this.work += this.blocks.length * this.effort
    if (this.work < 20_000) return false
    this.work = 0
    return options.shouldStop()
  }

  /** The best finished state; where the search was stopped before any: the fullest unfinished one. */
  private bestSoFar(node: number, gain: number, worth: number, area: number): Filling | null {
    if (node > 0) return this.result(node, gain, worth, area)
    const { pool } = this
    let best = -1
    for (let s = this.base; s < this.base + this.count; s++) {
      if (best < 0 || pool.score[s] > pool.score[best]) best = s
    }
    if (best < 0 || pool.node[best] === 0) return null
    while (pool.open[best] > 0) this.close(best)
    return this.result(pool.node[best], pool.gain[best], pool.worth[best], pool.area[best])
  }

  /** The top piece of a state becomes a rest. */
  private close(s: number): void {
    const { pool } = this
    const at = (s * MAX_OPEN + pool.open[s] - 1) * PIECE
    const { pieces } = pool
    const w = pieces[at + 2]
    const h = pieces[at + 3]
    pool.lost[s] += w * h - this.loss(pieces[at + 6], pieces[at], pieces[at + 1], w, h)
    pool.worth[s] += w * h * Math.sqrt(w * h)
    pool.open[s]--
  }

  /** Whether a state still wants all that a block is made of. */
  private has(s: number, block: number): boolean {
    const base = s * this.items.length
    const { rem } = this.pool
    const end = this.bfrom[block + 1]
    for (let q = this.bfrom[block]; q < end; q += 2) {
      if (rem[base + this.need[q]] < this.need[q + 1]) return false
    }
    return true
  }

  /** Offers every move on the top piece of a state; false if there is none. Hot loop. */
  private expand(s: number): boolean {
    const { pool, bw, bh } = this
    const at = (s * MAX_OPEN + pool.open[s] - 1) * PIECE
    const x = pool.pieces[at]
    const y = pool.pieces[at + 1]
    const w = pool.pieces[at + 2]
    const h = pool.pieces[at + 3]
    const stage = pool.pieces[at + 4]
    const root = this.roots[pool.pieces[at + 6]]
    const { zones, allowed } = root
    const touches = zones.length > 0 && zonesTouch(zones, x, y, w, h)
    const lost = pool.lost[s] - this.loss(pool.pieces[at + 6], x, y, w, h)
    this.px = x
    this.py = y
    this.proot = pool.pieces[at + 6]
    this.ptouch = touches
    const n = this.blocks.length
    let any = touches && this.offerSplits(s, x, y, w, h, stage, lost, zones)
    for (let k = 0; k < n; k++) {
      if (bw[k] > w || bh[k] > h || !this.has(s, k)) continue
      if (allowed !== null && !isAllowed(allowed, this.blocks[k].needs)) continue
      if (touches && blocker(zones, this.blocks[k], x, y) !== null) {
        const dx = dodgeX(zones, this.blocks[k], x, y, w, this.prep.kerf + 1)
        if (dx > 0) any = this.offer(s, k, w, h, stage, dx, 0, lost) || any
        const dy = dodgeY(zones, this.blocks[k], x, y, h, this.prep.kerf + 1)
        if (dy > 0) any = this.offer(s, k, w, h, stage, 0, dy, lost) || any
      } else any = this.offer(s, k, w, h, stage, 0, 0, lost) || any
    }
    return any
  }

  /** Cuts along the edges of the zones in a piece, so that clear pieces are seen as such. */
  private offerSplits(
    s: number,
    x: number,
    y: number,
    w: number,
    h: number,
    stage: number,
    lost: number,
    zones: readonly Zone[],
  ): boolean {
    let any = false
    for (let q = 0; q < zones.length; q++) {
      const z = zones[q]
      if (z.x0 >= x + w || z.x1 <= x || z.y0 >= y + h || z.y1 <= y) continue
      for (let side = 0; side < 4; side++) {
        const dir = side >> 1
        const at = dir === 0 ? (side === 0 ? z.x0 : z.x1) - x : (side === 2 ? z.y0 : z.y1) - y
        if (at <= this.prep.kerf || at >= (dir === 0 ? w : h)) continue
        if (dir === 0 ? !canCrosscut(this.prep, w, h) : !canRip(this.prep, w, h, at)) continue
        if (nextStage(stage, dir as 0 | 1) >> 1 > this.prep.stages) continue
        const parts =
          dir === 0
            ? this.loss(this.proot, x, y, at, h) + this.loss(this.proot, x + at, y, w - at, h)
            : this.loss(this.proot, x, y, w, at) + this.loss(this.proot, x, y + at, w, h - at)
        const gained = Math.max(this.pool.gain[s] / this.density, this.fair)
        this.moves.keep((lost + parts) / gained + 1e-7, s, -1, dir, at, 0)
        any = true
      }
    }
    return any
  }

  private restLoss(dx: number, dy: number, w: number, h: number): number {
    return this.ptouch ? this.loss(this.proot, this.px + dx, this.py + dy, w, h) : this.lengths.hopeless(w, h)
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
      if (!canCrosscut(this.prep, w, h)) return false
      stage = nextStage(stage, 0)
      lost += this.restLoss(0, 0, dx, h)
      w -= dx
    }
    if (dy > 0) {
      if (!canRip(this.prep, w, h, dy)) return false
      stage = nextStage(stage, 1)
      lost += this.restLoss(dx, 0, w, dy)
      h -= dy
    }
    const a = this.bw[k]
    const b = this.bh[k]
    const gained = (this.pool.gain[s] + this.bgain[k]) / this.density
    if (this.moves.isBeaten((lost / gained) * this.bjit[k])) return true
    let any = false
    for (let split = 0; split < 2; split++) {
      if (split === 1 && (w === a || h === b)) break
      if (!this.isSplitAllowed(k, w, h, stage, split)) continue
      const rest =
        split === 0
          ? (w > a ? this.restLoss(dx + a, dy, w - a, h) : 0) +
            (h > b ? this.restLoss(dx, dy + b, a, h - b) : 0)
          : (h > b ? this.restLoss(dx, dy + b, w, h - b) : 0) +
            (w > a ? this.restLoss(dx + a, dy, w - a, b) : 0)
      any = true
      this.moves.keep(((lost + rest) / gained + 1e-7) * this.bjit[k], s, k, split, dx, dy)
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
        if (!canCrosscut(this.prep, cw, ch)) return false
        stage = nextStage(stage, 0)
        cw = a
      } else if (dir === 1 && ch > b) {
        if (!canRip(this.prep, cw, ch, b)) return false
        stage = nextStage(stage, 1)
        ch = b
      }
    }
    const block = this.blocks[k]
    let used = stage >> 1
    if (block.dir >= 0) used += block.stages - (used > 0 && (stage & 1) === block.dir ? 1 : 0)
    return used <= this.prep.stages
  }

  private advance(): void {
    this.nextCount = 0
    this.level++
    for (let c = 0; c < this.moves.count; c++) this.apply(c)
    const old = this.base
    this.base = this.nextBase
    this.nextBase = old
    this.count = this.nextCount
  }

  /** Whether a state like this one was already made on this level; remembers it. */
  private isSeen(hash: number): boolean {
    const mask = this.seenKey.length - 1
    let at = Math.imul(hash, 0x9e3779b1) & mask
    while (this.seenLevel[at] === this.level) {
      if (this.seenKey[at] === hash) return true
      at = (at + 1) & mask
    }
    this.seenLevel[at] = this.level
    this.seenKey[at] = hash
    return false
  }

  /** Makes the state of a candidate, unless one just like it was made on this level. */
  private apply(c: number): void {
    const { pool } = this
    const s = this.moves.state[c]
    const k = this.moves.block[c]
    const m = this.items.length
    const t = this.nextBase + this.nextCount
    pool.rem.copyWithin(t * m, s * m, s * m + m)
    if (k >= 0) {
      const end = this.bfrom[k + 1]
      for (let q = this.bfrom[k]; q < end; q += 2) pool.rem[t * m + this.need[q]] -= this.need[q + 1]
    }
    const top = pool.open[s] - 1
    const from = (s * MAX_OPEN + top) * PIECE
    pool.pieces.copyWithin(t * MAX_OPEN * PIECE, s * MAX_OPEN * PIECE, from)
    pool.open[t] = top
    pool.gain[t] = pool.gain[s] + (k >= 0 ? this.bgain[k] : 0)
    pool.score[t] = pool.score[s] + (k >= 0 ? this.bscore[k] : 0)
    pool.area[t] = pool.area[s] + (k >= 0 ? this.barea[k] : 0)
    pool.worth[t] = pool.worth[s]
    pool.hash[t] = (pool.hash[s] + (k >= 0 ? this.bhash[k] : 0)) | 0
    const w = pool.pieces[from + 2]
    const h = pool.pieces[from + 3]
    const root = pool.pieces[from + 6]
    const before = this.loss(root, pool.pieces[from], pool.pieces[from + 1], w, h)
    pool.lost[t] = pool.lost[s] - before + (k >= 0 ? this.bloss[k] : 0)
    if (k >= 0) this.leave(t, from, root, c)
    else this.leaveSplit(t, from, root, c)
    if (this.isSeen(this.hashOf(t))) return
    this.steps++
    pool.node[t] = this.tree.add(pool.node[s], pool.pieces[from + 5], this.moves, c)
    for (let p = top; p < pool.open[t]; p++) {
      pool.pieces[(t * MAX_OPEN + p) * PIECE + 5] += pool.node[t] * 8
    }
    this.nextCount++
  }

  /** The rests of a move; the smaller goes on top, so that it is filled first. */
  private leave(t: number, from: number, root: number, c: number): void {
    const { pieces } = this.pool
    const k = this.moves.block[c]
    const split = this.moves.split[c]
    const dx = this.moves.dx[c]
    const dy = this.moves.dy[c]
    let x = pieces[from]
    let y = pieces[from + 1]
    let w = pieces[from + 2]
    let h = pieces[from + 3]
    let stage = pieces[from + 4]
    if (dx > 0) {
      stage = nextStage(stage, 0)
      this.push(t, x, y, dx, h, stage, SLOT.left, root)
      x += dx
      w -= dx
    }
    if (dy > 0) {
      stage = nextStage(stage, 1)
      this.push(t, x, y, w, dy, stage, SLOT.below, root)
      y += dy
      h -= dy
    }
    const a = this.bw[k]
    const b = this.bh[k]
    if (split === 0) {
      const s1 = w > a ? nextStage(stage, 0) : stage
      const s2 = nextStage(s1, 1)
      const isRightFirst = (w - a) * h > a * (h - b)
      if (w > a && isRightFirst) this.push(t, x + a, y, w - a, h, s1, SLOT.right, root)
      if (h > b) this.push(t, x, y + b, a, h - b, s2, SLOT.above, root)
      if (w > a && !isRightFirst) this.push(t, x + a, y, w - a, h, s1, SLOT.right, root)
    } else {
      const s1 = h > b ? nextStage(stage, 1) : stage
      const s2 = nextStage(s1, 0)
      const isAboveFirst = (h - b) * w > b * (w - a)
      if (h > b && isAboveFirst) this.push(t, x, y + b, w, h - b, s1, SLOT.above, root)
      if (w > a) this.push(t, x + a, y, w - a, b, s2, SLOT.right, root)
      if (h > b && !isAboveFirst) this.push(t, x, y + b, w, h - b, s1, SLOT.above, root)
    }
  }

  /** The two pieces of a cut along a zone's edge. */
  private leaveSplit(t: number, from: number, root: number, c: number): void {
    const { pieces } = this.pool
    const x = pieces[from]
    const y = pieces[from + 1]
    const w = pieces[from + 2]
    const h = pieces[from + 3]
    const at = this.moves.dx[c]
    const dir = this.moves.split[c] as 0 | 1
    const stage = nextStage(pieces[from + 4], dir)
    const isFirstLarger = 2 * at > (dir === 0 ? w : h)
    for (let turn = 0; turn < 2; turn++) {
      const isFirst = (turn === 0) === isFirstLarger
      if (dir === 0) {
        if (isFirst) this.push(t, x, y, at, h, stage, SLOT.left, root)
        else this.push(t, x + at, y, w - at, h, stage, SLOT.right, root)
      } else if (isFirst) this.push(t, x, y, w, at, stage, SLOT.left, root)
      else this.push(t, x, y + at, w, h - at, stage, SLOT.right, root)
    }
  }

  private push(
    t: number,
    x: number,
    y: number,
    w: number,
    h: number,
    stage: number,
    slot: number,
    root: number,
  ): void {
    const { pool } = this
    const isOpen = pool.open[t] < MAX_OPEN && this.anyFits(t, w, h, root)
    if (!isOpen) {
      pool.lost[t] += w * h
      pool.worth[t] += w * h * Math.sqrt(w * h)
      return
    }
    pool.lost[t] += this.loss(root, x, y, w, h)
    const at = (t * MAX_OPEN + pool.open[t]) * PIECE
    const p = pool.pieces
    p[at] = x
    p[at + 1] = y
    p[at + 2] = w
    p[at + 3] = h
    p[at + 4] = stage
    p[at + 5] = slot
    p[at + 6] = root
    pool.open[t]++
  }

  /** Whether a single part still wanted fits; singles come first among the blocks. */
  private anyFits(t: number, w: number, h: number, root: number): boolean {
    if (w < this.minW || h < this.minH) return false
    const { bw, bh, need } = this
    const base = t * this.items.length
    const { rem } = this.pool
    const { allowed } = this.roots[root]
    for (let k = 0; k < this.singles; k++) {
      if (bw[k] > w || bh[k] > h || rem[base + need[k * 2]] <= 0) continue
      if (allowed === null || allowed[this.blocks[k].item] === 1) return true
    }
    return false
  }

  /** What is left to do in a state. Where it lies counts only on a board with zones. */
  private hashOf(t: number): number {
    const { pool } = this
    let b = pool.hash[t]
    const base = t * MAX_OPEN * PIECE
    const places = this.hasZones || this.isMasked
    for (let k = 0; k < pool.open[t]; k++) {
      const p = base + k * PIECE
      b = (Math.imul(b, 0x01000193) ^ (pool.pieces[p + 2] | 0)) | 0
      b = (Math.imul(b ^ (b >>> 15), 0x2c1b3c6d) ^ (pool.pieces[p + 3] | 0)) | 0
      if (places) {
        b = (Math.imul(b, 0x01000193) ^ (pool.pieces[p] + 7919 * pool.pieces[p + 1])) | 0
        b = (b + Math.imul(pool.pieces[p + 6], 0x27d4eb2f)) | 0
      }
    }
    return b
  }

  private result(node: number, gain: number, worth: number, area: number): Filling {
    const moves = this.tree.pathTo(node, this.blocks)
    const used = new Map<number, number>()
    for (let m = moves.length - 1; m >= 0; m--) {
      const { block } = moves[m]
      for (let k = 0; block !== null && k < block.needs.length; k++) {
        used.set(block.needs[k], (used.get(block.needs[k]) ?? 0) + block.counts[k])
      }
    }
    return { gain, worth, area, items: [...used.keys()], counts: [...used.values()], moves }
  }
}

function isAllowed(allowed: Uint8Array | null, needs: readonly number[]): boolean {
  if (allowed === null) return true
  for (let k = 0; k < needs.length; k++) if (allowed[needs[k]] === 0) return false
  return true
}

/** A number of its own for each blank, for hashing. */
function mix(i: number): number {
  let x = Math.imul(i + 1, 0x9e3779b1)
  x = Math.imul(x ^ (x >>> 15), 0x85ebca6b)
  return (x ^ (x >>> 13)) | 1
}
