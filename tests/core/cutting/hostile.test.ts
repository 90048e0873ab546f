import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { blank, board, MM, shop } from './shops'

const good = shop([board(1000, 100)], [blank(300, 50, 2)], {
  zones: [{ board: 0, xUm: 0, yUm: 0, lengthUm: 5, widthUm: 5, blocks: 'all' }],
})
const run = (p: CutProblem, maxSteps = 5_000) => planCuts(p, { seed: 1, budget: { maxSteps } })
type Deep = Record<string, unknown>
/** The good problem with one value exchanged, by path. */
const broken = (path: string, value: unknown): CutProblem => {
  const copy = structuredClone(good) as unknown as Deep
  const keys = path.split('.')
  let at = copy
  for (const k of keys.slice(0, -1)) at = at[k] as Deep
  at[keys[keys.length - 1]] = value
  return copy as unknown as CutProblem
}

describe('values that cannot be meant', () => {
  it.each<[string, unknown]>([
    ['kerfUm', Number.NaN],
    ['kerfUm', -1],
    ['kerfUm', 0.5],
    ['boards.0.lengthUm', 0],
    ['boards.0.lengthUm', -5],
    ['boards.0.lengthUm', Number.POSITIVE_INFINITY],
    ['boards.0.widthUm', 1e18],
    ['boards.0.cost', Number.NaN],
    ['boards.0.cost', -1],
    ['boards.0.count', 1.5],
    ['boards.0.count', -1],
    ['blanks.0.lengthUm', Number.NaN],
    ['blanks.0.widthUm', 0],
    ['blanks.0.demand', -1],
    ['blanks.0.demand', 1e12],
    ['blanks.0.weight', Number.NaN],
    ['blanks.0.boards', [1]],
    ['blanks.0.grain', 'sideways'],
    ['zones.0.board', 1],
    ['zones.0.xUm', -1],
    ['zones.0.lengthUm', Number.NaN],
    ['zones.0.blocks', [7]],
    ['limits.minPieceLengthUm', -1],
    ['limits.maxRipWidthUm', 0],
    ['limits.stages', -1],
    ['offcut.minLengthUm', Number.NaN],
  ])('%s = %s is refused by name', (path, value) => {
    const last = path.split('.').pop() as string
    expect(() => run(broken(path, value))).toThrow(RangeError)
    expect(() => run(broken(path, value))).toThrow(new RegExp(last))
  })

  it('parts without end on boards without end are refused', () => {
    expect(() => run(shop([board(1000, 100, { count: null })], [blank(300, 50, null)]))).toThrow(RangeError)
  })
})

describe('problems that go to the edge', () => {
  const sound = (p: CutProblem, maxSteps?: number) => {
    const plan = run(p, maxSteps)
    expect(verifyCutPlan(p, plan)).toEqual([])
    return plan
  }
  it('nothing to make, nothing to cut', () => {
    expect(sound(shop([], [])).status).toBe('optimal')
    expect(sound(shop([board(1000, 100)], [])).layouts).toEqual([])
    expect(sound(shop([], [blank(300, 50, 2)])).shortages[0].why).toBe('noBoard')
  })
  it('a board that is all defect', () => {
    const zones = [
      { board: 0, xUm: 0, yUm: 0, lengthUm: 1000 * MM, widthUm: 100 * MM, blocks: 'all' as const },
    ]
    const plan = sound(shop([board(1000, 100)], [blank(300, 50, 2)], { zones }))
    expect(plan.shortages).toEqual([{ blank: 0, missing: 2, why: 'defects' }])
    expect(plan.weightBound).toBe(0)
  })
  it('a kerf larger than the part', () => {
    const p = shop([board(1000, 100)], [blank(20, 20, 9)], { kerfUm: 60 * MM })
    // Rows of 20 and one kerf of 60: floor((1000 + 60) / 80) = 13 along, floor((100 + 60) / 80) = 2 across.
    expect(sound(p).weightMade).toBe(9)
  })
  it('10,000 alike parts', () => {
    const p = shop([board(20_000, 20_000)], [blank(150, 90, 10_000)])
    expect(sound(p).weightMade).toBe(10_000)
    const short = shop([board(9_000, 1_000)], [blank(150, 90, 10_000)])
    expect(sound(short).weightMade).toBeGreaterThan(570)
  })
  it('10,000 alike parts from bars', () => {
    const p = shop([board(2_400, 90, { count: null })], [blank(350, 90, 10_000)], { objective: 'minBoards' })
    // floor((2400 + 3.2) / (350 + 3.2)) = 6 from a bar; common practice.
    const plan = sound(p)
    expect([plan.status, plan.cost]).toEqual(['optimal', Math.ceil(10_000 / 6)])
  })
  it('300 different parts in one very long board', () => {
    const blanks = Array.from({ length: 300 }, (_, i) => blank(101 + i, 90, 1))
    expect(sound(shop([board(90_000, 90)], blanks)).weightMade).toBe(300)
  })
  it('a step budget of nothing, and a caller who wants to stop at once', () => {
    expect(['outOfBudget', 'feasible']).toContain(run(good, 0).status)
    const plan = planCuts(good, { seed: 1, budget: { maxSteps: 1e6, shouldStop: () => true } })
    expect(verifyCutPlan(good, plan)).toEqual([])
  })
  it('weights and costs of nothing', () => {
    sound(shop([board(1000, 100, { cost: 0 })], [blank(300, 50, 2, { weight: 0 })]))
  })

  it('boards that are all defect but for a sliver, many zones over one another', () => {
    const zones = Array.from({ length: 60 }, (_, k) => ({
      board: 0,
      xUm: k * 15 * MM,
      yUm: (k % 10) * MM,
      lengthUm: 100 * MM,
      widthUm: 95 * MM,
      blocks: 'all' as const,
    }))
    const plan = sound(shop([board(1000, 100)], [blank(300, 50, 2), blank(5, 4, 50)], { zones }), 600)
    expect(plan.shortages.some((s) => s.blank === 0 && s.why === 'defects')).toBe(true)
  })
  it('a caller who wants to stop is heard soon, however many zones there are', () => {
    const zones = Array.from({ length: 300 }, (_, k) => ({
      board: 0,
      xUm: k * 3 * MM,
      yUm: (k % 10) * MM,
      lengthUm: 100 * MM,
      widthUm: 95 * MM,
      blocks: 'all' as const,
    }))
    const p = shop([board(1000, 100)], [blank(300, 50, 2), blank(5, 4, 50)], { zones })
    let asked = 0
    const plan = planCuts(p, { seed: 1, budget: { maxSteps: 1e6, shouldStop: () => ++asked > 3 } })
    expect(verifyCutPlan(p, plan)).toEqual([])
    expect(plan.steps).toBeLessThan(2_000)
  })
  it('the largest sizes and counts that are allowed', () => {
    const huge = { lengthUm: 1_000_000_000, widthUm: 1_000_000_000 }
    const boards = [{ ...board(1, 1), ...huge, count: 1_000_000 }]
    const blanks = [blank(1, 1, 20_000), { ...blank(1, 1, 3), ...huge }]
    sound(shop(boards, blanks), 500)
  })
  it('10,000 different parts that all want one small board', () => {
    const blanks = Array.from({ length: 10_000 }, (_, i) => blank(50 + (i % 997) / 10, 20 + (i % 89) / 10, 1))
    const plan = sound(shop([board(600, 200)], blanks), 40)
    expect(plan.weightMade).toBeGreaterThan(20)
  })
  it('parts that make blocks without waste in every way', () => {
    const plan = sound(
      shop([board(1009.6, 1009.6), board(997, 503)], [blank(98.08, 98.08, 500, { grain: 'free' })]),
    )
    expect(plan.weightMade).toBeGreaterThan(90)
  })
})
