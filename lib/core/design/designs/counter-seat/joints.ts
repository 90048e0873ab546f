/**
 * The joints of one counter seat: where parts touch comes from their faces, the screws from the pattern below.
 * Support to leg: two screws on a diagonal of the lap. Board to top support: one or two, set aside from the lap
 * screws that pass there. Rail to leg: two, one above the other.
 */
import { add, scale, type Vec3 } from '#lib/core/geometry/vec3'
import { contactBetween, grainAt, type WorldFace, worldFaces } from '../../contact'
import { type JointPlan as JointPlanOfKind, screwsOfKind } from '../../join-parts'
import type { Joint, Part, ScrewAxis } from '../../model'
import { facesOfParts } from '../../part-shape'
import { TO } from '../../placed-part'
import { headMm, LEAST_COVER_MM, screwGapMm } from '../../screws'
import type { Layout } from './layout'
import {
  BACKREST,
  boardId,
  ENDS,
  type End,
  LEVELS,
  type Level,
  lapJointId,
  legAxis,
  legId,
  postId,
  railId,
  SIDES,
  type Side,
  supportHeightMm,
  supportId,
} from './parts'

/** Two screws in a bearing at least this long, else one. */
const TWO_SCREWS_MM = 45

interface Piece {
  readonly part: Part
  readonly faces: readonly WorldFace[]
}
type Pieces = ReadonlyMap<string, Piece>

interface JointPlan {
  readonly id: string
  readonly kind: Joint['kind']
  readonly a: string
  readonly b: string
  readonly glued: boolean
  /** Under each head, on the surface, and the way that all of them are driven. */
  readonly heads: readonly Vec3[]
  readonly drive: Vec3
  readonly lengthMm: number
}

function jointFrom(l: Layout, pieces: Pieces, plan: JointPlan): Joint {
  const [a, b] = [pieces.get(plan.a), pieces.get(plan.b)]
  if (a === undefined || b === undefined) throw new RangeError(`joint without its parts: ${plan.id}`)
  const contact = contactBetween(a.faces, b.faces, plan.drive)
  if (contact === undefined) throw new RangeError(`parts that do not touch: ${plan.a}, ${plan.b}`)
  return {
    id: plan.id,
    kind: plan.kind,
    a: plan.a,
    b: plan.b,
    contact,
    grainAtA: grainAt(a.part, contact.normal),
    grainAtB: grainAt(b.part, contact.normal),
    glued: plan.glued,
    screws: plan.heads.map((head, i) => ({
      id: `${plan.id}-screw-${i + 1}`,
      head,
      tip: add(head, scale(plan.drive, plan.lengthMm)),
      shankMm: l.shankMm,
      lengthMm: plan.lengthMm,
      through: plan.a,
      into: plan.b,
    })),
  }
}

const mirrorY = (l: Layout, end: End, y: number): number => (end === 'front' ? y : l.v.seatDepth - y)

/** The two heads of a lap: a quarter in from its sides, the upper one further in from the leg's outer edge. */
function lapHeads(l: Layout, end: End, level: Level, faceX: number): Vec3[] {
  const bottomMm = supportHeightMm(l, level)
  const point = (up: number, across: number): Vec3 => {
    const z = bottomMm + up * l.v.supportWidth
    return [faceX, mirrorY(l, end, l.edgeAtMm(z) + (across * l.v.legWidth) / l.cos), z]
  }
  return [point(0.25, 0.25), point(0.75, 0.75)]
}

function lapPlan(l: Layout, pieces: Pieces, side: Side, end: End, level: Level): JointPlan {
  const id = supportId(side, level)
  const { frame, blank } = pieces.get(id)!.part
  const faceX = frame.origin[0] + frame.z[0] * blank.thicknessMm
  return {
    id: lapJointId(side, end, level),
    kind: l.v.joint,
    a: id,
    b: legId(side, end),
    glued: true,
    heads: lapHeads(l, end, level, faceX),
    drive: scale(frame.z, -1),
    lengthMm: l.v.screwLength,
  }
}

function railPlan(l: Layout, pieces: Pieces, side: Side, end: End): JointPlan {
  const { frame, blank } = pieces.get(railId(end))!.part
  const middleMm = l.legFaceMm + l.v.legThickness / 2
  const x = side === 'left' ? middleMm : l.v.seatWidth - middleMm
  const onFace = add(frame.origin, scale(frame.z, blank.thicknessMm))
  const head = (up: number): Vec3 => {
    const [, y, z] = add(onFace, scale(legAxis(l, end), up * blank.widthMm))
    return [x, y, z]
  }
  return {
    id: `rail-${end}-${side}`,
    kind: 'onFace',
    a: railId(end),
    b: legId(side, end),
    glued: true,
    heads: [head(0.25), head(0.75)],
    drive: scale(frame.z, -1),
    lengthMm: l.v.seatScrewLength,
  }
}

/** The place nearest to `wish` within a bearing at which a screw keeps clear of those already there. */
function clearPlace(
  wish: number,
  [low, high]: readonly [number, number],
  screwAt: (y: number) => ScrewAxis,
  others: readonly ScrewAxis[],
): number {
  const gapAt = (y: number): number => Math.min(...others.map((other) => screwGapMm(screwAt(y), other)))
  const reachMm = Math.ceil(high - low)
  for (let step = 0; step <= reachMm; step++) {
    for (const y of step === 0 ? [wish] : [wish + step, wish - step]) {
      if (y >= low && y <= high && gapAt(y) >= LEAST_COVER_MM + 1) return y
    }
  }
  return wish
}

function boardPlan(l: Layout, pieces: Pieces, side: Side, index: number, laps: readonly Joint[]): JointPlan {
  const { frame, blank } = pieces.get(boardId(index))!.part
  const support = pieces.get(supportId(side, 'top'))!.part
  const x = support.frame.origin[0] + support.frame.z[0] * (l.v.supportThickness / 2)
  const low = Math.max(frame.origin[1], l.v.overhang)
  const high = Math.min(frame.origin[1] + blank.widthMm, l.v.seatDepth - l.v.overhang)
  const edgeMm = Math.min(headMm(l.shankMm), (high - low) / 4)
  const drive: Vec3 = [0, 0, -1]
  const headAt = (y: number): Vec3 => [x, y, l.seatTopMm]
  const screwAt = (y: number): ScrewAxis => ({
    id: '',
    head: headAt(y),
    tip: add(headAt(y), scale(drive, l.v.seatScrewLength)),
    shankMm: l.shankMm,
    lengthMm: l.v.seatScrewLength,
    through: '',
    into: '',
  })
  const near = laps.filter((joint) => joint.a === support.id).flatMap((joint) => joint.screws)
  const shares = high - low >= TWO_SCREWS_MM ? [0.25, 0.75] : [0.5]
  const places: number[] = []
  for (const share of shares) {
    const others = [...near, ...places.map(screwAt)]
    places.push(clearPlace(low + share * (high - low), [low + edgeMm, high - edgeMm], screwAt, others))
  }
  return {
    id: `seat-${side}-${index + 1}`,
    kind: 'onTop',
    a: boardId(index),
    b: support.id,
    glued: false,
    heads: places.map(headAt),
    drive,
    lengthMm: l.v.seatScrewLength,
  }
}

/** All joints of one seat. */
export function jointsOfSeat(l: Layout, parts: readonly Part[]): Joint[] {
  const faces = facesOfParts(parts)
  const pieces = new Map(
    parts.map((part) => [part.id, { part, faces: worldFaces(part, faces.get(part.id)) }]),
  )
  const make = (plan: JointPlan): Joint => jointFrom(l, pieces, plan)
  const laps = SIDES.flatMap((side) =>
    ENDS.flatMap((end) => LEVELS.map((level) => make(lapPlan(l, pieces, side, end, level)))),
  )
  const rails = ENDS.flatMap((end) => SIDES.map((side) => make(railPlan(l, pieces, side, end))))
  const seat = SIDES.flatMap((side) =>
    Array.from({ length: l.v.seatBoards }, (_, index) => make(boardPlan(l, pieces, side, index, laps))),
  )
  return [...laps, ...rails, ...seat]
}

/** How the posts of a low back hold: to leg and support from inside, the backrest to the posts from the sitter's side. */
export function backPlans(l: Layout): JointPlanOfKind[] {
  if (l.v.back === 'none') return []
  const { shankMm } = l
  const frame = screwsOfKind({
    lengthMm: l.v.screwLength,
    shankMm,
    parameter: 'screwLength',
    called: 'A frame screw',
  })
  const seat = screwsOfKind({
    lengthMm: l.v.seatScrewLength,
    shankMm,
    parameter: 'seatScrewLength',
    called: 'A seat or rail screw',
  })
  const isFlush = l.v.joint === 'letIn' && l.v.supportFace === 'inner'
  return SIDES.flatMap((side): JointPlanOfKind[] => [
    {
      id: `lap-post-${side}`,
      kind: 'onFace',
      a: postId(side),
      b: legId(side, 'front'),
      glued: true,
      screws: frame(2),
      facing: TO[side],
      bearing: 'back',
    },
    ...(isFlush
      ? [
          {
            id: `lap-post-${side}-top`,
            kind: 'onFace' as const,
            a: postId(side),
            b: supportId(side, 'top'),
            glued: true,
            screws: frame(1),
            facing: TO[side],
            bearing: 'back',
          },
        ]
      : []),
    {
      id: `rest-${side}`,
      kind: 'onFace',
      a: BACKREST,
      b: postId(side),
      // Across the grain of the posts: screwed only, so that it can move.
      glued: false,
      screws: seat(2),
      facing: TO.front,
      bearing: 'backWidth',
    },
  ])
}

/** Moves a joint, with all that is in it. */
export const moveJoint = (joint: Joint, by: Vec3, rename: (id: string) => string): Joint => ({
  ...joint,
  id: rename(joint.id),
  a: rename(joint.a),
  b: rename(joint.b),
  contact: { ...joint.contact, polygon: joint.contact.polygon.map((p) => add(p, by)) },
  screws: joint.screws.map((screw) => ({
    ...screw,
    id: rename(screw.id),
    head: add(screw.head, by),
    tip: add(screw.tip, by),
    through: rename(screw.through),
    into: rename(screw.into),
  })),
})
