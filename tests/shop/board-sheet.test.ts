import { describe, expect, test } from 'vitest'
import type { CutNode } from '#lib/core/cutting/problem'
import { boardSheet, letterOf } from '#lib/shop/board-sheet'
import type { PlanInput } from '#lib/shop/plan-input'
import type { PlanResult } from '#lib/shop/plan-result'
import { isSettled, settledIds } from '#lib/shop/setup-work'

const blank = (n: number, xUm: number, lengthUm: number): CutNode => ({
  kind: 'blank',
  xUm,
  yUm: 0,
  lengthUm,
  widthUm: 50,
  blank: n,
  turned: false,
})
// 1000 x 60 usable, kerf 10: ripped to 50 (no rest), then 400 and 300 crosscut, 280 kept.
const tree: CutNode = {
  kind: 'cut',
  xUm: 0,
  yUm: 0,
  lengthUm: 1_000,
  widthUm: 60,
  cut: 'rip',
  atUm: 50,
  first: {
    kind: 'cut',
    xUm: 0,
    yUm: 0,
    lengthUm: 1_000,
    widthUm: 50,
    cut: 'crosscut',
    atUm: 400,
    first: blank(0, 0, 400),
    second: {
      kind: 'cut',
      xUm: 410,
      yUm: 0,
      lengthUm: 590,
      widthUm: 50,
      cut: 'crosscut',
      atUm: 300,
      first: blank(1, 410, 300),
      second: { kind: 'offcut', xUm: 720, yUm: 0, lengthUm: 280, widthUm: 50 },
    },
  },
}
const input = {
  needs: [{ name: 'leg' }, { name: 'rail' }],
  boards: [{ id: 'b', number: 4 }],
  pool: {
    problem: { blanks: [{}, {}] },
    usable: [{ xUm: 100, yUm: 5, lengthUm: 1_000, widthUm: 60 }],
    orientations: [['aUp', 'bUp']],
  },
  shop: { limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null } },
} as unknown as PlanInput
const result = {
  plan: { layouts: [{ board: 0, copies: 1, tree }] },
  partIds: [['leg-1', 'rail-1']],
} as unknown as PlanResult

describe('a layout as it is read at the saw', () => {
  const sheet = boardSheet(input, result, 0, (id) => (id === 'leg-1' ? 'Leg, left' : undefined))

  test('parts lie on the board itself, with letters, names and the side that shows', () => {
    expect(sheet.parts).toMatchObject([
      { letter: 'a', name: 'Leg, left', kind: 'leg', xUm: 100, yUm: 5, lengthUm: 400, isTurnedOver: false },
      { letter: 'b', name: 'rail', xUm: 510, lengthUm: 300, isTurnedOver: true },
    ])
    expect(sheet.rests).toMatchObject([{ kind: 'offcut', xUm: 820, lengthUm: 280 }])
  })

  test('cuts are numbered so that a piece is cut after the cut that made it; each says what it frees', () => {
    expect(sheet.cuts.map((c) => [c.number, c.kind, c.after, c.settingUm, c.gives.join(' + ')])).toEqual([
      [1, 'rip', 0, 50, 'cut 2'],
      [2, 'crosscut', 1, 400, 'a + cut 3'],
      [3, 'crosscut', 2, 300, 'b + offcut'],
    ])
    expect(sheet.cuts.map((c) => c.lineUm)).toEqual([55, 500, 810])
  })
})

test('letters go on after z', () => {
  expect([0, 25, 26, 27, 51, 52].map(letterOf)).toEqual(['a', 'z', 'aa', 'ab', 'az', 'ba'])
})

test('ticks of earlier plans hold for what was cut under them', () => {
  const settled = settledIds([
    { id: 'b1', isCut: true, partIds: ['leg-1', null] },
    { id: 'b2', isCut: false, partIds: ['rail-1'] },
  ])
  expect(['cut:b1/12', 'trim:b1', 'op:leg-1:notch', 'plane:b1/1'].every((k) => isSettled(k, settled))).toBe(
    true,
  )
  expect(['cut:b2/1', 'op:rail-1:end', 'odd'].some((k) => isSettled(k, settled))).toBe(false)
})
