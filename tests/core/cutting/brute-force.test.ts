import fc from 'fast-check'
import { expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { loadLpSolver } from '#lib/engine/lp-solver'
import { BruteForce } from './brute-force'

const tiny: fc.Arbitrary<CutProblem> = fc
  .record({
    kerfUm: fc.nat(2),
    boards: fc.array(
      fc.record({
        lengthUm: fc.integer({ min: 3, max: 9 }),
        widthUm: fc.integer({ min: 2, max: 7 }),
        cost: fc.integer({ min: 1, max: 20 }),
      }),
      { minLength: 1, maxLength: 2 },
    ),
    blanks: fc.array(
      fc.record({
        lengthUm: fc.integer({ min: 1, max: 6 }),
        widthUm: fc.integer({ min: 1, max: 5 }),
        demand: fc.integer({ min: 1, max: 2 }),
        grain: fc.constantFrom('along' as const, 'free' as const),
        weight: fc.integer({ min: 1, max: 9 }),
      }),
      { minLength: 1, maxLength: 4 },
    ),
    zones: fc.array(
      fc.record({
        board: fc.nat(1),
        xUm: fc.nat(8),
        yUm: fc.nat(6),
        lengthUm: fc.integer({ min: 1, max: 3 }),
        widthUm: fc.integer({ min: 1, max: 3 }),
        isAll: fc.boolean(),
        one: fc.nat(3),
      }),
      { maxLength: 2 },
    ),
    limits: fc.constantFrom(
      { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
      { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
      { minPieceLengthUm: 2, minPieceWidthUm: 2, maxRipWidthUm: 4, maxCrosscutWidthUm: 6, stages: null },
    ),
    objective: fc.constantFrom('parts' as const, 'minBoards' as const),
  })
  .map((s) => ({
    ...s,
    offcut: { minLengthUm: 2, minWidthUm: 2 },
    boards: s.boards.map((b, i) => ({ ...b, id: `b${i}` })),
    blanks: s.blanks.map((b, i) => ({ ...b, id: `p${i}` })),
    zones: s.zones.map(({ isAll, one, ...z }) => ({
      ...z,
      board: z.board % s.boards.length,
      blocks: isAll ? ('all' as const) : [one % s.blanks.length],
    })),
  }))

it('agrees with trying every cut at every position', async () => {
  const lp = await loadLpSolver()
  let judged = 0
  let met = 0
  fc.assert(
    fc.property(tiny, fc.nat(9), (p, roll) => {
      const truth = new BruteForce(p).best()
      const plan = planCuts(p, { seed: 2, budget: { maxSteps: 1_500 }, ...(roll === 0 ? { lp } : {}) })
      expect(verifyCutPlan(p, plan)).toEqual([])
      expect(plan.weightBound).toBeGreaterThanOrEqual(truth.weight - 1e-9)
      expect(plan.weightMade).toBeLessThanOrEqual(truth.weight + 1e-9)
      const isFull = plan.weightMade > truth.weight - 1e-9
      if (isFull) {
        expect(plan.cost).toBeGreaterThanOrEqual(truth.cost - 1e-9)
        expect(plan.costBound).toBeLessThanOrEqual(truth.cost + 1e-9)
      }
      if (plan.status === 'optimal') expect([plan.weightMade, plan.cost]).toEqual([truth.weight, truth.cost])
      if (plan.status === 'infeasible') {
        expect(truth.weight).toBeLessThan(p.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0))
      }
      judged++
      if (isFull && plan.cost < truth.cost + 1e-9) met++
    }),
    { numRuns: 200, seed: 77 },
  )
  expect(judged).toBeGreaterThan(150)
  // The search is no proof, but at this size it misses next to nothing.
  expect(met / judged).toBeGreaterThan(0.97)
})
