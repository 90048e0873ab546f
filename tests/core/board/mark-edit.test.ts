import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { DEFECT_KINDS } from '#lib/core/board/board'
import {
  MARK_CORNERS,
  type MarkBox,
  markAt,
  markBetween,
  moveMark,
  resizeMark,
} from '#lib/core/board/mark-edit'
import { validateBoard } from '#lib/core/board/validate'

const board = { lengthUm: 900_000, widthUm: 90_000 }
const box: MarkBox = { xUm: 100_000, yUm: 20_000, widthUm: 30_000, heightUm: 20_000 }

describe('by hand', () => {
  test('two corners in any order give one box', () => {
    const corners = [
      [100_000, 20_000, 130_000, 40_000],
      [130_000, 40_000, 100_000, 20_000],
      [100_000, 40_000, 130_000, 20_000],
    ]
    for (const [ax, ay, bx, by] of corners)
      expect(markBetween({ xUm: ax, yUm: ay }, { xUm: bx, yUm: by }, board)).toEqual(box)
  })

  test('drawn over the end and the edge it stops there', () =>
    expect(markBetween({ xUm: 880_000, yUm: 80_000 }, { xUm: 2e6, yUm: 2e6 }, board)).toEqual({
      xUm: 880_000,
      yUm: 80_000,
      widthUm: 20_000,
      heightUm: 10_000,
    }))

  test('a tap near the corner places a whole mark at the corner', () =>
    expect(markAt('knot', { xUm: 0, yUm: 89_000 }, board)).toEqual({
      xUm: 0,
      yUm: 70_000,
      widthUm: 28_000,
      heightUm: 20_000,
    }))

  test('a mark larger than its board becomes as large as the board', () =>
    expect(markAt('wane', { xUm: 0, yUm: 0 }, { lengthUm: 40_000, widthUm: 8_000 })).toEqual({
      xUm: 0,
      yUm: 0,
      widthUm: 40_000,
      heightUm: 8_000,
    }))

  test('the end of a board of no whole step is reached', () => {
    const odd = { lengthUm: 899_613, widthUm: 90_000 }
    const moved = moveMark(box, 5e6, 0, odd)
    expect(moved.xUm + moved.widthUm).toBe(899_613)
  })

  test('a corner pulled: the opposite one stays; past it, the box turns over', () => {
    expect(resizeMark(box, 'farEnd', 10_000, 5_000, board)).toEqual({
      ...box,
      widthUm: 40_000,
      heightUm: 25_000,
    })
    expect(resizeMark(box, 'nearStart', -10_000, -5_000, board)).toEqual({
      xUm: 90_000,
      yUm: 15_000,
      widthUm: 40_000,
      heightUm: 25_000,
    })
    expect(resizeMark(box, 'farEnd', -50_000, 0, board)).toEqual({ ...box, xUm: 80_000, widthUm: 20_000 })
  })
})

const side = fc.record({
  lengthUm: fc.integer({ min: 20_000, max: 12_000_000 }),
  widthUm: fc.integer({ min: 5_000, max: 1_500_000 }),
})
const anywhere = fc.record({
  xUm: fc.integer({ min: -20_000_000, max: 20_000_000 }),
  yUm: fc.integer({ min: -20_000_000, max: 20_000_000 }),
})

test('whatever is drawn, moved and pulled, validateBoard takes it', () => {
  let judged = 0
  const isTaken = (size: { lengthUm: number; widthUm: number }, mark: MarkBox) => {
    const warp = { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 }
    const defects = [{ ...mark, id: 'x', kind: 'hole' as const, face: 'A' as const }]
    expect(validateBoard({ ...size, thicknessUm: 20_000, warp, defects })).toEqual([])
    expect(Math.min(mark.widthUm, mark.heightUm)).toBeGreaterThanOrEqual(790)
    judged++
  }
  fc.assert(
    fc.property(
      side,
      anywhere,
      anywhere,
      fc.constantFrom(...DEFECT_KINDS),
      fc.constantFrom(...MARK_CORNERS),
      fc.constantFrom(1_000, 1_587.5, 25_400 / 32),
      (s, a, b, kind, corner, step) => {
        const drawn = markBetween(a, b, s, step)
        isTaken(s, drawn)
        isTaken(s, markAt(kind, a, s, step))
        isTaken(s, moveMark(drawn, b.xUm, b.yUm, s, step))
        isTaken(s, resizeMark(drawn, corner, b.xUm, a.yUm, s, step))
        expect(moveMark(drawn, a.xUm, a.yUm, s, step)).toMatchObject({
          widthUm: drawn.widthUm,
          heightUm: drawn.heightUm,
        })
      },
    ),
    { seed: 11, numRuns: 500 },
  )
  expect(judged).toBe(2_000)
})
