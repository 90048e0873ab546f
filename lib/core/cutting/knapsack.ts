/**
 * The pricing step of one-dimensional cutting: which parts, each at most so often, are worth most within a length.
 * Exact: dynamic programming over the length while it is short enough on its grid (one table for every board length),
 * else depth-first with the fractional bound (Horowitz and Sahni 1974), which may be stopped; then only an upper
 * bound is exact.
 * In: sizes, copies, values. Out: best value, copies, upper bound. Tests: tests/core/cutting/one-dimension.test.ts
 */

export interface Packed {
  readonly value: number
  /** No choice is worth more than this. */
  readonly bound: number
  readonly items: Int32Array
  readonly counts: Int32Array
}

const MOST_CELLS = 12_000_000
const MOST_NODES = 300_000

export class Knapsack {
  private readonly sizes: Int32Array
  private readonly n: number
  private readonly limit: number
  private readonly isTable: boolean
  private best = new Float64Array(0)
  private took = new Uint8Array(0)
  // binary-split pieces: item, copies
  private pieceItem: number[] = []
  private pieceCopies: number[] = []
  private order: number[] = []
  private values: ArrayLike<number> = []
  private copies: ArrayLike<number> = []

  /** @param sizes whole grid units @param limit the longest length asked for */
  constructor(sizes: Int32Array, copies: ArrayLike<number>, limit: number) {
    this.sizes = sizes
    this.n = sizes.length
    this.limit = limit
    let pieces = 0
    for (let i = 0; i < this.n; i++) {
      const most = Math.min(copies[i], Math.floor(limit / Math.max(1, sizes[i])))
      pieces += Math.ceil(Math.log2(most + 1))
    }
    this.isTable = pieces * (limit + 1) <= MOST_CELLS
  }

  /** Prepares for these values (those at 0 or below are left out) and copies. */
  load(values: ArrayLike<number>, copies: ArrayLike<number>): void {
    this.values = values
    this.copies = copies
    if (this.isTable) this.fillTable()
    else {
      this.order = []
      for (let i = 0; i < this.n; i++) if (values[i] > 1e-12 && copies[i] > 0) this.order.push(i)
      this.order.sort((a, b) => values[b] / this.sizes[b] - values[a] / this.sizes[a])
    }
  }

  private fillTable(): void {
    const { sizes, values, copies, limit } = this
    this.pieceItem = []
    this.pieceCopies = []
    for (let i = 0; i < this.n; i++) {
      if (values[i] <= 1e-12) continue
      let left = Math.min(copies[i], Math.floor(limit / sizes[i]))
      for (let k = 1; left > 0; k *= 2) {
        const take = Math.min(k, left)
        this.pieceItem.push(i)
        this.pieceCopies.push(take)
        left -= take
      }
    }
    const cells = this.pieceItem.length * (limit + 1)
    if (this.best.length < limit + 1) this.best = new Float64Array(limit + 1)
    if (this.took.length < cells) this.took = new Uint8Array(cells)
    const { best, took } = this
    best.fill(0)
    for (let p = 0; p < this.pieceItem.length; p++) {
      const size = sizes[this.pieceItem[p]] * this.pieceCopies[p]
      const value = values[this.pieceItem[p]] * this.pieceCopies[p]
      const base = p * (limit + 1)
      for (let q = 0; q < size && q <= limit; q++) took[base + q] = 0
      for (let q = limit; q >= size; q--) {
        const v = best[q - size] + value
        if (v > best[q] + 1e-12) {
          best[q] = v
          took[base + q] = 1
        } else took[base + q] = 0
      }
    }
  }

  /** The most valuable choice within a length up to the limit. */
  bestWithin(length: number): Packed {
    return this.isTable ? this.readTable(length) : this.search(length)
  }

  private readTable(length: number): Packed {
    const counts = new Map<number, number>()
    let q = length
    for (let p = this.pieceItem.length - 1; p >= 0; p--) {
      if (this.took[p * (this.limit + 1) + q] === 0) continue
      const i = this.pieceItem[p]
      counts.set(i, (counts.get(i) ?? 0) + this.pieceCopies[p])
      q -= this.sizes[i] * this.pieceCopies[p]
    }
    const value = this.best[length]
    return {
      value,
      bound: value,
      items: Int32Array.from(counts.keys()),
      counts: Int32Array.from(counts.values()),
    }
  }

  private search(length: number): Packed {
    const { order, sizes, values, copies } = this
    const n = order.length
    const count = new Int32Array(n)
    const bestCount = new Int32Array(n)
    let smallest = Number.POSITIVE_INFINITY
    for (const i of order) smallest = Math.min(smallest, sizes[i])
    let best = 0
    let nodes = 0
    let isCut = false
    const rest = (from: number, room: number): number => {
      let r = room
      let v = 0
      for (let k = from; k < n && r > 0; k++) {
        const take = Math.min(copies[order[k]], r / sizes[order[k]])
        v += take * values[order[k]]
        r -= take * sizes[order[k]]
      }
      return v
    }
    const visit = (k: number, room: number, value: number): void => {
      if (value > best + 1e-12) {
        best = value
        bestCount.set(count)
      }
      if (k === n || room < smallest) return
      if (++nodes > MOST_NODES) {
        isCut = true
        return
      }
      if (value + rest(k, room) <= best + 1e-10) return
      const i = order[k]
      for (let c = Math.min(copies[i], Math.floor(room / sizes[i])); c >= 0; c--) {
        count[k] = c
        visit(k + 1, room - c * sizes[i], value + c * values[i])
        if (isCut) break
      }
      count[k] = 0
    }
    visit(0, length, 0)
    const items: number[] = []
    const counts: number[] = []
    for (let k = 0; k < n; k++) {
      if (bestCount[k] === 0) continue
      items.push(order[k])
      counts.push(bestCount[k])
    }
    const bound = isCut ? rest(0, length) : best + 1e-10
    return { value: best, bound, items: Int32Array.from(items), counts: Int32Array.from(counts) }
  }
}
