import { describe, expect, test } from 'vitest'
import { joined, outlineOf, type Segment2, without } from '#lib/core/geometry/outline2'
import { area, rectangle, subtractConvex } from '#lib/core/geometry/polygon2'

const total = (segments: readonly Segment2[]) =>
  segments.reduce((sum, [[a, b], [c, d]]) => sum + Math.hypot(c - a, d - b), 0)
/** Area inside closed stretches, by the shoelace sum over all of them in any order. */
const inside = (segments: readonly Segment2[]) =>
  segments.reduce((sum, [[a, b], [c, d]]) => sum + (a * d - c * b) / 2, 0)

describe('intervals', () => {
  test('a bite out of the middle', () =>
    expect(without([0, 10], [[2, 3]])).toEqual([
      [0, 2],
      [3, 10],
    ]))
  test('all of it', () =>
    expect(
      without(
        [0, 10],
        [
          [-1, 4],
          [4, 11],
        ],
      ),
    ).toEqual([]))
  test('touching ones are one', () =>
    expect(
      joined([
        [1, 2],
        [0, 1],
        [3, 4],
      ]),
    ).toEqual([
      [0, 2],
      [3, 4],
    ]))
})

describe('outlines', () => {
  test('a rectangle has four sides', () => {
    const sides = outlineOf([rectangle(0, 0, 4, 3)])
    expect(sides).toHaveLength(4)
    expect(total(sides)).toBeCloseTo(14, 9)
  })

  test('two side by side are one rectangle', () => {
    const sides = outlineOf([rectangle(0, 0, 1, 1), rectangle(1, 0, 3, 1)])
    expect(sides).toHaveLength(4)
    expect(total(sides)).toBeCloseTo(8, 9)
  })

  test('a rectangle with a window: outer and inner sides, area as hand sum', () => {
    const pieces = subtractConvex(rectangle(0, 0, 100, 60), rectangle(20, 20, 50, 40))
    const sides = outlineOf(pieces)
    expect(sides).toHaveLength(8)
    expect(total(sides)).toBeCloseTo(320 + 100, 6)
    expect(inside(sides)).toBeCloseTo(6000 - 600, 6)
    expect(pieces.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(5400, 6)
  })

  test('a notch in a side: the border follows it', () => {
    const sides = outlineOf(subtractConvex(rectangle(0, 0, 100, 60), rectangle(30, 40, 50, 80)))
    expect(sides).toHaveLength(8)
    expect(total(sides)).toBeCloseTo(320 + 2 * 20, 6)
  })

  test('pieces that only share a stretch of a side', () => {
    const sides = outlineOf([rectangle(0, 0, 10, 10), rectangle(10, 4, 14, 20)])
    expect(total(sides)).toBeCloseTo(40 + 40 - 2 * 6, 9)
  })
})
