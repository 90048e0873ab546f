/** A model's figures as this person reads them. Tests: tests/format/figure.test.ts */
import type { Figure } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { MM_PER_INCH, umFromMm } from '#lib/core/units/length'
import { sayLength } from './length'

/** International avoirdupois pound, exact. */
const KG_PER_POUND = 0.453_592_37
const MM2_PER_M2 = 1_000_000
const MM2_PER_SQUARE_FOOT = (12 * MM_PER_INCH) ** 2

const rounded = (value: number, decimals: number) => String(Number(value.toFixed(decimals)))

/** @example sayFigure({ value: Math.PI / 18, unit: 'rad' }, 'mm') //=> '10°' */
export function sayFigure({ value, unit }: Pick<Figure, 'value' | 'unit'>, units: LengthUnit): string {
  const isInches = units === 'in'
  switch (unit) {
    case 'mm':
      return sayLength(umFromMm(value), units)
    case 'rad':
      return `${rounded((value * 180) / Math.PI, 1)}°`
    case 'mm2':
      return isInches
        ? `${rounded(value / MM2_PER_SQUARE_FOOT, 1)} sq ft`
        : `${rounded(value / MM2_PER_M2, 2)} m²`
    case 'kg':
      return isInches ? `${rounded(value / KG_PER_POUND, 1)} lb` : `${rounded(value, 1)} kg`
    case 'count':
      return rounded(value, 0)
  }
}
