import { describe, expect, it } from 'vitest'
import { worldFaces } from '#lib/core/design/contact'
import type { Part } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { edgeAt, framePlane, type LegShape, rakedLeg, rakedSupport } from '#lib/core/design/raked-frame'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

const DEG = Math.PI / 180
const name = (id: string) => ({ id, name: id, kind: id, look: { finish: 'clear', species: 'any' } })
const corners = (part: Part): Vec3[] =>
  worldFaces(part).flatMap(({ frame, pieces }) =>
    pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
  )
const shape: LegShape = { topSpanMm: 300, heightMm: 610, rakeRad: 5 * DEG, widthMm: 45, thicknessMm: 38 }

describe('legs of a frame', () => {
  it('tops 300 mm apart at 610 mm and 5° stand 406.74 mm apart at the floor (h tan a each side)', () => {
    const plane = framePlane([0, 0, 0], [0, 1, 0], [1, 0, 0], 0)
    expect(2 * edgeAt(plane, shape, 0)).toBeCloseTo(406.74, 2)
    const legs = ([-1, 1] as const).map((side) => rakedLeg(plane, shape, side, name('leg')))
    const ys = legs.flatMap(corners).map((p) => p[1])
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(406.74, 2)
  })

  it.each([0, 6, 15])('leaning %d°: level at floor and top, as long as its prism says', (tilt) => {
    const plane = framePlane([0, 0, 0], [1, 0, 0], [0, 1, 0], tilt * DEG)
    for (const side of [-1, 1] as const) {
      const leg = rakedLeg(plane, shape, side, name('leg'))
      const zs = corners(leg).map((p) => p[2])
      expect(Math.min(...zs)).toBeCloseTo(0, 9)
      expect(Math.max(...zs)).toBeCloseTo(610, 9)
      // A prism cut by two parallel planes: section times length along the grain.
      const along = 610 / Math.cos(tilt * DEG) / Math.cos(5 * DEG)
      expect(massProperties(leg).volumeMm3 / (45 * 38 * along)).toBeCloseTo(1, 9)
      for (const op of leg.operations)
        if (op.kind === 'endCut') expect(Math.abs(op.bevelRad)).toBeCloseTo(tilt * DEG, 12)
    }
  })
})

describe('supports', () => {
  it.each([0, 8])('in a frame leaning %d°: a level edge at its height, ends flush with the legs', (tilt) => {
    const plane = framePlane([0, 0, 0], [1, 0, 0], [0, 1, 0], tilt * DEG)
    const at = { widthMm: 60, thicknessMm: 19, heightMm: 400, isTop: true, proudMm: 19 }
    const support = rakedSupport(plane, shape, at, name('support'))
    const high = worldFaces(support).filter(({ frame }) => frame.z[2] > 1 - 1e-12)
    expect(high).toHaveLength(1)
    expect(high[0].frame.origin[2]).toBeCloseTo(400, 9)
    expect(Math.max(...corners(support).map((p) => p[2]))).toBeCloseTo(400, 9)
    expect(support.operations.filter((op) => op.kind === 'edgeBevel')).toHaveLength(tilt === 0 ? 0 : 1)
    // A trapezium with a wedge of thickness × thickness tan t / 2 off its upper edge.
    const { lengthMm } = support.blank
    const [t, a] = [tilt * DEG, shape.rakeRad]
    const whole = (lengthMm - 60 * Math.tan(a)) * 60 * 19
    const wedge = (19 * 19 * Math.tan(t)) / 2
    const wedgeAt = lengthMm - 2 * Math.tan(a) * (60 - (19 * Math.tan(t)) / 3)
    expect(massProperties(support).volumeMm3).toBeCloseTo(whole - wedge * wedgeAt, 4)
  })
})
