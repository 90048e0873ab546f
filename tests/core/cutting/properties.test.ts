import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { mirrored, shopArb } from './shops'

const plan = (p: CutProblem, seed = 1, maxSteps = 300) => planCuts(p, { seed, budget: { maxSteps } })
const runs = { numRuns: 150, seed: 20_251 }

describe('plans of random shops', () => {
  it('always pass the independent check, also the plans on the way', () => {
    let judged = 0
    fc.assert(
      fc.property(shopArb, fc.nat(99), (p, seed) => {
        const faults: unknown[] = []
        const last = planCuts(p, {
          seed,
          budget: { maxSteps: 300 },
          onBetter: (better) => faults.push(...verifyCutPlan(p, better)),
        })
        faults.push(...verifyCutPlan(p, last))
        expect(faults).toEqual([])
        if (last.layouts.length > 0) judged++
      }),
      { ...runs, numRuns: 300 },
    )
    expect(judged).toBeGreaterThan(100)
  })

  it('are the same for the same seed and step budget', () => {
    fc.assert(
      fc.property(shopArb, fc.nat(99), (p, seed) => {
        expect(plan(p, seed)).toEqual(plan(p, seed))
      }),
      { ...runs, numRuns: 40 },
    )
  })

  it('cost the same for the mirrored problem where both are proven', () => {
    let judged = 0
    fc.assert(
      fc.property(shopArb, fc.constantFrom('x' as const, 'y' as const), (p, axis) => {
        // A zone that hangs over the edge would be moved by mirroring.
        fc.pre(
          p.zones.every((z) => {
            const b = p.boards[z.board]
            return z.xUm + z.lengthUm <= b.lengthUm && z.yUm + z.widthUm <= b.widthUm
          }),
        )
        const a = plan(p)
        const b = plan(mirrored(p, axis))
        if (a.status !== 'optimal' || b.status !== 'optimal') return
        judged++
        expect(b.weightMade).toBeCloseTo(a.weightMade, 9)
        if (p.objective !== 'maxValue') expect(b.cost).toBeCloseTo(a.cost, 9)
      }),
      runs,
    )
    expect(judged).toBeGreaterThan(15)
  })

  it('never get worse by an added board where both are proven', () => {
    let judged = 0
    fc.assert(
      fc.property(shopArb, fc.integer({ min: 5, max: 40 }), fc.integer({ min: 4, max: 30 }), (p, l, w) => {
        const a = plan(p)
        const boards = [...p.boards, { id: 'more', lengthUm: l, widthUm: w, cost: 7 }]
        const b = plan({ ...p, boards })
        if (a.status !== 'optimal' || b.status !== 'optimal') return
        judged++
        expect(b.weightMade).toBeGreaterThanOrEqual(a.weightMade - 1e-9)
        if (b.weightMade < a.weightMade + 1e-9 && p.objective !== 'maxValue') {
          expect(b.cost).toBeLessThanOrEqual(a.cost + 1e-9)
        }
      }),
      runs,
    )
    expect(judged).toBeGreaterThan(15)
  })
})
