/** Sizes from Clautiaux, Carlier, Moukrim, EJOR 183 (2007) 1196-1211; guillotine answers: Becker, PhD thesis 2022. */
import { describe, expect, it } from 'vitest'
import { solveOneBoard } from '#lib/core/cutting/block-table'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { prepare } from '#lib/core/cutting/prepared'
import { type PublishedInstance, problemFromPublished } from '#lib/core/cutting/published'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const square20 = (
  name: string,
  rows: readonly (readonly number[])[],
  rotate: boolean,
): PublishedInstance => ({
  name,
  dim: 2,
  objective: 'feasibility',
  stock: [{ w: 20, h: 20, count: 1 }],
  items: rows.map(([w, h]) => ({ w, h, demand: 1, rotate })),
})
const e03n10 = [
  [14, 2],
  [1, 7],
  [1, 11],
  [4, 4],
  [6, 9],
  [16, 2],
  [2, 3],
  [19, 3],
  [1, 9],
  [14, 12],
]
const e15n10 = [
  [9, 5],
  [7, 3],
  [2, 17],
  [11, 3],
  [1, 7],
  [9, 7],
  [1, 5],
  [3, 13],
  [1, 2],
  [7, 13],
]

const decide = (instance: PublishedInstance) => {
  const problem = problemFromPublished(instance)
  const plan = planCuts(problem, { seed: 1, budget: { maxSteps: 60_000 } })
  expect(verifyCutPlan(problem, plan)).toEqual([])
  return plan.status
}

describe('whether all parts can be cut from one board', () => {
  it('is decided, with a proof where not', () => {
    expect(decide(square20('E03N10', e03n10, false))).toBe('infeasible')
    expect(decide(square20('E15N10', e15n10, false))).toBe('infeasible')
    expect(decide(square20('E15N10_rot', e15n10, true))).toBe('optimal')
  })
  it('is decided for parts that use the board up, too many kinds for the table', () => {
    // Five parts that no cut from edge to edge parts (the pinwheel), and 40 strips wound round them.
    const wheel = [
      [82, 41],
      [41, 82],
      [82, 41],
      [41, 82],
      [41, 41],
    ]
    const strips: number[][] = []
    let [w, h] = [123, 123]
    for (let k = 0; k < 40; k++) {
      const across = 7 + ((k * 17) % 41)
      strips.push(k % 2 === 0 ? [across, h] : [w, across])
      if (k % 2 === 0) w += across
      else h += across
    }
    const onion = (core: readonly (readonly number[])[]): PublishedInstance => ({
      ...square20('onion', [...core, ...strips], false),
      stock: [{ w, h, count: 1 }],
    })
    expect(decide(onion(wheel))).toBe('infeasible')
    expect(decide(onion([[123, 123]]))).toBe('optimal')
  })
})

describe('the table of one board', () => {
  const prep = prepare(problemFromPublished(square20('E15N10', e15n10, false)))
  const whole = { isTargetEnough: false, mostSets: 1e5, mostPairs: 1e8, shouldStop: () => false }
  it('finds the heaviest choice that fits, and nothing above it', () => {
    const best = solveOneBoard(prep, prep.classes[0], { ...whole, target: 1 })
    expect(best?.isComplete).toBe(true)
    expect(best?.section?.area).toBe(best?.weight)
    const above = solveOneBoard(prep, prep.classes[0], { ...whole, target: (best?.weight ?? 0) + 1 })
    expect([above?.isComplete, above?.section]).toEqual([true, null])
  })
  it('says when it stopped early', () => {
    const cut = solveOneBoard(prep, prep.classes[0], { ...whole, target: 1, mostSets: 20 })
    expect(cut?.isComplete).toBe(false)
  })
})
