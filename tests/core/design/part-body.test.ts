/** Tapers, chamfers, rounded edges and engraved fields: lengths, angles, volumes and centres by hand, and against solids. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Operation, Part } from '#lib/core/design/model'
import { easedAreaMm2, edgesBetween, taperRad } from '#lib/core/design/part-body'
import { boredProperties, depthInWood, flatFaces, massProperties, wallsOf } from '#lib/core/design/part-shape'
import { outlineMeshes, partSolid } from '#lib/core/design/part-solid'
import { area } from '#lib/core/geometry/polygon2'
import type { SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { length, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { isClosed } from './judge-model'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const [L, W, T] = [600, 50, 40]
const part = (operations: readonly Operation[]): Part => ({
  id: 'p',
  name: 'p',
  kind: 'p',
  blank: { lengthMm: L, widthMm: W, thicknessMm: T },
  operations,
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
})
const taper = (face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB', more = {}): Operation => ({
  kind: 'taper',
  id: `taper-${face}`,
  face,
  end: 'endA',
  lengthMm: 450,
  depthMm: 12,
  ...more,
})
const round = (between: readonly [string, string], radiusMm: number): Operation =>
  ({ kind: 'roundOver', id: `round-${between}`, between, radiusMm }) as Operation
const chamfer = (between: readonly [string, string], widthMm: number): Operation =>
  ({ kind: 'chamfer', id: `chamfer-${between}`, between, widthMm }) as Operation

/** Volume and centre of gravity of a mesh: the sum of its tetrahedra from the origin. */
function ofMesh({ positions: p, triangles }: SolidMesh): { volumeMm3: number; centre: Vec3 } {
  let volume = 0
  const moment = [0, 0, 0]
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [0, 1, 2].map((i) => p[3 * triangles[t + k] + i] as number))
    const det =
      a[0] * (b[1] * c[2] - b[2] * c[1]) -
      a[1] * (b[0] * c[2] - b[2] * c[0]) +
      a[2] * (b[0] * c[1] - b[1] * c[0])
    volume += det / 6
    for (let i = 0; i < 3; i++) moment[i] += (det / 24) * (a[i] + b[i] + c[i])
  }
  return { volumeMm3: volume, centre: [moment[0] / volume, moment[1] / volume, moment[2] / volume] }
}

/** Formula and solid agree to one in a million of the part's volume and length. */
function expectSame(p: Part, holes = false): void {
  const solid = partSolid(kernel, p, holes)
  const mesh = solid.mesh()
  const found = ofMesh(mesh)
  expect(isClosed(mesh)).toBe(true)
  const formula = holes ? boredProperties(p) : massProperties(p)
  expect(Math.abs(solid.volumeMm3() / formula.volumeMm3 - 1)).toBeLessThan(1e-6)
  for (let i = 0; i < 3; i++) expect(Math.abs(found.centre[i] - formula.centre[i])).toBeLessThan(1e-6 * L)
  solid.free()
}

describe('tapers', () => {
  it('one face: a wedge of half length × depth × thickness off, its middle at a third of its length', () => {
    const p = part([taper('edgeA')])
    const wedge = (450 * 12 * T) / 2
    const { volumeMm3, centre } = massProperties(p)
    expect(volumeMm3).toBeCloseTo(L * W * T - wedge, 6)
    // Centroid of a triangle: a third from its right angle.
    expect(centre[0]).toBeCloseTo((L * W * T * 300 - wedge * 150) / (L * W * T - wedge), 9)
    expect(centre[1]).toBeCloseTo((L * W * T * 25 - wedge * 4) / (L * W * T - wedge), 9)
    expect(centre[2]).toBeCloseTo(20, 9)
    expectSame(p)
  })

  it('two faces next to each other and four: prism plus prismatoid (Simpson’s rule is exact for it)', () => {
    const bulk = (low: readonly [number, number]): number => {
      const middle = ((low[0] + W) / 2) * ((low[1] + T) / 2)
      return 150 * W * T + (450 / 6) * (low[0] * low[1] + 4 * middle + W * T)
    }
    const two = part([taper('edgeA'), taper('faceB')])
    expect(massProperties(two).volumeMm3 / bulk([38, 28])).toBeCloseTo(1, 12)
    expectSame(two)
    const four = part((['edgeA', 'edgeB', 'faceA', 'faceB'] as const).map((face) => taper(face)))
    expect(massProperties(four).volumeMm3 / bulk([26, 16])).toBeCloseTo(1, 12)
    expect(massProperties(four).centre[1]).toBeCloseTo(25, 9)
    expectSame(four)
  })

  it('slopes by atan(depth / length): 12 in 450 is 1.527°, its face 450.16 mm long (Pythagoras)', () => {
    expect((taperRad({ lengthMm: 450, depthMm: 12 }) * 180) / Math.PI).toBeCloseTo(1.5275, 4)
    const edges = edgesBetween(part([taper('edgeA')]), ['edgeA', 'faceA'])
    const lengths = edges.map((edge) => length(sub(edge.to, edge.from))).sort((a, b) => a - b)
    expect(lengths[0]).toBeCloseTo(150, 9)
    expect(lengths[1]).toBeCloseTo(Math.hypot(450, 12), 9)
  })

  it('both ends at once, and through a mitred end', () => {
    expectSame(
      part([taper('edgeB', { lengthMm: 200 }), taper('edgeB', { id: 't2', end: 'endB', lengthMm: 250 })]),
    )
    const m = 8 * (Math.PI / 180)
    const cut: Operation = {
      kind: 'endCut',
      id: 'cut-endA',
      end: 'endA',
      point: [10, 0, 0],
      normal: [-Math.cos(m), Math.sin(m), 0],
      mitreRad: -m,
      bevelRad: 0,
    }
    expectSame(part([cut, taper('edgeA'), taper('faceA')]))
  })

  it('knows the wood of a tapered leg: the foot of a 12 mm taper has no wood at 11 mm', () => {
    const walls = wallsOf(part([taper('edgeA')]))
    expect(depthInWood(walls, [0.001, 11.9, 20])).toBeLessThan(0)
    expect(depthInWood(walls, [1, 12.5, 20])).toBeGreaterThan(0)
    expect(depthInWood(walls, [500, 3, 20])).toBeCloseTo(3, 9)
  })
})

describe('eased edges', () => {
  it('take r²(1 − π/4) and w²/2 off a square edge; on any other r²(tan(f/2) − f/2) and w² sin(f)/2', () => {
    expect(easedAreaMm2({ kind: 'roundOver', radiusMm: 10 }, Math.PI / 2)).toBeCloseTo(
      100 * (1 - Math.PI / 4),
      12,
    )
    expect(easedAreaMm2({ kind: 'chamfer', widthMm: 4 }, Math.PI / 2)).toBeCloseTo(8, 12)
    // An edge of 60° (its faces turn by 120°): two kites r² tan 60° less a third of the circle.
    const taken = 100 * (Math.sqrt(3) - Math.PI / 3)
    expect(easedAreaMm2({ kind: 'roundOver', radiusMm: 10 }, (2 * Math.PI) / 3)).toBeCloseTo(taken, 10)
  })

  it.each([2, 5, 12])(
    'a long edge rounded by %d mm weighs what the true round leaves, to 1 in a million',
    (r) => {
      const p = part([round(['faceA', 'edgeB'], r)])
      const taken = r ** 2 * (1 - Math.PI / 4) * L
      expect(Math.abs(massProperties(p).volumeMm3 / (L * W * T - taken) - 1)).toBeLessThan(1e-9)
      // Middle of what is taken: the square's corner r² less the quarter round, whose middle lies 4r / 3π from its own.
      const fromFace = r - (r ** 3 / 2 - r ** 3 / 3) / (r ** 2 * (1 - Math.PI / 4))
      const z = (L * W * T * 20 - taken * (T - fromFace)) / (L * W * T - taken)
      expect(Math.abs(massProperties(p).centre[2] - z)).toBeLessThan(1e-6 * L)
      expectSame(p)
    },
  )

  it('all four long edges, and chamfers of 4 mm on both ends', () => {
    const longs = (['edgeA', 'edgeB'] as const).flatMap((e) => [
      round(['faceA', e], 6),
      round(['faceB', e], 6),
    ])
    const p = part(longs)
    expect(Math.abs(massProperties(p).volumeMm3 / (L * (W * T - 36 * (4 - Math.PI))) - 1)).toBeLessThan(1e-9)
    expectSame(p)
    expectSame(
      part([chamfer(['endA', 'faceA'], 4), chamfer(['endB', 'edgeA'], 4), chamfer(['faceA', 'edgeA'], 3)]),
    )
    const one = part([chamfer(['faceA', 'edgeA'], 4)])
    expect(massProperties(one).volumeMm3).toBeCloseTo(L * W * T - 8 * L, 6)
  })

  it('round a corner where three rounded edges meet: the true one is an eighth of a ball, r³(1 − π/6) off', () => {
    const r = 10
    const p = part([round(['faceA', 'edgeA'], r), round(['faceA', 'endA'], r), round(['edgeA', 'endA'], r)])
    const along = r ** 2 * (1 - Math.PI / 4) * (L - r + W - r + T - r)
    const trueMm3 = L * W * T - along - r ** 3 * (1 - Math.PI / 6)
    // Three quarter rounds that meet leave more wood than a ball would, and the polygon a little besides.
    const foundMm3 = massProperties(p).volumeMm3
    expect(foundMm3).toBeGreaterThan(trueMm3)
    expect(foundMm3 - trueMm3).toBeLessThan(0.1 * r ** 3)
    expectSame(p)
  })

  it('follow a taper and a bevelled end', () => {
    const p = part([
      taper('edgeA'),
      taper('faceA'),
      round(['edgeA', 'faceA'], 5),
      chamfer(['edgeB', 'faceB'], 3),
      round(['endA', 'faceA'], 2),
    ])
    expectSame(p)
    expect(massProperties(p).volumeMm3).toBeLessThan(
      massProperties(part([taper('edgeA'), taper('faceA')])).volumeMm3,
    )
  })

  it('leave the flat of a face for contact, and drawings their sharp outline', () => {
    const p = part([round(['faceA', 'edgeA'], 5), round(['faceA', 'edgeB'], 5)])
    const top = flatFaces(p).find(({ of }) => 'face' in of && of.face === 'faceA')
    expect(top!.pieces.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(L * (W - 10), 6)
    const [{ mesh }] = outlineMeshes(kernel, [p])
    expect(mesh.triangles.length / 3).toBe(12)
  })
})

describe('engraved fields and bored holes', () => {
  const field: Operation = {
    kind: 'engravedField',
    id: 'name',
    face: 'faceA',
    alongMm: 200,
    acrossMm: 5,
    lengthMm: 120,
    widthMm: 30,
    depthMm: 0.4,
  }
  it('takes length × width × depth out where it lies', () => {
    const p = part([field])
    const taken = 120 * 30 * 0.4
    const { volumeMm3, centre } = massProperties(p)
    expect(volumeMm3).toBeCloseTo(L * W * T - taken, 6)
    expect(centre[0]).toBeCloseTo((L * W * T * 300 - taken * 200) / volumeMm3, 9)
    expect(centre[1]).toBeCloseTo((L * W * T * 25 - taken * 30) / volumeMm3, 9)
    expectSame(p)
    expectSame(part([{ ...field, face: 'edgeB', widthMm: 20 } as Operation, round(['faceA', 'edgeB'], 4)]))
    const depth = depthInWood(wallsOf(p), [200, 30, 39.8])
    expect(depth).toBeCloseTo(-0.2, 9)
  })

  it('counts holes and countersinks: cylinder πr²h, frustum πh(R² + Rr + r²)/3', () => {
    const hole: Operation = {
      kind: 'hole',
      id: 'h',
      face: 'faceA',
      point: [100, 20, 40],
      direction: [0, 0, -1],
      diameterMm: 5,
      depthMm: 40,
      countersinkDiameterMm: 9,
      purpose: 'clearance',
    }
    const p = part([hole, taper('edgeB')])
    const taken = Math.PI * 2.5 ** 2 * 38 + (Math.PI * 2 * (4.5 ** 2 + 4.5 * 2.5 + 2.5 ** 2)) / 3
    expect(massProperties(p).volumeMm3 - boredProperties(p).volumeMm3).toBeCloseTo(taken, 6)
    expectSame(p, true)
  })
})
