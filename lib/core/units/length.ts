/**
 * Lengths. Geometry works in millimetres; cutting and the database in whole micrometres, snapped once
 * at the door by `umFromMm` and exact after that.
 */
declare const unit: unique symbol

/** A length in millimetres. Arithmetic drops the brand, so locals carry the unit in their name. */
export type Mm = number & { readonly [unit]: 'mm' }
/** A length in whole micrometres. */
export type Um = number & { readonly [unit]: 'um' }

/**
 * @throws RangeError if `value` is NaN or infinite
 * @example mm(12.5) //=> 12.5
 */
export function mm(value: number): Mm {
  if (!Number.isFinite(value)) throw new RangeError(`not a length in mm: ${value}`)
  return value as Mm
}

/**
 * @throws RangeError if `value` is not a whole number
 * @example um(12500) //=> 12500
 */
export function um(value: number): Um {
  if (!Number.isSafeInteger(value)) throw new RangeError(`not whole micrometres: ${value}`)
  return value as Um
}

/** Snaps millimetres to whole micrometres. @example umFromMm(609.6) //=> 609600 */
export const umFromMm = (valueMm: number): Um => um(Math.round(mm(valueMm) * 1000))

/** @example mmFromUm(609600) //=> 609.6 */
export const mmFromUm = (valueUm: number): Mm => mm(valueUm / 1000)

/** One international inch: exactly 25.4 mm (1959 agreement). */
export const MM_PER_INCH = 25.4
export const UM_PER_INCH = 25_400
