/**
 * One side of a part alone, looked at square: what is seen and hidden, its holes, and where its corners lie. mm, in
 * the part's own frame. Sides follow one another as the part is rolled about its grain, so that end A stays on the
 * left: face A, edge B, face B, edge A. Corners and shoulders come from formulas, lines from the mesh.
 * Tests: tests/core/design/drawing/draw-part.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { add, cross, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { EndCut, FaceName, Hole, Notch, Part } from '../model'
import { outwardNormal } from '../part-body'
import { notchPlanes } from '../part-shape'
import type { PlacedMesh } from '../part-solid'
import { type Bounds2, boundsOf, type DrawnLine, project, type ViewAxes } from './drawing'
import { seenLines } from './hidden-lines'

export type LongFace = 'faceA' | 'edgeB' | 'faceB' | 'edgeA'
export type EndFace = 'endA' | 'endB'

/** As the part is rolled towards the reader. */
export const ROLL: readonly LongFace[] = ['faceA', 'edgeB', 'faceB', 'edgeA']

const ALONG: Vec3 = [1, 0, 0]
const OWN_FRAME = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const

export const isLong = (face: FaceName): face is LongFace => face !== 'endA' && face !== 'endB'

/** Grain to the right; up is what stood behind before the part was rolled here. */
export const longAxes = (face: LongFace): ViewAxes => {
  const towards = outwardNormal(face)
  return { right: ALONG, up: cross(towards, ALONG), towards }
}

/** An end, upright as the main view is. */
export const endAxes = (end: EndFace, main: LongFace): ViewAxes => {
  const { up } = longAxes(main)
  const towards = outwardNormal(end)
  return { right: cross(up, towards), up, towards }
}

const sizeOf = ({ blank }: Part): Vec3 => [blank.lengthMm, blank.widthMm, blank.thicknessMm]

/** The place of the blank's surface furthest along a direction that is one of its axes, from its middle. */
function reach(part: Part, way: Vec3): Vec3 {
  const half = scale(sizeOf(part), 0.5)
  const out = Math.abs(dot(way, half))
  return scale(way, out)
}

/** An arris of a long face, as a point of its line: at the top or the bottom of the view. */
export function arrisOf(part: Part, face: LongFace, border: 'top' | 'bottom'): Vec3 {
  const { up, towards } = longAxes(face)
  const middle = scale(sizeOf(part), 0.5)
  const aside = scale(up, border === 'top' ? 1 : -1)
  return add(middle, add(reach(part, towards), reach(part, aside)))
}

const isEndCut = (op: Part['operations'][number]): op is EndCut => op.kind === 'endCut'

/** Where a plane meets the line along the grain through a point. */
const alongAt = ({ point, normal }: { point: Vec3; normal: Vec3 }, at: Vec3): number =>
  point[0] - (normal[1] * (at[1] - point[1]) + normal[2] * (at[2] - point[2])) / normal[0]

/** Where an end lies on the line along the grain through a point. @example endAt(squarePart, 'endB', [0, 0, 0]) //=> 600 */
export function endAt(part: Part, end: EndFace, at: Vec3): number {
  const cuts = part.operations.filter(isEndCut).filter((cut) => cut.end === end)
  const places = cuts.map((cut) => alongAt(cut, at))
  return end === 'endA' ? Math.max(0, ...places) : Math.min(part.blank.lengthMm, ...places)
}

export type Stretch = readonly [number, number]

/** From end A to end B along an arris. */
export const spanOf = (part: Part, arris: Vec3): Stretch => [
  endAt(part, 'endA', arris),
  endAt(part, 'endB', arris),
]

/** Where the shoulders of a notch cross an arris of its face, those that lie on the wood, from end A on. */
export function shouldersAt(part: Part, notch: Notch, arris: Vec3): number[] {
  const [low, high] = spanOf(part, arris)
  return notchPlanes(part.blank, notch)
    .filter(({ role }) => role === 'shoulder')
    .map((plane) => alongAt(plane, arris))
    .filter((x) => x > low + 0.01 && x < high - 0.01)
    .sort((a, b) => a - b)
}

export const notchesOn = (part: Part, face: FaceName): Notch[] =>
  part.operations.filter((op): op is Notch => op.kind === 'notch' && op.face === face)
export const holesOf = (part: Part): Hole[] => part.operations.filter((op): op is Hole => op.kind === 'hole')
export const holesOn = (part: Part, face: FaceName): Hole[] =>
  holesOf(part).filter((hole) => hole.face === face)

/** How far a hole leans from square to its face, rad. */
export const leanOf = (hole: Hole): number =>
  Math.acos(Math.min(1, Math.max(-1, -dot(hole.direction, outwardNormal(hole.face)))))

const BELOW_THIS_ROUND = 48

/** A circle as a closed line of many sides; its corners lie on it. */
export const circleLine = ([x, y]: Vec2, radiusMm: number, sides = BELOW_THIS_ROUND): Vec2[] =>
  Array.from({ length: sides + 1 }, (_, i): Vec2 => {
    const turn = (2 * Math.PI * (i % sides)) / sides
    return [x + radiusMm * Math.cos(turn), y + radiusMm * Math.sin(turn)]
  })

/** A hole seen from its mouth: its circle, and that of its countersink. */
function mouth(hole: Hole, axes: ViewAxes): DrawnLine[] {
  const at = project(axes, hole.point)
  const radii = [hole.diameterMm, hole.countersinkDiameterMm].flatMap((d) => (d === undefined ? [] : [d / 2]))
  return radii.map((radius) => ({ kind: 'visible', points: circleLine(at, radius) }))
}

/** A hole seen from the side: its axis, as deep as it goes. */
function axisLine(hole: Hole, axes: ViewAxes): DrawnLine {
  const bottom = add(hole.point, scale(hole.direction, hole.depthMm))
  return { kind: 'axis', points: [project(axes, hole.point), project(axes, bottom)] }
}

/** Chain lines through rows and columns of holes, out to the left and the lower border, where they are measured. */
function centreLines(holes: readonly Hole[], axes: ViewAxes, object: Bounds2): DrawnLine[] {
  const places = holes.map((hole) => ({ at: project(axes, hole.point), arm: 0.8 * widest(hole) }))
  return places.flatMap(({ at: [x, y], arm }): DrawnLine[] => {
    const row = places.filter((other) => Math.abs(other.at[1] - y) < 0.005)
    const column = places.filter((other) => Math.abs(other.at[0] - x) < 0.005)
    const right = Math.max(...row.map((other) => other.at[0] + other.arm))
    const top = Math.max(...column.map((other) => other.at[1] + other.arm))
    const lines: DrawnLine[] = []
    // The last of a row and of a column draws it.
    if (x + arm >= right)
      lines.push({
        kind: 'axis',
        points: [
          [Math.min(object.min[0], x - arm), y],
          [right, y],
        ],
      })
    if (y + arm >= top)
      lines.push({
        kind: 'axis',
        points: [
          [x, Math.min(object.min[1], y - arm)],
          [x, top],
        ],
      })
    return lines
  })
}

const widest = ({ diameterMm, countersinkDiameterMm }: Hole): number =>
  Math.max(diameterMm, countersinkDiameterMm ?? 0)

export interface SideView {
  readonly axes: ViewAxes
  readonly object: Bounds2
  readonly lines: readonly DrawnLine[]
  readonly holes: readonly Hole[]
}

/** A side of a part, without dimensions. The mesh is that of the part without its holes. */
export function sideView({ part, mesh }: PlacedMesh, face: FaceName, axes: ViewAxes): SideView {
  const seen = seenLines([{ part: { ...part, frame: OWN_FRAME }, mesh }], axes)
  const object = boundsOf([...seen.visible, ...seen.hidden].flat())
  const holes = holesOn(part, face)
  const isAcross = (hole: Hole): boolean => Math.abs(dot(outwardNormal(hole.face), axes.towards)) < 0.5
  return {
    axes,
    object,
    holes,
    lines: [
      ...seen.hidden.map((points): DrawnLine => ({ kind: 'hidden', points })),
      ...holesOf(part)
        .filter(isAcross)
        .map((hole) => axisLine(hole, axes)),
      ...centreLines(holes, axes, object),
      ...seen.visible.map((points): DrawnLine => ({ kind: 'visible', points })),
      ...holes.flatMap((hole) => mouth(hole, axes)),
    ],
  }
}

/** A point of an arris at a place along the grain, as a view sees it. */
export const onArris = (axes: ViewAxes, arris: Vec3, along: number): Vec2 =>
  project(axes, add(sub(arris, [arris[0], 0, 0]), [along, 0, 0]))
