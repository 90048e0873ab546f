import { describe, expect, test } from 'vitest'
import type { CutNode } from '#lib/core/cutting/problem'
import { comparedBoards, onlyMadeBy, type Planned, planFigures } from '#lib/shop/plan-compare'
import type { PlanInput } from '#lib/shop/plan-input'
import type { PlanResult } from '#lib/shop/plan-result'

const mm = (v: number) => v * 1_000
const blank = (xUm: number, lengthUm: number): CutNode => ({
  ...{ kind: 'blank', xUm, yUm: 0, lengthUm, widthUm: mm(100), blank: 0, turned: false },
})
/** A part of 400 mm, kerf 3, and what is left of a board 1 m long. */
const tree = (partMm: number): CutNode => ({
  ...{
    kind: 'cut',
    xUm: 0,
    yUm: 0,
    lengthUm: mm(1_000),
    widthUm: mm(100),
    cut: 'crosscut',
    atUm: mm(partMm),
  },
  first: blank(0, mm(partMm)),
  second: { kind: 'offcut', xUm: mm(partMm + 3), yUm: 0, lengthUm: mm(997 - partMm), widthUm: mm(100) },
})
const input = {
  needs: [{ name: 'leg', count: 2, partIds: ['leg-1', 'leg-2'] }],
  boards: [7, 8, 9].map((number) => ({ id: `b${number}`, number, lengthUm: mm(1_020), widthUm: mm(100) })),
  pool: { boardIds: ['b7', 'b8', 'b9'], problem: { blanks: [{}] } },
  shop: { limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null } },
} as unknown as PlanInput
const planned = (
  layouts: readonly [board: number, partMm: number, partId: string][],
  missing = 0,
): Planned => ({
  input,
  result: {
    plan: {
      layouts: layouts.map(([board, partMm]) => ({ board, copies: 1, tree: tree(partMm) })),
      shortages: missing > 0 ? [{ blank: 0, missing, why: 'contention' }] : [],
      cost: 200,
      costBound: 150,
    },
    partIds: layouts.map(([, , id]) => [id]),
  } as unknown as PlanResult,
})

describe('figures of a plan, by hand', () => {
  test('two boards, a part of 400 in each, 597 kept of each', () => {
    const f = planFigures(
      planned([
        [0, 400, 'leg-1'],
        [1, 400, 'leg-2'],
      ]),
    )
    expect(f).toMatchObject({ made: 2, wanted: 2, boards: 2, offcuts: 2, settings: 1, byHand: 0, panels: 0 })
    expect(f.woodM2).toBeCloseTo(2 * 1.02 * 0.1, 12)
    expect(f.gap).toBeCloseTo(0.25, 12)
    expect(f.largestOffcutM2).toBeCloseTo(0.0597, 12)
    // Worth: area to the power 1.5, each.
    expect(f.offcutWorth).toBeCloseTo(2 * 0.0597 ** 1.5, 12)
    expect(f.shares.parts).toBeCloseTo(0.8 / 2.04, 12)
  })
  test('other lengths are other settings; staves count as one part', () => {
    const f = planFigures(
      planned(
        [
          [0, 400, 'leg-1~1'],
          [1, 401, 'leg-1~2'],
        ],
        1,
      ),
    )
    expect(f).toMatchObject({ made: 1, settings: 2, panels: 1 })
  })
})

describe('two plans side by side', () => {
  const a = planned([
    [0, 400, 'leg-1'],
    [1, 400, 'leg-2'],
  ])
  const b = planned([
    [0, 400, 'leg-1'],
    [2, 400, 'leg-2'],
  ])
  test('boards cut otherwise come first', () => {
    expect(comparedBoards(a, b)).toEqual([
      { boardId: 'b8', number: 8, a: 1, b: null, isSame: false },
      { boardId: 'b9', number: 9, a: null, b: 1, isSame: false },
      { boardId: 'b7', number: 7, a: 0, b: 0, isSame: true },
    ])
  })
  test('the same cuts for other parts are not the same', () => {
    const c = planned([
      [0, 400, 'leg-2'],
      [1, 400, 'leg-1'],
    ])
    expect(comparedBoards(a, c).every((board) => !board.isSame)).toBe(true)
  })
  test('parts that only one makes', () => {
    expect(onlyMadeBy(a, planned([[0, 400, 'leg-1']], 1))).toEqual(['leg-2'])
    expect(onlyMadeBy(b, a)).toEqual([])
  })
})
