/**
 * What no plan can beat: the most weight that the boards could yield, and the least cost of making a weight.
 *
 * Relaxations: each board holds parts up to its usable area (zones that block every blank taken out, kerf counted
 * exactly) and only parts that fit somewhere on it; cutting itself is forgotten. Weight: fractional knapsack over
 * the area of each group of boards; cost: fractional, then whole boards. See column-generation.ts for more.
 * In: Prepared. Out: bounds that hold for every plan. Tests: tests/core/cutting/bounds.test.ts
 */
import type { LpSolver } from './lp'
import type { BoardClass, Prepared } from './prepared'

/** Union of the zones that block every blank within a rectangle of the board, in shifted area. */
export function blockedWithin(cls: BoardClass, x: number, y: number, w: number, h: number): number {
  const boxes = cls.zones
    .filter((z) => z.mask === null && z.x0 < z.x1 && z.y0 < z.y1)
    .map((z) => ({
      x0: Math.max(z.x0, x),
      x1: Math.min(z.x1, x + w),
      y0: Math.max(z.y0, y),
      y1: Math.min(z.y1, y + h),
    }))
    .filter((z) => z.x0 < z.x1 && z.y0 < z.y1)
  if (boxes.length === 0) return 0
  const xs = [...new Set(boxes.flatMap((b) => [b.x0, b.x1]))].sort((a, b) => a - b)
  let area = 0
  for (let i = 0; i + 1 < xs.length; i++) {
    const spans = boxes.filter((b) => b.x0 <= xs[i] && b.x1 >= xs[i + 1]).sort((a, b) => a.y0 - b.y0)
    let end = Number.NEGATIVE_INFINITY
    for (const s of spans) {
      if (s.y1 <= end) continue
      area += (xs[i + 1] - xs[i]) * (s.y1 - Math.max(s.y0, end))
      end = s.y1
    }
  }
  return area
}

/** @returns shifted area that parts can cover at most */
export function usableArea(cls: BoardClass): number {
  return cls.w * cls.h - blockedWithin(cls, 0, 0, cls.w, cls.h)
}

function isClear(cls: BoardClass, item: number, x: number, y: number, w: number, h: number): boolean {
  for (const z of cls.zones) {
    if (z.mask !== null && z.mask[item] === 0) continue
    if (x < z.x1 && x + w > z.x0 && y < z.y1 && y + h > z.y0) return false
  }
  return true
}

/**
 * Whether a w x h rectangle of a blank fits some place of the board clear of its zones. A part that fits can be
 * pushed left and down until it meets the edge or a zone, so those coordinates are enough.
 */
export function fitsSomewhere(cls: BoardClass, item: number, w: number, h: number): boolean {
  if (w > cls.w || h > cls.h) return false
  if (cls.zones.length === 0) return true
  const xs = [0]
  const ys = [0]
  for (const z of cls.zones) {
    if (z.x1 + w <= cls.w) xs.push(Math.max(0, z.x1))
    if (z.y1 + h <= cls.h) ys.push(Math.max(0, z.y1))
  }
  for (const x of xs) for (const y of ys) if (isClear(cls, item, x, y, w, h)) return true
  return false
}

/** Whether the blank may come from the board and fits on it in some orientation. */
export function canHold(prep: Prepared, cls: BoardClass, item: number): boolean {
  if (cls.allowed !== null && cls.allowed[item] === 0) return false
  if (fitsSomewhere(cls, item, prep.w[item], prep.h[item])) return true
  return prep.free[item] === 1 && fitsSomewhere(cls, item, prep.h[item], prep.w[item])
}

/** The demand that some board can take at all, blank by blank. */
export function reachableDemand(prep: Prepared): Int32Array {
  const reach = new Int32Array(prep.n)
  for (let i = 0; i < prep.n; i++) {
    let most = 0
    for (const cls of prep.classes) {
      if (most >= prep.demand[i]) break
      if (canHold(prep, cls, i)) most += cls.count * Math.floor(usableArea(cls) / prep.area[i])
    }
    reach[i] = Math.min(prep.demand[i], most)
  }
  return reach
}

/** Fractional knapsack: most weight from `area`. */
function knapsackWeight(prep: Prepared, items: readonly number[], reach: Int32Array, area: number): number {
  const order = [...items].sort((a, b) => prep.weight[b] / prep.area[b] - prep.weight[a] / prep.area[a])
  let left = area
  let weight = 0
  for (const i of order) {
    const n = Math.min(reach[i], left / prep.area[i])
    weight += n * prep.weight[i]
    left -= n * prep.area[i]
    if (left <= 0) break
  }
  return weight
}

/** All weights whole: a bound rounds down (and a cost bound up). */
export const areWhole = (values: Iterable<number>): boolean => {
  for (const v of values) if (!Number.isSafeInteger(v)) return false
  return true
}

/**
 * No plan makes more weight than this. Blanks are grouped by the boards that they may come from; each group alone,
 * and all together, must fit into the area of the boards open to it.
 */
export function areaWeightBound(prep: Prepared, reach: Int32Array): number {
  const items = Array.from({ length: prep.n }, (_, i) => i).filter((i) => reach[i] > 0)
  const areaOf = (isOpen: (cls: BoardClass) => boolean): number =>
    prep.classes.reduce((sum, c) => (isOpen(c) ? sum + c.count * usableArea(c) : sum), 0)
  const groups = new Map<string, number[]>()
  for (const i of items) {
    const key = prep.classes.map((c) => (c.allowed === null ? 1 : c.allowed[i])).join('')
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [i])
    else group.push(i)
  }
  let split = 0
  for (const group of groups.values()) {
    const area = areaOf((c) => c.allowed === null || c.allowed[group[0]] === 1)
    split += knapsackWeight(prep, group, reach, area)
  }
  const together = knapsackWeight(
    prep,
    items,
    reach,
    areaOf((c) => items.some((i) => c.allowed === null || c.allowed[i] === 1)),
  )
  const bound = Math.min(split, together)
  return areWhole(prep.weight) ? Math.floor(bound + 1e-6) : bound
}

/** Least shifted area that parts of total weight `weight` cover. */
function leastArea(prep: Prepared, reach: Int32Array, weight: number): number {
  const order = Array.from({ length: prep.n }, (_, i) => i).sort(
    (a, b) => prep.weight[b] / prep.area[b] - prep.weight[a] / prep.area[a],
  )
  let left = weight * (1 - 1e-12)
  let area = 0
  for (const i of order) {
    if (left <= 0 || prep.weight[i] === 0) break
    const n = Math.min(reach[i], left / prep.weight[i])
    area += n * prep.area[i]
    left -= n * prep.weight[i]
  }
  return area
}

/** Cheapest boards, cut as finely as wanted, that have `area`. */
function fractionalCost(prep: Prepared, area: number): number {
  const boards = prep.classes
    .map((c) => ({ cost: c.cost, area: usableArea(c), count: c.count }))
    .filter((b) => b.area > 0)
    .sort((a, b) => a.cost / a.area - b.cost / b.area)
  let left = area
  let cost = 0
  for (const b of boards) {
    if (left <= 0) break
    const n = Math.min(b.count, left / b.area)
    cost += n * b.cost
    left -= n * b.area
  }
  return cost
}

/** Most single boards for which the whole-board bound is searched. */
const MOST_SINGLES = 40

/**
 * Cheapest set of whole boards with enough area: depth-first with the fractional bound, at most `nodes` nodes
 * (then the fractional bound of what is open still holds).
 */
function wholeBoardCost(prep: Prepared, area: number, nodes: number): number {
  const boards: { cost: number; area: number }[] = []
  for (const c of prep.classes) {
    const own = usableArea(c)
    const most = Math.min(c.count, Math.ceil(area / Math.max(own, 1)))
    for (let k = 0; k < most && boards.length <= MOST_SINGLES; k++) boards.push({ cost: c.cost, area: own })
  }
  if (boards.length > MOST_SINGLES) return fractionalCost(prep, area)
  boards.sort((a, b) => a.cost / a.area - b.cost / b.area)
  let best = Number.POSITIVE_INFINITY
  let open = Number.POSITIVE_INFINITY
  let left = nodes
  const bound = (from: number, need: number): number => {
    let rest = need
    let cost = 0
    for (let k = from; k < boards.length && rest > 0; k++) {
      const share = Math.min(1, rest / boards[k].area)
      cost += share * boards[k].cost
      rest -= share * boards[k].area
    }
    return rest > 0 ? Number.POSITIVE_INFINITY : cost
  }
  const visit = (from: number, need: number, cost: number): void => {
    if (need <= 0) {
      best = Math.min(best, cost)
      return
    }
    const least = cost + bound(from, need)
    if (least >= best - 1e-9) return
    if (left-- <= 0) {
      open = Math.min(open, least)
      return
    }
    visit(from + 1, need - boards[from].area, cost + boards[from].cost)
    visit(from + 1, need, cost)
  }
  visit(0, area * (1 - 1e-12), 0)
  return Math.min(best, open)
}

/** No plan that makes `weight` costs less than this. */
export function areaCostBound(prep: Prepared, reach: Int32Array, weight: number): number {
  if (weight <= 0) return 0
  const area = leastArea(prep, reach, weight)
  const cost = Math.max(fractionalCost(prep, area), wholeBoardCost(prep, area, 20_000))
  if (!Number.isFinite(cost)) return fractionalCost(prep, area)
  const isWhole = areWhole(prep.classes.map((c) => c.cost))
  return isWhole ? Math.ceil(cost - 1e-6) : cost * (1 - 1e-12)
}

/** Most part-and-class pairs for which the transport program is set up. */
const MOST_PAIRS = 20_000
/** Effort that repeats; the seconds are for a machine that stands still, since a bound that they cut off does not. */
export const BOUND_EFFORT = { nodes: 20, seconds: 10 }

/**
 * The transport relaxation, with an LP solver at hand: parts flow from the boards that can hold each of them, by area.
 * It sees what `areaWeightBound` cannot: that the long parts all need the few long boards.
 * @returns a bound on weight, Infinity where it is not worked out
 */
export function transportWeightBound(prep: Prepared, reach: Int32Array, lp: LpSolver): number {
  const model = transportModel(prep, reach)
  if (model === null) return Number.POSITIVE_INFINITY
  const { pairs, rows } = model
  const columns = pairs.map((p) => ({
    cost: -prep.weight[p.item],
    rows: p.rows,
    coefs: p.coefs,
    upper: reach[p.item],
  }))
  const answer = lp.solve({ rows, columns }, BOUND_EFFORT)
  if (answer.status !== 'optimal') return Number.POSITIVE_INFINITY
  const bound = -answer.bound
  return areWhole(prep.weight) ? Math.floor(bound * (1 + 1e-9) + 1e-6) : bound * (1 + 1e-8)
}

/** Least cost of whole boards for `weight` in the same relaxation; 0 where it is not worked out. */
export function transportCostBound(prep: Prepared, reach: Int32Array, weight: number, lp: LpSolver): number {
  const model = transportModel(prep, reach)
  if (model === null || weight <= 0) return 0
  const { pairs, rows } = model
  const demandRow = rows.length
  const flows = pairs.map((p) => ({
    cost: 0,
    rows: [...p.rows, demandRow],
    coefs: [...p.coefs, prep.weight[p.item] / weight],
    upper: reach[p.item],
  }))
  const boards = prep.classes.map((c) => ({
    cost: c.cost,
    rows: [prep.n + c.index],
    coefs: [-usableArea(c) / model.scale],
    ...(Number.isFinite(c.count) ? { upper: c.count } : {}),
    integer: true,
  }))
  const open = rows.map((r, k) => (k < prep.n ? r : { sense: '<=' as const, rhs: 0 }))
  const all = [...open, { sense: '>=' as const, rhs: 1 - 1e-7 }]
  const answer = lp.solve({ rows: all, columns: [...flows, ...boards] }, BOUND_EFFORT)
  if (answer.status !== 'optimal') return 0
  const isWhole = areWhole(prep.classes.map((c) => c.cost))
  return isWhole ? Math.ceil(answer.bound * (1 - 1e-7) - 1e-6) : answer.bound * (1 - 1e-6)
}

interface Pair {
  readonly item: number
  readonly rows: readonly number[]
  readonly coefs: readonly number[]
}

function transportModel(
  prep: Prepared,
  reach: Int32Array,
): { pairs: Pair[]; rows: { sense: '<='; rhs: number }[]; scale: number } | null {
  if (prep.n * prep.classes.length > MOST_PAIRS) return null
  const scale = Math.max(1, ...prep.classes.map(usableArea))
  const pairs: Pair[] = []
  for (const cls of prep.classes) {
    for (let item = 0; item < prep.n; item++) {
      if (reach[item] === 0 || !canHold(prep, cls, item)) continue
      pairs.push({ item, rows: [item, prep.n + cls.index], coefs: [1, prep.area[item] / scale] })
    }
  }
  const rows: { sense: '<='; rhs: number }[] = []
  for (let i = 0; i < prep.n; i++) rows.push({ sense: '<=', rhs: reach[i] })
  for (const c of prep.classes) {
    const count = Number.isFinite(c.count) ? c.count : 1e6
    rows.push({ sense: '<=', rhs: (count * usableArea(c)) / scale })
  }
  return { pairs, rows, scale }
}
