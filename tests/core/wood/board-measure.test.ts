import { describe, expect, it } from 'vitest'
import {
  boardFeet,
  boardFeetOf,
  dressedSoftwoodIn,
  HARDWOOD_S2S_IN,
  M3_PER_BOARD_FOOT,
  volumeM3,
} from '#lib/core/wood/board-measure'

describe('board measure', () => {
  // Common practice: T in x W in x L ft / 12.
  it.each([
    [1, 8, 8, 5.3333],
    [1.25, 7.5, 12, 9.375],
    [2, 6, 10, 10],
  ])('%d x %d in x %d ft: %d board feet', (thicknessIn, widthIn, lengthFt, expected) => {
    expect(boardFeet({ thicknessIn, widthIn, lengthFt })).toBeCloseTo(expected, 3)
  })

  it('counts thin stock as an inch', () => {
    expect(boardFeet({ thicknessIn: 0.75, widthIn: 12, lengthFt: 1 })).toBe(1)
  })

  it('a board foot is 144 cubic inches: 0.002359737 m3', () => {
    expect(M3_PER_BOARD_FOOT).toBeCloseTo(0.002359737, 8)
    const foot = { lengthUm: 304_800, widthUm: 304_800, thicknessUm: 25_400 }
    expect(boardFeetOf(foot)).toBeCloseTo(1, 12)
    expect(volumeM3(foot)).toBeCloseTo(M3_PER_BOARD_FOOT, 12)
  })

  // American Softwood Lumber Standard PS 20, minimum dressed, dry.
  it.each([
    ['1x8', 0.75, 7.25],
    ['1x10', 0.75, 9.25],
    ['2x4', 1.5, 3.5],
    ['2x6', 1.5, 5.5],
    ['5/4x6', 1, 5.5],
    ['2 × 12', 1.5, 11.25],
  ])('%s is %d x %d in', (nominal, thicknessIn, widthIn) => {
    expect(dressedSoftwoodIn(nominal)).toEqual({ thicknessIn, widthIn })
  })

  it('knows no other size', () => {
    for (const nominal of ['', '2', '2x7', '3x4', 'x']) expect(dressedSoftwoodIn(nominal)).toBeNull()
  })

  it('hardwood surfaced on two sides loses 3/16 in, 1/4 from 8/4 (hardwood grading rules)', () => {
    expect(HARDWOOD_S2S_IN).toEqual({ '4/4': 0.8125, '5/4': 1.0625, '6/4': 1.3125, '8/4': 1.75 })
  })
})
