/** Amounts of finish and hours as they are said. */
import type { LengthUnit } from '#lib/core/units/inches'

const ML_PER_US_FL_OZ = 29.573_53

/** @example sayLitres(0.137, 'mm') //=> '140 ml' */
export function sayLitres(litres: number, units: LengthUnit): string {
  const ml = litres * 1000
  if (units === 'in') {
    const ounces = ml / ML_PER_US_FL_OZ
    return ounces < 32 ? `${Number(ounces.toFixed(1))} fl oz` : `${Number((ounces / 32).toFixed(1))} qt`
  }
  if (ml >= 995) return `${Number(litres.toFixed(1))} l`
  return ml < 10 ? `${Math.ceil(ml)} ml` : `${10 * Math.round(ml / 10)} ml`
}

/** @example sayHours(30) //=> '30 h' */
export const sayHours = (hours: number): string =>
  hours < 48 ? `${Number(hours.toFixed(1))} h` : `${Number((hours / 24).toFixed(1))} days`

/** Metres of tape. */
export const sayTape = (mm: number, units: LengthUnit): string =>
  units === 'in' ? `${Math.ceil(mm / 304.8)} ft` : `${Number((mm / 1000).toFixed(1))} m`
