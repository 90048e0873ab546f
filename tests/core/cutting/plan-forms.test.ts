import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leavesOf } from '#lib/core/cutting/offcuts'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { hasForms, planForms } from '#lib/core/cutting/plan-forms'
import { planedByHand, planedTogether } from '#lib/core/cutting/planed-together'
import type { CutBlank, CutBoard, CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const LIMITS = { minPieceLengthUm: 100_000, minPieceWidthUm: 10_000, stages: null }
const board = (id: string, lengthUm: number, widthUm: number, cost = 1): CutBoard => ({
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
  limits: LIMITS,
  offcut: { minLengthUm: 300_000, minWidthUm: 40_000 },
  objective: 'parts',
})
const leg = (demand: number): CutBlank => ({
  id: 'leg',
  lengthUm: 420_000,
  widthUm: 100_000,
  demand,
  grain: 'along',
  weight: 1,
  ends: { nearUm: 400_000, leanAUm: 20_000, leanBUm: 20_000 },
})
const OPTIONS = { seed: 1, budget: { maxSteps: 60_000 } }
const solved = (problem: CutProblem): CutPlan => {
  const plan = planForms(problem, OPTIONS)
  expect(verifyCutPlan(problem, plan)).toEqual([])
  return plan
}

describe('raked parts head to tail', () => {
  it('four legs come out of 1.63 m, where cut one by one only three do (sum by hand in rows.test.ts)', () => {
    const problem = problemOf([board('a', 1_629_180, 100_000)], [leg(4)])
    expect(planCuts(problem, OPTIONS).weightMade).toBe(3)
    const plan = solved(problem)
    expect(plan.weightMade).toBe(4)
    expect(plan.status).toBe('optimal')
  })
  it('one micrometre less does not hold them', () => {
    const problem = problemOf([board('a', 1_629_179, 100_000)], [leg(4)])
    expect(solved(problem).weightMade).toBe(3)
  })
  it('shares boards with square parts', () => {
    const rail: CutBlank = {
      id: 'rail',
      lengthUm: 600_000,
      widthUm: 100_000,
      demand: 2,
      grain: 'along',
      weight: 1,
    }
    const plan = solved(
      problemOf([board('a', 1_629_180, 203_000), board('b', 900_000, 90_000)], [leg(4), rail]),
    )
    expect(plan.weightMade).toBe(6)
    expect(plan.layouts).toHaveLength(1)
  })
})

describe('short parts stay together for the planer', () => {
  const block = (demand: number): CutBlank => ({
    id: 'block',
    lengthUm: 120_000,
    widthUm: 60_000,
    demand,
    grain: 'along',
    weight: 1,
    planedUm: 300_000,
  })
  it('in pieces of 300 mm and more', () => {
    const problem = problemOf([board('a', 1_200_000, 60_000)], [block(6)])
    const plan = solved(problem)
    expect(plan.weightMade).toBe(6)
    const pieces = plan.layouts.flatMap(({ tree }) => planedTogether(problem, tree))
    expect(pieces.flatMap((p) => leavesOf(p)).filter((leaf) => leaf.kind === 'blank')).toHaveLength(6)
    for (const piece of pieces) {
      expect(piece.lengthUm).toBeGreaterThanOrEqual(300_000)
      expect(piece.lengthUm).toBeLessThanOrEqual(600_000)
    }
    expect(plan.layouts.reduce((n, { tree }) => n + planedByHand(problem, tree), 0)).toBe(0)
  })
  it('a single one keeps its 300 mm', () => {
    const problem = problemOf([board('a', 300_000, 60_000)], [block(1)])
    expect(solved(problem).weightMade).toBe(1)
  })
  it('on boards too short for the planer they are cut all the same, and counted as planed by hand', () => {
    const problem = problemOf([board('a', 250_000, 60_000)], [block(2)])
    const plan = solved(problem)
    expect(plan.weightMade).toBe(2)
    expect(planedByHand(problem, plan.layouts[0].tree)).toBe(2)
  })
})

describe('panels of staves', () => {
  const panelOf = (demand: number, boards?: readonly number[]): CutBlank[] => [
    {
      id: 'top',
      lengthUm: 600_000,
      widthUm: 303_000,
      demand,
      grain: 'along',
      weight: 1,
      ...(boards ? { boards } : {}),
    },
    {
      id: 'top, stave',
      lengthUm: 600_000,
      widthUm: 40_000,
      demand: 0,
      grain: 'along',
      weight: 0,
      stave: {
        of: 0,
        panelUm: 303_000,
        minWidthUm: 40_000,
        maxWidthUm: 120_000,
        jointUm: 500,
        maxStaves: 8,
      },
    },
  ]
  it('a top 303 mm wide comes out of boards of 110 mm: three staves of 102', () => {
    const boards = ['a', 'b', 'c', 'd'].map((id) => board(id, 620_000, 110_000))
    const problem = problemOf(boards, panelOf(1, []))
    const plan = solved(problem)
    expect(plan.weightMade).toBe(1)
    const staves = plan.layouts.flatMap(({ tree }) => leavesOf(tree).filter((l) => l.kind === 'blank'))
    expect(staves.map((s) => s.widthUm)).toEqual([102_000, 102_000, 102_000])
    expect(staves.map((s) => s.kind === 'blank' && s.stave?.at).sort()).toEqual([0, 1, 2])
    expect(plan.cost).toBe(3)
  })
  it('boards of 80 mm give four staves', () => {
    const boards = ['a', 'b', 'c', 'd'].map((id) => board(id, 620_000, 80_000))
    const plan = solved(problemOf(boards, panelOf(1, [])))
    expect(plan.weightMade).toBe(1)
    expect(plan.layouts).toHaveLength(4)
  })
  it('boards of different widths: 120 + 100 + 85 of their own widths make 303 where no equal ones do', () => {
    const boards = [board('a', 620_000, 120_000), board('b', 620_000, 100_000), board('c', 620_000, 85_000)]
    const problem = problemOf(boards, panelOf(1, []))
    const plan = solved(problem)
    expect(plan.weightMade).toBe(1)
    const widths = plan.layouts.flatMap(({ tree }) =>
      leavesOf(tree).flatMap((l) => (l.kind === 'blank' ? [l.widthUm] : [])),
    )
    // 120 + 100 + 85 - 2 = 303: all of every board.
    expect(widths.sort()).toEqual([100_000, 120_000, 85_000])
  })
  it('a wide board is taken whole where it is cheapest', () => {
    const boards = [board('wide', 620_000, 310_000, 1), board('a', 620_000, 110_000, 9)]
    const plan = solved(problemOf(boards, panelOf(1, [0])))
    expect(plan.cost).toBe(1)
    expect(leavesOf(plan.layouts[0].tree).some((l) => l.kind === 'blank' && l.blank === 0)).toBe(true)
  })
  it('one of two whole, the other glued up', () => {
    const boards = [
      board('wide', 620_000, 310_000),
      ...['a', 'b', 'c'].map((id) => board(id, 620_000, 110_000)),
    ]
    const plan = solved(problemOf(boards, panelOf(2, [0])))
    expect(plan.weightMade).toBe(2)
  })
  it('staves of a panel that cannot be made up are left uncut, and the panel is short', () => {
    const boards = ['a', 'b'].map((id) => board(id, 620_000, 110_000))
    const plan = solved(problemOf(boards, panelOf(1, [])))
    expect(plan.weightMade).toBe(0)
    expect(plan.layouts).toEqual([])
    expect(plan.shortages).toMatchObject([{ blank: 0, missing: 1 }])
  })
  it('harm is found: a stave too narrow, missing, or twice in one place', () => {
    const boards = ['a', 'b', 'c'].map((id) => board(id, 620_000, 110_000))
    const problem = problemOf(boards, panelOf(1, []))
    const plan = solved(problem)
    const harm = (of: (json: string) => string) =>
      verifyCutPlan(problem, { ...plan, layouts: JSON.parse(of(JSON.stringify(plan.layouts))) }).map(
        (f) => f.kind,
      )
    expect(harm((json) => json.replaceAll('"at":2', '"at":1'))).toContain('panel')
    expect(harm((json) => json.replaceAll('"panel":0', '"panel":-1'))).toContain('panel')
    const wider = {
      ...problem,
      blanks: problem.blanks.map((b) => (b.stave ? { ...b, stave: { ...b.stave, panelUm: 305_000 } } : b)),
    }
    expect(verifyCutPlan(wider, plan).map((f) => f.kind)).toContain('panel')
    const fewer = { ...plan, layouts: plan.layouts.slice(1) }
    expect(verifyCutPlan(problem, fewer).map((f) => f.kind)).toContain('panel')
  })
})

describe('random shops', () => {
  it('every plan passes the check, is never worse than cutting one by one, and repeats', () => {
    let judged = 0
    const mm = (min: number, max: number) => fc.integer({ min, max }).map((v) => v * 1_000)
    const arbitraryBoard = fc.record({
      lengthUm: mm(300, 2_000),
      widthUm: mm(60, 300),
      cost: fc.integer({ min: 1, max: 9 }),
    })
    const arbitraryBlank = fc.record({
      lengthUm: mm(120, 700),
      widthUm: mm(40, 120),
      demand: fc.integer({ min: 1, max: 5 }),
      lean: mm(-30, 30),
      isTrapezium: fc.boolean(),
      isShort: fc.boolean(),
    })
    fc.assert(
      fc.property(
        fc.array(arbitraryBoard, { minLength: 1, maxLength: 5 }),
        fc.array(arbitraryBlank, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        (boards, blanks, hasPanel) => {
          const cut = blanks.map(({ lengthUm, widthUm, demand, lean, isTrapezium, isShort }, i): CutBlank => {
            const nearUm = isTrapezium ? lengthUm - Math.max(0, -lean) * 2 : lengthUm - Math.abs(lean)
            const ends = { nearUm, leanAUm: lean, leanBUm: isTrapezium ? -lean : lean }
            return {
              ...{ id: `p${i}`, lengthUm, widthUm, demand, grain: 'along', weight: 1 },
              ...(lean === 0 ? {} : { ends }),
              ...(isShort ? { planedUm: 300_000 } : {}),
            }
          })
          const panel: CutBlank[] = hasPanel
            ? [
                { id: 'top', lengthUm: 400_000, widthUm: 250_000, demand: 1, grain: 'along', weight: 1 },
                {
                  ...{
                    id: 'stave',
                    lengthUm: 400_000,
                    widthUm: 40_000,
                    demand: 0,
                    grain: 'along',
                    weight: 0,
                  },
                  stave: {
                    of: cut.length,
                    panelUm: 250_000,
                    minWidthUm: 40_000,
                    maxWidthUm: 120_000,
                    jointUm: 500,
                    maxStaves: 6,
                  },
                },
              ]
            : []
          const problem = problemOf(
            boards.map((b, i) => ({ id: `b${i}`, ...b })),
            [...cut, ...panel],
          )
          const options = { seed: 3, budget: { maxSteps: 8_000 } }
          const plan = planForms(problem, options)
          expect(verifyCutPlan(problem, plan)).toEqual([])
          expect(planForms(problem, options)).toEqual(plan)
          const plain = planCuts(problem, { ...options, budget: { maxSteps: 1_500 }, isTrial: true })
          if (!cut.some((b) => b.planedUm)) expect(plan.weightMade).toBeGreaterThanOrEqual(plain.weightMade)
          judged++
        },
      ),
      { numRuns: 30 },
    )
    expect(judged).toBe(30)
  })
  it('a problem of plain blanks goes straight to the plain engine', () => {
    const problem = problemOf([board('a', 1_000_000, 100_000)], [{ ...leg(2), ends: undefined }])
    expect(hasForms(problem)).toBe(false)
    expect(planForms(problem, OPTIONS)).toEqual(planCuts(problem, OPTIONS))
  })
})
