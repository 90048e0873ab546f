/** A model's figures as this person reads them. Tests: tests/format/figure.test.ts */
import type { Figure } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayArea, sayWeight } from './amount'
import { sayLength } from './length'

const rounded = (value: number, decimals: number) => String(Number(value.toFixed(decimals)))

/** @example sayFigure({ value: Math.PI / 18, unit: 'rad' }, 'mm') //=> '10°' */
export function sayFigure({ value, unit }: Pick<Figure, 'value' | 'unit'>, units: LengthUnit): string {
  switch (unit) {
    case 'mm':
      return sayLength(umFromMm(value), units)
    case 'rad':
      return `${rounded((value * 180) / Math.PI, 1)}°`
    case 'mm2':
      return sayArea(value, units)
    case 'kg':
      return sayWeight(value, units)
    case 'count':
      return rounded(value, 0)
  }
}
