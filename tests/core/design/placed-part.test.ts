import { describe, expect, it } from 'vitest'
import type { EndCut } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { boardBetween, cutAlong, letIn, notchFor, placedPart, sharesOf } from '#lib/core/design/placed-part'
import { frameFromYZ, isRightHanded, toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

const DEG = Math.PI / 180
const named = (id: string) => ({ id, name: id, kind: id, look: { finish: 'clear', species: 'any' } })

describe('boards along the axes', () => {
  it.each<['x' | 'y' | 'z', Vec3, [number, number, number]]>([
    ['x', [0, 0, 1], [600, 90, 19]],
    ['x', [0, -1, 0], [600, 19, 90]],
    ['y', [1, 0, 0], [90, 19, 600]],
    ['z', [0, -1, 0], [19, 600, 90]],
    ['z', [-1, 0, 0], [19, 90, 600]],
  ])('grain %s, face A to %j', (grain, faceA, [length, width, thickness]) => {
    const board = boardBetween(named('b'), { min: [10, 20, 30], max: [610, 110, 49], grain, faceA })
    expect(board.blank).toEqual({ lengthMm: length, widthMm: width, thicknessMm: thickness })
    expect(isRightHanded(board.frame)).toBe(true)
    const far = toWorld(board.frame, [length, width, thickness])
    const corners = [board.frame.origin, far]
    expect([0, 1, 2].map((i) => Math.min(...corners.map((p) => p[i])))).toEqual([10, 20, 30])
    expect([0, 1, 2].map((i) => Math.max(...corners.map((p) => p[i])))).toEqual([610, 110, 49])
  })

  it('shares a width with gaps', () => {
    expect(sharesOf(400, 4, 4)).toEqual({ widthMm: 97, fromMm: [0, 101, 202, 303] })
  })
})

describe('notches from what lies in them', () => {
  // A leg raked by a, its face in the plane x = 38; a level support 38 wide, let in flush by 19.
  const rakedLeg = (a: number) => {
    const [axis, z]: Vec3[] = [
      [0, Math.sin(a), Math.cos(a)],
      [1, 0, 0],
    ]
    const y: Vec3 = [0, Math.cos(a), -Math.sin(a)]
    const x: Vec3 = [y[1] * z[2] - y[2] * z[1], y[2] * z[0] - y[0] * z[2], y[0] * z[1] - y[1] * z[0]]
    expect(x[2]).toBeCloseTo(-axis[2], 12)
    return placedPart(
      named('leg'),
      { lengthMm: 600, widthMm: 45, thicknessMm: 38 },
      frameFromYZ([0, 0, 600], y, z),
    )
  }
  const support = boardBetween(named('support'), {
    min: [19, -100, 200],
    max: [38, 200, 238],
    grain: 'y',
    faceA: [1, 0, 0],
  })

  it.each([0, 5, 8, 14])(
    'a support 38 mm wide takes w / cos a along a leg raked %d° (plane trigonometry)',
    (deg) => {
      const a = deg * DEG
      const leg = rakedLeg(a)
      const notch = notchFor(leg, support, { id: 'n', face: 'faceA' })
      expect(notch.widthMm).toBeCloseTo(38, 9)
      expect(notch.depthMm).toBeCloseTo(19, 9)
      expect(Math.abs(notch.skewRad)).toBeCloseTo(a, 12)
      const [cutLeg] = letIn([leg, support], [{ host: 'leg', guest: 'support', face: 'faceA' }])
      const gone = massProperties(leg).volumeMm3 - massProperties(cutLeg).volumeMm3
      expect(gone).toBeCloseTo((38 / Math.cos(a)) * 45 * 19, 3)
      if (deg === 5) expect(gone / 45 / 19).toBeCloseTo(38.145, 3)
    },
  )

  it('a half-lap takes half of each, from edges that face each other', () => {
    const along = boardBetween(named('along'), {
      min: [0, 90, 0],
      max: [300, 110, 60],
      grain: 'x',
      faceA: [0, -1, 0],
    })
    const across = boardBetween(named('across'), {
      min: [140, 0, 30],
      max: [160, 200, 60],
      grain: 'y',
      faceA: [1, 0, 0],
    })
    const notch = notchFor(along, across, { id: 'lap', face: 'edgeB' })
    expect(notch).toMatchObject({ widthMm: 20, depthMm: 30, alongMm: 150 })
    expect(Math.abs(notch.skewRad)).toBe(0)
  })

  it('flush lap: 12 mm out of a leg and 8 mm out of a stretcher 20 mm thick (depth in A + depth in B = thickness of B)', () => {
    const leg = boardBetween(named('leg'), {
      min: [0, 0, 0],
      max: [40, 40, 400],
      grain: 'z',
      faceA: [0, -1, 0],
    })
    const shallow = boardBetween(named('s'), {
      min: [-100, -8, 150],
      max: [200, 12, 200],
      grain: 'x',
      faceA: [0, -1, 0],
    })
    expect(notchFor(leg, shallow, { id: 'n', face: 'faceA' }).depthMm).toBeCloseTo(12, 9)
    const legBehind = boardBetween(named('l'), {
      min: [0, 4, 0],
      max: [40, 44, 400],
      grain: 'z',
      faceA: [0, -1, 0],
    })
    expect(notchFor(shallow, legBehind, { id: 'n', face: 'faceB' }).depthMm).toBeCloseTo(8, 9)
  })

  it('no notch runs along the grain', () => {
    const beside = boardBetween(named('beside'), {
      min: [0, 0, 0],
      max: [9, 9, 99],
      grain: 'z',
      faceA: [1, 0, 0],
    })
    const post = boardBetween(named('post'), {
      min: [0, 0, 0],
      max: [40, 40, 99],
      grain: 'z',
      faceA: [1, 0, 0],
    })
    expect(() => notchFor(post, beside, { id: 'n', face: 'faceA' })).toThrow(RangeError)
  })
})

describe('end cuts from planes of the world', () => {
  it('a level cut through a leg that leans a in one plane is a mitre of a', () => {
    const a = 7 * DEG
    const frame = frameFromYZ([0, 0, 0], [0, Math.cos(a), -Math.sin(a)], [-1, 0, 0])
    for (const end of ['endA', 'endB'] as const) {
      const cut: EndCut = cutAlong(frame, end, [0, 0, 300], [0, 0, end === 'endB' ? 1 : -1])
      expect(Math.abs(cut.mitreRad)).toBeCloseTo(a, 12)
      expect(Math.abs(cut.bevelRad)).toBe(0)
      expect(cut.normal[0] * (end === 'endB' ? 1 : -1)).toBeGreaterThan(0)
    }
  })
})
