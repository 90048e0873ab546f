import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { GRADES, knotShareLeft, SALVAGE_GRADES, slopeOfGrain } from '#lib/core/wood/grades'
import { SPECIES, speciesById } from '#lib/core/wood/species'
import { allowables, bearingSpecies, fifthPercentile, hankinson } from '#lib/core/wood/strength'

describe('from mean to allowable', () => {
  // Wood Handbook FPL-GTR-190 (2010) Table 5-6 (from memory): bending 16 %.
  it('the weak twentieth of bending is 0.737 of the mean', () => {
    expect(fifthPercentile(1, 0.16)).toBeCloseTo(0.737, 3)
  })
})

describe('angle to the grain', () => {
  // Hankinson, Wood Handbook eq. 5-2: red oak 6760 and 1010 psi.
  it.each([
    [0, 6760],
    [45, 1757],
    [90, 1010],
  ])('at %d degrees: %d psi', (degrees, psi) => {
    expect(Math.abs(hankinson(6760, 1010, (degrees * Math.PI) / 180) - psi)).toBeLessThan(1)
  })

  it('never leaves the range between along and across', () => {
    let judged = 0
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 10, noNaN: true }),
        fc.double({ min: 1, max: 9, noNaN: true }),
        (angle, q) => {
          const n = hankinson(10, q, angle)
          expect(n).toBeGreaterThanOrEqual(q - 1e-9)
          expect(n).toBeLessThanOrEqual(10 + 1e-9)
          judged++
        },
      ),
    )
    expect(judged).toBeGreaterThan(0)
  })
})

describe('salvage', () => {
  // Wood Handbook Table 5-12 (from memory): 1 in 10 leaves 81 % of bending, 1 in 15 89 %, 1 in 20 93 %.
  it.each([
    [5, 0.55],
    [10, 0.81],
    [12.5, 0.85],
    [15, 0.89],
    [20, 0.93],
    [Number.POSITIVE_INFINITY, 1],
  ])('grain of 1 in %d leaves %d', (oneIn, left) => {
    expect(slopeOfGrain(oneIn).bending).toBeCloseTo(left, 9)
  })

  it('a knot of a quarter of the width leaves nine sixteenths', () => {
    expect(knotShareLeft(0.25)).toBe(0.5625)
  })

  it('refuses what is no part that bears', () => {
    expect(() => slopeOfGrain(3)).toThrow(RangeError)
    expect(() => knotShareLeft(1)).toThrow(RangeError)
    expect(() => allowables(speciesById('redOak'), 'clear', 0.5)).toThrow(RangeError)
  })

  it('each grade bears less than the one before, in every way', () => {
    for (let i = 1; i < SALVAGE_GRADES.length; i++) {
      const [better, worse] = [GRADES[SALVAGE_GRADES[i - 1]], GRADES[SALVAGE_GRADES[i]]]
      expect(worse.bending).toBeLessThan(better.bending)
      expect(worse.compression).toBeLessThan(better.compression)
      expect(worse.shear).toBeLessThan(better.shear)
    }
  })
})

describe('allowables', () => {
  it('every species bears something in every way, and no unknown wood bears more than a known one of its kind', () => {
    for (const species of SPECIES) {
      const a = allowables(species, 'sound')
      for (const value of [
        a.bendingMPa,
        a.compressionMPa,
        a.compressionAcrossMPa,
        a.shearMPa,
        a.rollingShearMPa,
        a.tensionAcrossMPa,
      ])
        expect(value).toBeGreaterThan(0)
      expect(allowables(speciesById('unknown'), 'sound').bendingMPa).toBeLessThanOrEqual(a.bendingMPa)
    }
  })

  it('red oak, picked: 98.6 MPa mean, 0.737 of it, 0.93 for the grain, over 2', () => {
    expect(allowables(speciesById('redOak'), 'clear').bendingMPa).toBeCloseTo((98.595 * 0.7368 * 0.93) / 2, 2)
  })

  it('a wish for any wood is judged as unknown wood; a name that the table lacks is none', () => {
    expect(bearingSpecies(undefined)?.id).toBe('unknown')
    expect(bearingSpecies('any')?.id).toBe('unknown')
    expect(bearingSpecies('hardwood')?.id).toBe('unknownHardwood')
    expect(bearingSpecies('softwood')?.id).toBe('unknownSoftwood')
    expect(bearingSpecies('redOak')?.id).toBe('redOak')
    expect(bearingSpecies('plastic')).toBeUndefined()
  })
})
