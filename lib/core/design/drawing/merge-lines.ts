/**
 * Joins straight stretches that lie on one line: each is drawn once, and hidden ones only where nothing
 * visible lies over them. mm. Tests: tests/core/design/drawing/hidden-lines.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'

export type Segment2 = readonly [Vec2, Vec2]
type Interval = readonly [number, number]

/** Stretches further than this from a line, in mm, do not lie on it. */
const ON_LINE_MM = 0.01
/** Gaps and rests shorter than this, in mm, are not drawn. */
const LEAST_MM = 0.05
/** Directions in one turn of half a circle that are looked at together. */
const SLOTS = 720

interface Line {
  readonly origin: Vec2
  readonly along: Vec2
  readonly visible: Interval[]
  readonly hidden: Interval[]
}

const sizeOf = ([a, b]: Segment2): number => Math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)

/** Distance of a point to a line, to its left. */
const offLine = ({ origin, along }: Line, p: Vec2): number =>
  along[0] * (p[1] - origin[1]) - along[1] * (p[0] - origin[0])
const onLine = ({ origin, along }: Line, p: Vec2): number =>
  along[0] * (p[0] - origin[0]) + along[1] * (p[1] - origin[1])

function slotOf([a, b]: Segment2): number {
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0])
  const half = angle < 0 ? angle + Math.PI : angle
  return Math.round((half / Math.PI) * SLOTS) % SLOTS
}

function lineFor(slots: Map<number, Line[]>, segment: Segment2): Line {
  const slot = slotOf(segment)
  for (const near of [slot, (slot + 1) % SLOTS, (slot + SLOTS - 1) % SLOTS]) {
    const found = slots
      .get(near)
      ?.find((line) => segment.every((p) => Math.abs(offLine(line, p)) < ON_LINE_MM))
    if (found !== undefined) return found
  }
  const [a, b] = segment
  const size = sizeOf(segment)
  const along: Vec2 = [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
  const line: Line = { origin: a, along, visible: [], hidden: [] }
  const list = slots.get(slot)
  if (list === undefined) slots.set(slot, [line])
  else list.push(line)
  return line
}

/** Intervals joined where they touch, in order. @example union([[2, 3], [0, 1], [1, 2]]) //=> [[0, 3]] */
export function union(intervals: readonly Interval[]): Interval[] {
  const out: [number, number][] = []
  for (const [low, high] of [...intervals].sort((a, b) => a[0] - b[0])) {
    const last = out[out.length - 1]
    if (last !== undefined && low <= last[1] + LEAST_MM) last[1] = Math.max(last[1], high)
    else out.push([low, high])
  }
  return out
}

/** What is left of `intervals` outside `others`, both joined and in order. */
export function difference(intervals: readonly Interval[], others: readonly Interval[]): Interval[] {
  return intervals.flatMap(([low, high]) => {
    const left: Interval[] = []
    let from = low
    for (const [a, b] of others) {
      if (b <= from || a >= high) continue
      if (a > from) left.push([from, a])
      from = Math.max(from, b)
    }
    if (from < high) left.push([from, high])
    return left
  })
}

/** Both lists merged; the longest stretch of a line gives it its direction. */
export function mergeLines(
  visible: readonly Segment2[],
  hidden: readonly Segment2[],
): { visible: Segment2[]; hidden: Segment2[] } {
  const slots = new Map<number, Line[]>()
  const all = [
    ...visible.map((segment) => ({ segment, size: sizeOf(segment), kind: 'visible' as const })),
    ...hidden.map((segment) => ({ segment, size: sizeOf(segment), kind: 'hidden' as const })),
  ].filter(({ size }) => size > LEAST_MM / 10)
  all.sort((a, b) => b.size - a.size)
  for (const { segment, kind } of all) {
    const line = lineFor(slots, segment)
    const [s, t] = [onLine(line, segment[0]), onLine(line, segment[1])]
    line[kind].push([Math.min(s, t), Math.max(s, t)])
  }
  const out = { visible: [] as Segment2[], hidden: [] as Segment2[] }
  for (const line of [...slots.values()].flat()) {
    const point = (t: number): Vec2 => [
      line.origin[0] + line.along[0] * t,
      line.origin[1] + line.along[1] * t,
    ]
    const keep = (list: Segment2[], intervals: readonly Interval[]): void => {
      for (const [low, high] of intervals) if (high - low > LEAST_MM) list.push([point(low), point(high)])
    }
    const seen = union(line.visible)
    keep(out.visible, seen)
    keep(out.hidden, difference(union(line.hidden), seen))
  }
  return out
}
