import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { reachableDemand } from '#lib/core/cutting/bounds'
import { DefectTable } from '#lib/core/cutting/defect-table'
import { FreeTable } from '#lib/core/cutting/free-table'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { PoolBound } from '#lib/core/cutting/pool-bound'
import { prepare } from '#lib/core/cutting/prepared'
import { PriceTable } from '#lib/core/cutting/price-table'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { ZonedValues } from '#lib/core/cutting/zoned-value'
import { loadLpSolver } from '#lib/engine/lp-solver'
import { plantedShop } from '../../bench/planted-shops'
import { BruteForce } from './brute-force'
import { blank, board, shop } from './shops'

const never = (): boolean => false
const lp = await loadLpSolver()

const partArb = fc.record({
  l: fc.integer({ min: 5, max: 40 }),
  w: fc.integer({ min: 4, max: 25 }),
  price: fc.integer({ min: 1, max: 900 }),
  free: fc.boolean(),
})
const zoneArb = fc.record({
  x: fc.integer({ min: 0, max: 70 }),
  y: fc.integer({ min: 0, max: 40 }),
  l: fc.integer({ min: 1, max: 12 }),
  w: fc.integer({ min: 1, max: 9 }),
})

describe('what a board yields at most', () => {
  it('is never below what it does yield, however coarse the grid', () => {
    let [judged, isTight, zoned] = [0, 0, 0]
    fc.assert(
      fc.property(
        fc.array(partArb, { minLength: 1, maxLength: 6 }),
        fc.array(zoneArb, { maxLength: 3 }),
        fc.integer({ min: 20, max: 90 }),
        (parts, zones, cells) => {
          const p = shop(
            [board(80, 50)],
            parts.map((q) =>
              blank(q.l, q.w, null, {
                weight: q.price,
                grain: q.free ? ('free' as const) : ('along' as const),
              }),
            ),
            {
              kerfUm: 1000,
              zones: zones.map((z) => ({
                board: 0,
                xUm: z.x * 1000,
                yUm: z.y * 1000,
                lengthUm: Math.min(z.l, 80 - z.x) * 1000,
                widthUm: Math.min(z.w, 50 - z.y) * 1000,
                blocks: 'all' as const,
              })),
            },
          )
          const prep = prepare(p)
          const [cls] = prep.classes
          const items = parts.map((_, i) => i)
          const table = new PriceTable(prep, prep.weight, items, cls, { x: cells, y: cells })
          const free = FreeTable.make(prep, cls.w, cls.h, false, () => true, 1e9, never)
          const exact = DefectTable.make(prep, cls, never)
          if (free === null || exact === null) return
          expect(table.valueOf(cls.w, cls.h)).toBeGreaterThanOrEqual(free.valueOf(cls.w, cls.h))
          const { value } = exact.answer()
          const bound = new ZonedValues(prep, never).valueOf(cls, items, table)
          expect(bound).toBeGreaterThanOrEqual(value)
          expect(bound).toBeLessThanOrEqual(table.valueOf(cls.w, cls.h))
          judged++
          if (bound === value) isTight++
          if (bound < free.valueOf(cls.w, cls.h)) zoned++
        },
      ),
      { seed: 5, numRuns: 60 },
    )
    expect(judged).toBeGreaterThan(40)
    // It is worth something: often exact, often below what a clear board would yield.
    expect(isTight).toBeGreaterThan(judged / 4)
    expect(zoned).toBeGreaterThan(10)
  })
  it('refuses cells larger than a part', () => {
    const prep = prepare(shop([board(100, 50)], [blank(4, 10, 1)], { kerfUm: 0 }))
    const make = () => new PriceTable(prep, prep.weight, [0], prep.classes[0], { x: 20, y: 20 })
    expect(make).toThrow(RangeError)
  })
})

/** Cheapest boards for everything, by trying all cuttings of all boards; Infinity where that cannot be. */
function cheapest(p: CutProblem): number {
  const brute = new BruteForce(p)
  const wanted = p.blanks.map((b) => b.demand ?? 0)
  let states = new Map<string, { made: readonly number[]; cost: number }>([
    ['', { made: wanted.map(() => 0), cost: 0 }],
  ])
  p.boards.forEach((b, k) => {
    const next = new Map(states)
    for (const { made, cost } of states.values()) {
      for (const counts of brute.yields(k, 0, 0, b.lengthUm, b.widthUm).values()) {
        const sum = made.map((n, i) => Math.min(wanted[i], n + counts[i]))
        const known = next.get(sum.join())
        if (known === undefined || known.cost > cost + b.cost)
          next.set(sum.join(), { made: sum, cost: cost + b.cost })
      }
    }
    states = next
  })
  return states.get(wanted.join())?.cost ?? Number.POSITIVE_INFINITY
}

describe('what making everything costs at least', () => {
  it('never exceeds what it costs, at any prices (tried by brute force)', () => {
    let [judged, isTight] = [0, 0]
    const tiny = fc.record({ l: fc.integer({ min: 1, max: 5 }), w: fc.integer({ min: 1, max: 4 }) })
    fc.assert(
      fc.property(
        fc.array(fc.record({ size: tiny, cost: fc.integer({ min: 1, max: 9 }) }), {
          minLength: 2,
          maxLength: 4,
        }),
        fc.array(fc.record({ size: tiny, n: fc.integer({ min: 1, max: 2 }) }), {
          minLength: 1,
          maxLength: 3,
        }),
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 3, maxLength: 3 }),
        fc.option(fc.record({ x: fc.integer({ min: 0, max: 4 }), y: fc.integer({ min: 0, max: 3 }) })),
        (boards, parts, prices, zone) => {
          const p = shop(
            boards.map((b) => board((b.size.l + 1) / 1000, (b.size.w + 1) / 1000, { cost: b.cost })),
            parts.map((q) => blank(q.size.l / 1000, q.size.w / 1000, q.n)),
            {
              kerfUm: 0,
              zones:
                zone === null || zone.x > boards[0].size.l || zone.y > boards[0].size.w
                  ? []
                  : [{ board: 0, xUm: zone.x, yUm: zone.y, lengthUm: 1, widthUm: 1, blocks: 'all' }],
            },
          )
          const least = cheapest(p)
          if (!Number.isFinite(least)) return
          const prep = prepare(p)
          const bound = new PoolBound(prep, reachableDemand(prep), never)
          for (const isSharp of [false, true]) {
            bound.price(
              Float64Array.from(parts, (_, i) => prices[i]),
              isSharp,
            )
            bound.price(prep.area.slice(), isSharp)
            expect(bound.best).toBeLessThanOrEqual(least)
          }
          judged++
          if (Math.ceil(bound.best - 1e-6) === least) isTight++
        },
      ),
      { seed: 8, numRuns: 150 },
    )
    expect(judged).toBeGreaterThan(40)
    expect(isTight).toBeGreaterThan(judged / 4)
  })
  it('never exceeds a planted cutting, and is near it', () => {
    for (const defects of [false, true]) {
      const p = plantedShop(3, 40, 160, { kerfMm: 3, defects })
      const prep = prepare(p)
      const bound = new PoolBound(prep, reachableDemand(prep), never)
      bound.price(prep.area.slice(), true)
      const planted = p.boards.reduce((sum, b) => sum + b.cost, 0)
      expect(bound.best).toBeLessThanOrEqual(planted)
      expect(bound.best).toBeGreaterThan(0.8 * planted)
    }
  })
})

/** A planted shop among as many boards again that cost twice as much for their size. */
function pool(seed: number): CutProblem {
  const good = plantedShop(seed, 12, 48, { kerfMm: 3, defects: false })
  const bad = plantedShop(seed + 100, 40, 80, { kerfMm: 3, defects: false })
  return { ...good, boards: [...good.boards, ...bad.boards.map((b) => ({ ...b, cost: 2 * b.cost }))] }
}

describe('a pool of boards, chosen by what parts are worth', () => {
  const plan = (maxSteps: number, isWithLp = true) =>
    planCuts(pool(2), { seed: 1, budget: { maxSteps }, ...(isWithLp ? { lp } : {}) })
  it('makes everything, is sound, repeats, and stays above its bound', () => {
    const p = pool(2)
    const planted = p.boards.slice(0, 12).reduce((sum, b) => sum + b.cost, 0)
    const found = plan(12_000)
    expect(verifyCutPlan(p, found)).toEqual([])
    expect(found.shortages).toEqual([])
    expect(found.costBound).toBeLessThanOrEqual(planted * (1 + 1e-9))
    expect(found.costBound).toBeGreaterThan(0.9 * planted)
    expect(plan(12_000)).toEqual(found)
  })
})
