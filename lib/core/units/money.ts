/**
 * Money as whole minor units (cents, öre, yen) and an ISO 4217 currency code. Sums never mix currencies.
 * Formatting for people is in lib/format/money.ts. Tests: tests/core/units/money.test.ts
 */
export interface Money {
  readonly minor: number
  readonly currency: string
}

/**
 * @throws RangeError if `minor` is not whole or `currency` is not three capital letters
 * @example money(1250, 'EUR') //=> { minor: 1250, currency: 'EUR' }
 */
export function money(minor: number, currency: string): Money {
  if (!Number.isSafeInteger(minor)) throw new RangeError(`not whole minor units: ${minor}`)
  if (!/^[A-Z]{3}$/.test(currency)) throw new RangeError(`not a currency code: ${currency}`)
  return { minor, currency }
}

/**
 * @throws RangeError if the currencies differ
 * @example addMoney(money(100, 'EUR'), money(50, 'EUR')) //=> { minor: 150, currency: 'EUR' }
 */
export function addMoney(a: Money, b: Money): Money {
  if (a.currency !== b.currency) throw new RangeError(`cannot add ${b.currency} to ${a.currency}`)
  return money(a.minor + b.minor, a.currency)
}

/** The sum of none is zero of `currency`. @example sumMoney([], 'EUR') //=> { minor: 0, currency: 'EUR' } */
export const sumMoney = (amounts: readonly Money[], currency: string): Money =>
  amounts.reduce(addMoney, money(0, currency))

/**
 * A price times a quantity, snapped once to whole minor units, halves away from zero.
 * @throws RangeError if `factor` is NaN or infinite
 * @example timesMoney(money(1005, 'EUR'), 0.5) //=> { minor: 503, currency: 'EUR' }
 */
export function timesMoney(amount: Money, factor: number): Money {
  if (!Number.isFinite(factor)) throw new RangeError(`not a factor: ${factor}`)
  const exact = amount.minor * factor
  const minor = Math.sign(exact) * Math.round(Math.abs(exact))
  return money(minor === 0 ? 0 : minor, amount.currency)
}
