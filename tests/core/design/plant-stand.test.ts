import { describe, expect, it } from 'vitest'
import { plantStand } from '#lib/core/design/designs/plant-stand/plant-stand'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

describe('plant stand', () => {
  it('takes its pot between the legs', () => {
    const model = modelOf(plantStand, { pot: 250, room: 6, legWidth: 40 })
    expect(figureOf(model, 'between')).toBe(262)
    expect(figureOf(model, 'span')).toBe(342)
    expect(figureOf(model, 'legLength')).toBe(450)
  })

  it('each rail of a cross gives half: two rails of 342 × 50 × 22 less twice 22 × 22 × 25', () => {
    const model = modelOf(plantStand)
    for (const id of ['rail-upper-x', 'rail-upper-y', 'rail-lower-x', 'rail-lower-y'])
      expect(massProperties(partOf(model, id)).volumeMm3).toBeCloseTo(342 * 50 * 22 - 22 * 22 * 25, 6)
    const cross = model.joints.find((joint) => joint.id === 'cross-upper')!
    expect(cross.kind).toBe('halfLap')
    expect(cross.contact.areaMm2).toBeCloseTo(22 * 22, 6)
    expect(cross.contact.normal[2]).toBeCloseTo(-1, 12)
    expect(cross.contact.polygon[0][2]).toBeCloseTo(350 - 25, 9)
  })

  it('a leg is let in at both crosses, and all four legs are one shape', () => {
    const model = modelOf(plantStand, { footChamfer: 0 })
    const legs = model.parts.filter((part) => part.kind === 'leg')
    expect(legs).toHaveLength(4)
    for (const leg of legs) {
      const notches = leg.operations.filter((op) => op.kind === 'notch')
      expect(notches.map((notch) => notch.alongMm).sort((a, b) => a - b)).toEqual([
        expect.closeTo(105, 9),
        expect.closeTo(325, 9),
      ])
      expect(massProperties(leg).volumeMm3).toBeCloseTo(450 * 40 * 32 - 2 * 50 * 40 * 8, 6)
    }
  })

  it.each<[string, ParameterValues, string]>([
    ['notch too deep for the leg', { letIn: 18, legThickness: 24, railThickness: 40 }, 'letIn'],
    ['legs meet in a rail', { letIn: 12 }, 'letIn'],
    ['crosses meet', { potHeight: 200 }, 'lowHeight'],
    ['lower cross on the floor', { lowHeight: 55 }, 'lowHeight'],
    ['screws split a rail end', { legWidth: 25, screwSize: 'no10' }, 'screwSize'],
    ['screws split a rail', { railThickness: 14, letIn: 5, screwSize: 'no10' }, 'screwSize'],
    ['leg screw comes out', { screwLength: 46 }, 'screwLength'],
    ['half-lap screw comes out', { lapScrewLength: 49 }, 'lapScrewLength'],
    ['half-lap screw too short', { lapScrewLength: 28 }, 'lapScrewLength'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(plantStand, values)).toContain(parameter)
  })

  it('tells the weight of the pot and warns of a tall narrow stand', () => {
    // A cylinder 250 across and 250 high holds 12.3 litres: 18 kg at 1.5 kg a litre.
    expect(modelOf(plantStand).notices[0].message).toContain('about 18 kg')
    expect(modelOf(plantStand, { potHeight: 780 }).notices[0]).toMatchObject({
      level: 'caution',
      parameter: 'potHeight',
    })
  })
})
