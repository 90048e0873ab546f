/**
 * The flat faces of a part, from the planes of its body, its notches and engraved fields, by formula and not from a
 * mesh: contact between parts, volume, centre of gravity and «is this point in wood» come from here. mm, mm2, mm3, in
 * the part's own frame. Method: every face is a convex polygon clipped by the other planes; notches are taken out
 * piece by piece. Holes are left out, but for `boredProperties`. Tests: tests/core/design/part-shape.test.ts
 */
import { type Frame, toWorld } from '#lib/core/geometry/frame'
import { area, centroid, clipByHalfPlane, type Polygon2, subtractConvex } from '#lib/core/geometry/polygon2'
import { add, cross, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { Blank, EngravedField, FaceName, Hole, Notch, Part } from './model'
import {
  type BodyPlane,
  bodyPlanes,
  COPLANAR_MM,
  faceOffset,
  type HalfSpace,
  outwardNormal,
} from './part-body'

/** One flat face of a part: convex pieces in the plane of `frame`, whose z points out of the wood. */
export interface FlatFace {
  /** The face of the blank, the rounded or chamfered edge, or the notch or engraved field that made it. */
  readonly of:
    | { readonly face: FaceName }
    | { readonly easedId: string }
    | { readonly notchId: string; readonly role: 'floor' | 'shoulder' }
  readonly frame: Frame
  readonly pieces: readonly Polygon2[]
}

export const notchesOf = (part: Part): readonly Notch[] =>
  part.operations.filter((op): op is Notch => op.kind === 'notch')

/**
 * Where a notch lies: origin on the face where its centre line crosses the face's, x square to the channel along
 * the grain, y along the channel, z out of the wood.
 */
export function notchFrame(blank: Blank, notch: Notch): Frame {
  const z = outwardNormal(notch.face)
  const across = cross(z, [1, 0, 0])
  const cos = Math.cos(notch.skewRad)
  const sin = Math.sin(notch.skewRad)
  const y: Vec3 = add(scale(across, cos), scale([1, 0, 0], -sin))
  const middle: Vec3 =
    notch.face === 'faceA' || notch.face === 'faceB'
      ? [notch.alongMm, blank.widthMm / 2, 0]
      : [notch.alongMm, 0, blank.thicknessMm / 2]
  const origin = add(middle, scale(z, faceOffset(blank, notch.face) - dot(middle, z)))
  return { origin, x: cross(y, z), y, z }
}

/** The three planes that bound what a notch takes away: floor, and shoulders towards end B and end A. */
export function notchPlanes(
  blank: Blank,
  notch: Notch,
): readonly (HalfSpace & { role: 'floor' | 'shoulder' })[] {
  const { origin, x, z } = notchFrame(blank, notch)
  return [
    { role: 'floor', normal: scale(z, -1), point: sub(origin, scale(z, notch.depthMm)) },
    { role: 'shoulder', normal: x, point: add(origin, scale(x, notch.widthMm / 2)) },
    { role: 'shoulder', normal: scale(x, -1), point: sub(origin, scale(x, notch.widthMm / 2)) },
  ]
}

const isField = (op: Part['operations'][number]): op is EngravedField => op.kind === 'engravedField'

/** Where an engraved field lies: its middle on the face, x along the grain, z out of the wood. */
export function fieldFrame(blank: Blank, { face, alongMm, acrossMm }: EngravedField): Frame {
  const z = outwardNormal(face)
  const onFace = scale(z, faceOffset(blank, face))
  const { widthMm, thicknessMm } = blank
  const origin: Vec3 =
    z[1] === 0
      ? add(onFace, [alongMm, widthMm / 2 + acrossMm, 0])
      : add(onFace, [alongMm, 0, thicknessMm / 2 + acrossMm])
  return { origin, x: [1, 0, 0], y: cross(z, [1, 0, 0]), z }
}

/** What is taken out of a part's body through its surface: planes that bound it, open above. */
interface Pocket {
  readonly id: string
  readonly planes: readonly (HalfSpace & { readonly role: 'floor' | 'shoulder' })[]
}

function fieldPlanes(blank: Blank, field: EngravedField): Pocket['planes'] {
  const { origin, x, y, z } = fieldFrame(blank, field)
  const wall = (way: Vec3, sizeMm: number) => ({
    role: 'shoulder' as const,
    normal: way,
    point: add(origin, scale(way, sizeMm / 2)),
  })
  return [
    { role: 'floor', normal: scale(z, -1), point: sub(origin, scale(z, field.depthMm)) },
    ...[x, scale(x, -1)].map((way) => wall(way, field.lengthMm)),
    ...[y, scale(y, -1)].map((way) => wall(way, field.widthMm)),
  ]
}

const pocketsOf = (part: Part): readonly Pocket[] => [
  ...notchesOf(part).map((notch) => ({ id: notch.id, planes: notchPlanes(part.blank, notch) })),
  ...part.operations
    .filter(isField)
    .map((field) => ({ id: field.id, planes: fieldPlanes(part.blank, field) })),
]

/**
 * A frame in the plane, its z along the normal. Its origin is the plane's point or, where a cut is given by one out
 * of the blank's reach, the place of the plane nearest to the blank's middle.
 */
function planeFrame({ point, normal }: HalfSpace, { middle, reachMm }: Reach): Frame {
  const seed: Vec3 = Math.abs(normal[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]
  const across = cross(normal, seed)
  const x = scale(across, 1 / Math.hypot(...across))
  const away = sub(point, middle)
  const origin = Math.hypot(...away) < reachMm / 4 ? point : add(middle, scale(normal, dot(normal, away)))
  return { origin, x, y: cross(normal, x), z: normal }
}

/** How far a sheet is laid out in a plane, so that it covers the blank. */
interface Reach {
  readonly middle: Vec3
  readonly reachMm: number
}

function reachOf({ lengthMm, widthMm, thicknessMm }: Blank): Reach {
  return {
    middle: [lengthMm / 2, widthMm / 2, thicknessMm / 2],
    reachMm: 2 * (lengthMm + widthMm + thicknessMm),
  }
}

/** Planes turned by less than this, in rad, are parallel: a micrometre and a half over a metre. */
const PARALLEL_RAD = 1.5e-6

/** A polygon in the plane of `frame`, clipped by what a half-space keeps. */
function clipInPlane(polygon: Polygon2, frame: Frame, { point, normal }: HalfSpace): Polygon2 {
  const inPlane = [dot(normal, frame.x), dot(normal, frame.y)] as const
  const offset = dot(normal, sub(point, frame.origin))
  const size = Math.hypot(inPlane[0], inPlane[1])
  if (size < PARALLEL_RAD) return offset >= -COPLANAR_MM ? polygon : []
  return clipByHalfPlane(polygon, { normal: [inPlane[0] / size, inPlane[1] / size], offset: offset / size })
}

function facePolygon(frame: Frame, bounds: readonly HalfSpace[], reachMm: number): Polygon2 {
  const sheet: Polygon2 = [
    [-reachMm, -reachMm],
    [reachMm, -reachMm],
    [reachMm, reachMm],
    [-reachMm, reachMm],
  ]
  return bounds.reduce((left, plane) => clipInPlane(left, frame, plane), sheet)
}

/** A notch as it meets a face: `first` where a wall that both have is to be left to the notch. */
interface Cutter {
  readonly planes: readonly HalfSpace[]
  readonly first: boolean
}

/** 1 if a plane lies in that of the frame and faces the same way, -1 if it faces it, 0 if it lies elsewhere. */
function coplanar(frame: Frame, { point, normal }: HalfSpace): 1 | 0 | -1 {
  const along = dot(normal, frame.z)
  if (
    Math.abs(along) < 1 - PARALLEL_RAD ** 2 / 2 ||
    Math.abs(dot(frame.z, sub(point, frame.origin))) > COPLANAR_MM
  )
    return 0
  return along > 0 ? 1 : -1
}

/** What is left of a face's pieces once the notches have gone through it. */
function withoutNotches(pieces: readonly Polygon2[], frame: Frame, cutters: readonly Cutter[]): Polygon2[] {
  let left = [...pieces]
  for (const { planes, first } of cutters) {
    // A wall that the notch has in common with this face, wood behind both: it stays with one of them.
    if (!first && planes.some((plane) => coplanar(frame, plane) === -1)) continue
    left = left.flatMap((piece) => {
      const taken = planes.reduce((rest, plane) => clipInPlane(rest, frame, plane), piece)
      return subtractConvex(piece, taken)
    })
  }
  return left
}

/** Every flat face that a part has after its end cuts and notches, in the part's own frame. */
export const flatFaces = (part: Part): FlatFace[] => facesBetween(part, bodyPlanes(part))

/** The faces of what of a part lies within a box in the part's own frame, given as planes: none if nothing does. */
export const facesWithin = (part: Part, box: readonly HalfSpace[]): FlatFace[] =>
  facesBetween(part, [...bodyPlanes(part), ...box.map((plane) => ({ ...plane, of: { easedId: 'box' } }))])

function facesBetween(part: Part, planes: readonly BodyPlane[]): FlatFace[] {
  const pockets = pocketsOf(part)
  const cutters = pockets.map((pocket) => pocket.planes)
  const reach = reachOf(part.blank)
  const faces: FlatFace[] = []
  const push = (of: FlatFace['of'], frame: Frame, polygon: Polygon2, others: readonly Cutter[]): void => {
    const pieces = withoutNotches(polygon.length === 0 ? [] : [polygon], frame, others)
    if (pieces.length > 0) faces.push({ of, frame, pieces })
  }
  planes.forEach((plane, i) => {
    const frame = planeFrame(plane, reach)
    // A square end cut at the very end of its blank is the same plane twice.
    if (planes.some((other, j) => j < i && coplanar(frame, other) === 1)) return
    const bounds = planes.filter((_, j) => j !== i)
    const others = cutters.map((cutter) => ({ planes: cutter, first: false }))
    push(plane.of, frame, facePolygon(frame, bounds, reach.reachMm), others)
  })
  pockets.forEach(({ id }, i) => {
    const others = cutters.map((cutter, j) => ({ planes: cutter, first: j < i })).filter((_, j) => j !== i)
    cutters[i].forEach((plane, k) => {
      const frame = planeFrame({ point: plane.point, normal: scale(plane.normal, -1) }, reach)
      // Where the notch runs out through the body's own surface, no wood is left to make a wall.
      if (planes.some((body) => coplanar(frame, body) === -1)) return
      const bounds = [...planes, ...cutters[i].filter((_, j) => j !== k)]
      push({ notchId: id, role: plane.role }, frame, facePolygon(frame, bounds, reach.reachMm), others)
    })
  })
  return faces
}

/** The same for parts that are cut alike, holes left out. */
const cutKey = ({ blank, operations }: Part): string =>
  operations.length === 0
    ? `${blank.lengthMm} ${blank.widthMm} ${blank.thicknessMm}`
    : JSON.stringify([blank, operations.filter((op) => op.kind !== 'hole')])

/** Faces of parts by their id; parts of one shape share theirs. */
export function facesOfParts(parts: readonly Part[]): ReadonlyMap<string, readonly FlatFace[]> {
  const known = new Map<string, readonly FlatFace[]>()
  const facesOf = (part: Part): readonly FlatFace[] => {
    const key = cutKey(part)
    const faces = known.get(key) ?? flatFaces(part)
    known.set(key, faces)
    return faces
  }
  return new Map(parts.map((part) => [part.id, facesOf(part)]))
}

/** Volume in mm3 and centre of gravity in the part's own frame. */
export function massProperties(
  part: Part,
  faces: readonly FlatFace[] = flatFaces(part),
): { readonly volumeMm3: number; readonly centre: Vec3 } {
  let volumeMm3 = 0
  let moment: Vec3 = [0, 0, 0]
  for (const { frame, pieces } of faces) {
    for (const piece of pieces) {
      // Cones from the part's origin to the piece: volume = height × area / 3, centre at 3/4 of the way.
      const coneMm3 = (dot(frame.origin, frame.z) * area(piece)) / 3
      const [u, v] = centroid(piece)
      moment = add(moment, scale(toWorld(frame, [u, v, 0]), 0.75 * coneMm3))
      volumeMm3 += coneMm3
    }
  }
  return { volumeMm3, centre: scale(moment, 1 / volumeMm3) }
}

/**
 * Volume and centre of gravity of a part with its holes bored: cylinders, and the cone of each countersink, as long as
 * each lies wholly in the wood and meets no other.
 */
export function boredProperties(part: Part): { readonly volumeMm3: number; readonly centre: Vec3 } {
  const whole = massProperties(part)
  let { volumeMm3 } = whole
  let moment = scale(whole.centre, volumeMm3)
  for (const { volume, atMm, hole } of part.operations.filter(isHole).flatMap(boresOf)) {
    moment = sub(moment, scale(add(hole.point, scale(hole.direction, atMm)), volume))
    volumeMm3 -= volume
  }
  return { volumeMm3, centre: scale(moment, 1 / volumeMm3) }
}

const isHole = (op: Part['operations'][number]): op is Hole => op.kind === 'hole'

/** Depth of a countersink for a 90° head. */
export const countersinkDepthMm = ({ countersinkDiameterMm, diameterMm }: Hole): number =>
  countersinkDiameterMm === undefined ? 0 : Math.max(0, (countersinkDiameterMm - diameterMm) / 2)

/** A hole as the frustum of its countersink and the cylinder below, each with its volume and how deep its middle lies. */
function boresOf(hole: Hole): { readonly volume: number; readonly atMm: number; readonly hole: Hole }[] {
  const [r, sinkMm] = [hole.diameterMm / 2, countersinkDepthMm(hole)]
  const wide = r + sinkMm
  const frustum = (Math.PI * sinkMm * (wide ** 2 + wide * r + r ** 2)) / 3
  const frustumAt = (sinkMm * (wide ** 2 + 2 * wide * r + 3 * r ** 2)) / (4 * (wide ** 2 + wide * r + r ** 2))
  const cylinder = Math.PI * r ** 2 * (hole.depthMm - sinkMm)
  return [
    { hole, volume: frustum, atMm: frustumAt },
    { hole, volume: cylinder, atMm: (sinkMm + hole.depthMm) / 2 },
  ]
}

/** What bounds a part's wood: inside all planes of the body, and outside at least one of each notch. */
export interface Walls {
  readonly body: readonly HalfSpace[]
  readonly notches: readonly (readonly HalfSpace[])[]
}

export const wallsOf = (part: Part): Walls => ({
  body: bodyPlanes(part),
  notches: pocketsOf(part).map((pocket) => pocket.planes),
})

const distanceOut = ({ normal, point }: HalfSpace, p: Vec3): number =>
  normal[0] * (p[0] - point[0]) + normal[1] * (p[1] - point[1]) + normal[2] * (p[2] - point[2])

/**
 * How deep a point lies in a part's wood, in mm: the distance to the nearest plane of its surface. Negative
 * outside. Holes are not looked at.
 */
export function depthInWood(walls: Walls, point: Vec3): number {
  let depthMm = Number.POSITIVE_INFINITY
  for (const plane of walls.body) depthMm = Math.min(depthMm, -distanceOut(plane, point))
  for (const notch of walls.notches) {
    let outMm = Number.NEGATIVE_INFINITY
    for (const plane of notch) outMm = Math.max(outMm, distanceOut(plane, point))
    depthMm = Math.min(depthMm, outMm)
  }
  return depthMm
}

/** A stretch of a straight line, as shares of the way from its start to its end. */
export type Stretch = readonly [number, number]

/** The stretch of the line from a to b that lies inside all planes; undefined if none does. */
function stretchInside(planes: readonly HalfSpace[], a: Vec3, b: Vec3): Stretch | undefined {
  let low = 0
  let high = 1
  for (const plane of planes) {
    const from = distanceOut(plane, a)
    const to = distanceOut(plane, b)
    if (from > 0 && to > 0) return undefined
    if (from > 0) low = Math.max(low, from / (from - to))
    if (to > 0) high = Math.min(high, from / (from - to))
  }
  return low < high ? [low, high] : undefined
}

/** Where the line from a to b runs through a part's wood, in order. Points in the part's own frame. */
export function woodAlong(walls: Walls, a: Vec3, b: Vec3): Stretch[] {
  const inBody = stretchInside(walls.body, a, b)
  if (inBody === undefined) return []
  return walls.notches.reduce<Stretch[]>(
    (left, notch) => {
      const gone = stretchInside(notch, a, b)
      if (gone === undefined) return left
      return left.flatMap(([low, high]) =>
        [[low, Math.min(high, gone[0])] as const, [Math.max(low, gone[1]), high] as const].filter(
          ([from, to]) => to > from,
        ),
      )
    },
    [inBody],
  )
}
