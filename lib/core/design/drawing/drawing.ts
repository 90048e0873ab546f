/**
 * A drawing as plain data: lines, arrows and texts in the plane of a view, mm, x to the right and y up.
 * Line kinds after ISO 128-2: visible edges thick, hidden edges dashed, axes chain thin, surroundings
 * double-dash thin, dimensions thin after ISO 129-1. What draws it (SVG, PDF) chooses widths and colours.
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { ViewName } from '../model'

/** `clash`: where the piece and its place would have to be at once, hatched. */
export type LineKind = 'visible' | 'hidden' | 'axis' | 'surroundings' | 'dimension' | 'floor' | 'clash'

export interface DrawnLine {
  readonly kind: LineKind
  readonly points: readonly Vec2[]
}

/** A filled arrowhead: tip first. */
export interface DrawnArrow {
  readonly points: readonly [Vec2, Vec2, Vec2]
}

export interface DrawnText {
  readonly text: string
  /** Middle of the text's box. */
  readonly at: Vec2
  readonly heightMm: number
  readonly widthMm: number
  /** Turned counter-clockwise from level. */
  readonly angleRad: number
  readonly kind: 'dimension' | 'label'
  /** The dimension that it belongs to. */
  readonly dimensionId?: string
}

export interface Bounds2 {
  readonly min: Vec2
  readonly max: Vec2
}

/** What is drawn, whatever it shows. */
export interface Sketch {
  readonly title: string
  readonly bounds: Bounds2
  readonly lines: readonly DrawnLine[]
  readonly arrows: readonly DrawnArrow[]
  readonly texts: readonly DrawnText[]
}

/** What a sketch is made of. */
export type Strokes = Pick<Sketch, 'lines' | 'arrows' | 'texts'>

/** All of it, moved. */
export function movedBy({ lines, arrows, texts }: Strokes, [dx, dy]: Vec2): Strokes {
  const move = ([x, y]: Vec2): Vec2 => [x + dx, y + dy]
  return {
    lines: lines.map((line) => ({ ...line, points: line.points.map(move) })),
    arrows: arrows.map(({ points: [a, b, c] }) => ({ points: [move(a), move(b), move(c)] })),
    texts: texts.map((text) => ({ ...text, at: move(text.at) })),
  }
}

/** A view of a whole model. */
export interface Drawing extends Sketch {
  readonly view: ViewName
}

/** Right, up and towards the eye. */
export interface ViewAxes {
  readonly right: Vec3
  readonly up: Vec3
  readonly towards: Vec3
}

/** Front: as the sitter walks up to it. Side: from the right. Top: from above, counter at the top. */
export const VIEW_AXES: Readonly<Record<ViewName, ViewAxes>> = {
  front: { right: [1, 0, 0], up: [0, 0, 1], towards: [0, -1, 0] },
  side: { right: [0, 1, 0], up: [0, 0, 1], towards: [1, 0, 0] },
  top: { right: [1, 0, 0], up: [0, 1, 0], towards: [0, 0, 1] },
}

export const VIEWS: readonly ViewName[] = ['front', 'side', 'top']

export const project = ({ right, up }: ViewAxes, p: Vec3): Vec2 => [
  right[0] * p[0] + right[1] * p[1] + right[2] * p[2],
  up[0] * p[0] + up[1] * p[1] + up[2] * p[2],
]

export function boundsOf(points: Iterable<Vec2>): Bounds2 {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const [x, y] of points) {
    minX = Math.min(minX, x)
    minY = Math.min(minY, y)
    maxX = Math.max(maxX, x)
    maxY = Math.max(maxY, y)
  }
  return { min: [minX, minY], max: [maxX, maxY] }
}

/** Corners of a text's box. */
export function textBox({ at, widthMm, heightMm, angleRad }: DrawnText): readonly Vec2[] {
  const [c, s] = [Math.cos(angleRad), Math.sin(angleRad)]
  const corner = (u: number, v: number): Vec2 => [
    at[0] + (u * widthMm * c - v * heightMm * s) / 2,
    at[1] + (u * widthMm * s + v * heightMm * c) / 2,
  ]
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]
}
