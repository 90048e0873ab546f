/**
 * What the parts from the k-th on are worth at most in a room, two ways, the smaller of which counts.
 * A table over rooms counted in cells, a part counting as the whole cells in it: exact where a cell is one grid unit,
 * else an upper bound, sharp where few parts fill a bar. The fractional bound (Dantzig 1957), sharp where values are
 * near the lengths; it needs the parts in the order of value by length.
 * In: sizes, values, copies. Out: bounds. Cost: parts x cells a load. Tests: tests/core/cutting/knapsack.test.ts
 */

/** Where even the shortest part goes into a bar no more often than this, few parts fill a bar. */
const FEW_A_BAR = 8

export class PartBounds {
  readonly cell: number
  /** Of the parts that are worth something, in order: which, its length, value and copies. */
  readonly item: Int32Array
  readonly size: Float64Array
  readonly value: Float64Array
  readonly copies: Int32Array
  n = 0
  readonly cells: number
  /** Row k: what the k-th part and those after it are worth at most in so many cells. */
  readonly most: Float64Array
  /** Of the parts before the k-th: lengths and values summed. */
  private readonly sumSize: Float64Array
  private readonly sumValue: Float64Array
  private readonly byLength: Int32Array
  /** In the order of value by length; else the longest first. */
  private readonly isByRate: boolean

  /**
   * @param sizes whole grid units
   * @param limit the longest length asked for
   */
  constructor(
    private readonly sizes: Int32Array,
    private readonly limit: number,
    mostCells: number,
  ) {
    this.cell = Math.max(1, Math.ceil(limit / mostCells))
    this.cells = Math.floor(limit / this.cell) + 1
    this.byLength = Int32Array.from(sizes.keys()).sort((a, b) => sizes[b] - sizes[a])
    const n = sizes.length
    this.isByRate = n > 0 && sizes[this.byLength[n - 1]] < limit / FEW_A_BAR
    this.item = new Int32Array(n)
    this.size = new Float64Array(n)
    this.value = new Float64Array(n)
    this.copies = new Int32Array(n)
    this.sumSize = new Float64Array(n + 1)
    this.sumValue = new Float64Array(n + 1)
    this.most = new Float64Array((n + 1) * this.cells)
  }

  /** Parts of no value, no copies or beyond the limit are left out. */
  load(values: ArrayLike<number>, copies: ArrayLike<number>): void {
    const { sizes, limit } = this
    const order = this.isByRate
      ? [...this.byLength].sort((a, b) => values[b] / sizes[b] - values[a] / sizes[a])
      : this.byLength
    let n = 0
    for (const i of order) {
      if (values[i] <= 1e-12 || copies[i] <= 0 || sizes[i] > limit) continue
      this.item[n] = i
      this.size[n] = sizes[i]
      this.value[n] = values[i]
      this.copies[n] = Math.min(copies[i], Math.floor(limit / sizes[i]))
      this.sumSize[n + 1] = this.sumSize[n] + this.copies[n] * sizes[i]
      this.sumValue[n + 1] = this.sumValue[n] + this.copies[n] * values[i]
      n++
    }
    this.n = n
    this.most.fill(0, n * this.cells, (n + 1) * this.cells)
    for (let k = n - 1; k >= 0; k--) this.fillRow(k)
  }

  private fillRow(k: number): void {
    const { most, cells } = this
    const at = k * cells
    const below = at + cells
    const one = Math.floor(this.size[k] / this.cell)
    const value = this.value[k]
    let left = this.copies[k]
    if (left === 1) {
      for (let q = 0; q < one; q++) most[at + q] = most[below + q]
      for (let q = one; q < cells; q++) {
        const without = most[below + q]
        const taken = most[below + q - one] + value
        most[at + q] = Math.max(taken, without)
      }
      return
    }
    most.copyWithin(at, below, below + cells)
    // Any number of copies is a sum of 1, 2, 4, ... and a last one.
    for (let part = 1; left > 0; part *= 2) {
      const take = Math.min(part, left)
      left -= take
      for (let q = cells - 1; q >= one * take; q--) {
        const taken = most[at + q - one * take] + value * take
        if (taken > most[at + q]) most[at + q] = taken
      }
    }
  }

  /** The table's bound on the parts from the k-th on within the room. */
  upper(k: number, room: number): number {
    return this.most[k * this.cells + Math.floor(room / this.cell)]
  }

  /** How many of the k-th part go into the room. */
  fits(k: number, room: number): number {
    return Math.min(this.copies[k], Math.floor(room / this.size[k]))
  }

  /** The last part, from the k-th down to `from`, up to which all parts from `from` on go into the room. */
  whole(from: number, k: number, room: number): number {
    const { sumSize } = this
    const most = sumSize[from] + room
    let end = k
    while (end > from && sumSize[end] > most) end--
    return end
  }

  /** The fractional bound where `whole` of the parts go into the room; Infinity where the order does not allow it. */
  fraction(from: number, whole: number, room: number): number {
    if (!this.isByRate) return Number.POSITIVE_INFINITY
    const value = this.sumValue[whole] - this.sumValue[from]
    if (whole === this.n) return value
    const rest = room - (this.sumSize[whole] - this.sumSize[from])
    return value + (rest * this.value[whole]) / this.size[whole]
  }
}
