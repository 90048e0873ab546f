/**
 * Angles of pieces that lean two ways at once. Rad in, rad out; lengths mm.
 * A leg raked a one way and b the other: L = h sqrt(1 + tan^2 a + tan^2 b), resultant tan R = sqrt(tan^2 a + tan^2 b),
 * sightline atan(tan b / tan a) from the way of a. In the plane of a frame that itself leans by b, its legs stand at
 * atan(tan a cos b) from that plane's line of fall; a level end is that mitre with the blade tilted by b. Sides that
 * lean by t from upright and meet round n corners: mitre tan M = sin t tan(180/n), bevel sin B = cos t sin(180/n).
 * All are plane trigonometry, checked against vectors. Tests: tests/core/design/compound-angle.test.ts
 */

/** Length of a leg along its grain. @example splayedLengthMm(610, 0, 5 * Math.PI / 180).toFixed(2) //=> '612.33' */
export const splayedLengthMm = (heightMm: number, aRad: number, bRad: number): number =>
  heightMm * Math.sqrt(1 + Math.tan(aRad) ** 2 + Math.tan(bRad) ** 2)

/** How far a leg leans from upright, seen square to the way that it leans. @example 5° and 5° //=> 7.053° */
export const resultantRad = (aRad: number, bRad: number): number =>
  Math.atan(Math.hypot(Math.tan(aRad), Math.tan(bRad)))

/** The way that a leg leans, on the floor, from the way of `aRad`. @example 15° and 10° //=> 33.347° */
export const sightlineRad = (aRad: number, bRad: number): number => Math.atan2(Math.tan(bRad), Math.tan(aRad))

/** A leg's angle within the plane of a frame that leans by `tiltRad`, where its front view shows `apparentRad`. */
export const inTiltedPlaneRad = (apparentRad: number, tiltRad: number): number =>
  Math.atan(Math.tan(apparentRad) * Math.cos(tiltRad))

export interface CompoundMitre {
  /** Turn of the cut on the face, from square. */
  readonly mitreRad: number
  /** Tilt of the blade. */
  readonly bevelRad: number
}

/** Cut at the ends of `sides` equal boards that lean outwards by `tiltRad` and meet in mitres. @example 4 and 5° //=> 4.981°, 44.782° */
export function compoundMitre(sides: number, tiltRad: number): CompoundMitre {
  if (!Number.isInteger(sides) || sides < 3) throw new RangeError(`not a number of sides: ${sides}`)
  const corner = Math.PI / sides
  return {
    mitreRad: Math.atan(Math.sin(tiltRad) * Math.tan(corner)),
    bevelRad: Math.asin(Math.cos(tiltRad) * Math.sin(corner)),
  }
}
