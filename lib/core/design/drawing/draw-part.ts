/**
 * A part alone, with every dimension that its maker needs, once: lengths along its arrises, width and thickness,
 * angles of its ends, shoulders of its notches and places of its holes as running dimensions from a corner of end A.
 * Views as the part is rolled about its grain; ends beside them: first-angle projection (ISO 5456-2). mm.
 * `partShape` once a part, `drawPart` once a text size. Tests: tests/core/design/drawing/draw-part.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { dot } from '#lib/core/geometry/vec3'
import { capital, FACE_WORDS } from '../face-words'
import type { EdgeBevel, FaceName, Part } from '../model'
import { outlineMeshes, type PlacedMesh } from '../part-solid'
import { placeAngle } from './angle-dimension'
import { crossesBox } from './clip'
import { type FlatDimension, type PlacedDimensions, placeDimensions, textWidth } from './dimension-layout'
import {
  type Bounds2,
  boundsOf,
  type DrawnArrow,
  type DrawnLine,
  type DrawnText,
  movedBy,
  project,
  type Sketch,
  type Strokes,
  textBox,
} from './drawing'
import type { Segment2 } from './merge-lines'
import { type Ordinate, placeOrdinates } from './ordinates'
import { namedNotches, type Say } from './part-notes'
import {
  arrisOf,
  type EndFace,
  endAxes,
  holesOn,
  type LongFace,
  longAxes,
  notchesOn,
  onArris,
  ROLL,
  type SideView,
  type Stretch,
  shouldersAt,
  sideView,
  spanOf,
} from './part-view'

interface LongView extends SideView {
  readonly face: LongFace
}
interface EndView extends SideView {
  readonly face: EndFace
}

export interface PartShape {
  readonly part: Part
  readonly main: LongView
  /** From the head of the sheet down. */
  readonly long: readonly LongView[]
  readonly ends: readonly EndView[]
}

const isWorked = (part: Part, face: FaceName): boolean =>
  holesOn(part, face).length > 0 || notchesOn(part, face).length > 0

const workOn = (part: Part, face: FaceName): number =>
  100 * notchesOn(part, face).length + holesOn(part, face).length

const bevelsOf = (part: Part): EdgeBevel[] =>
  part.operations.filter((op): op is EdgeBevel => op.kind === 'edgeBevel')

/** The sides that have to be shown: the main one, an edge for the thickness, and whatever is worked. */
function sidesToShow(part: Part): { main: LongFace; long: LongFace[]; ends: EndFace[] } {
  const main: LongFace = workOn(part, 'faceB') > workOn(part, 'faceA') ? 'faceB' : 'faceA'
  const at = ROLL.indexOf(main)
  const rolled = (by: number): LongFace => ROLL[(at + by) % ROLL.length]
  const [below, back, above] = [rolled(1), rolled(2), rolled(3)]
  const showsAbove = isWorked(part, above)
  const showsBelow = isWorked(part, below) || !showsAbove
  const long = [
    ...(showsAbove ? [above] : []),
    main,
    ...(showsBelow ? [below] : []),
    ...(isWorked(part, back) ? [back] : []),
  ]
  const ends = (['endB', 'endA'] as const).filter((end) => isWorked(part, end))
  const withBevel: EndFace[] = ends.length === 0 && bevelsOf(part).length > 0 ? ['endA'] : [...ends]
  return { main, long, ends: withBevel }
}

/** Lines of all sides of a part that are drawn: needed once a part. */
export function partShape(kernel: SolidKernel, part: Part): PartShape {
  const [placed] = outlineMeshes(kernel, [part])
  return partShapeOf(placed)
}

export function partShapeOf(placed: PlacedMesh): PartShape {
  const { part } = placed
  const { main, long, ends } = sidesToShow(part)
  const views = long.map((face) => ({ face, ...sideView(placed, face, longAxes(face)) }))
  return {
    part,
    main: views.find(({ face }) => face === main)!,
    long: views,
    ends: ends.map((face) => ({ face, ...sideView(placed, face, endAxes(face, main)) })),
  }
}

/** One view with its dimensions. */
interface Panel {
  readonly object: Bounds2
  readonly bounds: Bounds2
  readonly lines: readonly DrawnLine[]
  readonly arrows: readonly DrawnArrow[]
  readonly texts: readonly DrawnText[]
}

const grown = (box: Bounds2, points: Iterable<Vec2>): Bounds2 => boundsOf([box.min, box.max, ...points])
const pointsOf = ({ lines, texts }: Pick<Panel, 'lines' | 'texts'>): Vec2[] => [
  ...lines.flatMap((line) => line.points),
  ...texts.flatMap(textBox),
]

const SAME_MM = 0.005
const isSame = (a: Stretch, b: Stretch): boolean =>
  Math.abs(a[0] - b[0]) < SAME_MM && Math.abs(a[1] - b[1]) < SAME_MM

/** What a drawing has said already, so that it is said once. */
class Said {
  private readonly spans: Stretch[] = []
  hasThickness = false

  /** True the first time. */
  isNew(span: Stretch): boolean {
    if (this.spans.some((other) => isSame(span, other))) return false
    this.spans.push(span)
    return true
  }
}

const label = (id: string, text: string, at: Vec2, h: number): DrawnText => ({
  text,
  at,
  heightMm: h,
  widthMm: textWidth(text, h),
  angleRad: 0,
  kind: 'label',
  dimensionId: id,
})

const signed = (valueMm: number, say: Say): string =>
  `${valueMm < -SAME_MM ? '−' : ''}${say(Math.abs(valueMm))}`

/** Running dimensions along the grain, from the corner of end A at the view's lower border. */
function alongOrdinates(
  part: Part,
  view: LongView,
  zero: number,
  endMm: number | undefined,
  say: Say,
): Ordinate[] {
  const { face, axes } = view
  const arris = arrisOf(part, face, 'bottom')
  const named = namedNotches(part)
  const shoulders = notchesOn(part, face).flatMap((notch) =>
    shouldersAt(part, notch, arris).map((x, i) => ({
      id: `${named.find((one) => one.notch === notch)!.label} shoulder ${i + 1}`,
      x,
    })),
  )
  const holes = view.holes.map((hole) => ({ id: `hole ${hole.id}`, x: project(axes, hole.point)[0] }))
  const end = endMm === undefined ? [] : [{ id: `length ${face} bottom`, x: endMm }]
  return [...shoulders, ...holes, ...end].map(({ id, x }) => ({
    id: `${face} ${id}`,
    at: x,
    text: signed(x - zero, say),
  }))
}

const acrossOrdinates = (view: SideView, name: string, axis: 0 | 1, zero: number, say: Say): Ordinate[] =>
  view.holes.map((hole) => {
    const at = project(view.axes, hole.point)[axis]
    return { id: `${name} across ${hole.id}`, at, text: signed(at - zero, say) }
  })

interface AngleAt {
  readonly id: string
  readonly apex: Vec2
  readonly from: Vec2
  readonly to: Vec2
}

/** Where the ends of a long side are not square: from square across to the cut, at the corner that reaches furthest. */
function endAngles(part: Part, { face, axes }: LongView): AngleAt[] {
  const [top, bottom] = (['top', 'bottom'] as const).map((border) => arrisOf(part, face, border))
  const [topSpan, bottomSpan] = [spanOf(part, top), spanOf(part, bottom)]
  return ([0, 1] as const).flatMap((i): AngleAt[] => {
    if (Math.abs(topSpan[i] - bottomSpan[i]) < 0.01) return []
    const isTop = i === 0 ? topSpan[i] < bottomSpan[i] : topSpan[i] > bottomSpan[i]
    const at = { top: onArris(axes, top, topSpan[i]), bottom: onArris(axes, bottom, bottomSpan[i]) }
    const apex = isTop ? at.top : at.bottom
    const to = isTop ? at.bottom : at.top
    return [{ id: `${face} ${i === 0 ? 'end A' : 'end B'} angle`, apex, from: [apex[0], to[1]], to }]
  })
}

function placeAngles(
  angles: readonly AngleAt[],
  view: SideView,
  keep: readonly Segment2[],
  h: number,
): PlacedDimensions {
  const placed: PlacedDimensions[] = []
  for (const angle of angles) {
    const texts = placed.flatMap((one) => one.texts).map((text) => boundsOf(textBox(text)))
    const arcs = placed.flatMap((one) => one.lines)
    const isFree = (box: Bounds2): boolean =>
      !keep.some((line) => crossesBox(line, box)) &&
      ![...view.lines, ...arcs].some(({ points }) =>
        points.some((p, i) => i > 0 && crossesBox([points[i - 1], p], box)),
      ) &&
      !texts.some(({ min, max }) => [0, 1].every((i) => min[i] < box.max[i] && box.min[i] < max[i]))
    placed.push(placeAngle(angle, h, isFree))
  }
  return together(placed)
}

const together = (parts: readonly PlacedDimensions[]): PlacedDimensions => ({
  lines: parts.flatMap((part) => part.lines),
  arrows: parts.flatMap((part) => part.arrows),
  texts: parts.flatMap((part) => part.texts),
})

const FAR = 1e5

/** A long side with its dimensions. */
function longPanel(shape: PartShape, view: LongView, said: Said, h: number, say: Say): Panel {
  const { part, main } = shape
  const { face, axes, object } = view
  const isMain = view === main
  const [top, bottom] = (['top', 'bottom'] as const).map((border) => arrisOf(part, face, border))
  const [topSpan, bottomSpan] = [spanOf(part, top), spanOf(part, bottom)]
  const [low, high] = [dot(axes.up, bottom), dot(axes.up, top)]
  const linear: FlatDimension[] = []
  const above = (id: string, [a, b]: Stretch, text: string): void => {
    linear.push({ id: `${face} ${id}`, side: 'above', from: [a, high], to: [b, high], text })
  }
  const isLengthNew = said.isNew(topSpan)
  if (isLengthNew) above('length top', topSpan, say(topSpan[1] - topSpan[0]))
  const endMm = said.isNew(bottomSpan) ? bottomSpan[1] : undefined
  const whole: Stretch = [object.min[0], object.max[0]]
  if (isMain && said.isNew(whole)) above('overall', whole, `(${say(whole[1] - whole[0])})`)
  if (isMain || !said.hasThickness) {
    const text = say(high - low)
    linear.push({
      id: `${face} ${isMain ? 'width' : 'thickness'}`,
      side: 'right',
      from: [object.max[0], low],
      to: [object.max[0], high],
      text,
    })
    if (!isMain) said.hasThickness = true
  }
  const zero = bottomSpan[0]
  const along = alongOrdinates(part, view, zero, endMm, say)
  const across = acrossOrdinates(view, face, 1, low, say)
  const keep = keptClear(
    object,
    [zero, ...along.map(({ at }) => at)],
    [...topSpan, ...whole],
    [low, ...across.map(({ at }) => at)],
  )
  const angles = placeAngles(endAngles(part, view), view, keep, h)
  const names = notchLabels(part, view, high, h)
  return dimensioned(view, h, {
    placed: together([angles, { lines: [], arrows: [], texts: names }]),
    linear,
    rows: [
      { side: 'below', zero, ordinates: along },
      { side: 'left', zero: low, ordinates: across },
    ],
    title: `${FACE_WORDS[face]}${isMain ? ', end A on the left' : ''}`,
  })
}

/** Where extension lines will run outside the object: angles keep out of their way. */
function keptClear(
  { min, max }: Bounds2,
  below: readonly number[],
  above: readonly number[],
  left: readonly number[],
): Segment2[] {
  return [
    ...below.map(
      (x): Segment2 => [
        [x, min[1]],
        [x, min[1] - FAR],
      ],
    ),
    ...above.map(
      (x): Segment2 => [
        [x, max[1]],
        [x, max[1] + FAR],
      ],
    ),
    ...left.map(
      (y): Segment2 => [
        [min[0] - FAR, y],
        [min[0], y],
      ],
    ),
    ...[min[1], max[1]].map(
      (y): Segment2 => [
        [max[0], y],
        [max[0] + FAR, y],
      ],
    ),
  ]
}

/** Names of the notches of a side, over the places where they come out at its upper border. */
function notchLabels(part: Part, { face, axes }: LongView, high: number, h: number): DrawnText[] {
  const arris = arrisOf(part, face, 'top')
  return namedNotches(part).flatMap(({ notch, label: name }): DrawnText[] => {
    if (notch.face !== face) return []
    const xs = shouldersAt(part, notch, arris)
    const middle = xs.length === 0 ? notch.alongMm : xs.reduce((sum, x) => sum + x, 0) / xs.length
    return [label(`${face} ${name}`, name, [onArris(axes, arris, middle)[0], high + 0.9 * h], h)]
  })
}

interface ToPlace {
  readonly placed: PlacedDimensions
  readonly linear: readonly FlatDimension[]
  readonly rows: readonly { side: 'below' | 'left'; zero: number; ordinates: readonly Ordinate[] }[]
  readonly title: string
}

/** A view with what is placed already, its running and its other dimensions, and its name over it. */
function dimensioned(view: SideView, h: number, { placed, linear, rows, title }: ToPlace): Panel {
  const { object } = view
  let taken = grown(object, pointsOf(placed))
  const done: PlacedDimensions[] = [placed]
  for (const { side, zero, ordinates } of rows) {
    const axis = side === 'below' ? 1 : 0
    const row = placeOrdinates(
      { id: `${title} ${side}`, side, zero, ordinates, edge: object.min[axis], beyond: taken.min[axis] },
      h,
    )
    taken = grown(taken, pointsOf(row))
    done.push(row)
  }
  done.push(
    placeDimensions(linear, { object: grown(object, pointsOf(placed)), all: taken, obstacles: [] }, h),
  )
  const all = together(done)
  const lines = [...view.lines, ...all.lines]
  const box = grown(object, pointsOf({ lines, texts: all.texts }))
  const said = capital(title)
  const name = label(
    `name of ${title}`,
    said,
    [object.min[0] + textWidth(said, h) / 2, box.max[1] + 1.1 * h],
    h,
  )
  const texts = [...all.texts, name]
  return { object, lines, arrows: all.arrows, texts, bounds: grown(box, textBox(name)) }
}

/** An end with the places of its holes, and the tilt of a bevelled edge. */
function endPanel({ part }: PartShape, view: EndView, h: number, say: Say): Panel {
  const { face, object } = view
  const bevels = view.face === 'endA' || holesOn(part, 'endA').length === 0 ? bevelAngles(part, view) : []
  const across = acrossOrdinates(view, `${face} up`, 1, object.min[1], say)
  const along = acrossOrdinates(view, `${face} level`, 0, object.min[0], say)
  const keep = keptClear(
    object,
    along.map(({ at }) => at),
    [],
    across.map(({ at }) => at),
  )
  const placed = placeAngles(bevels, view, keep, h)
  return dimensioned(view, h, {
    placed,
    linear: [],
    rows: [
      { side: 'below', zero: object.min[0], ordinates: along },
      { side: 'left', zero: object.min[1], ordinates: across },
    ],
    title: FACE_WORDS[face],
  })
}

/** The tilt of a bevelled edge, at the arris that reaches furthest. */
function bevelAngles(part: Part, { axes, face }: EndView): AngleAt[] {
  const { thicknessMm } = part.blank
  return bevelsOf(part).map(({ edge, point, normal }): AngleAt => {
    const yAt = (z: number): number => point[1] - (normal[2] * (z - point[2])) / normal[1]
    const out = edge === 'edgeB' ? 1 : -1
    const [apexZ, otherZ] = out * yAt(0) > out * yAt(thicknessMm) ? [0, thicknessMm] : [thicknessMm, 0]
    const at = (y: number, z: number): Vec2 => project(axes, [0, y, z])
    return {
      id: `${face} ${edge} bevel`,
      apex: at(yAt(apexZ), apexZ),
      from: at(yAt(apexZ), otherZ),
      to: at(yAt(otherZ), otherZ),
    }
  })
}

const BETWEEN = 2

export interface DrawPartOptions {
  /** Height of the figures, in mm of the part. */
  readonly textMm: number
  readonly say: Say
  /** 2: the sides stand in two columns, where one over another would take too much height. */
  readonly columns?: 1 | 2
}

/** Panels one under another in line, from a place down. Gives the place of each, and how far they reach. */
function stack(panels: readonly Panel[], left: number, h: number): { at: Vec2[]; right: number } {
  const at: Vec2[] = []
  let foot = 0
  const dx = left === -Infinity ? 0 : left - Math.min(...panels.map(({ bounds }) => bounds.min[0]))
  for (const { bounds } of panels) {
    at.push([dx, foot - bounds.max[1]])
    foot += bounds.min[1] - bounds.max[1] - BETWEEN * h
  }
  return { at, right: dx + Math.max(...panels.map(({ bounds }) => bounds.max[0])) }
}

/** All sides of a part that are worked, with their dimensions, one under another. */
export function drawPart(shape: PartShape, { textMm: h, say, columns = 1 }: DrawPartOptions): Sketch {
  const said = new Said()
  // The main view speaks first.
  const order = [shape.main, ...shape.long.filter((view) => view !== shape.main)]
  const panels = new Map(order.map((view) => [view, longPanel(shape, view, said, h, say)]))
  const long = shape.long.map((view) => panels.get(view)!)
  const split = columns === 1 ? long.length : Math.ceil(long.length / 2)
  const first = stack(long.slice(0, split), -Infinity, h)
  const rest =
    split < long.length
      ? stack(long.slice(split), first.right + BETWEEN * h, h)
      : { at: [], right: first.right }
  const at = [...first.at, ...rest.at]
  const groups: Strokes[] = long.map((panel, i) => movedBy(panel, at[i]))
  const left = Math.min(...long.map(({ bounds }) => bounds.min[0]))
  const mainAt = at[shape.long.indexOf(shape.main)][1]
  for (const view of shape.ends) {
    const panel = endPanel(shape, view, h, say)
    // First angle: what is seen from the left stands on the right.
    const dx =
      view.face === 'endA'
        ? rest.right + BETWEEN * h - panel.bounds.min[0]
        : left - BETWEEN * h - panel.bounds.max[0]
    groups.push(movedBy(panel, [dx, mainAt]))
  }
  const all = {
    lines: groups.flatMap((group) => group.lines),
    arrows: groups.flatMap((group) => group.arrows),
    texts: groups.flatMap((group) => group.texts),
  }
  return { title: shape.part.kind, bounds: boundsOf(pointsOf(all)), ...all }
}
