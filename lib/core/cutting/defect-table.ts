/**
 * One board with zones and no demand limits, solved exactly. Where a part lies matters, so the table runs over the
 * rectangles of the board between candidate coordinates: sums of part sizes from the board's edge or a zone's far
 * edge (every layout can be pushed left and down until its parts touch one). Dynamic programming from small to large
 * (Hahn 1968; Afsharian et al. 2014; Martin et al. 2020), one row of memory for each span along the grain, so that
 * crosscuts are sums of whole rows.
 * In: Prepared, a board class. Out: value and sections, or null above the limits. Tests: tests/core/cutting/tables.test.ts
 */
import { type Block, singleBlocks } from './blocks'
import { nextStage } from './moves'
import type { BoardClass, Prepared } from './prepared'
import { joinSections, restSection, type Section, soleSection } from './section'

const MOST_BYTES = 160e6
const MOST_WORK = 6e9

/** Number of the span from point a to point b > a, short spans of one start together. */
export const spanOf = (n: number, a: number, b: number): number => (a * (2 * n - a - 1)) / 2 + (b - a - 1)

interface Size {
  readonly w: number
  readonly h: number
  readonly stage: number
}

export class DefectTable {
  private readonly prep: Prepared
  private readonly cls: BoardClass
  private readonly xs: readonly number[]
  private readonly ys: readonly number[]
  private readonly blocks: readonly Block[]
  private readonly spansY: number
  private readonly value: Int32Array | Float64Array

  private constructor(prep: Prepared, cls: BoardClass, xs: number[], ys: number[], blocks: readonly Block[]) {
    this.prep = prep
    this.cls = cls
    this.xs = xs
    this.ys = ys
    this.blocks = blocks
    this.spansY = (ys.length * (ys.length - 1)) / 2
    const cells = ((xs.length * (xs.length - 1)) / 2) * this.spansY
    this.value = isSmallWhole(prep, cls, blocks) ? new Int32Array(cells) : new Float64Array(cells)
  }

  /** @returns null where the table would be too large, or the caller wants to stop */
  static make(prep: Prepared, cls: BoardClass, shouldStop: () => boolean): DefectTable | null {
    const may = (i: number): boolean => cls.allowed === null || cls.allowed[i] === 1
    const blocks = singleBlocks(prep).filter((b) => may(b.item) && b.w <= cls.w && b.h <= cls.h)
    const startsX = [0]
    const startsY = [0]
    for (const z of cls.zones) {
      if (z.x1 > 0 && z.x1 < cls.w) startsX.push(z.x1)
      if (z.y1 > 0 && z.y1 < cls.h) startsY.push(z.y1)
    }
    const xs = sumsFrom(startsX, new Set(blocks.map((b) => b.w)), cls.w)
    const ys = sumsFrom(startsY, new Set(blocks.map((b) => b.h)), cls.h)
    if (xs === null || ys === null || xs.length < 2 || ys.length < 2) return null
    const cells = (xs.length ** 2 * ys.length ** 2) / 4
    const bytes = isSmallWhole(prep, cls, blocks) ? 4 : 8
    if (cells * bytes > MOST_BYTES || (cells * (xs.length + ys.length)) / 3 > MOST_WORK) return null
    const table = new DefectTable(prep, cls, xs, ys, blocks)
    return table.fill(shouldStop) ? table : null
  }

  /** The most weight from the board, and a way to cut it. */
  answer(): { readonly value: number; readonly root: Section } {
    const { xs, ys, cls } = this
    const [b, d] = [xs.length - 1, ys.length - 1]
    return { value: this.at(0, b, 0, d), root: this.grow(0, b, 0, d, { w: cls.w, h: cls.h, stage: 0 }) }
  }

  private at(a: number, b: number, c: number, d: number): number {
    if (b <= a || d <= c) return 0
    return this.value[spanOf(this.xs.length, a, b) * this.spansY + spanOf(this.ys.length, c, d)]
  }

  private isClear(x: number, y: number, block: Block): boolean {
    for (const z of this.cls.zones) {
      if (z.mask !== null && z.mask[block.item] === 0) continue
      if (x < z.x1 && x + block.w > z.x0 && y < z.y1 && y + block.h > z.y0) return false
    }
    return true
  }

  /** Hot loops: all spans along the grain, the later starts and shorter spans first. */
  private fill(shouldStop: () => boolean): boolean {
    const { xs, spansY, value } = this
    const nx = xs.length
    for (let a = nx - 2; a >= 0; a--) {
      for (let b = a + 1; b < nx; b++) {
        if (shouldStop()) return false
        const row = spanOf(nx, a, b) * spansY
        if (b > a + 1) value.copyWithin(row, row - spansY, row)
        for (let k = a + 1; k < b; k++) {
          const left = spanOf(nx, a, k) * spansY
          const right = spanOf(nx, k, b) * spansY
          for (let p = 0; p < spansY; p++) {
            const v = value[left + p] + value[right + p]
            if (v > value[row + p]) value[row + p] = v
          }
        }
        this.seed(a, b, row)
        this.rips(row)
      }
    }
    return true
  }

  /** Parts that a span is just long enough for, at the corner of each start across. */
  private seed(a: number, b: number, row: number): void {
    const { xs, ys, value, prep } = this
    const ny = ys.length
    const w = xs[b] - xs[a]
    const shorter = b - 1 > a ? xs[b - 1] - xs[a] : 0
    for (const block of this.blocks) {
      if (block.w > w || block.w <= shorter) continue
      for (let c = 0; c + 1 < ny; c++) {
        if (!this.isClear(xs[a], ys[c], block)) continue
        let d = c + 1
        while (d < ny && ys[d] - ys[c] < block.h) d++
        if (d === ny) break
        const p = row + spanOf(ny, c, d)
        if (prep.weight[block.item] > value[p]) value[p] = prep.weight[block.item]
      }
    }
  }

  private rips(row: number): void {
    const { value } = this
    const ny = this.ys.length
    for (let c = ny - 2; c >= 0; c--) {
      const own = row + spanOf(ny, c, c + 1) - (c + 1)
      for (let d = c + 2; d < ny; d++) {
        let best = Math.max(value[own + d], value[own + d - 1])
        for (let k = c + 1; k < d; k++) {
          const v = value[own + k] + value[row + spanOf(ny, k, d)]
          if (v > best) best = v
        }
        value[own + d] = best
      }
    }
  }

  /** Finds again which cut gave a rectangle its value. */
  private grow(a: number, b: number, c: number, d: number, size: Size): Section {
    const { xs, ys, prep } = this
    const r = { x: xs[a], y: ys[c], ...size }
    const value = this.at(a, b, c, d)
    if (value === 0) return restSection(prep, r)
    if (this.at(a, b - 1, c, d) === value) return this.grow(a, b - 1, c, d, size)
    if (this.at(a, b, c, d - 1) === value) return this.grow(a, b, c, d - 1, size)
    for (let k = a + 1; k < b; k++) {
      if (this.at(a, k, c, d) + this.at(k, b, c, d) !== value) continue
      const stage = nextStage(size.stage, 0)
      const at = xs[k] - xs[a]
      const first = this.grow(a, k, c, d, { w: at, h: size.h, stage })
      return joinSections(r, 0, at, first, this.grow(k, b, c, d, { w: size.w - at, h: size.h, stage }))
    }
    for (let k = c + 1; k < d; k++) {
      if (this.at(a, b, c, k) + this.at(a, b, k, d) !== value) continue
      const stage = nextStage(size.stage, 1)
      const at = ys[k] - ys[c]
      const first = this.grow(a, b, c, k, { w: size.w, h: at, stage })
      return joinSections(r, 1, at, first, this.grow(a, b, k, d, { w: size.w, h: size.h - at, stage }))
    }
    const block = this.blocks.find(
      (q) =>
        prep.weight[q.item] === value &&
        q.w <= xs[b] - xs[a] &&
        q.h <= ys[d] - ys[c] &&
        this.isClear(r.x, r.y, q),
    )
    return block === undefined ? restSection(prep, r) : soleSection(prep, r, block)
  }
}

/** Whole weights whose sum over a full board stays small: four bytes each are enough. */
function isSmallWhole(prep: Prepared, cls: BoardClass, blocks: readonly Block[]): boolean {
  let most = 0
  for (const b of blocks) {
    const weight = prep.weight[b.item]
    if (!Number.isSafeInteger(weight)) return false
    most = Math.max(most, weight / b.area)
  }
  return most * cls.w * cls.h < 2 ** 31
}

/** Sums of sizes from any start, each value once; null where they grow too many. */
function sumsFrom(starts: readonly number[], sizes: ReadonlySet<number>, limit: number): number[] | null {
  const seen = new Set<number>(starts)
  const queue = [...starts]
  for (let q = queue.pop(); q !== undefined; q = queue.pop()) {
    for (const s of sizes) {
      const v = q + s
      if (v > limit || seen.has(v)) continue
      seen.add(v)
      queue.push(v)
      if (seen.size > 4_000) return null
    }
  }
  return [...seen].sort((a, b) => a - b)
}
