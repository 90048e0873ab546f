import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { loadLpSolver } from '#lib/engine/lp-solver'

/** Bars of several lengths with counts; prices not in proportion. */
const bars: fc.Arbitrary<CutProblem> = fc
  .record({
    kerfUm: fc.nat(3),
    boards: fc.array(
      fc.record({
        lengthUm: fc.integer({ min: 20, max: 60 }),
        cost: fc.integer({ min: 5, max: 60 }),
        count: fc.integer({ min: 1, max: 4 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    blanks: fc.array(
      fc.record({ lengthUm: fc.integer({ min: 5, max: 30 }), demand: fc.integer({ min: 1, max: 3 }) }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map((s) => ({
    kerfUm: s.kerfUm,
    boards: s.boards.map((b, i) => ({ ...b, id: `b${i}`, widthUm: 7 })),
    blanks: s.blanks.map((b, i) => ({
      ...b,
      id: `p${i}`,
      widthUm: 7,
      grain: 'along' as const,
      weight: b.lengthUm,
    })),
    zones: [],
    limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
    offcut: { minLengthUm: 1, minWidthUm: 1 },
    objective: 'minCost' as const,
  }))

/** Every pattern of a bar length. */
function patternsOf(p: CutProblem, room: number, at = 0): number[][] {
  if (at === p.blanks.length) return [[]]
  const size = p.blanks[at].lengthUm + p.kerfUm
  const out: number[][] = []
  for (let n = 0; n * size <= room && n <= (p.blanks[at].demand as number); n++) {
    for (const rest of patternsOf(p, room - n * size, at + 1)) out.push([n, ...rest])
  }
  return out
}

describe('several bar lengths with counts', () => {
  it('cost what an integer program over all patterns says, where proven', async () => {
    const lp = await loadLpSolver()
    let judged = 0
    fc.assert(
      fc.property(bars, (p) => {
        const columns = p.boards.flatMap((b, cls) =>
          patternsOf(p, b.lengthUm + p.kerfUm)
            .filter((c) => c.some((n) => n > 0))
            .map((c) => ({
              cost: b.cost,
              rows: [...c.map((_, i) => i), p.blanks.length + cls],
              coefs: [...c, 1],
              integer: true,
            })),
        )
        const rows = [
          ...p.blanks.map((b) => ({ sense: '>=' as const, rhs: b.demand as number })),
          ...p.boards.map((b) => ({ sense: '<=' as const, rhs: b.count as number })),
        ]
        const truth = lp.solve({ rows, columns })
        const plan = planCuts(p, { seed: 1, budget: { maxSteps: 3_000 } })
        expect(verifyCutPlan(p, plan)).toEqual([])
        if (truth.status !== 'optimal') {
          expect(plan.shortages.length).toBeGreaterThan(0)
          return
        }
        if (plan.shortages.length > 0) return
        judged++
        expect(plan.costBound).toBeLessThanOrEqual(truth.objective + 1e-6)
        expect(plan.cost).toBeGreaterThanOrEqual(truth.objective - 1e-6)
        if (plan.status === 'optimal') expect(plan.cost).toBeCloseTo(truth.objective, 6)
        // With the integer step there is no doubt left at this size.
        const proven = planCuts(p, { seed: 1, budget: { maxSteps: 3_000 }, lp })
        expect(proven.status).toBe('optimal')
        expect(proven.cost).toBeCloseTo(truth.objective, 6)
      }),
      { numRuns: 80, seed: 9 },
    )
    expect(judged).toBeGreaterThan(15)
  })
})
