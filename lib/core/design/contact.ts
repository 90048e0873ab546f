/**
 * Where two parts touch: derived from their flat faces, never drawn by hand. mm and mm2, world coordinates.
 * Two faces touch if they lie in one plane, look at each other and share area.
 * Tests: tests/core/design/contact.test.ts
 */
import { directionToWorld, type Frame, toLocal, toWorld } from '#lib/core/geometry/frame'
import { area, intersectConvex, type Polygon2 } from '#lib/core/geometry/polygon2'
import { dot, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { GrainAtFace, Part } from './model'
import { COPLANAR_MM, flatFaces } from './part-shape'

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
export const worldFaces = (part: Part): WorldFace[] =>
  flatFaces(part).map(({ frame, pieces }) => ({
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
      for (const pieceA of faceA.pieces) {
        for (const pieceB of faceB.pieces) {
          const shared = intersectConvex(pieceA, seenFrom(faceA.frame, faceB.frame, pieceB))
          const areaMm2 = area(shared)
          if (areaMm2 <= Math.max(LEAST_CONTACT_MM2, best?.areaMm2 ?? 0)) continue
          const polygon = shared.map(([u, v]) => toWorld(faceA.frame, [u, v, 0]))
          best = { polygon, normal: faceA.frame.z, areaMm2 }
        }
      }
    }
  }
  return best
}

/** End grain if the face's normal lies nearer to the grain than to square across it. */
export const grainAt = (part: Part, normal: Vec3): GrainAtFace =>
  Math.abs(dot(part.frame.x, normal)) > Math.SQRT1_2 ? 'end' : 'long'
