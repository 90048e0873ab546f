import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { equalStaves, equalWays, panelWidthUm, stripsOfBoard, waysFromStrips } from '#lib/core/cutting/panels'
import type { StaveRule } from '#lib/core/cutting/problem'

const rule: StaveRule = {
  of: 0,
  panelUm: 303_000,
  minWidthUm: 40_000,
  maxWidthUm: 120_000,
  jointUm: 500,
  maxStaves: 8,
}

describe('widths of staves', () => {
  it('a joint takes its allowance from both edges: 3 x 102 - 2 x 2 x 0.5 = 304 (by hand)', () => {
    expect(panelWidthUm([102_000, 102_000, 102_000], 500)).toBe(304_000)
    expect(panelWidthUm([303_000], 500)).toBe(303_000)
  })
  it('three equal staves of 303 mm: (303 + 2) / 3 = 101.67, to the next half millimetre', () => {
    expect(equalStaves(rule, 3)).toEqual([102_000, 102_000, 102_000])
  })
  it('no fewer than the widest allows, no more than the narrowest does', () => {
    expect(equalStaves(rule, 2)).toBeNull()
    // 303 + 6 joints of 1 mm = 309 / 7 = 44.14; 8: 310 / 8 = 38.75, under 40.
    expect(equalWays(rule).map((way) => way.length)).toEqual([3, 4, 5, 6, 7])
  })
  it('a board of 200 gives two strips of (200 - 3) / 2, twice along 1.3 m', () => {
    const strips = stripsOfBoard({ lengthUm: 1_300_000, widthUm: 200_000, cost: 26 }, 4, 600_000, rule, 3_000)
    expect(strips.map((s) => s.widthUm)).toEqual([98_500, 98_500, 98_500, 98_500])
    expect(stripsOfBoard({ lengthUm: 599_999, widthUm: 200_000, cost: 26 }, 4, 600_000, rule, 3_000)).toEqual(
      [],
    )
  })
  it('the last strip is ripped to what is still wanted', () => {
    const strips = [98_500, 98_500, 98_500, 98_500].map((widthUm) => ({ widthUm, price: 1, board: 0 }))
    const [way] = waysFromStrips(rule, strips, 1) ?? []
    // 4 x 98.5 - 3 = 391: 88 too much; one strip gives 58.5 (down to 40), the next 29.5.
    expect(way).toEqual([98_500, 98_500, 69_000, 40_000])
    expect(panelWidthUm(way, 500)).toBe(303_000)
  })
  it('every way makes the width, within the range', () => {
    let judged = 0
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 40_000, max: 120_000 }), { minLength: 1, maxLength: 20 }),
        fc.integer({ min: 90_000, max: 500_000 }),
        (widths, panelUm) => {
          const own = { ...rule, panelUm }
          const ways = [
            ...equalWays(own),
            ...(waysFromStrips(
              own,
              widths.map((widthUm, board) => ({ widthUm, price: board % 3, board })),
              1,
            ) ?? []),
          ]
          for (const way of ways) {
            expect(panelWidthUm(way, own.jointUm)).toBeGreaterThanOrEqual(panelUm)
            expect(Math.min(...way)).toBeGreaterThanOrEqual(own.minWidthUm)
            expect(Math.max(...way)).toBeLessThanOrEqual(own.maxWidthUm)
            expect(way.length).toBeLessThanOrEqual(own.maxStaves)
            judged++
          }
        },
      ),
    )
    expect(judged).toBeGreaterThan(100)
  })
})
