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
  // Wood Handbook FPL-GTR-190 (2010) Table 4-2 (p. 4-4), printed: degrees Fahrenheit, relative humidity %, EMC %. More
  // of them: published-cases.test.ts.
  it.each([
    [70, 65, 12.0],
    [90, 75, 13.9],
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
  // Wood Handbook eq. 13-2 and Table 13-5; more of them: published-cases.test.ts.
  it('red oak quartersawn, 300 mm, 6 to 12 %: 2.84 mm', () => {
    const { crPerPct } = speciesById('redOak')
    expect(sizeChange({ size: 300, coefficient: crPerPct, fromPct: 6, toPct: 12 })).toBeCloseTo(2.84, 2)
  })

  it('eq. 13-3: red oak from 20 to 8 % (computed)', () => {
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
  it('refuses moistures above the meeting point', () => {
    const property = { at12: 100, green: 60, moisturePct: 26 }
    expect(() => propertyAtMoisture(property)).toThrow(RangeError)
    expect(() => propertyAtMoisture({ ...property, green: 0, moisturePct: 8 })).toThrow(RangeError)
  })
})
