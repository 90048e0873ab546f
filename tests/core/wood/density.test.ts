import { describe, expect, it } from 'vitest'
import { densityKgPerM3At12, massKg, speciesDensityKgPerM3 } from '#lib/core/wood/density'
import { speciesById } from '#lib/core/wood/species'

describe('density', () => {
  it('red oak, G 0.63: 705.6 kg/m3, printed as 705', () => {
    expect(densityKgPerM3At12(0.63)).toBeCloseTo(705.6, 6)
    expect(Math.abs(speciesDensityKgPerM3(speciesById('redOak')) - 705)).toBeLessThan(1)
  })

  it('imported woods are denser at 12 % than their green volume says', () => {
    // Teak is sold as about 630 to 660 kg/m3 at 12 % (timber trade tables, common practice).
    const teak = speciesDensityKgPerM3(speciesById('teak'))
    expect(teak).toBeGreaterThan(625)
    expect(teak).toBeLessThan(665)
  })

  it('weighs a cubic metre', () => {
    expect(massKg(1e9, 700)).toBe(700)
    expect(massKg(610 * 60 * 38, 705.6)).toBeCloseTo(0.981, 3)
  })
})
