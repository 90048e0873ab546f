/**
 * What any clear rectangle can yield at most, at given prices of the parts, without demand limits: the table of
 * free-table.ts on a coarse grid that serves hundreds of boards at once. Sizes of parts and of rectangles are both
 * rounded down to the grid; since sums of rounded sizes never exceed the rounded sum, every value is a bound.
 * In: Prepared, prices, the blanks that take part, the largest rectangle. Out: values. Nothing is cut from it.
 * Cost: cells x (columns + rows) / 4. Tests: tests/core/cutting/pool-bound.test.ts
 */
import type { Prepared } from './prepared'

/** So that a size that is a whole number of units but for rounding stays one. */
const TINY = 1e-9

export class PriceTable {
  private readonly value: Float64Array
  private readonly nx: number
  private readonly ny: number
  private readonly perX: number
  private readonly perY: number

  /**
   * @param size the largest rectangle that will be asked for
   * @param cells of the grid; none may be larger than a part
   * @throws RangeError where a part is smaller than a cell
   */
  constructor(
    prep: Prepared,
    prices: Float64Array,
    items: readonly number[],
    size: { readonly w: number; readonly h: number },
    cells: { readonly x: number; readonly y: number },
  ) {
    this.nx = cells.x
    this.ny = cells.y
    this.perX = cells.x / size.w
    this.perY = cells.y / size.h
    this.value = new Float64Array((cells.x + 1) * (cells.y + 1))
    for (const i of items) {
      if (prices[i] <= 0) continue
      this.seed(prep.w[i], prep.h[i], prices[i])
      if (prep.free[i] === 1) this.seed(prep.h[i], prep.w[i], prices[i])
    }
    this.solve()
  }

  private column(w: number): number {
    return Math.min(this.nx, Math.floor(w * this.perX + TINY))
  }

  private row(h: number): number {
    return Math.min(this.ny, Math.floor(h * this.perY + TINY))
  }

  private seed(w: number, h: number, price: number): void {
    if (w * this.perX > this.nx + TINY || h * this.perY > this.ny + TINY) return
    const [x, y] = [this.column(w), this.row(h)]
    if (x === 0 || y === 0) throw new RangeError(`cells: ${x === 0 ? w : h} is less than one`)
    const at = x * (this.ny + 1) + y
    if (price > this.value[at]) this.value[at] = price
  }

  /** Hot loops: every cut of every rectangle, small rectangles first. */
  private solve(): void {
    const { nx, ny, value } = this
    const stride = ny + 1
    for (let x = 1; x <= nx; x++) {
      const own = x * stride
      for (let y = 0; y < stride; y++) {
        if (value[own - stride + y] > value[own + y]) value[own + y] = value[own - stride + y]
      }
      for (let c = 1; 2 * c <= x; c++) {
        const a = c * stride
        const b = (x - c) * stride
        for (let y = 1; y < stride; y++) {
          const v = value[a + y] + value[b + y]
          if (v > value[own + y]) value[own + y] = v
        }
      }
      for (let y = 1; y < stride; y++) {
        let best = value[own + y]
        if (value[own + y - 1] > best) best = value[own + y - 1]
        for (let c = 1; 2 * c <= y; c++) {
          const v = value[own + c] + value[own + y - c]
          if (v > best) best = v
        }
        value[own + y] = best
      }
    }
  }

  /** @returns no clear rectangle of this shifted size yields more */
  valueOf(w: number, h: number): number {
    return this.value[this.column(w) * (this.ny + 1) + this.row(h)]
  }
}
