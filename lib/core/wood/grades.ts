/**
 * What knots and slope of grain leave of clear wood, and the grades that salvage is picked by. Stands apart from the
 * species table, so that a page can offer grades without it. Tables: Wood Handbook (FPL-GTR-190), ASTM D245, from memory.
 * In: one in so much, shares of the width. Out: shares of the strength. Tests: tests/core/wood/strength.test.ts
 */

/** Slope of grain, one in so much, and what is left of bending and of compression (Table 5-12, from memory). */
const SLOPES: readonly (readonly [number, number, number])[] = [
  [5, 0.55, 0.93],
  [10, 0.81, 0.99],
  [15, 0.89, 1],
  [20, 0.93, 1],
  [25, 0.96, 1],
]

/**
 * What grain that runs out one in `oneIn` leaves of the strength.
 * @throws RangeError unless `oneIn` is 5 or more (Infinity: straight)
 * @example slopeOfGrain(10) //=> { bending: 0.81, compression: 0.99 }
 */
export function slopeOfGrain(oneIn: number): { readonly bending: number; readonly compression: number } {
  if (!(oneIn >= 5))
    throw new RangeError(`grain steeper than 1 in 5 is not for parts that bear: 1 in ${oneIn}`)
  const above = SLOPES.findIndex(([slope]) => slope > oneIn)
  if (above < 0) return { bending: oneIn === Number.POSITIVE_INFINITY ? 1 : 0.96, compression: 1 }
  const [s1, b1, c1] = SLOPES[above]
  const [s0, b0, c0] = SLOPES[above - 1]
  const t = (oneIn - s0) / (s1 - s0)
  return { bending: b0 + t * (b1 - b0), compression: c0 + t * (c1 - c0) }
}

/**
 * What a knot leaves of bending: (1 - k)^2 for a knot that takes the share k of the depth at the edge (ASTM D245, from
 * memory).
 * @example knotShareLeft(0.25) //=> 0.5625
 */
export function knotShareLeft(share: number): number {
  if (!(share >= 0 && share < 1)) throw new RangeError(`not a share of the width: ${share}`)
  return (1 - share) ** 2
}

export const SALVAGE_GRADES = ['clear', 'sound', 'knotty'] as const
export type SalvageGrade = (typeof SALVAGE_GRADES)[number]

export interface GradeFactors {
  readonly label: string
  readonly bending: number
  readonly compression: number
  /** For small checks and old fixings (assumed). */
  readonly shear: number
}

/** What the parts that bear are picked for. The limits are the maker's to look for at the bench. */
export const GRADES: Readonly<Record<SalvageGrade, GradeFactors>> = {
  clear: { label: 'picked: no knot, grain within 1 in 20, no check', ...slopeOfGrain(20), shear: 1 },
  sound: {
    label: 'sound: knots up to an eighth of the width, grain within 1 in 15, hairline checks',
    bending: slopeOfGrain(15).bending * knotShareLeft(0.125),
    compression: 0.94,
    shear: 0.85,
  },
  knotty: {
    label: 'knotty: knots up to a quarter of the width, grain within 1 in 10, small checks',
    bending: slopeOfGrain(10).bending * knotShareLeft(0.25),
    compression: 0.8,
    shear: 0.67,
  },
}
