import { describe, expect, it } from 'vitest'
import { countSettings, cutOrder } from '#lib/core/cutting/cut-order'
import { offcutWorth, restsOf } from '#lib/core/cutting/offcuts'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { blank, board, MM, shop } from './shops'

const boards = [board(1800, 200), board(1100, 140), board(900, 260)]
const blanks = [blank(400, 60, 6), blank(350, 90, 4), blank(610, 45, 3)]
const problem = shop(boards, blanks, {
  limits: { minPieceLengthUm: 200 * MM, minPieceWidthUm: 30 * MM, maxRipWidthUm: 150 * MM, stages: null },
})
const plan = planCuts(problem, { seed: 4, budget: { maxSteps: 20_000 } })

describe('cut order', () => {
  it('cuts every parent before its children, numbered from 1', () => {
    expect(plan.layouts.length).toBeGreaterThan(0)
    for (const { tree } of plan.layouts) {
      const { cuts } = cutOrder(tree, problem.limits)
      expect(cuts.map((c) => c.number)).toEqual(cuts.map((_, i) => i + 1))
      for (const c of cuts) expect(c.after).toBeLessThan(c.number)
    }
  })

  it('sets stop and fence to the size of the measured piece, within the reach of the fence', () => {
    for (const { tree } of plan.layouts) {
      for (const c of cutOrder(tree, problem.limits).cuts) {
        expect(c.settingUm).toBeGreaterThan(0)
        expect(c.machine).toBe(c.kind === 'rip' ? 'ripFence' : 'sled')
        if (c.kind === 'rip') expect(c.settingUm).toBeLessThanOrEqual(150 * MM)
      }
    }
  })

  it('measures the far side where the near one is too wide for the fence', () => {
    const p = shop([board(600, 300)], [blank(600, 200, 1)], {
      limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, maxRipWidthUm: 120 * MM, stages: null },
    })
    const { tree } = planCuts(p, { seed: 1, budget: { maxSteps: 100 } }).layouts[0]
    const [rip] = cutOrder(tree, p.limits).cuts
    expect([rip.measured, rip.settingUm]).toEqual(['second', (300 - 200 - 3.2) * MM])
  })

  it('counts a setting once however often it is used', () => {
    const p = shop([board(1600, 100)], [blank(300, 100, 5)])
    const { tree } = planCuts(p, { seed: 1, budget: { maxSteps: 1_000 } }).layouts[0]
    expect(cutOrder(tree).cuts).toHaveLength(5)
    expect(cutOrder(tree).distinctSettings).toBe(1)
    expect(countSettings([tree, tree])).toBe(1)
  })
})

describe('rests', () => {
  it('add up to the board: blanks, offcuts, waste and kerf', () => {
    for (const { tree } of plan.layouts) {
      const r = restsOf(tree)
      const sum = r.blankAreaUm2 + r.offcutAreaUm2 + r.wasteAreaUm2 + r.kerfAreaUm2
      expect(sum).toBe(tree.lengthUm * tree.widthUm)
      expect(r.kerfAreaUm2).toBeGreaterThan(0)
      for (const o of r.offcuts) {
        expect(o.lengthUm).toBeGreaterThanOrEqual(150 * MM)
        expect(o.widthUm).toBeGreaterThanOrEqual(40 * MM)
      }
    }
  })

  it('are worth more in one piece than in two halves', () => {
    expect(2 * offcutWorth(500 * MM, 1000 * MM)).toBeLessThan(offcutWorth(1000 * MM, 1000 * MM))
    expect(offcutWorth(1000 * MM, 1000 * MM)).toBe(1)
  })

  it('are kept large: one part leaves one long offcut, not two strips', () => {
    const p = shop([board(2000, 200)], [blank(500, 100, 1)])
    const { tree } = planCuts(p, { seed: 1, budget: { maxSteps: 1_000 } }).layouts[0]
    const largest = restsOf(tree).offcuts[0]
    expect(largest.lengthUm * largest.widthUm).toBe((2000 - 500 - 3.2) * MM * 200 * MM)
  })
})
