import { describe, expect, it } from 'vitest'
import { longestRoundCorner, rectangleFits, roundCorner, throughDoor } from '#lib/core/design/fit/way-in'
import { seededRng } from '#lib/core/units/rng'

/** Whether a turned rectangle lies in another: its own extents at a thousand angles. */
function fitsByTrying(p: number, q: number, a: number, b: number): boolean {
  for (let i = 0; i <= 9000; i++) {
    const t = (i / 9000) * (Math.PI / 2)
    if (p * Math.cos(t) + q * Math.sin(t) <= a && p * Math.sin(t) + q * Math.cos(t) <= b) return true
  }
  return false
}

describe('a rectangle in a rectangle (Carver 1957, Wetzel 2000)', () => {
  it('the thinnest needle is as long as the diagonal; a square fits only a square as big', () => {
    expect(rectangleFits([Math.SQRT2 * 100 - 1e-6, 0], [100, 100])).toBe(true)
    expect(rectangleFits([Math.SQRT2 * 100 + 1e-6, 0], [100, 100])).toBe(false)
    expect(rectangleFits([100.001, 100.001], [100, 100])).toBe(false)
    // 6 by 1 in a square of 5: 6/√2 + 1/√2 = 4.95.
    expect(rectangleFits([6, 1], [5, 5])).toBe(true)
    expect(rectangleFits([6, 1.1], [5, 5])).toBe(false)
  })

  it('agrees with trying every hundredth of a degree', () => {
    const rng = seededRng(5)
    let [fits, not] = [0, 0]
    for (let i = 0; i < 600; i++) {
      const [p, q, a, b] = [
        200 + 900 * rng.next(),
        10 + 500 * rng.next(),
        400 + 500 * rng.next(),
        300 + 400 * rng.next(),
      ]
      const tried = fitsByTrying(p, q, a, b) || fitsByTrying(q, p, a, b)
      const found = rectangleFits([p, q], [a, b])
      // The trial steps over the last hundredth of a degree.
      if (found !== tried) expect(rectangleFits([p * 1.0002, q * 1.0002], [a, b])).toBe(false)
      found ? fits++ : not++
    }
    expect(Math.min(fits, not)).toBeGreaterThan(50)
  })
})

describe('through a door', () => {
  const door = { widthMm: 750, heightMm: 1970 }
  it('as it stands, on its side, tilted, or not at all', () => {
    expect(throughDoor([350, 330, 620], door)).toBe('upright')
    expect(throughDoor([1400, 700, 750], door)).toBe('upright')
    // A table 900 deep goes through on its edge, 740 high.
    expect(throughDoor([1600, 900, 740], door)).toBe('laid')
    // A shelf 800 wide, 300 deep, 2000 high: 800 > 750 as it stands, 300 × 800 laid.
    expect(throughDoor([800, 300, 2000], door)).toBe('laid')
    // A panel 2300 long, 2000 high and 100 thick: higher than the door, but at 15° it takes 1958 by 614.
    expect(throughDoor([2300, 100, 2000], door)).toBe('tilted')
    expect(throughDoor([2300, 300, 2050], door)).toBeUndefined()
    expect(throughDoor([1800, 900, 800], door)).toBeUndefined()
  })
})

describe('round a corner', () => {
  it('a needle as long as (a^⅔ + b^⅔)^(3/2), the ladder problem; a square passage of a takes a·2√2', () => {
    expect(longestRoundCorner(1000, 1000, 0)).toBeCloseTo(1000 * 2 * Math.SQRT2, 4)
    const ladder = (900 ** (2 / 3) + 1200 ** (2 / 3)) ** 1.5
    expect(longestRoundCorner(900, 1200, 0)).toBeCloseTo(ladder, 4)
    // At 45° a box w wide loses 2w: L = 2√2 a − 2w.
    expect(longestRoundCorner(1000, 1000, 300)).toBeCloseTo(1000 * 2 * Math.SQRT2 - 600, 4)
    expect(longestRoundCorner(900, 1200, 901)).toBe(0)
  })

  it('a bookcase is laid on its back only if that helps', () => {
    const landing = { fromMm: 900, toMm: 900, headroomMm: 2000 }
    expect(roundCorner([800, 300, 1800], landing)).toBe('upright')
    // Too high to stand: laid, 2100 long and 300 thick on its edge: 2√2 · 900 − 600 = 1945.
    expect(roundCorner([800, 300, 2100], landing)).toBeUndefined()
    expect(roundCorner([800, 200, 2100], landing)).toBe('laid')
  })
})
