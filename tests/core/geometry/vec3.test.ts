import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { frameFromYZ, isRightHanded, moveFrame, toLocal, toWorld } from '#lib/core/geometry/frame'
import { distanceBetweenSegments } from '#lib/core/geometry/segment3'
import { add, between, cross, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'

const number = fc.double({ min: -1000, max: 1000, noNaN: true })
const vector = fc.tuple(number, number, number)

describe('vectors', () => {
  it('multiplies axes by the right hand', () => {
    expect(cross([1, 0, 0], [0, 1, 0])).toEqual([0, 0, 1])
    expect(dot([1, 2, 3], [4, 5, 6])).toBe(32)
    expect(unit([0, 3, 4])).toEqual([0, 0.6000000000000001, 0.8])
    expect(() => unit([0, 0, 0])).toThrow(RangeError)
  })
})

describe('frames', () => {
  it('takes points there and back', () => {
    const a = 0.14
    const frame = frameFromYZ([10, 20, 30], [0, -Math.cos(a), Math.sin(a)], [1, 0, 0])
    expect(isRightHanded(frame)).toBe(true)
    expect(isRightHanded({ ...frame, x: scale(frame.x, -1) })).toBe(false)
    expect(isRightHanded({ ...frame, x: scale(frame.x, 1.001) })).toBe(false)
    fc.assert(
      fc.property(vector, (p) => {
        const back = toLocal(frame, toWorld(frame, p))
        expect(length(sub(back, p))).toBeLessThan(1e-9)
      }),
      { seed: 3 },
    )
    expect(toWorld(moveFrame(frame, [1, 2, 3]), [0, 0, 0])).toEqual([11, 22, 33])
  })
})

describe('distance between segments', () => {
  it('agrees with cases that can be read off', () => {
    const along = { from: [0, 0, 0] as Vec3, to: [10, 0, 0] as Vec3 }
    const gap = (from: Vec3, to: Vec3): number => distanceBetweenSegments(along, { from, to })
    expect(gap([5, 3, -5], [5, 3, 5])).toBe(3)
    expect(gap([0, 2, 0], [10, 2, 0])).toBe(2)
    expect(gap([13, 4, 0], [20, 4, 0])).toBe(5)
    expect(gap([5, 0, 1], [5, 0, 1])).toBe(1)
  })

  it('is never more than any two sampled points, and is met by one pair within the sampling', () => {
    fc.assert(
      fc.property(vector, vector, vector, vector, (a, b, c, d) => {
        const found = distanceBetweenSegments({ from: a, to: b }, { from: c, to: d })
        let least = Number.POSITIVE_INFINITY
        for (let i = 0; i <= 40; i++)
          for (let j = 0; j <= 40; j++)
            least = Math.min(least, length(sub(between(a, b, i / 40), between(c, d, j / 40))))
        expect(found).toBeLessThanOrEqual(least + 1e-6)
        expect(least - found).toBeLessThanOrEqual((length(sub(b, a)) + length(sub(d, c))) / 80 + 1e-6)
        expect(add(a, b)).toEqual(add(b, a))
      }),
      { numRuns: 100, seed: 4 },
    )
  })
})
