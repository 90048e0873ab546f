/**
 * Parts where they stand: boards whose edges run along the world's axes, end cuts given as planes of the world,
 * and the notch that one part needs so that another can lie in it. mm, rad, world coordinates in; operations in the
 * part's own frame out (see model.ts). Nothing is checked here: contact.ts and the designs' rules do that.
 * Tests: tests/core/design/placed-part.test.ts
 */
import {
  directionToLocal,
  directionToWorld,
  type Frame,
  frameFromYZ,
  toLocal,
  toWorld,
} from '#lib/core/geometry/frame'
import { cross, dot, scale, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { Blank, EndCut, FaceName, FaceRole, Notch, Part } from './model'
import { outwardNormal } from './part-body'

/** What a part is made of and how it is finished, the same for all parts of a piece. */
export interface PieceLook {
  readonly finish: string
  /** A species, or «any». */
  readonly species: string
}

const FACES: readonly FaceName[] = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB']

/** Faces that are seen take the finish; those named are hidden. */
export function faceRoles(finish: string, hidden: readonly FaceName[]): Record<FaceName, FaceRole> {
  const seen: FaceRole = finish === 'paint' ? 'paint' : 'show'
  const roles = FACES.map((face) => [face, hidden.includes(face) ? 'hidden' : seen])
  return Object.fromEntries(roles) as Record<FaceName, FaceRole>
}

export interface PartName {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly look: PieceLook
  readonly hidden?: readonly FaceName[]
  readonly mayBeGluedUp?: boolean
}

/** As `PartName`, and faces out of sight by the way they look: for boards along the axes. */
export interface BoardName extends PartName {
  readonly hiddenToward?: readonly (keyof typeof TO)[]
}

/** A part from its blank and its frame. */
export const placedPart = (
  { id, name, kind, look, hidden, mayBeGluedUp }: PartName,
  blank: Blank,
  frame: Frame,
  operations: Part['operations'] = [],
): Part => ({
  id,
  name,
  kind,
  blank,
  operations,
  faces: faceRoles(look.finish, hidden ?? []),
  ...(look.species === 'any' ? {} : { species: look.species }),
  ...(mayBeGluedUp === undefined ? {} : { mayBeGluedUp }),
  frame,
})

const AXES = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const satisfies Record<string, Vec3>
export type AxisName = keyof typeof AXES

const span = (min: Vec3, max: Vec3, direction: Vec3): number =>
  Math.abs(dot(direction, max) - dot(direction, min))

/**
 * A board with its edges along the world's axes.
 * @param at two opposite corners, the way its grain runs, and which way its face A looks
 * @example boardBetween(name, { min: [0, 0, 0], max: [600, 90, 19], grain: 'x', faceA: [0, 0, 1] }).blank //=> { lengthMm: 600, widthMm: 90, thicknessMm: 19 }
 */
export function boardBetween(
  { hiddenToward = [], ...name }: BoardName,
  at: { readonly min: Vec3; readonly max: Vec3; readonly grain: AxisName; readonly faceA: Vec3 },
  operations: Part['operations'] = [],
): Part {
  const { min, max, faceA: z } = at
  const x: Vec3 = AXES[at.grain]
  const y = cross(z, x)
  const corner = (i: 0 | 1 | 2): number => (x[i] + y[i] + z[i] > 0 ? min[i] : max[i])
  const blank = { lengthMm: span(min, max, x), widthMm: span(min, max, y), thicknessMm: span(min, max, z) }
  const frame = frameFromYZ([corner(0), corner(1), corner(2)], y, z)
  const hidden = [...(name.hidden ?? []), ...hiddenToward.map((way) => faceToward(frame, TO[way]))]
  return placedPart({ ...name, hidden }, blank, frame, operations)
}

/** The face of a part that looks most nearly this way. @param way of the world */
export function faceToward(frame: Frame, way: Vec3): FaceName {
  const facing = (face: FaceName): number => dot(directionToWorld(frame, outwardNormal(face)), way)
  return FACES.reduce((best, face) => (facing(face) > facing(best) ? face : best))
}

/** Ways that a face may look. */
export const TO = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  front: [0, -1, 0],
  back: [0, 1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
} as const satisfies Record<string, Vec3>

export const LEFT_RIGHT = ['left', 'right'] as const
export const FRONT_BACK = ['front', 'back'] as const
export type Side = (typeof LEFT_RIGHT)[number]
export type End = (typeof FRONT_BACK)[number]

export type Span = readonly [low: number, high: number]

/** Mirrored about the middle of a whole from 0. @example mirrored(100, [0, 30]) //=> [70, 100] */
export const mirrored = (wholeMm: number, [low, high]: Span): Span => [wholeMm - high, wholeMm - low]

/** `boardBetween` by its spans along x, y and z. */
export const board = (
  look: PieceLook,
  {
    grain,
    face,
    ...name
  }: Omit<BoardName, 'look'> & { readonly grain: AxisName; readonly face: keyof typeof TO },
  [x, y, z]: readonly [Span, Span, Span],
): Part =>
  boardBetween(
    { ...name, look },
    { min: [x[0], y[0], z[0]], max: [x[1], y[1], z[1]], grain, faceA: TO[face] },
  )

/** An end cut along a plane of the world, its normal pointing to the waste. */
export function cutAlong(frame: Frame, end: 'endA' | 'endB', point: Vec3, normal: Vec3): EndCut {
  const n = directionToLocal(frame, unit(normal))
  const out = end === 'endB' ? 1 : -1
  return {
    kind: 'endCut',
    id: `cut-${end}`,
    end,
    // The point of the plane that lies nearest to the part's own corner.
    point: scale(n, dot(n, toLocal(frame, point))),
    normal: n,
    mitreRad: Math.atan2(out * n[1], out * n[0]),
    bevelRad: Math.asin(out * n[2]),
  }
}

/** The corners of a part's blank where it stands. */
export const cornersOf = ({ blank, frame }: Part): Vec3[] =>
  [0, blank.lengthMm].flatMap((x) =>
    [0, blank.widthMm].flatMap((y) => [0, blank.thicknessMm].map((z) => toWorld(frame, [x, y, z]))),
  )

export interface LetIn {
  readonly id: string
  readonly face: Notch['face']
  readonly jointId?: string
}

/**
 * The notch in a face of `host` that takes `guest` where it stands: as wide as the guest, as deep as the guest
 * reaches in, turned as the guest's grain crosses the host's.
 * @throws RangeError if the guest runs along the host's grain
 */
export function notchFor(host: Part, guest: Part, { id, face, jointId }: LetIn): Notch {
  const out = outwardNormal(face)
  const square = cross(out, [1, 0, 0])
  const way = directionToLocal(host.frame, guest.frame.x)
  const turn = dot(way, square) < 0 ? -1 : 1
  const [sin, cos] = [-turn * way[0], turn * dot(way, square)]
  if (cos < 1e-6) throw new RangeError(`no notch along the grain: ${host.id}, ${guest.id}`)
  const aside: Vec3 = [cos, sin * square[1], sin * square[2]]
  const corners = cornersOf(guest).map((corner) => toLocal(host.frame, corner))
  const asides = corners.map((corner) => dot(aside, corner))
  const [low, high] = [Math.min(...asides), Math.max(...asides)]
  const { widthMm, thicknessMm } = host.blank
  const middle: Vec3 = [0, widthMm / 2, thicknessMm / 2]
  const surfaceMm = Math.max(0, dot(out, [0, widthMm, thicknessMm]))
  const deepestMm = Math.min(...corners.map((corner) => dot(out, corner)))
  // The channel's middle line, where it crosses the middle line of the face.
  const alongMm = ((low + high) / 2 - sin * dot(square, middle)) / cos
  return {
    kind: 'notch',
    id,
    face,
    alongMm,
    widthMm: high - low,
    depthMm: surfaceMm - deepestMm,
    skewRad: Math.atan2(sin, cos),
    ...(jointId === undefined ? {} : { jointId }),
  }
}

/** The part with more operations. */
export const withOperations = (part: Part, operations: Part['operations']): Part => ({
  ...part,
  operations: [...part.operations, ...operations],
})

/** Parts by id, some of them let into others. */
export interface Housing extends Omit<LetIn, 'id'> {
  readonly host: string
  readonly guest: string
}

/** All parts, with a notch in each host for its guest. */
export function letIn(parts: readonly Part[], housings: readonly Housing[]): Part[] {
  const byId = new Map(parts.map((part) => [part.id, part]))
  return parts.map((part) => {
    const own = housings.filter((housing) => housing.host === part.id)
    return withOperations(
      part,
      own.map((housing) =>
        notchFor(part, byId.get(housing.guest)!, { ...housing, id: `notch-${housing.guest}` }),
      ),
    )
  })
}

/** `count` widths that fill `wholeMm` with equal gaps between them, and where each begins. */
export function sharesOf(
  wholeMm: number,
  count: number,
  gapMm: number,
): { widthMm: number; fromMm: number[] } {
  const widthMm = (wholeMm - (count - 1) * gapMm) / count
  return { widthMm, fromMm: Array.from({ length: count }, (_, i) => i * (widthMm + gapMm)) }
}

/** @example countTo(3) //=> [0, 1, 2] */
export const countTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i)
