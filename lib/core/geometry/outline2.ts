/**
 * The outline of a flat face that is given as convex pieces side by side: seams between pieces left out, stretches of
 * one line put together. mm. Method: interval arithmetic on each line. Cost: sides squared.
 * Tests: tests/core/geometry/outline2.test.ts
 */
import type { Polygon2, Vec2 } from './polygon2'

export type Segment2 = readonly [Vec2, Vec2]
export type Interval = readonly [low: number, high: number]

/** Lines nearer than this, in mm, are one; stretches shorter than this are none. */
const NEAR_MM = 1e-5
const PARALLEL = 1e-9

/** What is left of an interval without others. @example without([0, 10], [[2, 3]]) //=> [[0, 2], [3, 10]] */
export function without(whole: Interval, taken: readonly Interval[]): Interval[] {
  return taken.reduce<Interval[]>(
    (left, [low, high]) =>
      left.flatMap(([a, b]) =>
        [[a, Math.min(b, low)] as const, [Math.max(a, high), b] as const].filter(
          ([from, to]) => to - from > NEAR_MM,
        ),
      ),
    [whole],
  )
}

/** Intervals that touch or overlap as one. @example joined([[0, 1], [1, 2]]) //=> [[0, 2]] */
export function joined(intervals: readonly Interval[]): Interval[] {
  const out: Interval[] = []
  for (const [low, high] of [...intervals].sort((a, b) => a[0] - b[0])) {
    const last = out.at(-1)
    if (last !== undefined && low <= last[1] + NEAR_MM)
      out[out.length - 1] = [last[0], Math.max(last[1], high)]
    else out.push([low, high])
  }
  return out
}

/** How long two intervals run together. @example overlapOf([0, 3], [2, 9]) //=> 1 */
export const overlapOf = (a: Interval, b: Interval): number =>
  Math.max(0, Math.min(a[1], b[1]) - Math.max(a[0], b[0]))

interface Side {
  readonly way: Vec2
  /** Of its line, to the left of `way`. */
  readonly offset: number
  readonly span: Interval
}

function sidesOf(piece: Polygon2): Side[] {
  return piece.flatMap((p, i) => {
    const q = piece[(i + 1) % piece.length]
    const size = Math.hypot(q[0] - p[0], q[1] - p[1])
    if (size < NEAR_MM) return []
    const way: Vec2 = [(q[0] - p[0]) / size, (q[1] - p[1]) / size]
    const at = way[0] * p[0] + way[1] * p[1]
    return [{ way, offset: way[0] * p[1] - way[1] * p[0], span: [at, at + size] as const }]
  })
}

/** 1 on one line the same way, -1 the opposite way, 0 elsewhere. */
function onOneLine(a: Side, b: Side): 1 | 0 | -1 {
  if (Math.abs(a.way[0] * b.way[1] - a.way[1] * b.way[0]) > PARALLEL * 1e3) return 0
  const turn = a.way[0] * b.way[0] + a.way[1] * b.way[1] > 0 ? 1 : -1
  return Math.abs(a.offset - turn * b.offset) < NEAR_MM ? turn : 0
}

const pointAt = ({ way, offset }: Side, at: number): Vec2 => [
  way[0] * at - way[1] * offset,
  way[1] * at + way[0] * offset,
]

/**
 * Straight stretches of the outline, counter-clockwise about the face.
 * @example outlineOf([rectangle(0, 0, 1, 1), rectangle(1, 0, 3, 1)]).length //=> 4
 */
export function outlineOf(pieces: readonly Polygon2[]): Segment2[] {
  const sides = pieces.flatMap(sidesOf)
  const bare = sides.flatMap((side) => {
    const seams = sides
      .filter((other) => onOneLine(side, other) === -1)
      .map(({ span }): Interval => [-span[1], -span[0]])
    return without(side.span, seams).map((span): Side => ({ ...side, span }))
  })
  const lines: Side[][] = []
  for (const side of bare) {
    const line = lines.find(([first]) => onOneLine(first, side) === 1)
    if (line === undefined) lines.push([side])
    else line.push(side)
  }
  return lines.flatMap((line) =>
    joined(line.map(({ span }) => span)).map(
      ([low, high]): Segment2 => [pointAt(line[0], low), pointAt(line[0], high)],
    ),
  )
}
