/**
 * Moisture in wood: what it settles at, how far the wood moves, how strength changes.
 * Source: Wood Handbook FPL-GTR-190 (2010): eq. 4-5 (equilibrium moisture content), 13-2 and 13-3 (dimensional
 * change), 5-3 (strength). Temperatures in degrees Celsius, moisture in % of ovendry mass, humidity 0 to 1.
 * The constants of eq. 4-5 and the body of eq. 13-3 are from memory; eq. 4-5 gives the printed Table 4-2 to 0.1 %.
 * Limits: any species for eq. 4-5; eq. 13-2 holds from 6 to 14 %. Boards are seldom perfectly flat- or quartersawn,
 * so widths move less and thicknesses more than is said here (printed there). Tests: tests/core/wood/moisture.test.ts
 */

/** Above this, wood takes up water without swelling, in %. */
export const FIBRE_SATURATION_PCT = 30

/**
 * Moisture at which wood settles in air of this temperature and relative humidity, in %.
 * Hailwood-Horrobin isotherm, eq. 4-5.
 * @throws RangeError unless humidity lies in [0, 1) and temperature in [-10, 100]
 * @example equilibriumMoisturePct({ tempC: 21.1, humidity: 0.5 }) //=> 9.18…
 */
export function equilibriumMoisturePct(air: { readonly tempC: number; readonly humidity: number }): number {
  const { tempC: t, humidity: h } = air
  if (!(h >= 0 && h < 1)) throw new RangeError(`not a relative humidity in [0, 1): ${h}`)
  if (!(t >= -10 && t <= 100)) throw new RangeError(`not a temperature in -10 to 100 C: ${t}`)
  const w = 349 + 1.29 * t + 0.0135 * t ** 2
  const k = 0.805 + 0.000736 * t - 0.00000273 * t ** 2
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t ** 2
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t ** 2
  const kh = k * h
  const dissolved = kh / (1 - kh)
  const hydrated = (k1 * kh + 2 * k1 * k2 * kh ** 2) / (1 + k1 * kh + k1 * k2 * kh ** 2)
  return (1800 / w) * (dissolved + hydrated)
}

/**
 * Change of a size across the grain in use, same unit as `size`; negative: it shrinks. Eq. 13-2, 6 to 14 %.
 * @param coefficient per 1 %: a species' ctPerPct for the width of a flatsawn board, crPerPct for a quartersawn
 * one or for the thickness of a flatsawn one
 * @throws RangeError if a moisture lies outside 6 to 14 %
 * @example sizeChange({ size: 300, coefficient: 0.00369, fromPct: 6, toPct: 12 }) //=> 6.642
 */
export function sizeChange(move: {
  readonly size: number
  readonly coefficient: number
  readonly fromPct: number
  readonly toPct: number
}): number {
  for (const pct of [move.fromPct, move.toPct])
    if (!(pct >= 6 && pct <= 14)) throw new RangeError(`eq. 13-2 holds from 6 to 14 %, not at ${pct} %`)
  return move.size * move.coefficient * (move.toPct - move.fromPct)
}

/**
 * Change of a size across the grain from its total shrinkage, for any moisture up to fibre saturation. Eq. 13-3.
 * @param shrinkagePct green to ovendry, tangential or radial
 * @throws RangeError if a moisture lies outside 0 to 30 %, or the shrinkage is not above 0 and below 100 %
 * @example sizeChangeFromShrinkage({ size: 250, shrinkagePct: 9.9, fromPct: 30, toPct: 12 }) //=> -14.85
 */
export function sizeChangeFromShrinkage(move: {
  readonly size: number
  readonly shrinkagePct: number
  readonly fromPct: number
  readonly toPct: number
}): number {
  const { size, shrinkagePct, fromPct, toPct } = move
  for (const pct of [fromPct, toPct])
    if (!(pct >= 0 && pct <= FIBRE_SATURATION_PCT)) throw new RangeError(`not 0 to 30 % moisture: ${pct}`)
  if (!(shrinkagePct > 0 && shrinkagePct < 100)) throw new RangeError(`not a shrinkage in %: ${shrinkagePct}`)
  const span = (FIBRE_SATURATION_PCT * 100) / shrinkagePct - FIBRE_SATURATION_PCT + fromPct
  return (size * (toPct - fromPct)) / span
}

/**
 * A property at another moisture, from its values at 12 % and green. Eq. 5-3 (from memory).
 * @param meetingPct where the property stops changing: 25 % for most species (Table 5-13)
 * @throws RangeError unless the values are above 0 and the moisture lies in [0, meetingPct]
 * @example propertyAtMoisture({ at12: 103_000, green: 66_000, moisturePct: 8, meetingPct: 24 }) //=> 119_476…
 */
export function propertyAtMoisture(property: {
  readonly at12: number
  readonly green: number
  readonly moisturePct: number
  readonly meetingPct?: number
}): number {
  const { at12, green, moisturePct, meetingPct = 25 } = property
  if (!(at12 > 0 && green > 0)) throw new RangeError(`not properties above 0: ${at12}, ${green}`)
  if (!(meetingPct > 12)) throw new RangeError(`not a moisture above 12 %: ${meetingPct}`)
  if (!(moisturePct >= 0 && moisturePct <= meetingPct))
    throw new RangeError(`not 0 to ${meetingPct} % moisture: ${moisturePct}`)
  return at12 * (at12 / green) ** ((12 - moisturePct) / (meetingPct - 12))
}
