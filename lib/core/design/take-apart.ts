/**
 * A model taken apart for the eye: each part moved away from those that it is joined to, along the way that they were
 * put together, until no two parts' boxes overlap. mm in world coordinates; the boxes are those of the blanks, turned
 * with the part. Method: pairs that overlap push each other apart by half, all at once, so that what is alike on both
 * sides moves alike; boxes are tried against each other by separating axes (Gottschalk, Lin, Manocha 1996).
 * Same model, same answer. Cost: pairs × rounds, some ms for 14 parts. Tests: tests/core/design/take-apart.test.ts
 */
import { toWorld } from '#lib/core/geometry/frame'
import { add, cross, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { Model, Part } from './model'

/** A box that is turned: its middle, axes and half sizes. */
export interface TurnedBox {
  readonly middle: Vec3
  readonly axes: readonly [Vec3, Vec3, Vec3]
  readonly halves: Vec3
}

const MOST_ROUNDS = 400
/** A little more than needed, or the last hair would take many rounds. */
const EAGER = 1.04

/** @example boxOf(part).halves //=> [length / 2, width / 2, thickness / 2] */
export function boxOf({ frame, blank }: Part): TurnedBox {
  const halves: Vec3 = [blank.lengthMm / 2, blank.widthMm / 2, blank.thicknessMm / 2]
  return { middle: toWorld(frame, halves), axes: [frame.x, frame.y, frame.z], halves }
}

const reachAlong = ({ axes, halves }: TurnedBox, way: Vec3): number =>
  axes.reduce((sum, axis, i) => sum + halves[i] * Math.abs(dot(axis, way)), 0)

/** Directions of unit length in which two boxes could be told apart. */
function separatingAxes(a: TurnedBox, b: TurnedBox): Vec3[] {
  const crossed = a.axes.flatMap((p) =>
    b.axes.flatMap((q) => {
      const way = cross(p, q)
      const size = Math.hypot(...way)
      return size < 1e-6 ? [] : [scale(way, 1 / size)]
    }),
  )
  return [...a.axes, ...b.axes, ...crossed]
}

/** Directions in which a pair could be told apart, and how far apart along each. Moving a box changes neither. */
interface Meeting {
  readonly axes: readonly Vec3[]
  readonly reaches: readonly number[]
}

function meetingOf(a: TurnedBox, b: TurnedBox, gapMm: number): Meeting {
  const axes = separatingAxes(a, b)
  return { axes, reaches: axes.map((axis) => reachAlong(a, axis) + reachAlong(b, axis) + gapMm) }
}

/** How far the second must move along `way` from where it lies, `apart` from the first. */
function pushOn({ axes, reaches }: Meeting, apart: Vec3, way: Vec3): number {
  let leastMm = Number.POSITIVE_INFINITY
  for (let i = 0; i < axes.length; i++) {
    const at = dot(axes[i], apart)
    if (Math.abs(at) >= reaches[i]) return 0
    const speed = dot(axes[i], way)
    if (Math.abs(speed) < 1e-3) continue
    // Moving on along the axis the way that `way` points on it.
    leastMm = Math.min(leastMm, (speed > 0 ? reaches[i] - at : reaches[i] + at) / Math.abs(speed))
  }
  return leastMm
}

/**
 * How far b must move along `way` until the boxes are `gapMm` apart; 0 if they are.
 * @param way unit length
 */
export const pushNeeded = (a: TurnedBox, b: TurnedBox, way: Vec3, gapMm: number): number =>
  pushOn(meetingOf(a, b, gapMm), sub(b.middle, a.middle), way)

const moved = (box: TurnedBox, by: Vec3): TurnedBox => ({ ...box, middle: add(box.middle, by) })

interface Pair {
  readonly i: number
  readonly j: number
  /** From i to j, where a joint says so. */
  readonly way?: Vec3
}

function pairsOf(parts: readonly Part[], model: Model): Pair[] {
  const index = new Map(parts.map((part, i) => [part.id, i]))
  const ways = new Map<string, Vec3>()
  for (const { a, b, contact } of model.joints) {
    const [i, j] = [index.get(a), index.get(b)]
    if (i === undefined || j === undefined) continue
    const key = i < j ? `${i} ${j}` : `${j} ${i}`
    if (!ways.has(key)) ways.set(key, i < j ? contact.normal : scale(contact.normal, -1))
  }
  return parts.flatMap((_, i) =>
    parts.slice(i + 1).map((_, k) => ({ i, j: i + 1 + k, way: ways.get(`${i} ${i + 1 + k}`) })),
  )
}

const WORLD: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [-1, 0, 0],
  [0, -1, 0],
  [0, 0, -1],
]

/** Of the world's axes the one along which two boxes part soonest. */
function easiestWay(meeting: Meeting, apart: Vec3): Vec3 {
  const pushes = WORLD.map((way) => pushOn(meeting, apart, way))
  return WORLD[pushes.indexOf(Math.min(...pushes))]
}

/** Offsets of some parts that stand as one piece; index for index. */
function spread(parts: readonly Part[], model: Model, gapMm: number): Vec3[] {
  const boxes = parts.map(boxOf)
  const pairs = pairsOf(parts, model).map((pair) => ({
    ...pair,
    meeting: meetingOf(boxes[pair.i], boxes[pair.j], gapMm),
  }))
  let offsets: Vec3[] = parts.map(() => [0, 0, 0])
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const at = boxes.map(({ middle }, i) => add(middle, offsets[i]))
    const pushes: Vec3[] = parts.map(() => [0, 0, 0])
    let isDone = true
    for (const { i, j, way, meeting } of pairs) {
      const apart = sub(at[j], at[i])
      const along = way ?? easiestWay(meeting, apart)
      const mm = pushOn(meeting, apart, along)
      if (mm === 0) continue
      isDone = false
      const half = scale(along, (EAGER * mm) / 2)
      pushes[i] = sub(pushes[i], half)
      pushes[j] = add(pushes[j], half)
    }
    if (isDone) break
    // The first rounds by more, later ones damped, so that rows of boards do not swing.
    const share = round < 4 ? 0.6 : 0.35
    offsets = offsets.map((offset, i) => add(offset, scale(pushes[i], share)))
  }
  return offsets
}

const lowAlong = (box: TurnedBox, way: Vec3): number => dot(box.middle, way) - reachAlong(box, way)

/** Pieces alike stand side by side along x: each is moved on until it is clear of the one before. */
function besideEachOther(units: readonly (readonly TurnedBox[])[], gapMm: number): number[] {
  const x: Vec3 = [1, 0, 0]
  let reachedMm = Number.NEGATIVE_INFINITY
  return units.map((boxes) => {
    const lowMm = Math.min(...boxes.map((box) => lowAlong(box, x)))
    const highMm = Math.max(...boxes.map((box) => -lowAlong(box, scale(x, -1))))
    const shiftMm = Math.max(0, reachedMm + gapMm - lowMm)
    reachedMm = highMm + shiftMm
    return shiftMm
  })
}

/**
 * How far and where each part moves when the model is taken apart in full; take a share of it for less.
 * @returns by part id; empty for a model of one part
 * @example takeApart(model).get('seat-1') //=> [0, 0, 180]
 */
export function takeApart(model: Model): ReadonlyMap<string, Vec3> {
  if (model.parts.length < 2) return new Map()
  const sizeMm = Math.max(...model.parts.map(({ blank }) => blank.lengthMm))
  const gapMm = 20 + 0.08 * sizeMm
  const numbers = [...new Set(model.parts.map(({ unit = 1 }) => unit))].sort((a, b) => a - b)
  const units = numbers.map((number) => {
    const parts = model.parts.filter(({ unit = 1 }) => unit === number)
    const offsets = spread(parts, model, gapMm)
    return { parts, offsets, boxes: parts.map((part, i) => moved(boxOf(part), offsets[i])) }
  })
  const shifts = besideEachOther(
    units.map(({ boxes }) => boxes),
    2 * gapMm,
  )
  const up: Vec3 = [0, 0, 1]
  const lowest = Math.min(...units.flatMap(({ boxes }) => boxes.map((box) => lowAlong(box, up))))
  // What stands on the floor stays on it.
  const liftMm = model.hangs === undefined ? Math.max(0, -lowest) : 0
  return new Map(
    units.flatMap(({ parts, offsets }, u) =>
      parts.map((part, i) => [part.id, add(offsets[i], [shifts[u], 0, liftMm])] as const),
    ),
  )
}
