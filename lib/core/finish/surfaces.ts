/**
 * The surface of a model as a finisher sees it: every flat face with its area, what other parts cover of it, and the
 * lines along which faces and parts meet. Exact from the planes of the parts. mm, mm2. Left out: the walls of holes;
 * rounded edges count by their facets, within 1 % of the strip that is rounded. Method: opposite faces in one plane
 * are intersected piece by piece. Tests: tests/core/finish/surfaces.test.ts
 */
import { type WorldFace, worldFaces } from '#lib/core/design/contact'
import type { Model, Part } from '#lib/core/design/model'
import { COPLANAR_MM } from '#lib/core/design/part-body'
import { type FlatFace, facesOfParts } from '#lib/core/design/part-shape'
import { toLocal, toWorld } from '#lib/core/geometry/frame'
import { type Interval, outlineOf, overlapOf } from '#lib/core/geometry/outline2'
import { area, intersectConvex, type Polygon2 } from '#lib/core/geometry/polygon2'
import { dot, length, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'

export interface Surface {
  readonly part: Part
  readonly of: FlatFace['of']
  /** World coordinates. */
  readonly normal: Vec3
  readonly areaMm2: number
  readonly isEndGrain: boolean
  readonly face: WorldFace
}

/** Where two parts touch: one of a pair of opposite faces lies on the other. */
export interface Touch {
  readonly a: Surface
  readonly b: Surface
  readonly areaMm2: number
  /** Length of its border. */
  readonly outlineMm: number
  readonly isGlued: boolean
}

/** Touches smaller than this, in mm2, are of edges. */
const LEAST_MM2 = 0.01

const areaOf = (pieces: readonly Polygon2[]): number => pieces.reduce((sum, piece) => sum + area(piece), 0)

/** Every flat face of every part. */
export function surfacesOf(model: Model): Surface[] {
  const faces = facesOfParts(model.parts)
  return model.parts.flatMap((part) => {
    const own = faces.get(part.id) ?? []
    const placed = worldFaces(part, own)
    return own.map((flat, i) => ({
      part,
      of: flat.of,
      normal: placed[i].frame.z,
      areaMm2: areaOf(flat.pieces),
      isEndGrain: Math.abs(flat.frame.z[0]) > Math.SQRT1_2,
      face: placed[i],
    }))
  })
}

/** Lowest and highest along each axis of the world. */
function boxAround(surfaces: readonly Surface[]): readonly [Vec3, Vec3] {
  const corners = surfaces.flatMap(({ face }) =>
    face.pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(face.frame, [u, v, 0]))),
  )
  const each = (pick: (...values: number[]) => number): Vec3 =>
    [0, 1, 2].map((i) => pick(...corners.map((p) => p[i]))) as unknown as Vec3
  return [each(Math.min), each(Math.max)]
}

const areNear = ([lowA, highA]: readonly [Vec3, Vec3], [lowB, highB]: readonly [Vec3, Vec3]): boolean =>
  [0, 1, 2].every((i) => lowA[i] <= highB[i] + COPLANAR_MM && lowB[i] <= highA[i] + COPLANAR_MM)

function sharedPieces({ face: a }: Surface, { face: b }: Surface): Polygon2[] {
  if (dot(a.frame.z, b.frame.z) > -1 + 1e-9) return []
  if (Math.abs(dot(a.frame.z, sub(b.frame.origin, a.frame.origin))) > COPLANAR_MM) return []
  const seen = b.pieces.map((piece) =>
    piece
      .map(([u, v]) => toLocal(a.frame, toWorld(b.frame, [u, v, 0])))
      .map(([u, v]) => [u, v] as const)
      .reverse(),
  )
  return a.pieces
    .flatMap((piece) => seen.map((other) => intersectConvex(piece, other)))
    .filter((piece) => piece.length > 2 && area(piece) > LEAST_MM2 / 100)
}

const lengthOf = (pieces: readonly Polygon2[]): number =>
  outlineOf(pieces).reduce((sum, [[a, b], [c, d]]) => sum + Math.hypot(c - a, d - b), 0)

/** Wherever faces of two parts lie on one another. */
export function touchesOf(model: Model, surfaces: readonly Surface[]): Touch[] {
  const byPart = model.parts.map((part) => surfaces.filter((surface) => surface.part === part))
  const boxes = byPart.map(boxAround)
  const glued = new Set(
    model.joints.filter((joint) => joint.glued).flatMap(({ a, b }) => [`${a} ${b}`, `${b} ${a}`]),
  )
  const touches: Touch[] = []
  byPart.forEach((own, i) => {
    byPart.slice(i + 1).forEach((others, k) => {
      if (!areNear(boxes[i], boxes[i + 1 + k])) return
      for (const a of own)
        for (const b of others) {
          const pieces = sharedPieces(a, b)
          const areaMm2 = areaOf(pieces)
          if (areaMm2 < LEAST_MM2) continue
          const isGlued = glued.has(`${a.part.id} ${b.part.id}`)
          touches.push({ a, b, areaMm2, outlineMm: lengthOf(pieces), isGlued })
        }
    })
  })
  return touches
}

/** An edge in space: a point, its direction, and where it runs along it. */
interface Line {
  readonly at: Vec3
  readonly way: Vec3
  readonly span: Interval
}

const linesOf = ({ face }: Surface): Line[] =>
  outlineOf(face.pieces).map(([p, q]) => {
    const [from, to] = [p, q].map(([u, v]) => toWorld(face.frame, [u, v, 0]))
    const along = sub(to, from)
    const size = length(along)
    return { at: from, way: scale(along, 1 / size), span: [0, size] as const }
  })

const ON_LINE_MM = 1e-4

/** How much of two edges is one; 0 if they lie on different lines. */
function sharedLength(a: Line, b: Line): number {
  const turn = dot(a.way, b.way)
  if (Math.abs(turn) < 1 - 1e-9) return 0
  const apart = sub(b.at, a.at)
  const along = dot(apart, a.way)
  if (length(sub(apart, scale(a.way, along))) > ON_LINE_MM) return 0
  const end = along + turn * b.span[1]
  return overlapOf(a.span, [Math.min(along, end), Math.max(along, end)])
}

/** The length along which two faces of one part meet. */
export function meetingLength(a: Surface, b: Surface): number {
  const others = linesOf(b)
  return linesOf(a).reduce(
    (sum, line) => sum + others.reduce((most, other) => Math.max(most, sharedLength(line, other)), 0),
    0,
  )
}
