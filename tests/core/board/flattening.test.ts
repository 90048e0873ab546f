import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { arcRadiusMm, crookLossUm, flatThicknessUm, flatteningLoss } from '#lib/core/board/flattening'
import { FLAT, soundBoard } from './boards'

const BARE = { skimPerFaceUm: 0, sandPerFaceUm: 0, isTwistShimmed: true }
const whole = { lengthUm: 2_000_000, widthUm: 200_000 }

describe('flattening, whole board (common practice; constructed from plane geometry)', () => {
  it('takes a cup of 3 mm and a skim of 0.5 mm a face from 25 mm: 21 mm', () => {
    const board = soundBoard({ warp: { ...FLAT, cupUm: 3_000 } })
    expect(flatThicknessUm(board, whole, { ...BARE, skimPerFaceUm: 500 })).toBe(21_000)
  })

  it('takes half of a twist of 4 mm when it is shimmed, all of it when it is not: 23 and 21 mm', () => {
    const board = soundBoard({ warp: { ...FLAT, twistUm: 4_000 } })
    expect(flatThicknessUm(board, whole, BARE)).toBe(23_000)
    expect(flatThicknessUm(board, whole, { ...BARE, isTwistShimmed: false })).toBe(21_000)
  })

  it('an arc of 3 mm over 200 mm has a radius of 1668.17 mm', () => {
    expect(arcRadiusMm(200, 3)).toBeCloseTo(1668.17, 2)
    expect(() => arcRadiusMm(200, 0)).toThrow(RangeError)
  })
})

describe('flattening, a piece of the board', () => {
  it('half the width has a quarter of the cup, half the length a quarter of the bow', () => {
    const board = soundBoard({ warp: { ...FLAT, cupUm: 8_000, bowUm: 12_000 } })
    const loss = flatteningLoss(board, { lengthUm: 1_000_000, widthUm: 100_000 }, BARE)
    expect(loss).toEqual({ cupUm: 2_000, bowUm: 3_000, twistUm: 0, facesUm: 0 })
  })

  it('the rise of an arc over a shorter chord is what the sagitta of its circle says, to 1 %', () => {
    // Independent of the square law: the exact sagitta R - sqrt(R^2 - (w/2)^2) of the same circle.
    const radiusMm = arcRadiusMm(200, 3)
    for (const chordMm of [40, 75, 120, 180]) {
      const exactUm = 1000 * (radiusMm - Math.sqrt(radiusMm ** 2 - (chordMm / 2) ** 2))
      const board = soundBoard({ warp: { ...FLAT, cupUm: 3_000 } })
      const loss = flatteningLoss(board, { lengthUm: 500_000, widthUm: chordMm * 1000 }, BARE)
      expect(Math.abs(loss.cupUm - exactUm)).toBeLessThan(0.01 * exactUm + 1)
    }
  })

  it('a quarter of a twisted board lifts a quarter as far: the saddle z = k x y', () => {
    const board = soundBoard({ warp: { ...FLAT, twistUm: 8_000 } })
    const piece = { lengthUm: 1_000_000, widthUm: 100_000 }
    expect(flatteningLoss(board, piece, BARE).twistUm).toBe(1_000)
    // Best-fit plane of a saddle is z = 0 by symmetry, so the corners stand at +-lift/4 and span half the lift.
    const liftUm = 8_000 / 4
    const corners = [1, -1].flatMap((x) => [1, -1].map((y) => (x * y * liftUm) / 4))
    expect(Math.max(...corners) - Math.min(...corners)).toBe(1_000)
  })

  it('crook costs width by the square of the length', () => {
    const board = soundBoard({ warp: { ...FLAT, crookUm: 8_000 } })
    expect(crookLossUm(board, 1_000_000)).toBe(2_000)
    expect(crookLossUm(board, 2_000_000)).toBe(8_000)
  })

  it('a smaller piece is never thinner, and no warp adds wood', () => {
    let judged = 0
    const side = fc.integer({ min: 1_000, max: 200_000 })
    const warp = fc.record({
      cupUm: fc.integer({ min: 0, max: 20_000 }),
      bowUm: fc.integer({ min: 0, max: 20_000 }),
      crookUm: fc.integer({ min: 0, max: 20_000 }),
      twistUm: fc.integer({ min: 0, max: 20_000 }),
    })
    fc.assert(
      fc.property(side, side, side, side, warp, (l, w, dl, dw, boardWarp) => {
        const board = soundBoard({ warp: boardWarp })
        const small = flatThicknessUm(board, { lengthUm: l, widthUm: w }, DEFAULT_ALLOWANCES)
        const large = flatThicknessUm(board, { lengthUm: l + dl, widthUm: w + dw }, DEFAULT_ALLOWANCES)
        expect(small).toBeGreaterThanOrEqual(large)
        expect(small).toBeLessThanOrEqual(25_000 - 1_600)
        judged++
      }),
    )
    expect(judged).toBeGreaterThan(0)
  })

  it('refuses a piece without a size', () => {
    expect(() => flatThicknessUm(soundBoard(), { lengthUm: 0, widthUm: 1 }, BARE)).toThrow(RangeError)
  })
})
