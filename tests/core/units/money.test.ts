import { describe, expect, it } from 'vitest'
import { addMoney, money, sumMoney, timesMoney } from '#lib/core/units/money'

describe('money', () => {
  it('adds whole minor units of one currency', () => {
    expect(addMoney(money(10, 'EUR'), money(20, 'EUR'))).toEqual({ minor: 30, currency: 'EUR' })
    expect(sumMoney([money(10, 'USD'), money(-4, 'USD')], 'USD').minor).toBe(6)
    expect(sumMoney([], 'USD')).toEqual({ minor: 0, currency: 'USD' })
  })

  it('snaps a product once, halves away from zero', () => {
    expect(timesMoney(money(1005, 'EUR'), 0.5).minor).toBe(503)
    expect(timesMoney(money(-1005, 'EUR'), 0.5).minor).toBe(-503)
    expect(Object.is(timesMoney(money(-1, 'EUR'), 0.1).minor, 0)).toBe(true)
  })

  it('refuses mixed currencies, fractions of a cent and unknown codes', () => {
    expect(() => addMoney(money(1, 'EUR'), money(1, 'USD'))).toThrow(RangeError)
    expect(() => money(0.5, 'EUR')).toThrow(RangeError)
    expect(() => money(1, 'euro')).toThrow(RangeError)
    expect(() => timesMoney(money(1, 'EUR'), Number.NaN)).toThrow(RangeError)
  })
})
