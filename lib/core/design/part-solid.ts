/**
 * The solid of a part: its blank, less cut ends, edges and tapers, eased edges, notches, engraved fields and holes. mm,
 * in the part's own frame. A hole's many-sided section has the area of the round one, as a rounded edge's has (see
 * part-body.ts), so volumes agree with formulas. A notch whose shoulder lies in an end runs out through it.
 * Cost: a few boolean operations a part, and one for each facet of a rounded edge. Tests: tests/core/design/part-solid.test.ts
 */
import type { Frame } from '#lib/core/geometry/frame'
import type { Solid, SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { add, cross, dot, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { Blank, EndCut, EngravedField, Hole, Notch, Part } from './model'
import { bodyPlanes, COPLANAR_MM, FACE_NAMES, withSharpEdges } from './part-body'
import { countersinkDepthMm, depthInWood, fieldFrame, notchFrame, wallsOf } from './part-shape'

/** Sides of the polygon that stands for a circle. */
const CIRCLE_SIDES = 24
/** How far cutters run past the surface that they open. */
const BEYOND_MM = 1

/** Radius of a regular polygon with the area of a circle. */
const polygonRadius = (radiusMm: number): number => {
  const step = (2 * Math.PI) / CIRCLE_SIDES
  return radiusMm * Math.sqrt(step / Math.sin(step))
}

type End = Pick<EndCut, 'point' | 'normal'>

/** The planes of both ends: of the blank, and of the cuts that go further in. */
const endPlanes = (blank: Blank, cuts: readonly EndCut[]): End[] => [
  { point: [0, 0, 0], normal: [-1, 0, 0] },
  { point: [blank.lengthMm, 0, 0], normal: [1, 0, 0] },
  ...cuts,
]

/** True if an end lies in the plane through `point` square to `normal`. */
const isCutAt = (cuts: readonly End[], point: Vec3, normal: Vec3): boolean =>
  cuts.some(
    (cut) => dot(cut.normal, normal) > 1 - 1e-9 && Math.abs(dot(normal, sub(cut.point, point))) < COPLANAR_MM,
  )

function notchCutter(kernel: SolidKernel, blank: Blank, notch: Notch, ends: readonly End[]): Solid {
  const frame = notchFrame(blank, notch)
  const reachMm = blank.lengthMm + blank.widthMm + blank.thicknessMm
  const halfMm = notch.widthMm / 2
  const runsOut = (way: 1 | -1): boolean =>
    isCutAt(ends, add(frame.origin, scale(frame.x, way * halfMm)), scale(frame.x, way))
  const box = kernel.box(
    [-halfMm - (runsOut(-1) ? reachMm : 0), -reachMm, -notch.depthMm],
    [halfMm + (runsOut(1) ? reachMm : 0), reachMm, BEYOND_MM],
  )
  const placed = kernel.place(box, frame)
  box.free()
  return placed
}

function fieldCutter(kernel: SolidKernel, blank: Blank, field: EngravedField): Solid {
  const [u, v] = [field.lengthMm / 2, field.widthMm / 2]
  const box = kernel.box([-u, -v, -field.depthMm], [u, v, BEYOND_MM])
  const placed = kernel.place(box, fieldFrame(blank, field))
  box.free()
  return placed
}

/** A frame at `origin` whose z runs along `direction`. */
function frameAlong(origin: Vec3, direction: Vec3): Frame {
  const z = unit(direction)
  const x = unit(cross(Math.abs(z[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], z))
  return { origin, x, y: cross(z, x), z }
}

function frustumAt(kernel: SolidKernel, frame: Frame, heightMm: number, low: number, high: number): Solid {
  const upright = kernel.frustum(heightMm, polygonRadius(low), polygonRadius(high), CIRCLE_SIDES)
  const placed = kernel.place(upright, frame)
  upright.free()
  return placed
}

function holeCutters(kernel: SolidKernel, part: Part, hole: Hole): Solid[] {
  const bottom = add(hole.point, scale(hole.direction, hole.depthMm))
  const pastMm = depthInWood(wallsOf(part), bottom) <= COPLANAR_MM ? BEYOND_MM : 0
  const frame = frameAlong(sub(hole.point, scale(hole.direction, BEYOND_MM)), hole.direction)
  const radiusMm = hole.diameterMm / 2
  const bore = frustumAt(kernel, frame, hole.depthMm + BEYOND_MM + pastMm, radiusMm, radiusMm)
  const sinkMm = countersinkDepthMm(hole)
  if (sinkMm <= 0) return [bore]
  const wide = radiusMm + sinkMm + BEYOND_MM
  return [bore, frustumAt(kernel, frame, sinkMm + BEYOND_MM, wide, radiusMm)]
}

/**
 * The solid of a part, to be freed by the caller.
 * @param holes whether screw holes are bored too
 */
export function partSolid(kernel: SolidKernel, part: Part, holes = false): Solid {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const cuts = part.operations.filter((op): op is EndCut => op.kind === 'endCut')
  let solid = kernel.box([0, 0, 0], [lengthMm, widthMm, thicknessMm])
  const replace = (next: Solid): void => {
    solid.free()
    solid = next
  }
  for (const plane of bodyPlanes(part).slice(FACE_NAMES.length))
    replace(kernel.keepBelow(solid, plane.point, plane.normal))
  const ends = endPlanes(part.blank, cuts)
  const cutters = part.operations.flatMap((op) => {
    if (op.kind === 'notch') return [notchCutter(kernel, part.blank, op, ends)]
    if (op.kind === 'engravedField') return [fieldCutter(kernel, part.blank, op)]
    return op.kind === 'hole' && holes ? holeCutters(kernel, part, op) : []
  })
  if (cutters.length > 0) replace(kernel.subtract(solid, cutters))
  for (const cutter of cutters) cutter.free()
  return solid
}

/** A part's mesh in its own frame, and where it stands. Parts of one shape share one mesh. */
export interface PlacedMesh {
  readonly part: Part
  readonly mesh: SolidMesh
}

/** What makes two parts one shape: blank and operations, whatever they are called. */
const shapeKey = (part: Part): string =>
  JSON.stringify([part.blank, part.operations], (key, value) =>
    key === 'id' || key === 'jointId' ? undefined : value,
  )

/** Meshes of all parts, each shape made once. */
export function meshesOf(kernel: SolidKernel, parts: readonly Part[], holes = false): PlacedMesh[] {
  const shapes = new Map<string, SolidMesh>()
  return parts.map((part) => {
    const simple = holes ? part : { ...part, operations: part.operations.filter((op) => op.kind !== 'hole') }
    const key = shapeKey(simple)
    let mesh = shapes.get(key)
    if (mesh === undefined) {
      const solid = partSolid(kernel, part, holes)
      mesh = solid.mesh()
      solid.free()
      shapes.set(key, mesh)
    }
    return { part, mesh }
  })
}

/** Meshes as a drawing shows them: rounded edges drawn as the edges that they were, engraved fields as their outline. */
export const outlineMeshes = (kernel: SolidKernel, parts: readonly Part[]): PlacedMesh[] =>
  meshesOf(kernel, parts.map(withSharpEdges)).map((placed, i) => ({ ...placed, part: parts[i] }))
