/** Feet with their edges taken off: what is left to stand on, what the leg loses, and how it is cut. */
import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { plantStand } from '#lib/core/design/designs/plant-stand/plant-stand'
import { splayedStool } from '#lib/core/design/designs/splayed-stool/splayed-stool'
import { partNotes } from '#lib/core/design/drawing/part-notes'
import type { Part } from '#lib/core/design/model'
import { flatFaces, massProperties } from '#lib/core/design/part-shape'
import { area } from '#lib/core/geometry/polygon2'
import { modelOf, partOf, refusedFor } from './ask-design'

/** mm², of the end that a leg stands on. */
const standingOn = (leg: Part): number =>
  flatFaces(leg)
    .filter(({ of }) => 'face' in of && of.face === 'endA')
    .flatMap(({ pieces }) => pieces)
    .reduce((sum, piece) => sum + Math.abs(area(piece)), 0)

describe('chamfered feet', () => {
  it('of an upright leg: a frustum instead of a block, w/6 (A1 + 4 Am + A2) for w a b', () => {
    const [plain, eased] = [0, 3].map((footChamfer) =>
      partOf(modelOf(plantStand, { footChamfer }), 'leg-left'),
    )
    expect(standingOn(plain)).toBeCloseTo(40 * 32, 6)
    expect(standingOn(eased)).toBeCloseTo(34 * 26, 6)
    const frustum = (3 / 6) * (40 * 32 + 4 * 37 * 29 + 34 * 26)
    const lost = massProperties(plain).volumeMm3 - massProperties(eased).volumeMm3
    expect(lost).toBeCloseTo(3 * 40 * 32 - frustum, 6)
  })

  it('of a leg raked 8°: w off either face, so the foot is (45 / cos 8° − 2 w) by (38 − 2 w)', () => {
    const leg = partOf(modelOf(counterSeat, { footChamfer: 4, abreast: 1 }), 'seat1-leg-left-front')
    expect(standingOn(leg)).toBeCloseTo((45 / Math.cos((8 * Math.PI) / 180) - 8) * (38 - 8), 6)
  })

  it('stand in the notes of the drawing in one line', () => {
    const leg = partOf(modelOf(splayedStool, { footChamfer: 3 }), 'leg-left-front')
    expect(partNotes(leg, (mm) => `${mm} mm`)).toContain(
      'Chamfer 3 mm where end A meets edge A, edge B, face A and face B.',
    )
  })

  it('are refused where little would be left, by name', () => {
    expect(refusedFor(plantStand, { footChamfer: 6.5 })).toEqual(['footChamfer'])
    expect(refusedFor(counterSeat, { footChamfer: 8, legThickness: 38 })).toEqual(['footChamfer'])
    expect(refusedFor(counterSeat, { footChamfer: 7.5, legThickness: 38 })).toEqual([])
  })
})
