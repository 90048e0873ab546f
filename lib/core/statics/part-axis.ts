/**
 * A part as the frame sees it: its axis along the grain from end to end, its section at any place with tapers and notches
 * taken out, and where it stands on the floor. mm, world axes unless said. The axis is the middle of the blank's
 * section; in a notch it moves to the middle of what is left. Tests: tests/core/statics/from-model.test.ts
 */
import { worldFaces } from '#lib/core/design/contact'
import type { Notch, Part, Taper } from '#lib/core/design/model'
import { taperTakenMm } from '#lib/core/design/part-body'
import { massProperties, notchesOf, wallsOf, woodAlong } from '#lib/core/design/part-shape'
import { directionToWorld, toLocal, toWorld } from '#lib/core/geometry/frame'
import { convexHull, type Polygon2, type Vec2 } from '#lib/core/geometry/polygon2'
import { dot, type Vec3 } from '#lib/core/geometry/vec3'

export interface PartAxis {
  readonly part: Part
  /** Places along the grain, in the part's own x, at which its middle line begins and ends. */
  readonly fromMm: number
  readonly toMm: number
  readonly notches: readonly NotchSpan[]
  /** Floor patches: corners at which it stands. Empty: it does not. */
  readonly floor: readonly Vec3[]
  /** Outline seen from above. */
  readonly plan: Polygon2
  readonly topMm: number
  readonly volumeMm3: number
  /** World. */
  readonly centre: Vec3
}

export interface NotchSpan {
  readonly notch: Notch
  readonly fromMm: number
  readonly toMm: number
}

/** A part's name without the piece that it belongs to, since one stands for all. @example «Rail, back, seat 1» //=> «Rail, back» */
export const plainName = ({ name, unit }: Part): string =>
  unit === undefined ? name : name.replace(/, [a-z]+ \d+$/, '')

/** Nearer to the floor than this is on it. */
export const FLOOR_MM = 0.6

const middleLine = (part: Part, x: number): Vec3 => [x, part.blank.widthMm / 2, part.blank.thicknessMm / 2]

/** A point of the axis in world coordinates. */
export const axisPoint = ({ part }: PartAxis, x: number): Vec3 => toWorld(part.frame, middleLine(part, x))

/** Where a world point falls on the axis, within its ends. */
export const axisPlace = ({ part, fromMm, toMm }: PartAxis, p: Vec3): number =>
  Math.min(toMm, Math.max(fromMm, toLocal(part.frame, p)[0]))

function notchSpan(notch: Notch, fromMm: number, toMm: number): NotchSpan {
  const half = notch.widthMm / 2 / Math.max(0.2, Math.cos(notch.skewRad))
  return { notch, fromMm: Math.max(fromMm, notch.alongMm - half), toMm: Math.min(toMm, notch.alongMm + half) }
}

/** The axis of a part; undefined if its cuts leave no wood on its middle line. */
export function partAxis(part: Part): PartAxis | undefined {
  const { lengthMm } = part.blank
  const [start, end] = [middleLine(part, 0), middleLine(part, lengthMm)]
  const stretch = woodAlong({ body: wallsOf(part).body, notches: [] }, start, end)[0]
  if (stretch === undefined) return undefined
  const [fromMm, toMm] = [stretch[0] * lengthMm, stretch[1] * lengthMm]
  const faces = worldFaces(part)
  const corners = faces.flatMap(({ frame, pieces }) =>
    pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
  )
  const floor = faces
    .filter(({ frame }) => frame.z[2] < -0.9)
    .flatMap(({ frame, pieces }) =>
      pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
    )
    .filter((p) => Math.abs(p[2]) < FLOOR_MM)
  const { volumeMm3, centre } = massProperties(part)
  return {
    part,
    fromMm,
    toMm,
    notches: notchesOf(part)
      .map((notch) => notchSpan(notch, fromMm, toMm))
      .filter((span) => span.toMm > span.fromMm),
    floor,
    plan: convexHull(corners.map((p): Vec2 => [p[0], p[1]])),
    topMm: Math.max(...corners.map((p) => p[2])),
    volumeMm3,
    centre: toWorld(part.frame, centre),
  }
}

const tapersOf = ({ operations }: Part): readonly Taper[] =>
  operations.filter((op): op is Taper => op.kind === 'taper')

/** Places between which a tapering part is taken as even: where each slope begins, and half-way down it. */
export const taperPlaces = ({ part }: PartAxis): number[] =>
  tapersOf(part).flatMap(({ end, lengthMm }) =>
    [lengthMm, lengthMm / 2].map((mm) => (end === 'endA' ? mm : part.blank.lengthMm - mm)),
  )

export interface SectionAt {
  readonly widthMm: number
  readonly thicknessMm: number
  /** From the blank's middle line to the middle of what is left, world axes. */
  readonly offset: Vec3
  readonly isNotched: boolean
  /** The deepest notch there. */
  readonly notch?: Notch
}

/** What is left of the section at a place along the part. */
export function sectionAt({ part, notches }: PartAxis, x: number): SectionAt {
  let [low, high] = [0, part.blank.widthMm]
  let [back, front] = [0, part.blank.thicknessMm]
  let deepest: Notch | undefined
  for (const taper of tapersOf(part)) {
    const takenMm = taperTakenMm(taper, part.blank.lengthMm, x)
    if (taper.face === 'faceA') front -= takenMm
    if (taper.face === 'faceB') back += takenMm
    if (taper.face === 'edgeB') high -= takenMm
    if (taper.face === 'edgeA') low += takenMm
  }
  for (const { notch, fromMm, toMm } of notches) {
    if (x <= fromMm || x >= toMm) continue
    if (deepest === undefined || notch.depthMm > deepest.depthMm) deepest = notch
    if (notch.face === 'faceA') front = Math.min(front, part.blank.thicknessMm - notch.depthMm)
    if (notch.face === 'faceB') back = Math.max(back, notch.depthMm)
    if (notch.face === 'edgeB') high = Math.min(high, part.blank.widthMm - notch.depthMm)
    if (notch.face === 'edgeA') low = Math.max(low, notch.depthMm)
  }
  const offset = directionToWorld(part.frame, [
    0,
    (low + high) / 2 - part.blank.widthMm / 2,
    (back + front) / 2 - part.blank.thicknessMm / 2,
  ])
  return {
    widthMm: high - low,
    thicknessMm: front - back,
    offset,
    isNotched: deepest !== undefined,
    ...(deepest === undefined ? {} : { notch: deepest }),
  }
}

/** A patch longer than this stands on its two ends, since it can rock: runners, panels on end. */
const LONG_FOOT_MM = 110

/** Points at which a part pushes on the floor: the middle of its patch, or the two ends of a long one. */
export function footPoints({ floor }: PartAxis): Vec3[] {
  if (floor.length === 0) return []
  const hull = convexHull(floor.map((p): Vec2 => [p[0], p[1]]))
  const points: readonly Vec2[] = hull.length > 0 ? hull : floor.map((p): Vec2 => [p[0], p[1]])
  const middle = (list: readonly Vec2[]): Vec3 => [
    list.reduce((sum, p) => sum + p[0], 0) / list.length,
    list.reduce((sum, p) => sum + p[1], 0) / list.length,
    0,
  ]
  const sides = points.map((p, i): Vec2 => {
    const q = points[(i + 1) % points.length]
    return [q[0] - p[0], q[1] - p[1]]
  })
  const longest = sides.reduce((a, b) => (Math.hypot(b[0], b[1]) > Math.hypot(a[0], a[1]) + 1e-9 ? b : a))
  const size = Math.hypot(...longest)
  if (size < LONG_FOOT_MM) return [middle(points)]
  const along = (p: Vec2): number => (p[0] * longest[0] + p[1] * longest[1]) / size
  const [low, high] = [Math.min(...points.map(along)), Math.max(...points.map(along))]
  return [middle(points.filter((p) => along(p) < low + 1)), middle(points.filter((p) => along(p) > high - 1))]
}

/** How deep a part is along a direction: the blank's extent. */
export const depthAlong = ({ frame, blank }: Part, direction: Vec3): number =>
  Math.abs(dot(frame.x, direction)) * blank.lengthMm +
  Math.abs(dot(frame.y, direction)) * blank.widthMm +
  Math.abs(dot(frame.z, direction)) * blank.thicknessMm
