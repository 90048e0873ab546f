/**
 * The convex body of a part: the planes of its blank, of its cut ends, bevelled and tapered faces, and of its chamfered
 * and rounded edges. mm, rad, in the part's own frame. A rounded edge is ROUND_FACETS planes whose section has exactly
 * the area of the true quarter round, r2 (tan(f/2) - f/2) off an edge whose faces turn by f (plane trigonometry), so
 * volumes agree with the round; where two rounded edges meet in a corner they agree to some cubic tenths of the radius.
 * Tests: tests/core/design/part-body.test.ts
 */
import { add, cross, dot, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { Blank, Chamfer, EasedEdge, EdgeBevel, EndCut, FaceName, Part, RoundOver, Taper } from './model'

/** A plane and the side that it keeps: what lies against `normal`. */
export interface HalfSpace {
  readonly point: Vec3
  /** Length 1, pointing away from what is kept. */
  readonly normal: Vec3
}

/** A plane of a part's surface, and what made it. */
export interface BodyPlane extends HalfSpace {
  readonly of: { readonly face: FaceName } | { readonly easedId: string }
}
type FacePlane = HalfSpace & { readonly of: { readonly face: FaceName } }

/** Planes nearer than this, in mm, are one. */
export const COPLANAR_MM = 1e-6
/** Flat facets that stand for a rounded edge. */
export const ROUND_FACETS = 4
/** An edge shorter than this, in mm, is a corner. */
const LEAST_EDGE_MM = 1e-3

const OUTWARD: Readonly<Record<FaceName, Vec3>> = {
  endA: [-1, 0, 0],
  endB: [1, 0, 0],
  edgeA: [0, -1, 0],
  edgeB: [0, 1, 0],
  faceB: [0, 0, -1],
  faceA: [0, 0, 1],
}
export const FACE_NAMES = Object.keys(OUTWARD) as readonly FaceName[]

/** A face's outward normal in the part's own frame. @example outwardNormal('faceA') //=> [0, 0, 1] */
export const outwardNormal = (face: FaceName): Vec3 => OUTWARD[face]

/** A face's distance from the origin along its outward normal. */
export function faceOffset(blank: Blank, face: FaceName): number {
  if (face === 'endB') return blank.lengthMm
  if (face === 'edgeB') return blank.widthMm
  return face === 'faceA' ? blank.thicknessMm : 0
}

/** Slope of a tapered face against the grain. @example taperRad({ lengthMm: 300, depthMm: 10 }) * 180 / Math.PI //=> 1.909… */
export const taperRad = ({ lengthMm, depthMm }: Pick<Taper, 'lengthMm' | 'depthMm'>): number =>
  Math.atan2(depthMm, lengthMm)

/** What a taper takes off its face at a place along the grain. @example taperTakenMm({ lengthMm: 300, depthMm: 10, end: 'endA' }, 450, 150) //=> 5 */
export function taperTakenMm(
  { lengthMm, depthMm, end }: Pick<Taper, 'lengthMm' | 'depthMm' | 'end'>,
  partMm: number,
  x: number,
): number {
  const fromEndMm = end === 'endA' ? x : partMm - x
  return Math.max(0, depthMm * (1 - fromEndMm / lengthMm))
}

function taperPlane(blank: Blank, taper: Taper): HalfSpace {
  const [out, end] = [OUTWARD[taper.face], OUTWARD[taper.end]]
  const start = add(
    scale(out, faceOffset(blank, taper.face)),
    scale(end, faceOffset(blank, taper.end) - taper.lengthMm),
  )
  return { point: start, normal: unit(add(scale(end, taper.depthMm), scale(out, taper.lengthMm))) }
}

const isCut = (op: Part['operations'][number]): op is EndCut | EdgeBevel | Taper =>
  op.kind === 'endCut' || op.kind === 'edgeBevel' || op.kind === 'taper'

function cutPlane(blank: Blank, op: EndCut | EdgeBevel | Taper): FacePlane {
  if (op.kind === 'taper') return { ...taperPlane(blank, op), of: { face: op.face } }
  return { point: op.point, normal: op.normal, of: { face: op.kind === 'endCut' ? op.end : op.edge } }
}

/** The planes of the blank and of its cut ends, edges and faces, edges left sharp. */
export const sharpPlanes = ({ blank, operations }: Part): readonly FacePlane[] => [
  ...FACE_NAMES.map((face) => ({
    normal: OUTWARD[face],
    point: scale(OUTWARD[face], faceOffset(blank, face)),
    of: { face },
  })),
  ...operations.filter(isCut).map((op) => cutPlane(blank, op)),
]

/** Where two faces of a part meet, and the planes that meet there. */
export interface SharpEdge {
  readonly from: Vec3
  readonly to: Vec3
  readonly planes: readonly [HalfSpace, HalfSpace]
  /** Turn from one face to the other: a quarter for a square edge. */
  readonly turnRad: number
}

/** The stretch of two planes' common line that lies within all others. */
function edgeOf(a: HalfSpace, b: HalfSpace, others: readonly HalfSpace[]): SharpEdge | undefined {
  const along = cross(a.normal, b.normal)
  const size2 = dot(along, along)
  if (size2 < 1e-9) return undefined
  const [ca, cb] = [dot(a.normal, a.point), dot(b.normal, b.point)]
  const origin = scale(add(scale(cross(b.normal, along), ca), scale(cross(along, a.normal), cb)), 1 / size2)
  const way = scale(along, 1 / Math.sqrt(size2))
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (const { point, normal } of others) {
    const slope = dot(normal, way)
    const outMm = dot(normal, sub(origin, point))
    if (Math.abs(slope) < 1e-12) {
      if (outMm > COPLANAR_MM) return undefined
    } else if (slope > 0) high = Math.min(high, -outMm / slope)
    else low = Math.max(low, -outMm / slope)
  }
  if (!(high - low > LEAST_EDGE_MM)) return undefined
  return {
    from: add(origin, scale(way, low)),
    to: add(origin, scale(way, high)),
    planes: [a, b],
    turnRad: Math.atan2(Math.sqrt(size2), dot(a.normal, b.normal)),
  }
}

const isSamePlane = (a: HalfSpace, b: HalfSpace): boolean =>
  dot(a.normal, b.normal) > 1 - 1e-12 && Math.abs(dot(a.normal, sub(a.point, b.point))) < COPLANAR_MM

/** The edges in which two faces of a part meet: more than one where a face is tapered. Notches are not looked at. */
export function edgesBetween(part: Part, [first, second]: EasedEdge['between']): SharpEdge[] {
  const planes = sharpPlanes(part).filter(
    (plane, i, all) => !all.slice(0, i).some((p) => isSamePlane(p, plane)),
  )
  const of = (face: FaceName): FacePlane[] => planes.filter((plane) => plane.of.face === face)
  return of(first).flatMap((a) =>
    of(second).flatMap(
      (b) =>
        edgeOf(
          a,
          b,
          planes.filter((plane) => plane !== a && plane !== b),
        ) ?? [],
    ),
  )
}

/** Section that a round or a chamfer takes off an edge whose faces turn by `turnRad`, mm2. @example easedAreaMm2({ kind: 'roundOver', radiusMm: 10 }, Math.PI / 2).toFixed(4) //=> '21.4602' */
export const easedAreaMm2 = (
  op: Pick<RoundOver, 'kind' | 'radiusMm'> | Pick<Chamfer, 'kind' | 'widthMm'>,
  turnRad: number,
): number =>
  op.kind === 'chamfer'
    ? (op.widthMm ** 2 * Math.sin(turnRad)) / 2
    : op.radiusMm ** 2 * (Math.tan(turnRad / 2) - turnRad / 2)

/**
 * How far the corners between facets lie from the middle of a round of radius 1: the first and the last stand where the
 * round meets the faces, and the triangles from the middle add up to the sector.
 */
function cornerRadius(turnRad: number): number {
  const sin = Math.sin(turnRad / ROUND_FACETS)
  const inner = ROUND_FACETS - 2
  return (Math.sqrt(sin ** 2 + inner * sin * turnRad) - sin) / (inner * sin)
}

function roundPlanes({ from, to, planes, turnRad }: SharpEdge, radiusMm: number): HalfSpace[] {
  const [n, m] = [planes[0].normal, planes[1].normal]
  const middle = sub(from, scale(add(n, m), radiusMm / (1 + Math.cos(turnRad))))
  const outer = cornerRadius(turnRad)
  const along = sub(to, from)
  // Corners of a round of radius 1, from its middle.
  const corner = (i: number): Vec3 => {
    const turned = (i * turnRad) / ROUND_FACETS
    const way = add(scale(n, Math.sin(turnRad - turned)), scale(m, Math.sin(turned)))
    const reach = i === 0 || i === ROUND_FACETS ? 1 : outer
    return scale(way, reach / Math.sin(turnRad))
  }
  return Array.from({ length: ROUND_FACETS }, (_, i) => ({
    point: add(middle, scale(corner(i), radiusMm)),
    normal: unit(cross(sub(corner(i + 1), corner(i)), along)),
  }))
}

function chamferPlane({ from, planes, turnRad }: SharpEdge, widthMm: number): HalfSpace {
  const [n, m] = [planes[0].normal, planes[1].normal]
  const inwards = scale(sub(scale(n, Math.cos(turnRad)), m), 1 / Math.sin(turnRad))
  return { normal: unit(add(n, m)), point: add(from, scale(inwards, widthMm)) }
}

const isEased = (op: Part['operations'][number]): op is EasedEdge =>
  op.kind === 'roundOver' || op.kind === 'chamfer'

function easedPlanes(part: Part): BodyPlane[] {
  return part.operations.filter(isEased).flatMap((op) =>
    edgesBetween(part, op.between).flatMap((edge) => {
      const planes = op.kind === 'chamfer' ? [chamferPlane(edge, op.widthMm)] : roundPlanes(edge, op.radiusMm)
      return planes.map((plane) => ({ ...plane, of: { easedId: op.id } }))
    }),
  )
}

/** All planes of a part's body, notches left out, with what made each. */
export const bodyPlanes = (part: Part): readonly BodyPlane[] => [...sharpPlanes(part), ...easedPlanes(part)]

/** The part as it is before its edges are eased: what a drawing shows. */
export const withSharpEdges = (part: Part): Part =>
  part.operations.some((op) => op.kind === 'roundOver')
    ? { ...part, operations: part.operations.filter((op) => op.kind !== 'roundOver') }
    : part
