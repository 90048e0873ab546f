import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { boundsOf } from '#lib/core/cutting/form-bounds'
import type { LpSolver } from '#lib/core/cutting/lp'
import { planForms } from '#lib/core/cutting/plan-forms'
import type { CutBlank, CutBoard, CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { loadLpSolver } from '#lib/engine/lp-solver'

let lp: LpSolver
beforeAll(async () => {
  lp = await loadLpSolver()
})

const board = (id: string, lengthUm: number, widthUm: number, cost: number): CutBoard => ({
  id,
  lengthUm,
  widthUm,
  cost,
})
const problemOf = (boards: readonly CutBoard[], blanks: readonly CutBlank[]): CutProblem => ({
  kerfUm: 3_000,
  boards,
  blanks,
  zones: [],
  limits: { minPieceLengthUm: 50_000, minPieceWidthUm: 10_000, stages: null },
  offcut: { minLengthUm: 300_000, minWidthUm: 40_000 },
  objective: 'parts',
})

/** A panel of 300 mm, whole or glued up, and the rule of its staves. */
const panel = (id: string, of: number, demand: number, boards?: readonly number[]): CutBlank[] => [
  { id, lengthUm: 500_000, widthUm: 300_000, demand, grain: 'along', weight: 1, boards },
  {
    id: `${id} stave`,
    lengthUm: 500_000,
    widthUm: 40_000,
    demand: 0,
    grain: 'along',
    weight: 1,
    boards,
    stave: { of, panelUm: 300_000, minWidthUm: 40_000, maxWidthUm: 120_000, jointUm: 500, maxStaves: 8 },
  },
]

const costBound = (problem: CutProblem, solver?: LpSolver): number => {
  const all = problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0)
  const options = { seed: 1, budget: { maxSteps: 20_000 }, lp: solver }
  return boundsOf(problem, options).cost({ weightMade: all })
}

describe('wood by area, from the boards that each part may come from', () => {
  // Three panels of 503 x 303 mm take 457,227 mm²; a board of 1003 x 203 has 203,609: three whole ones at 7.
  it('whole boards: three at 7, where by area 2.246 boards would do (by hand)', () => {
    const boards = Array.from({ length: 5 }, (_, i) => board(`b${i}`, 1_000_000, 200_000, 7))
    const problem = problemOf(boards, panel('top', 0, 3))
    expect(costBound(problem)).toBeCloseTo((7 * 457_227) / 203_609, 3)
    expect(costBound(problem, lp)).toBeCloseTo(21, 3)
  })

  it('a panel that only the dear boards can hold is not bought with cheap ones', () => {
    const boards = [board('cheap', 3_000_000, 400_000, 1), board('dear', 1_000_000, 320_000, 9)]
    const other: CutBlank = {
      id: 'rail',
      lengthUm: 600_000,
      widthUm: 60_000,
      demand: 1,
      grain: 'along',
      weight: 1,
      boards: [0],
    }
    const problem = problemOf(boards, [...panel('top', 0, 1, [1]), other])
    expect(costBound(problem)).toBeLessThanOrEqual(1.1)
    expect(costBound(problem, lp)).toBeCloseTo(10, 3)
  })
})

it('no plan costs less than its bound, and with the solver it is never weaker', () => {
  const um = (min: number, max: number) => fc.integer({ min, max }).map((mm) => mm * 1_000)
  const shop = fc.array(fc.tuple(um(400, 1_600), um(90, 350), fc.integer({ min: 1, max: 9 })), {
    minLength: 2,
    maxLength: 7,
  })
  let complete = 0
  fc.assert(
    fc.property(shop, fc.integer({ min: 1, max: 2 }), fc.boolean(), (sizes, demand, isBound) => {
      const boards = sizes.map(([length, width, cost], i) => board(`b${i}`, length, width, cost))
      const from = isBound ? boards.flatMap((_, i) => (i % 2 === 0 ? [i] : [])) : undefined
      const rail: CutBlank = {
        id: 'rail',
        lengthUm: 380_000,
        widthUm: 80_000,
        demand: 2,
        grain: 'along',
        weight: 1,
      }
      const problem = problemOf(boards, [...panel('top', 0, demand, from), rail])
      const plan = planForms(problem, { seed: 1, budget: { maxSteps: 12_000 }, lp, isCureWanted: false })
      expect(verifyCutPlan(problem, plan)).toEqual([])
      expect(plan.costBound).toBeLessThanOrEqual(plan.cost + 1e-9)
      if (plan.shortages.length > 0) return
      complete++
      // The bound of whoever makes everything, judged by a plan that does.
      expect(costBound(problem, lp)).toBeLessThanOrEqual(plan.cost * (1 + 1e-9))
      expect(costBound(problem, lp)).toBeGreaterThanOrEqual(costBound(problem) - 1e-6)
    }),
    { numRuns: 60, seed: 4 },
  )
  expect(complete).toBeGreaterThan(10)
})
