import { describe, expect, it } from 'vitest'
import {
  BODY_SIZES,
  type BodyMeasure,
  bodySizeMm,
  normalQuantile,
  normalShare,
  shareBetween,
} from '#lib/core/design/body-sizes'

describe('sizes of people', () => {
  // Bodyspace (1996), British adults 19 to 65, 5th and 95th percentile, printed to 5 mm: men, then women.
  it.each<[BodyMeasure, number, number, number, number]>([
    ['stature', 1625, 1855, 1505, 1710],
    ['poplitealHeight', 395, 490, 355, 445],
    ['hipBreadth', 310, 405, 310, 435],
    ['sittingElbowHeight', 195, 295, 185, 280],
    ['thighThickness', 135, 185, 125, 180],
    ['sittingHeight', 850, 965, 795, 910],
    ['kneeHeight', 490, 595, 455, 540],
    // From memory.
    ['buttockPoplitealLength', 440, 550, 435, 530],
    ['gripReach', 1925, 2190, 1790, 2020],
  ])('%s: 5th and 95th percentile as printed, to 5 mm', (measure, men5, men95, women5, women95) => {
    for (const [sex, share, printed] of [
      ['men', 0.05, men5],
      ['men', 0.95, men95],
      ['women', 0.05, women5],
      ['women', 0.95, women95],
    ] as const)
      expect(Math.abs(bodySizeMm(measure, sex, share) - printed), `${sex} ${share}`).toBeLessThan(5)
  })

  it('the normal distribution: 68.27, 95.45 and 99.73 % within 1, 2 and 3 deviations; quantiles 1.2816, 1.6449, 2.3263', () => {
    for (const [z, share] of [
      [1, 0.6827],
      [2, 0.9545],
      [3, 0.9973],
    ])
      expect(normalShare(z) - normalShare(-z)).toBeCloseTo(share, 4)
    for (const [share, z] of [
      [0.9, 1.2816],
      [0.95, 1.6449],
      [0.99, 2.3263],
      [0.05, -1.6449],
    ])
      expect(normalQuantile(share)).toBeCloseTo(z, 4)
    expect(() => normalQuantile(1)).toThrow(RangeError)
  })

  it('shares: half of each sex below its mean, nine tenths between the 5th and 95th', () => {
    const { women, men } = BODY_SIZES.poplitealHeight
    expect(shareBetween('poplitealHeight', 0, 2000)).toBeCloseTo(1, 6)
    const belowMen = normalShare((men.meanMm - women.meanMm) / women.sdMm)
    expect(shareBetween('poplitealHeight', 0, men.meanMm)).toBeCloseTo((0.5 + belowMen) / 2, 9)
    expect(shareBetween('poplitealHeight', 500, 400)).toBe(0)
  })
})
