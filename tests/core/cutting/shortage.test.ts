import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { cureOf } from '#lib/core/cutting/shortage'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { blank, board, MM, shop } from './shops'

const solve = (p: CutProblem) => {
  const plan = planCuts(p, { seed: 1, budget: { maxSteps: 10_000 } })
  expect(verifyCutPlan(p, plan)).toEqual([])
  return plan
}

describe('why a part is missing', () => {
  const zones = [
    { board: 0, xUm: 480 * MM, yUm: 0, lengthUm: 20 * MM, widthUm: 100 * MM, blocks: 'all' as const },
  ]
  it.each([
    ['noBoard', shop([board(1000, 100)], [blank(300, 50, 1, { boards: [] })])],
    ['length', shop([board(1000, 100)], [blank(1001, 50, 1)])],
    ['width', shop([board(1000, 100)], [blank(300, 101, 1)])],
    ['defects', shop([board(1000, 100)], [blank(600, 100, 1)], { zones })],
    ['contention', shop([board(1000, 100)], [blank(600, 100, 2)])],
  ] as const)('is said: %s', (why, p) => {
    const { shortages } = solve(p)
    expect(shortages).toEqual([{ blank: 0, missing: 1, why }])
  })
})

describe('the cure', () => {
  it('makes everything when it is added, and is not the largest part but all of them', () => {
    const p = shop([board(1000, 100)], [blank(600, 100, 3), blank(200, 45, 4)])
    const plan = solve(p)
    expect(plan.cure).toBeDefined()
    const { lengthUm, widthUm } = plan.cure as { lengthUm: number; widthUm: number }
    const more = { id: 'cure', lengthUm, widthUm, cost: 0 }
    expect(solve({ ...p, boards: [...p.boards, more] }).shortages).toEqual([])
    expect(lengthUm % (5 * MM)).toBe(0)
    expect(widthUm % (5 * MM)).toBe(0)
  })

  it('is as small as geometry allows for a row of alike parts', () => {
    // Two parts of 600 x 100 with 3.2 mm between: 1203.2 mm in a row, or 203.2 mm stacked.
    const plan = solve(shop([board(300, 300)], [blank(600, 100, 2)]))
    const { lengthUm, widthUm } = plan.cure as { lengthUm: number; widthUm: number }
    expect(lengthUm * widthUm).toBeLessThanOrEqual(1205 * MM * 100 * MM)
  })

  it('is found for a plan that was kept, too', () => {
    const p = shop([board(300, 300)], [blank(600, 100, 2)])
    const plan = solve(p)
    const { cure, ...kept } = plan
    expect(cureOf(p, kept, () => false)).toEqual(cure)
    expect(
      cureOf(
        shop([board(700, 300)], [blank(600, 100, 2)]),
        solve(shop([board(700, 300)], [blank(600, 100, 2)])),
        () => false,
      ),
    ).toBeUndefined()
  })
  it('comes to an end at once when asked to', () => {
    const p = shop([board(300, 300)], [blank(600, 100, 200), blank(333, 77, 150)])
    const plan = planCuts(p, { seed: 1, budget: { maxSteps: 50 } })
    let asked = 0
    cureOf(p, plan, () => ++asked > 0)
    expect(asked).toBeLessThan(1_000)
  })
})
