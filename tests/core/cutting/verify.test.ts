import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutNode, CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { blank, board, MM, shop } from './shops'

/** 1000 x 100 board: crosscut at 400, then the first piece ripped at 60; kerf 3.2 mm. Written out by hand. */
const problem: CutProblem = shop([board(1000, 100)], [blank(400, 60, 1), blank(596.8, 100, 1)])
const sound: CutPlan = {
  status: 'optimal',
  layouts: [
    {
      board: 0,
      copies: 1,
      tree: {
        kind: 'cut',
        xUm: 0,
        yUm: 0,
        lengthUm: 1_000_000,
        widthUm: 100_000,
        cut: 'crosscut',
        atUm: 400_000,
        first: {
          kind: 'cut',
          xUm: 0,
          yUm: 0,
          lengthUm: 400_000,
          widthUm: 100_000,
          cut: 'rip',
          atUm: 60_000,
          first: {
            kind: 'blank',
            xUm: 0,
            yUm: 0,
            lengthUm: 400_000,
            widthUm: 60_000,
            blank: 0,
            turned: false,
          },
          second: { kind: 'waste', xUm: 0, yUm: 63_200, lengthUm: 400_000, widthUm: 36_800 },
        },
        second: {
          kind: 'blank',
          xUm: 403_200,
          yUm: 0,
          lengthUm: 596_800,
          widthUm: 100_000,
          blank: 1,
          turned: false,
        },
      },
    },
  ],
  weightMade: 2,
  weightBound: 2,
  cost: 100_000,
  costBound: 100_000,
  yield: (400 * 60 + 596.8 * 100) / 100_000,
  shortages: [],
  steps: 0,
}
type Cut = Extract<CutNode, { kind: 'cut' }>
const tree = sound.layouts[0].tree as Cut
const withTree = (t: unknown): CutPlan => ({
  ...sound,
  layouts: [{ board: 0, copies: 1, tree: t as CutNode }],
})
const kinds = (p: CutProblem, plan: CutPlan) => [...new Set(verifyCutPlan(p, plan).map((f) => f.kind))]

describe('verifyCutPlan', () => {
  it('accepts a plan written out by hand', () => {
    expect(verifyCutPlan(problem, sound)).toEqual([])
  })

  it.each<[string, CutProblem, CutPlan]>([
    ['overlap', problem, withTree({ ...tree, second: { ...tree.second, xUm: 403_199 } })],
    ['overlap', problem, withTree({ ...tree, atUm: 399_999 })],
    ['kerf', problem, withTree({ ...tree, second: undefined })],
    ['outsideBoard', problem, withTree({ ...tree, lengthUm: 1_000_001 })],
    [
      'zone',
      { ...problem, zones: [{ board: 0, xUm: 999_999, yUm: 0, lengthUm: 9, widthUm: 9, blocks: [1] }] },
      sound,
    ],
    ['demand', { ...problem, blanks: [{ ...problem.blanks[0], demand: 0 }, problem.blanks[1]] }, sound],
    ['board', { ...problem, blanks: [{ ...problem.blanks[0], boards: [] }, problem.blanks[1]] }, sound],
    ['machine', { ...problem, limits: { ...problem.limits, minPieceLengthUm: 400_001 } }, sound],
    ['machine', { ...problem, limits: { ...problem.limits, maxRipWidthUm: 36_000 } }, sound],
    ['machine', { ...problem, limits: { ...problem.limits, maxCrosscutWidthUm: 99_999 } }, sound],
    ['stages', { ...problem, limits: { ...problem.limits, stages: 1 } }, sound],
    ['boardCount', problem, { ...sound, layouts: [{ ...sound.layouts[0], copies: 2 }] }],
    ['badIndex', problem, { ...sound, layouts: [{ ...sound.layouts[0], board: 1 }] }],
    ['weight', problem, { ...sound, weightMade: 3 }],
    ['cost', problem, { ...sound, cost: 99_999 }],
    ['yield', problem, { ...sound, yield: 0.9 }],
    ['bound', problem, { ...sound, weightBound: 1 }],
    ['bound', problem, { ...sound, costBound: 100_001 }],
    ['status', problem, { ...sound, weightBound: 3 }],
    ['shortage', problem, { ...sound, shortages: [{ blank: 0, missing: 1, why: 'length' }] }],
  ])('finds a fault of the kind %s', (kind, p, plan) => {
    expect(kinds(p, plan)).toContain(kind)
  })

  it('finds a turned part whose grain must lie along', () => {
    const p = shop([board(100, 100)], [blank(100, 60, 1)])
    const plan = planCuts(p, { seed: 1, budget: { maxSteps: 100 } })
    const node = plan.layouts[0].tree as Cut
    const turned = { ...node.first, turned: true } as CutNode
    expect(
      kinds(p, { ...plan, layouts: [{ board: 0, copies: 1, tree: { ...node, first: turned } }] }),
    ).toContain('grain')
  })

  it('lets zones of a board with a count lie on the first of them alone', () => {
    const zones = [{ board: 0, xUm: 0, yUm: 0, lengthUm: 10 * MM, widthUm: 10 * MM, blocks: 'all' as const }]
    const p = shop([board(500, 50, { count: 3 })], [blank(500, 50, 3)], { zones })
    const plan = planCuts(p, { seed: 1, budget: { maxSteps: 1_000 } })
    expect(plan.weightMade).toBe(2)
    expect(verifyCutPlan(p, plan)).toEqual([])
    const three = { ...plan.layouts[0], copies: 3 }
    expect(kinds(p, { ...plan, layouts: [three] })).toContain('zone')
  })
})
