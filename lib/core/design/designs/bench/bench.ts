/**
 * Bench of boards: two ends of upright boards that lean outwards, two aprons let into their edges at the lean, seat
 * boards along the aprons, battens beneath that make the seat boards share a load. mm, rad; x along the seat, y from
 * front to back. A leg board: length h / cos a along either face, both ends bevelled by a, notch shoulders at a.
 * Tests: tests/core/design/bench.test.ts
 */
import { frameFromYZ } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { ALL_ROUND, edgeRadiusParameter } from '../../ease-boards'
import { abreastLine, placesAbreast, seatLines } from '../../fit/fit-lines'
import { sitterOf, sitterParameters } from '../../fit/place-parameters'
import { tableBoxes, tableFit, tablePlaceParameters } from '../../fit/table-place'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, FitLine, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  countTo,
  cutAlong,
  type End,
  FRONT_BACK,
  type Housing,
  LEFT_RIGHT,
  letIn,
  mirrored,
  placedPart,
  type Side,
  type Span,
  sharesOf,
  TO,
  withOperations,
} from '../../placed-part'
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

const THE_SEAT = 'The seat'
const THE_ENDS = 'Ends and aprons'

const parameters = [
  mmParameter('height', 'Height', THE_SEAT, [450, 200, 800], 'From the floor to the top of the seat.'),
  mmParameter(
    'length',
    'Length',
    THE_SEAT,
    [1100, 400, 2400],
    'Left to right: the length of the seat boards.',
  ),
  mmParameter('depth', 'Depth', THE_SEAT, [320, 180, 600], 'Front to back, over all seat boards and gaps.'),
  countParameter(
    'seatBoards',
    'Seat boards',
    THE_SEAT,
    [3, 1, 8],
    'How many boards of equal width make the seat.',
  ),
  mmParameter(
    'seatThickness',
    'Seat thickness',
    THE_SEAT,
    [25, 15, 50, 0.5],
    'Finished thickness of the seat boards.',
  ),
  mmParameter(
    'seatGap',
    'Gap between boards',
    THE_SEAT,
    [4, 0, 15, 0.5],
    'Room for the boards to swell and for crumbs to fall through.',
  ),
  mmParameter(
    'endOverhang',
    'Overhang at the ends',
    THE_SEAT,
    [90, 0, 400],
    'How far the seat stands out past the outer faces of the ends, measured at the top of the ends.',
  ),
  mmParameter(
    'sideOverhang',
    'Overhang front and back',
    THE_SEAT,
    [15, 0, 80],
    'How far the seat stands out past the aprons.',
  ),
  degParameter(
    'rake',
    'Lean of the ends',
    THE_ENDS,
    [6, 0, 15, 0.5],
    'How far each end leans outwards from upright, along the bench.',
    'Below 0° the feet would stand nearer together than the tops.',
  ),
  countParameter(
    'legBoards',
    'Boards in each end',
    THE_ENDS,
    [2, 1, 5],
    'How many boards, glued edge to edge, make one end.',
  ),
  mmParameter(
    'legThickness',
    'Thickness of the ends',
    THE_ENDS,
    [28, 16, 45, 0.5],
    'Finished thickness of the upright boards.',
  ),
  mmParameter(
    'apronWidth',
    'Apron width',
    THE_ENDS,
    [75, 50, 200, 0.5],
    'Upright size of the aprons; they keep the bench from racking and its seat from sagging.',
  ),
  mmParameter(
    'apronThickness',
    'Apron thickness',
    THE_ENDS,
    [20, 12, 32, 0.5],
    'Also the depth of the notches in the ends, so that the aprons finish flush.',
  ),
  countParameter(
    'battens',
    'Battens under the seat',
    THE_ENDS,
    [2, 0, 5],
    'Cross pieces under the seat between the ends; they make its boards share a load.',
  ),
  ...sitterParameters,
  ...tablePlaceParameters,
  edgeRadiusParameter(THE_SEAT, 'the seat boards'),
  screwSizeParameter,
  mmParameter(
    'apronScrewLength',
    'Apron screw length',
    THE_SCREWS,
    [55, 20, 120],
    'Through an apron into the edge of an end.',
  ),
  mmParameter(
    'seatScrewLength',
    'Seat screw length',
    THE_SCREWS,
    [55, 20, 140],
    'Down through a seat board into an apron or an end.',
  ),
  mmParameter(
    'battenScrewLength',
    'Batten screw length',
    THE_SCREWS,
    [38, 16, 90],
    'Up through a batten, as thick as an apron, into a seat board.',
  ),
  ...woodParameters,
] as const

const LEAST_BOARD_MM = 45
/** Wide enough for a screw at each side, and no wider than its seat board can move over. */
const BATTEN_WIDTH_MM = 60
const CLEAR_MM = 2

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const a = sawAngle(v.rake)
  const undersideMm = v.height - v.seatThickness
  const footOffsetMm = undersideMm * Math.tan(a)
  const across: Span = [v.sideOverhang, v.depth - v.sideOverhang]
  return {
    v,
    a,
    undersideMm,
    footOffsetMm,
    across,
    legLengthMm: undersideMm / Math.cos(a),
    legBlankMm: undersideMm / Math.cos(a) + v.legThickness * Math.tan(a),
    /** Each foot in from the end of the seat; negative where it stands out past it. */
    footInMm: v.endOverhang - footOffsetMm,
    legs: sharesOf(across[1] - across[0], v.legBoards, 0),
    seat: sharesOf(v.depth, v.seatBoards, v.seatGap),
    /** Between the ends at the height of the battens. */
    clear: [
      v.endOverhang + v.legThickness / Math.cos(a),
      v.length - v.endOverhang - v.legThickness / Math.cos(a),
    ] as const,
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, undersideMm }) =>
    refuseIf(
      undersideMm < v.apronWidth + 80,
      'apronWidth',
      `The aprons would end ${sayMm(undersideMm - v.apronWidth)} above the floor; leave 80 mm below the notches.`,
    ),
  ({ v, clear }) =>
    refuseIf(
      clear[1] - clear[0] < 100 + v.battens * (BATTEN_WIDTH_MM + 20),
      'endOverhang',
      `Between the ends ${sayMm(clear[1] - clear[0])} would be left; they need ${sayMm(100 + v.battens * (BATTEN_WIDTH_MM + 20))} with ${v.battens} battens.`,
    ),
  ({ legs }) =>
    refuseIf(
      legs.widthMm < LEAST_BOARD_MM,
      'legBoards',
      `Each board of an end would be ${sayMm(legs.widthMm)} wide; it needs ${LEAST_BOARD_MM} mm.`,
    ),
  ({ v, legs }) => {
    const left = legs.widthMm - (v.legBoards === 1 ? 2 : 1) * v.apronThickness
    return refuseIf(
      left < legs.widthMm / 2,
      'apronThickness',
      `The notches would leave ${sayMm(left)} of an upright board ${sayMm(legs.widthMm)} wide, less than half.`,
    )
  },
  ({ seat }) =>
    refuseIf(
      seat.widthMm < LEAST_BOARD_MM,
      'seatBoards',
      `Each seat board would be ${sayMm(seat.widthMm)} wide; it needs ${LEAST_BOARD_MM} mm.`,
    ),
  ({ v, seat }) => {
    const bearMm = seat.widthMm - v.sideOverhang
    return refuseIf(
      v.seatBoards > 1 && bearMm < v.apronThickness + (v.battens > 0 ? 20 : 0),
      'sideOverhang',
      `The first seat board would bear on ${sayMm(Math.max(0, bearMm))} of the frame; it must cover the apron${v.battens > 0 ? ' and 20 mm of a batten' : ''}.`,
    )
  },
  ({ v }) => refuseSplit(v.screwSize, Math.min(v.apronThickness, v.legThickness), 'the edge of a board'),
]

const legId = (side: Side, i: number): string => `end-${side}-${i + 1}`
const isOuter = (l: Layout, end: End, i: number): boolean => i === (end === 'front' ? 0 : l.v.legBoards - 1)

/** Outwards from the middle of the bench, square to the face of an end. */
const outward = (l: Layout, side: Side): Vec3 => [
  (side === 'left' ? -1 : 1) * Math.cos(l.a),
  0,
  Math.sin(l.a),
]

function upright(l: Layout, side: Side, i: number): Part {
  const { v, a } = l
  const sign = side === 'left' ? -1 : 1
  const z = outward(l, side)
  const y: Vec3 = [0, -sign, 0]
  const footX = side === 'left' ? l.footInMm : v.length - l.footInMm
  const front = l.across[0] + l.legs.fromMm[i]
  const frame = frameFromYZ(
    [
      footX - sign * v.legThickness * Math.cos(a),
      side === 'left' ? front : front + l.legs.widthMm,
      -v.legThickness * Math.sin(a),
    ],
    y,
    z,
  )
  const blank = { lengthMm: l.legBlankMm, widthMm: l.legs.widthMm, thicknessMm: v.legThickness }
  const name = {
    id: legId(side, i),
    name: `End, ${side}, board ${i + 1} from the front`,
    kind: 'upright',
    mayBeGluedUp: true,
  }
  return placedPart({ ...name, look: l.look, hidden: ['endA', 'endB'] }, blank, frame, [
    cutAlong(frame, 'endA', [0, 0, 0], TO.down),
    cutAlong(frame, 'endB', [0, 0, l.undersideMm], TO.up),
  ])
}

function apron(l: Layout, end: End): Part {
  const { v, undersideMm: top } = l
  const outMm = v.endOverhang - v.apronWidth * Math.tan(l.a)
  const y: Span = [l.across[0], l.across[0] + v.apronThickness]
  const blank = board(
    l.look,
    {
      id: `apron-${end}`,
      name: `Apron, ${end}`,
      kind: 'apron',
      grain: 'x',
      face: end,
      hidden: ['faceB'],
      hiddenToward: ['up'],
    },
    [[outMm, v.length - outMm], end === 'front' ? y : mirrored(v.depth, y), [top - v.apronWidth, top]],
  )
  const at = (side: Side): Vec3 => [side === 'left' ? v.endOverhang : v.length - v.endOverhang, 0, top]
  const startsLeft = blank.frame.x[0] > 0
  return withOperations(
    blank,
    (['endA', 'endB'] as const).map((e) => {
      const side = (e === 'endA') === startsLeft ? 'left' : 'right'
      return cutAlong(blank.frame, e, at(side), outward(l, side))
    }),
  )
}

function batten(l: Layout, i: number): Part {
  const { v, clear } = l
  const middle = clear[0] + ((i + 1) / (v.battens + 1)) * (clear[1] - clear[0])
  const inMm = v.sideOverhang + v.apronThickness + CLEAR_MM
  return board(
    l.look,
    {
      id: `batten-${i + 1}`,
      name: `Batten ${i + 1} from the left`,
      kind: 'batten',
      grain: 'y',
      face: 'down',
      hidden: ['faceB'],
    },
    [
      [middle - BATTEN_WIDTH_MM / 2, middle + BATTEN_WIDTH_MM / 2],
      [inMm, v.depth - inMm],
      [l.undersideMm - v.apronThickness, l.undersideMm],
    ],
  )
}

const seatBoard = (l: Layout, i: number): Part =>
  board(
    l.look,
    {
      id: `seat-${i + 1}`,
      name: `Seat board ${i + 1} from the front`,
      kind: 'seat board',
      grain: 'x',
      face: 'up',
      hidden: ['faceB'],
    },
    [
      [0, l.v.length],
      [l.seat.fromMm[i], l.seat.fromMm[i] + l.seat.widthMm],
      [l.undersideMm, l.v.height],
    ],
  )

function partsOf(l: Layout): Part[] {
  const { v } = l
  const parts = [
    ...LEFT_RIGHT.flatMap((side) => countTo(v.legBoards).map((i) => upright(l, side, i))),
    ...FRONT_BACK.map((end) => apron(l, end)),
    ...countTo(v.battens).map((i) => batten(l, i)),
    ...countTo(v.seatBoards).map((i) => seatBoard(l, i)),
  ]
  const housings = LEFT_RIGHT.flatMap((side) =>
    FRONT_BACK.flatMap((end): Housing[] =>
      countTo(v.legBoards)
        .filter((i) => isOuter(l, end, i))
        .map((i) => ({
          host: legId(side, i),
          guest: `apron-${end}`,
          face: (side === 'left') === (end === 'front') ? 'edgeA' : 'edgeB',
          jointId: `apron-${end}-${side}`,
        })),
    ),
  )
  return letIn(parts, housings)
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const apronScrews = screwKind(v, 'apronScrewLength', 'An apron screw')
  const seatScrews = screwKind(v, 'seatScrewLength', 'A seat screw')
  const battenScrews = screwKind(v, 'battenScrewLength', 'A batten screw')
  const along = Math.max(2, Math.round((l.clear[1] - l.clear[0]) / 180))
  const last = v.seatBoards - 1
  const outerLeg = (end: End): number => (end === 'front' ? 0 : v.legBoards - 1)
  const panels = LEFT_RIGHT.flatMap((side) =>
    countTo(v.legBoards - 1).map(
      (i): JointPlan => ({
        id: `panel-${side}-${i + 1}`,
        kind: 'edge',
        a: legId(side, i),
        b: legId(side, i + 1),
        glued: true,
        facing: TO.back,
        bearing: 'legThickness',
      }),
    ),
  )
  const aprons = LEFT_RIGHT.flatMap((side) =>
    FRONT_BACK.map(
      (end): JointPlan => ({
        id: `apron-${end}-${side}`,
        kind: 'letIn',
        a: `apron-${end}`,
        b: legId(side, outerLeg(end)),
        glued: true,
        screws: apronScrews(3),
        facing: end === 'front' ? TO.back : TO.front,
        bearing: 'legThickness',
      }),
    ),
  )
  const edges = FRONT_BACK.map(
    (end): JointPlan => ({
      id: `seat-${end}`,
      kind: 'onTop',
      a: `seat-${end === 'front' ? 1 : last + 1}`,
      b: `apron-${end}`,
      glued: true,
      screws: seatScrews(along),
      facing: TO.down,
      bearing: 'apronThickness',
    }),
  )
  // Boards that no apron carries are held on the upright boards beneath them.
  const ends = LEFT_RIGHT.flatMap((side) =>
    countTo(v.seatBoards)
      .filter((i) => i > 0 && i < last)
      .map((i): JointPlan => {
        const middle = l.seat.fromMm[i] + l.seat.widthMm / 2 - l.across[0]
        const under = Math.min(v.legBoards - 1, Math.floor(middle / l.legs.widthMm - 1e-9))
        return {
          id: `seat-${side}-${i + 1}`,
          kind: 'onTop',
          a: `seat-${i + 1}`,
          b: legId(side, under),
          glued: false,
          screws: seatScrews(l.seat.widthMm > 80 ? 2 : 1),
          facing: TO.down,
          bearing: 'seatBoards',
        }
      }),
  )
  const battens = countTo(v.battens).flatMap((b) =>
    countTo(v.seatBoards).map(
      (i): JointPlan => ({
        id: `batten-${b + 1}-${i + 1}`,
        kind: 'onTop',
        a: `batten-${b + 1}`,
        b: `seat-${i + 1}`,
        glued: false,
        screws: battenScrews(2),
        facing: TO.up,
        bearing: 'seatBoards',
      }),
    ),
  )
  return [...panels, ...aprons, ...edges, ...ends, ...battens]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Seat height, floor to top', l.v.height),
  angleFigure(
    'rake',
    'Lean of the ends: bevel of their ends, shoulders of their notches, mitre of the aprons',
    l.a,
  ),
  mmFigure('legLength', 'Upright boards along either face', l.legLengthMm),
  mmFigure('legLongPoint', 'Upright boards, long point to long point', l.legBlankMm),
  mmFigure('legBoardWidth', 'Each upright board, width', l.legs.widthMm),
  mmFigure('footOffset', 'Each foot outside its top', l.footOffsetMm),
  mmFigure('footSpread', 'Feet, outside to outside', l.v.length - 2 * l.footInMm),
  mmFigure(
    'apronLongPoint',
    'Aprons, long point to long point',
    l.v.length - 2 * (l.v.endOverhang - l.v.apronWidth * Math.tan(l.a)),
  ),
  mmFigure('apronShortPoint', 'Aprons, along the top', l.v.length - 2 * l.v.endOverhang),
  mmFigure('notchAlong', 'Notches for the aprons, measured along the edge', l.v.apronWidth / Math.cos(l.a)),
  mmFigure('notchDepth', 'Notch depth', l.v.apronThickness),
  mmFigure('boardWidth', 'Each seat board, width', l.seat.widthMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v, undersideMm: top } = l
  const foot = l.footInMm
  return [
    measure('length', 'front', 'above', 0, v.length, [0, 0, v.height]),
    measure('apronTop', 'front', 'above', v.endOverhang, v.length - v.endOverhang, [0, 0, top]),
    measure('footSpread', 'front', 'below', foot, v.length - foot, [0, 0, 0]),
    measure('height', 'front', 'left', 0, v.height, [Math.min(0, foot), 0, 0]),
    measure('footThickness', 'front', 'below', foot, foot + v.legThickness / Math.cos(l.a), [0, 0, 0]),
    measure('apronWidth', 'front', 'right', top - v.apronWidth, top, [v.length - v.endOverhang, 0, 0]),
    measure('seatThickness', 'front', 'right', top, v.height, [v.length, 0, 0]),
    {
      kind: 'angle',
      id: 'rake',
      view: 'front',
      apex: [foot, 0, 0],
      from: [foot, 0, 1],
      to: [foot + Math.sin(l.a), 0, Math.cos(l.a)],
    } as const,
    measure('depth', 'side', 'above', 0, v.depth, [0, 0, v.height]),
    measure('endWidth', 'side', 'below', l.across[0], l.across[1], [0, 0, 0]),
    measure('underside', 'side', 'left', 0, top, [0, l.across[0], 0]),
    measure('apronThickness', 'side', 'below', l.across[0], l.across[0] + v.apronThickness, [0, 0, 0]),
    measure('boardWidth', 'top', 'left', 0, l.seat.widthMm, [0, 0, v.height]),
    measure('endOverhang', 'top', 'below', 0, v.endOverhang, [0, 0, v.height]),
    ...(v.seatBoards > 1 && v.seatGap > 0
      ? [measure('gap', 'top', 'right', l.seat.widthMm, l.seat.widthMm + v.seatGap, [v.length, 0, v.height])]
      : []),
  ].filter((d) => d.id !== 'rake' || l.a > 0)
}

function notices({ l, weightKg }: Made<Layout>): Notice[] {
  const { v } = l
  const out: Notice[] = []
  // A person of 100 kg on the very end turns the bench about its feet against its own weight.
  const leverMm = l.footInMm
  if (leverMm > 0 && 100 * leverMm > weightKg * (v.length / 2 - leverMm))
    out.push({
      level: leverMm > 150 ? 'stop' : 'caution',
      parameter: 'endOverhang',
      message: `The feet stand ${sayMm(leverMm)} in from the ends of the seat: somebody alone on one end can lift the other. Less overhang or more lean cures it.`,
      source: 'moments about the feet, 100 kg on the end against the weight of the bench',
    })
  if (v.seatBoards > 1 && v.seatGap < 3)
    out.push({
      level: 'note',
      parameter: 'seatGap',
      message: `${sayMm(v.seatGap)} between boards closes up when the wood swells.`,
      source: 'common practice',
    })
  return out
}

const fit = ({ v }: Layout): FitLine[] => [
  ...seatLines(
    {
      seatMm: v.height,
      feetOn: 'the floor',
      depthMm: v.depth,
      widthMm: v.length / Math.max(1, placesAbreast(v.length)),
      parameters: { height: 'height', depth: 'depth', width: 'length' },
    },
    sitterOf(v),
  ),
  abreastLine(v.length, 'length'),
  ...tableFit(v, v.height),
]

export const bench = furnitureDesign({
  id: 'bench',
  version: 1,
  name: 'Board bench',
  goodFor:
    'Two or three people side by side in a hall, a garden or at a table: few boards, no thick stock, hard to rack.',
  parameters,
  cures: {
    rake: 'more',
    endOverhang: 'less',
    sideOverhang: 'less',
    legBoards: 'more',
    legThickness: 'more',
    apronWidth: 'either',
    apronThickness: 'more',
    battens: 'more',
    seatThickness: 'more',
    seatBoards: 'more',
    seatGap: 'more',
    screwSize: 'either',
    apronScrewLength: 'more',
    seatScrewLength: 'more',
    battenScrewLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { 'seat board': ALL_ROUND },
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit,
  place: ({ v }) => tableBoxes(v, { widthMm: v.length, depthMm: v.depth }),
  use: ({ v }) => ({ kind: 'seat', surfaces: countTo(v.seatBoards).map((i) => `seat-${i + 1}`) }),
})
