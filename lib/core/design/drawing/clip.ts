/** Straight lines and level boxes, after Liang and Barsky (1984). mm. Tests: tests/core/design/drawing/clip.test.ts */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { Bounds2 } from './drawing'
import type { Segment2 } from './merge-lines'

/** The stretch of a line within a box, as shares of its way; undefined if none is. */
function stretchWithin([a, b]: Segment2, { min, max }: Bounds2): readonly [number, number] | undefined {
  let [low, high] = [0, 1]
  for (const i of [0, 1] as const) {
    const run = b[i] - a[i]
    if (run === 0) {
      if (a[i] < min[i] || a[i] > max[i]) return undefined
      continue
    }
    const [s, t] = [(min[i] - a[i]) / run, (max[i] - a[i]) / run]
    low = Math.max(low, Math.min(s, t))
    high = Math.min(high, Math.max(s, t))
  }
  return low < high ? [low, high] : undefined
}

/** Whether any of a line lies inside a box. @example crossesBox([[0, 0], [9, 0]], { min: [2, -1], max: [3, 1] }) //=> true */
export const crossesBox = (segment: Segment2, box: Bounds2): boolean =>
  stretchWithin(segment, box) !== undefined

/** What of a line lies within a box, its own ends kept as they are. @example clippedTo([[0, 0], [9, 0]], { min: [2, -1], max: [3, 1] }) //=> [[2, 0], [3, 0]] */
export function clippedTo(segment: Segment2, box: Bounds2): Segment2 | undefined {
  const stretch = stretchWithin(segment, box)
  if (stretch === undefined) return undefined
  const [[a, b], [low, high]] = [segment, stretch]
  const at = (t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
  return [low === 0 ? a : at(low), high === 1 ? b : at(high)]
}
