/**
 * How near two straight pieces of line come to each other in space: do two screws meet?
 * Method: closest points of two segments, Ericson, Real-Time Collision Detection (2005), 5.1.9.
 * Tests: tests/core/geometry/vec3.test.ts
 */
import { add, dot, length, scale, sub, type Vec3 } from './vec3'

export interface Segment3 {
  readonly from: Vec3
  readonly to: Vec3
}

const clamp01 = (value: number): number => Math.min(1, Math.max(0, value))

/**
 * Least distance between two segments, in the unit of their ends.
 * @example distanceBetweenSegments({ from: [0, 0, 0], to: [1, 0, 0] }, { from: [0, 1, -1], to: [0, 1, 1] }) //=> 1
 */
export function distanceBetweenSegments(p: Segment3, q: Segment3): number {
  const d1 = sub(p.to, p.from)
  const d2 = sub(q.to, q.from)
  const r = sub(p.from, q.from)
  const [a, e, f] = [dot(d1, d1), dot(d2, d2), dot(d2, r)]
  if (a === 0 && e === 0) return length(r)
  if (a === 0) return pointGap(r, d2, 0, clamp01(f / e), d1)
  const c = dot(d1, r)
  if (e === 0) return pointGap(r, d2, clamp01(-c / a), 0, d1)
  const b = dot(d1, d2)
  const denominator = a * e - b * b
  let s = denominator > 1e-12 * a * e ? clamp01((b * f - c * e) / denominator) : 0
  let t = (b * s + f) / e
  if (t < 0) {
    t = 0
    s = clamp01(-c / a)
  } else if (t > 1) {
    t = 1
    s = clamp01((b - c) / a)
  }
  return pointGap(r, d2, s, t, d1)
}

const pointGap = (r: Vec3, d2: Vec3, s: number, t: number, d1: Vec3): number =>
  length(sub(add(r, scale(d1, s)), scale(d2, t)))
