/**
 * From a model and the meshes of its parts to drawings: edges seen and hidden, screw axes, the place that it is
 * fitted to, floor, dimensions. mm. The first of several units is drawn alone. Two steps, so that a change of text
 * size need not look for hidden lines again: `modelViews` once a model, `drawView` once a size.
 * Tests: tests/core/design/drawing/draw-model.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { SolidKernel } from '#lib/core/geometry/solid'
import type { Clash, Dimension, Model, PlaceBox, ViewName } from '../model'
import { outlineMeshes, type PlacedMesh } from '../part-solid'
import { placeAngle } from './angle-dimension'
import { crossesBox } from './clip'
import { type FlatDimension, placeDimensions, textWidth } from './dimension-layout'
import {
  type Bounds2,
  boundsOf,
  type Drawing,
  type DrawnLine,
  type DrawnText,
  project,
  textBox,
  VIEW_AXES,
  VIEWS,
} from './drawing'
import { type SeenLines, seenLines } from './hidden-lines'
import { mergeLines, type Segment2 } from './merge-lines'

/** What a view shows, before texts and dimensions. */
export interface ModelView {
  readonly view: ViewName
  readonly seen: SeenLines
  readonly axes: readonly Segment2[]
  /** Around the parts that are drawn. */
  readonly object: Bounds2
}

/** Surroundings that reach further than this share of the object beyond it are broken off. */
const BROKEN_BEYOND = 0.6
/** And end at this share beyond it. On a narrow drawing, whatever reaches further ends there. */
const BROKEN_AT = 0.15
const TITLES: Readonly<Record<ViewName, string>> = {
  front: 'Front',
  side: 'Side, from the right',
  top: 'Top',
}

/** A length as it stands on a drawing: mm to a tenth. @example drawnLength(596.44) //=> '596.4' */
export const drawnLength = (valueMm: number): string => `${Number(valueMm.toFixed(1))}`

/** Edges, hidden edges and screw axes of the drawn unit in all three views. */
export function modelViews(kernel: SolidKernel, model: Model): ModelView[] {
  const parts = model.parts.filter((part) => part.unit === undefined || part.unit === 1)
  return viewsOf(outlineMeshes(kernel, parts), model)
}

export function viewsOf(meshes: readonly PlacedMesh[], model: Model): ModelView[] {
  return VIEWS.map((view) => {
    const seen = seenLines(meshes, VIEW_AXES[view])
    const object = boundsOf([...seen.visible, ...seen.hidden].flat())
    const drawn = new Set(meshes.map(({ part }) => part.id))
    return { view, seen, object, axes: screwAxes(model, view, drawn) }
  })
}

/** A screw seen from its end is a small cross, else its axis. */
function screwAxes(model: Model, view: ViewName, drawn: ReadonlySet<string>): Segment2[] {
  const flat = model.joints
    .flatMap((joint) => joint.screws)
    .filter((screw) => drawn.has(screw.through))
    .flatMap((screw): Segment2[] => {
      const [a, b] = [project(VIEW_AXES[view], screw.head), project(VIEW_AXES[view], screw.tip)]
      if (Math.hypot(b[0] - a[0], b[1] - a[1]) > 1) return [[a, b]]
      const arm = 1.2 * screw.shankMm
      return [
        [
          [a[0] - arm, a[1]],
          [a[0] + arm, a[1]],
        ],
        [
          [a[0], a[1] - arm],
          [a[0], a[1] + arm],
        ],
      ]
    })
  return mergeLines(flat, []).visible
}

type Cut = readonly [number, number, { readonly low: boolean; readonly high: boolean }]

/** Low and high end of a box along one axis of the view, and which of them is broken off. */
function cutAxis(low: number, high: number, objectLow: number, objectHigh: number, beyond: number): Cut {
  const size = objectHigh - objectLow
  const cutLow = objectLow - low > beyond * size
  const cutHigh = high - objectHigh > beyond * size
  return [
    cutLow ? objectLow - BROKEN_AT * size : low,
    cutHigh ? objectHigh + BROKEN_AT * size : high,
    { low: cutLow, high: cutHigh },
  ]
}

/** A line from a to b with one zigzag in its middle, as a break is drawn. */
function zigzag(a: Vec2, b: Vec2, size: number): Vec2[] {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const length = Math.hypot(dx, dy)
  const s = Math.min(size, length / 3)
  const at = (along: number, out: number): Vec2 => [
    a[0] + dx / 2 + (dx * along - dy * out) / length,
    a[1] + dy / 2 + (dy * along + dx * out) / length,
  ]
  return [a, at(-s / 2, 0), at(-s / 4, s / 2), at(s / 4, -s / 2), at(s / 2, 0), b]
}

function surroundings(box: PlaceBox, view: ViewName, object: Bounds2, options: DrawOptions): DrawnLine[] {
  const beyond = options.narrow === true ? BROKEN_AT : BROKEN_BEYOND
  const [a, b] = [project(VIEW_AXES[view], box.min), project(VIEW_AXES[view], box.max)]
  const [x0, x1, brokenX] = cutAxis(
    Math.min(a[0], b[0]),
    Math.max(a[0], b[0]),
    object.min[0],
    object.max[0],
    beyond,
  )
  const [y0, y1, brokenY] = cutAxis(
    Math.min(a[1], b[1]),
    Math.max(a[1], b[1]),
    object.min[1],
    object.max[1],
    BROKEN_BEYOND,
  )
  if (x1 <= x0 || y1 <= y0) return []
  const edge = (from: Vec2, to: Vec2, broken: boolean): DrawnLine =>
    broken
      ? { kind: 'dimension', points: zigzag(from, to, options.textMm) }
      : { kind: 'surroundings', points: [from, to] }
  return [
    edge([x0, y0], [x1, y0], brokenY.low),
    edge([x0, y1], [x1, y1], brokenY.high),
    edge([x0, y0], [x0, y1], brokenX.low),
    edge([x1, y0], [x1, y1], brokenX.high),
  ]
}

/** Only what can be seen from this side tells anything: seen from the front, the base hides behind the seat. */
const showsPlace = (box: PlaceBox, view: ViewName): boolean =>
  view === 'side' || box.id === 'counter' || box.views?.includes(view) === true

/** Hatching at 45° of what would have to be in two places, and its outline. */
function clashLines({ min, max }: Clash, view: ViewName, stepMm: number): DrawnLine[] {
  const { min: low, max: high } = boundsOf([project(VIEW_AXES[view], min), project(VIEW_AXES[view], max)])
  const line = (a: Vec2, b: Vec2): DrawnLine => ({ kind: 'clash', points: [a, b] })
  const corners: Vec2[] = [low, [high[0], low[1]], high, [low[0], high[1]]]
  const outline = corners.map((corner, i) => line(corner, corners[(i + 1) % 4]))
  // Lines u - v = c that cross the rectangle.
  const [from, to] = [low[0] - high[1], high[0] - low[1]]
  const count = Math.min(60, Math.floor((to - from) / stepMm))
  const hatch = Array.from({ length: count }, (_, i) => {
    const c = from + ((i + 1) * (to - from)) / (count + 1)
    const [a, b] = [Math.max(low[0], low[1] + c), Math.min(high[0], high[1] + c)]
    return line([a, a - c], [b, b - c])
  })
  return [...outline, ...hatch]
}

function flatDimension(
  dimension: Extract<Dimension, { kind: 'linear' }>,
  say: (valueMm: number) => string,
): FlatDimension {
  const [from, to] = [dimension.from, dimension.to].map((p) => project(VIEW_AXES[dimension.view], p))
  const axis = dimension.direction === 'across' ? 0 : 1
  const text = say(Math.abs(to[axis] - from[axis]))
  return { id: dimension.id, side: dimension.side, from, to, text, near: dimension.near }
}

export interface DrawOptions {
  /** Height of dimension figures, in mm of the model. */
  readonly textMm: number
  /** How a length is written; absent: mm to a tenth. */
  readonly say?: (valueMm: number) => string
  /** Breaks the surroundings off close to the object, to leave it more of a small screen. */
  readonly narrow?: boolean
  readonly hiddenLines?: boolean
  readonly screws?: boolean
}

const grown = (box: Bounds2, points: Iterable<Vec2>): Bounds2 => boundsOf([box.min, box.max, ...points])

function placeNames(model: Model, view: ViewName, lines: readonly DrawnLine[], h: number): DrawnText[] {
  const counter = model.place.find((box) => box.id === 'counter')
  const points = lines.filter((line) => line.kind === 'surroundings').flatMap((line) => line.points)
  if (counter === undefined || points.length === 0 || view !== 'top') return []
  const box = boundsOf(points)
  const width = textWidth(counter.name, h)
  const at: Vec2 = [(box.min[0] + box.max[0]) / 2, box.max[1] - 1.2 * h]
  return [{ text: counter.name, at, heightMm: h, widthMm: width, angleRad: 0, kind: 'label' }]
}

function floorLine(view: ViewName, box: Bounds2): DrawnLine[] {
  if (view === 'top') return []
  return [
    {
      kind: 'floor',
      points: [
        [box.min[0], 0],
        [box.max[0], 0],
      ],
    },
  ]
}

const asLines = (kind: DrawnLine['kind'], segments: readonly Segment2[]): DrawnLine[] =>
  segments.map((points) => ({ kind, points }))

/** One view with its dimensions, ready to be drawn. */
export function drawView(model: Model, modelView: ModelView, options: DrawOptions): Drawing {
  const { view, seen, object, axes } = modelView
  const h = options.textMm
  const places = model.place
    .filter((box) => showsPlace(box, view))
    .map((box) => surroundings(box, view, object, options))
    .filter((lines) => lines.length > 0)
  const around = places.flat()
  const own = (model.dimensions ?? []).filter((dimension) => dimension.view === view)
  const linear = own.flatMap((d) =>
    d.kind === 'linear' ? [flatDimension(d, options.say ?? drawnLength)] : [],
  )
  const levels = linear.flatMap((d) => (d.side === 'left' || d.side === 'right' ? [d.from[1], d.to[1]] : []))
  const isFree = (place: Bounds2): boolean =>
    levels.every((level) => level < place.min[1] || level > place.max[1]) &&
    !seen.visible.some((segment) => crossesBox(segment, place)) &&
    !around.some(({ points: [a, b] }) => crossesBox([a, b], place))
  const angles = own.flatMap((d) => {
    if (d.kind !== 'angle') return []
    const flat = (p: typeof d.apex): Vec2 => project(VIEW_AXES[view], p)
    const angle = { id: d.id, apex: flat(d.apex), from: flat(d.from), to: flat(d.to) }
    return [placeAngle(angle, h, isFree)]
  })
  const taken = angles.flatMap((angle) => [
    ...angle.texts.flatMap(textBox),
    ...angle.lines.flatMap((line) => line.points),
  ])
  const box = grown(object, [...around.flatMap((line) => line.points), ...taken])
  const obstacles = places.map((lines) => boundsOf(lines.flatMap((line) => line.points)))
  const placed = placeDimensions(linear, { object: grown(object, taken), all: box, obstacles }, h)
  const lines: DrawnLine[] = [
    ...around,
    ...(model.hangs === undefined ? floorLine(view, box) : []),
    ...(options.hiddenLines === false ? [] : asLines('hidden', seen.hidden)),
    ...(options.screws === false ? [] : asLines('axis', axes)),
    ...asLines('visible', seen.visible),
    ...(model.clashes ?? []).flatMap((clash) => clashLines(clash, view, h / 2)),
    ...angles.flatMap((angle) => angle.lines),
    ...placed.lines,
  ]
  const texts = [
    ...placeNames(model, view, around, h),
    ...angles.flatMap((angle) => angle.texts),
    ...placed.texts,
  ]
  const arrows = [...angles.flatMap((angle) => angle.arrows), ...placed.arrows]
  const bounds = grown(box, [...lines.flatMap((line) => line.points), ...texts.flatMap(textBox)])
  const margin = h / 2
  return {
    view,
    title: TITLES[view],
    bounds: {
      min: [bounds.min[0] - margin, bounds.min[1] - margin],
      max: [bounds.max[0] + margin, bounds.max[1] + margin],
    },
    lines,
    arrows,
    texts,
  }
}

/**
 * The text height, in mm of the model, at which figures are `textPx` high when the view fills `widthPx`. Text
 * takes room of its own, so the height is found by trying: two tries come within a few per cent.
 */
export function textHeightFor(
  model: Model,
  view: ModelView,
  widthPx: number,
  textPx: number,
  options: Omit<DrawOptions, 'textMm'> = {},
): number {
  let textMm = ((view.object.max[0] - view.object.min[0]) * textPx) / widthPx
  for (let i = 0; i < 4; i++) {
    const { bounds } = drawView(model, view, { ...options, textMm })
    textMm = ((bounds.max[0] - bounds.min[0]) * textPx) / widthPx
  }
  return textMm
}
