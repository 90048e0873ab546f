/**
 * Money as people read it. In: whole minor units and a currency (lib/core/units/money.ts). Out: «€12.50», «¥1,250».
 * How many minor units make one is the currency's own (ISO 4217, from the runtime's data), never assumed to be 100.
 * Tests: tests/format/money.test.ts
 */
import { type Money, money } from '#lib/core/units/money'

const formatOf = (currency: string) => new Intl.NumberFormat('en-IE', { style: 'currency', currency })

/** Digits after the point: 2 for EUR, 0 for JPY, 3 for KWD. */
export const minorDigits = (currency: string): number =>
  formatOf(currency).resolvedOptions().maximumFractionDigits ?? 2

/** @example sayMoney(money(1250, 'EUR')) //=> '€12.50' */
export function sayMoney(amount: Money): string {
  const format = formatOf(amount.currency)
  return format.format(amount.minor / 10 ** minorDigits(amount.currency))
}

/**
 * An amount as typed, with a point or a comma before its minor units; null where it is not one.
 * @example readMoney('12,50', 'EUR') //=> { minor: 1250, currency: 'EUR' }
 */
export function readMoney(text: string, currency: string): Money | null {
  const digits = minorDigits(currency)
  const [, whole, part = ''] = /^(\d{1,12})(?:[.,](\d+))?$/.exec(text.trim()) ?? []
  if (whole === undefined || part.length > digits) return null
  return money(Number(whole + part.padEnd(digits, '0')), currency)
}

/**
 * As it stands in a field; null, nothing known, is an empty one.
 * @example typedMoney(1250, 'EUR') //=> '12.50'
 */
export const typedMoney = (minor: number | null, currency: string): string =>
  minor === null ? '' : (minor / 10 ** minorDigits(currency)).toFixed(minorDigits(currency))
