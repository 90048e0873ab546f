import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dualFeasibleCount } from '#lib/core/cutting/dual-feasible'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { patternBound } from '#lib/core/cutting/plate-bound'
import { prepare } from '#lib/core/cutting/prepared'
import { problemFromPublished } from '#lib/core/cutting/published'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { blank, board, shop } from './shops'

// Macedo, Alves, Valerio de Carvalho, Computers & OR 37 (2010) 991-1001, furniture order A42: 8 plates (optimum as in
// Becker, PhD thesis 2022), though the area of the parts is that of 4.41.
const a42 = problemFromPublished({
  name: 'A42',
  dim: 2,
  objective: 'min_bins',
  stock: [{ w: 2750, h: 1220, count: null }],
  items: [
    [1120, 986, 3],
    [706, 516, 2],
    [1120, 486, 1],
    [703, 486, 1],
    [2357, 875, 2],
    [2117, 875, 1],
    [2117, 775, 2],
    [1940, 320, 1],
  ].map(([w, h, demand]) => ({ w, h, demand, rotate: false })),
})

describe('how many identical boards it takes at least', () => {
  it('is more than the area says', () => {
    const prep = prepare(a42)
    expect(dualFeasibleCount(prep, prep.classes[0])).toBe(7)
    const { count } = patternBound(prep, Number.POSITIVE_INFINITY, () => false)
    expect(Math.ceil(count)).toBe(8)
    const plan = planCuts(a42, { seed: 1, budget: { maxSteps: 100_000 } })
    expect(verifyCutPlan(a42, plan)).toEqual([])
    expect([plan.status, plan.cost, plan.costBound]).toEqual(['optimal', 8, 8])
  })
  it('counts parts longer than half the board one by one', () => {
    // 9 parts of 510 from boards of 1000, all as wide as the board: 9 boards; their area is that of 4.6.
    const p = shop([board(1000, 100, { count: null })], [blank(510, 100, 9)], { kerfUm: 0 })
    const prep = prepare(p)
    expect(dualFeasibleCount(prep, prep.classes[0])).toBe(9)
  })
  it('never exceeds what a plan needs', () => {
    let judged = 0
    const part = fc.record({
      l: fc.integer({ min: 2, max: 20 }),
      w: fc.integer({ min: 2, max: 14 }),
      n: fc.integer({ min: 1, max: 4 }),
      free: fc.boolean(),
    })
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 7 }), (parts) => {
        const blanks = parts.map((p) =>
          blank(p.l, p.w, p.n, { grain: p.free ? ('free' as const) : ('along' as const) }),
        )
        const p = shop([board(20, 14, { count: null, cost: 1 })], blanks, {
          kerfUm: 0,
          objective: 'minBoards',
        })
        const plan = planCuts(p, { seed: 1, budget: { maxSteps: 300 } })
        const prep = prepare(p)
        const least = Math.max(
          dualFeasibleCount(prep, prep.classes[0]),
          Math.ceil(patternBound(prep, Number.POSITIVE_INFINITY, () => false).count - 1e-6),
        )
        if (plan.shortages.length > 0) return
        judged++
        expect(least).toBeLessThanOrEqual(plan.cost)
      }),
      { numRuns: 60, seed: 9 },
    )
    expect(judged).toBeGreaterThan(30)
  })
})
