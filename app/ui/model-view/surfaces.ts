/**
 * What a graphics processor draws of a part's solid: triangles grouped by the face of the blank that they belong to,
 * smooth over curves and sharp at arrises, and the arrises as lines. mm, in the part's own frame.
 */
import { BufferAttribute, BufferGeometry } from 'three'
import { featureEdges } from '#lib/core/design/drawing/hidden-lines'
import type { FaceName, Part } from '#lib/core/design/model'
import { type HalfSpace, outwardNormal, sharpPlanes } from '#lib/core/design/part-body'
import type { SolidMesh } from '#lib/core/geometry/solid'
import { dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'

/** Faces of the blank, walls of notches, floors of engraved fields, what a section opens. Their order is that of a part's materials. */
export const REGIONS = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB', 'inner', 'burnt', 'cut'] as const
export type Region = (typeof REGIONS)[number]

/** Surfaces that meet flatter than this, as a cosine, are one curve: 36°. */
const CURVE_COS = Math.cos(Math.PI / 5)
const IN_PLANE_MM = 0.02

interface Named extends HalfSpace {
  readonly of: { readonly face: FaceName }
}

const distanceTo = ({ point, normal }: HalfSpace, p: Vec3): number => dot(normal, sub(p, point))

/** Floors of a part's engraved fields. */
function fieldFloors(part: Part): HalfSpace[] {
  const { widthMm, thicknessMm } = part.blank
  return part.operations.flatMap((op) => {
    if (op.kind !== 'engravedField') return []
    const normal = outwardNormal(op.face)
    const surfaceMm = Math.max(0, dot(normal, [0, widthMm, thicknessMm]))
    return [{ normal, point: scale(normal, surfaceMm - op.depthMm) }]
  })
}

interface Planes {
  readonly faces: readonly Named[]
  readonly floors: readonly HalfSpace[]
  readonly cut: HalfSpace | undefined
}

/** The face that a triangle lies in; the face nearest in direction for one on a curve; `inner` for a notch's wall. */
function regionOf({ faces: planes, floors, cut }: Planes, normal: Vec3, middle: Vec3): Region {
  const lies = (plane: HalfSpace): boolean =>
    dot(plane.normal, normal) > 0.999 && Math.abs(distanceTo(plane, middle)) < IN_PLANE_MM
  if (cut !== undefined && lies(cut)) return 'cut'
  if (floors.some(lies)) return 'burnt'
  const flat = planes.find(lies)
  if (flat !== undefined) return flat.of.face
  const nearest = planes.reduce((best, plane) =>
    dot(plane.normal, normal) > dot(best.normal, normal) ? plane : best,
  )
  const deepMm = -distanceTo(nearest, middle)
  return dot(nearest.normal, normal) < 0.999 && deepMm < 15 ? nearest.of.face : 'inner'
}

const corner = (p: SolidMesh['positions'], i: number): Vec3 => [p[3 * i], p[3 * i + 1], p[3 * i + 2]]

/** Normals of all triangles, one after another, and their areas' doubles. */
function flatNormals({ positions: p, triangles }: SolidMesh): { normals: Vec3[]; weights: number[] } {
  const normals: Vec3[] = []
  const weights: number[] = []
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(p, triangles[t + k]))
    const [u, v] = [sub(b, a), sub(c, a)]
    const n: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
    const size = Math.hypot(...n) || 1
    normals.push([n[0] / size, n[1] / size, n[2] / size])
    weights.push(size)
  }
  return { normals, weights }
}

/** A corner's normal on one triangle: the mean over the triangles there that curve into it. */
function smoothNormal(
  t: number,
  around: readonly number[],
  normals: readonly Vec3[],
  weights: readonly number[],
): Vec3 {
  const own = normals[t]
  let [x, y, z] = [0, 0, 0]
  for (const other of around) {
    const n = normals[other]
    if (dot(n, own) < CURVE_COS) continue
    x += n[0] * weights[other]
    y += n[1] * weights[other]
    z += n[2] * weights[other]
  }
  const size = Math.hypot(x, y, z) || 1
  return [x / size, y / size, z / size]
}

/** @param cut the plane of a section in the part's own frame, its normal pointing out of what is left */
export function surfaceOf(mesh: SolidMesh, part: Part, cut?: HalfSpace): BufferGeometry {
  const { positions: p, triangles } = mesh
  const { normals, weights } = flatNormals(mesh)
  const around: number[][] = Array.from({ length: p.length / 3 }, () => [])
  triangles.forEach((at, k) => {
    around[at].push(Math.floor(k / 3))
  })
  const planes: Planes = { faces: sharpPlanes(part), floors: fieldFloors(part), cut }
  const byRegion = new Map<Region, number[]>(REGIONS.map((region) => [region, []]))
  normals.forEach((normal, t) => {
    const [a, b, c] = [0, 1, 2].map((k) => corner(p, triangles[3 * t + k]))
    const middle: Vec3 = [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3]
    byRegion.get(regionOf(planes, normal, middle))!.push(t)
  })
  const geometry = new BufferGeometry()
  const places = new Float32Array(3 * triangles.length)
  const turns = new Float32Array(3 * triangles.length)
  let at = 0
  REGIONS.forEach((region, index) => {
    const own = byRegion.get(region)!
    if (own.length > 0) geometry.addGroup(at, 3 * own.length, index)
    for (const t of own)
      for (let k = 0; k < 3; k++, at++) {
        const i = triangles[3 * t + k]
        places.set(corner(p, i), 3 * at)
        turns.set(smoothNormal(t, around[i], normals, weights), 3 * at)
      }
  })
  geometry.setAttribute('position', new BufferAttribute(places, 3))
  geometry.setAttribute('normal', new BufferAttribute(turns, 3))
  return geometry
}

/** Arrises as pairs of points; curves have none, so neither have the facets of rounded edges. */
export function arrisesOf(mesh: SolidMesh, part: Part): BufferGeometry {
  const geometry = new BufferGeometry()
  const isRound = part.operations.some((op) => op.kind === 'roundOver')
  const corners = featureEdges(mesh, isRound ? CURVE_COS : undefined).flatMap((i) => [
    ...corner(mesh.positions, i),
  ])
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(corners), 3))
  return geometry
}
