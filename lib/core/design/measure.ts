/**
 * Measuring on a model: a touched point becomes a corner, an edge or a face of a part, and two of them become a
 * distance or an angle. Exact from the planes of the parts, never from a mesh. mm, rad, world coordinates.
 * Not measured: curves (holes, rounded edges); the flat faces beside them count. Tests: tests/core/design/measure.test.ts
 */
import { directionToWorld, type Frame, toLocal, toWorld } from '#lib/core/geometry/frame'
import { outlineOf, type Segment2 } from '#lib/core/geometry/outline2'
import { distanceToSegment, isPointInPolygon, type Vec2 } from '#lib/core/geometry/polygon2'
import { add, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { FaceName, Part } from './model'
import { type FlatFace, flatFaces } from './part-shape'

export type FaceOf = FlatFace['of']

/** What of a part is measured, and where it was touched. */
export type Feature =
  | {
      readonly kind: 'face'
      readonly partId: string
      readonly of: FaceOf
      readonly at: Vec3
      readonly normal: Vec3
    }
  | {
      readonly kind: 'edge'
      readonly partId: string
      readonly at: Vec3
      readonly from: Vec3
      readonly to: Vec3
    }
  | { readonly kind: 'corner'; readonly partId: string; readonly at: Vec3 }

/** Between two features: the line that is measured, and what it measures. */
export interface Measurement {
  readonly kind: 'distance' | 'angle'
  /** mm, or rad from 0 to a right angle. */
  readonly value: number
  readonly from: Vec3
  readonly to: Vec3
}

/** Directions turned by less than this, in rad, are parallel: a micrometre and a half over a metre. */
const PARALLEL_RAD = 1.5e-6
/** A touched point lies this near to a face, in mm; meshes round. */
const ON_FACE_MM = 0.5

const inWorld = (part: Part, frame: Frame): Frame => ({
  origin: toWorld(part.frame, frame.origin),
  x: directionToWorld(part.frame, frame.x),
  y: directionToWorld(part.frame, frame.y),
  z: directionToWorld(part.frame, frame.z),
})

interface Placed {
  readonly of: FaceOf
  readonly frame: Frame
  readonly pieces: FlatFace['pieces']
}

const placedFaces = (part: Part, faces: readonly FlatFace[]): Placed[] =>
  faces.map(({ of, frame, pieces }) => ({ of, frame: inWorld(part, frame), pieces }))

/** How far a point lies from a face: off its plane, or beside it. */
function awayFrom({ frame, pieces }: Placed, point: Vec3): number {
  const [u, v, w] = toLocal(frame, point)
  const isOver = pieces.some((piece) => isPointInPolygon(piece, [u, v], ON_FACE_MM))
  return isOver ? Math.abs(w) : Number.POSITIVE_INFINITY
}

/** Facets stand for a rounded edge; they are no faces to measure from. */
const isCurved = (part: Part, of: FaceOf): boolean =>
  'easedId' in of && part.operations.some((op) => op.kind === 'roundOver' && op.id === of.easedId)

const distance2 = ([a, b]: Vec2, [c, d]: Vec2): number => Math.hypot(a - c, b - d)

/**
 * The feature of a part at a touched point: a corner within reach before an edge within reach before the face.
 * @param point world coordinates, on the part's surface or within half a millimetre of it
 * @param reachMm how near an edge must be to be meant
 * @returns undefined if no flat face lies there
 */
export function featureAt(
  part: Part,
  point: Vec3,
  reachMm: number,
  faces: readonly FlatFace[] = flatFaces(part),
): Feature | undefined {
  const placed = placedFaces(part, faces).map((face) => ({ face, away: awayFrom(face, point) }))
  const nearest = placed.reduce((best, next) => (next.away < best.away ? next : best))
  if (!(nearest.away <= ON_FACE_MM) || isCurved(part, nearest.face.of)) return undefined
  const { face } = nearest
  const [u, v] = toLocal(face.frame, point)
  const at: Vec2 = [u, v]
  const outline = outlineOf(face.pieces)
  const inSpace = ([x, y]: Vec2): Vec3 => toWorld(face.frame, [x, y, 0])
  const partId = part.id
  const corner = outline
    .flat()
    .reduce((best, next) => (distance2(at, next) < distance2(at, best) ? next : best))
  if (distance2(at, corner) <= reachMm) return { kind: 'corner', partId, at: inSpace(corner) }
  const farFrom = ([p, q]: Segment2): number => distanceToSegment(at, p, q)
  const edge = outline.reduce((best, next) => (farFrom(next) < farFrom(best) ? next : best))
  if (farFrom(edge) <= reachMm) {
    const [from, to] = [inSpace(edge[0]), inSpace(edge[1])]
    return { kind: 'edge', partId, from, to, at: footOnLine(point, from, unit(sub(to, from))) }
  }
  return { kind: 'face', partId, of: face.of, at: inSpace(at), normal: face.frame.z }
}

/** A face of the blank as a feature, touched in its middle; undefined where cuts have left none of it. */
export function featureOfFace(
  part: Part,
  name: FaceName,
  faces: readonly FlatFace[] = flatFaces(part),
): Feature | undefined {
  const face = placedFaces(part, faces).find(({ of }) => 'face' in of && of.face === name)
  if (face === undefined) return undefined
  const corners = face.pieces.flat()
  const middle = [0, 1].map((i) => corners.reduce((sum, p) => sum + p[i], 0) / corners.length)
  return {
    kind: 'face',
    partId: part.id,
    of: face.of,
    at: toWorld(face.frame, [middle[0], middle[1], 0]),
    normal: face.frame.z,
  }
}

const footOnLine = (p: Vec3, from: Vec3, way: Vec3): Vec3 => add(from, scale(way, dot(sub(p, from), way)))
const footOnPlane = (p: Vec3, at: Vec3, normal: Vec3): Vec3 => sub(p, scale(normal, dot(normal, sub(p, at))))

const distanceFrom = (from: Vec3, to: Vec3): Measurement => ({
  kind: 'distance',
  value: length(sub(to, from)),
  from,
  to,
})

/** The angle between two directions, whichever way they point: 0 to a right angle. */
function between(a: Vec3, b: Vec3): number {
  const cos = Math.min(1, Math.abs(dot(a, b)))
  // Near to parallel the sine is the better measure.
  const across = sub(a, scale(b, dot(a, b)))
  return cos > 0.9 ? Math.asin(Math.min(1, length(across))) : Math.acos(cos)
}

type Face = Extract<Feature, { kind: 'face' }>
type Edge = Extract<Feature, { kind: 'edge' }>
const wayOf = ({ from, to }: Edge): Vec3 => unit(sub(to, from))

const angleBetween = (value: number, a: Feature, b: Feature): Measurement => ({
  kind: 'angle',
  value,
  from: a.at,
  to: b.at,
})

function faceToFace(a: Face, b: Face): Measurement {
  const turn = between(a.normal, b.normal)
  if (turn > PARALLEL_RAD) return angleBetween(turn, a, b)
  return distanceFrom(a.at, footOnPlane(a.at, b.at, b.normal))
}

function faceToEdge(a: Face, b: Edge): Measurement {
  const turn = Math.PI / 2 - between(a.normal, wayOf(b))
  if (turn > PARALLEL_RAD) return angleBetween(turn, a, b)
  return distanceFrom(footOnPlane(b.at, a.at, a.normal), b.at)
}

function edgeToEdge(a: Edge, b: Edge): Measurement {
  const turn = between(wayOf(a), wayOf(b))
  if (turn > PARALLEL_RAD) return angleBetween(turn, a, b)
  return distanceFrom(a.at, footOnLine(a.at, b.from, wayOf(b)))
}

/**
 * Faces, edges and corners to one another: the distance if they are parallel or one is a corner, else the angle.
 * A distance to a face or an edge is taken square to its plane or line, which may reach past its border.
 * @example measureBetween(corner([0, 0, 0]), corner([3, 4, 0])).value //=> 5
 */
export function measureBetween(a: Feature, b: Feature): Measurement {
  if (a.kind === 'corner') {
    if (b.kind === 'corner') return distanceFrom(a.at, b.at)
    if (b.kind === 'edge') return distanceFrom(a.at, footOnLine(a.at, b.from, wayOf(b)))
    return distanceFrom(a.at, footOnPlane(a.at, b.at, b.normal))
  }
  if (b.kind === 'corner') return turned(measureBetween(b, a))
  if (a.kind === 'face') return b.kind === 'face' ? faceToFace(a, b) : faceToEdge(a, b)
  return b.kind === 'face' ? turned(faceToEdge(b, a)) : edgeToEdge(a, b)
}

const turned = (m: Measurement): Measurement => ({ ...m, from: m.to, to: m.from })

/** mm. @example edgeLength({ kind: 'edge', from: [0, 0, 0], to: [3, 4, 0], … }) //=> 5 */
export const edgeLength = ({ from, to }: Edge): number => length(sub(to, from))
