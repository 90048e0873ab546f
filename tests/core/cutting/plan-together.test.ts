import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planTogether } from '#lib/core/cutting/plan-together'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const OPTIONS = { seed: 1, budget: { maxSteps: 20_000 } }
const problemOf = (
  boardsUm: readonly number[],
  parts: readonly (readonly [number, number])[],
): CutProblem => ({
  kerfUm: 3_000,
  boards: boardsUm.map((lengthUm, i) => ({ id: `b${i}`, lengthUm, widthUm: 60_000, cost: lengthUm / 1_000 })),
  blanks: parts.map(([lengthUm, demand], i) => ({
    id: `p${i}`,
    lengthUm,
    widthUm: 60_000,
    demand,
    grain: 'along',
    weight: 1,
  })),
  zones: [],
  limits: { minPieceLengthUm: 50_000, minPieceWidthUm: 10_000, stages: null },
  offcut: { minLengthUm: 300_000, minWidthUm: 40_000 },
  objective: 'parts',
})

describe('builds planned together', () => {
  it('share a board where each by itself opens one of its own (sum by hand: 997 + 3 + 997 fills 1997)', () => {
    const problem = problemOf(
      [1_997_000, 1_200_000, 1_200_000],
      [
        [997_000, 1],
        [997_000, 1],
      ],
    )
    const { plan, alone } = planTogether(problem, { of: [0, 1], order: [0, 1] }, OPTIONS)
    expect(verifyCutPlan(problem, plan)).toEqual([])
    // Each by itself takes the cheapest board that holds it: 1200 + 1200 = 2400; together 1997.
    expect(alone.map((p) => p.cost)).toEqual([1_200, 1_200])
    expect(plan.cost).toBe(1_997)
    expect(plan.weightMade).toBe(2)
  })
  it('the one that goes first takes the only board; the other is told short', () => {
    const problem = problemOf(
      [1_000_000],
      [
        [900_000, 1],
        [800_000, 1],
      ],
    )
    const { alone } = planTogether(problem, { of: [0, 1], order: [1, 0] }, OPTIONS)
    expect(alone.map((p) => p.weightMade)).toEqual([0, 1])
  })
  it('is never worse than one after another, and every plan passes the check', () => {
    let judged = 0
    const mm = (min: number, max: number) => fc.integer({ min, max }).map((v) => v * 1_000)
    fc.assert(
      fc.property(
        fc.array(mm(300, 2_000), { minLength: 1, maxLength: 6 }),
        fc.array(fc.tuple(mm(100, 900), fc.integer({ min: 1, max: 3 })), { minLength: 2, maxLength: 5 }),
        (boards, parts) => {
          const problem = problemOf(boards, parts)
          const of = parts.map((_, i) => i % 2)
          const { plan, alone } = planTogether(problem, { of, order: [0, 1] }, OPTIONS)
          expect(verifyCutPlan(problem, plan)).toEqual([])
          const made = alone.reduce((sum, p) => sum + p.weightMade, 0)
          const cost = alone.reduce((sum, p) => sum + p.cost, 0)
          expect(plan.weightMade).toBeGreaterThanOrEqual(made - 1e-9)
          if (plan.weightMade <= made + 1e-9) expect(plan.cost).toBeLessThanOrEqual(cost + 1e-9)
          judged++
        },
      ),
      { numRuns: 40 },
    )
    expect(judged).toBe(40)
  })
  it('every blank belongs to a build', () => {
    const problem = problemOf([1_000_000], [[900_000, 1]])
    expect(() => planTogether(problem, { of: [], order: [] }, OPTIONS)).toThrow(RangeError)
  })
})
