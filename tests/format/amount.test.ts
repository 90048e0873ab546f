import { describe, expect, it } from 'vitest'
import { sayArea, sayPercent, sayVolume, sayWeight } from '#lib/format/amount'

describe('amounts', () => {
  it('says about three figures in the unit of the person', () => {
    expect(sayArea(1_250_000, 'mm')).toBe('1.25 m²')
    expect(sayArea(0, 'mm')).toBe('0 m²')
    // 1 ft2 is 0.09290304 m2 exactly.
    expect(sayArea(929_030.4, 'in')).toBe('10 ft²')
    expect(sayWeight(4.256, 'mm')).toBe('4.26 kg')
    // 1 lb is 0.45359237 kg exactly.
    expect(sayWeight(45.359237, 'in')).toBe('100 lb')
    expect(sayWeight(1000, 'mm')).toBe('1000 kg')
    expect(sayWeight(12.34, 'mm')).toBe('12.3 kg')
    expect(sayWeight(9.999, 'mm')).toBe('10 kg')
    expect(sayVolume(2_000_000, 'mm')).toBe('2 l')
    // A board foot is 144 in3: 2,359,737 mm3.
    expect(sayVolume(23_597_372, 'in')).toBe('10 bd ft')
    expect(sayPercent(0.8312)).toBe('83 %')
    expect(sayPercent(1)).toBe('100 %')
    expect(sayWeight(-0.001, 'mm')).toBe('0 kg')
  })

  it('refuses what is not a number', () => {
    expect(() => sayArea(Number.NaN, 'mm')).toThrow(RangeError)
  })
})
