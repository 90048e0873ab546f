/**
 * Stool with legs splayed in two directions: two flat leg frames that lean towards each other, so that every joint
 * of a frame is a plain lap and every level end a compound cut. Top supports are let in and carry the seat boards on
 * a bevelled edge; treads lie across the lower supports and tie the frames. mm, rad; x left to right, y front to back.
 * Angles: ../../compound-angle.ts. Tests: tests/core/design/splayed-stool.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { scale } from '#lib/core/geometry/vec3'
import { radFromDeg } from '#lib/core/units/angle'
import { footChamferParameter, refuseFootChamfer } from '../../chamfer-feet'
import { inTiltedPlaneRad, resultantRad, sightlineRad, splayedLengthMm } from '../../compound-angle'
import { ALL_ROUND, edgeRadiusParameter } from '../../ease-boards'
import { seatLines } from '../../fit/fit-lines'
import { sitterOf, sitterParameters } from '../../fit/place-parameters'
import { tableBoxes, tableFit, tablePlaceParameters } from '../../fit/table-place'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, FitLine, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  type End,
  FRONT_BACK,
  LEFT_RIGHT,
  letIn,
  mirrored,
  type Side,
  type Span,
  sharesOf,
  TO,
} from '../../placed-part'
import { edgeAt, type FramePlane, framePlane, type LegShape, rakedLeg, rakedSupport } from '../../raked-frame'
import { angleFigure, measure, mmFigure } from '../../read-off'
import {
  countParameter,
  degParameter,
  mmParameter,
  sawAngle,
  screwKind,
  screwSizeParameter,
  THE_SCREWS,
  typedValues,
  woodParameters,
} from '../../shared-parameters'
import { tipping, tippingFactor } from '../../tipping'

const THE_SEAT = 'The seat'
const THE_FRAMES = 'The leg frames'

const parameters = [
  mmParameter('height', 'Height', THE_SEAT, [450, 250, 800], 'From the floor to the top of the seat.'),
  mmParameter(
    'seatWidth',
    'Seat width',
    THE_SEAT,
    [360, 240, 600],
    'Left to right, over all seat boards and gaps.',
  ),
  mmParameter(
    'seatDepth',
    'Seat depth',
    THE_SEAT,
    [320, 240, 500],
    'Front to back: the length of the seat boards.',
  ),
  countParameter(
    'seatBoards',
    'Seat boards',
    THE_SEAT,
    [3, 1, 8],
    'How many boards of equal width, running front to back, make the seat.',
  ),
  mmParameter(
    'seatThickness',
    'Seat thickness',
    THE_SEAT,
    [22, 15, 45, 0.5],
    'Finished thickness of the seat boards.',
  ),
  mmParameter(
    'seatGap',
    'Gap between boards',
    THE_SEAT,
    [4, 0, 15, 0.5],
    'Room for the boards to swell; keep it small enough not to pinch.',
  ),
  mmParameter(
    'overhang',
    'Overhang',
    THE_SEAT,
    [20, 0, 80],
    'How far the seat stands out past the tops of the legs, on all four sides.',
  ),
  degParameter(
    'splay',
    'Splay seen from the front',
    THE_FRAMES,
    [8, 0, 18, 0.5],
    'How far each leg leans outwards to its side, as it looks from the front.',
    'Below 0° the legs would lean inwards and cross.',
  ),
  degParameter(
    'rake',
    'Rake seen from the side',
    THE_FRAMES,
    [8, 0, 18, 0.5],
    'How far each leg leans to the front or the back, as it looks from the side; it is the tilt of the blade.',
    'Below 0° the legs would lean inwards and cross.',
  ),
  mmParameter(
    'legWidth',
    'Leg width',
    THE_FRAMES,
    [45, 30, 90, 0.5],
    'Seen from the front, square to the leg.',
  ),
  mmParameter(
    'legThickness',
    'Leg thickness',
    THE_FRAMES,
    [50, 24, 60, 0.5],
    'Square to the face of its frame; the notches for the top supports are cut into it.',
  ),
  mmParameter(
    'supportWidth',
    'Support width',
    THE_FRAMES,
    [60, 35, 120, 0.5],
    'Size of top and lower supports, up the slope of the frame.',
  ),
  mmParameter(
    'supportThickness',
    'Support and tread thickness',
    THE_FRAMES,
    [30, 12, 36, 0.5],
    'Also the depth of the notches for the top supports, which finish flush.',
  ),
  mmParameter(
    'treadHeight',
    'Tread height',
    THE_FRAMES,
    [170, 90, 500],
    'From the floor to the top of the treads, on which feet rest.',
  ),
  mmParameter(
    'treadWidth',
    'Tread width',
    THE_FRAMES,
    [70, 30, 120, 0.5],
    'Left to right, of each of the two treads.',
  ),
  ...sitterParameters,
  ...tablePlaceParameters,
  edgeRadiusParameter(THE_SEAT, 'the seat boards'),
  footChamferParameter(THE_FRAMES),
  { ...screwSizeParameter, default: 'no10' },
  mmParameter(
    'topScrewLength',
    'Top support screw length',
    THE_SCREWS,
    [45, 12, 80],
    'Through a top support into what its notch leaves of a leg.',
  ),
  mmParameter(
    'screwLength',
    'Other screws, length',
    THE_SCREWS,
    [55, 16, 100],
    'Through a lower support into a leg, and down through seat and treads into the supports.',
  ),
  ...woodParameters,
] as const

const CLEAR_MM = 3

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const [splay, rake] = [sawAngle(v.splay), sawAngle(v.rake)]
  const heightMm = v.height - v.seatThickness
  const leg: LegShape = {
    topSpanMm: v.seatWidth - 2 * v.overhang,
    heightMm,
    rakeRad: inTiltedPlaneRad(splay, rake),
    widthMm: v.legWidth,
    thicknessMm: v.legThickness,
  }
  // Floor line of the inner plane: the outer faces of the tops stand `overhang` in from the seat's edge.
  const floorY = v.overhang + v.legThickness / Math.cos(rake) - heightMm * Math.tan(rake)
  const planes: Readonly<Record<End, FramePlane>> = {
    front: framePlane([v.seatWidth / 2, floorY, 0], [1, 0, 0], TO.back, rake),
    back: framePlane([v.seatWidth / 2, v.seatDepth - floorY, 0], [1, 0, 0], TO.front, rake),
  }
  const treadLowMm = v.treadHeight - v.supportThickness
  const legInnerMm =
    edgeAt(planes.front, leg, v.treadHeight / planes.front.rise) - v.legWidth / Math.cos(leg.rakeRad)
  const treadOutMm = v.seatWidth / 2 - legInnerMm + CLEAR_MM
  return {
    v,
    splay,
    rake,
    heightMm,
    leg,
    planes,
    treadLowMm,
    treadX: [treadOutMm, treadOutMm + v.treadWidth] as Span,
    treadY: [
      floorY + treadLowMm * Math.tan(rake),
      v.seatDepth - floorY - treadLowMm * Math.tan(rake),
    ] as Span,
    seat: sharesOf(v.seatWidth, v.seatBoards, v.seatGap),
    footX: v.overhang - heightMm * Math.tan(splay),
    footY: v.overhang - heightMm * Math.tan(rake),
    betweenTopsMm: leg.topSpanMm - (2 * v.legWidth) / Math.cos(leg.rakeRad),
    betweenFramesMm: v.seatDepth - 2 * (v.overhang + v.legThickness / Math.cos(rake)),
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  (l) =>
    refuseIf(
      l.betweenTopsMm < 40,
      'legWidth',
      `The tops of two legs would stand ${sayMm(l.betweenTopsMm)} apart; they need 40 mm.`,
    ),
  (l) =>
    refuseIf(
      l.betweenFramesMm < 80,
      'seatDepth',
      `Between the two leg frames ${sayMm(l.betweenFramesMm)} would be left at the top; they need 80 mm.`,
    ),
  ({ v }) =>
    refuseIf(
      v.supportThickness > (v.legThickness * 2) / 3,
      'supportThickness',
      `The notches would leave ${sayMm(v.legThickness - v.supportThickness)} of a leg ${sayMm(v.legThickness)} thick, less than a third. Let in at most ${sayMm((v.legThickness * 2) / 3)}.`,
    ),
  ({ v, treadLowMm, planes }) => {
    const lowMm = treadLowMm - v.supportWidth * planes.front.rise
    return refuseIf(
      lowMm < 15,
      'treadHeight',
      `The lower supports would end ${sayMm(lowMm)} above the floor; treads must be at least ${sayMm(v.treadHeight - lowMm + 15)} high.`,
    )
  },
  ({ v, heightMm }) =>
    refuseIf(
      v.treadHeight > heightMm - v.supportWidth - 40,
      'treadHeight',
      `The treads would come within 40 mm of the top supports; they can be at most ${sayMm(heightMm - v.supportWidth - 40)} high.`,
    ),
  ({ v, treadX }) =>
    refuseIf(
      2 * treadX[1] > v.seatWidth - 10,
      'treadWidth',
      `Two treads ${sayMm(v.treadWidth)} wide have ${sayMm(v.seatWidth - 2 * treadX[0])} between the legs; they need 10 mm between them.`,
    ),
  ({ seat }) =>
    refuseIf(
      seat.widthMm < 40,
      'seatBoards',
      `Each seat board would be ${sayMm(seat.widthMm)} wide; it needs 40 mm.`,
    ),
  ({ v, seat }) =>
    refuseIf(
      v.seatBoards > 1 && seat.widthMm - v.overhang < 25,
      'overhang',
      `The first seat board is ${sayMm(seat.widthMm)} wide and would lie on ${sayMm(Math.max(0, seat.widthMm - v.overhang))} of the supports; it needs 25 mm.`,
    ),
  ({ v }) => refuseFootChamfer(v.footChamfer, Math.min(v.legWidth, v.legThickness)),
  ({ v }) => refuseSplit(v.screwSize, v.supportThickness, 'the edge of a support'),
]

const legId = (side: Side, end: End): string => `leg-${side}-${end}`
const sign = (side: Side): -1 | 1 => (side === 'left' ? -1 : 1)
const hand = (side: Side, end: End): string => ((side === 'left') === (end === 'front') ? 'a' : 'b')

function frameParts(l: Layout, end: End): Part[] {
  const { v, look } = l
  const support = (level: 'top' | 'lower'): Part =>
    rakedSupport(
      l.planes[end],
      l.leg,
      {
        widthMm: v.supportWidth,
        thicknessMm: v.supportThickness,
        heightMm: level === 'top' ? l.heightMm : l.treadLowMm,
        isTop: true,
        proudMm: level === 'top' ? 0 : v.supportThickness,
      },
      {
        id: `${level}-${end}`,
        name: `${level === 'top' ? 'Top' : 'Lower'} support, ${end}`,
        kind: `${level} support`,
        look,
        hidden: ['edgeB'],
      },
    )
  return [
    ...LEFT_RIGHT.map((side) =>
      rakedLeg(l.planes[end], l.leg, sign(side), {
        id: legId(side, end),
        name: `Leg, ${side} ${end}`,
        kind: `leg, hand ${hand(side, end)}`,
        look,
        hidden: ['endA', 'endB'],
      }),
    ),
    support('top'),
    support('lower'),
  ]
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const treads = LEFT_RIGHT.map((side) =>
    board(
      look,
      {
        id: `tread-${side}`,
        name: `Tread, ${side}`,
        kind: 'tread',
        grain: 'y',
        face: 'up',
        hidden: ['faceB'],
      },
      [side === 'left' ? l.treadX : mirrored(v.seatWidth, l.treadX), l.treadY, [l.treadLowMm, v.treadHeight]],
    ),
  )
  const seat = l.seat.fromMm.map((from, i) =>
    board(
      look,
      {
        id: `seat-${i + 1}`,
        name: `Seat board ${i + 1} from the left`,
        kind: 'seat board',
        grain: 'y',
        face: 'up',
        hidden: ['faceB'],
      },
      [
        [from, from + l.seat.widthMm],
        [0, v.seatDepth],
        [l.heightMm, v.height],
      ],
    ),
  )
  const parts = [...FRONT_BACK.flatMap((end) => frameParts(l, end)), ...treads, ...seat]
  return letIn(
    parts,
    FRONT_BACK.flatMap((end) =>
      LEFT_RIGHT.map((side) => ({
        host: legId(side, end),
        guest: `top-${end}`,
        face: 'faceA' as const,
        jointId: `top-${side}-${end}`,
      })),
    ),
  )
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const topScrews = screwKind(v, 'topScrewLength', 'A top support screw')
  const screws = screwKind(v, 'screwLength', 'A screw')
  const out = (end: End): Vec3 => scale(l.planes[end].inner, -1)
  const laps = FRONT_BACK.flatMap((end) =>
    LEFT_RIGHT.flatMap((side): JointPlan[] => [
      {
        id: `top-${side}-${end}`,
        kind: 'letIn',
        a: `top-${end}`,
        b: legId(side, end),
        glued: true,
        screws: topScrews(2),
        facing: out(end),
        bearing: 'supportWidth',
      },
      {
        id: `lower-${side}-${end}`,
        kind: 'onFace',
        a: `lower-${end}`,
        b: legId(side, end),
        glued: true,
        screws: screws(2),
        facing: out(end),
        bearing: 'supportWidth',
      },
    ]),
  )
  const treads = FRONT_BACK.flatMap((end) =>
    LEFT_RIGHT.map(
      (side): JointPlan => ({
        id: `tread-${side}-${end}`,
        kind: 'onTop',
        a: `tread-${side}`,
        b: `lower-${end}`,
        glued: true,
        screws: screws(2),
        facing: TO.down,
        bearing: 'treadWidth',
      }),
    ),
  )
  const seat = FRONT_BACK.flatMap((end) =>
    l.seat.fromMm.map(
      (_, i): JointPlan => ({
        id: `seat-${end}-${i + 1}`,
        kind: 'onTop',
        a: `seat-${i + 1}`,
        b: `top-${end}`,
        glued: false,
        screws: screws(l.seat.widthMm > 60 ? 2 : 1),
        facing: TO.down,
        bearing: 'seatBoards',
      }),
    ),
  )
  return [...laps, ...treads, ...seat]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Seat height, floor to top', l.v.height),
  mmFigure('legLength', 'Legs along any edge, from cut to cut', splayedLengthMm(l.heightMm, l.splay, l.rake)),
  mmFigure(
    'legLongPoint',
    'Legs, long point to long point',
    splayedLengthMm(l.heightMm, l.splay, l.rake) +
      l.v.legWidth * Math.tan(l.leg.rakeRad) +
      (l.v.legThickness * Math.tan(l.rake)) / Math.cos(l.leg.rakeRad),
  ),
  angleFigure('bladeTilt', 'Compound cuts of the legs: tilt of the blade', l.rake),
  angleFigure('mitre', 'Compound cuts of the legs: turn of the sled', l.leg.rakeRad),
  angleFigure('resultant', 'How far each leg really leans', resultantRad(l.splay, l.rake)),
  angleFigure(
    'sightline',
    'The way that it leans, from straight out to its side',
    sightlineRad(l.splay, l.rake),
  ),
  angleFigure('edgeBevel', 'Bevel along the upper edges of the supports', l.rake),
  mmFigure('footSpreadX', 'Feet, outside to outside, left to right', l.v.seatWidth - 2 * l.footX),
  mmFigure('footSpreadY', 'Feet, outside to outside, front to back', l.v.seatDepth - 2 * l.footY),
  mmFigure('treadLength', 'Treads, length', l.treadY[1] - l.treadY[0]),
  mmFigure('boardWidth', 'Each seat board, width', l.seat.widthMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v, footX, footY } = l
  const [sin, cos] = [Math.sin, Math.cos]
  const turn = (id: string, view: 'front' | 'side', apex: Vec3, level: Vec3, a: number): Dimension[] =>
    a === 0
      ? []
      : [
          {
            kind: 'angle',
            id,
            view,
            apex,
            from: [apex[0], apex[1], 1],
            to: [apex[0] + level[0] * sin(a), apex[1] + level[1] * sin(a), cos(a)],
          },
        ]
  return [
    measure('seatWidth', 'front', 'above', 0, v.seatWidth, [0, 0, v.height]),
    measure('topsX', 'front', 'above', v.overhang, v.seatWidth - v.overhang, [0, 0, l.heightMm]),
    measure('feetX', 'front', 'below', footX, v.seatWidth - footX, [0, footY, 0]),
    measure('footWidth', 'front', 'below', footX, footX + v.legWidth / Math.cos(l.leg.rakeRad), [
      0,
      footY,
      0,
    ]),
    measure('height', 'front', 'left', 0, v.height, [footX, 0, 0]),
    measure('treadHeight', 'front', 'left', 0, v.treadHeight, [footX, 0, 0]),
    measure('seatThickness', 'front', 'right', l.heightMm, v.height, [v.seatWidth, 0, 0]),
    ...turn('splay', 'front', [footX, footY, 0], [1, 0, 0], l.splay),
    measure('seatDepth', 'side', 'above', 0, v.seatDepth, [0, 0, v.height]),
    measure('topsY', 'side', 'above', v.overhang, v.seatDepth - v.overhang, [0, 0, l.heightMm]),
    measure('feetY', 'side', 'below', footY, v.seatDepth - footY, [0, 0, 0]),
    measure('footDepth', 'side', 'below', footY, footY + v.legThickness / Math.cos(l.rake), [0, 0, 0]),
    measure('underside', 'side', 'left', 0, l.heightMm, [0, footY, 0]),
    ...turn('rake', 'side', [v.seatWidth - footX, footY, 0], [0, 1, 0], l.rake),
    measure('topSupport', 'side', 'right', l.heightMm - v.supportWidth * l.planes.back.rise, l.heightMm, [
      0,
      v.seatDepth - v.overhang,
      0,
    ]),
    measure(
      'lowerSupport',
      'side',
      'right',
      l.treadLowMm - v.supportWidth * l.planes.back.rise,
      l.treadLowMm,
      [0, v.seatDepth - v.overhang, 0],
    ),
    measure('boardWidth', 'top', 'below', 0, l.seat.widthMm, [0, 0, v.height]),
    measure('tread', 'top', 'above', l.treadX[0], l.treadX[1], [0, v.seatDepth, v.treadHeight]),
    measure('treadLength', 'top', 'left', l.treadY[0], l.treadY[1], [l.treadX[0], 0, v.treadHeight]),
    ...(v.seatBoards > 1 && v.seatGap > 0
      ? [measure('gap', 'top', 'below', l.seat.widthMm, l.seat.widthMm + v.seatGap, [0, 0, v.height])]
      : []),
  ]
}

function notices({ l, weightKg }: Made<Layout>): Notice[] {
  const { v } = l
  const factor = (footMm: number, wholeMm: number): number =>
    tippingFactor({ leverMm: 60 - footMm, ownLeverMm: wholeMm / 2 - footMm, weightKg, heightMm: v.height })
  const out = [
    tipping(factor(l.footX, v.seatWidth), 'sideways', 'splay', 'more splay or less overhang cures it'),
    tipping(
      factor(l.footY, v.seatDepth),
      'forwards or backwards',
      'rake',
      'more rake or less overhang cures it',
    ),
  ].flatMap((notice): Notice[] => (notice === undefined ? [] : [notice]))
  if (resultantRad(l.splay, l.rake) > radFromDeg(20))
    out.push({
      level: 'caution',
      parameter: 'splay',
      message: 'Legs that really lean more than 20° pull their frames apart and catch feet.',
      source: 'common practice',
    })
  return out
}

/** A seat too high for the floor is sat on with the feet on a tread. */
const FLOOR_SEAT_MM = 490

function fit({ v }: Layout): FitLine[] {
  const isHigh = v.height > FLOOR_SEAT_MM
  return [
    ...seatLines(
      {
        seatMm: isHigh ? v.height - v.treadHeight : v.height,
        feetOn: isHigh ? 'the tread' : 'the floor',
        depthMm: v.seatDepth,
        widthMm: v.seatWidth,
        parameters: { height: isHigh ? 'treadHeight' : 'height', depth: 'seatDepth', width: 'seatWidth' },
      },
      sitterOf(v),
    ),
    ...tableFit(v, v.height),
  ]
}

export const splayedStool = furnitureDesign({
  id: 'splayedStool',
  version: 1,
  name: 'Stool with splayed legs',
  goodFor:
    'A stool that hardly tips, whichever way it is leant on: legs splayed to the side and raked to the front at once.',
  parameters,
  cures: {
    splay: 'more',
    rake: 'more',
    overhang: 'less',
    legWidth: 'more',
    legThickness: 'more',
    supportWidth: 'more',
    supportThickness: 'more',
    treadWidth: 'more',
    treadHeight: 'less',
    seatThickness: 'more',
    seatBoards: 'more',
    seatGap: 'more',
    screwSize: 'either',
    topScrewLength: 'more',
    screwLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { 'seat board': ALL_ROUND },
  feet: ['leg, hand a', 'leg, hand b'],
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit,
  place: ({ v }) => tableBoxes(v, { widthMm: v.seatWidth, depthMm: v.seatDepth }),
  use: (l) => ({
    kind: 'seat',
    surfaces: l.seat.fromMm.map((_, i) => `seat-${i + 1}`),
    footRests: LEFT_RIGHT.map((side) => `tread-${side}`),
  }),
})
