import { describe, expect, it } from 'vitest'
import { rectangleSection } from '#lib/core/statics/section'

describe('rectangle', () => {
  it('I = b d^3 / 12 and S = b d^2 / 6 (standard tables)', () => {
    const s = rectangleSection(45, 20)
    expect(s.izMm4).toBeCloseTo((20 * 45 ** 3) / 12, 6)
    expect(s.iyMm4).toBeCloseTo((45 * 20 ** 3) / 12, 6)
    expect(s.szMm3).toBeCloseTo(6750, 6)
  })

  it('half the depth leaves a quarter of the modulus and an eighth of the second moment', () => {
    const [whole, half] = [rectangleSection(38, 40), rectangleSection(38, 20)]
    expect(half.syMm3 / whole.syMm3).toBeCloseTo(0.25, 9)
    expect(half.iyMm4 / whole.iyMm4).toBeCloseTo(0.125, 9)
  })

  // Saint-Venant's series, as tabled by Timoshenko and Goodier (Theory of Elasticity, art. 109): b/t, J/(b t^3), stress
  // factor T/(tau b t^2). From memory.
  it.each([
    [1, 0.1406, 0.208],
    [1.5, 0.196, 0.231],
    [2, 0.229, 0.246],
    [4, 0.281, 0.282],
    [10, 0.312, 0.312],
  ])('torsion of %d : 1', (ratio, constant, stress) => {
    const s = rectangleSection(10 * ratio, 10)
    expect(Math.abs(s.jMm4 / (ratio * 1e4) / constant - 1)).toBeLessThan(0.006)
    expect(Math.abs(s.torsionMm3 / (ratio * 1000) / stress - 1)).toBeLessThan(0.05)
  })

  it('refuses what is no section', () => {
    for (const [b, t] of [
      [0, 10],
      [10, -1],
      [Number.NaN, 3],
    ])
      expect(() => rectangleSection(b, t)).toThrow(RangeError)
  })
})
