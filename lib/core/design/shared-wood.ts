/**
 * Two parts in the same wood: what of one lies within the other, notches of both taken out. mm, world coordinates.
 * Method: the faces of the first part within convex pieces of the second (its body less its notches, split along their
 * planes), their extents. Pairs that a face of a blank keeps apart are passed over first. Holes are not looked at; less
 * than THIN_MM is let pass. Tests: tests/core/design/shared-wood.test.ts
 */
import { directionToLocal, directionToWorld, toLocal, toWorld } from '#lib/core/geometry/frame'
import { dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { Part } from './model'
import { FACE_NAMES, faceOffset, type HalfSpace, outwardNormal } from './part-body'
import { type FlatFace, facesWithin, massProperties, type Walls, wallsOf } from './part-shape'
import { cornersOf } from './placed-part'

const THIN_MM = 0.05
const LEAST_MM3 = 0.01

export interface SharedWood {
  readonly a: Part
  readonly b: Part
  readonly volumeMm3: number
  /** How far one reaches into the other: the least extent of what they share. */
  readonly deepMm: number
}

/** Whether all of b's blank lies outside one face of a's. */
const isBeyondFace = (a: Part, corners: readonly Vec3[]): boolean => {
  const local = corners.map((corner) => toLocal(a.frame, corner))
  return FACE_NAMES.some((face) => {
    const out = outwardNormal(face)
    const surfaceMm = faceOffset(a.blank, face) - THIN_MM
    return local.every((corner) => dot(out, corner) > surfaceMm)
  })
}

const moved = (from: Part, to: Part, { point, normal }: HalfSpace): HalfSpace => ({
  point: toLocal(to.frame, toWorld(from.frame, point)),
  normal: directionToLocal(to.frame, directionToWorld(from.frame, normal)),
})

const turnedOver = ({ point, normal }: HalfSpace): HalfSpace => ({ point, normal: scale(normal, -1) })

/** Faces of a within the planes; none where that is no wood to speak of. */
function within(a: Part, planes: readonly HalfSpace[]): readonly FlatFace[] {
  const faces = facesWithin(a, planes)
  return faces.length >= 4 && massProperties(a, faces).volumeMm3 > LEAST_MM3 ? faces : []
}

/** Faces of a within a convex body less its notches, piece by piece. */
function piecesWithin(a: Part, { body, notches }: Walls): (readonly FlatFace[])[] {
  const faces = within(a, body)
  const [notch, ...rest] = notches
  if (faces.length === 0) return []
  if (notch === undefined) return [faces]
  if (within(a, [...body, ...notch]).length === 0) return piecesWithin(a, { body, notches: rest })
  return notch.flatMap((plane, k) =>
    piecesWithin(a, { body: [...body, ...notch.slice(0, k), turnedOver(plane)], notches: rest }),
  )
}

/** What two parts share; undefined where they do not. */
export function sharedWood(a: Part, b: Part): SharedWood | undefined {
  if (isBeyondFace(a, cornersOf(b)) || isBeyondFace(b, cornersOf(a))) return undefined
  const { body, notches } = wallsOf(b)
  const inA = (plane: HalfSpace): HalfSpace => moved(b, a, plane)
  const pieces = piecesWithin(a, { body: body.map(inA), notches: notches.map((notch) => notch.map(inA)) })
  if (pieces.length === 0) return undefined
  const volumeMm3 = pieces.reduce((sum, faces) => sum + massProperties(a, faces).volumeMm3, 0)
  const corners = pieces.flatMap((faces) =>
    faces.flatMap(({ frame, pieces: flat }) => flat.flat().map(([u, v]) => toWorld(frame, [u, v, 0]))),
  )
  const extents = [0, 1, 2].map((i) => {
    const along = corners.map((corner) => corner[i])
    return Math.max(...along) - Math.min(...along)
  })
  const deepMm = Math.min(...extents)
  return deepMm < THIN_MM ? undefined : { a, b, volumeMm3, deepMm }
}

const reachMm = ({ lengthMm, widthMm, thicknessMm }: Part['blank']): number =>
  Math.hypot(lengthMm, widthMm, thicknessMm) / 2

const middleOf = ({ blank, frame }: Part): Vec3 =>
  toWorld(frame, [blank.lengthMm / 2, blank.widthMm / 2, blank.thicknessMm / 2])

/** Every pair of parts in the same wood. */
export function allSharedWood(parts: readonly Part[]): SharedWood[] {
  const balls = parts.map((part) => ({ part, at: middleOf(part), mm: reachMm(part.blank) }))
  return balls.flatMap((a, i) =>
    balls.slice(i + 1).flatMap((b) => {
      const isFar = Math.hypot(...sub(a.at, b.at)) > a.mm + b.mm
      return isFar ? [] : (sharedWood(a.part, b.part) ?? [])
    }),
  )
}
