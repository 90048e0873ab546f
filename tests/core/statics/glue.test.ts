import { describe, expect, it } from 'vitest'
import { rectangle } from '#lib/core/geometry/polygon2'
import { patchProperties } from '#lib/core/statics/contact-area'
import {
  type GlueSide,
  glueUse,
  isCrossed,
  lapTorsionMPa,
  nominalTorsionMPa,
  sideShearMPa,
} from '#lib/core/statics/glue'
import { speciesById } from '#lib/core/wood/species'
import { allowables } from '#lib/core/wood/strength'

const OAK = allowables(speciesById('redOak'), 'clear')
const PATCH = rectangle(-19, -19, 19, 19)
const long = (grainRad: number): GlueSide => ({ wood: OAK, grain: 'long', grainRad })
const NONE = { xN: 0, yN: 0, pullN: 0, mxNmm: 0, myNmm: 0, torqueNmm: 0 }

describe('patch', () => {
  it('of a rectangle, wherever it lies', () => {
    const p = patchProperties(rectangle(10, 20, 40, 60))
    expect(p.centre).toEqual([25, 40])
    expect(p.ixxMm4).toBeCloseTo((30 * 40 ** 3) / 12, 6)
    expect(p.iyyMm4).toBeCloseTo((40 * 30 ** 3) / 12, 6)
    expect(p.ixyMm4).toBeCloseTo(0, 6)
  })

  it('of a triangle: b h^3 / 36, b^2 h^2 / 72 (standard tables)', () => {
    const p = patchProperties([
      [0, 0],
      [6, 0],
      [0, 9],
    ])
    expect(p.ixxMm4).toBeCloseTo((6 * 9 ** 3) / 36, 9)
    expect(p.ixyMm4).toBeCloseTo(-(6 ** 2 * 9 ** 2) / 72, 9)
  })
})

describe('glue', () => {
  // Elastic polar method: T r / J, J = b h (b^2 + h^2) / 12. 38 × 38 mm under 30 N m: 2.3196 MPa.
  it('crossed lap under torsion: 2.3196 MPa', () => {
    expect(Math.abs(lapTorsionMPa(38, 38, 30_000) - 2.3196)).toBeLessThan(0.002)
    // End grain bears the same in every direction, so the corner is the worst place.
    const end: GlueSide = { ...long(0), grain: 'end' }
    const use = glueUse(PATCH, [end, end], { ...NONE, torqueNmm: 30_000 })
    expect(use.shearMPa).toBeCloseTo(lapTorsionMPa(38, 38, 30_000), 9)
  })

  // Flaig and Blaß 2013, and EN 16351 for tests of crossed boards: T (b / 2) / J, so 3 T / b^3 for a square (from memory).
  it('a crossed lap is judged by its nominal torsion: 3 T / b^3', () => {
    expect(nominalTorsionMPa(PATCH, -30_000)).toBeCloseTo((3 * 30_000) / 38 ** 3, 6)
    const use = glueUse(PATCH, [long(0), long(Math.PI / 2)], { ...NONE, torqueNmm: 30_000 })
    expect(use.isTwist).toBe(true)
    expect(use.share).toBeCloseTo((3 * 30_000) / 38 ** 3 / OAK.crossedTorsionMPa, 6)
    expect(use.shearCapacityMPa).toBe(OAK.crossedTorsionMPa)
  })

  // Blaß and Görlacher 2002, EN 16351 (from memory): spruce boards glued crosswise bear 3.5 MPa of nominal torsion on
  // average, 2.5 MPa the weak twentieth; rolling shear 1.1 MPa the weak twentieth.
  it('clear spruce, no factor: 2.5 MPa of torsion, about 1.1 MPa of rolling shear for the weak twentieth', () => {
    const spruce = allowables(speciesById('sitkaSpruce'), 'clear', 1)
    expect(Math.abs(spruce.crossedTorsionMPa - 2.5)).toBeLessThan(0.05)
    expect(Math.abs(spruce.rollingShearMPa - 1.1)).toBeLessThan(0.15)
  })

  // Aicher, Christian and Hirsch 2016, Holzforschung (read): European beech, weak twentieth of rolling shear 4.5 MPa.
  it('beech across its grain is taken well below its tested 4.5 MPa', () => {
    const beech = allowables(speciesById('beech'), 'clear', 1)
    expect(beech.rollingShearMPa).toBeLessThan(4.5)
    expect(beech.crossedTorsionMPa).toBeLessThan(4.5)
  })

  // Shares of torsion and of even shear add (Flaig and Blaß 2013; the form quoted in design software's manuals).
  it('where grains cross, twist and even shear add as shares', () => {
    const sides = [long(0), long(Math.PI / 2)] as const
    const [push, twist] = [
      { ...NONE, xN: 500 },
      { ...NONE, torqueNmm: 20_000 },
    ]
    const both = glueUse(PATCH, sides, { ...push, ...twist, xN: 500 }).share
    expect(both).toBeCloseTo(glueUse(PATCH, sides, push).share + glueUse(PATCH, sides, twist).share, 9)
  })

  it.each([
    [90, true],
    [60, true],
    [59, false],
    [0, false],
    [120, true],
    [175, false],
    [-82, true],
    [262, true],
  ])('grains at %d degrees cross: %s', (degrees, crosses) =>
    expect(isCrossed([long(0.3), long(0.3 + (degrees * Math.PI) / 180)])).toBe(crosses),
  )

  it('end grain never crosses', () => {
    expect(isCrossed([{ ...long(0), grain: 'end' }, long(Math.PI / 2)])).toBe(false)
  })

  it('grain along grain bears five times what it bears across a crossing piece', () => {
    const push = { ...NONE, xN: 1000 }
    const along = glueUse(PATCH, [long(0), long(0)], push)
    const crossed = glueUse(PATCH, [long(0), long(Math.PI / 2)], push)
    expect(crossed.share / along.share).toBeCloseTo(5, 6)
    expect(sideShearMPa(long(0), Math.PI / 2)).toBeCloseTo(OAK.rollingShearMPa, 9)
  })

  // Wood Handbook ch. 10: end-grain butt joints cannot meet ordinary service.
  it('end grain is next to nothing', () => {
    const push = { ...NONE, xN: 1000 }
    const end = glueUse(PATCH, [{ ...long(0), grain: 'end' }, long(0)], push)
    expect(end.isEndGrain).toBe(true)
    expect(end.share).toBeGreaterThan(9 * glueUse(PATCH, [long(0), long(0)], push).share)
  })

  it('pulled evenly and by a moment: N / A and M y / I', () => {
    expect(glueUse(PATCH, [long(0), long(0)], { ...NONE, pullN: 1444 }).pullMPa).toBeCloseTo(1, 9)
    expect(glueUse(PATCH, [long(0), long(0)], { ...NONE, pullN: -1444 }).pullMPa).toBe(0)
    const bent = glueUse(PATCH, [long(0), long(0)], { ...NONE, mxNmm: 9000 })
    expect(bent.pullMPa).toBeCloseTo(9000 / (38 ** 3 / 6), 9)
    expect(bent.at[1]).toBe(19)
    expect(glueUse(PATCH, [long(0), long(0)], { ...NONE, myNmm: 9000 }).at[0]).toBe(-19)
  })
})
