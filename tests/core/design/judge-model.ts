/** What every model of every design must be: sound solids, no two in the same wood, standing, joined, screwed. */
import { expect } from 'vitest'
import { worldFaces } from '#lib/core/design/contact'
import type { Model, Part } from '#lib/core/design/model'
import { depthInWood, massProperties, wallsOf } from '#lib/core/design/part-shape'
import { partSolid } from '#lib/core/design/part-solid'
import { screwFaults } from '#lib/core/design/screws'
import { isRightHanded, toLocal, toWorld } from '#lib/core/geometry/frame'
import { convexHull, isPointInPolygon, type Vec2 } from '#lib/core/geometry/polygon2'
import type { Solid, SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { add, cross, dot, length, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'

/** The parts of the first of several pieces alike. */
export const firstUnit = (model: Model): Part[] =>
  model.parts.filter((part) => part.unit === undefined || part.unit === 1)

const cornersOf = (part: Part): Vec3[] =>
  worldFaces(part).flatMap(({ frame, pieces }) =>
    pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
  )

/** Every edge of a closed mesh is run along once each way. */
export function isClosed({ triangles }: SolidMesh): boolean {
  const open = new Set<string>()
  for (let i = 0; i < triangles.length; i += 3)
    for (const [a, b] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ].map(([s, e]) => [triangles[i + s], triangles[i + e]])) {
      if (open.has(`${a} ${b}`)) return false
      if (!open.delete(`${b} ${a}`)) open.add(`${a} ${b}`)
    }
  return open.size === 0
}

/** Feet level on the floor and the weight between them; a piece that hangs lies flat on its wall. */
export function judgeStanding(model: Model, parts: readonly Part[]): void {
  for (const part of parts) expect(isRightHanded(part.frame), part.id).toBe(true)
  if (model.hangs === 'wall') {
    const wallY = model.place.find(({ id }) => id === 'wall')!.min[1]
    const ys = parts.map((part) => Math.max(...cornersOf(part).map((p) => p[1])))
    for (const y of ys) expect(y).toBeLessThan(wallY + 1e-6)
    expect(ys.filter((y) => Math.abs(y - wallY) < 0.01).length).toBeGreaterThan(1)
    return
  }
  const onFloor: Vec2[] = []
  let [kg, moment]: [number, Vec3] = [0, [0, 0, 0]]
  for (const part of parts) {
    const { volumeMm3, centre } = massProperties(part)
    kg += volumeMm3
    moment = add(moment, scale(toWorld(part.frame, centre), volumeMm3))
    const corners = cornersOf(part)
    const lowest = Math.min(...corners.map((corner) => corner[2]))
    expect(lowest, part.id).toBeGreaterThan(-0.001)
    if (lowest > 3) continue
    // A foot stands on a whole face: at least three corners, each met by three faces.
    const level = corners.filter((corner) => Math.abs(corner[2]) < 0.01)
    expect(level.length, `${part.id} is level`).toBeGreaterThanOrEqual(9)
    onFloor.push(...level.map(([x, y]): Vec2 => [x, y]))
  }
  const hull = convexHull(onFloor)
  expect(hull.length).toBeGreaterThanOrEqual(3)
  expect(isPointInPolygon(hull, [moment[0] / kg, moment[1] / kg]), 'the weight lies between the feet').toBe(
    true,
  )
}

/** @returns pairs of parts that were looked at */
export function judgeSolids(kernel: SolidKernel, parts: readonly Part[]): number {
  const solids: Solid[] = parts.map((part) => {
    const own = partSolid(kernel, part)
    expect(isClosed(own.mesh()), `${part.id} is closed`).toBe(true)
    const byFormula = massProperties(part).volumeMm3
    expect(Math.abs(own.volumeMm3() / byFormula - 1), `${part.id}, volume`).toBeLessThan(1e-6)
    const placed = kernel.place(own, part.frame)
    own.free()
    return placed
  })
  const bounds = parts.map((part) => {
    const corners = cornersOf(part)
    return [0, 1, 2].map((i) => [
      Math.min(...corners.map((p) => p[i])),
      Math.max(...corners.map((p) => p[i])),
    ])
  })
  let pairs = 0
  for (let i = 0; i < parts.length; i++)
    for (let j = i + 1; j < parts.length; j++) {
      const apart = [0, 1, 2].some(
        (k) => bounds[i][k][0] > bounds[j][k][1] || bounds[j][k][0] > bounds[i][k][1],
      )
      if (apart) continue
      const shared = kernel.intersect(solids[i], solids[j])
      pairs++
      expect(shared.volumeMm3(), `${parts[i].id} and ${parts[j].id}`).toBeLessThan(0.01)
      shared.free()
    }
  for (const solid of solids) solid.free()
  return pairs
}

/** Newell: a polygon's own area, along its normal. */
const newell = (polygon: readonly Vec3[]): Vec3 =>
  polygon.reduce<Vec3>(
    (sum, p, i) => add(sum, scale(cross(p, polygon[(i + 1) % polygon.length]), 0.5)),
    [0, 0, 0],
  )

export function judgeJoints(model: Model, parts: readonly Part[]): void {
  const byId = new Map(parts.map((part) => [part.id, part]))
  const joints = model.joints.filter((joint) => byId.has(joint.a))
  const depth = (id: string, at: Vec3): number => {
    const part = byId.get(id)!
    return depthInWood(wallsOf(part), toLocal(part.frame, at))
  }
  for (const { id, a, b, contact, screws, glued } of joints) {
    const { polygon, normal, areaMm2 } = contact
    expect(areaMm2, id).toBeGreaterThanOrEqual(100)
    expect(glued || screws.length > 0, id).toBe(true)
    expect(Math.abs(length(normal) - 1)).toBeLessThan(1e-9)
    // A patch that a notch nibbles at is drawn whole: at most a twentieth more than it holds.
    const drawn = dot(newell(polygon), normal)
    expect(drawn, id).toBeGreaterThan(areaMm2 * (1 - 1e-6) - 1e-3)
    expect(drawn, id).toBeLessThan((areaMm2 * (1 + 1e-6)) / 0.95 + 1e-3)
    // A little to either side of it lies the wood of a and of b.
    const middle = scale(polygon.reduce(add, [0, 0, 0] as Vec3), 1 / polygon.length)
    const places = [middle, ...polygon.map((p) => scale(add(p, middle), 0.5))]
    const inWood = places.filter(
      (p) => depth(a, add(p, scale(normal, -0.1))) > 0.09 && depth(b, add(p, scale(normal, 0.1))) > 0.09,
    )
    expect(inWood.length, `${id}, wood on both sides`).toBeGreaterThanOrEqual(
      places.length - (drawn > areaMm2 + 1 ? 2 : 0),
    )
    for (const screw of screws) {
      expect(Math.abs(length(sub(screw.tip, screw.head)) - screw.lengthMm)).toBeLessThan(1e-9)
      expect(Math.abs(depth(screw.through, screw.head)), `${screw.id}, head on the surface`).toBeLessThan(
        1e-6,
      )
    }
  }
  const screws = joints.flatMap((joint) => joint.screws)
  expect(screwFaults(parts, screws)).toEqual([])
  judgeWhole(parts, joints)
}

/** All parts hang together, and each notch that names a joint has it. */
function judgeWhole(parts: readonly Part[], joints: Model['joints']): void {
  const seen = new Set([parts[0].id])
  for (let before = 0; before < seen.size; ) {
    before = seen.size
    for (const { a, b } of joints) if (seen.has(a) || seen.has(b)) seen.add(a).add(b)
  }
  expect(parts.filter(({ id }) => !seen.has(id)).map(({ id }) => id)).toEqual([])
  const ids = new Set(joints.map(({ id }) => id))
  for (const op of parts.flatMap((part) => part.operations))
    if (op.kind === 'notch' && op.jointId !== undefined) expect(ids.has(op.jointId), op.jointId).toBe(true)
}
