/**
 * Where two parts touch: derived from their flat faces, never drawn by hand. mm and mm2, world coordinates.
 * Two faces touch if they lie in one plane, look at each other and share area.
 * Tests: tests/core/design/contact.test.ts
 */
import { directionToWorld, type Frame, toLocal, toWorld } from '#lib/core/geometry/frame'
import { area, convexHull, intersectConvex, type Polygon2 } from '#lib/core/geometry/polygon2'
import { dot, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { GrainAtFace, Part } from './model'
import { COPLANAR_MM } from './part-body'
import { type FlatFace, flatFaces } from './part-shape'

export interface WorldFace {
  readonly frame: Frame
  readonly pieces: readonly Polygon2[]
}

export interface Contact {
  readonly polygon: readonly Vec3[]
  /** From a to b. */
  readonly normal: Vec3
  readonly areaMm2: number
}

/** Contacts smaller than this, in mm2, are touches of an edge. */
const LEAST_CONTACT_MM2 = 0.01

/** A part's flat faces in world coordinates. */
export const worldFaces = (part: Part, faces: readonly FlatFace[] = flatFaces(part)): WorldFace[] =>
  faces.map(({ frame, pieces }) => ({
    pieces,
    frame: {
      origin: toWorld(part.frame, frame.origin),
      x: directionToWorld(part.frame, frame.x),
      y: directionToWorld(part.frame, frame.y),
      z: directionToWorld(part.frame, frame.z),
    },
  }))

const areOpposite = (a: Frame, b: Frame): boolean =>
  dot(a.z, b.z) < -1 + 1e-9 && Math.abs(dot(a.z, sub(b.origin, a.origin))) < COPLANAR_MM

/** A piece of b's face in the plane of a; turned over, so that it runs counter-clockwise again. */
const seenFrom = (a: Frame, b: Frame, piece: Polygon2): Polygon2 =>
  piece
    .map(([u, v]) => toLocal(a, toWorld(b, [u, v, 0])))
    .map(([u, v]) => [u, v] as const)
    .reverse()

/** A patch that fills its hull but for this share is taken as convex. */
const NEARLY_CONVEX = 0.05

interface Patch {
  readonly polygon: Polygon2
  readonly areaMm2: number
}

const patchOf = (polygon: Polygon2): Patch => ({ polygon, areaMm2: area(polygon) })

/** Two patches as one, if together they fill their hull. */
function joined(a: Patch, b: Patch): Patch | undefined {
  const hull = convexHull([...a.polygon, ...b.polygon])
  const areaMm2 = a.areaMm2 + b.areaMm2
  return area(hull) <= areaMm2 * (1 + 1e-9) ? { polygon: hull, areaMm2 } : undefined
}

/**
 * Puts pieces that a notch has cut a face into together again, wherever they make one convex patch: what two parts
 * share does not end where a face happens to have been divided.
 */
function mergePieces(pieces: readonly Polygon2[]): Patch[] {
  const left = pieces.filter((piece) => piece.length > 2).map(patchOf)
  const usable = left.filter(({ areaMm2 }) => areaMm2 > LEAST_CONTACT_MM2)
  if (usable.length < 2) return usable
  const hull = convexHull(usable.flatMap(({ polygon }) => polygon))
  const sum = usable.reduce((total, { areaMm2 }) => total + areaMm2, 0)
  if (area(hull) * (1 - NEARLY_CONVEX) <= sum) return [{ polygon: hull, areaMm2: sum }]
  for (let i = 0; i < usable.length; i++) {
    for (let j = i + 1; j < usable.length; j++) {
      const one = joined(usable[i], usable[j])
      if (one === undefined) continue
      usable.splice(j, 1)
      usable[i] = one
      // The grown patch may fit pieces that did not fit before.
      i = -1
      break
    }
  }
  return usable
}

/**
 * The largest flat patch in which two parts touch; undefined if they do not.
 * @param facing looks only at faces of a with this outward normal
 */
export function contactBetween(
  a: readonly WorldFace[],
  b: readonly WorldFace[],
  facing?: Vec3,
): Contact | undefined {
  let best: Contact | undefined
  for (const faceA of a) {
    if (facing !== undefined && dot(facing, faceA.frame.z) < 1 - 1e-9) continue
    for (const faceB of b) {
      if (!areOpposite(faceA.frame, faceB.frame)) continue
      const shared = mergePieces(
        faceA.pieces.flatMap((pieceA) =>
          faceB.pieces.map((pieceB) => intersectConvex(pieceA, seenFrom(faceA.frame, faceB.frame, pieceB))),
        ),
      )
      for (const { polygon: patch, areaMm2 } of shared) {
        if (areaMm2 <= Math.max(LEAST_CONTACT_MM2, best?.areaMm2 ?? 0)) continue
        const polygon = patch.map(([u, v]) => toWorld(faceA.frame, [u, v, 0]))
        best = { polygon, normal: faceA.frame.z, areaMm2 }
      }
    }
  }
  return best
}

/** End grain if the face's normal lies nearer to the grain than to square across it. */
export const grainAt = (part: Part, normal: Vec3): GrainAtFace =>
  Math.abs(dot(part.frame.x, normal)) > Math.SQRT1_2 ? 'end' : 'long'
