/**
 * Whether a piece gets to its place: a box through a door, and round the corner of a passage or a landing. mm.
 * Door: two sides of the box against the opening, turned in its plane if need be. A rectangle p by q (p >= q) fits into
 * a by b (a >= b) if p <= a and q <= b, or if p > a and b >= (2 p q a + (p2 - q2) sqrt(p2 + q2 - a2)) / (p2 + q2)
 * (W. B. Carver, Amer. Math. Monthly 64 (1957) 114; J. E. Wetzel, Math. Mag. 73 (2000) 204).
 * Corner: length and width in plan pass from a passage a wide into one b wide if at every angle t the box touches no
 * corner: L <= (a cos t + b sin t - w) / (sin t cos t), the ladder problem with a width; the third side upright.
 * A box is worse than the piece: legs that can be threaded round a jamb are not counted. Tests: tests/core/design/fit/way-in.test.ts
 */
import { directionToWorld, toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Part } from '../model'
import { type FlatFace, flatFaces } from '../part-shape'

/** Three sides of a box, in any order. */
export type Sides = readonly [number, number, number]

export interface Opening {
  readonly widthMm: number
  readonly heightMm: number
}

/** A right-angled corner: the width of the passage before and behind it, and the room overhead. */
export interface Corner {
  readonly fromMm: number
  readonly toMm: number
  readonly headroomMm: number
}

/** How a box passes: standing as it stands in use, laid on a side, or tilted in the opening. */
export type Pass = 'upright' | 'laid' | 'tilted'

/**
 * Whether a rectangle fits into another, turned as it may be.
 * @example rectangleFits([6, 1], [5, 5]) //=> true
 */
export function rectangleFits(inner: readonly [number, number], outer: readonly [number, number]): boolean {
  const [q, p] = [...inner].sort((x, y) => x - y)
  const [b, a] = [...outer].sort((x, y) => x - y)
  if (p <= a) return q <= b
  const diagonal2 = p * p + q * q
  if (q > b || diagonal2 < a * a) return false
  return b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(diagonal2 - a * a)) / diagonal2
}

/** Pairs of sides that may face the opening, the third going through. */
const FACES = [
  [0, 2],
  [1, 2],
  [0, 1],
] as const

/**
 * How a box gets through a door leaf's clear opening; undefined if it does not.
 * @param sides wide, deep, high, as it stands
 * @example throughDoor([1400, 700, 750], { widthMm: 750, heightMm: 1970 }) //=> 'upright'
 */
export function throughDoor(sides: Sides, door: Opening): Pass | undefined {
  const opening = [door.widthMm, door.heightMm] as const
  const stands = ([i, k]: (typeof FACES)[number]): boolean =>
    sides[i] <= door.widthMm && sides[k] <= door.heightMm
  if (stands(FACES[0]) || stands(FACES[1])) return 'upright'
  const fitsStraight = ([i, k]: (typeof FACES)[number]): boolean =>
    (sides[i] <= door.widthMm && sides[k] <= door.heightMm) ||
    (sides[k] <= door.widthMm && sides[i] <= door.heightMm)
  if (FACES.some(fitsStraight)) return 'laid'
  return FACES.some(([i, k]) => rectangleFits([sides[i], sides[k]], opening)) ? 'tilted' : undefined
}

/** Least of a function with one valley on [low, high], by golden section. */
function least(f: (x: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2
  let [a, b] = [low, high]
  for (let i = 0; i < 60; i++) {
    const [x, y] = [b - golden * (b - a), a + golden * (b - a)]
    if (f(x) < f(y)) b = y
    else a = x
  }
  return f((a + b) / 2)
}

/**
 * Longest box of a width, in plan, that goes round a right-angled corner. Infinite where its width alone is the bar.
 * @example longestRoundCorner(1000, 1000, 0).toFixed(1) //=> '2828.4'
 */
export function longestRoundCorner(fromMm: number, toMm: number, widthMm: number): number {
  if (widthMm > Math.min(fromMm, toMm)) return 0
  const room = (t: number): number =>
    (fromMm * Math.cos(t) + toMm * Math.sin(t) - widthMm) / (Math.sin(t) * Math.cos(t))
  return least(room, 1e-6, Math.PI / 2 - 1e-6)
}

/**
 * How a box gets round a corner, a side of it upright; undefined if it does not.
 * @param sides wide, deep, high, as it stands
 */
export function roundCorner(sides: Sides, corner: Corner): Pass | undefined {
  const passes = (up: number): boolean => {
    const [w, l] = sides.filter((_, i) => i !== up).sort((x, y) => x - y)
    if (sides[up] > corner.headroomMm) return false
    // Where neither passage is narrower than the long side, it need not turn at all.
    return l <= Math.min(corner.fromMm, corner.toMm) || l <= longestRoundCorner(corner.fromMm, corner.toMm, w)
  }
  if (passes(2)) return 'upright'
  return passes(0) || passes(1) ? 'laid' : undefined
}

export interface Box {
  readonly min: Vec3
  readonly max: Vec3
}

/** The box around one part where it stands. @param faces of the part, where they are at hand */
export function boxOf(part: Part, faces: readonly FlatFace[] = flatFaces(part)): Box {
  const place = part.frame
  const low: [number, number, number] = [Infinity, Infinity, Infinity]
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity]
  for (const { frame, pieces } of faces) {
    const origin = toWorld(place, frame.origin)
    const [x, y] = [directionToWorld(place, frame.x), directionToWorld(place, frame.y)]
    for (const piece of pieces)
      for (const [u, v] of piece)
        for (let i = 0; i < 3; i++) {
          const at = origin[i] + u * x[i] + v * y[i]
          if (at < low[i]) low[i] = at
          if (at > high[i]) high[i] = at
        }
  }
  return { min: low, max: high }
}

/** The box around several. */
export function boxAround(boxes: readonly Box[]): Box {
  const at = (i: number, of: (box: Box) => Vec3, pick: (a: number, b: number) => number): number =>
    boxes.map((box) => of(box)[i]).reduce(pick)
  const corner = (of: (box: Box) => Vec3, pick: (a: number, b: number) => number): Vec3 => [
    at(0, of, pick),
    at(1, of, pick),
    at(2, of, pick),
  ]
  return {
    min: corner(
      (box) => box.min,
      (a, b) => Math.min(a, b),
    ),
    max: corner(
      (box) => box.max,
      (a, b) => Math.max(a, b),
    ),
  }
}

/** Wide, deep and high. */
export const sidesOf = ({ min, max }: Box): Sides => [max[0] - min[0], max[1] - min[1], max[2] - min[2]]
