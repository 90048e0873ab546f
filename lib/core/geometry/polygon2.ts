/**
 * Flat polygons as lists of corners, counter-clockwise seen from above. Lengths in mm, areas in mm2.
 * Clipping by half-planes after Sutherland and Hodgman (1974); everything but `area`, `centroid` and
 * `isPointInPolygon` wants convex polygons. Pieces thinner than EDGE_MM are dropped.
 * Tests: tests/core/geometry/polygon2.test.ts
 */
export type Vec2 = readonly [number, number]
export type Polygon2 = readonly Vec2[]

/** The half-plane n·p <= c that is kept. `n` points away from it and has length 1 where distances matter. */
export interface HalfPlane {
  readonly normal: Vec2
  readonly offset: number
}

/** Two corners nearer than this, in mm, are one. */
export const EDGE_MM = 1e-7

/** Signed area: positive counter-clockwise. @example area([[0, 0], [2, 0], [2, 3], [0, 3]]) //=> 6 */
export function area(polygon: Polygon2): number {
  let twice = 0
  for (let i = 0; i < polygon.length; i++) {
    const [x0, y0] = polygon[i]
    const [x1, y1] = polygon[(i + 1) % polygon.length]
    twice += x0 * y1 - x1 * y0
  }
  return twice / 2
}

/** Centre of gravity. @throws RangeError for a polygon without area */
export function centroid(polygon: Polygon2): Vec2 {
  const size = area(polygon)
  if (size === 0) throw new RangeError('a polygon without area has no centroid')
  let sumX = 0
  let sumY = 0
  for (let i = 0; i < polygon.length; i++) {
    const [x0, y0] = polygon[i]
    const [x1, y1] = polygon[(i + 1) % polygon.length]
    const w = x0 * y1 - x1 * y0
    sumX += (x0 + x1) * w
    sumY += (y0 + y1) * w
  }
  return [sumX / (6 * size), sumY / (6 * size)]
}

/** @example rectangle(0, 0, 2, 1) //=> [[0, 0], [2, 0], [2, 1], [0, 1]] */
export const rectangle = (x0: number, y0: number, x1: number, y1: number): Polygon2 => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
]

const distanceOut = ({ normal, offset }: HalfPlane, p: Vec2): number =>
  normal[0] * p[0] + normal[1] * p[1] - offset

function withoutRepeats(points: readonly Vec2[]): Polygon2 {
  const kept = points.filter((p, i) => {
    const q = points[(i + points.length - 1) % points.length]
    return Math.hypot(p[0] - q[0], p[1] - q[1]) > EDGE_MM
  })
  return kept.length < 3 ? [] : kept
}

/** 1 if all corners lie inside, -1 if none does, 0 if the line may cut the polygon. */
function sideOf(polygon: Polygon2, plane: HalfPlane): 1 | 0 | -1 {
  let [inside, outside] = [false, false]
  for (const p of polygon) {
    if (distanceOut(plane, p) <= 0) inside = true
    else outside = true
    if (inside && outside) return 0
  }
  return outside ? -1 : 1
}

/** The part of a convex polygon inside the half-plane; an empty list if nothing is left. */
export function clipByHalfPlane(polygon: Polygon2, plane: HalfPlane): Polygon2 {
  const side = sideOf(polygon, plane)
  if (side !== 0) return side === 1 ? polygon : []
  const out: Vec2[] = []
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i]
    const q = polygon[(i + 1) % polygon.length]
    const dp = distanceOut(plane, p)
    const dq = distanceOut(plane, q)
    if (dp <= 0) out.push(p)
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) {
      const t = dp / (dp - dq)
      out.push([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t])
    }
  }
  return withoutRepeats(out)
}

/** The sides of a convex counter-clockwise polygon as half-planes. */
export function sidesOf(polygon: Polygon2): HalfPlane[] {
  return polygon.map((p, i) => {
    const q = polygon[(i + 1) % polygon.length]
    const size = Math.hypot(q[0] - p[0], q[1] - p[1])
    const normal: Vec2 = [(q[1] - p[1]) / size, (p[0] - q[0]) / size]
    return { normal, offset: normal[0] * p[0] + normal[1] * p[1] }
  })
}

/**
 * What two convex counter-clockwise polygons share; an empty list if they share no area.
 * @example area(intersectConvex(rectangle(0, 0, 2, 2), rectangle(1, 1, 3, 3))) //=> 1
 */
export function intersectConvex(a: Polygon2, b: Polygon2): Polygon2 {
  if (a.length === 0 || b.length === 0) return []
  return sidesOf(b).reduce<Polygon2>((left, side) => clipByHalfPlane(left, side), a)
}

/** Convex pieces of convex `a` that lie outside convex `b`. */
export function subtractConvex(a: Polygon2, b: Polygon2): Polygon2[] {
  if (intersectConvex(a, b).length === 0) return a.length === 0 ? [] : [a]
  const pieces: Polygon2[] = []
  let rest: Polygon2 = a
  for (const side of sidesOf(b)) {
    const outside = clipByHalfPlane(rest, {
      normal: [-side.normal[0], -side.normal[1]],
      offset: -side.offset,
    })
    if (Math.abs(area(outside)) > EDGE_MM) pieces.push(outside)
    rest = clipByHalfPlane(rest, side)
  }
  return pieces
}

/** Any simple polygon; a point on its border counts as inside within `tolerance` mm. */
export function isPointInPolygon(polygon: Polygon2, [x, y]: Vec2, tolerance = 1e-9): boolean {
  let inside = false
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i]
    const [xj, yj] = polygon[j]
    if (distanceToSegment([x, y], polygon[j], polygon[i]) <= tolerance) return true
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside
  }
  return inside
}

/** @example distanceToSegment([0, 1], [-1, 0], [1, 0]) //=> 1 */
export function distanceToSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  const size2 = dx * dx + dy * dy
  const along = size2 === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size2
  const t = Math.min(1, Math.max(0, along))
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)
}

/**
 * The smallest convex polygon around points, counter-clockwise (Andrew's monotone chain, 1979).
 * @example convexHull([[0, 0], [1, 0], [0.5, 0.1], [0, 1]]).length //=> 3
 */
export function convexHull(points: readonly Vec2[]): Polygon2 {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (list: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = []
    for (const p of list) {
      while (chain.length > 1 && turn(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop()
      chain.push(p)
    }
    chain.pop()
    return chain
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

const turn = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
