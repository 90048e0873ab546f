/**
 * Gives dimensions their places around a view: shorter ones nearer to the object, none over another, each text
 * clear of the extension lines that pass. mm, view coordinates; text height `h` sets all distances.
 * After ISO 129-1: text over its line and readable from below or from the right, arrows turned outwards where the
 * room is small. Tests: tests/core/design/drawing/dimension-layout.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { type Bounds2, boundsOf, type DrawnArrow, type DrawnLine, type DrawnText, textBox } from './drawing'
import { difference, union } from './merge-lines'

export type Side = 'left' | 'right' | 'above' | 'below'

/** A dimension as the view sees it. */
export interface FlatDimension {
  readonly id: string
  readonly side: Side
  readonly from: Vec2
  readonly to: Vec2
  readonly text: string
  /** Stands close to the object where there is room for it. */
  readonly near?: boolean
}

export interface PlacedDimensions {
  readonly lines: readonly DrawnLine[]
  readonly arrows: readonly DrawnArrow[]
  readonly texts: readonly DrawnText[]
}

/** Share of its height that a character is wide, on average, with tabular figures. */
export const CHARACTER_WIDTH = 0.62
export const textWidth = (text: string, heightMm: number): number => text.length * CHARACTER_WIDTH * heightMm

/** In text heights. */
const FIRST_ROW = 1.7
const ROW = 1.9
const TEXT_ABOVE_LINE = 0.75
const ARROW = 0.75
const BEYOND = 0.4
const GAP = 0.3
const ROOM_BETWEEN = 0.4

type Axis = 0 | 1
const alongOf = (side: Side): Axis => (side === 'left' || side === 'right' ? 1 : 0)

interface Row {
  readonly dimension: FlatDimension
  readonly low: number
  readonly high: number
  /** What the dimension takes along its row, text and outer arrows included. */
  readonly takes: readonly [number, number]
  readonly textAt: number
  readonly arrowsOutside: boolean
  level: number
}

/** @param ends where the extension lines of all dimensions of this side stand */
function measure(dimension: FlatDimension, ends: readonly number[], h: number): Row {
  const axis = alongOf(dimension.side)
  const low = Math.min(dimension.from[axis], dimension.to[axis])
  const high = Math.max(dimension.from[axis], dimension.to[axis])
  const width = textWidth(dimension.text, h)
  const arrowsOutside = high - low < 3.2 * ARROW * h
  const tail = arrowsOutside ? 2 * ARROW * h : 0
  if (high - low >= width + GAP * h && !arrowsOutside) {
    return { dimension, low, high, takes: [low, high], textAt: (low + high) / 2, arrowsOutside, level: 0 }
  }
  // The text stands past one end, on the line's own continuation: the end where fewer extension lines pass.
  const away = tail + (width + GAP * h) / 2
  const crossings = (at: number): number => ends.filter((end) => Math.abs(end - at) < width / 2).length
  const isLow = crossings(low - away) < crossings(high + away)
  const textAt = isLow ? low - away : high + away
  const takes = [Math.min(low - tail, textAt - width / 2), Math.max(high + tail, textAt + width / 2)] as const
  return { dimension, low, high, takes, textAt, arrowsOutside, level: 0 }
}

const overlap = (a: readonly [number, number], b: readonly [number, number], room: number): boolean =>
  a[0] < b[1] + room && b[0] < a[1] + room

/** The nearest free row for each, shorter dimensions first. Two of one start and end are one. */
function putInRows(dimensions: readonly FlatDimension[], h: number): Row[] {
  const ends = dimensions.flatMap(({ side, from, to }) => [from[alongOf(side)], to[alongOf(side)]])
  const rows = dimensions.map((dimension) => measure(dimension, ends, h))
  rows.sort((a, b) => a.high - a.low - (b.high - b.low) || a.low - b.low)
  const placed: Row[] = []
  for (const row of rows) {
    if (placed.some((other) => sameStretch(row, other))) continue
    const blocks = placed.filter((other) => crowds(row, other, h))
    row.level = blocks.length === 0 ? 0 : Math.max(...blocks.map((other) => other.level)) + 1
    placed.push(row)
  }
  return placed
}

/** In one row, dimensions with their text inside may touch, as a chain; others keep a distance. */
const crowds = (a: Row, b: Row, h: number): boolean =>
  overlap(a.takes, b.takes, isSnug(a) && isSnug(b) ? -1e-6 : ROOM_BETWEEN * h)

const isSnug = ({ takes, low, high }: Row): boolean => takes[0] === low && takes[1] === high

const sameStretch = (a: Row, b: Row): boolean =>
  Math.abs(a.low - b.low) < 1e-6 && Math.abs(a.high - b.high) < 1e-6

/** A place for the text between its arrows at which no extension line of an outer row crosses it. */
function clearTextAt(row: Row, rows: readonly Row[], h: number): number {
  const half = textWidth(row.dimension.text, h) / 2
  if (row.textAt > row.high || row.textAt < row.low) return row.textAt
  const crossing = rows.filter((other) => other.level > row.level).flatMap((other) => [other.low, other.high])
  const isClear = (at: number): boolean => crossing.every((c) => Math.abs(c - at) > half + 0.15 * h)
  const room = (row.high - row.low) / 2 - half - GAP * h
  for (let step = 0; step <= room; step += h / 4) {
    for (const at of [row.textAt + step, row.textAt - step]) if (isClear(at)) return at
  }
  return row.textAt
}

class Pen {
  readonly lines: DrawnLine[] = []
  readonly arrows: DrawnArrow[] = []
  readonly texts: DrawnText[] = []
  constructor(
    readonly axis: Axis,
    readonly h: number,
  ) {}

  /** A point from its place along the dimension and across it. */
  at(along: number, across: number): Vec2 {
    return this.axis === 0 ? [along, across] : [across, along]
  }

  line(a: Vec2, b: Vec2): void {
    this.lines.push({ kind: 'dimension', points: [a, b] })
  }

  /** Tip at `along`, pointing the `way` of the axis. */
  arrow(along: number, across: number, way: 1 | -1): void {
    const back = along - way * ARROW * this.h
    const half = 0.17 * ARROW * this.h * 2
    this.arrows.push({
      points: [this.at(along, across), this.at(back, across + half), this.at(back, across - half)],
    })
  }
}

function drawRow(pen: Pen, row: Row, lineAt: number, outward: 1 | -1, textAt: number): void {
  const { h, axis } = pen
  const { dimension, low, high } = row
  const across: Axis = axis === 0 ? 1 : 0
  for (const point of [dimension.from, dimension.to]) {
    const foot = point[across] + outward * GAP * h
    if ((lineAt - foot) * outward > 0) {
      pen.line(pen.at(point[axis], foot), pen.at(point[axis], lineAt + outward * BEYOND * h))
    }
  }
  const tail = row.arrowsOutside ? 2 * ARROW * h : 0
  const half = textWidth(dimension.text, h) / 2
  const start = textAt < low ? textAt - half : low - tail
  const end = textAt > high ? textAt + half : high + tail
  pen.line(pen.at(start, lineAt), pen.at(end, lineAt))
  pen.arrow(low, lineAt, row.arrowsOutside ? 1 : -1)
  pen.arrow(high, lineAt, row.arrowsOutside ? -1 : 1)
  // Over the line as it is read: up for level text, to the left for text read from the right.
  const over = axis === 0 ? 1 : -1
  pen.texts.push({
    text: dimension.text,
    at: pen.at(textAt, lineAt + over * TEXT_ABOVE_LINE * h),
    heightMm: h,
    widthMm: textWidth(dimension.text, h),
    angleRad: axis === 0 ? 0 : Math.PI / 2,
    kind: 'dimension',
    dimensionId: dimension.id,
  })
}

function placeSide(
  side: Side,
  dimensions: readonly FlatDimension[],
  edge: number,
  h: number,
): PlacedDimensions {
  const outward = side === 'right' || side === 'above' ? 1 : -1
  const pen = new Pen(alongOf(side), h)
  const rows = putInRows(dimensions, h)
  for (const row of rows) {
    const lineAt = edge + outward * h * (FIRST_ROW + ROW * row.level)
    drawRow(pen, row, lineAt, outward, clearTextAt(row, rows, h))
  }
  return pen
}

/** Whether a strip beside the object, as wide as its rows of dimensions, holds nothing that is drawn. */
function hasRoom(
  side: Side,
  rows: readonly Row[],
  edge: number,
  obstacles: readonly Bounds2[],
  h: number,
): boolean {
  const axis = alongOf(side)
  const across: Axis = axis === 0 ? 1 : 0
  const depth = h * (FIRST_ROW + ROW * Math.max(...rows.map((row) => row.level)) + ROW)
  const strip =
    side === 'right' || side === 'above' ? ([edge, edge + depth] as const) : ([edge - depth, edge] as const)
  const stretch = [
    Math.min(...rows.map((row) => row.takes[0])),
    Math.max(...rows.map((row) => row.takes[1])),
  ] as const
  return !obstacles.some(
    ({ min, max }) =>
      overlap(strip, [min[across], max[across]], 0) && overlap(stretch, [min[axis], max[axis]], 0),
  )
}

/** Where dimensions may stand. */
export interface Surroundings {
  /** Around the object alone. */
  readonly object: Bounds2
  /** Around everything that is drawn. */
  readonly all: Bounds2
  /** What stands outside the object. */
  readonly obstacles: readonly Bounds2[]
}

const edgeOf = (box: Bounds2, side: Side): number => {
  const across: Axis = alongOf(side) === 0 ? 1 : 0
  return side === 'right' || side === 'above' ? box.max[across] : box.min[across]
}

/** The edge that rows start from, moved out past texts that stand in their way already. */
function clearEdge(
  side: Side,
  edge: number,
  rows: readonly Row[],
  placed: readonly DrawnText[],
  h: number,
): number {
  if (rows.length === 0) return edge
  const axis = alongOf(side)
  const across: Axis = axis === 0 ? 1 : 0
  const stretch = [
    Math.min(...rows.map((row) => row.takes[0])),
    Math.max(...rows.map((row) => row.takes[1])),
  ] as const
  const inWay = placed
    .map((text) => boundsOf(textBox(text)))
    .filter(({ min, max }) => overlap(stretch, [min[axis], max[axis]], GAP * h))
  return side === 'right' || side === 'above'
    ? Math.max(edge, ...inWay.map((box) => box.max[across]))
    : Math.min(edge, ...inWay.map((box) => box.min[across]))
}

/** Upright ones first: level ones below and above keep clear of their texts. */
const SIDES: readonly Side[] = ['left', 'right', 'above', 'below']

/**
 * Places dimensions around what is drawn.
 * @param h text height, in mm of the drawing
 */
export function placeDimensions(
  dimensions: readonly FlatDimension[],
  around: Surroundings,
  h: number,
): PlacedDimensions {
  const placed: PlacedDimensions[] = []
  for (const side of SIDES) {
    const own = dimensions.filter((dimension) => dimension.side === side)
    const near = own.filter((dimension) => dimension.near === true)
    const closeEdge = edgeOf(around.object, side)
    const isClose = near.length > 0 && hasRoom(side, putInRows(near, h), closeEdge, around.obstacles, h)
    const groups = isClose
      ? [
          { list: near, edge: closeEdge },
          { list: own.filter((dimension) => dimension.near !== true), edge: edgeOf(around.all, side) },
        ]
      : [{ list: own, edge: edgeOf(around.all, side) }]
    for (const { list, edge } of groups) {
      const texts = placed.flatMap((part) => part.texts)
      placed.push(placeSide(side, list, clearEdge(side, edge, putInRows(list, h), texts, h), h))
    }
  }
  const texts = placed.flatMap((part) => part.texts)
  return {
    lines: placed.flatMap((part) => part.lines).flatMap((line) => brokenAt(line, texts)),
    arrows: placed.flatMap((part) => part.arrows),
    texts,
  }
}

/** A level or upright line without the stretches that figures take: where a figure has no other room, it is broken. */
function brokenAt({ kind, points }: DrawnLine, texts: readonly DrawnText[]): DrawnLine[] {
  const [a, b] = points
  const axis: Axis = a[0] === b[0] ? 1 : 0
  const across: Axis = axis === 0 ? 1 : 0
  const gaps = texts
    .map((text) => boundsOf(textBox(text)))
    .filter(({ min, max }) => a[across] > min[across] && a[across] < max[across])
    .map(({ min, max }) => [min[axis], max[axis]] as const)
  const whole = [Math.min(a[axis], b[axis]), Math.max(a[axis], b[axis])] as const
  const point = (along: number): Vec2 => (axis === 0 ? [along, a[1]] : [a[0], along])
  return difference([whole], union(gaps)).map(([from, to]) => ({ kind, points: [point(from), point(to)] }))
}
