import { describe, expect, test } from 'vitest'
import type { CutPlan } from '#lib/core/cutting/problem'
import { costGap, gapSentence, madeSentence, reachSentence, woodShares } from '#lib/shop/plan-words'

const input = {
  needs: [{ count: 10 }, { count: 4 }],
  boards: [{ lengthUm: 100, widthUm: 10 }],
} as never
const plan: CutPlan = {
  status: 'feasible',
  layouts: [
    {
      board: 0,
      copies: 1,
      tree: {
        kind: 'cut',
        xUm: 0,
        yUm: 0,
        lengthUm: 100,
        widthUm: 10,
        cut: 'crosscut',
        atUm: 60,
        first: { kind: 'blank', xUm: 0, yUm: 0, lengthUm: 60, widthUm: 10, blank: 0, turned: false },
        second: { kind: 'offcut', xUm: 65, yUm: 0, lengthUm: 35, widthUm: 10 },
      },
    },
  ],
  weightMade: 14,
  weightBound: 14,
  cost: 100,
  costBound: 96.5,
  yield: 0.6,
  shortages: [],
  steps: 1,
}
const short = { ...plan, weightMade: 12, shortages: [{ blank: 0, missing: 2, why: 'length' as const }] }

describe('how much is made', () => {
  test('all, some, none', () => {
    expect(madeSentence(plan, input)).toBe('All 14 parts come out of 1 board.')
    expect(madeSentence(short, input)).toBe('12 of 14 parts come out of 1 board; 2 are short.')
    const none = {
      ...plan,
      layouts: [],
      weightMade: 0,
      shortages: [{ blank: 0, missing: 14, why: 'length' as const }],
    }
    expect(madeSentence(none, input)).toBe('None of the 14 parts comes out of the pool as it is.')
    expect(gapSentence(none)).toBeNull()
  })

  test('whether more is possible', () => {
    expect(reachSentence(plan, input)).toBeNull()
    expect(reachSentence({ ...short, weightBound: 12 }, input)).toContain('Proven')
    expect(reachSentence({ ...short, weightBound: 13.7 }, input)).toContain('at best 13 of 14')
  })
})

test('the gap is rounded against the plan, never in its favour', () => {
  expect(costGap(plan)).toBeCloseTo(0.035, 12)
  expect(gapSentence(plan)).toBe('A longer search may save wood: perhaps none, and never more than 4 %.')
  expect(gapSentence({ ...plan, costBound: 99.7 })).toBe(
    'A longer search may save wood: perhaps none, and never more than 1 %.',
  )
  expect(gapSentence({ ...plan, costBound: 100 })).toBe('No plan uses less wood: that is proven.')
})

test('of a plan that is short only what is proven of its wood is told', () => {
  const shortages = [{ blank: 0, missing: 2, why: 'length' as const }]
  expect(gapSentence({ ...plan, shortages, costBound: 0 })).toBeNull()
  expect(gapSentence({ ...plan, shortages, costBound: plan.cost })).toBe(
    'No plan for these parts uses less wood: that is proven.',
  )
})

test('the shares of the wood are all of it: 60 parts, 35 offcut, 5 kerf of 100', () => {
  const shares = woodShares(plan, input)
  expect(shares.parts).toBeCloseTo(0.6, 12)
  expect(shares.offcuts).toBeCloseTo(0.35, 12)
  expect(shares.waste).toBeCloseTo(0.05, 12)
})
