/**
 * What a board with zones can yield at most, at given prices, without demand limits. A table over the rectangles of
 * the board, as in defect-table.ts, but on a lattice as coarse as time allows: cut positions that lie close together
 * form one cluster, of which a rectangle takes the outermost at each of its sides. So every rectangle of a real cutting
 * lies inside one of the lattice, and the value is a bound. Rectangles without zones are read off a PriceTable.
 * In: Prepared, a board class, its PriceTable. Out: values. Cost: columns cubed x rows squared / 12.
 * Tests: tests/core/cutting/pool-bound.test.ts
 */
import { spanOf } from './defect-table'
import type { BoardClass, Prepared, Zone } from './prepared'
import type { PriceTable } from './price-table'

/** Most work for one board: columns cubed x rows squared / 12. */
const MOST_WORK = 4e7
/** Cells in which positions are gathered first. */
const CELLS = 2048

/** Positions of cuts that lie close together: the first and the last of each cluster. */
interface Lattice {
  readonly low: readonly number[]
  readonly high: readonly number[]
}

/** Sums of sizes from any start up to a limit, as clusters no wider than a cell. */
function sumsFrom(starts: readonly number[], sizes: readonly number[], limit: number, per: number): Lattice {
  const cells = Math.floor(limit * per)
  const low = new Float64Array(cells + 1).fill(Number.POSITIVE_INFINITY)
  const high = new Float64Array(cells + 1).fill(Number.NEGATIVE_INFINITY)
  const mark = (from: number, to: number): void => {
    const last = Math.min(cells, Math.floor(to * per))
    for (let q = Math.floor(from * per); q <= last; q++) {
      low[q] = Math.min(low[q], Math.max(from, q / per))
      high[q] = Math.max(high[q], Math.min(to, (q + 1) / per))
    }
  }
  for (const s of starts) if (s <= limit) mark(s, s)
  for (let q = 0; q <= cells; q++) {
    if (low[q] > high[q]) continue
    for (const s of sizes) if (low[q] + s <= limit) mark(low[q] + s, Math.min(limit, high[q] + s))
  }
  const used = Array.from(low.keys()).filter((q) => low[q] <= high[q])
  return { low: used.map((q) => low[q]), high: used.map((q) => high[q]) }
}

/**
 * Where cuts can be needed. Before the first zone parts can be pushed to the near edge, after the last one to the far
 * edge, and between them towards the near edge until they meet a part, a zone or the edge (Herz 1972, Hahn 1968).
 */
function positions(
  zones: readonly (readonly [number, number])[],
  sizes: readonly number[],
  limit: number,
): Lattice {
  const first = Math.min(...zones.map((z) => z[0]))
  const last = Math.min(limit, Math.max(...zones.map((z) => z[1])))
  const per = CELLS / limit
  const starts = zones.map((z) => z[1]).filter((v) => v > 0 && v < limit)
  const near = sumsFrom([0], sizes, Math.max(0, first), per)
  const among = sumsFrom([0, ...starts], sizes, last, per)
  const far = sumsFrom([0], sizes, limit - last, per)
  const pairs = (l: Lattice): [number, number][] => l.low.map((v, k) => [v, l.high[k]])
  const all = [
    ...pairs(near),
    ...pairs(among).flatMap(([from, to]) => (to < first ? [] : [[Math.max(from, first), to]])),
    ...pairs(far).map(([from, to]) => [limit - to, limit - from]),
  ]
  all.sort((p, q) => p[0] - q[0] || p[1] - q[1])
  return { low: all.map((p) => p[0]), high: all.map((p) => p[1]) }
}

/** Joins neighbours as far as the tolerance goes; both edges of the board stay alone. */
function thinned(all: Lattice, limit: number, tolerance: number): Lattice {
  const low = [0]
  const high = [0]
  for (let q = 0; q < all.low.length; q++) {
    if (all.high[q] <= 0 || all.low[q] >= limit) continue
    const last = low.length - 1
    if (last > 0 && all.high[q] - low[last] <= tolerance) high[last] = Math.max(high[last], all.high[q])
    else {
      low.push(all.low[q])
      high.push(all.high[q])
    }
  }
  low.push(limit)
  high.push(limit)
  return { low, high }
}

/** Memory for one board after another. */
export class ZonedValues {
  private value = new Float64Array(0)

  constructor(
    private readonly prep: Prepared,
    private readonly shouldStop: () => boolean,
  ) {}

  /**
   * @param items blanks that may come from the board
   * @returns no cutting of the board yields more; the value without zones where it cannot be told better
   */
  valueOf(cls: BoardClass, items: readonly number[], table: PriceTable): number {
    const clear = table.valueOf(cls.w, cls.h)
    // Zones that only some parts mind, or that the kerf swallows, are left out: the bound stays one.
    const zones = cls.zones.filter((z) => z.mask === null && z.x0 < z.x1 && z.y0 < z.y1)
    if (zones.length === 0) return clear
    const lattices = this.lattices(cls, zones, items)
    if (lattices === null) return clear
    return Math.min(clear, this.solve(zones, lattices[0], lattices[1], table))
  }

  /** Coarser and coarser, until the work is affordable. */
  private lattices(
    cls: BoardClass,
    zones: readonly Zone[],
    items: readonly number[],
  ): readonly [Lattice, Lattice] | null {
    const [w, h] = [this.sizes(items, 0), this.sizes(items, 1)]
    const [leastW, leastH] = [Math.min(...w), Math.min(...h)]
    if (leastW * CELLS < 1.01 * cls.w || leastH * CELLS < 1.01 * cls.h) return null
    const allX = positions(
      zones.map((z) => [z.x0, z.x1] as const),
      w,
      cls.w,
    )
    const allY = positions(
      zones.map((z) => [z.y0, z.y1] as const),
      h,
      cls.h,
    )
    for (let share = 0; share < 0.1; share = Math.max(0.0005, share * 1.3)) {
      if (share * cls.w >= leastW || share * cls.h >= leastH) return null
      const xs = thinned(allX, cls.w, share * cls.w)
      const ys = thinned(allY, cls.h, share * cls.h)
      if (xs.low.length ** 3 * ys.low.length ** 2 <= 12 * MOST_WORK) return [xs, ys]
    }
    return null
  }

  private sizes(items: readonly number[], axis: 0 | 1): number[] {
    const { prep } = this
    const sizes = new Set<number>()
    for (const i of items) {
      sizes.add(axis === 0 ? prep.w[i] : prep.h[i])
      if (prep.free[i] === 1) sizes.add(axis === 0 ? prep.h[i] : prep.w[i])
    }
    return [...sizes]
  }

  /** Hot loops: all spans along the grain, the later starts and shorter spans first. */
  private solve(zones: readonly Zone[], xs: Lattice, ys: Lattice, table: PriceTable): number {
    const nx = xs.low.length
    const ny = ys.low.length
    const spansY = (ny * (ny - 1)) / 2
    const cells = ((nx * (nx - 1)) / 2) * spansY
    if (this.value.length < cells) this.value = new Float64Array(cells)
    const { value } = this
    for (let a = nx - 2; a >= 0; a--) {
      for (let b = a + 1; b < nx; b++) {
        if (this.shouldStop()) return Number.POSITIVE_INFINITY
        const row = spanOf(nx, a, b) * spansY
        const here = zones.filter((z) => xs.high[a] < z.x1 && xs.low[b] > z.x0)
        if (here.length > 0) this.crosscuts(nx, spansY, a, b)
        for (let c = ny - 2; c >= 0; c--) {
          for (let d = c + 1; d < ny; d++) {
            const p = row + spanOf(ny, c, d)
            if (here.some((z) => ys.high[c] < z.y1 && ys.low[d] > z.y0)) this.rips(row, ny, c, d)
            else value[p] = table.valueOf(xs.high[b] - xs.low[a], ys.high[d] - ys.low[c])
          }
        }
      }
    }
    return value[spanOf(nx, 0, nx - 1) * spansY + spanOf(ny, 0, ny - 1)]
  }

  private crosscuts(nx: number, spansY: number, a: number, b: number): void {
    const { value } = this
    const row = spanOf(nx, a, b) * spansY
    if (b > a + 1) value.copyWithin(row, row - spansY, row)
    else value.fill(0, row, row + spansY)
    for (let k = a + 1; k < b; k++) {
      const left = spanOf(nx, a, k) * spansY
      const right = spanOf(nx, k, b) * spansY
      for (let p = 0; p < spansY; p++) {
        const v = value[left + p] + value[right + p]
        if (v > value[row + p]) value[row + p] = v
      }
    }
  }

  private rips(row: number, ny: number, c: number, d: number): void {
    const { value } = this
    const own = row + spanOf(ny, c, c + 1) - (c + 1)
    let best = value[own + d]
    if (d > c + 1 && value[own + d - 1] > best) best = value[own + d - 1]
    for (let k = c + 1; k < d; k++) {
      const v = value[own + k] + value[row + spanOf(ny, k, d)]
      if (v > best) best = v
    }
    value[own + d] = best
  }
}
