/**
 * True orthographic view of placed meshes: which stretches of their edges are seen and which lie behind wood.
 * mm, view coordinates. Method: every feature edge is clipped against every triangle that faces the eye
 * (Cyrus-Beck) and lies nearer to it; stretches are merged line by line, so nothing is drawn twice and a hidden
 * edge under a visible one is dropped. Cost: edges × triangles, a few ms for 14 parts.
 * Not for curved outlines of smooth surfaces. Tests: tests/core/design/drawing/hidden-lines.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { SolidMesh } from '#lib/core/geometry/solid'
import { dot, type Vec3 } from '#lib/core/geometry/vec3'
import type { PlacedMesh } from '../part-solid'
import type { ViewAxes } from './drawing'
import { mergeLines, type Segment2 } from './merge-lines'

/** Two faces that meet flatter than this, as a cosine, share no edge worth drawing (about 2°). */
const FLAT_COS = 0.9994
/** Wood must lie this much nearer to the eye, in mm, to hide an edge. */
const DEPTH_MM = 0.02
/** Triangles reach this much over their border, so that an edge behind the seam of two is hidden. */
const SEAM_MM = 0.002

export interface SeenLines {
  readonly visible: readonly Segment2[]
  readonly hidden: readonly Segment2[]
}

/** Corner numbers of the edges at which a mesh's surface bends, two an edge. @param flatCos flatter than this is no edge */
export function featureEdges({ positions, triangles }: SolidMesh, flatCos = FLAT_COS): number[] {
  const normals = triangleNormals(positions, triangles)
  const firstSide = new Map<number, number>()
  const corners = positions.length / 3
  const edges: number[] = []
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k], triangles[t + ((k + 1) % 3)]]
      const key = Math.min(a, b) * corners + Math.max(a, b)
      const other = firstSide.get(key)
      if (other === undefined) firstSide.set(key, t)
      else if (cosBetween(normals, t, other) < flatCos) edges.push(a, b)
    }
  }
  return edges
}

const cosBetween = (normals: Float64Array, s: number, t: number): number =>
  normals[s] * normals[t] + normals[s + 1] * normals[t + 1] + normals[s + 2] * normals[t + 2]

function triangleNormals(p: SolidMesh['positions'], triangles: Uint32Array): Float64Array {
  const normals = new Float64Array(triangles.length)
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]]
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]]
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]]
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx]
    const size = Math.hypot(x, y, z) || 1
    normals[t] = x / size
    normals[t + 1] = y / size
    normals[t + 2] = z / size
  }
  return normals
}

/**
 * Numbers a triangle: x y of three corners counter-clockwise, depth = d0 + dx x + dy y, nearest depth, and its
 * box: least and most x, least and most y.
 */
const STRIDE = 14

/** Corners in view coordinates: x, y, depth towards the eye. */
function inView({ part, mesh }: PlacedMesh, { right, up, towards }: ViewAxes): Float64Array {
  const rows = [right, up, towards].map((axis): readonly [Vec3, number] => [
    [dot(axis, part.frame.x), dot(axis, part.frame.y), dot(axis, part.frame.z)],
    dot(axis, part.frame.origin),
  ])
  const p = mesh.positions
  const out = new Float64Array(p.length)
  for (let i = 0; i < p.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const [row, offset] = rows[k]
      out[i + k] = row[0] * p[i] + row[1] * p[i + 1] + row[2] * p[i + 2] + offset
    }
  }
  return out
}

function pushFacing(out: number[], p: Float64Array, triangles: Uint32Array): void {
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]]
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]]
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]]
    const twice = ux * vy - uy * vx
    const size = Math.sqrt((ux * ux + uy * uy) * (vx * vx + vy * vy))
    if (twice <= 1e-6 * size || twice <= 1e-9) continue
    const dx = (uz * vy - uy * vz) / twice
    const dy = (ux * vz - uz * vx) / twice
    const d0 = p[a + 2] - dx * p[a] - dy * p[a + 1]
    const nearest = Math.max(p[a + 2], p[b + 2], p[c + 2])
    out.push(p[a], p[a + 1], p[b], p[b + 1], p[c], p[c + 1], d0, dx, dy, nearest)
    out.push(Math.min(p[a], p[b], p[c]) - SEAM_MM, Math.max(p[a], p[b], p[c]) + SEAM_MM)
    out.push(
      Math.min(p[a + 1], p[b + 1], p[c + 1]) - SEAM_MM,
      Math.max(p[a + 1], p[b + 1], p[c + 1]) + SEAM_MM,
    )
  }
}

type Edge = readonly [number, number, number, number, number, number]

/** The stretch of an edge that one triangle hides; undefined if none. */
function hiddenStretch(f: Float64Array, at: number, e: Edge): readonly [number, number] | undefined {
  const [x0, y0, z0, x1, y1, z1] = e
  let low = 0
  let high = 1
  for (let k = 0; k < 6; k += 2) {
    const [ax, ay] = [f[at + k], f[at + k + 1]]
    const [bx, by] = [f[at + ((k + 2) % 6)], f[at + ((k + 3) % 6)]]
    const size = Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay))
    // Distance inside this side of the triangle, at both ends of the edge.
    const d0 = ((bx - ax) * (y0 - ay) - (by - ay) * (x0 - ax)) / size + SEAM_MM
    const d1 = ((bx - ax) * (y1 - ay) - (by - ay) * (x1 - ax)) / size + SEAM_MM
    if (d0 < 0 && d1 < 0) return undefined
    if (d0 < 0) low = Math.max(low, d0 / (d0 - d1))
    else if (d1 < 0) high = Math.min(high, d0 / (d0 - d1))
    if (low >= high) return undefined
  }
  const nearer0 = f[at + 6] + f[at + 7] * x0 + f[at + 8] * y0 - z0 - DEPTH_MM
  const nearer1 = f[at + 6] + f[at + 7] * x1 + f[at + 8] * y1 - z1 - DEPTH_MM
  if (nearer0 <= 0 && nearer1 <= 0) return undefined
  if (nearer0 < 0) low = Math.max(low, nearer0 / (nearer0 - nearer1))
  else if (nearer1 < 0) high = Math.min(high, nearer0 / (nearer0 - nearer1))
  return low < high ? [low, high] : undefined
}

/** Triangles of one mesh in the list of all, and the box around them: least and most x, y, and nearest depth. */
interface Group {
  readonly from: number
  readonly to: number
  readonly box: readonly [number, number, number, number, number]
}

function groupOf(list: readonly number[], from: number): Group {
  const box: [number, number, number, number, number] = [Infinity, -Infinity, Infinity, -Infinity, -Infinity]
  for (let at = from; at < list.length; at += STRIDE) {
    box[0] = Math.min(box[0], list[at + 10])
    box[1] = Math.max(box[1], list[at + 11])
    box[2] = Math.min(box[2], list[at + 12])
    box[3] = Math.max(box[3], list[at + 13])
    box[4] = Math.max(box[4], list[at + 9])
  }
  return { from, to: list.length, box }
}

/** All triangles that face the eye, mesh by mesh. */
interface Facing {
  readonly triangles: Float64Array
  readonly groups: readonly Group[]
}

/** Splits an edge into what is seen and what is not. */
function splitEdge(
  e: Edge,
  { triangles: facing, groups }: Facing,
  visible: Segment2[],
  hidden: Segment2[],
): void {
  const stretches: (readonly [number, number])[] = []
  const [minX, maxX] = e[0] < e[3] ? [e[0], e[3]] : [e[3], e[0]]
  const [minY, maxY] = e[1] < e[4] ? [e[1], e[4]] : [e[4], e[1]]
  const farZ = Math.min(e[2], e[5]) + DEPTH_MM
  for (const { from, to, box } of groups) {
    if (box[4] < farZ || box[0] > maxX || box[1] < minX || box[2] > maxY || box[3] < minY) continue
    for (let at = from; at < to; at += STRIDE) {
      if (facing[at + 9] < farZ || facing[at + 10] > maxX || facing[at + 11] < minX) continue
      if (facing[at + 12] > maxY || facing[at + 13] < minY) continue
      const stretch = hiddenStretch(facing, at, e)
      if (stretch !== undefined) stretches.push(stretch)
    }
  }
  stretches.sort((a, b) => a[0] - b[0])
  const point = (t: number): Vec2 => [e[0] + (e[3] - e[0]) * t, e[1] + (e[4] - e[1]) * t]
  let done = 0
  for (const [from, to] of stretches) {
    if (from > done) visible.push([point(done), point(from)])
    if (to > done) hidden.push([point(Math.max(done, from)), point(to)])
    done = Math.max(done, to)
  }
  if (done < 1) visible.push([point(done), point(1)])
}

/** What is seen of these meshes along `axes`, and what lies hidden. */
export function seenLines(meshes: readonly PlacedMesh[], axes: ViewAxes): SeenLines {
  const placed = meshes.map((mesh) => ({ points: inView(mesh, axes), mesh: mesh.mesh }))
  const list: number[] = []
  const groups = placed.map(({ points, mesh }) => {
    const from = list.length
    pushFacing(list, points, mesh.triangles)
    return groupOf(list, from)
  })
  const facing: Facing = { triangles: Float64Array.from(list), groups }
  const edgesOf = new Map<SolidMesh, number[]>()
  const visible: Segment2[] = []
  const hidden: Segment2[] = []
  for (const { points: p, mesh } of placed) {
    const edges = edgesOf.get(mesh) ?? featureEdges(mesh)
    edgesOf.set(mesh, edges)
    for (let i = 0; i < edges.length; i += 2) {
      const [a, b] = [3 * edges[i], 3 * edges[i + 1]]
      if (Math.hypot(p[b] - p[a], p[b + 1] - p[a + 1]) < DEPTH_MM) continue
      splitEdge([p[a], p[a + 1], p[a + 2], p[b], p[b + 1], p[b + 2]], facing, visible, hidden)
    }
  }
  return mergeLines(visible, hidden)
}
