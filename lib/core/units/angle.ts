/** Angles: radians inside, degrees on screen. */
declare const unit: unique symbol
export type Rad = number & { readonly [unit]: 'rad' }

/** @throws RangeError if `value` is NaN or infinite */
export function rad(value: number): Rad {
  if (!Number.isFinite(value)) throw new RangeError(`not an angle in rad: ${value}`)
  return value as Rad
}
/** @example radFromDeg(180) //=> 3.141592653589793 */
export const radFromDeg = (valueDeg: number): Rad => rad((valueDeg * Math.PI) / 180)
/** @example degFromRad(Math.PI) //=> 180 */
export const degFromRad = (valueRad: number): number => (valueRad * 180) / Math.PI
