/**
 * What wood is finished with, and what to reckon with until the tin says otherwise: how far a litre goes, coats, hours
 * between them, days until it is hard. m2 a litre, hours, days. The tin goes first. Spread of paint, stain and varnish:
 * 350 to 400, 200 to 600 and 400 to 500 sq ft a US gal a coat, as makers' sheets have it; the rest is common practice.
 * Tests: tests/core/finish/quantities.test.ts
 */
export const COAT_KINDS = ['bare', 'paint', 'stain', 'oil', 'varnish', 'shellac', 'wax'] as const
export type CoatKind = (typeof COAT_KINDS)[number]

export interface Product {
  readonly kind: CoatKind
  readonly name: string
  readonly spreadM2PerL: number
  readonly coats: number
  readonly recoatHours: number
  /** From dry to hard, at 20 °C. */
  readonly cureDays: readonly [least: number, most: number]
  /** Whether it has a colour of its own to choose. */
  readonly hasColour: boolean
  readonly source: string
}

/** One square foot a US gallon. */
export const M2_PER_L_OF_SQFT_PER_GAL = 0.024_542

const SHEETS = "Makers' data sheets, one coat on smooth wood"
const PRACTICE = 'Common practice'

const product = (
  kind: CoatKind,
  name: string,
  [spreadM2PerL, coats, recoatHours]: readonly [number, number, number],
  cureDays: readonly [number, number],
  source: string,
  hasColour = false,
): Product => ({ kind, name, spreadM2PerL, coats, recoatHours, cureDays, hasColour, source })

export const PRODUCTS: readonly Product[] = [
  product('bare', 'Left bare', [10, 0, 0], [0, 0], PRACTICE),
  product('paint', 'Paint', [9, 2, 4], [3, 7], SHEETS, true),
  product('stain', 'Stain', [10, 1, 12], [1, 3], SHEETS, true),
  product('oil', 'Oil', [12, 2, 12], [14, 30], PRACTICE),
  product('varnish', 'Varnish', [11, 3, 6], [7, 20], SHEETS),
  product('shellac', 'Shellac', [10, 3, 1], [1, 3], PRACTICE),
  product('wax', 'Wax', [20, 1, 1], [1, 3], PRACTICE),
]

/** @example productOf('paint').spreadM2PerL //=> 9 */
export function productOf(kind: CoatKind): Product {
  const found = PRODUCTS.find((p) => p.kind === kind)
  if (found === undefined) throw new RangeError(`no finish ${kind}`)
  return found
}
