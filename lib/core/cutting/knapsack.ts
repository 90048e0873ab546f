/**
 * The pricing step of one-dimensional cutting: which parts, each at most so often, are worth most within a length.
 * Three ways. Short grids: dynamic programming over the length, one table for every board length. Long grids: lists of
 * (length, value) states of which none is beaten by another, dropped as soon as the fractional bound shows that they
 * cannot pass the floor (Nemhauser and Ullmann 1969; Pisinger 1997). Filling a bar: depth-first with the fractional
 * bound (Horowitz and Sahni 1974), cut short. Where one is cut, only the upper bound is exact.
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
const SHORT_LIMIT = 4_096
const MOST_STATES = 3_000_000
const EPS = 1e-10

const NOTHING = { items: new Int32Array(0), counts: new Int32Array(0) }

export class Knapsack {
  private readonly sizes: Int32Array
  private readonly n: number
  private readonly limit: number
  private readonly isTable: boolean
  private best = new Float64Array(0)
  private took = new Uint8Array(0)
  /** Pieces: some copies of one item, doubled each time so that any number of copies is a sum of pieces. */
  private pieceItem: number[] = []
  private pieceCopies: number[] = []
  private order: number[] = []
  private values: ArrayLike<number> = []
  private copies: ArrayLike<number> = []
  private lists: StateLists | null = null

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
    this.isTable = limit <= SHORT_LIMIT && pieces * (limit + 1) <= MOST_CELLS
  }

  /** Prepares for these values (those at 0 or below are left out) and copies. */
  load(values: ArrayLike<number>, copies: ArrayLike<number>): void {
    this.values = values
    this.copies = copies
    this.order = []
    for (let i = 0; i < this.n; i++) if (values[i] > 1e-12 && copies[i] > 0) this.order.push(i)
    if (!this.isTable) this.order.sort((a, b) => values[b] / this.sizes[b] - values[a] / this.sizes[a])
    this.pieceItem = []
    this.pieceCopies = []
    for (const i of this.order) {
      let left = Math.min(copies[i], Math.floor(this.limit / this.sizes[i]))
      for (let k = 1; left > 0; k *= 2) {
        const take = Math.min(k, left)
        this.pieceItem.push(i)
        this.pieceCopies.push(take)
        left -= take
      }
    }
    if (this.isTable) this.fillTable()
  }

  private fillTable(): void {
    const { sizes, values, limit } = this
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

  /**
   * The most valuable choice within a length up to the limit.
   * @param floor choices worth no more are of no interest: then nothing may be found, and the bound is the floor
   */
  bestWithin(length: number, floor = 0): Packed {
    return this.manyWithin(length, floor, 1)[0]
  }

  /** The most valuable choice first, then the best ones that end with other parts; all but the first above the floor. */
  manyWithin(length: number, floor: number, most: number): Packed[] {
    if (!this.isTable) {
      this.lists ??= new StateLists()
      return this.lists.solve(this.pieces(), length, floor, most)
    }
    const first = this.readTable(length, this.pieceItem.length)
    const out = [first]
    if (most === 1 || first.value <= floor) return out
    // Ends of prefixes: the best choice among the pieces up to this one, where this one is in it.
    const seen = new Set([keyOf(first)])
    for (let p = this.pieceItem.length - 1; p >= 0 && out.length < most; p--) {
      if (this.took[p * (this.limit + 1) + length] === 0) continue
      const packed = this.readTable(length, p + 1)
      if (packed.value <= floor + 1e-9 || seen.has(keyOf(packed))) continue
      seen.add(keyOf(packed))
      out.push(packed)
    }
    return out
  }

  private pieces(): Pieces {
    const { sizes, values } = this
    const items = Int32Array.from(this.pieceItem)
    const copies = Int32Array.from(this.pieceCopies)
    return {
      items,
      copies,
      sizes: Float64Array.from(items, (i, p) => sizes[i] * copies[p]),
      values: Float64Array.from(items, (i, p) => values[i] * copies[p]),
    }
  }

  /** The best among the first `upTo` pieces. */
  private readTable(length: number, upTo: number): Packed {
    const counts = new Map<number, number>()
    let q = length
    let value = 0
    for (let p = upTo - 1; p >= 0; p--) {
      if (this.took[p * (this.limit + 1) + q] === 0) continue
      const i = this.pieceItem[p]
      counts.set(i, (counts.get(i) ?? 0) + this.pieceCopies[p])
      value += this.values[i] * this.pieceCopies[p]
      q -= this.sizes[i] * this.pieceCopies[p]
    }
    const best = upTo === this.pieceItem.length ? this.best[length] : value
    return {
      value: best,
      bound: best,
      items: Int32Array.from(counts.keys()),
      counts: Int32Array.from(counts.values()),
    }
  }

  /** A very good choice within a length, soon: the best, or what a depth-first search of so many nodes found. */
  goodWithin(length: number, mostNodes: number): Packed {
    return this.isTable ? this.bestWithin(length) : this.search(length, mostNodes)
  }

  private search(length: number, mostNodes: number): Packed {
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
      if (++nodes > mostNodes) {
        isCut = true
        return
      }
      if (value + rest(k, room) <= best + EPS) return
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
    const bound = isCut ? rest(0, length) : best + EPS
    return { value: best, bound, items: Int32Array.from(items), counts: Int32Array.from(counts) }
  }
}

function keyOf(packed: Pick<Packed, 'items' | 'counts'>): string {
  return Array.from(packed.items, (i, k) => i * 4_096 + packed.counts[k])
    .sort((a, b) => a - b)
    .join()
}

/** In the order of value by size, best first. */
interface Pieces {
  readonly items: Int32Array
  readonly copies: Int32Array
  readonly sizes: Float64Array
  readonly values: Float64Array
}

/** Of the pieces up to each: lengths and values summed; of those from each on: the least length. */
interface Sums {
  readonly sumSize: Float64Array
  readonly sumValue: Float64Array
  readonly least: Float64Array
}

/** Undominated (length, value) states, piece after piece. Its arrays are kept between calls. */
class StateLists {
  private size = new Int32Array(1 << 14)
  private value = new Float64Array(1 << 14)
  private parent = new Int32Array(1 << 14)
  private piece = new Int32Array(1 << 14)
  private used = 0

  private add(size: number, value: number, parent: number, piece: number): number {
    if (this.used === this.size.length) {
      const grow = <T extends Int32Array | Float64Array>(from: T, to: T): T => {
        to.set(from)
        return to
      }
      const length = this.used * 2
      this.size = grow(this.size, new Int32Array(length))
      this.value = grow(this.value, new Float64Array(length))
      this.parent = grow(this.parent, new Int32Array(length))
      this.piece = grow(this.piece, new Int32Array(length))
    }
    const s = this.used++
    this.size[s] = size
    this.value[s] = value
    this.parent[s] = parent
    this.piece[s] = piece
    return s
  }

  solve(pieces: Pieces, length: number, floor: number, most: number): Packed[] {
    const n = pieces.sizes.length
    const sumSize = new Float64Array(n + 1)
    const sumValue = new Float64Array(n + 1)
    for (let p = 0; p < n; p++) {
      sumSize[p + 1] = sumSize[p] + pieces.sizes[p]
      sumValue[p + 1] = sumValue[p] + pieces.values[p]
    }
    const least = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY)
    for (let p = n - 1; p >= 0; p--) least[p] = Math.min(least[p + 1], pieces.sizes[p])
    this.used = 0
    let front = [this.add(0, 0, -1, -1)]
    let bestState = 0
    let best = 0
    // The best state of each piece that ends in it.
    const ends: { state: number; value: number }[] = []
    let cutBound = 0
    for (let p = 0; p < n && front.length > 0; p++) {
      if (this.used > MOST_STATES) {
        for (const s of front) {
          const room = length - this.size[s]
          cutBound = Math.max(cutBound, this.value[s] + fraction(pieces, sumSize, sumValue, p, room))
        }
        break
      }
      const { sizes, values } = pieces
      const pSize = sizes[p]
      const pValue = values[p]
      let endState = -1
      let endValue = Math.max(floor, most > 1 ? 0 : best)
      const made: number[] = []
      for (const s of front) {
        const size = this.size[s] + pSize
        if (size > length) break
        const value = this.value[s] + pValue
        const t = this.add(size, value, s, p)
        made.push(t)
        if (value > endValue + 1e-12) {
          endValue = value
          endState = t
        }
        if (value > best + 1e-12) {
          best = value
          bestState = t
        }
      }
      if (endState >= 0) ends.push({ state: endState, value: endValue })
      front = this.merge(
        front,
        made,
        pieces,
        { sumSize, sumValue, least },
        p + 1,
        length,
        Math.max(floor, best),
      )
    }
    const bound = Math.max(best, floor, cutBound) + EPS
    const out = [this.packed(pieces, bestState, best, bound)]
    if (most > 1) {
      ends.sort((a, b) => b.value - a.value)
      for (const e of ends) {
        if (out.length >= most) break
        if (e.state !== bestState && e.value > floor + 1e-9)
          out.push(this.packed(pieces, e.state, e.value, bound))
      }
    }
    return out
  }

  /** Both lists in the order of length, without what is beaten or cannot pass the floor any more. */
  private merge(
    a: readonly number[],
    b: readonly number[],
    pieces: Pieces,
    sums: Sums,
    from: number,
    length: number,
    floor: number,
  ): number[] {
    const { size, value } = this
    const { sumSize, sumValue } = sums
    const least = sums.least[from]
    const n = pieces.sizes.length
    const out: number[] = []
    let i = 0
    let j = 0
    let top = -1
    // The longer a state, the less room: the pointer of the fractional bound only falls.
    let k = n
    while (i < a.length || j < b.length) {
      let s: number
      if (j >= b.length) s = a[i++]
      else if (i >= a.length) s = b[j++]
      else if (size[a[i]] < size[b[j]] || (size[a[i]] === size[b[j]] && value[a[i]] >= value[b[j]]))
        s = a[i++]
      else s = b[j++]
      if (value[s] <= top + 1e-13) continue
      top = value[s]
      const room = length - size[s]
      // No further part fits: as a state to grow from it is done.
      if (room < least) continue
      while (k > from && sumSize[k] - sumSize[from] > room) k--
      let upper = value[s] + sumValue[k] - sumValue[from]
      if (k < n) upper += ((room - (sumSize[k] - sumSize[from])) * pieces.values[k]) / pieces.sizes[k]
      if (upper > floor + EPS) out.push(s)
    }
    return out
  }

  private packed(pieces: Pieces, state: number, value: number, bound: number): Packed {
    if (state === 0) return { value, bound, ...NOTHING }
    const counts = new Map<number, number>()
    for (let s = state; this.parent[s] >= 0; s = this.parent[s]) {
      const p = this.piece[s]
      counts.set(pieces.items[p], (counts.get(pieces.items[p]) ?? 0) + pieces.copies[p])
    }
    return {
      value,
      bound,
      items: Int32Array.from(counts.keys()),
      counts: Int32Array.from(counts.values()),
    }
  }
}

/** What pieces from here on could be worth within the room if they could be divided. */
function fraction(
  pieces: Pieces,
  sumSize: Float64Array,
  sumValue: Float64Array,
  from: number,
  room: number,
): number {
  const n = pieces.sizes.length
  let k = from
  while (k < n && sumSize[k + 1] - sumSize[from] <= room) k++
  const whole = sumValue[k] - sumValue[from]
  if (k === n) return whole
  return whole + ((room - (sumSize[k] - sumSize[from])) * pieces.values[k]) / pieces.sizes[k]
}
