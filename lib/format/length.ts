/**
 * Lengths as this person reads them. In: whole micrometres or millimetres. Out: «1611.3 mm», «63 7/16"».
 * Inches are shown to 1/16, small sizes (below 2 in) to 1/32, as on a tape and a rule.
 * Tests: tests/format/length.test.ts
 */
import { formatInches, formatMm, type LengthUnit } from '#lib/core/units/inches'
import { UM_PER_INCH } from '#lib/core/units/length'

const FINE_BELOW_UM = 2 * UM_PER_INCH

const inInches = (valueUm: number): string =>
  formatInches(valueUm, { denominator: Math.abs(valueUm) < FINE_BELOW_UM ? 32 : 16 })

/** With its unit. @example sayLength(1_611_313, 'in') //=> '63 7/16"' */
export const sayLength = (valueUm: number, units: LengthUnit): string =>
  units === 'in' ? inInches(valueUm) : `${formatMm(valueUm)} mm`

/** As it would be typed, without the unit where it is a bare number. @example typedLength(1_611_313, 'mm') //=> '1611.313' */
export const typedLength = (valueUm: number, units: LengthUnit): string =>
  units === 'in' ? inInches(valueUm).replace('"', '') : formatMm(valueUm, { decimals: 3 })

/** Three lengths as a size. @example saySize([900_000, 90_000, 20_000], 'mm') //=> '900 × 90 × 20 mm' */
export const saySize = (valuesUm: readonly number[], units: LengthUnit): string =>
  units === 'in' ? valuesUm.map(inInches).join(' × ') : `${valuesUm.map((um) => formatMm(um)).join(' × ')} mm`
