/**
 * Areas, volumes and weights as this person reads them, to about three figures.
 * In: mm2, mm3 and kg, as core gives them. Out: with the unit, metric or US by the person's unit of length.
 * 1 ft2 = 92,903.04 mm2 and 1 lb = 0.45359237 kg exactly (1959 agreement); 1 board foot = 144 in3.
 * Tests: tests/format/amount.test.ts
 */
import type { LengthUnit } from '#lib/core/units/inches'
import { M3_PER_BOARD_FOOT } from '#lib/core/wood/board-measure'

const MM2_PER_FT2 = 304.8 ** 2
const KG_PER_LB = 0.45359237

/** About three figures, never in powers of ten, no trailing zeros. @example figures(4.256) //=> '4.26' */
export function figures(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not an amount: ${value}`)
  const size = Math.abs(value)
  const decimals = size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2
  const said = value.toFixed(decimals)
  const short = decimals > 0 ? said.replace(/\.?0+$/, '') : said
  return short === '-0' ? '0' : short
}

/** @example sayArea(1_250_000, 'mm') //=> '1.25 m²' */
export const sayArea = (areaMm2: number, units: LengthUnit): string =>
  units === 'in' ? `${figures(areaMm2 / MM2_PER_FT2)} ft²` : `${figures(areaMm2 / 1e6)} m²`

/** Wood is counted in litres where it is metric, being little, and in board feet else. @example sayVolume(2_000_000, 'mm') //=> '2 l' */
export const sayVolume = (volumeMm3: number, units: LengthUnit): string =>
  units === 'in' ? `${figures(volumeMm3 / 1e9 / M3_PER_BOARD_FOOT)} bd ft` : `${figures(volumeMm3 / 1e6)} l`

/** @example sayWeight(4.256, 'mm') //=> '4.26 kg' */
export const sayWeight = (massKg: number, units: LengthUnit): string =>
  units === 'in' ? `${figures(massKg / KG_PER_LB)} lb` : `${figures(massKg)} kg`

/** A share from 0 to 1. @example sayPercent(0.8312) //=> '83 %' */
export const sayPercent = (share: number): string => `${figures(Math.round(share * 100))} %`
