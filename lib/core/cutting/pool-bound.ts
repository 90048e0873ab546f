/**
 * What making everything costs at least, where many different boards may be used. The rule "enough of every part" is
 * given up for prices: then each board is taken or left by itself, for what it yields at most less what it costs
 * (Lagrangian relaxation; Geoffrion 1974). Any prices of at least 0 give a bound, so whoever has good ones may ask and
 * stop at any time. What a board yields at most is told by tables without demand limits (price-table.ts, with zones
 * zoned-value.ts) and by the fractional knapsack over its area, with demand limits.
 * In: Prepared, prices. Out: a bound, and the best multiple of the prices. Tests: tests/core/cutting/pool-bound.test.ts
 */
import { usableArea } from './bounds'
import { gridUnit } from './free-table'
import type { BoardClass, Prepared } from './prepared'
import { PriceTable } from './price-table'
import { ZonedValues } from './zoned-value'

/** Boards that the same blanks may come from, and a size that holds them all. */
interface Group {
  readonly classes: readonly BoardClass[]
  readonly items: readonly number[]
  readonly w: number
  readonly h: number
  /** Shortest side of a part along and across. */
  readonly leastW: number
  readonly leastH: number
}

/** Cells of a table: for choosing boards, and for a bound. */
const ROUGH = { x: 350, y: 80, most: 700 }
const SHARP = { x: 900, y: 180, most: 1_600 }

export interface Priced {
  readonly bound: number
  /** The prices times this give that bound. */
  readonly scale: number
  /** What each class of boards yields at most, at the prices as given. */
  readonly values: Float64Array
}

export class PoolBound {
  /** The best bound so far, and the prices that gave it. */
  best = 0
  bestPrices: Float64Array
  private readonly groups: readonly Group[]
  private readonly usable: Float64Array
  private readonly zoned: ZonedValues
  private readonly unit: number

  constructor(
    private readonly prep: Prepared,
    private readonly reach: Int32Array,
    shouldStop: () => boolean,
  ) {
    this.usable = Float64Array.from(prep.classes, usableArea)
    this.groups = groupsOf(prep, reach)
    this.unit = gridUnit(prep)
    this.zoned = new ZonedValues(prep, shouldStop)
    this.bestPrices = new Float64Array(prep.n)
  }

  /** What each class of boards yields at most at these prices; quick, zones only by their area. */
  values(prices: Float64Array, wanted: Int32Array = this.reach, isSharp = false): Float64Array {
    const out = new Float64Array(this.prep.classes.length)
    for (const group of this.groups) {
      const items = group.items.filter((i) => wanted[i] > 0 && prices[i] > 0)
      if (items.length === 0) continue
      const table = this.tableOf(group, items, prices, isSharp)
      const byArea = areaValues(this.prep, items, prices, wanted)
      for (const { index, w, h } of group.classes) {
        const most = byArea(this.usable[index])
        out[index] = table === null ? most : Math.min(most, table.valueOf(w, h))
      }
    }
    return out
  }

  /** A bound at the best multiple of the prices. @param isSharp zones are looked at more closely; takes seconds */
  price(prices: Float64Array, isSharp: boolean): Priced {
    const values = this.values(prices, this.reach, isSharp)
    let answer = this.bestMultiple(prices, values)
    if (isSharp) {
      this.sharpen(prices, values, answer.scale)
      answer = this.bestMultiple(prices, values)
    }
    if (answer.bound > this.best) {
      this.best = answer.bound
      this.bestPrices = prices.map((p) => p * answer.scale)
    }
    return answer
  }

  private tableOf(
    group: Group,
    items: readonly number[],
    prices: Float64Array,
    isSharp: boolean,
  ): PriceTable | null {
    const { x, y, most } = isSharp ? SHARP : ROUGH
    // No finer than the sizes themselves, no coarser than the smallest part.
    const finest = (size: number): number => Math.max(1, Math.floor(size / this.unit))
    const cells = {
      x: Math.max(Math.min(x, finest(group.w)), Math.ceil((1.01 * group.w) / group.leastW)),
      y: Math.max(Math.min(y, finest(group.h)), Math.ceil((1.01 * group.h) / group.leastH)),
    }
    if (cells.x > most || cells.y > most) return null
    return new PriceTable(this.prep, prices, items, group, cells)
  }

  /** Boards with zones that would be taken at these prices. */
  private sharpen(prices: Float64Array, values: Float64Array, scale: number): void {
    for (const group of this.groups) {
      const items = group.items.filter((i) => prices[i] > 0)
      if (items.length === 0) continue
      const table = this.tableOf(group, items, prices, true)
      if (table === null) continue
      for (const cls of group.classes) {
        if (cls.zones.length === 0 || values[cls.index] * scale <= cls.cost) continue
        values[cls.index] = Math.min(values[cls.index], this.zoned.valueOf(cls, items, table))
      }
    }
  }

  /** The bound is concave in the multiple: its best is where one more board would pay. */
  private bestMultiple(prices: Float64Array, values: Float64Array): Priced {
    const { prep, reach } = this
    let total = 0
    for (let i = 0; i < prep.n; i++) total += prices[i] * reach[i]
    const turns = prep.classes
      .filter((c) => values[c.index] > 0)
      .map((c) => ({ at: c.cost / values[c.index], slope: values[c.index] * c.count }))
      .sort((a, b) => a.at - b.at)
    let slope = total
    let scale = 0
    for (const t of turns) {
      if (slope <= 0) break
      scale = t.at
      slope -= t.slope
    }
    // So that the board which decides the multiple is not worth taking, whatever the rounding.
    scale *= 1 - 1e-12
    let bound = scale * total
    for (const c of prep.classes) {
      const over = scale * values[c.index] - c.cost
      if (over > 0) bound -= over * c.count
    }
    // Prices at which every board is worth taking bound nothing: then not everything can be made.
    const isBound = slope <= 0 && Number.isFinite(bound)
    return { bound: isBound ? bound * (1 - 1e-9) : 0, scale, values }
  }
}

function groupsOf(prep: Prepared, reach: Int32Array): Group[] {
  const byMask = new Map<string, BoardClass[]>()
  for (const cls of prep.classes) {
    const key = cls.allowed === null ? '' : cls.allowed.join('')
    const list = byMask.get(key)
    if (list === undefined) byMask.set(key, [cls])
    else list.push(cls)
  }
  const groups: Group[] = []
  for (const classes of byMask.values()) {
    const { allowed } = classes[0]
    const items: number[] = []
    for (let i = 0; i < prep.n; i++) {
      if (reach[i] > 0 && (allowed === null || allowed[i] === 1)) items.push(i)
    }
    if (items.length === 0) continue
    const least = (own: Float64Array, turned: Float64Array): number =>
      Math.min(...items.map((i) => (prep.free[i] === 1 ? Math.min(own[i], turned[i]) : own[i])))
    groups.push({
      classes,
      items,
      w: Math.max(...classes.map((c) => c.w)),
      h: Math.max(...classes.map((c) => c.h)),
      leastW: least(prep.w, prep.h),
      leastH: least(prep.h, prep.w),
    })
  }
  return groups
}

/** The most that an area can yield: the parts of the highest price for their area first, with demand limits. */
function areaValues(
  prep: Prepared,
  items: readonly number[],
  prices: Float64Array,
  wanted: Int32Array,
): (area: number) => number {
  const order = [...items].sort((a, b) => prices[b] / prep.area[b] - prices[a] / prep.area[a])
  return (area) => {
    let left = area
    let value = 0
    for (const i of order) {
      const n = Math.min(wanted[i], left / prep.area[i])
      value += n * prices[i]
      left -= n * prep.area[i]
      if (left <= 0) break
    }
    return value
  }
}
