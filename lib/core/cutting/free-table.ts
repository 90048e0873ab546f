/**
 * One clear board without demand limits, solved exactly: the most weight that guillotine cuts can take from every
 * rectangle whose sides are sums of part sizes (dynamic programming: Gilmore and Gomory 1966; normal patterns: Herz
 * 1972; reduced raster points: Scheithauer and Terno 1988, Cintra et al. 2008). With demand limits it is a bound.
 * In: Prepared, a board's shifted size. Out: value of any smaller rectangle, and its sections.
 * Cost: points x points x points / 2; refused above a limit. Tests: tests/core/cutting/free-table.test.ts
 */
import { type Block, singleBlocks } from './blocks'
import { nextStage } from './moves'
import type { Prepared } from './prepared'
import { joinSections, restSection, type Section, soleSection } from './section'
import { gcd } from './subset-sums'

const MOST_GRID = 16_384

/** Sums of sizes, any number of copies, up to `limit`; null above the work limit. */
export function normalSums(
  sizes: readonly number[],
  limit: number,
  starts: readonly number[] = [0],
): number[] {
  const can = new Uint8Array(limit + 1)
  for (const s of starts) if (s <= limit) can[s] = 1
  const out: number[] = []
  for (let q = 0; q <= limit; q++) {
    if (can[q] === 0) continue
    out.push(q)
    for (const s of sizes) if (q + s <= limit) can[q + s] = 1
  }
  return out
}

/** Index of the largest point not above each length. */
export function floors(points: readonly number[], limit: number): Int32Array {
  const at = new Int32Array(limit + 1)
  let k = 0
  for (let q = 0; q <= limit; q++) {
    while (k + 1 < points.length && points[k + 1] <= q) k++
    at[q] = k
  }
  return at
}

/** Points that a first cut can need: the largest sum that leaves each sum on the other side. */
function rasterOf(sums: readonly number[], limit: number): number[] {
  const at = floors(sums, limit)
  const raster = new Set<number>([0, limit])
  for (const s of sums) raster.add(sums[at[limit - s]])
  return [...raster].sort((a, b) => a - b)
}

/** Common divisor of all shifted part sizes. */
export function gridUnit(prep: Prepared): number {
  let g = 0
  for (let i = 0; i < prep.n; i++) g = gcd(gcd(g, prep.w[i]), prep.h[i])
  return Math.max(1, g)
}

export class FreeTable {
  /** Sums of two rectangles looked at. */
  readonly work: number
  private readonly prep: Prepared
  private readonly unit: number
  private readonly xs: readonly number[]
  private readonly ys: readonly number[]
  private readonly atX: Int32Array
  private readonly atY: Int32Array
  private readonly value: Float64Array
  /** 0 nothing; 1 + block; else -1 - 2 x cut index - direction. */
  private readonly choice: Int32Array
  private readonly blocks: readonly Block[]

  private constructor(
    prep: Prepared,
    unit: number,
    xs: number[],
    ys: number[],
    w: number,
    h: number,
    item: (i: number) => boolean,
  ) {
    this.prep = prep
    this.unit = unit
    this.xs = xs
    this.ys = ys
    this.work = (xs.length * ys.length * (xs.length + ys.length)) / 4
    this.atX = floors(xs, w)
    this.atY = floors(ys, h)
    this.value = new Float64Array(xs.length * ys.length)
    this.choice = new Int32Array(xs.length * ys.length)
    this.blocks = singleBlocks(prep).filter((b) => item(b.item))
  }

  /**
   * @param isReduced only the board itself and what its cuts leave will be asked for
   * @param item which blanks take part
   * @param mostWork most sums of two rectangles
   * @returns null where it would take too long
   */
  static make(
    prep: Prepared,
    boardW: number,
    boardH: number,
    isReduced: boolean,
    item: (i: number) => boolean,
    mostWork: number,
    shouldStop: () => boolean,
  ): FreeTable | null {
    const unit = gridUnit(prep)
    const w = Math.floor(boardW / unit)
    const h = Math.floor(boardH / unit)
    if (w > MOST_GRID || h > MOST_GRID) return null
    const blocks = singleBlocks(prep).filter((b) => item(b.item))
    const sumsX = normalSums(
      blocks.map((b) => b.w / unit),
      w,
    )
    const sumsY = normalSums(
      blocks.map((b) => b.h / unit),
      h,
    )
    const xs = isReduced ? rasterOf(sumsX, w) : sumsX
    const ys = isReduced ? rasterOf(sumsY, h) : sumsY
    if ((xs.length * ys.length * (xs.length + ys.length)) / 4 > mostWork) return null
    const table = new FreeTable(prep, unit, xs, ys, w, h, item)
    return table.solve(shouldStop) ? table : null
  }

  /** Hot loop: every cut of every rectangle, small rectangles first. */
  private solve(shouldStop: () => boolean): boolean {
    const { xs, ys, atX, atY, value, choice, blocks, unit, prep } = this
    const ny = ys.length
    const order = blocks.map((b, k) => ({ k, w: b.w / unit, h: b.h / unit, v: prep.weight[b.item] }))
    for (let i = 0; i < xs.length; i++) {
      if (shouldStop()) return false
      const x = xs[i]
      const fits = order.filter((b) => b.w <= x)
      for (let j = 0; j < ny; j++) {
        const y = ys[j]
        let best = 0
        let how = 0
        for (let f = 0; f < fits.length; f++) {
          const b = fits[f]
          if (b.h <= y && b.v > best) {
            best = b.v
            how = 1 + b.k
          }
        }
        for (let c = 1; c < i && xs[c] * 2 <= x; c++) {
          const v = value[c * ny + j] + value[atX[x - xs[c]] * ny + j]
          if (v > best) {
            best = v
            how = -1 - 2 * c
          }
        }
        const row = i * ny
        for (let c = 1; c < j && ys[c] * 2 <= y; c++) {
          const v = value[row + c] + value[row + atY[y - ys[c]]]
          if (v > best) {
            best = v
            how = -2 - 2 * c
          }
        }
        value[row + j] = best
        choice[row + j] = how
      }
    }
    return true
  }

  /** Most weight from a clear rectangle of this shifted size. */
  valueOf(w: number, h: number): number {
    return this.value[this.cell(w, h)]
  }

  private cell(w: number, h: number): number {
    const i = this.atX[Math.floor(w / this.unit)]
    const j = this.atY[Math.floor(h / this.unit)]
    return i * this.ys.length + j
  }

  /** A best way to cut a clear rectangle. */
  sectionOf(r: { x: number; y: number; w: number; h: number; stage: number }): Section {
    const { prep, unit, xs, ys } = this
    const how = this.choice[this.cell(r.w, r.h)]
    if (how === 0) return restSection(prep, r)
    if (how > 0) return soleSection(prep, r, this.blocks[how - 1])
    const code = -1 - how
    const dir = (code & 1) as 0 | 1
    const at = (dir === 0 ? xs[code >> 1] : ys[code >> 1]) * unit
    const stage = nextStage(r.stage, dir)
    const first = dir === 0 ? { ...r, w: at, stage } : { ...r, h: at, stage }
    const second =
      dir === 0 ? { ...r, x: r.x + at, w: r.w - at, stage } : { ...r, y: r.y + at, h: r.h - at, stage }
    return joinSections(r, dir, at, this.sectionOf(first), this.sectionOf(second))
  }
}
