import { beforeAll, describe, expect, it } from 'vitest'
import type { EndCut, Hole, Notch, Operation, Part } from '#lib/core/design/model'
import { depthInWood, flatFaces, massProperties, wallsOf, woodAlong } from '#lib/core/design/part-shape'
import { meshesOf, partSolid } from '#lib/core/design/part-solid'
import { area } from '#lib/core/geometry/polygon2'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const part = (operations: readonly Operation[], size = [600, 50, 40] as const): Part => ({
  id: 'p',
  name: 'p',
  kind: 'p',
  blank: { lengthMm: size[0], widthMm: size[1], thicknessMm: size[2] },
  operations,
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
})

const endCut = (end: EndCut['end'], x: number, mitreRad: number, bevelRad = 0): EndCut => {
  const way = end === 'endB' ? 1 : -1
  const [m, b] = [mitreRad, bevelRad]
  const normal = [way * Math.cos(m) * Math.cos(b), way * Math.sin(m) * Math.cos(b), Math.sin(b)] as const
  return { kind: 'endCut', id: end, end, point: [x, 0, 0], normal, mitreRad: m, bevelRad: b }
}
const notch = (more: Partial<Notch>): Notch => ({
  kind: 'notch',
  id: 'n',
  face: 'faceA',
  alongMm: 300,
  widthMm: 50,
  depthMm: 19,
  skewRad: 0,
  ...more,
})

const volumeBySolid = (p: Part, holes = false): number => {
  const solid = partSolid(kernel, p, holes)
  const volume = solid.volumeMm3()
  solid.free()
  return volume
}
const within = (found: number, expected: number): void => {
  expect(Math.abs(found / expected - 1)).toBeLessThan(1e-6)
}
const RAD = Math.PI / 180

describe('volumes by formula, by flat faces and by solid agree to one in a million', () => {
  const cases: readonly [string, Part, number][] = [
    ['plain blank', part([]), 600 * 50 * 40],
    // A parallelogram's area is its side times its height, whatever the angle (Euclid I.35).
    ['parallel mitres', part([endCut('endA', 0, -8 * RAD), endCut('endB', 550, -8 * RAD)]), 550 * 50 * 40],
    [
      'a trapezium: half the sum of the parallel sides times the height',
      part([endCut('endA', 0, -10 * RAD), endCut('endB', 600, 10 * RAD)]),
      ((600 + (600 - 2 * 50 * Math.tan(10 * RAD))) / 2) * 50 * 40,
    ],
    [
      'bevelled end: a wedge of half length × width × thickness off',
      part([endCut('endB', 600, 0, 30 * RAD)]),
      600 * 50 * 40 - (50 * 40 * 40 * Math.tan(30 * RAD)) / 2,
    ],
    ['square notch', part([notch({})]), 600 * 50 * 40 - 50 * 50 * 19],
    // Width square to the channel; along the grain it is w / cos, so the area is that times the board's width.
    ['skewed notch', part([notch({ skewRad: 8 * RAD })]), 600 * 50 * 40 - (50 / Math.cos(8 * RAD)) * 50 * 19],
    [
      'notch on the other face',
      part([notch({ face: 'faceB', skewRad: -0.3 })]),
      600 * 50 * 40 - (50 / Math.cos(0.3)) * 50 * 19,
    ],
    [
      'notch on an edge',
      part([notch({ face: 'edgeB', widthMm: 30, depthMm: 12 })]),
      600 * 50 * 40 - 30 * 12 * 40,
    ],
    [
      'skewed notch on the other edge',
      part([notch({ face: 'edgeA', skewRad: 0.2, depthMm: 12 })]),
      600 * 50 * 40 - (50 / Math.cos(0.2)) * 12 * 40,
    ],
    [
      'crossing notches on both faces share no wood',
      part([notch({}), notch({ id: 'm', face: 'faceB', depthMm: 10 })]),
      600 * 50 * 40 - 50 * 50 * 29,
    ],
    [
      'two notches that overlap are counted once',
      part([notch({}), notch({ id: 'm', alongMm: 320 })]),
      600 * 50 * 40 - 70 * 50 * 19,
    ],
    [
      'notch that runs out through a mitred end',
      part([
        endCut('endB', 550, 8 * RAD),
        notch({
          skewRad: 8 * RAD,
          widthMm: 40,
          alongMm: 550 - 25 * Math.tan(8 * RAD) - 20 / Math.cos(8 * RAD),
        }),
      ]),
      (550 - 25 * Math.tan(8 * RAD)) * 50 * 40 - (40 / Math.cos(8 * RAD)) * 50 * 19,
    ],
  ]
  it.each(cases)('%s', (_, p, expected) => {
    within(massProperties(p).volumeMm3, expected)
    within(volumeBySolid(p), expected)
  })

  it('bores holes as round as their formula: cylinder, and frustum of a 90° countersink', () => {
    const hole: Hole = {
      kind: 'hole',
      id: 'h',
      face: 'faceA',
      point: [300, 25, 40],
      direction: [0, 0, -1],
      diameterMm: 5,
      depthMm: 40,
      countersinkDiameterMm: 10,
      purpose: 'clearance',
    }
    const cylinder = Math.PI * 2.5 ** 2
    // Frustum: πh(R² + Rr + r²)/3.
    const sink = (Math.PI * 2.5 * (25 + 12.5 + 6.25)) / 3
    const p = part([hole], [600, 50, 40])
    const taken = 600 * 50 * 40 - volumeBySolid(p, true)
    expect(taken / (cylinder * 37.5 + sink)).toBeCloseTo(1, 5)
    within(volumeBySolid(p, true), 600 * 50 * 40 - cylinder * 37.5 - sink)
    within(volumeBySolid(p, false), 600 * 50 * 40)
    const blind = part([{ ...hole, depthMm: 20, countersinkDiameterMm: undefined }])
    within(volumeBySolid(blind, true), 600 * 50 * 40 - cylinder * 20)
  })

  it('finds the centre of gravity of an L: two rectangles by hand', () => {
    // 600 × 50 × 40 with 50 × 50 × 20 off at the end: (600·50·40·300 − 50·50·20·575) / volume
    const p = part([notch({ alongMm: 575, depthMm: 20 })])
    const { centre } = massProperties(p)
    expect(centre[0]).toBeCloseTo((1_200_000 * 300 - 50_000 * 575) / 1_150_000, 9)
    expect(centre[1]).toBeCloseTo(25, 9)
    expect(centre[2]).toBeCloseTo((1_200_000 * 20 - 50_000 * 30) / 1_150_000, 9)
  })
})

describe('flat faces', () => {
  it('closes: the outward areas of all faces add up to nothing (Minkowski)', () => {
    const p = part([
      endCut('endA', 20, -8 * RAD),
      endCut('endB', 580, 12 * RAD, 5 * RAD),
      notch({ skewRad: 0.2 }),
      notch({ id: 'm', face: 'edgeB', alongMm: 320, depthMm: 15 }),
    ])
    const sum = [0, 0, 0]
    for (const { frame, pieces } of flatFaces(p))
      for (const piece of pieces) for (let i = 0; i < 3; i++) sum[i] += frame.z[i] * area(piece)
    for (const value of sum) expect(Math.abs(value)).toBeLessThan(1e-6)
    within(volumeBySolid(p), massProperties(p).volumeMm3)
  })

  it('knows wood from air', () => {
    const walls = wallsOf(part([notch({})]))
    expect(depthInWood(walls, [100, 25, 20])).toBe(20)
    expect(depthInWood(walls, [300, 25, 30])).toBe(-9)
    expect(depthInWood(walls, [300, 25, 18])).toBe(3)
    expect(depthInWood(walls, [700, 25, 20])).toBe(-100)
    const along = woodAlong(walls, [0, 25, 30], [600, 25, 30])
    expect(along.map(([a, b]) => [a * 600, b * 600])).toEqual([
      [0, 275],
      [325, 600],
    ])
    expect(woodAlong(walls, [0, 60, 30], [600, 60, 30])).toEqual([])
  })
})

describe('meshes', () => {
  it('are closed: every edge is walked once each way', () => {
    const [{ mesh }] = meshesOf(kernel, [part([endCut('endB', 580, 0.2), notch({ skewRad: 0.1 })])])
    const walked = new Set<string>()
    for (let t = 0; t < mesh.triangles.length; t += 3)
      for (let k = 0; k < 3; k++) {
        const edge = `${mesh.triangles[t + k]}-${mesh.triangles[t + ((k + 1) % 3)]}`
        expect(walked.has(edge)).toBe(false)
        walked.add(edge)
      }
    for (const edge of walked) expect(walked.has(edge.split('-').reverse().join('-'))).toBe(true)
    expect(walked.size).toBeGreaterThan(0)
  })

  it('are shared by parts of one shape, whatever they are called', () => {
    const two = [part([notch({})]), { ...part([notch({ id: 'other', jointId: 'j' })]), id: 'q' }]
    const [a, b] = meshesOf(kernel, two)
    expect(a.mesh).toBe(b.mesh)
    const [c, d] = meshesOf(kernel, [part([notch({})]), part([notch({ depthMm: 18 })])])
    expect(c.mesh).not.toBe(d.mesh)
  })
})
