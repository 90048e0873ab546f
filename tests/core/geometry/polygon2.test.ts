import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  area,
  centroid,
  clipByHalfPlane,
  convexHull,
  distanceToSegment,
  intersectConvex,
  isPointInPolygon,
  type Polygon2,
  rectangle,
  subtractConvex,
  type Vec2,
} from '#lib/core/geometry/polygon2'

const turned = (polygon: Polygon2, angleRad: number): Polygon2 =>
  polygon.map(([x, y]) => [
    x * Math.cos(angleRad) - y * Math.sin(angleRad),
    x * Math.sin(angleRad) + y * Math.cos(angleRad),
  ])

describe('area and centroid', () => {
  it('agrees with the 3-4-5 triangle (Euclid): area 6, centroid at a third of each leg', () => {
    const triangle: Polygon2 = [
      [0, 0],
      [4, 0],
      [0, 3],
    ]
    expect(area(triangle)).toBe(6)
    expect(centroid(triangle)).toEqual([4 / 3, 1])
  })

  it('is negative clockwise, and a line has no centroid', () => {
    expect(area([...rectangle(0, 0, 2, 3)].reverse())).toBe(-6)
    expect(() =>
      centroid([
        [0, 0],
        [1, 1],
        [2, 2],
      ]),
    ).toThrow(RangeError)
  })
})

describe('clipping', () => {
  it('cuts a square along its diagonal in half', () => {
    const half = clipByHalfPlane(rectangle(0, 0, 2, 2), {
      normal: [Math.SQRT1_2, Math.SQRT1_2],
      offset: Math.SQRT2,
    })
    expect(area(half)).toBeCloseTo(2, 12)
  })

  it('a square and the same square turned by 45 degrees share the regular octagon, 2(√2 − 1)·side²', () => {
    const square = rectangle(-1, -1, 1, 1)
    expect(area(intersectConvex(square, turned(square, Math.PI / 4)))).toBeCloseTo(8 * (Math.SQRT2 - 1), 12)
  })

  it('touching squares share nothing', () => {
    expect(intersectConvex(rectangle(0, 0, 1, 1), rectangle(1, 0, 2, 1))).toEqual([])
  })

  it('what is shared and what is left over make up the whole, however the pieces lie', () => {
    let judged = 0
    const side = fc.double({ min: 1, max: 100, noNaN: true })
    const at = fc.double({ min: -80, max: 80, noNaN: true })
    fc.assert(
      fc.property(side, side, side, side, at, at, fc.double({ min: 0, max: 7, noNaN: true }), (...n) => {
        const a = rectangle(-n[0] / 2, -n[1] / 2, n[0] / 2, n[1] / 2)
        const b = turned(rectangle(n[4] - n[2] / 2, n[5] - n[3] / 2, n[4] + n[2] / 2, n[5] + n[3] / 2), n[6])
        const shared = area(intersectConvex(a, b))
        const left = subtractConvex(a, b).reduce((sum, piece) => sum + area(piece), 0)
        expect(shared + left).toBeCloseTo(area(a), 4)
        expect(shared).toBeCloseTo(area(intersectConvex(b, a)), 4)
        if (shared > 0) judged++
      }),
      { numRuns: 300, seed: 1 },
    )
    expect(judged).toBeGreaterThan(0)
  })
})

describe('points', () => {
  it('knows inside, outside and on the border, also of a polygon with a bay', () => {
    const bay: Polygon2 = [
      [0, 0],
      [4, 0],
      [4, 4],
      [2, 1],
      [0, 4],
    ]
    expect(isPointInPolygon(bay, [1, 1])).toBe(true)
    expect(isPointInPolygon(bay, [2, 2])).toBe(false)
    expect(isPointInPolygon(bay, [4, 2])).toBe(true)
  })

  it('measures to the nearest point of a segment', () => {
    expect(distanceToSegment([5, 3], [0, 0], [2, 0])).toBeCloseTo(Math.sqrt(18), 12)
    expect(distanceToSegment([1, 1], [0, 0], [0, 0])).toBeCloseTo(Math.SQRT2, 12)
  })

  it('the hull of points holds every one of them', () => {
    const point = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }))
    let judged = 0
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 30 }), (points) => {
        const hull = convexHull(points as Vec2[])
        if (hull.length < 3) return
        judged++
        expect(area(hull)).toBeGreaterThan(0)
        for (const p of points) expect(isPointInPolygon(hull, p as Vec2, 1e-6)).toBe(true)
      }),
      { numRuns: 200, seed: 2 },
    )
    expect(judged).toBeGreaterThan(0)
  })
})
