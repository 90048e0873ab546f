/**
 * Published and trade geometry on whole parts, cut by planes as a design cuts them, not on the formulas alone: angles to
 * 0.001°, lengths to 0.01 mm, volumes to one in a million. Each case says where its number is from.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import { bodySizeMm } from '#lib/core/design/body-sizes'
import { resultantRad, splayedLengthMm } from '#lib/core/design/compound-angle'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import type { EndCut, Part } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { partSolid } from '#lib/core/design/part-solid'
import { cutAlong, notchFor, placedPart, withOperations } from '#lib/core/design/placed-part'
import { type Frame, frameFromYZ, toWorld } from '#lib/core/geometry/frame'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { cross, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { figureOf, modelOf } from './ask-design'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const DEG = Math.PI / 180
const name = (id: string) => ({ id, name: id, kind: id, look: { finish: 'clear', species: 'any' } })
const cutsOf = (part: Part): EndCut[] => part.operations.filter((op): op is EndCut => op.kind === 'endCut')

/** Corners of the solid, in the world. */
function cornersOf(part: Part): Vec3[] {
  const solid = partSolid(kernel, part)
  const { positions: p } = solid.mesh()
  solid.free()
  return Array.from({ length: p.length / 3 }, (_, i) =>
    toWorld(part.frame, [p[3 * i], p[3 * i + 1], p[3 * i + 2]]),
  )
}

describe('sides that lean and meet in mitres: tan M = sin t tan(180/n), sin B = cos t sin(180/n)', () => {
  // Constructed, and verified by vectors: 4 sides at 5° 4.981° and 44.782°; 6 at 10° 5.725° and 29.499°; a square box 45°.
  it.each([
    [4, 5, 4.981, 44.782],
    [6, 10, 5.725, 29.499],
    [4, 0, 0, 45],
    [8, 15, 6.119, 21.694],
  ])(
    '%d sides leaning %d°: mitre %d°, bevel %d°, and two of them meet without a gap',
    (sides, lean, mitre, bevel) => {
      const [t, corner] = [lean * DEG, Math.PI / sides]
      // A side runs along x, its face looks out to -y and up; its ends lie in the upright planes that halve the corners.
      const out: Vec3 = [0, -Math.cos(t), -Math.sin(t)]
      const up: Vec3 = [0, -Math.sin(t), Math.cos(t)]
      const half = 200
      const frame: Frame = frameFromYZ([-2 * half, -half, 0], up, out)
      // The plane through the middle of the box and this corner.
      const plane = (way: 1 | -1): Vec3 => [way * Math.cos(corner), Math.sin(corner), 0]
      const blank = { lengthMm: 4 * half, widthMm: 100, thicknessMm: 12 }
      const side = placedPart(name('side'), blank, frame, [
        cutAlong(frame, 'endA', [0, 0, 0], plane(-1)),
        cutAlong(frame, 'endB', [0, 0, 0], plane(1)),
      ])
      for (const cut of cutsOf(side)) {
        expect(Math.abs(cut.mitreRad) / DEG).toBeCloseTo(mitre, 3)
        expect(Math.abs(cut.bevelRad) / DEG).toBeCloseTo(bevel, 3)
      }
      // Every corner of its right end lies in the plane that halves the corner: its neighbour's mirror image fits it.
      const right = cornersOf(side).filter((p) => p[0] > 0)
      for (const p of right) expect(Math.abs(dot(plane(1), p))).toBeLessThan(0.01)
    },
  )
})

describe('legs that lean', () => {
  // L = h / cos a: 610 mm at 5° is 612.33 mm; h sqrt(1 + tan² a + tan² b) with both leans (plane trigonometry).
  it.each([
    [5, 0, 612.33],
    [5, 3, 613.16],
    [15, 10, 640.61],
  ])(
    '610 mm high, raked %d° and splayed %d°: %d mm along its grain, level at both ends',
    (rake, splay, along) => {
      const axis = unit([Math.tan(rake * DEG), Math.tan(splay * DEG), 1])
      const y = unit(cross([0, 0, 1], axis))
      const z = cross(axis, y)
      const start = scale(axis, -60)
      const frame: Frame = { origin: start, x: axis, y, z }
      const leg = placedPart(name('leg'), { lengthMm: 800, widthMm: 40, thicknessMm: 30 }, frame, [
        cutAlong(frame, 'endA', [0, 0, 0], [0, 0, -1]),
        cutAlong(frame, 'endB', [0, 0, 610], [0, 0, 1]),
      ])
      const corners = cornersOf(leg)
      const [feet, tops] = [corners.filter((p) => p[2] < 305), corners.filter((p) => p[2] > 305)]
      for (const p of feet) expect(Math.abs(p[2])).toBeLessThan(0.01)
      for (const p of tops) expect(Math.abs(p[2] - 610)).toBeLessThan(0.01)
      // Each arris runs along the grain from floor to top.
      const foot = feet[0]
      const found = Math.min(...tops.map((p) => Math.abs(length(sub(p, foot)) - along)))
      expect(found).toBeLessThan(0.01)
      expect(splayedLengthMm(610, rake * DEG, splay * DEG)).toBeCloseTo(along, 2)
      const leans = Math.acos(axis[2]) / DEG
      expect(resultantRad(rake * DEG, splay * DEG) / DEG).toBeCloseTo(leans, 6)
      // A prism cut by two parallel planes: section times length along the grain.
      expect(
        massProperties(leg).volumeMm3 / (40 * 30 * splayedLengthMm(610, rake * DEG, splay * DEG)),
      ).toBeCloseTo(1, 6)
    },
  )

  // Constructed: 620 mm upright at 7° stands out h tan a = 76.13 mm.
  it('620 mm at 7° stands 76.13 mm outside its top', () => {
    const [lean, up] = [7 * DEG, 620]
    const axis: Vec3 = [Math.sin(lean), 0, Math.cos(lean)]
    const frame: Frame = { origin: scale(axis, -30), x: axis, y: [0, 1, 0], z: cross(axis, [0, 1, 0]) }
    const leg = placedPart(name('leg'), { lengthMm: 720, widthMm: 40, thicknessMm: 30 }, frame, [
      cutAlong(frame, 'endA', [0, 0, 0], [0, 0, -1]),
      cutAlong(frame, 'endB', [0, 0, up], [0, 0, 1]),
    ])
    const xs = (level: number) => cornersOf(leg).flatMap((p) => (Math.abs(p[2] - level) < 0.01 ? [p[0]] : []))
    expect(Math.min(...xs(up)) - Math.min(...xs(0))).toBeCloseTo(76.13, 2)
  })
})

describe('notches', () => {
  // Flush: depth in one and depth in the other add up to the thickness of what is let in: 12 + 8 = 20.
  it('a stretcher 20 mm thick let 12 mm into a leg keeps 12 mm and gives 8', () => {
    const leg = placedPart(
      name('leg'),
      { lengthMm: 500, widthMm: 45, thicknessMm: 45 },
      {
        origin: [0, 0, 0],
        x: [0, 0, 1],
        y: [0, 1, 0],
        z: [-1, 0, 0],
      },
    )
    // Its outer face flush with the leg's face A, which looks to -x at x = -45.
    const stretcher = placedPart(
      name('stretcher'),
      { lengthMm: 300, widthMm: 40, thicknessMm: 20 },
      {
        origin: [-45, -100, 200],
        x: [0, 1, 0],
        y: [0, 0, 1],
        z: [1, 0, 0],
      },
    )
    const inLeg = { ...notchFor(leg, stretcher, { id: 'n', face: 'faceA' }) }
    expect(inLeg.depthMm).toBeCloseTo(20, 9)
    expect(inLeg.widthMm).toBeCloseTo(40, 9)
    const shared = withOperations(leg, [{ ...inLeg, depthMm: 12 }])
    const taken = massProperties(leg).volumeMm3 - massProperties(shared).volumeMm3
    expect(taken).toBeCloseTo(12 * 40 * 45, 6)
    const given = withOperations(stretcher, [
      { kind: 'notch', id: 'm', face: 'faceA', alongMm: 122.5, widthMm: 45, depthMm: 8, skewRad: 0 },
    ])
    expect(massProperties(stretcher).volumeMm3 - massProperties(given).volumeMm3).toBeCloseTo(8 * 40 * 45, 6)
  })
})

describe('seats at counters and the people who sit', () => {
  // 10 to 12 in from the underside (kitchen planning lists): 914.4 − 38 − 254…305 = 571.4…622.4 mm.
  it('a counter of 36 in with a 38 mm top takes a seat of 571.4 to 622.4 mm', () => {
    for (const [clearance, seat] of [
      [305, 571.4],
      [254, 622.4],
    ]) {
      const model = modelOf(counterSeat, {
        counterHeight: 914.4,
        counterThickness: 38,
        kneeClearance: clearance,
      })
      expect(figureOf(model, 'seatHeight')).toBeCloseTo(seat, 6)
    }
  })

  // NKBA: knee depth 18, 15, 12 in at 30, 36, 42 in of surface height.
  it.each([
    [30, 18],
    [36, 15],
    [42, 12],
  ])('a surface %d in high wants %d in of knee depth, and says so at an inch less', (heightIn, depthIn) => {
    const noticed = (kneeDepth: number) =>
      modelOf(counterSeat, { counterHeight: heightIn * 25.4, footRestHeight: 200, kneeDepth }).notices.some(
        ({ parameter }) => parameter === 'kneeDepth',
      )
    expect(noticed(depthIn * 25.4)).toBe(false)
    expect(noticed((depthIn - 1) * 25.4)).toBe(true)
  })

  // British adults 19 to 65, 5th, 50th, 95th percentile: men 395, 440, 490 mm; women 355, 400, 445 mm.
  it('the hollow of the knee, to the 5 mm that the table is printed to', () => {
    const found = (sex: 'men' | 'women') =>
      [0.05, 0.5, 0.95].map((p) => bodySizeMm('poplitealHeight', sex, p))
    found('men').forEach((mm, i) => {
      expect(Math.abs(mm - [395, 440, 490][i])).toBeLessThan(5)
    })
    found('women').forEach((mm, i) => {
      expect(Math.abs(mm - [355, 400, 445][i])).toBeLessThan(5)
    })
  })
})
