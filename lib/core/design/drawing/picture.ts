/**
 * Pictures of a whole piece to look at and to point at: its seen edges from the front, the side, above, or from its
 * corner (isometric axonometry after ISO 5456-3: all three axes drawn alike), without dimensions or surroundings.
 * In: meshes of placed parts, mm. Out: lines in the plane of the picture, mm; places on it as shares of its frame, from
 * its left and its top. Method: hidden-lines.ts; a part under a point is the one whose surface lies nearest to the
 * eye there. Tests: tests/core/design/drawing/picture.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { dot, type Vec3 } from '#lib/core/geometry/vec3'
import type { ViewName } from '../model'
import type { PlacedMesh } from '../part-solid'
import { type Bounds2, boundsOf, project, VIEW_AXES, type ViewAxes } from './drawing'
import { seenLines } from './hidden-lines'
import type { Segment2 } from './merge-lines'

export type PictureFrom = ViewName | 'corner'

const [A, B, C] = [Math.SQRT1_2, 1 / Math.sqrt(6), 1 / Math.sqrt(3)]
/** From the front, the right and above. */
const CORNER_AXES: ViewAxes = { right: [A, A, 0], up: [-B, B, 2 * B], towards: [C, -C, C] }

/** @example pictureAxes('corner').towards //=> [0.577…, -0.577…, 0.577…] */
export const pictureAxes = (from: PictureFrom): ViewAxes =>
  from === 'corner' ? CORNER_AXES : VIEW_AXES[from]

/** Room around the piece, as a share of its larger side. */
const MARGIN = 0.06

export interface Picture {
  readonly from: PictureFrom
  readonly lines: readonly Segment2[]
  /** Its frame: around the piece, with a margin. */
  readonly frame: Bounds2
}

/** Seen edges in their frame. */
export function pictureOf(meshes: readonly PlacedMesh[], from: PictureFrom): Picture {
  const { visible } = seenLines(meshes, pictureAxes(from))
  const { min, max } = boundsOf(visible.flat())
  const margin = MARGIN * Math.max(max[0] - min[0], max[1] - min[1])
  const frame: Bounds2 = {
    min: [min[0] - margin, min[1] - margin],
    max: [max[0] + margin, max[1] + margin],
  }
  return { from, lines: visible, frame }
}

/** A place in the plane of the picture, from its shares of the frame. @example atShare(frame, [0, 0]) //=> [frame.min[0], frame.max[1]] */
export const atShare = ({ min, max }: Bounds2, [x, y]: Vec2): Vec2 => [
  min[0] + x * (max[0] - min[0]),
  max[1] - y * (max[1] - min[1]),
]

/** Where a point of the world lies on the picture, as shares of its frame. */
export function shareOf({ from, frame: { min, max } }: Picture, point: Vec3): Vec2 {
  const [x, y] = project(pictureAxes(from), point)
  return [(x - min[0]) / (max[0] - min[0]), (max[1] - y) / (max[1] - min[1])]
}

/** Twice the signed area of a triangle. */
const twice = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

type Corner = readonly [x: number, y: number, depth: number]

function cornersOf({ part, mesh }: PlacedMesh, { right, up, towards }: ViewAxes): (i: number) => Corner {
  const { origin, x, y, z } = part.frame
  const rows = [right, up, towards].map((axis) => [
    dot(axis, x),
    dot(axis, y),
    dot(axis, z),
    dot(axis, origin),
  ])
  const p = mesh.positions
  const along = (row: readonly number[], i: number) =>
    row[0] * p[3 * i] + row[1] * p[3 * i + 1] + row[2] * p[3 * i + 2] + row[3]
  return (i) => [along(rows[0], i), along(rows[1], i), along(rows[2], i)]
}

/** How near to the eye the triangle lies under the point; -Infinity where it does not lie there. */
function depthUnder(a: Corner, b: Corner, c: Corner, at: Vec2): number {
  const flat = ([x, y]: Corner): Vec2 => [x, y]
  const area = twice(flat(a), flat(b), flat(c))
  if (area <= 0) return Number.NEGATIVE_INFINITY
  const u = twice(at, flat(b), flat(c)) / area
  const v = twice(flat(a), at, flat(c)) / area
  const w = 1 - u - v
  return u < 0 || v < 0 || w < 0 ? Number.NEGATIVE_INFINITY : u * a[2] + v * b[2] + w * c[2]
}

/** Id of the part that is seen at a place in the plane of the picture; undefined beside the piece. */
export function partAt(meshes: readonly PlacedMesh[], from: PictureFrom, at: Vec2): string | undefined {
  const axes = pictureAxes(from)
  let nearest = Number.NEGATIVE_INFINITY
  let found: string | undefined
  for (const placed of meshes) {
    const corner = cornersOf(placed, axes)
    const { triangles } = placed.mesh
    for (let t = 0; t < triangles.length; t += 3) {
      const depth = depthUnder(corner(triangles[t]), corner(triangles[t + 1]), corner(triangles[t + 2]), at)
      if (depth <= nearest) continue
      nearest = depth
      found = placed.part.id
    }
  }
  return found
}
