/**
 * Drawings of a strength report for paper: the piece as it bends with the place that hurts ringed, and its feet from
 * above with the way in which it tips first. In: what the page draws (lib/shop/strength-drawing.ts, y down). Out:
 * drawings (y up). Parts that hurt in thick lines, the others thin; bent axes as chain lines.
 * Tests: tests/documents/strength/report-content.test.ts
 */
import { boundsOf, type Drawing, type DrawnLine } from '#lib/core/design/drawing/drawing'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { FeetDrawing, ShapeDrawing } from '#lib/shop/strength-drawing'

const up = ([x, y]: Vec2): Vec2 => [x, -y]
const closed = (points: readonly Vec2[]): Vec2[] => [...points, points[0]].map(up)

const RING_STEPS = 24

function ring([x, y]: Vec2, radius: number): Vec2[] {
  return Array.from({ length: RING_STEPS + 1 }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / RING_STEPS
    return [x + radius * Math.cos(angle), -y + radius * Math.sin(angle)]
  })
}

const drawing = (
  view: Drawing['view'],
  title: string,
  lines: readonly DrawnLine[],
  more: Partial<Drawing> = {},
) =>
  ({
    view,
    title,
    bounds: boundsOf(lines.flatMap(({ points }) => points)),
    lines,
    arrows: [],
    texts: [],
    ...more,
  }) satisfies Drawing

/** @param hurt parts of the check that is shown */
export function shapeOnPaper(shape: ShapeDrawing, hurt: ReadonlySet<string>): Drawing {
  const size = Math.max(shape.box.width, shape.box.height)
  const parts = shape.parts.map(
    ({ partId, outline }): DrawnLine => ({
      kind: hurt.has(partId) ? 'visible' : 'dimension',
      points: closed(outline),
    }),
  )
  const bent = (shape.deflected?.lines ?? []).map(
    (line): DrawnLine => ({ kind: 'axis', points: line.map(up) }),
  )
  const mark: DrawnLine = { kind: 'visible', points: ring(shape.mark, size * 0.035) }
  return drawing(shape.view, 'Where it is closest to failing', [...parts, ...bent, mark])
}

export function feetOnPaper(feet: FeetDrawing): Drawing {
  const size = Math.max(feet.box.width, feet.box.height)
  const dot = size * 0.012
  const [tail, tip] = [up(feet.arrow[0]), up(feet.arrow[1])]
  const turn = Math.atan2(tip[1] - tail[1], tip[0] - tail[0])
  const barb = (side: 1 | -1): Vec2 => [
    tip[0] - 4.3 * dot * Math.cos(turn + side * 0.35),
    tip[1] - 4.3 * dot * Math.sin(turn + side * 0.35),
  ]
  const lines: DrawnLine[] = [
    { kind: 'dimension', points: closed(feet.support) },
    { kind: 'hidden', points: closed(feet.surface) },
    { kind: 'visible', points: feet.line.map(up) },
    { kind: 'visible', points: [tail, tip] },
    { kind: 'dimension', points: ring(feet.centre, dot * 1.4) },
    { kind: 'visible', points: ring(feet.load, dot * 1.4) },
    ...feet.feet.map((p): DrawnLine => ({ kind: 'visible', points: ring(p, dot * 0.7) })),
  ]
  return drawing('top', 'The feet from above', lines, { arrows: [{ points: [tip, barb(1), barb(-1)] }] })
}
