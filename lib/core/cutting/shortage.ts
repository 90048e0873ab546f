/**
 * What is missing from a plan, why, and the smallest extra board that would cure it.
 *
 * The cure is found by solving, not from the largest part: boards are tried whose width is a sum of missing parts'
 * sizes, each at the shortest length that holds every missing part (bisection, then steps down).
 * In: what was made. Out: Shortage[] and Cure. Not guaranteed: that no smaller board exists. Tests: shortage.test.ts
 */
import { seededRng } from '#lib/core/units/rng'
import { type Block, singleBlocks } from './blocks'
import { canHold } from './bounds'
import { checkProblem } from './check-problem'
import { BoardFiller } from './fill-board'
import { countMade } from './forms'
import { type BoardClass, type Prepared, prepare } from './prepared'
import type { Cure, CutPlan, CutProblem, Shortage } from './problem'
import { largestSums } from './subset-sums'

function reasonFor(prep: Prepared, item: number): Shortage['why'] {
  const open = prep.classes.filter((c) => c.allowed === null || c.allowed[item] === 1)
  if (open.length === 0) return 'noBoard'
  const [w, h] = [prep.w[item], prep.h[item]]
  const fits = (c: BoardClass): boolean =>
    (w <= c.w && h <= c.h) || (prep.free[item] === 1 && h <= c.w && w <= c.h)
  if (!open.some(fits)) {
    const isLongEnough = open.some((c) => w <= c.w || (prep.free[item] === 1 && w <= c.h))
    return isLongEnough ? 'width' : 'length'
  }
  return open.some((c) => canHold(prep, c, item)) ? 'contention' : 'defects'
}

/** @param made how many of each blank the plan makes */
export function shortagesOf(prep: Prepared, made: Int32Array): Shortage[] {
  const shortages: Shortage[] = []
  prep.problem.blanks.forEach((b, i) => {
    if (b.demand === null || made[i] >= b.demand) return
    shortages.push({ blank: i, missing: b.demand - made[i], why: reasonFor(prep, i) })
  })
  return shortages
}

/** Sizes are rounded up to this: 5 mm for real boards, exact for small numbers. */
const stepFor = (prep: Prepared): number => {
  const longest = Math.max(...prep.problem.blanks.map((b) => Math.max(b.lengthUm, b.widthUm)))
  return longest >= 20_000 ? 5_000 : 1
}

const MOST_MISSING = 400
const MOST_WIDTHS = 24
const GRID = 2_048

/** Widths worth trying: sums of missing parts' sizes across, from the least that any part needs. */
function widthsToTry(prep: Prepared, missing: Int32Array): number[] {
  let least = 0
  let total = 0
  const sizes: number[] = []
  const copies: number[] = []
  for (let i = 0; i < prep.n; i++) {
    if (missing[i] === 0) continue
    const small = prep.free[i] === 1 ? Math.min(prep.w[i], prep.h[i]) : prep.h[i]
    const big = prep.free[i] === 1 ? Math.max(prep.w[i], prep.h[i]) : prep.h[i]
    least = Math.max(least, small)
    total += missing[i] * big
    sizes.push(prep.h[i])
    copies.push(missing[i])
    if (prep.free[i] === 0) continue
    sizes.push(prep.w[i])
    copies.push(missing[i])
  }
  const most = Math.min(total, Math.max(least, ...prep.classes.map((c) => c.h)))
  const unit = Math.max(1, most / GRID)
  const limit = Math.floor(most / unit + 1e-9)
  const sums = new Int32Array(limit + 1)
  const grid = sizes.map((s) => Math.ceil(s / unit - 1e-9))
  largestSums(grid, copies, limit, sums, new Uint32Array((limit >>> 5) + 1))
  const all = [...new Set(sums)].map((q) => q * unit).filter((v) => v >= least)
  const stride = Math.ceil((all.length + 1) / MOST_WIDTHS)
  return [least, ...all.filter((_, k) => k % stride === 0)]
}

class Tester {
  private readonly gains: Float64Array
  private readonly filler: BoardFiller
  private readonly stage: number
  constructor(
    prep: Prepared,
    private readonly blocks: readonly Block[],
    private readonly missing: Int32Array,
    private readonly shouldStop: () => boolean,
  ) {
    this.gains = prep.area.slice()
    this.filler = new BoardFiller(prep)
    this.stage = prep.rootStage
  }
  get steps(): number {
    return this.filler.steps
  }
  /** Whether one clear board of this shifted size holds all that is missing. */
  holds(w: number, h: number): boolean {
    const { missing } = this
    const root = { w, h, stage: this.stage, zones: [], allowed: null }
    const filling = this.filler.fill([root], this.blocks, missing, this.gains, {
      beam: 24,
      jitter: 0,
      rng: seededRng(1),
      maxStates: 20_000,
      shouldStop: this.shouldStop,
    })
    if (filling === null) return false
    let n = 0
    for (const c of filling.counts) n += c
    return n === missing.reduce((sum, m) => sum + m, 0)
  }
}

/**
 * The smallest board found that, added to the pool, makes every missing part.
 * @param blocks every single block of the missing blanks
 */
export function cureFor(
  prep: Prepared,
  blocks: readonly Block[],
  made: Int32Array,
  shouldStop: () => boolean,
): Cure | undefined {
  const missing = new Int32Array(prep.n)
  prep.problem.blanks.forEach((b, i) => {
    if (b.demand !== null) missing[i] = b.demand - made[i]
  })
  const total = missing.reduce((sum, m) => sum + m, 0)
  if (total === 0 || total > MOST_MISSING) return undefined
  const test = new Tester(prep, blocks, missing, shouldStop)
  const best = smallestBoard(prep, missing, test, shouldStop)
  if (best === null) return undefined
  return {
    lengthUm: best.w - prep.kerf,
    widthUm: best.h - prep.kerf,
    blanks: [...missing].map((count, blank) => ({ blank, count })).filter((b) => b.count > 0),
  }
}

/**
 * What would cure a plan's shortage, for any plan of the problem however it was found or kept.
 * @returns the smallest board found that, added to the pool, makes every missing part; undefined where nothing is missing
 * @throws RangeError for a problem that cannot be meant
 * @example cureOf(problem, plan, () => false)?.lengthUm //=> 1_205_000
 */
export function cureOf(problem: CutProblem, plan: CutPlan, shouldStop: () => boolean): Cure | undefined {
  checkProblem(problem)
  const prep = prepare(problem)
  return cureFor(prep, singleBlocks(prep, true), countMade(problem, plan.layouts), shouldStop)
}

function smallestBoard(
  prep: Prepared,
  missing: Int32Array,
  test: Tester,
  shouldStop: () => boolean,
): { w: number; h: number } | null {
  const k = prep.kerf
  const step = stepFor(prep)
  const up = (v: number): number => Math.ceil((v - k) / step) * step + k
  let area = 0
  let longest = 0
  let endToEnd = 0
  for (let i = 0; i < prep.n; i++) {
    if (missing[i] === 0) continue
    area += missing[i] * prep.area[i]
    const long = prep.free[i] === 1 ? Math.max(prep.w[i], prep.h[i]) : prep.w[i]
    longest = Math.max(longest, prep.free[i] === 1 ? Math.min(prep.w[i], prep.h[i]) : prep.w[i])
    endToEnd += missing[i] * long
  }
  let best: { w: number; h: number } | null = null
  for (const width of widthsToTry(prep, missing)) {
    if (shouldStop() && best !== null) break
    const h = up(width)
    let low = Math.max(longest, area / h)
    const most = best === null ? endToEnd : Math.min(endToEnd, (best.w * best.h) / h)
    let high = up(most)
    if (high * h >= (best === null ? Number.POSITIVE_INFINITY : best.w * best.h)) high -= step
    if (high < low || !test.holds(high, h)) continue
    while (high - low > step) {
      const mid = up((low + high) / 2)
      if (mid >= high) break
      if (test.holds(mid, h)) high = mid
      else low = mid
    }
    best = { w: high, h }
  }
  return best
}
