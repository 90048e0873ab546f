/**
 * Sizes of people, for furniture that must fit them. mm, shares from 0 to 1.
 * Source: British adults aged 19 to 65, S. Pheasant, Bodyspace (2nd ed. 1996) Table 2.3 / 10.1: 50th percentile and
 * standard deviation of men and women, unclothed, no shoes; a normal distribution between percentiles, as there.
 * Sizes marked `memory` were written down from memory, the others seen in a printed list of that table. A size scatters
 * with age and people: a table is a start, a trial with a stack of boards settles it. Not for children.
 * Tests: tests/core/design/body-sizes.test.ts
 */
export const BODY_SOURCE =
  'British adults 19 to 65, Pheasant, Bodyspace (1996): half men, half women, normal distribution'

export type Sex = 'women' | 'men'

interface Spread {
  readonly meanMm: number
  readonly sdMm: number
}

interface BodySize {
  readonly women: Spread
  readonly men: Spread
  /** What it is, in words. */
  readonly what: string
  readonly from: 'seen' | 'memory'
}

const size = (
  what: string,
  [menMm, menSdMm]: readonly [number, number],
  [womenMm, womenSdMm]: readonly [number, number],
  from: BodySize['from'] = 'seen',
): BodySize => ({
  what,
  men: { meanMm: menMm, sdMm: menSdMm },
  women: { meanMm: womenMm, sdMm: womenSdMm },
  from,
})

export const BODY_SIZES = {
  stature: size('standing height', [1740, 70], [1610, 62]),
  eyeHeight: size('eyes above the floor, standing', [1630, 69], [1505, 61], 'memory'),
  shoulderHeight: size('shoulder above the floor, standing', [1425, 66], [1310, 58], 'memory'),
  elbowHeight: size('elbow above the floor, standing', [1090, 52], [1005, 46], 'memory'),
  hipHeight: size('hip joint above the floor', [920, 50], [810, 43], 'memory'),
  sittingHeight: size('crown above the seat', [910, 36], [850, 35]),
  sittingShoulderHeight: size('shoulder above the seat', [595, 32], [555, 31]),
  sittingElbowHeight: size('elbow above the seat', [245, 31], [235, 29]),
  thighThickness: size('thigh above the seat', [160, 15], [155, 17]),
  buttockKneeLength: size('back of the buttocks to the front of the knee', [595, 31], [570, 30], 'memory'),
  buttockPoplitealLength: size(
    'back of the buttocks to the hollow of the knee',
    [495, 32],
    [480, 30],
    'memory',
  ),
  kneeHeight: size('top of the knee above the floor', [545, 32], [500, 27]),
  poplitealHeight: size('hollow of the knee above the floor', [440, 29], [400, 27]),
  shoulderBreadth: size('across the shoulders', [465, 28], [395, 24], 'memory'),
  hipBreadth: size('across the hips, sitting', [360, 29], [370, 38]),
  gripReach: size('grip of a raised hand above the floor', [2060, 80], [1905, 71], 'memory'),
} as const satisfies Record<string, BodySize>
export type BodyMeasure = keyof typeof BODY_SIZES

/**
 * Share of a standard normal distribution below z, to 1e-7.
 * Abramowitz and Stegun (1964), 26.2.17.
 * @example normalShare(1.6449).toFixed(4) //=> '0.9500'
 */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * poly
  return z >= 0 ? 1 - tail : tail
}

/**
 * The z below which a share lies: the inverse of `normalShare`, by halving.
 * @throws RangeError unless the share lies between 0 and 1
 * @example normalQuantile(0.95).toFixed(3) //=> '1.645'
 */
export function normalQuantile(share: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`not a share between 0 and 1: ${share}`)
  let [low, high] = [-8, 8]
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2
    if (normalShare(middle) < share) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** @example bodySizeMm('poplitealHeight', 'women', 0.05).toFixed(0) //=> '356' */
export const bodySizeMm = (measure: BodyMeasure, sex: Sex, percentile: number): number =>
  BODY_SIZES[measure][sex].meanMm + normalQuantile(percentile) * BODY_SIZES[measure][sex].sdMm

/**
 * Share of adults, half women and half men, whose size lies from `lowMm` to `highMm`.
 * @example shareBetween('hipBreadth', 0, 435).toFixed(2) //=> '0.98'
 */
export function shareBetween(measure: BodyMeasure, lowMm: number, highMm: number): number {
  const of = ({ meanMm, sdMm }: Spread): number =>
    Math.max(0, normalShare((highMm - meanMm) / sdMm) - normalShare((lowMm - meanMm) / sdMm))
  return (of(BODY_SIZES[measure].women) + of(BODY_SIZES[measure].men)) / 2
}

/** One person by sex and percentile, or one who was measured. */
export interface Person {
  readonly sex: Sex
  readonly percentile: number
}
