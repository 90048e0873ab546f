import { describe, expect, it } from 'vitest'
import { splayedStool } from '#lib/core/design/designs/splayed-stool/splayed-stool'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { endCutPlacing } from '#lib/core/setups/sled-placing'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const DEG = Math.PI / 180
const deg = (rad: number): number => Number((rad / DEG).toFixed(3))

describe('stool with splayed legs', () => {
  it('stands 610 mm at 5° and 5°: legs 614.65 mm, leaning 7.053°, towards 45° (L = h sqrt(1 + tan² a + tan² b))', () => {
    const model = modelOf(splayedStool, { height: 632, seatThickness: 22, splay: 5, rake: 5, seatDepth: 340 })
    expect(figureOf(model, 'legLength')).toBeCloseTo(614.65, 2)
    expect(deg(figureOf(model, 'resultant'))).toBe(7.053)
    expect(deg(figureOf(model, 'sightline'))).toBe(45)
    expect(figureOf(model, 'footSpreadX')).toBeCloseTo(320 + 2 * 53.37, 1)
  })

  it('splay 15°, rake 10°: resultant 17.784°, sightline 33.347° (resultant and sightline formulas)', () => {
    const model = modelOf(splayedStool, { splay: 15, rake: 10 })
    expect(deg(figureOf(model, 'resultant'))).toBe(17.784)
    expect(deg(figureOf(model, 'sightline'))).toBe(33.347)
  })

  it('every end of every leg comes off the saw at that turn of the sled and that tilt of the blade', () => {
    const model = modelOf(splayedStool, { splay: 12, rake: 7 })
    const mitre = Math.atan(Math.tan(12 * DEG) * Math.cos(7 * DEG))
    expect(figureOf(model, 'mitre')).toBeCloseTo(mitre, 12)
    const legs = model.parts.filter((part) => part.id.startsWith('leg-'))
    expect(legs).toHaveLength(4)
    for (const leg of legs)
      for (const op of leg.operations.filter((each) => each.kind === 'endCut')) {
        const placing = endCutPlacing(leg, op, 'left')
        expect(Math.abs(placing.sledAngleRad)).toBeCloseTo(mitre, 9)
        expect(placing.bladeTiltRad).toBeCloseTo(7 * DEG, 9)
      }
  })

  it('carries the seat on bevelled edges and lets the top supports in flush', () => {
    const model = modelOf(splayedStool, { rake: 8 })
    const [bevel] = partOf(model, 'top-front').operations.filter((op) => op.kind === 'edgeBevel')
    expect(Math.abs(bevel.bevelRad)).toBeCloseTo(8 * DEG, 12)
    const seat = model.joints.find((joint) => joint.id === 'seat-front-2')!
    expect(seat.contact.areaMm2).toBeCloseTo((117 + 1 / 3) * (30 / Math.cos(8 * DEG)), 4)
    const [notch] = partOf(model, 'leg-left-front').operations.filter((op) => op.kind === 'notch')
    expect(notch.depthMm).toBeCloseTo(30, 9)
    expect(
      modelOf(splayedStool, { rake: 0 }).parts.some((part) =>
        part.operations.some((op) => op.kind === 'edgeBevel'),
      ),
    ).toBe(false)
  })

  it.each([1.1e-6, 1e-9, 4e-4, 0.001, 0.002])(
    'a rake of %d° makes sound legs: none below a thousandth of a degree',
    (rake) => {
      const volume = (values: ParameterValues) =>
        massProperties(partOf(modelOf(splayedStool, values), 'leg-left-front')).volumeMm3
      expect(volume({ rake }) / volume({ rake: 0 })).toBeCloseTo(1, 4)
    },
  )

  it.each<[string, ParameterValues, string]>([
    ['tops meet', { seatWidth: 240, legWidth: 90 }, 'legWidth'],
    ['frames meet', { seatDepth: 240, overhang: 50, legThickness: 55, supportThickness: 28 }, 'seatDepth'],
    ['notch leaves too little', { supportThickness: 34 }, 'supportThickness'],
    ['lower supports on the floor', { treadHeight: 90 }, 'treadHeight'],
    ['treads under the seat', { treadHeight: 400 }, 'treadHeight'],
    ['treads meet', { treadWidth: 120, seatWidth: 300 }, 'treadWidth'],
    ['seat boards too narrow', { seatBoards: 8, seatWidth: 300 }, 'seatBoards'],
    ['first board misses the supports', { seatBoards: 7, overhang: 30 }, 'overhang'],
    ['screw splits a support', { supportThickness: 12 }, 'screwSize'],
    ['screw comes out of a leg', { topScrewLength: 48 }, 'topScrewLength'],
    ['screw too short', { screwLength: 32 }, 'screwLength'],
    ['legs lean inwards', { splay: -3 }, 'splay'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(splayedStool, values)).toContain(parameter)
  })

  it('stops a stool that tips, by the forces of EN 1022, and warns of legs that lean too far', () => {
    expect(
      modelOf(splayedStool, { rake: 0, overhang: 70, seatBoards: 2, seatWidth: 420, seatDepth: 420 })
        .notices[0],
    ).toMatchObject({ level: 'stop' })
    expect(modelOf(splayedStool, { splay: 17, rake: 15 }).notices[0]).toMatchObject({
      level: 'caution',
      parameter: 'splay',
    })
    expect(modelOf(splayedStool).notices).toEqual([])
  })
})
