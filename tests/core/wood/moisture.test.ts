import { describe, expect, it } from 'vitest'
import {
  equilibriumMoisturePct,
  propertyAtMoisture,
  sizeChange,
  sizeChangeFromShrinkage,
} from '#lib/core/wood/moisture'
import { speciesById } from '#lib/core/wood/species'

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9

describe('equilibrium moisture content', () => {
  // Wood Handbook FPL-GTR-190 (2010) Table 4-2 (p. 4-4), printed: degrees Fahrenheit, relative humidity %, EMC %.
  it.each([
    [30, 50, 9.5],
    [50, 65, 12.3],
    [60, 40, 7.8],
    [70, 30, 6.2],
    [70, 35, 6.9],
    [70, 40, 7.7],
    [70, 50, 9.2],
    [70, 65, 12.0],
    [70, 80, 16.0],
    [80, 50, 9.1],
    [90, 75, 13.9],
    [100, 90, 19.5],
    [150, 50, 7.4],
    [200, 50, 5.8],
  ])('%d F at %d %%: %d %%', (tempF, humidityPct, expected) => {
    const emc = equilibriumMoisturePct({ tempC: celsius(tempF), humidity: humidityPct / 100 })
    expect(Math.abs(emc - expected)).toBeLessThan(0.1)
  })

  it('is dry in dry air, rises with humidity and refuses what is not air', () => {
    expect(equilibriumMoisturePct({ tempC: 20, humidity: 0 })).toBe(0)
    for (let h = 0.01; h < 1; h += 0.01)
      expect(equilibriumMoisturePct({ tempC: 20, humidity: h })).toBeGreaterThan(
        equilibriumMoisturePct({ tempC: 20, humidity: h - 0.01 }),
      )
    for (const humidity of [-0.1, 1, Number.NaN])
      expect(() => equilibriumMoisturePct({ tempC: 20, humidity })).toThrow(RangeError)
    expect(() => equilibriumMoisturePct({ tempC: 200, humidity: 0.5 })).toThrow(RangeError)
  })
})

describe('dimensional change', () => {
  // Wood Handbook eq. 13-2 and Table 13-5. The first is its printed example (CT .00245 from memory).
  it('white fir, 232 mm flatsawn, 8 to 11 %: 233.7 mm (printed)', () => {
    const change = sizeChange({ size: 232, coefficient: 0.00245, fromPct: 8, toPct: 11 })
    expect(232 + change).toBeCloseTo(233.7, 1)
  })

  it('red alder, 8 in, 6 % of moisture, CT .0026: 0.1248 in (printed in a woodworking magazine, 2021)', () => {
    const change = sizeChange({ size: 8, coefficient: 0.0026, fromPct: 6, toPct: 12 })
    expect(Math.abs(change - 0.1248)).toBeLessThan(0.0005)
  })

  it.each([
    ['redOak', 285.75, 6, 10, 4.218],
    ['redOak', 300, 6, 12, 6.642],
    ['whiteOak', 250, 7, 11, 3.65],
    ['redAlder', 200, 6, 9, 1.536],
  ])('%s, %d mm, %d to %d %%: %d mm (computed from Table 13-5)', (id, size, fromPct, toPct, expected) => {
    const change = sizeChange({ size, coefficient: speciesById(id).ctPerPct, fromPct, toPct })
    expect(Math.abs(change - expected)).toBeLessThan(0.01)
  })

  it('red oak quartersawn, 300 mm, 6 to 12 %: 2.84 mm', () => {
    const { crPerPct } = speciesById('redOak')
    expect(sizeChange({ size: 300, coefficient: crPerPct, fromPct: 6, toPct: 12 })).toBeCloseTo(2.84, 2)
  })

  it('eq. 13-3: sugar maple from green to 12 %, and red oak from 20 to 8 % (computed)', () => {
    const maple = { size: 250, shrinkagePct: 9.9, fromPct: 30, toPct: 12 }
    expect(Math.abs(sizeChangeFromShrinkage(maple) + 14.85)).toBeLessThan(0.02)
    const oak = { size: 300, shrinkagePct: 8.6, fromPct: 20, toPct: 8 }
    expect(Math.abs(sizeChangeFromShrinkage(oak) + 10.63)).toBeLessThan(0.01)
  })

  it('eq. 13-3 takes off all of the shrinkage from green to ovendry, and agrees with eq. 13-2 within a tenth', () => {
    const all = sizeChangeFromShrinkage({ size: 100, shrinkagePct: 9.9, fromPct: 30, toPct: 0 })
    expect(all).toBeCloseTo(-9.9, 10)
    const { ctPerPct, shrinkageTangentialPct } = speciesById('hardMaple')
    const linear = sizeChange({ size: 300, coefficient: ctPerPct, fromPct: 8, toPct: 12 })
    const exact = sizeChangeFromShrinkage({
      size: 300,
      shrinkagePct: shrinkageTangentialPct,
      fromPct: 8,
      toPct: 12,
    })
    expect(Math.abs(linear / exact - 1)).toBeLessThan(0.1)
  })

  it('refuses moistures where the equations do not hold', () => {
    const move = { size: 100, coefficient: 0.003, fromPct: 5, toPct: 12 }
    expect(() => sizeChange(move)).toThrow(RangeError)
    expect(() => sizeChange({ ...move, fromPct: 8, toPct: Number.NaN })).toThrow(RangeError)
    const wet = { size: 100, shrinkagePct: 9, fromPct: 31, toPct: 12 }
    expect(() => sizeChangeFromShrinkage(wet)).toThrow(RangeError)
    expect(() => sizeChangeFromShrinkage({ ...wet, fromPct: 12, shrinkagePct: 0 })).toThrow(RangeError)
  })
})

describe('strength and moisture', () => {
  // Wood Handbook eq. 5-3 and Table 5-13 (from memory); the first prints 119,500 kPa in its text.
  it.each([
    ['white ash MOR, kPa', 103_000, 66_000, 8, 24, 119_500, 100],
    ['sugar maple MOR, kPa', 109_000, 65_000, 8, 25, 127_793, 20],
    ['ponderosa pine MOR, psi', 9_400, 5_100, 15, 25, 8_163, 3],
    ['ponderosa pine C-par, psi', 5_320, 2_450, 6, 25, 7_609, 3],
    ['identity at 12 %', 1.29, 1.0, 12, 25, 1.29, 1e-9],
    ['green from the meeting point on', 9_400, 5_100, 25, 25, 5_100, 0.5],
  ])('%s', (_, at12, green, moisturePct, meetingPct, expected, tolerance) => {
    const value = propertyAtMoisture({ at12, green, moisturePct, meetingPct })
    expect(Math.abs(value - expected)).toBeLessThan(tolerance)
  })

  it('refuses moistures above the meeting point', () => {
    const property = { at12: 100, green: 60, moisturePct: 26 }
    expect(() => propertyAtMoisture(property)).toThrow(RangeError)
    expect(() => propertyAtMoisture({ ...property, green: 0, moisturePct: 8 })).toThrow(RangeError)
  })
})
