/**
 * Trestle table: two flat trestles of two raked legs, a bearer under the top and a low rail let into them; aprons on
 * the sloping edges of the legs and a stretcher across the low rails keep the trestles upright. The top's boards run
 * along the table, each screwed to both bearers. mm, rad; x along the table, y from front to back.
 * A leg: h / cos a along either edge, foot h tan a outside its top. Tests: tests/core/design/trestle-table.test.ts
 */
import { frameFromYZ } from '#lib/core/geometry/frame'
import { scale, type Vec3 } from '#lib/core/geometry/vec3'
import { ALL_ROUND, edgeRadiusParameter } from '../../ease-boards'
import { abreastLine, tableLines } from '../../fit/fit-lines'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, FitLine, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  countTo,
  type End,
  FRONT_BACK,
  LEFT_RIGHT,
  letIn,
  placedPart,
  type Side,
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

const THE_TABLE = 'The table'
const THE_TRESTLES = 'Trestles, aprons and stretcher'

const parameters = [
  mmParameter('height', 'Height', THE_TABLE, [740, 400, 1000], 'From the floor to the top surface.'),
  mmParameter(
    'length',
    'Top length',
    THE_TABLE,
    [1400, 700, 2600],
    'Left to right: the length of the top boards.',
  ),
  mmParameter(
    'depth',
    'Top depth',
    THE_TABLE,
    [700, 450, 1200],
    'Front to back, over all top boards and gaps.',
  ),
  countParameter(
    'topBoards',
    'Top boards',
    THE_TABLE,
    [6, 1, 14],
    'How many boards of equal width make the top.',
  ),
  mmParameter(
    'topThickness',
    'Top thickness',
    THE_TABLE,
    [25, 16, 50, 0.5],
    'Finished thickness of the top boards.',
  ),
  mmParameter('topGap', 'Gap between boards', THE_TABLE, [3, 0, 12, 0.5], 'Room for each board to swell.'),
  mmParameter(
    'endOverhang',
    'Overhang at the ends',
    THE_TABLE,
    [200, 20, 600],
    'How far the top stands out past the trestles.',
  ),
  mmParameter(
    'sideOverhang',
    'Overhang front and back',
    THE_TABLE,
    [50, 25, 200],
    'How far the top stands out past the tops of the legs.',
  ),
  degParameter(
    'rake',
    'Rake',
    THE_TRESTLES,
    [8, 0, 20, 0.5],
    'How far each leg leans outwards, to the front or the back; the feet stand further apart than the tops.',
    'Below 0° the legs lean inwards and cross.',
  ),
  mmParameter(
    'legWidth',
    'Leg width',
    THE_TRESTLES,
    [70, 40, 120, 0.5],
    'Seen from the end of the table, square to the leg.',
  ),
  mmParameter(
    'legThickness',
    'Leg thickness',
    THE_TRESTLES,
    [58, 26, 70, 0.5],
    'Seen from the front; the notches are cut into it.',
  ),
  mmParameter(
    'bearerWidth',
    'Bearer and low rail width',
    THE_TRESTLES,
    [75, 45, 140, 0.5],
    'Upright size of what is let into the legs.',
  ),
  mmParameter(
    'bearerThickness',
    'Bearer and low rail thickness',
    THE_TRESTLES,
    [20, 14, 40, 0.5],
    'Also the depth of the notches, so that they finish flush.',
  ),
  mmParameter(
    'railHeight',
    'Low rail height',
    THE_TRESTLES,
    [200, 100, 500],
    'From the floor to the top of the low rails, on which the stretcher lies.',
  ),
  mmParameter(
    'apronWidth',
    'Apron width',
    THE_TRESTLES,
    [90, 45, 140, 0.5],
    'Size of the aprons along the slope of the legs; wider ones stand firmer.',
  ),
  mmParameter(
    'apronThickness',
    'Apron and stretcher thickness',
    THE_TRESTLES,
    [22, 14, 40, 0.5],
    'Finished thickness of the two aprons and of the stretcher.',
  ),
  mmParameter('stretcherWidth', 'Stretcher width', THE_TRESTLES, [75, 50, 200, 0.5], 'Front to back.'),
  mmParameter(
    'chairHeight',
    'Chairs at it',
    THE_TABLE,
    [430, 350, 800],
    'From the floor to the top of the seat of the chairs that stand at it.',
  ),
  edgeRadiusParameter(THE_TABLE, 'the top boards'),
  { ...screwSizeParameter, default: 'no12' },
  mmParameter(
    'bearerScrewLength',
    'Bearer screw length',
    THE_SCREWS,
    [45, 14, 90],
    'Through a bearer or a low rail into what its notch leaves of a leg.',
  ),
  mmParameter(
    'screwLength',
    'Other screws, length',
    THE_SCREWS,
    [65, 25, 140],
    'Down through top and stretcher into the bearers and rails, and through an apron into the edge of a leg.',
  ),
  ...woodParameters,
] as const

const UNDER_TOP_MM = 2

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const a = sawAngle(v.rake)
  const heightMm = v.height - v.topThickness
  const leg: LegShape = {
    topSpanMm: v.depth - 2 * v.sideOverhang,
    heightMm,
    rakeRad: a,
    widthMm: v.legWidth,
    thicknessMm: v.legThickness,
  }
  const innerX = v.endOverhang + v.legThickness
  const planes: Readonly<Record<Side, FramePlane>> = {
    left: framePlane([innerX, v.depth / 2, 0], [0, 1, 0], TO.right, 0),
    right: framePlane([v.length - innerX, v.depth / 2, 0], [0, 1, 0], TO.left, 0),
  }
  // The outer upper arris of an apron stays just below the top.
  const apronTopMm = heightMm - UNDER_TOP_MM - v.apronThickness * Math.sin(a)
  return {
    v,
    a,
    heightMm,
    leg,
    planes,
    innerX,
    apronTopMm,
    apronLowMm: apronTopMm - v.apronWidth * Math.cos(a),
    footY: v.sideOverhang - heightMm * Math.tan(a),
    betweenTopsMm: leg.topSpanMm - (2 * v.legWidth) / Math.cos(a),
    boards: sharesOf(v.depth, v.topBoards, v.topGap),
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ betweenTopsMm }) =>
    refuseIf(
      betweenTopsMm < 60,
      'legWidth',
      `The tops of the two legs of a trestle would stand ${sayMm(betweenTopsMm)} apart; they need 60 mm.`,
    ),
  ({ v, innerX }) =>
    refuseIf(
      v.length - 2 * innerX < 200,
      'endOverhang',
      `Between the trestles ${sayMm(v.length - 2 * innerX)} would be left; they need 200 mm.`,
    ),
  ({ v }) =>
    refuseIf(
      v.bearerThickness > (v.legThickness * 2) / 3,
      'bearerThickness',
      `The notches would leave ${sayMm(v.legThickness - v.bearerThickness)} of a leg ${sayMm(v.legThickness)} thick, less than a third. Let in at most ${sayMm((v.legThickness * 2) / 3)}.`,
    ),
  ({ v }) =>
    refuseIf(
      v.railHeight - v.bearerWidth < 20,
      'railHeight',
      `The low rails would end ${sayMm(v.railHeight - v.bearerWidth)} above the floor; they must be at least ${sayMm(v.bearerWidth + 20)} high.`,
    ),
  ({ v, apronLowMm, heightMm }) => {
    const most = Math.min(apronLowMm, heightMm - v.bearerWidth) - 40
    return refuseIf(
      v.railHeight + v.apronThickness > most,
      'railHeight',
      `The low rails would come within 40 mm of the aprons; they can be at most ${sayMm(most - v.apronThickness)} high.`,
    )
  },
  ({ v, betweenTopsMm }) =>
    refuseIf(
      v.stretcherWidth > betweenTopsMm - 10,
      'stretcherWidth',
      `The stretcher would meet the legs: at most ${sayMm(betweenTopsMm - 10)} goes between them.`,
    ),
  ({ v, a }) =>
    refuseIf(
      v.apronThickness / Math.cos(a) > v.sideOverhang + 10,
      'sideOverhang',
      `The aprons would stand out past the top; it needs ${sayMm(v.apronThickness / Math.cos(a) - 10)} of overhang.`,
    ),
  ({ boards }) =>
    refuseIf(
      boards.widthMm < 45,
      'topBoards',
      `Each top board would be ${sayMm(boards.widthMm)} wide; it needs 45 mm.`,
    ),
  ({ v, boards }) =>
    refuseIf(
      v.topBoards > 1 && boards.widthMm - v.sideOverhang < 25,
      'sideOverhang',
      `The first top board is ${sayMm(boards.widthMm)} wide and would lie on ${sayMm(Math.max(0, boards.widthMm - v.sideOverhang))} of the bearers; it needs 25 mm.`,
    ),
  ({ v }) => refuseSplit(v.screwSize, v.bearerThickness, 'the edge of a bearer'),
]

const legId = (side: Side, end: End): string => `leg-${side}-${end}`

function trestle(l: Layout, side: Side): Part[] {
  const { v, look, planes, leg } = l
  const crosses = (id: string, name: string, heightMm: number): Part =>
    rakedSupport(
      planes[side],
      leg,
      { widthMm: v.bearerWidth, thicknessMm: v.bearerThickness, heightMm, isTop: true, proudMm: 0 },
      { id: `${id}-${side}`, name: `${name}, ${side}`, kind: name.toLowerCase(), look, hidden: ['edgeB'] },
    )
  return [
    ...FRONT_BACK.map((end) =>
      rakedLeg(planes[side], leg, end === 'front' ? -1 : 1, {
        id: legId(side, end),
        name: `Leg, ${side} trestle, ${end}`,
        kind: (side === 'left') === (end === 'front') ? 'leg, hand a' : 'leg, hand b',
        look,
        hidden: ['endA', 'endB'],
      }),
    ),
    crosses('bearer', 'Bearer', l.heightMm),
    crosses('rail', 'Low rail', v.railHeight),
  ]
}

/** Out of the table, square to the sloping edges of the legs at this end. */
const slopeOut = (l: Layout, end: End): Vec3 => [0, (end === 'front' ? -1 : 1) * Math.cos(l.a), Math.sin(l.a)]

function apron(l: Layout, end: End): Part {
  const { v } = l
  const sign = end === 'front' ? 1 : -1
  const out = v.depth / 2 - edgeAt(l.planes.left, l.leg, l.apronLowMm)
  const y: Vec3 = [0, sign * Math.sin(l.a), Math.cos(l.a)]
  const frame = frameFromYZ(
    [
      end === 'front' ? v.endOverhang : v.length - v.endOverhang,
      end === 'front' ? out : v.depth - out,
      l.apronLowMm,
    ],
    y,
    slopeOut(l, end),
  )
  const blank = {
    lengthMm: v.length - 2 * v.endOverhang,
    widthMm: v.apronWidth,
    thicknessMm: v.apronThickness,
  }
  return placedPart(
    { id: `apron-${end}`, name: `Apron, ${end}`, kind: 'apron', look: l.look, hidden: ['faceB'] },
    blank,
    frame,
  )
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const stretcher = board(
    look,
    { id: 'stretcher', name: 'Stretcher', kind: 'stretcher', grain: 'x', face: 'up' },
    [
      [l.innerX - v.bearerThickness, v.length - l.innerX + v.bearerThickness],
      [v.depth / 2 - v.stretcherWidth / 2, v.depth / 2 + v.stretcherWidth / 2],
      [v.railHeight, v.railHeight + v.apronThickness],
    ],
  )
  const top = l.boards.fromMm.map((from, i) =>
    board(
      look,
      {
        id: `top-${i + 1}`,
        name: `Top board ${i + 1} from the front`,
        kind: 'top board',
        mayBeGluedUp: true,
        grain: 'x',
        face: 'up',
        hidden: ['faceB'],
      },
      [
        [0, v.length],
        [from, from + l.boards.widthMm],
        [l.heightMm, v.height],
      ],
    ),
  )
  const parts = [
    ...LEFT_RIGHT.flatMap((side) => trestle(l, side)),
    ...FRONT_BACK.map((end) => apron(l, end)),
    stretcher,
    ...top,
  ]
  return letIn(
    parts,
    LEFT_RIGHT.flatMap((side) =>
      FRONT_BACK.flatMap((end) =>
        ['bearer', 'rail'].map((id) => ({
          host: legId(side, end),
          guest: `${id}-${side}`,
          face: 'faceA' as const,
          jointId: `${id}-${side}-${end}`,
        })),
      ),
    ),
  )
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const bearerScrews = screwKind(v, 'bearerScrewLength', 'A bearer screw')
  const screws = screwKind(v, 'screwLength', 'A screw')
  return LEFT_RIGHT.flatMap((side): JointPlan[] => [
    ...FRONT_BACK.flatMap((end): JointPlan[] => [
      ...['bearer', 'rail'].map(
        (id): JointPlan => ({
          id: `${id}-${side}-${end}`,
          kind: 'letIn',
          a: `${id}-${side}`,
          b: legId(side, end),
          glued: true,
          screws: bearerScrews(2),
          facing: TO[side],
          bearing: 'legWidth',
        }),
      ),
      {
        id: `apron-${side}-${end}`,
        kind: 'onFace',
        a: `apron-${end}`,
        b: legId(side, end),
        // Wide and across the grain of the leg: screwed only, so that it can move.
        glued: false,
        screws: screws(4),
        facing: scale(slopeOut(l, end), -1),
        bearing: 'legThickness',
      },
    ]),
    {
      id: `stretcher-${side}`,
      kind: 'onTop',
      a: 'stretcher',
      b: `rail-${side}`,
      glued: true,
      screws: screws(v.stretcherWidth > 80 ? 3 : 2),
      facing: TO.down,
      bearing: 'stretcherWidth',
    },
    ...countTo(v.topBoards).map(
      (i): JointPlan => ({
        id: `top-${side}-${i + 1}`,
        kind: 'onTop',
        a: `top-${i + 1}`,
        b: `bearer-${side}`,
        glued: false,
        screws: screws(l.boards.widthMm > 70 ? 2 : 1),
        facing: TO.down,
        bearing: 'topBoards',
      }),
    ),
  ])
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Height, floor to top', l.v.height),
  angleFigure('rake', 'Rake: end cuts of legs, bearers and low rails, shoulders of the notches', l.a),
  mmFigure('legLength', 'Legs along either edge, from cut to cut', l.heightMm / Math.cos(l.a)),
  mmFigure(
    'legLongPoint',
    'Legs, long point to long point',
    l.heightMm / Math.cos(l.a) + l.v.legWidth * Math.tan(l.a),
  ),
  mmFigure('footOffset', 'Each foot outside its top', l.heightMm * Math.tan(l.a)),
  mmFigure('footSpread', 'Feet, outside to outside, front to back', l.v.depth - 2 * l.footY),
  mmFigure(
    'bearerLong',
    'Bearers, long point to long point',
    2 * edgeAt(l.planes.left, l.leg, l.heightMm - l.v.bearerWidth),
  ),
  mmFigure(
    'railLong',
    'Low rails, long point to long point',
    2 * edgeAt(l.planes.left, l.leg, l.v.railHeight - l.v.bearerWidth),
  ),
  mmFigure('notchAlong', 'Notches, measured along the leg', l.v.bearerWidth / Math.cos(l.a)),
  mmFigure('notchDepth', 'Notch depth', l.v.bearerThickness),
  mmFigure('apronLength', 'Aprons, length', l.v.length - 2 * l.v.endOverhang),
  mmFigure('stretcherLength', 'Stretcher, length', l.v.length - 2 * (l.innerX - l.v.bearerThickness)),
  mmFigure('kneeHeight', 'Clear height under the aprons', l.apronLowMm),
  mmFigure('boardWidth', 'Each top board, width', l.boards.widthMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v, footY } = l
  const [low, high] = [v.endOverhang, v.length - v.endOverhang]
  return [
    measure('length', 'front', 'above', 0, v.length, [0, 0, v.height]),
    measure('trestles', 'front', 'below', low, high, [0, footY, 0]),
    measure('legThickness', 'front', 'below', low, low + v.legThickness, [0, footY, 0]),
    measure(
      'stretcherLength',
      'front',
      'below',
      l.innerX - v.bearerThickness,
      v.length - l.innerX + v.bearerThickness,
      [0, 0, v.railHeight],
    ),
    measure('height', 'front', 'left', 0, v.height, [0, 0, 0]),
    measure('apron', 'front', 'right', l.apronLowMm, l.heightMm - UNDER_TOP_MM, [high, 0, 0]),
    measure('topThickness', 'front', 'right', l.heightMm, v.height, [v.length, 0, 0]),
    measure('depth', 'side', 'above', 0, v.depth, [0, 0, v.height]),
    measure('tops', 'side', 'above', v.sideOverhang, v.depth - v.sideOverhang, [0, 0, l.heightMm]),
    measure('feet', 'side', 'below', footY, v.depth - footY, [0, 0, 0]),
    measure('foot', 'side', 'below', footY, footY + v.legWidth / Math.cos(l.a), [0, 0, 0]),
    measure('underside', 'side', 'left', 0, l.heightMm, [0, footY, 0]),
    measure('railHeight', 'side', 'right', 0, v.railHeight, [0, v.depth - footY, 0]),
    measure('railWidth', 'side', 'right', v.railHeight - v.bearerWidth, v.railHeight, [
      0,
      v.depth - v.sideOverhang,
      0,
    ]),
    ...(l.a > 0
      ? [
          {
            kind: 'angle',
            id: 'rake',
            view: 'side',
            apex: [high, footY, 0],
            from: [high, footY, 1],
            to: [high, footY + Math.sin(l.a), Math.cos(l.a)],
          } as const,
        ]
      : []),
    measure('boardWidth', 'top', 'left', 0, l.boards.widthMm, [0, 0, v.height]),
    measure('endOverhang', 'top', 'below', 0, low, [0, 0, v.height]),
    measure(
      'stretcherWidth',
      'top',
      'right',
      v.depth / 2 - v.stretcherWidth / 2,
      v.depth / 2 + v.stretcherWidth / 2,
      [v.length, 0, v.railHeight],
    ),
    ...(v.topBoards > 1 && v.topGap > 0
      ? [
          measure('gap', 'top', 'right', l.boards.widthMm, l.boards.widthMm + v.topGap, [
            v.length,
            0,
            v.height,
          ]),
        ]
      : []),
  ]
}

function notices({ l }: Made<Layout>): Notice[] {
  const { v } = l
  const out: Notice[] = []
  if (v.endOverhang > v.length / 4)
    out.push({
      level: 'caution',
      parameter: 'endOverhang',
      message: `${sayMm(v.endOverhang)} past the trestles: somebody who sits on the end tips the table. A quarter of the length is the most.`,
      source: 'common practice',
    })
  if (l.boards.widthMm > 150)
    out.push({
      level: 'caution',
      parameter: 'topBoards',
      message: `A top board ${sayMm(l.boards.widthMm)} wide moves some millimetres with the seasons; bore the holes of its outer screws as slots, or take narrower boards.`,
      source:
        'Wood Handbook FPL-GTR-190 ch. 13: about 0.3 % of the width for each 1 % of moisture, tangential',
    })
  return out
}

/** A table that is stood at is too high for any chair. */
const STOOD_AT_MM = 450

const fit = (l: Layout): FitLine[] =>
  l.v.height - l.v.chairHeight > STOOD_AT_MM
    ? []
    : [
        ...tableLines({
          seatMm: l.v.chairHeight,
          topMm: l.v.height,
          undersideMm: l.apronLowMm,
          parameters: { room: 'apronWidth', height: 'height' },
        }),
        abreastLine(l.v.length, 'length'),
      ]

export const trestleTable = furnitureDesign({
  id: 'trestleTable',
  version: 1,
  name: 'Trestle table',
  goodFor:
    'A dining or work table whose trestles are cut alike and whose top is made of any boards that are long enough.',
  parameters,
  cures: {
    rake: 'more',
    endOverhang: 'less',
    sideOverhang: 'less',
    legWidth: 'more',
    legThickness: 'more',
    bearerWidth: 'more',
    bearerThickness: 'more',
    railHeight: 'less',
    apronWidth: 'more',
    apronThickness: 'more',
    stretcherWidth: 'more',
    topThickness: 'more',
    topBoards: 'more',
    topGap: 'more',
    screwSize: 'either',
    bearerScrewLength: 'more',
    screwLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { 'top board': ALL_ROUND },
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit,
  use: (l) => ({ kind: 'table', surfaces: countTo(l.v.topBoards).map((i) => `top-${i + 1}`) }),
})
