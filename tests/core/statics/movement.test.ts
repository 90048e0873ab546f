import { describe, expect, it } from 'vitest'
import { staticsFromModel } from '#lib/core/statics/from-model'
import { growthMm, movementsOf, seasonOf } from '#lib/core/statics/movement'
import { speciesById } from '#lib/core/wood/species'
import { box, joinParts, modelOf } from './models'

describe('movement across the grain', () => {
  // Wood Handbook eq. 13-2, Table 13-5: red oak, flatsawn 300 mm from 6 to 12 %: 6.64 mm.
  it('red oak 300 mm, 6 to 12 %: 6.64 mm', () => {
    expect(growthMm(speciesById('redOak'), 300, { dryPct: 6, dampPct: 12 })).toBeCloseTo(6.642, 3)
  })

  // Eq. 13-3: red oak ST 8.6, 300 mm, 20 to 8 %: -10.63 mm; from 8 to 20 % the same wood grows by a little more.
  it('beyond 14 % goes by the whole shrinkage', () => {
    const grown = growthMm(speciesById('redOak'), 300, { dryPct: 8, dampPct: 20 })
    expect(Math.abs(grown - (300 * 12) / (3000 / 8.6 - 30 + 8))).toBeLessThan(1e-9)
  })

  // Wood Handbook Table 4-2: 70 F, 35 % 6.9, 65 % 12.0.
  it('a year indoors: 6.9 to 12 %', () => {
    expect(seasonOf().dryPct).toBeCloseTo(6.9, 1)
    expect(seasonOf().dampPct).toBeCloseTo(12, 1)
    expect(() => seasonOf({ tempC: 20, humidity: 1 })).toThrow(RangeError)
  })

  it('a wide top screwed to a rail across its grain is warned about, with its millimetres', () => {
    const top = box('top', [0, 0, 700], [900, 400, 720], 'x')
    const rail = box('rail', [100, 0, 640], [130, 400, 700], 'y')
    const far = box('far', [770, 0, 640], [800, 400, 700], 'y')
    const legs = [rail, far].flatMap((r, i) =>
      [0, 360].map((y, j) =>
        box(`leg-${i}-${j}`, [r.frame.origin[0], y, 0], [r.frame.origin[0] + 30, y + 40, 640], 'z'),
      ),
    )
    const joints = [
      joinParts(top, rail, { glued: false, screws: 4 }),
      joinParts(top, far, { glued: false, screws: 4 }),
      ...legs.map((leg, i) => joinParts(i < 2 ? rail : far, leg)),
    ]
    const made = staticsFromModel(modelOf([top, rail, far, ...legs], joints), { grade: 'clear', factor: 2 })
    if (!made.ok) throw new Error(made.error)
    const held = movementsOf(made.value, seasonOf()).held.find(
      ({ partId, byId }) => partId === 'top' && byId === 'rail',
    )!
    expect(held.spanMm).toBeCloseTo(200, 0)
    expect(held.growthMm).toBeCloseTo(200 * 0.00369 * (seasonOf().dampPct - seasonOf().dryPct), 6)
    expect(held.growthMm).toBeGreaterThan(held.limitMm)
    // The rail is not held across its own grain by the top, which moves with it along.
    expect(
      movementsOf(made.value, seasonOf()).held.some(
        ({ partId, byId }) => partId === 'rail' && byId === 'top',
      ),
    ).toBe(false)
  })
})
