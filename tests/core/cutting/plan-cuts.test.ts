import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutBlank, CutBoard, CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const MM = 1000
const board = (lengthMm: number, widthMm: number, more: Partial<CutBoard> = {}): CutBoard => ({
  id: `b${lengthMm}x${widthMm}`,
  lengthUm: lengthMm * MM,
  widthUm: widthMm * MM,
  cost: lengthMm * widthMm,
  ...more,
})
const blank = (
  lengthMm: number,
  widthMm: number,
  demand: number,
  more: Partial<CutBlank> = {},
): CutBlank => ({
  id: `p${lengthMm}x${widthMm}`,
  lengthUm: lengthMm * MM,
  widthUm: widthMm * MM,
  demand,
  grain: 'along',
  weight: 1,
  ...more,
})
const problem = (boards: CutBoard[], blanks: CutBlank[], more: Partial<CutProblem> = {}): CutProblem => ({
  kerfUm: 3.2 * MM,
  boards,
  blanks,
  zones: [],
  limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
  offcut: { minLengthUm: 150 * MM, minWidthUm: 40 * MM },
  objective: 'parts',
  ...more,
})
const solve = (p: CutProblem, maxSteps = 20_000): CutPlan => {
  const plan = planCuts(p, { seed: 7, budget: { maxSteps } })
  expect(verifyCutPlan(p, plan)).toEqual([])
  return plan
}

describe('pieces from one board with kerf', () => {
  // n = floor((B + k) / (p + k)); common practice, arithmetic of the saw cut.
  it.each([
    [1800, 5],
    [1750, 4],
    [1762.8, 5],
    [1762.799, 4],
  ])('%d mm gives %d pieces of 350 mm at a kerf of 3.2 mm', (length, pieces) => {
    const plan = solve(problem([board(length, 90)], [blank(350, 90, 9)]))
    expect(plan.weightMade).toBe(pieces)
    expect(plan.weightBound).toBe(pieces)
  })
})

describe('boards with defects', () => {
  it('cuts around a zone, and through it where it does not matter', () => {
    const p = problem([board(1000, 100)], [blank(400, 100, 2)], {
      zones: [{ board: 0, xUm: 450 * MM, yUm: 0, lengthUm: 100 * MM, widthUm: 100 * MM, blocks: 'all' }],
    })
    expect(solve(p).weightMade).toBe(2)
  })
  it('lets a blank that minds nothing cover the zone', () => {
    const zones = [{ board: 0, xUm: 0, yUm: 0, lengthUm: 1000 * MM, widthUm: 100 * MM, blocks: [0] }]
    const p = problem([board(1000, 100)], [blank(900, 100, 1), blank(950, 100, 1)], { zones })
    const plan = solve(p)
    expect(plan.shortages.map((s) => [s.blank, s.why])).toEqual([[0, 'defects']])
  })
})

describe('first plan', () => {
  it('comes in milliseconds and streams better ones', () => {
    const boards = Array.from({ length: 12 }, (_, i) => board(900 + 57 * i, 120 + 13 * (i % 5)))
    const blanks = Array.from({ length: 25 }, (_, i) =>
      blank(180 + 31 * (i % 11), 38 + 7 * (i % 7), 1 + (i % 3)),
    )
    const p = problem(boards, blanks)
    const seen: CutPlan[] = []
    planCuts(p, { seed: 3, budget: { maxSteps: 30_000 }, onBetter: (plan) => seen.push(plan) })
    expect(seen.length).toBeGreaterThan(1)
    for (const plan of seen) expect(verifyCutPlan(p, plan)).toEqual([])
  })
})
