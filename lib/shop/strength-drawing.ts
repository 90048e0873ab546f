/**
 * Drawings of a strength report in the plane: an elevation of the piece with its deflected shape, and its feet from
 * above. In: world points, mm. Out: points for an SVG, mm, y down, and the frame that they fill. Front: from the
 * sitter's side, x to the right; side: from the right, away from the sitter to the right. Tests: tests/shop/strength-drawing.test.ts
 */
import { convexHull, type Vec2 } from '#lib/core/geometry/polygon2'
import { add, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { DeflectedShape, DrawnPart } from '#lib/core/statics/deflected-shape'
import type { TippingReport } from '#lib/core/statics/tipping-report'

export type Elevation = 'front' | 'side'

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** @example onElevation('side', [1, 2, 3]) //=> [2, -3] */
export const onElevation = (view: Elevation, p: Vec3): Vec2 => [view === 'front' ? p[0] : p[1], -p[2]]

const ROUND = [1, 2, 5] as const

/** The largest of 1, 2, 5, 10, 20… that keeps `mostMm` within `roomMm`; 1 at least. @example timesLarger(0.4, 50) //=> 100 */
export function timesLarger(mostMm: number, roomMm: number): number {
  if (!(mostMm > 0)) return 1
  const most = roomMm / mostMm
  let times = 1
  for (let power = 1; power <= 1000; power *= 10)
    for (const step of ROUND) if (step * power <= most) times = step * power
  return times
}

function boxOf(points: readonly Vec2[], roomMm: number): Box {
  const xs = points.map(([x]) => x)
  const ys = points.map(([, y]) => y)
  const [left, top] = [Math.min(...xs) - roomMm, Math.min(...ys) - roomMm]
  return { x: left, y: top, width: Math.max(...xs) + roomMm - left, height: Math.max(...ys) + roomMm - top }
}

/** @example svgPoints([[1.26, 2]]) //=> '1.3,2' */
export const svgPoints = (points: readonly Vec2[]): string =>
  points.map(([x, y]) => `${Number(x.toFixed(1))},${Number(y.toFixed(1))}`).join(' ')

/** Lines, each drawn once: parts that stand behind each other are seen as one. */
function distinct(lines: readonly (readonly Vec2[])[]): (readonly Vec2[])[] {
  return [...new Map(lines.map((line) => [svgPoints(line), line])).values()]
}

export interface ShapeDrawing {
  readonly view: Elevation
  readonly box: Box
  readonly parts: readonly { readonly partId: string; readonly outline: readonly Vec2[] }[]
  /** Absent where no load bends it. */
  readonly deflected?: { readonly times: number; readonly lines: readonly (readonly Vec2[])[] }
  readonly mark: Vec2
}

/** The view in which more of the movement is seen; a tie shows the front. */
function viewOf(shape: DeflectedShape | undefined): Elevation {
  let [x, y] = [0, 0]
  for (const { rest, moved } of shape?.lines ?? [])
    moved.forEach((p, i) => {
      x = Math.max(x, Math.abs(p[0] - rest[i][0]))
      y = Math.max(y, Math.abs(p[1] - rest[i][1]))
    })
  return y > x * 1.001 ? 'side' : 'front'
}

/** Share of the piece's size that the greatest movement is drawn as. */
const MOVED_SHARE = 0.09

/**
 * The piece as it stands, and as it bends, drawn larger.
 * @param at where it hurts
 */
export function shapeDrawing(
  parts: readonly DrawnPart[],
  shape: DeflectedShape | undefined,
  at: Vec3,
): ShapeDrawing {
  const view = viewOf(shape)
  const outlines = parts.map(({ partId, corners }) => ({
    partId,
    outline: convexHull(corners.map((p) => onElevation(view, p))),
  }))
  const bare = boxOf(
    outlines.flatMap(({ outline }) => outline),
    0,
  )
  const size = Math.max(bare.width, bare.height)
  const times = timesLarger(shape?.mostMm ?? 0, MOVED_SHARE * size)
  const lines = distinct(
    (shape?.lines ?? []).map(({ rest, moved }) =>
      rest.map((p, i) => onElevation(view, add(p, scale(sub(moved[i], p), times)))),
    ),
  )
  const mark = onElevation(view, at)
  return {
    view,
    parts: outlines,
    mark,
    box: boxOf([...outlines.flatMap(({ outline }) => outline), ...lines.flat(), mark], size * 0.05),
    ...(lines.length > 0 ? { deflected: { times, lines } } : {}),
  }
}

const down = ([x, y]: readonly [number, number, ...number[]]): Vec2 => [x, -y]

export interface FeetDrawing {
  readonly box: Box
  readonly support: readonly Vec2[]
  readonly surface: readonly Vec2[]
  readonly feet: readonly Vec2[]
  readonly centre: Vec2
  readonly load: Vec2
  /** The line about which it would go over first. */
  readonly line: readonly [Vec2, Vec2]
  /** From the load, outwards. */
  readonly arrow: readonly [Vec2, Vec2]
}

/** The feet from above, the sitter at the bottom, with the direction in which it goes over first. */
export function feetDrawing({ piece, support, cases }: TippingReport): FeetDrawing | undefined {
  const [first] = cases
  if (!first) return undefined
  const { worst } = cases.reduce((a, b) => (b.worst.factor < a.worst.factor ? b : a), first)
  const outer = [...support, ...convexHull(piece.surface)].map(down)
  const bare = boxOf(outer, 0)
  const size = Math.max(bare.width, bare.height)
  const tip: Vec2 = [
    worst.loadAt[0] + worst.towards[0] * size * 0.22,
    worst.loadAt[1] + worst.towards[1] * size * 0.22,
  ]
  return {
    box: boxOf([...outer, down(tip), down(worst.loadAt)], size * 0.07),
    support: support.map(down),
    surface: convexHull(piece.surface).map(down),
    feet: distinct(piece.feet.map((p) => [down(p)])).flat(),
    centre: down(piece.centre),
    load: down(worst.loadAt),
    line: [down(worst.from), down(worst.to)],
    arrow: [down(worst.loadAt), down(tip)],
  }
}
