import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkProblem } from '#lib/core/cutting/check-problem'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { planForms } from '#lib/core/cutting/plan-forms'
import type { CutNode, CutProblem, MachineLimits } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { BruteForce } from './brute-force'
import { blank, board, shop } from './shops'

const limits = (stages: number | null, firstCut?: 'crosscut' | 'rip'): MachineLimits => ({
  minPieceLengthUm: 0,
  minPieceWidthUm: 0,
  stages,
  ...(firstCut ? { firstCut } : {}),
})
const made = (p: CutProblem): number => {
  const plan = planCuts(p, { seed: 1, budget: { maxSteps: 20_000 } })
  expect(verifyCutPlan(p, plan)).toEqual([])
  return plan.weightMade
}

/** Kinds of the cuts from the board down to a blank, alike ones in a row told once. */
function turns(tree: CutNode, from: readonly string[] = []): string[] {
  if (tree.kind !== 'cut') return tree.kind === 'blank' ? [from.join()] : []
  const to = from.at(-1) === tree.cut ? from : [...from, tree.cut]
  return [...turns(tree.first, to), ...(tree.second ? turns(tree.second, to) : [])]
}

describe('a fixed order of cuts', () => {
  // One part as wide as the board beside two that share its width: only a crosscut parts them first.
  const across = [blank(400, 100, 1), blank(500, 50, 2)]
  const asked = (stages: number | null, firstCut?: 'crosscut' | 'rip') =>
    shop([board(900, 100)], across, { kerfUm: 0, limits: limits(stages, firstCut) })
  // One part as long as the board above two that share its length: only a rip parts them first.
  const along = [blank(900, 40, 1), blank(450, 60, 2)]

  it('crosscut first, then rip', () => {
    expect(made(asked(2, 'crosscut'))).toBe(3)
    expect(made(asked(2, 'rip'))).toBeLessThan(3)
    expect(made(asked(null))).toBe(3)
    const { layouts } = planCuts(asked(2, 'crosscut'), { seed: 1, budget: { maxSteps: 1_000 } })
    expect(new Set(turns(layouts[0].tree))).toEqual(new Set(['crosscut', 'crosscut,rip']))
  })
  it('rip first, then crosscut', () => {
    const p = (first: 'crosscut' | 'rip') =>
      shop([board(900, 100)], along, { kerfUm: 0, limits: limits(2, first) })
    expect(made(p('rip'))).toBe(3)
    expect(made(p('crosscut'))).toBeLessThan(3)
  })
  it('a third turn trims what two cannot', () => {
    // Two parts of different width side by side in one crosscut length, the shorter one trimmed.
    const p = (stages: number) =>
      shop([board(500, 100)], [blank(500, 50, 1), blank(450, 50, 1)], {
        kerfUm: 0,
        limits: limits(stages, 'crosscut'),
      })
    expect(made(p(2))).toBe(1)
    expect(made(p(3))).toBe(2)
  })
  it('a board that is right already needs no first cut', () => {
    const p = shop([board(900, 50)], [blank(450, 50, 2)], { kerfUm: 0, limits: limits(2, 'rip') })
    expect(made(p)).toBe(2)
    const q = shop([board(900, 50)], [blank(450, 50, 2)], { kerfUm: 0, limits: limits(1, 'rip') })
    expect(made(q)).toBe(0)
  })
  it('the check refuses a plan in another order', () => {
    const free = planCuts(asked(null), { seed: 1, budget: { maxSteps: 1_000 } })
    const faults = verifyCutPlan(asked(2, 'rip'), free)
    expect(faults.map((f) => f.kind)).toContain('stages')
  })
  it('names a first cut that cannot be meant', () => {
    const p = { ...asked(2), limits: { ...limits(2), firstCut: 'mitre' } } as unknown as CutProblem
    expect(() => checkProblem(p)).toThrow(/limits.firstCut/)
  })
  it('leaves out rows, whose crosscuts would be a turn more', () => {
    const p = shop([board(900, 60)], [{ ...blank(200, 50, 3), planedUm: 350_000 }], {
      limits: limits(2, 'crosscut'),
    })
    const plan = planForms(p, { seed: 1, budget: { maxSteps: 5_000 } })
    expect(verifyCutPlan(p, plan)).toEqual([])
    expect(plan.weightMade).toBe(3)
  })
  it('random shops pass the check, and never make more than cuts in any order can (by brute force)', () => {
    let [judged, less] = [0, 0]
    const size = fc.record({ l: fc.integer({ min: 1, max: 6 }), w: fc.integer({ min: 1, max: 5 }) })
    fc.assert(
      fc.property(
        fc.array(fc.record({ size, n: fc.integer({ min: 1, max: 2 }) }), { minLength: 1, maxLength: 3 }),
        fc.constantFrom<'crosscut' | 'rip'>('crosscut', 'rip'),
        fc.integer({ min: 1, max: 3 }),
        (parts, first, stages) => {
          const p = shop(
            [board(0.008, 0.007)],
            parts.map((q) => blank(q.size.l / 1000, q.size.w / 1000, q.n)),
            { kerfUm: 0, limits: limits(stages, first) },
          )
          const all = [...new BruteForce(p).yields(0, 0, 0, 8, 7).values()]
          const most = Math.max(...all.map((counts) => counts.reduce((sum, n) => sum + n, 0)))
          const own = made(p)
          expect(own).toBeLessThanOrEqual(most)
          judged++
          if (own < most) less++
        },
      ),
      { seed: 3, numRuns: 60 },
    )
    expect(judged).toBe(60)
    expect(less).toBeGreaterThan(2)
  })
})
