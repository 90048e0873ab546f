/**
 * How much of a piece's length and width some sum of wanted parts can use (normal patterns, Herz 1972); the rest of
 * it is lost whatever is done. On a grid: exact while the sizes share a divisor that is coarse enough, else a guide.
 * In: Prepared, the pieces, what is wanted. Out: areas. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Root } from './moves'
import type { Prepared } from './prepared'
import { gcd, largestSums } from './subset-sums'

const GRID = 4096

export class UsableLengths {
  private readonly sums = new Int32Array(GRID * 2 + 1)
  private readonly bits = new Uint32Array((GRID * 2) / 32 + 1)
  private readonly reachX = new Float64Array(GRID * 2 + 1)
  private readonly reachY = new Float64Array(GRID * 2 + 1)
  private perX = 1
  private perY = 1
  private minW = 0
  private minH = 0

  constructor(private readonly prep: Prepared) {}

  /** @param least shortest and narrowest block */
  load(
    roots: readonly Root[],
    items: readonly number[],
    wanted: Int32Array,
    least: { readonly w: number; readonly h: number },
  ): void {
    const { prep } = this
    this.minW = least.w
    this.minH = least.h
    let g = 0
    let [spanX, spanY] = [0, 0]
    for (const r of roots) {
      spanX = Math.max(spanX, r.w)
      spanY = Math.max(spanY, r.h)
    }
    for (const i of items) g = gcd(gcd(g, prep.w[i]), prep.h[i])
    for (const axis of [0, 1]) {
      const span = axis === 0 ? spanX : spanY
      const unit = span / g <= GRID * 2 ? g : span / GRID
      const sizes: number[] = []
      const copies: number[] = []
      for (const i of items) {
        sizes.push(Math.round((axis === 0 ? prep.w[i] : prep.h[i]) / unit))
        copies.push(wanted[i])
        if (prep.free[i] === 0) continue
        sizes.push(Math.round((axis === 0 ? prep.h[i] : prep.w[i]) / unit))
        copies.push(wanted[i])
      }
      const limit = Math.floor(span / unit + 1e-9)
      largestSums(sizes, copies, limit, this.sums, this.bits)
      const reach = axis === 0 ? this.reachX : this.reachY
      for (let q = 0; q <= limit; q++) reach[q] = this.sums[q] * unit
      if (axis === 0) this.perX = 1 / unit
      else this.perY = 1 / unit
    }
  }

  /** Area of a piece that no sum of parts can use; all of it when no part fits. */
  hopeless(w: number, h: number): number {
    if (w < this.minW || h < this.minH) return w * h
    const u = this.reachX[Math.floor(w * this.perX + 1e-6)]
    const v = this.reachY[Math.floor(h * this.perY + 1e-6)]
    return w * h - Math.min(u, w) * Math.min(v, h)
  }
}
