import { describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { edgeLength, type Feature, featureAt, featureOfFace, measureBetween } from '#lib/core/design/measure'
import type { Model, Part } from '#lib/core/design/model'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

function modelOf(id: string, values = {}): Model {
  const built = designById(id)!.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}
const faceOf = (part: Part, name: Parameters<typeof featureOfFace>[1]): Feature => featureOfFace(part, name)!
const DEG = Math.PI / 180

const plain: Part = {
  id: 'p',
  name: 'p',
  kind: 'p',
  blank: { lengthMm: 450, widthMm: 80, thicknessMm: 20 },
  operations: [],
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: { origin: [10, 20, 30], x: [0, 1, 0], y: [-1, 0, 0], z: [0, 0, 1] },
}
const at = (x: number, y: number, z: number): Vec3 => toWorld(plain.frame, [x, y, z])

describe('what was touched', () => {
  test('the middle of a face is a face', () =>
    expect(featureAt(plain, at(200, 40, 20), 6)).toMatchObject({
      kind: 'face',
      of: { face: 'faceA' },
      normal: [0, 0, 1],
    }))
  test('near an arris it is an edge, of the full length', () => {
    const edge = featureAt(plain, at(200, 76, 20), 6)
    expect(edge).toMatchObject({ kind: 'edge' })
    expect(edgeLength(edge as Extract<Feature, { kind: 'edge' }>)).toBeCloseTo(450, 9)
  })
  test('near a corner it is the corner, exactly', () => {
    const corner = featureAt(plain, at(447, 77, 20.2), 6)!
    expect(corner.kind).toBe('corner')
    corner.at.forEach((v, i) => {
      expect(v).toBeCloseTo(at(450, 80, 20)[i], 9)
    })
  })
  test('a point in the air is nothing', () => expect(featureAt(plain, at(200, 40, 60), 6)).toBeUndefined())
})

describe('between two', () => {
  test('from end to end: 450 mm', () =>
    expect(measureBetween(faceOf(plain, 'endA'), faceOf(plain, 'endB'))).toMatchObject({
      kind: 'distance',
      value: 450,
    }))
  test('square faces: a right angle', () => {
    const m = measureBetween(faceOf(plain, 'faceA'), faceOf(plain, 'edgeA'))
    expect(m.kind).toBe('angle')
    expect(m.value).toBeCloseTo(Math.PI / 2, 12)
  })
  test('corner to corner: the room diagonal √(450² + 80² + 20²)', () => {
    const [a, b] = [featureAt(plain, at(0, 0, 0), 1)!, featureAt(plain, at(450, 80, 20), 1)!]
    expect(measureBetween(a, b).value).toBeCloseTo(Math.hypot(450, 80, 20), 9)
  })
  test('a corner to a face, either way round: the same', () => {
    const [corner, face] = [featureAt(plain, at(0, 0, 20), 1)!, faceOf(plain, 'faceB')]
    expect(measureBetween(corner, face).value).toBeCloseTo(20, 9)
    expect(measureBetween(face, corner)).toMatchObject({
      kind: 'distance',
      value: measureBetween(corner, face).value,
    })
  })
  test('parallel edges: 80 mm apart', () => {
    const [a, b] = [featureAt(plain, at(200, 0, 20), 3)!, featureAt(plain, at(120, 80, 20), 3)!]
    expect([a.kind, b.kind]).toEqual(['edge', 'edge'])
    expect(measureBetween(a, b).value).toBeCloseTo(80, 9)
  })
})

describe('on a counter seat', () => {
  const model = modelOf('counterSeat')
  const rake = model.figures.find((f) => f.id === 'rake')!.value
  const leg = model.parts.find((part) => part.kind.startsWith('leg'))!

  // Against the formula of docs/methods/design.md: a leg's end is cut at the rake.
  test("a leg's end to its edge: 90° less the rake", () => {
    const m = measureBetween(featureAt(leg, endOf(leg), 1)!, faceOf(leg, 'edgeA'))
    expect(m.kind).toBe('angle')
    expect(m.value).toBeCloseTo(Math.PI / 2 - rake, 9)
  })
  test('a leg stands between floor and underside of the seat: parallel cuts, their distance the height', () => {
    const height = model.figures.find((f) => f.id === 'seatHeight')!.value
    const board = model.parts.find((part) => model.use!.surfaces.includes(part.id))!
    const ends = [endOf(leg), topOf(leg)].map((p) => featureAt(leg, p, 0.5)!)
    const m = measureBetween(ends[0], ends[1])
    expect(m.kind).toBe('distance')
    expect(m.value).toBeCloseTo(height - board.blank.thicknessMm, 6)
  })
})

/** The middle of the level cut at the foot of a leg, and at its top, in the world. */
function levelMiddles(part: Part): Vec3[] {
  const cuts = part.operations.filter((op) => op.kind === 'endCut')
  return cuts.map((cut) => {
    // On the leg's middle line, where it meets the cut.
    const { widthMm, thicknessMm } = part.blank
    const [y, z] = [widthMm / 2, thicknessMm / 2]
    const n = cut.normal
    const x = cut.point[0] + (n[1] * (cut.point[1] - y) + n[2] * (cut.point[2] - z)) / n[0]
    return toWorld(part.frame, [x, y, z])
  })
}
const endOf = (part: Part): Vec3 => levelMiddles(part).reduce((a, b) => (a[2] < b[2] ? a : b))
const topOf = (part: Part): Vec3 => levelMiddles(part).reduce((a, b) => (a[2] > b[2] ? a : b))

test('between raked legs of one frame: twice the rake', () => {
  const model = modelOf('counterSeat', {})
  const rake = model.figures.find((f) => f.id === 'rake')!.value
  const legs = model.parts.filter((part) => part.kind.startsWith('leg') && (part.unit ?? 1) === 1)
  const edges = legs.map((leg) => faceOf(leg, 'edgeA'))
  const angles = edges.flatMap((a, i) => edges.slice(i + 1).map((b) => measureBetween(a, b)))
  const leaning = angles.filter((m) => m.kind === 'angle').map((m) => m.value)
  expect(leaning.length).toBeGreaterThan(0)
  for (const value of leaning) expect(value / DEG).toBeCloseTo((2 * rake) / DEG, 9)
})
