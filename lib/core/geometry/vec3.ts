/**
 * Vectors of three numbers. Plain tuples, no unit of their own: callers keep millimetres with millimetres.
 * Tests: tests/core/geometry/vec3.test.ts
 */
export type Vec3 = readonly [number, number, number]

/** @example add([1, 2, 3], [1, 0, 0]) //=> [2, 2, 3] */
export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

/** @example sub([1, 2, 3], [1, 0, 0]) //=> [0, 2, 3] */
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]

/** @example scale([1, 2, 3], 2) //=> [2, 4, 6] */
export const scale = (a: Vec3, by: number): Vec3 => [a[0] * by, a[1] * by, a[2] * by]

/** @example dot([1, 2, 3], [1, 1, 1]) //=> 6 */
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** @example cross([1, 0, 0], [0, 1, 0]) //=> [0, 0, 1] */
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

/** @example length([3, 4, 0]) //=> 5 */
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2])

/**
 * @throws RangeError for a vector without direction
 * @example unit([0, 0, 2]) //=> [0, 0, 1]
 */
export function unit(a: Vec3): Vec3 {
  const size = length(a)
  if (!(size > 0)) throw new RangeError(`no direction: ${a}`)
  return scale(a, 1 / size)
}

/** The point that lies `t` of the way from a to b. @example between([0, 0, 0], [2, 0, 0], 0.5) //=> [1, 0, 0] */
export const between = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
]
