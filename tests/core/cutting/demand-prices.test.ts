import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DemandPrices } from '#lib/core/cutting/demand-prices'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { prepare } from '#lib/core/cutting/prepared'
import { countParts } from '#lib/core/cutting/section'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { seededRng } from '#lib/core/units/rng'
import { BruteForce } from './brute-force'
import { blank, board, shop } from './shops'

const never = (): boolean => false

describe('one board with demand limits, by prices on what is used too often', () => {
  it('bounds what brute force finds, and cuts within the demand', () => {
    let [judged, tight, pays] = [0, 0, 0]
    const part = fc.record({
      l: fc.integer({ min: 1, max: 5 }),
      w: fc.integer({ min: 1, max: 4 }),
      n: fc.integer({ min: 1, max: 2 }),
      value: fc.integer({ min: 1, max: 30 }),
    })
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 3 }), (parts) => {
        const p = shop(
          [board(0.008, 0.006)],
          parts.map((q) => blank(q.l / 1000, q.w / 1000, q.n, { weight: q.value })),
          { kerfUm: 0, objective: 'maxValue' },
        )
        const prep = prepare(p)
        const worth = (counts: ArrayLike<number>): number =>
          parts.reduce((sum, q, i) => sum + q.value * Math.min(q.n, counts[i]), 0)
        const most = Math.max(...[...new BruteForce(p).yields(0, 0, 0, 8, 6).values()].map(worth))
        const prices = new DemandPrices(prep, prep.demand, seededRng(1), never)
        let least = Number.POSITIVE_INFINITY
        let first = 0
        for (let k = 0; k < 60; k++) {
          const found = prices.step(0)
          if (found === null) throw new Error('too large')
          if (k === 0) first = found.bound
          expect(found.bound).toBeGreaterThanOrEqual(most)
          least = Math.min(least, found.bound)
          const made = new Int32Array(prep.n)
          countParts(found.root, made, 1)
          expect(made.every((n, i) => n <= prep.demand[i])).toBe(true)
          expect(worth(made)).toBeLessThanOrEqual(most)
        }
        judged++
        if (Math.floor(least + 1e-6) === most) tight++
        if (least < first - 0.5) pays++
      }),
      { seed: 4, numRuns: 60 },
    )
    expect(judged).toBe(60)
    expect(tight).toBeGreaterThan(30)
    expect(pays).toBeGreaterThan(10)
  })
  it('is sound, and repeats, in the plan search', () => {
    const p = shop(
      [board(70, 80)],
      [
        [18, 22, 2],
        [23, 25, 1],
        [31, 17, 3],
        [12, 35, 2],
        [40, 11, 2],
        [27, 30, 1],
      ].map(([l, w, n]) => blank(l, w, n, { weight: l * w })),
      { kerfUm: 0, objective: 'maxValue' },
    )
    const plan = () => planCuts(p, { seed: 1, budget: { maxSteps: 5_000 } })
    expect(verifyCutPlan(p, plan())).toEqual([])
    expect(plan()).toEqual(plan())
  })
})
