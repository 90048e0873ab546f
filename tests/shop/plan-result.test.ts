import { expect, test } from 'vitest'
import type { CutNode, CutPlan } from '#lib/core/cutting/problem'
import { bestOfPlans, isBetterPlan, partsOfPlan } from '#lib/shop/plan-result'

const leaf = (blank: number, xUm: number): CutNode => ({
  kind: 'blank',
  xUm,
  yUm: 0,
  lengthUm: 10,
  widthUm: 10,
  blank,
  turned: false,
})
const pair = (a: number, b: number): CutNode => ({
  kind: 'cut',
  xUm: 0,
  yUm: 0,
  lengthUm: 21,
  widthUm: 10,
  cut: 'crosscut',
  atUm: 10,
  first: leaf(a, 0),
  second: leaf(b, 11),
})
const plan: CutPlan = {
  status: 'feasible',
  layouts: [
    { board: 0, copies: 1, tree: pair(0, 1) },
    { board: 1, copies: 1, tree: pair(1, 0) },
  ],
  weightMade: 4,
  weightBound: 6,
  cost: 100,
  costBound: 80,
  yield: 0.9,
  shortages: [],
  steps: 10,
}

test('parts are named board after board, in the order of the model', () => {
  const needs = [{ partIds: ['leg1', 'leg2', 'leg3'] }, { partIds: ['rail1', 'rail2'] }] as never
  expect(partsOfPlan(plan, { needs })).toEqual([
    ['leg1', 'rail1'],
    ['rail2', 'leg2'],
  ])
  expect(() =>
    partsOfPlan(plan, { needs: [{ partIds: ['leg1'] }, { partIds: ['r1', 'r2'] }] as never }),
  ).toThrow(RangeError)
})

test('better is more made, then cheaper; an equal plan is no better', () => {
  expect(isBetterPlan({ ...plan, weightMade: 5, cost: 900 }, plan)).toBe(true)
  expect(isBetterPlan({ ...plan, cost: 99 }, plan)).toBe(true)
  expect(isBetterPlan(plan, plan)).toBe(false)
})

test('the better of two keeps what either has proved', () => {
  const weak = { ...plan, weightMade: 3, weightBound: 5, cost: 10, costBound: 9 }
  expect(bestOfPlans(weak, plan)).toMatchObject({ weightMade: 4, weightBound: 5, costBound: 80 })
  expect(bestOfPlans({ ...plan, cost: 95, costBound: 70 }, plan)).toMatchObject({ cost: 95, costBound: 80 })
  expect(bestOfPlans(weak, null)).toEqual(weak)
})
