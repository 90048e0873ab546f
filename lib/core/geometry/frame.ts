/**
 * Right-handed orthonormal frames: where a part lies in the world. mm in, mm out.
 * Tests: tests/core/geometry/vec3.test.ts
 */
import { cross, dot, sub, type Vec3 } from './vec3'

/** A right-handed orthonormal frame, in world coordinates. */
export interface Frame {
  readonly origin: Vec3
  readonly x: Vec3
  readonly y: Vec3
  readonly z: Vec3
}

/** A point of the frame, in world coordinates. */
export const toWorld = (frame: Frame, p: Vec3): Vec3 => {
  const d = directionToWorld(frame, p)
  return [frame.origin[0] + d[0], frame.origin[1] + d[1], frame.origin[2] + d[2]]
}

/** A point of the world, in the frame's coordinates. */
export const toLocal = (frame: Frame, p: Vec3): Vec3 => directionToLocal(frame, sub(p, frame.origin))

export const directionToWorld = ({ x, y, z }: Frame, d: Vec3): Vec3 => [
  x[0] * d[0] + y[0] * d[1] + z[0] * d[2],
  x[1] * d[0] + y[1] * d[1] + z[1] * d[2],
  x[2] * d[0] + y[2] * d[1] + z[2] * d[2],
]

export const directionToLocal = (frame: Frame, d: Vec3): Vec3 => [
  dot(frame.x, d),
  dot(frame.y, d),
  dot(frame.z, d),
]

/** The frame with these y and z axes; x follows by the right hand. Both must be unit and square to each other. */
export const frameFromYZ = (origin: Vec3, y: Vec3, z: Vec3): Frame => ({ origin, x: cross(y, z), y, z })

/** The frame moved by an offset in world coordinates. */
export const moveFrame = (frame: Frame, by: Vec3): Frame => ({
  ...frame,
  origin: [frame.origin[0] + by[0], frame.origin[1] + by[1], frame.origin[2] + by[2]],
})

/** True if the axes are unit, square to each other and right-handed, within `tolerance`. */
export function isRightHanded(frame: Frame, tolerance = 1e-9): boolean {
  const { x, y, z } = frame
  const off = [dot(x, x) - 1, dot(y, y) - 1, dot(z, z) - 1, dot(x, y), dot(y, z), dot(z, x)]
  return off.every((value) => Math.abs(value) <= tolerance) && dot(cross(x, y), z) > 0
}
