/**
 * The flat faces of a part, from its blank, end cuts and notches, by formula and not from a mesh: contact
 * between parts, volume, centre of gravity and «is this point in wood» come from here. mm, mm2, mm3, in the
 * part's own frame. Method: every face is a convex polygon clipped by the other planes; notches are taken out
 * piece by piece. Holes and round-overs are left out. Tests: tests/core/design/part-shape.test.ts
 */
import { type Frame, toWorld } from '#lib/core/geometry/frame'
import { area, centroid, clipByHalfPlane, type Polygon2, subtractConvex } from '#lib/core/geometry/polygon2'
import { add, cross, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { Blank, EdgeBevel, EndCut, FaceName, Notch, Operation, Part } from './model'

/** A plane and the side that it keeps: what lies against `normal`. */
export interface HalfSpace {
  readonly point: Vec3
  /** Length 1, pointing away from what is kept. */
  readonly normal: Vec3
}

/** One flat face of a part: convex pieces in the plane of `frame`, whose z points out of the wood. */
export interface FlatFace {
  /** The face of the blank, or the notch that made it. */
  readonly of: { readonly face: FaceName } | { readonly notchId: string; readonly role: 'floor' | 'shoulder' }
  readonly frame: Frame
  readonly pieces: readonly Polygon2[]
}

const OUTWARD: Readonly<Record<FaceName, Vec3>> = {
  endA: [-1, 0, 0],
  endB: [1, 0, 0],
  edgeA: [0, -1, 0],
  edgeB: [0, 1, 0],
  faceB: [0, 0, -1],
  faceA: [0, 0, 1],
}

/** A face's outward normal in the part's own frame. @example outwardNormal('faceA') //=> [0, 0, 1] */
export const outwardNormal = (face: FaceName): Vec3 => OUTWARD[face]

/** A face's distance from the origin along its outward normal. */
function faceOffset(blank: Blank, face: FaceName): number {
  if (face === 'endB') return blank.lengthMm
  if (face === 'edgeB') return blank.widthMm
  return face === 'faceA' ? blank.thicknessMm : 0
}

const blankPlane = (blank: Blank, face: FaceName): HalfSpace => ({
  normal: OUTWARD[face],
  point: scale(OUTWARD[face], faceOffset(blank, face)),
})

const isPlaneCut = (op: Operation): op is EndCut | EdgeBevel =>
  op.kind === 'endCut' || op.kind === 'edgeBevel'

/** The planes of the blank and of its cut ends and edges, with the face that each stands for. */
export function bodyPlanes(part: Part): readonly (HalfSpace & { readonly face: FaceName })[] {
  const cuts = part.operations.filter(isPlaneCut)
  const sides = (Object.keys(OUTWARD) as FaceName[]).map((face) => ({
    ...blankPlane(part.blank, face),
    face,
  }))
  return [
    ...sides,
    ...cuts.map((cut) => ({
      point: cut.point,
      normal: cut.normal,
      face: cut.kind === 'endCut' ? cut.end : cut.edge,
    })),
  ]
}

export const notchesOf = (part: Part): readonly Notch[] =>
  part.operations.filter((op): op is Notch => op.kind === 'notch')

/**
 * Where a notch lies: origin on the face where its centre line crosses the face's, x square to the channel along
 * the grain, y along the channel, z out of the wood.
 */
export function notchFrame(blank: Blank, notch: Notch): Frame {
  const z = OUTWARD[notch.face]
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

/** Planes nearer than this, in mm, are one. */
export const COPLANAR_MM = 1e-6
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
export function flatFaces(part: Part): FlatFace[] {
  const planes = bodyPlanes(part)
  const notches = notchesOf(part)
  const cutters = notches.map((notch) => notchPlanes(part.blank, notch))
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
    push({ face: plane.face }, frame, facePolygon(frame, bounds, reach.reachMm), others)
  })
  notches.forEach((notch, i) => {
    const others = cutters.map((cutter, j) => ({ planes: cutter, first: j < i })).filter((_, j) => j !== i)
    cutters[i].forEach((plane, k) => {
      const frame = planeFrame({ point: plane.point, normal: scale(plane.normal, -1) }, reach)
      // Where the notch runs out through the body's own surface, no wood is left to make a wall.
      if (planes.some((body) => coplanar(frame, body) === -1)) return
      const bounds = [...planes, ...cutters[i].filter((_, j) => j !== k)]
      push({ notchId: notch.id, role: plane.role }, frame, facePolygon(frame, bounds, reach.reachMm), others)
    })
  })
  return faces
}

/** Faces of parts by their id; blanks of one size that are not cut share theirs. */
export function facesOfParts(parts: readonly Part[]): ReadonlyMap<string, readonly FlatFace[]> {
  const plain = new Map<string, readonly FlatFace[]>()
  const facesOf = (part: Part): readonly FlatFace[] => {
    if (part.operations.length > 0) return flatFaces(part)
    const { lengthMm, widthMm, thicknessMm } = part.blank
    const size = `${lengthMm} ${widthMm} ${thicknessMm}`
    const faces = plain.get(size) ?? flatFaces(part)
    plain.set(size, faces)
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

/** What bounds a part's wood: inside all planes of the body, and outside at least one of each notch. */
export interface Walls {
  readonly body: readonly HalfSpace[]
  readonly notches: readonly (readonly HalfSpace[])[]
}

export const wallsOf = (part: Part): Walls => ({
  body: bodyPlanes(part),
  notches: notchesOf(part).map((notch) => notchPlanes(part.blank, notch)),
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
