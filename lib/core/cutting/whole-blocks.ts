/**
 * Every rectangle that parts make without any waste: parts of one height side by side, of one length one above the
 * other, then such blocks joined again. Parts sawn from one board find each other so, and where a board must be used
 * up to the last corner, a board that is no such block cannot be cut at all (each node of a cut tree without waste
 * is one). In: Prepared, what is wanted. Out: blocks, smallest first, and whether these are all there are.
 * Method: bottom-up joining (Wang 1983; Viswanathan and Bagchi 1993) at a waste of 0. Cost: one step a block.
 * Tests: tests/core/cutting/whole-boards.test.ts
 */
import { type Block, join, singleBlocks } from './blocks'
import type { Prepared } from './prepared'
import { canCrosscut, canRip } from './saw-limits'

export interface Whole {
  readonly w: number
  readonly h: number
  /** Blanks, in order, one entry a part. */
  readonly parts: readonly number[]
  /** A bit for each blank, by its number modulo 64: no bit in common, no blank in common. */
  readonly lo: number
  readonly hi: number
  readonly key: number
  readonly single: Block | null
  /** Joined: 0 side by side, 1 one above the other. */
  readonly dir: 0 | 1
  readonly first: Whole | null
  readonly second: Whole | null
}

export interface WholeLimits {
  readonly most: number
  /** Most pairs looked at. */
  readonly mostTries: number
  /** Whether some board takes a block of this size. */
  readonly fits: (w: number, h: number) => boolean
  readonly shouldStop: () => boolean
}

export interface WholeBlocks {
  readonly byHeight: ReadonlyMap<number, readonly Whole[]>
  readonly byLength: ReadonlyMap<number, readonly Whole[]>
  readonly count: number
  /** All blocks were made. */
  readonly isComplete: boolean
  /** Blocks of up to so many parts were all made. */
  readonly completeTo: number
}

const mixed = (i: number, salt: number): number => {
  let x = Math.imul(i + 1, salt)
  x = Math.imul(x ^ (x >>> 15), 0x85ebca6b)
  return x ^ (x >>> 13)
}
/** Sums over the parts, so that the way they were joined does not matter. */
const keyOf = (parts: readonly number[], w: number, h: number): number => {
  let a = (Math.imul(w, 0x27d4eb2f) + Math.imul(h, 0x165667b1)) | 0
  let b = (Math.imul(w, 0x2c1b3c6d) - Math.imul(h, 0x01000193)) | 0
  for (let k = 0; k < parts.length; k++) {
    a = (a + mixed(parts[k], 0x9e3779b1)) | 0
    b = (b + mixed(parts[k], 0x297a2d39)) | 0
  }
  return (a >>> 0) * 0x200000 + (b >>> 11)
}

/** Parts of both in order; null where more of a blank than wanted. */
function merged(a: readonly number[], b: readonly number[], wanted: Int32Array): number[] | null {
  const out: number[] = []
  let run = 0
  for (let i = 0, j = 0; i < a.length || j < b.length; ) {
    const v = j >= b.length || (i < a.length && a[i] <= b[j]) ? a[i++] : b[j++]
    run = out.length > 0 && out[out.length - 1] === v ? run + 1 : 1
    if (run > wanted[v]) return null
    out.push(v)
  }
  return out
}

const isSame = (a: Whole, w: number, h: number, parts: readonly number[]): boolean => {
  if (a.w !== w || a.h !== h || a.parts.length !== parts.length) return false
  for (let k = 0; k < parts.length; k++) if (a.parts[k] !== parts[k]) return false
  return true
}

class Maker {
  readonly byHeight = new Map<number, Whole[]>()
  readonly byLength = new Map<number, Whole[]>()
  count = 0
  private tries = 0
  private isOver = false
  private readonly bySize: Whole[][] = []
  private readonly seen = new Map<number, Whole>()
  constructor(
    private readonly prep: Prepared,
    private readonly wanted: Int32Array,
    private readonly hasCopies: boolean,
    private readonly limits: WholeLimits,
  ) {}

  run(): WholeBlocks {
    for (const b of singleBlocks(this.prep)) {
      if (this.wanted[b.item] <= 0 || !this.limits.fits(b.w, b.h)) continue
      this.add([b.item], b.w, b.h, 0, null, null, b)
    }
    let completeTo = 1
    for (let size = 1; size < this.bySize.length && !this.isOver; size++) {
      for (const b of this.bySize[size] ?? []) {
        this.extend(b)
        if (this.isOver) break
      }
      if (!this.isOver) completeTo = size + 1
    }
    const { byHeight, byLength, count } = this
    return { byHeight, byLength, count, isComplete: !this.isOver, completeTo }
  }

  private extend(b: Whole): void {
    const { prep, limits } = this
    const beside = listOf(this.byHeight, b.h)
    const above = listOf(this.byLength, b.w)
    beside.push(b)
    above.push(b)
    for (let dir = 0 as 0 | 1; dir < 2; dir++) {
      const partners = dir === 0 ? beside : above
      for (let k = 0; k < partners.length; k++) {
        const p = partners[k]
        if ((++this.tries & 1023) === 0 && (this.tries > limits.mostTries || limits.shouldStop())) {
          this.isOver = true
          return
        }
        const isApart = (b.lo & p.lo) === 0 && (b.hi & p.hi) === 0
        if (!isApart && !this.hasCopies && prep.n <= 64) continue
        const w = dir === 0 ? b.w + p.w : b.w
        const h = dir === 0 ? b.h : b.h + p.h
        if (!limits.fits(w, h)) continue
        if (dir === 0 ? !canCrosscut(prep, w, h) : !canRip(prep, w, h, b.h)) continue
        const parts = merged(b.parts, p.parts, this.wanted)
        if (parts !== null) this.add(parts, w, h, dir as 0 | 1, b, p, null)
        if (this.isOver) return
      }
    }
  }

  private add(
    parts: number[],
    w: number,
    h: number,
    dir: 0 | 1,
    first: Whole | null,
    second: Whole | null,
    single: Block | null,
  ): void {
    const key = keyOf(parts, w, h)
    const twin = this.seen.get(key)
    if (twin !== undefined && isSame(twin, w, h, parts)) return
    if (this.count >= this.limits.most) {
      this.isOver = true
      return
    }
    let lo = 0
    let hi = 0
    for (const i of parts) {
      if ((i & 32) === 0) lo |= 1 << (i & 31)
      else hi |= 1 << (i & 31)
    }
    const whole = { w, h, parts, lo, hi, key, single, dir, first, second }
    this.seen.set(key, whole)
    this.count++
    this.bySize[parts.length] ??= []
    this.bySize[parts.length].push(whole)
  }
}

function listOf(map: Map<number, Whole[]>, size: number): Whole[] {
  let list = map.get(size)
  if (list === undefined) {
    list = []
    map.set(size, list)
  }
  return list
}

/** @param wanted how many of each blank may be used */
export function wholeBlocks(prep: Prepared, wanted: Int32Array, limits: WholeLimits): WholeBlocks {
  return new Maker(
    prep,
    wanted,
    wanted.some((v) => v > 1),
    limits,
  ).run()
}

/** The block that the search places; null where the machines refuse a cut inside it. */
export function blockOf(prep: Prepared, whole: Whole): Block | null {
  if (whole.single !== null) return whole.single
  const first = whole.first === null ? null : blockOf(prep, whole.first)
  const second = whole.second === null ? null : blockOf(prep, whole.second)
  return first === null || second === null ? null : join(prep, first, second, whole.dir)
}
