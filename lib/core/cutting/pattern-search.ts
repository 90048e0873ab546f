/**
 * Which boards, and which filling of each, together: the linear program over patterns (Gilmore and Gomory 1965) with
 * the board search as pricing, so that its patterns respect zones, machines and demand. The prices that it gives say
 * what a part is worth today, and so which board is worth its cost. Plans come from diving (fix the patterns that the
 * program uses most, price again for what is left), and from taking a few boards out of a plan and diving for their
 * parts alone, with all unused boards to choose from; an integer program ends a small dive.
 * In: Prepared, LP solver, BoardFiller. Out: boards used. Bounds come from pool-bound.ts at the same prices.
 * Not guaranteed: optimality. Tests: tests/core/cutting/pool-bound.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Block } from './blocks'
import { canHold } from './bounds'
import type { BoardFiller } from './fill-board'
import type { LpColumn, LpModel, LpSolver } from './lp'
import type { PoolBound } from './pool-bound'
import type { Prepared } from './prepared'
import { countParts, sectionsOfMoves, type Used } from './section'
import { gcd } from './subset-sums'

interface Pattern extends Used {
  readonly cost: number
  readonly items: readonly number[]
  readonly counts: readonly number[]
  readonly area: number
}

type LpRow = LpModel['rows'][number]

interface Rest {
  readonly wanted: Int32Array
  /** Boards left of each class. */
  readonly left: number[]
}

interface Relaxed {
  readonly value: number
  /** By blank, and by class (0 or less). */
  readonly prices: Float64Array
  readonly limits: Float64Array
  readonly chosen: readonly { readonly pattern: Pattern; readonly x: number }[]
  readonly columns: readonly Pattern[]
  /** Some part has no pattern yet. */
  readonly isShort: boolean
}

export interface PatternTools {
  readonly lp: LpSolver
  readonly filler: BoardFiller
  readonly blocks: readonly Block[]
  readonly rng: Rng
  readonly maxSteps: number
  readonly shouldStop: () => boolean
}

/** Most patterns kept; the worst by the prices of the whole are forgotten. */
const MOST_KEPT = 6_000
const MOST_ROUNDS = 90
/** Boards filled in one round of pricing: of the whole, of a rest. */
const TRIED_WHOLE = 80
const TRIED_REST = 24
const BEAMS = [8, 32, 128]
/** Rounds of pricing before the first and before a later fixing of a dive. */
const ROUNDS_FIRST = 6
const ROUNDS_NEXT = 2
/** Share of a pattern's parts that must still be wanted. */
const STILL_WANTED = 0.75
/** Patterns and search nodes of an integer program. */
const MOST_CHOICE = 700
const MOST_NODES = 200
/** Far above what so few nodes take, so that a plan repeats. */
const MOST_SECONDS = 5

export class PatternSearch {
  private patterns: Pattern[] = []
  private readonly keys = new Set<string>()
  /** Price of a part for which there is no pattern: more than any board that holds it. */
  private readonly dear: Float64Array
  /** Prices of the whole. */
  private prices: Float64Array
  /** Greatest number of which every board's cost is a multiple; 0: none. */
  private readonly costUnit: number

  constructor(
    private readonly prep: Prepared,
    private readonly reach: Int32Array,
    private readonly bound: PoolBound,
    private readonly tools: PatternTools,
  ) {
    this.dear = new Float64Array(prep.n)
    const byCost = [...prep.classes].sort((a, b) => a.cost - b.cost)
    const dearest = Math.max(1e-6, ...prep.classes.map((c) => c.cost))
    for (let i = 0; i < prep.n; i++) {
      const holder = reach[i] === 0 ? undefined : byCost.find((c) => canHold(prep, c, i))
      this.dear[i] = 3 * (holder?.cost ?? dearest) + 1e-3 * dearest
    }
    this.prices = prep.area.slice()
    let unit = 0
    for (const c of prep.classes) unit = Number.isSafeInteger(c.cost) ? gcd(unit, c.cost) : Number.NaN
    this.costUnit = Number.isNaN(unit) ? 0 : unit
  }

  /** Up to what a sum of board costs can be. */
  private roundUp(cost: number): number {
    return this.costUnit > 0 ? Math.ceil(cost / this.costUnit - 1e-6) * this.costUnit : cost
  }

  private isOver(): boolean {
    return this.tools.filler.steps >= this.tools.maxSteps || this.tools.shouldStop()
  }

  /** Takes the fillings of a plan into the program. */
  learn(used: readonly Used[]): void {
    for (const u of used) this.remember(u)
  }

  private remember(u: Used): Pattern | null {
    const made = new Int32Array(this.prep.n)
    countParts(u.root, made, 1)
    const items: number[] = []
    for (let i = 0; i < made.length; i++) if (made[i] > 0) items.push(i)
    const counts = items.map((i) => made[i])
    const key = `${u.cls}:${items.map((i, k) => `${i}x${counts[k]}`).join()}`
    if (items.length === 0 || this.keys.has(key)) return null
    this.keys.add(key)
    const cost = this.prep.classes[u.cls].cost
    const pattern = { ...u, cost, items, counts, area: u.root.area }
    this.patterns.push(pattern)
    return pattern
  }

  /** Forgets the patterns that the prices of the whole speak against most. */
  private prune(): void {
    if (this.patterns.length <= MOST_KEPT) return
    const worth = (p: Pattern): number => {
      let v = -p.cost
      for (let k = 0; k < p.items.length; k++) v += this.prices[p.items[k]] * p.counts[k]
      return v / (p.cost + 1e-9)
    }
    const order = this.patterns.map((p) => ({ p, v: worth(p) })).sort((a, b) => b.v - a.v)
    this.patterns = order.slice(0, MOST_KEPT >> 1).map((o) => o.p)
    this.keys.clear()
    const kept = this.patterns
    this.patterns = []
    for (const p of kept) this.remember(p)
  }

  private fill(
    cls: number,
    wanted: Int32Array,
    gains: Float64Array,
    beam: number,
    jitter: number,
  ): Used | null {
    const { filler, blocks, rng, maxSteps, shouldStop } = this.tools
    const { w, h, zones, allowed } = this.prep.classes[cls]
    const stage = this.prep.rootStage
    const root = { w, h, stage, zones, allowed }
    const maxStates = maxSteps - filler.steps
    if (maxStates <= 0) return null
    const options = { beam, jitter, rng, maxStates, shouldStop }
    const filling = filler.fill([root], blocks, wanted, gains, options)
    if (filling === null || filling.items.length === 0) return null
    return { cls, root: sectionsOfMoves(this.prep, [{ x: 0, y: 0, w, h, stage }], filling.moves)[0] }
  }

  /** The linear program over the patterns that suit a rest. */
  private relax(rest: Rest): Relaxed | null {
    const { prep } = this
    const { rows, rowOf } = demandRows(rest.wanted)
    const limitRow = new Map<number, number>()
    const columns: Pattern[] = []
    const model: LpColumn[] = []
    for (const p of this.patterns) {
      const column = this.columnOf(p, rest, rowOf)
      if (column === null) continue
      if (Number.isFinite(rest.left[p.cls])) {
        let row = limitRow.get(p.cls)
        if (row === undefined) {
          row = rows.length
          limitRow.set(p.cls, row)
          rows.push({ sense: '<=', rhs: rest.left[p.cls] })
        }
        column.rows.push(row)
        column.coefs.push(1)
      }
      columns.push(p)
      model.push(column)
    }
    for (let i = 0; i < prep.n; i++) {
      if (rowOf[i] >= 0) model.push({ cost: this.dear[i], rows: [rowOf[i]], coefs: [1] })
    }
    const answer = this.tools.lp.solve({ rows, columns: model })
    this.tools.filler.steps++
    if (answer.status !== 'optimal') return null
    const prices = new Float64Array(prep.n)
    for (let i = 0; i < prep.n; i++) if (rowOf[i] >= 0) prices[i] = Math.max(0, answer.duals[rowOf[i]])
    const limits = new Float64Array(prep.classes.length)
    for (const [cls, row] of limitRow) limits[cls] = Math.min(0, answer.duals[row])
    const chosen = columns.map((pattern, j) => ({ pattern, x: answer.x[j] })).filter((c) => c.x > 1e-6)
    let isShort = false
    for (let j = columns.length; j < model.length; j++) if (answer.x[j] > 1e-6) isShort = true
    return { value: answer.objective, prices, limits, chosen, columns, isShort }
  }

  /** A pattern as far as its parts are still wanted; null where too few are, or no such board is left. */
  private columnOf(
    p: Pattern,
    rest: Rest,
    rowOf: Int32Array,
  ): { cost: number; rows: number[]; coefs: number[] } | null {
    if (rest.left[p.cls] <= 0) return null
    let area = 0
    const rows: number[] = []
    const coefs: number[] = []
    for (let k = 0; k < p.items.length; k++) {
      const i = p.items[k]
      const n = Math.min(p.counts[k], rest.wanted[i])
      if (n <= 0) continue
      area += n * this.prep.area[i]
      rows.push(rowOf[i])
      coefs.push(n)
    }
    return area < STILL_WANTED * p.area ? null : { cost: p.cost, rows, coefs }
  }

  /**
   * Fills the boards that promise most at these prices. @param values what each yields at most
   * @returns how many new patterns pay
   */
  private priceIn(
    at: Relaxed,
    prices: Float64Array,
    values: Float64Array,
    rest: Rest,
    tried: number,
    beam: number,
    pause: Int32Array,
  ): number {
    const ranked: { cls: number; promise: number }[] = []
    for (const { index, cost } of this.prep.classes) {
      if (rest.left[index] <= 0 || pause[index] > 0) {
        pause[index] = Math.max(0, pause[index] - 1)
        continue
      }
      const promise = values[index] - cost + at.limits[index]
      if (promise > 0) ranked.push({ cls: index, promise })
    }
    ranked.sort((a, b) => b.promise - a.promise || a.cls - b.cls)
    const copies = Math.max(1, Math.min(6, Math.floor(tried / Math.max(1, 4 * ranked.length))))
    let found = 0
    for (const { cls } of ranked.slice(0, tried)) {
      let isGood = false
      for (let k = 0; k < copies && !this.isOver(); k++) {
        const used = this.fill(cls, rest.wanted, prices, beam, k === 0 ? 0 : 0.1)
        if (used === null) continue
        const pattern = this.remember(used)
        if (pattern !== null && this.saving(pattern, at) > 1e-7) {
          found++
          isGood = true
        }
      }
      pause[cls] = isGood ? 0 : 1 + this.tools.rng.below(4)
      if (this.isOver()) break
    }
    return found
  }

  private saving(p: Pattern, at: Relaxed): number {
    let value = at.limits[p.cls] - p.cost
    for (let k = 0; k < p.items.length; k++) value += at.prices[p.items[k]] * p.counts[k]
    return value
  }

  /** Prices for the whole, and the bound that they give. @param isPriced false: prices by area are enough */
  start(left: readonly number[], isPriced: boolean): void {
    this.bound.price(this.prep.area.slice(), false)
    if (isPriced) this.findPrices({ wanted: this.reach.slice(), left: [...left] })
    if (!this.isOver()) this.bound.price(this.bound.bestPrices.slice(), true)
    this.prune()
  }

  private findPrices(rest: Rest): void {
    const pause = new Int32Array(this.prep.classes.length)
    let level = 0
    for (let round = 0, misses = 0; round < MOST_ROUNDS && !this.isOver(); round++) {
      const at = this.relax(rest)
      if (at === null) return
      const share = at.isShort ? 0.3 : 0.6
      const { bestPrices } = this.bound
      const mixed = at.prices.map((p, i) => share * p + (1 - share) * bestPrices[i])
      const { values } = this.bound.price(mixed, false)
      this.prices = at.prices
      const found = this.priceIn(at, mixed, values, rest, TRIED_WHOLE, BEAMS[level], pause)
      misses = found > 2 ? 0 : misses + 1
      if (misses < 3) continue
      misses = 0
      if (++level === BEAMS.length) break
      pause.fill(0)
    }
  }

  /** A plan for everything, from nothing. */
  plan(left: readonly number[], limit: number): readonly Used[] | null {
    return this.dive({ wanted: this.reach.slice(), left: [...left] }, limit)
  }

  /**
   * Fixes patterns until nothing is wanted. Mutates the rest.
   * @param limit cost that the boards must stay below
   */
  private dive(rest: Rest, limit: number): readonly Used[] | null {
    const fixed: Used[] = []
    let cost = 0
    const pause = new Int32Array(this.prep.classes.length)
    for (let depth = 0; !this.isOver(); depth++) {
      if (rest.wanted.every((n) => n <= 0)) return fixed
      const at = this.priced(rest, depth, pause)
      if (at === null || this.roundUp(cost + at.value) >= limit * (1 - 1e-9)) return null
      if (at.columns.length <= MOST_CHOICE) {
        const choice = this.choose(at, rest, limit - cost)
        if (choice !== null) return [...fixed, ...choice]
      }
      const before = fixed.length
      cost += this.fix(at, rest, fixed)
      if (fixed.length === before) return null
    }
    return null
  }

  /** The program of a rest, with patterns priced in. */
  private priced(rest: Rest, depth: number, pause: Int32Array): Relaxed | null {
    let at = this.relax(rest)
    const rounds = depth === 0 ? ROUNDS_FIRST : ROUNDS_NEXT
    for (let k = 0; k < rounds && at !== null && !this.isOver(); k++) {
      const values = this.bound.values(at.prices, rest.wanted)
      const beam = BEAMS[this.tools.rng.below(2)]
      const found = this.priceIn(at, at.prices, values, rest, TRIED_REST, beam, pause)
      if (found === 0) break
      at = this.relax(rest)
    }
    return at
  }

  /** Takes the patterns that the program uses most. @returns their cost */
  private fix(at: Relaxed, rest: Rest, fixed: Used[]): number {
    const order = [...at.chosen].sort((a, b) => b.x - a.x || a.pattern.cls - b.pattern.cls)
    const whole = order.filter((c) => c.x > 1 - 1e-6)
    const some = Math.max(1, Math.floor(order.length / 20))
    const first = whole.length > 0 ? whole : order.slice(0, some + this.tools.rng.below(2))
    let cost = 0
    for (const { pattern, x } of [...first, ...order]) {
      if (cost > 0 && !first.some((c) => c.pattern === pattern)) break
      for (let k = Math.max(1, Math.floor(x + 1e-6)); k > 0; k--) {
        const used = this.fitted(pattern, rest, at.prices)
        if (used === null) break
        countParts(used.root, rest.wanted, -1)
        rest.left[used.cls]--
        fixed.push(used)
        cost += this.prep.classes[used.cls].cost
      }
    }
    return cost
  }

  /** The pattern itself where all its parts are wanted, else its board filled anew. */
  private fitted(p: Pattern, rest: Rest, prices: Float64Array): Used | null {
    if (rest.left[p.cls] <= 0) return null
    if (p.items.every((i, k) => p.counts[k] <= rest.wanted[i])) return p
    const used = this.fill(p.cls, rest.wanted, prices, BEAMS[1], 0)
    if (used === null || used.root.area < STILL_WANTED * p.area) return null
    return used
  }

  /** The integer program over the patterns of a small rest. */
  private choose(at: Relaxed, rest: Rest, limit: number): readonly Used[] | null {
    const { rows, rowOf } = demandRows(rest.wanted)
    const scale = Math.max(1e-9, ...at.columns.map((c) => c.cost))
    const least = limit - at.value
    const usable = at.columns.filter(
      (p) => p.items.every((i, k) => p.counts[k] <= rest.wanted[i]) && -this.saving(p, at) < least,
    )
    const limitRow = new Map<number, number>()
    const model = usable.map((p) => {
      let row = limitRow.get(p.cls)
      if (row === undefined) {
        row = rows.length
        limitRow.set(p.cls, row)
        rows.push({ sense: '<=', rhs: Math.min(rest.left[p.cls], 1e6) })
      }
      const coefs = [...p.counts, 1, p.cost / scale]
      const most = Math.min(
        rest.left[p.cls],
        ...p.items.map((i, k) => Math.ceil(rest.wanted[i] / p.counts[k])),
      )
      return {
        cost: p.cost / scale,
        rows: [...p.items.map((i) => rowOf[i]), row],
        coefs,
        integer: true,
        upper: most,
      }
    })
    const costRow = rows.length
    rows.push({ sense: '<=', rhs: (limit * (1 - 1e-9)) / scale })
    for (const c of model) c.rows.push(costRow)
    const answer = this.tools.lp.solve({ rows, columns: model }, { nodes: MOST_NODES, seconds: MOST_SECONDS })
    this.tools.filler.steps += model.length
    if (answer.status !== 'optimal' && answer.status !== 'feasible') return null
    const chosen: Used[] = []
    usable.forEach((p, j) => {
      for (let k = Math.round(answer.x[j]); k > 0; k--) chosen.push(p)
    })
    return this.trimmed(chosen, rest.wanted)
  }

  /** Boards that hold more than is wanted are filled anew with what is. */
  private trimmed(chosen: readonly Used[], wanted: Int32Array): readonly Used[] | null {
    const left = wanted.slice()
    const out: Used[] = []
    for (const u of [...chosen].sort((a, b) => b.root.area - a.root.area)) {
      const made = new Int32Array(this.prep.n)
      countParts(u.root, made, 1)
      if (made.every((n, i) => n <= left[i])) {
        for (let i = 0; i < made.length; i++) left[i] -= made[i]
        out.push(u)
        continue
      }
      const own = made.map((n, i) => Math.min(n, left[i]))
      const used = this.fill(u.cls, own, this.prep.area, BEAMS[1], 0)
      if (used === null) continue
      countParts(used.root, left, -1)
      out.push(used)
    }
    return left.every((n) => n <= 0) ? out : null
  }

  /**
   * Takes a few boards out of a plan and looks for cheaper ones for their parts.
   * @returns the whole plan with the exchange, or null
   */
  exchange(current: readonly Used[], left: readonly number[], most: number): readonly Used[] | null {
    const taken = this.chooseTaken(current, most)
    const wanted = new Int32Array(this.prep.n)
    const rest = { wanted, left: [...left] }
    let limit = 0
    const kept: Used[] = []
    current.forEach((u, k) => {
      if (taken.has(k)) {
        countParts(u.root, wanted, 1)
        limit += this.prep.classes[u.cls].cost
        this.remember(u)
      } else {
        rest.left[u.cls]--
        kept.push(u)
      }
    })
    const found = this.dive(rest, limit)
    this.prune()
    return found === null ? null : [...kept, ...found]
  }

  /** Boards that cost much for what their parts are worth, and others that the same parts may come from. */
  private chooseTaken(current: readonly Used[], most: number): Set<number> {
    const { rng } = this.tools
    const loss = current.map((u) => {
      const made = new Int32Array(this.prep.n)
      countParts(u.root, made, 1)
      let value = 0
      for (let i = 0; i < made.length; i++) value += made[i] * this.prices[i]
      return this.prep.classes[u.cls].cost - value
    })
    const masks = current.map((u) => this.prep.classes[u.cls].allowed)
    const taken = new Set<number>()
    const first = rng.below(current.length)
    for (let tries = 0; taken.size < Math.min(most, current.length) && tries < 8 * most; tries++) {
      const a = rng.below(current.length)
      const b = rng.below(current.length)
      const k = loss[a] > loss[b] ? a : b
      if (sharesAny(masks[first], masks[k])) taken.add(k)
    }
    return taken
  }
}

/** One row for each blank that is wanted. */
function demandRows(wanted: Int32Array): { rows: LpRow[]; rowOf: Int32Array } {
  const rowOf = new Int32Array(wanted.length).fill(-1)
  const rows: LpRow[] = []
  for (let i = 0; i < wanted.length; i++) {
    if (wanted[i] <= 0) continue
    rowOf[i] = rows.length
    rows.push({ sense: '>=', rhs: wanted[i] })
  }
  return { rows, rowOf }
}

function sharesAny(a: Uint8Array | null, b: Uint8Array | null): boolean {
  if (a === null || b === null || a === b) return true
  for (let i = 0; i < a.length; i++) if (a[i] === 1 && b[i] === 1) return true
  return false
}
