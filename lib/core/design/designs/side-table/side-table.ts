/**
 * Side table out of thin boards alone: each leg is two boards glued and screwed to an angle, the aprons lie inside
 * the angles, long grain on long grain everywhere; the top's boards are screwed down into the aprons, the outer ones along them.
 * mm; x along the top, y from front to back. Tests: tests/core/design/side-table.test.ts
 */
import { dot, type Vec3 } from '#lib/core/geometry/vec3'
import { ALL_ROUND, edgeRadiusParameter } from '../../ease-boards'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan, ScrewPattern } from '../../join-parts'
import type { Dimension, Figure, Notice, ParameterValues, Part } from '../../model'
import { boardBetween, type PieceLook, sharesOf, withOperations } from '../../placed-part'
import { measure, mmFigure } from '../../read-off'
import {
  countParameter,
  mmParameter,
  screwKind,
  screwSizeParameter,
  THE_SCREWS,
  typedValues,
  woodParameters,
} from '../../shared-parameters'

const THE_TABLE = 'The table'
const THE_FRAME = 'Legs and aprons'
const LEAST_BEARING_MM = 20
/** A taper begins this far below the aprons, and leaves this much of a leg board at the floor. */
const TAPER_BELOW_MM = 15
const LEAST_FOOT_MM = 20
const LEAST_TAPER_MM = 0.5

const parameters = [
  mmParameter('height', 'Height', THE_TABLE, [500, 250, 800], 'From the floor to the top surface.'),
  mmParameter(
    'length',
    'Top length',
    THE_TABLE,
    [500, 280, 1200],
    'Left to right: the length of the top boards.',
  ),
  mmParameter(
    'depth',
    'Top depth',
    THE_TABLE,
    [400, 220, 800],
    'Front to back, over all top boards and gaps.',
  ),
  countParameter(
    'topBoards',
    'Top boards',
    THE_TABLE,
    [4, 1, 12],
    'How many boards of equal width make the top.',
  ),
  mmParameter(
    'topThickness',
    'Top thickness',
    THE_TABLE,
    [20, 12, 40, 0.5],
    'Finished thickness of the top boards.',
  ),
  mmParameter(
    'topGap',
    'Gap between boards',
    THE_TABLE,
    [3, 0, 12, 0.5],
    'Room for each board to swell; at nought they touch.',
  ),
  mmParameter(
    'overhang',
    'Overhang',
    THE_TABLE,
    [15, 0, 120],
    'How far the top stands out past the legs, on all four sides.',
  ),
  mmParameter(
    'legWidth',
    'Leg board width',
    THE_FRAME,
    [85, 40, 120, 0.5],
    'Outside width of each leg, seen from the front and from the side alike.',
  ),
  mmParameter(
    'legTaper',
    'Leg taper',
    THE_FRAME,
    [0, 0, 80, 0.5],
    'How much slimmer each leg is at the floor than under the aprons, taken off its inner edges.',
  ),
  mmParameter(
    'boardThickness',
    'Leg and apron thickness',
    THE_FRAME,
    [19, 12, 32, 0.5],
    'One thickness for leg boards and aprons.',
  ),
  mmParameter(
    'apronWidth',
    'Apron width',
    THE_FRAME,
    [75, 45, 200, 0.5],
    'Upright size of the aprons; wider ones stand firmer.',
  ),
  edgeRadiusParameter(THE_TABLE, 'the top boards', [0, 0, 10, 0.5]),
  screwSizeParameter,
  mmParameter(
    'legScrewLength',
    'Leg screw length',
    THE_SCREWS,
    [45, 20, 100],
    'Through the front board of a leg into the edge of its side board.',
  ),
  mmParameter(
    'frameScrewLength',
    'Frame screw length',
    THE_SCREWS,
    [32, 12, 80],
    'Through an apron into a leg, from inside, out of sight.',
  ),
  mmParameter(
    'topScrewLength',
    'Top screw length',
    THE_SCREWS,
    [45, 20, 120],
    'Down through a top board into the edge of an apron; the heads are plugged or left to be seen.',
  ),
  ...woodParameters,
] as const

const LEFT_RIGHT = ['left', 'right'] as const
const FRONT_BACK = ['front', 'back'] as const
type X = (typeof LEFT_RIGHT)[number]
type Y = (typeof FRONT_BACK)[number]

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const undersideMm = v.height - v.topThickness
  return {
    v,
    undersideMm,
    /** Outer faces of the legs. */
    legs: { x0: v.overhang, x1: v.length - v.overhang, y0: v.overhang, y1: v.depth - v.overhang },
    boards: sharesOf(v.depth, v.topBoards, v.topGap),
    sideBoardMm: v.legWidth - v.boardThickness,
    /** Where the taper of the legs begins, above the floor. */
    taperFromMm: undersideMm - v.apronWidth - TAPER_BELOW_MM,
    longApronMm: v.length - 2 * v.overhang - 2 * v.boardThickness,
    shortApronMm: v.depth - 2 * v.overhang - 4 * v.boardThickness,
    look: { finish: v.finish, species: v.species } satisfies PieceLook,
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, legs }) =>
    refuseIf(
      Math.min(legs.x1 - legs.x0, legs.y1 - legs.y0) < 2 * v.legWidth + 60,
      'legWidth',
      `Two legs ${sayMm(v.legWidth)} wide leave ${sayMm(Math.min(legs.x1 - legs.x0, legs.y1 - legs.y0) - 2 * v.legWidth)} between them; they need 60 mm.`,
    ),
  ({ v }) =>
    refuseIf(
      v.legWidth < 2 * v.boardThickness + LEAST_BEARING_MM,
      'boardThickness',
      `Behind two thicknesses of ${sayMm(v.boardThickness)} an apron would bear on ${sayMm(v.legWidth - 2 * v.boardThickness)} of the leg; it needs ${LEAST_BEARING_MM} mm. Take at most ${sayMm((v.legWidth - LEAST_BEARING_MM) / 2)}.`,
    ),
  ({ v, undersideMm }) =>
    refuseIf(
      undersideMm - v.apronWidth < 100,
      'apronWidth',
      `The aprons would end ${sayMm(undersideMm - v.apronWidth)} above the floor; leave 100 mm.`,
    ),
  ({ v, sideBoardMm }) => {
    const mostMm = sideBoardMm - LEAST_FOOT_MM
    return refuseIf(
      v.legTaper > Math.max(0, mostMm),
      'legTaper',
      `Tapered by ${sayMm(v.legTaper)} the side board of a leg, ${sayMm(sideBoardMm)} wide, would keep ${sayMm(sideBoardMm - v.legTaper)} at the floor; it needs ${LEAST_FOOT_MM} mm.`,
    )
  },
  ({ boards }) =>
    refuseIf(
      boards.widthMm < 40,
      'topBoards',
      `Each top board would be ${sayMm(boards.widthMm)} wide; it needs at least 40 mm.`,
    ),
  ({ v, boards }) => {
    const bearMm = boards.widthMm - v.overhang - 2 * v.boardThickness
    return refuseIf(
      v.topBoards > 1 && bearMm < LEAST_BEARING_MM,
      'overhang',
      `The first top board is ${sayMm(boards.widthMm)} wide and would lie on ${sayMm(Math.max(0, bearMm))} of the side aprons; it needs ${LEAST_BEARING_MM} mm. Less overhang or fewer boards would do.`,
    )
  },
  ({ v }) => refuseSplit(v.screwSize, v.boardThickness, 'the edge of a board'),
]

/** From a to b, turned round on the far side. */
const between = (
  isNear: boolean,
  low: number,
  high: number,
  from: number,
  size: number,
): readonly [number, number] => (isNear ? [low + from, low + from + size] : [high - from - size, high - from])

function leg(l: Layout, x: X, y: Y): Part[] {
  const { v, legs, undersideMm: top } = l
  const t = v.boardThickness
  const [isLeft, isFront] = [x === 'left', y === 'front']
  const wide = between(isLeft, legs.x0, legs.x1, 0, v.legWidth)
  const outer = between(isLeft, legs.x0, legs.x1, 0, t)
  const skin = between(isFront, legs.y0, legs.y1, 0, t)
  const deep = between(isFront, legs.y0, legs.y1, t, l.sideBoardMm)
  const ends = ['endA', 'endB'] as const
  const boards = [
    boardBetween(
      {
        id: `leg-${x}-${y}-wide`,
        name: `Leg, ${x} ${y}, ${y} board`,
        kind: 'leg board, wide',
        look: l.look,
        hidden: ends,
      },
      {
        min: [wide[0], skin[0], 0],
        max: [wide[1], skin[1], top],
        grain: 'z',
        faceA: [0, isFront ? -1 : 1, 0],
      },
    ),
    boardBetween(
      {
        id: `leg-${x}-${y}-side`,
        name: `Leg, ${x} ${y}, side board`,
        kind: 'leg board, side',
        look: l.look,
        hidden: ends,
      },
      {
        min: [outer[0], deep[0], 0],
        max: [outer[1], deep[1], top],
        grain: 'z',
        faceA: [isLeft ? -1 : 1, 0, 0],
      },
    ),
  ]
  const inwards: readonly Vec3[] = [
    [isLeft ? 1 : -1, 0, 0],
    [0, isFront ? 1 : -1, 0],
  ]
  return boards.map((board, i) => tapered(l, board, inwards[i]))
}

/** A leg board slimmer towards the floor, its inner edge cut away. */
function tapered({ v, taperFromMm }: Layout, board: Part, inwards: Vec3): Part {
  if (v.legTaper < LEAST_TAPER_MM) return board
  const face = dot(board.frame.y, inwards) > 0 ? 'edgeB' : 'edgeA'
  const size = { lengthMm: taperFromMm, depthMm: v.legTaper }
  return withOperations(board, [{ kind: 'taper', id: 'taper', face, end: 'endA', ...size }])
}

function longApron(l: Layout, y: Y): Part {
  const { v, legs, undersideMm: top } = l
  const t = v.boardThickness
  const [y0, y1] = between(y === 'front', legs.y0, legs.y1, t, t)
  return boardBetween(
    {
      id: `apron-${y}`,
      name: `Apron, ${y}`,
      kind: 'long apron',
      look: l.look,
      hidden: ['faceB'],
      hiddenToward: ['up'],
    },
    {
      min: [legs.x0 + t, y0, top - v.apronWidth],
      max: [legs.x1 - t, y1, top],
      grain: 'x',
      faceA: [0, y === 'front' ? -1 : 1, 0],
    },
  )
}

function shortApron(l: Layout, x: X): Part {
  const { v, legs, undersideMm: top } = l
  const t = v.boardThickness
  const [x0, x1] = between(x === 'left', legs.x0, legs.x1, t, t)
  return boardBetween(
    {
      id: `apron-${x}`,
      name: `Apron, ${x}`,
      kind: 'short apron',
      look: l.look,
      hidden: ['faceB'],
      hiddenToward: ['up'],
    },
    {
      min: [x0, legs.y0 + 2 * t, top - v.apronWidth],
      max: [x1, legs.y1 - 2 * t, top],
      grain: 'y',
      faceA: [x === 'left' ? -1 : 1, 0, 0],
    },
  )
}

const topBoard = (l: Layout, i: number): Part =>
  boardBetween(
    {
      id: `top-${i + 1}`,
      name: `Top board ${i + 1} from the front`,
      kind: 'top board',
      mayBeGluedUp: true,
      look: l.look,
      hidden: ['faceB'],
    },
    {
      min: [0, l.boards.fromMm[i], l.undersideMm],
      max: [l.v.length, l.boards.fromMm[i] + l.boards.widthMm, l.v.height],
      grain: 'x',
      faceA: [0, 0, 1],
    },
  )

const partsOf = (l: Layout): Part[] => [
  ...LEFT_RIGHT.flatMap((x) => FRONT_BACK.flatMap((y) => leg(l, x, y))),
  ...FRONT_BACK.map((y) => longApron(l, y)),
  ...LEFT_RIGHT.map((x) => shortApron(l, x)),
  ...l.boards.fromMm.map((_, i) => topBoard(l, i)),
]

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const legScrews = screwKind(
    v,
    'legScrewLength',
    'A leg screw',
  )(Math.max(3, Math.round(l.undersideMm / 120)))
  const frame = screwKind(v, 'frameScrewLength', 'A frame screw')(2)
  const topScrews = screwKind(v, 'topScrewLength', 'A top screw')
  const corners = LEFT_RIGHT.flatMap((x) => FRONT_BACK.map((y) => ({ x, y })))
  const forwards = (y: Y): Vec3 => [0, y === 'front' ? -1 : 1, 0]
  const outwards = (x: X): Vec3 => [x === 'left' ? -1 : 1, 0, 0]
  const face = (id: string, a: string, b: string, screws: ScrewPattern, facing?: Vec3): JointPlan => ({
    ...{ id, a, b, screws, facing, kind: 'onFace', glued: true },
    bearing: facing === undefined ? 'boardThickness' : 'legWidth',
  })
  // A board glued along its apron moves with it; across an apron it is left free.
  const onTop = (i: number, apron: string, count: number, glued: boolean): JointPlan => ({
    id: `top-${apron}-${i + 1}`,
    kind: 'onTop',
    a: `top-${i + 1}`,
    b: `apron-${apron}`,
    glued,
    screws: topScrews(count),
    facing: [0, 0, -1],
    bearing: 'topBoards',
  })
  const across = (i: number): number => {
    const outer = Number(i === 0) + Number(i === v.topBoards - 1)
    return l.boards.widthMm - outer * (v.overhang + 2 * v.boardThickness) > 70 ? 2 : 1
  }
  const along = Math.max(2, Math.round(l.longApronMm / 130))
  return [
    ...corners.flatMap(({ x, y }) => [
      face(`angle-${x}-${y}`, `leg-${x}-${y}-wide`, `leg-${x}-${y}-side`, legScrews),
      face(`long-${x}-${y}`, `apron-${y}`, `leg-${x}-${y}-wide`, frame, forwards(y)),
      face(`short-${x}-${y}`, `apron-${x}`, `leg-${x}-${y}-side`, frame, outwards(x)),
    ]),
    ...LEFT_RIGHT.flatMap((x) => l.boards.fromMm.map((_, i) => onTop(i, x, across(i), false))),
    onTop(0, 'front', along, true),
    onTop(v.topBoards - 1, 'back', along, true),
  ]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Height, floor to top', l.v.height),
  mmFigure('legLength', 'Leg boards, length', l.undersideMm),
  mmFigure('legWideBoard', 'Leg, wide board', l.v.legWidth),
  mmFigure('legSideBoard', 'Leg, side board', l.sideBoardMm),
  ...(l.v.legTaper >= LEAST_TAPER_MM
    ? [
        mmFigure('footWidth', 'Leg, width at the floor', l.v.legWidth - l.v.legTaper),
        mmFigure('taperFrom', 'Tapers begin above the floor', l.taperFromMm),
      ]
    : []),
  mmFigure('longApron', 'Long aprons, length', l.longApronMm),
  mmFigure('shortApron', 'Short aprons, length', l.shortApronMm),
  mmFigure('boardWidth', 'Each top board, width', l.boards.widthMm),
  mmFigure('underApron', 'Clear height under the aprons', l.undersideMm - l.v.apronWidth),
]

/** Width of a leg, and where it tapers, at the floor and how far up. */
function legDimensions({ v, legs, undersideMm, taperFromMm }: Layout): Dimension[] {
  const width = (id: string, sizeMm: number, z: number) =>
    measure(id, 'front', z > 0 ? 'above' : 'below', legs.x0, legs.x0 + sizeMm, [0, legs.y0, z])
  if (v.legTaper < LEAST_TAPER_MM) return [width('legWidth', v.legWidth, 0)]
  return [
    width('legWidth', v.legWidth, undersideMm),
    width('footWidth', v.legWidth - v.legTaper, 0),
    measure('taperFrom', 'front', 'right', 0, taperFromMm, [legs.x1 - v.legWidth, 0, 0]),
  ]
}

function dimensions(l: Layout): Dimension[] {
  const { v, legs, undersideMm: top } = l
  const t = v.boardThickness
  const z = v.height
  return [
    measure('length', 'front', 'above', 0, v.length, [0, 0, z]),
    measure('legsApart', 'front', 'below', legs.x0, legs.x1, [0, legs.y0, 0]),
    ...legDimensions(l),
    measure('height', 'front', 'left', 0, z, [0, 0, 0]),
    measure('apron', 'front', 'right', top - v.apronWidth, top, [legs.x1, 0, 0]),
    measure('topThickness', 'front', 'right', top, z, [v.length, 0, 0]),
    measure('depth', 'side', 'above', 0, v.depth, [v.length, 0, z]),
    measure('feetDeep', 'side', 'below', legs.y0, legs.y1, [0, 0, 0]),
    ...(v.legTaper >= LEAST_TAPER_MM
      ? []
      : [measure('sideBoard', 'side', 'below', legs.y0 + t, legs.y0 + v.legWidth, [0, 0, 0])]),
    measure('underside', 'side', 'left', 0, top, [0, legs.y0, 0]),
    measure('overhang', 'top', 'below', 0, v.overhang, [0, 0, z]),
    measure('boardWidth', 'top', 'left', 0, l.boards.widthMm, [0, 0, z]),
    ...(v.topBoards > 1 && v.topGap > 0
      ? [measure('gap', 'top', 'right', l.boards.widthMm, l.boards.widthMm + v.topGap, [v.length, 0, z])]
      : []),
    measure('boardThickness', 'top', 'below', legs.x0, legs.x0 + t, [0, legs.y0, z]),
  ]
}

function notices({ l }: Made<Layout>): Notice[] {
  const { v } = l
  const out: Notice[] = []
  if (v.topBoards > 1 && v.topGap < 2)
    out.push({
      level: 'note',
      parameter: 'topGap',
      message: `${sayMm(v.topGap)} between boards closes up when the wood swells.`,
      source: 'common practice',
    })
  if (l.boards.widthMm > 150)
    out.push({
      level: 'caution',
      parameter: 'topBoards',
      message: `A top board ${sayMm(l.boards.widthMm)} wide moves some millimetres with the seasons; two screws across it hold it fast. Bore the holes of its outer screws as slots, or take more, narrower boards.`,
      source:
        'Wood Handbook FPL-GTR-190 ch. 13: about 0.3 % of the width for each 1 % of moisture, tangential',
    })
  if (v.overhang > v.legWidth)
    out.push({
      level: 'caution',
      parameter: 'overhang',
      message: `${sayMm(v.overhang)} of overhang: leaning on the edge can tip a light table. See the strength report.`,
      source: 'common practice',
    })
  return out
}

export const sideTable = furnitureDesign({
  id: 'sideTable',
  version: 1,
  name: 'Side table on angle legs',
  goodFor:
    'A small table beside a chair or a bed, made of thin boards only: drawer fronts, shelves and slats will do.',
  parameters,
  cures: {
    legWidth: 'more',
    boardThickness: 'more',
    apronWidth: 'more',
    topThickness: 'more',
    topBoards: 'more',
    topGap: 'more',
    overhang: 'less',
    screwSize: 'either',
    legScrewLength: 'more',
    frameScrewLength: 'more',
    topScrewLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { 'top board': ALL_ROUND },
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  use: (l) => ({ kind: 'table', surfaces: l.boards.fromMm.map((_, i) => `top-${i + 1}`) }),
})
