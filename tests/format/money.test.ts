import { describe, expect, it, test } from 'vitest'
import { money } from '#lib/core/units/money'
import { minorDigits, readMoney, sayMoney, typedMoney } from '#lib/format/money'

describe('money', () => {
  // ISO 4217: minor units of EUR and USD 2, of JPY 0, of KWD 3.
  it('has the minor units of its currency', () => {
    expect(['EUR', 'USD', 'JPY', 'KWD'].map(minorDigits)).toEqual([2, 2, 0, 3])
    expect(sayMoney(money(1250, 'EUR'))).toBe('€12.50')
    expect(sayMoney(money(123_456, 'USD'))).toMatch(/\$1,234\.56$/)
    expect(sayMoney(money(1250, 'JPY'))).toMatch(/¥1,250$/)
    expect(sayMoney(money(-5, 'EUR'))).toBe('-€0.05')
  })

  it('reads what is typed, exactly', () => {
    expect(readMoney(' 12,50 ', 'EUR')?.minor).toBe(1250)
    expect(readMoney('12.5', 'EUR')?.minor).toBe(1250)
    expect(readMoney('0.29', 'EUR')?.minor).toBe(29)
    expect(readMoney('1250', 'JPY')?.minor).toBe(1250)
    for (const text of ['', '-1', '1.234', '1,2,3', 'abc', '1e3', '12.', '9'.repeat(13)])
      expect(readMoney(text, 'EUR')).toBeNull()
    expect(readMoney('1.5', 'JPY')).toBeNull()
  })
})

test.each([
  [1250, 'EUR', '12.50'],
  [1250, 'JPY', '1250'],
  [null, 'EUR', ''],
])('%s minor units of %s stand in a field as «%s», and are read again', (minor, currency, text) => {
  expect(typedMoney(minor, currency)).toBe(text)
  expect(readMoney(text, currency)?.minor ?? null).toBe(minor)
})
