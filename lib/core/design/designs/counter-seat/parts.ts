/**
 * The parts of one counter seat, each where it stands. Face A of a leg looks to the middle of the seat; face A
 * of a support, rail or board is the one that is seen and that its screws go in by. Left and right legs of one
 * end are mirror images: «hand» a and b are the two shapes.
 */
import { frameFromYZ } from '#lib/core/geometry/frame'
import { cross, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { engravedField } from '../../engraved-field'
import type { EndCut, FaceName, FaceRole, Notch, Part } from '../../model'
import { board as boardAt, faceRoles, withOperations } from '../../placed-part'
import type { Layout } from './layout'

export const SIDES = ['left', 'right'] as const
export const ENDS = ['front', 'back'] as const
export const LEVELS = ['top', 'lower'] as const
export type Side = (typeof SIDES)[number]
export type End = (typeof ENDS)[number]
export type Level = (typeof LEVELS)[number]

export const legId = (side: Side, end: End): string => `leg-${side}-${end}`
export const supportId = (side: Side, level: Level): string => `support-${side}-${level}`
export const railId = (end: End): string => `rail-${end}`
export const boardId = (index: number): string => `board-${index + 1}`
export const lapJointId = (side: Side, end: End, level: Level): string => `lap-${side}-${end}-${level}`

const UP: Vec3 = [0, 0, 1]

/** To the middle of the seat from a frame on this side. */
const inward = (side: Side): Vec3 => (side === 'left' ? [1, 0, 0] : [-1, 0, 0])

/** x of a plane that lies `mm` in from the seat's edge on this side. */
const fromSide = (l: Layout, side: Side, mm: number): number => (side === 'left' ? mm : l.v.seatWidth - mm)
/** y of a line that lies `mm` in from the seat's front or back edge. */
const fromEnd = (l: Layout, end: End, mm: number): number => (end === 'front' ? mm : l.v.seatDepth - mm)

/** Direction of a leg from foot to top. */
export const legAxis = (l: Layout, end: End): Vec3 => [0, end === 'front' ? l.sin : -l.sin, l.cos]

export const supportHeightMm = (l: Layout, level: Level): number =>
  level === 'top' ? l.topSupportMm : l.lowerSupportMm

const faces = (l: Layout, hidden: readonly FaceName[]): Record<FaceName, FaceRole> =>
  faceRoles(l.v.finish, hidden)

/** An end cut turned by `mitreRad` on the wide face, through a point of edge A or B. See EndCut.mitreRad. */
function mitred(end: 'endA' | 'endB', point: Vec3, mitreRad: number): EndCut {
  const out = end === 'endB' ? 1 : -1
  const normal: Vec3 = [out * Math.cos(mitreRad), out * Math.sin(mitreRad), 0]
  return { kind: 'endCut', id: `cut-${end}`, end, point, normal, mitreRad, bevelRad: 0 }
}

/** 1 where the leg's outer edge is edge B, -1 where it is edge A. */
const handOf = (side: Side, end: End): 1 | -1 => ((side === 'left') === (end === 'front') ? 1 : -1)

function legNotch(l: Layout, side: Side, end: End, level: Level): Notch {
  const turn = handOf(side, end) * l.v.rakeRad
  const middleMm = supportHeightMm(l, level) + l.v.supportWidth / 2
  return {
    kind: 'notch',
    id: `notch-${level}`,
    face: l.v.supportFace === 'inner' ? 'faceA' : 'faceB',
    alongMm: (middleMm + (l.v.legWidth / 2) * l.sin) / l.cos,
    widthMm: l.v.supportWidth,
    depthMm: l.notchDepthMm,
    skewRad: l.v.supportFace === 'inner' ? turn : -turn,
    jointId: lapJointId(side, end, level),
  }
}

function leg(l: Layout, side: Side, end: End): Part {
  const hand = handOf(side, end)
  const z = inward(side)
  const y = cross(z, legAxis(l, end))
  const outerEdgeMm = hand === 1 ? l.v.legWidth : 0
  const foot: Vec3 = [fromSide(l, side, l.legFaceMm), fromEnd(l, end, l.edgeAtMm(0)), 0]
  const turn = hand * l.v.rakeRad
  const notches = l.notchDepthMm > 0 ? LEVELS.map((level) => legNotch(l, side, end, level)) : []
  return {
    id: legId(side, end),
    name: `Leg, ${side} frame, ${end}`,
    kind: hand === 1 ? 'leg, hand a' : 'leg, hand b',
    blank: { lengthMm: l.legBlankMm, widthMm: l.v.legWidth, thicknessMm: l.v.legThickness },
    operations: [
      mitred('endA', [0, outerEdgeMm, 0], turn),
      mitred('endB', [l.legLengthMm, outerEdgeMm, 0], turn),
      ...notches,
    ],
    faces: faces(l, ['endA', 'endB']),
    frame: frameFromYZ(sub(foot, scale(y, outerEdgeMm)), y, z),
  }
}

function support(l: Layout, side: Side, level: Level): Part {
  const bottomMm = supportHeightMm(l, level)
  const longMm = l.topDepthMm + 2 * (l.undersideMm - bottomMm) * l.tan
  const z = l.v.supportFace === 'inner' ? inward(side) : scale(inward(side), -1)
  // Face A looks along +x or -x; the grain then runs towards the back or the front.
  const start: End = z[0] > 0 ? 'front' : 'back'
  return {
    id: supportId(side, level),
    name: `${level === 'top' ? 'Top' : 'Lower'} support, ${side} frame`,
    kind: `${level} support`,
    blank: { lengthMm: longMm, widthMm: l.v.supportWidth, thicknessMm: l.v.supportThickness },
    operations: [mitred('endA', [0, 0, 0], -l.v.rakeRad), mitred('endB', [longMm, 0, 0], l.v.rakeRad)],
    faces: faces(l, level === 'top' ? ['edgeB'] : []),
    frame: frameFromYZ(
      [fromSide(l, side, l.supportBackMm), fromEnd(l, start, l.edgeAtMm(bottomMm)), bottomMm],
      UP,
      z,
    ),
  }
}

function rail(l: Layout, end: End): Part {
  const lowMm = end === 'front' ? l.frontRailMm : l.backRailMm
  const out = end === 'front' ? -1 : 1
  const start: Side = end === 'front' ? 'left' : 'right'
  return {
    id: railId(end),
    name: end === 'front' ? 'Rail, front' : l.v.footRest === 'rail' ? 'Footrest rail, back' : 'Rail, back',
    kind: 'rail',
    blank: {
      lengthMm: l.v.seatWidth - 2 * l.legFaceMm,
      widthMm: l.v.supportWidth,
      thicknessMm: l.v.supportThickness,
    },
    operations: [],
    faces: faces(l, ['faceB']),
    frame: frameFromYZ(
      [fromSide(l, start, l.legFaceMm), fromEnd(l, end, l.edgeAtMm(lowMm)), lowMm],
      legAxis(l, end),
      [0, out * l.cos, l.sin],
    ),
  }
}

function board(l: Layout, index: number): Part {
  const y = index * (l.boardWidthMm + l.v.seatGap)
  return {
    id: boardId(index),
    name: `Seat board ${index + 1} from the front`,
    kind: 'seat board',
    blank: { lengthMm: l.v.seatWidth, widthMm: l.boardWidthMm, thicknessMm: l.v.seatBoardThickness },
    operations: [],
    faces: faces(l, ['faceB']),
    frame: frameFromYZ([0, y, l.undersideMm], [0, 1, 0], UP),
  }
}

export const postId = (side: Side): string => `post-${side}`
export const BACKREST = 'backrest'

/** A post of a low back, flat against the inner face of a front leg: the one away from the counter. */
function post(l: Layout, side: Side): Part {
  const from = l.legFaceMm + l.v.legThickness
  const to = from + l.v.supportThickness
  return boardAt(
    { finish: l.v.finish, species: 'any' },
    {
      id: postId(side),
      name: `Back post, ${side}`,
      kind: 'back post',
      grain: 'z',
      face: side === 'left' ? 'right' : 'left',
      hidden: ['endA'],
    },
    [
      side === 'left' ? [from, to] : [l.v.seatWidth - to, l.v.seatWidth - from],
      [l.postFrontMm, l.postBackMm],
      [l.postLowMm, l.backTopMm],
    ],
  )
}

/** The board that is leant on, on the sitter's side of the posts. */
function backrest(l: Layout): Part {
  const from = l.legFaceMm + l.v.legThickness
  const plain = boardAt(
    { finish: l.v.finish, species: 'any' },
    { id: BACKREST, name: 'Backrest', kind: 'backrest', grain: 'x', face: 'back' },
    [
      [from, l.v.seatWidth - from],
      [l.postBackMm, l.postBackMm + l.v.supportThickness],
      [l.backTopMm - l.v.backWidth, l.backTopMm],
    ],
  )
  return l.v.field === 'none' ? plain : withOperations(plain, [engravedField(l.v, plain, 'faceB')])
}

/** The first seat board with its notches for the posts, the posts and the backrest. */
function withBack(l: Layout, parts: readonly Part[]): Part[] {
  const posts = SIDES.map((side) => post(l, side))
  const first = boardId(0)
  const notched = parts.map((part) =>
    part.id === first
      ? withOperations(
          part,
          posts.map((each) => notchForPost(part, each)),
        )
      : part,
  )
  return [...notched, ...posts, backrest(l)]
}

/** Open to the front edge of the board, as wide as the post is thick. */
function notchForPost(seatBoard: Part, { id, frame, blank }: Part): Notch {
  const x = frame.origin[0] + (frame.z[0] * blank.thicknessMm) / 2
  const back = Math.max(frame.origin[1], frame.origin[1] + frame.y[1] * blank.widthMm)
  return {
    kind: 'notch',
    id: `notch-${id}`,
    face: 'edgeA',
    alongMm: x - seatBoard.frame.origin[0],
    widthMm: blank.thicknessMm,
    depthMm: back - seatBoard.frame.origin[1],
    skewRad: 0,
  }
}

/** Every part of one seat, without the holes for its screws. */
export function partsOfSeat(l: Layout): Part[] {
  const plain = [
    ...SIDES.flatMap((side) => ENDS.map((end) => leg(l, side, end))),
    ...SIDES.flatMap((side) => LEVELS.map((level) => support(l, side, level))),
    ...ENDS.map((end) => rail(l, end)),
    ...Array.from({ length: l.v.seatBoards }, (_, index) => board(l, index)),
  ]
  const parts = l.v.back === 'low' ? withBack(l, plain) : plain
  return l.v.species === 'any' ? parts : parts.map((part) => ({ ...part, species: l.v.species }))
}
