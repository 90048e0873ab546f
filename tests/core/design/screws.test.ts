import { describe, expect, it } from 'vitest'
import type { Part, ScrewAxis } from '#lib/core/design/model'
import { gripMm, leadHoleMm, screwFaults, screwHoles, shankMm } from '#lib/core/design/screws'
import { frameFromYZ } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

const slab = (id: string, z: number, thicknessMm: number, x = 0): Part => ({
  id,
  name: id,
  kind: 'slab',
  blank: { lengthMm: 100, widthMm: 40, thicknessMm },
  operations: [],
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: frameFromYZ([x, 0, z], [0, 1, 0], [0, 0, 1]),
})
const screw = (id: string, head: Vec3, lengthMm: number, shank = 4): ScrewAxis => ({
  id,
  head,
  tip: [head[0], head[1], head[2] - lengthMm],
  shankMm: shank,
  lengthMm,
  through: 'top',
  into: 'bottom',
})
const bottom = slab('bottom', 0, 40)
const top = slab('top', 40, 20)
const kinds = (screws: ScrewAxis[], parts = [top, bottom]): string[] =>
  screwFaults(parts, screws).map((fault) => fault.kind)

describe('sizes', () => {
  it('follow 0.060 in + 0.013 in × number: 0.138, 0.164, 0.190, 0.216 in for 6, 8, 10, 12 (ASME B18.6.1)', () => {
    const inches = [6, 8, 10, 12].map((n) => Number((shankMm(n) / 25.4).toFixed(3)))
    expect(inches).toEqual([0.138, 0.164, 0.19, 0.216])
  })

  it('lead holes stay under the root, about two thirds of the shank (Wood Handbook ch. 8)', () => {
    expect(leadHoleMm(4.2)).toBeCloseTo(2.52, 9)
  })
})

describe('faults', () => {
  it('finds none in a screw that holds', () => {
    expect(kinds([screw('s', [50, 20, 60], 45)])).toEqual([])
    expect(gripMm(screw('s', [50, 20, 60], 45), top)).toBeCloseTo(25, 9)
  })

  it('finds a screw that comes out at the bottom or at the side', () => {
    expect(kinds([screw('s', [50, 20, 60], 61)])).toEqual(['comesOut'])
    expect(kinds([screw('s', [50, 20, 60], 58)])).toEqual(['comesOut'])
    expect(kinds([screw('s', [50, 1, 60], 45)])).toEqual(['comesOut'])
  })

  it('finds a screw too short to hold', () => {
    expect(kinds([screw('s', [50, 20, 60], 19)])).toEqual(['noGrip'])
    expect(kinds([screw('s', [50, 20, 60], 27)])).toEqual(['noGrip'])
  })

  it('finds two that meet, and one that runs into a third piece', () => {
    const near = [screw('a', [50, 20, 60], 45), screw('b', [56, 20, 60], 45)]
    expect(kinds(near)).toEqual(['meets'])
    expect(kinds([near[0], screw('c', [57.1, 20, 60], 45)])).toEqual([])
    const third: Part = { ...slab('third', 30, 5), blank: { lengthMm: 100, widthMm: 40, thicknessMm: 5 } }
    expect(kinds([near[0]], [top, bottom, third])).toEqual(['strays'])
  })

  it('will not judge a screw whose parts are missing', () => {
    expect(() => screwFaults([top], [screw('s', [50, 20, 60], 45)])).toThrow(RangeError)
  })
})

describe('holes', () => {
  it('clear the first piece and lead into the second, on the faces that the screw enters by', () => {
    const { clearance, lead } = screwHoles(screw('s', [50, 20, 60], 45), top, bottom)
    expect(clearance).toMatchObject({ face: 'faceA', diameterMm: 4, depthMm: 20, countersinkDiameterMm: 8 })
    expect(clearance.point).toEqual([50, 20, 20])
    expect(lead).toMatchObject({ face: 'faceA', depthMm: 25, purpose: 'lead' })
    expect(lead.point[2]).toBeCloseTo(40, 9)
  })
})
