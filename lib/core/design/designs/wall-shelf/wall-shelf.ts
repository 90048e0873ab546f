/**
 * Wall shelf on braced brackets: an upright against the wall, an arm lapped to its side, a brace under the arm and
 * lapped to the upright, so that a load presses the brace instead of pulling at screws. A rail let into the backs of
 * the uprights ties them and takes the screws into the wall. mm, rad; the wall is the plane y = depth.
 * A brace at angle a from upright: ends cut level and upright, w / sin a along the wall. Tests: tests/core/design/wall-shelf.test.ts
 */
import { frameFromYZ } from '#lib/core/geometry/frame'
import { edgeRadiusParameter } from '../../ease-boards'
import { reachLine } from '../../fit/fit-lines'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, Notice, ParameterValues, Part, PlaceBox } from '../../model'
import { board, countTo, cutAlong, letIn, placedPart, type Span, sharesOf, TO } from '../../placed-part'
import { angleFigure, measure, mmFigure, near } from '../../read-off'
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

const THE_SHELF = 'The shelf'
const THE_BRACKETS = 'Brackets and rail'

const parameters = [
  mmParameter(
    'mountHeight',
    'Height on the wall',
    THE_SHELF,
    [1400, 600, 2200],
    'From the floor to the top of the shelf.',
  ),
  mmParameter(
    'length',
    'Length',
    THE_SHELF,
    [900, 300, 2400],
    'Left to right: the length of the shelf boards.',
  ),
  mmParameter('depth', 'Depth', THE_SHELF, [260, 140, 400], 'From the wall to the front edge of the shelf.'),
  countParameter(
    'shelfBoards',
    'Shelf boards',
    THE_SHELF,
    [2, 1, 5],
    'How many boards of equal width make the shelf.',
  ),
  mmParameter(
    'shelfThickness',
    'Shelf thickness',
    THE_SHELF,
    [20, 12, 40, 0.5],
    'Finished thickness of the shelf boards.',
  ),
  mmParameter('shelfGap', 'Gap between boards', THE_SHELF, [3, 0, 12, 0.5], 'Room for the boards to swell.'),
  countParameter(
    'brackets',
    'Brackets',
    THE_BRACKETS,
    [2, 2, 6],
    'How many brackets carry the shelf; a third one halves its span.',
  ),
  mmParameter(
    'endOverhang',
    'Overhang at the ends',
    THE_BRACKETS,
    [120, 0, 500],
    'How far the shelf stands out past the outer brackets.',
  ),
  mmParameter(
    'setBack',
    'Arms set back',
    THE_BRACKETS,
    [15, 0, 80],
    'How far the front of an arm stays behind the front edge of the shelf.',
  ),
  degParameter(
    'braceAngle',
    'Brace, from upright',
    THE_BRACKETS,
    [45, 30, 60, 0.5],
    'Between the brace and the wall: 45° is strong both ways.',
    'Below 30° or above 60° the brace hardly helps.',
  ),
  mmParameter(
    'armWidth',
    'Arm and upright width',
    THE_BRACKETS,
    [50, 35, 90, 0.5],
    'Upright size of the arms; the uprights are as wide, from the wall outwards.',
  ),
  mmParameter(
    'braceWidth',
    'Brace width',
    THE_BRACKETS,
    [40, 25, 80, 0.5],
    'Seen from the side, square to the brace.',
  ),
  mmParameter(
    'thickness',
    'Bracket thickness',
    THE_BRACKETS,
    [24, 14, 36, 0.5],
    'One thickness for uprights, arms and braces.',
  ),
  mmParameter(
    'railWidth',
    'Rail width',
    THE_BRACKETS,
    [50, 40, 120, 0.5],
    'Upright size of the rail that is screwed to the wall.',
  ),
  mmParameter(
    'railThickness',
    'Rail thickness',
    THE_BRACKETS,
    [19, 12, 30, 0.5],
    'Also the depth of the notches in the backs of the uprights.',
  ),
  mmParameter(
    'wallWidth',
    'Clear wall',
    THE_SHELF,
    [2400, 300, 12_000],
    'Left to right, from the corner, door frame or window on one side to that on the other.',
  ),
  edgeRadiusParameter(THE_SHELF, 'the shelf boards', [2, 0, 8, 0.5]),
  screwSizeParameter,
  mmParameter(
    'lapScrewLength',
    'Lap screw length',
    THE_SCREWS,
    [38, 16, 70],
    'Sideways through an arm or a brace into an upright.',
  ),
  mmParameter(
    'screwLength',
    'Shelf and rail screw length',
    THE_SCREWS,
    [45, 20, 100],
    'Down through a shelf board into an arm, and through the rail into an upright.',
  ),
  mmParameter(
    'braceScrewLength',
    'Brace screw length',
    THE_SCREWS,
    [75, 30, 140],
    'Down through an arm into the upper end of its brace.',
  ),
  ...woodParameters,
] as const

const CLEAR_MM = 4
/** Where the brace meets the arm, behind the front of the arm. */
const BRACE_IN_MM = 15
const BELOW_BRACE_MM = 15

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const a = sawAngle(v.braceAngle)
  const topMm = v.mountHeight - v.shelfThickness
  const armLowMm = topMm - v.armWidth
  const braceY = v.setBack + BRACE_IN_MM
  const runMm = v.depth - braceY
  const dropMm = runMm / Math.tan(a)
  /** Clear height on the wall between the arm and the brace, for the rail. */
  const railRoomMm = dropMm - v.braceWidth / Math.sin(a) - v.railThickness / Math.tan(a)
  const pitchMm = (v.length - 2 * v.endOverhang - 2 * v.thickness) / (v.brackets - 1)
  return {
    v,
    a,
    topMm,
    armLowMm,
    braceY,
    braceLengthMm: runMm / Math.sin(a),
    railRoomMm,
    railTopMm: armLowMm - CLEAR_MM,
    uprightLowMm: armLowMm - dropMm - BELOW_BRACE_MM,
    pitchMm,
    bracketX: countTo(v.brackets).map((i) => v.endOverhang + i * pitchMm),
    boards: sharesOf(v.depth, v.shelfBoards, v.shelfGap),
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, pitchMm }) =>
    refuseIf(
      pitchMm < 2 * v.thickness + 80,
      'endOverhang',
      `The brackets would stand ${sayMm(pitchMm)} apart; they need ${sayMm(2 * v.thickness + 80)}. Less overhang or fewer brackets would do.`,
    ),
  ({ v, railRoomMm }) =>
    refuseIf(
      railRoomMm < v.railWidth + 2 * CLEAR_MM,
      'railWidth',
      `Between arm and brace ${sayMm(Math.max(0, railRoomMm))} of wall is left for the rail; it needs ${sayMm(v.railWidth + 2 * CLEAR_MM)}. A deeper shelf or a steeper brace would do.`,
    ),
  ({ v }) =>
    refuseIf(
      v.railThickness > v.armWidth / 2,
      'railThickness',
      `The rail would take more than half of an upright ${sayMm(v.armWidth)} wide. Take at most ${sayMm(v.armWidth / 2)}.`,
    ),
  ({ uprightLowMm }) =>
    refuseIf(
      uprightLowMm < 50,
      'mountHeight',
      `The uprights would end ${sayMm(uprightLowMm)} above the floor; hang the shelf higher.`,
    ),
  ({ boards }) =>
    refuseIf(
      boards.widthMm < 45,
      'shelfBoards',
      `Each shelf board would be ${sayMm(boards.widthMm)} wide; it needs 45 mm.`,
    ),
  ({ v, boards }) =>
    refuseIf(
      boards.widthMm - v.setBack < 30,
      'setBack',
      `The first board would lie on ${sayMm(Math.max(0, boards.widthMm - v.setBack))} of the arms; it needs 30 mm.`,
    ),
  ({ v }) => refuseSplit(v.screwSize, v.thickness, 'the edge of an arm'),
]

function bracket(l: Layout, i: number): Part[] {
  const { v, look } = l
  const x = l.bracketX[i]
  const [inner, outer]: readonly [Span, Span] = [
    [x, x + v.thickness],
    [x + v.thickness, x + 2 * v.thickness],
  ]
  const [sin, cos] = [Math.sin(l.a), Math.cos(l.a)]
  const frame = frameFromYZ([outer[0], l.braceY, l.armLowMm], [0, cos, sin], TO.right)
  const blank = { lengthMm: l.braceLengthMm, widthMm: v.braceWidth, thicknessMm: v.thickness }
  const named = (kind: string) => ({
    id: `${kind}-${i + 1}`,
    name: `${kind[0].toUpperCase()}${kind.slice(1)}, bracket ${i + 1} from the left`,
    kind,
  })
  return [
    board(look, { ...named('upright'), grain: 'z', face: 'right', hiddenToward: ['back', 'up'] }, [
      inner,
      [v.depth - v.armWidth, v.depth],
      [l.uprightLowMm, l.topMm],
    ]),
    board(look, { ...named('arm'), grain: 'y', face: 'right', hidden: ['endB', 'faceB'] }, [
      outer,
      [v.setBack, v.depth],
      [l.armLowMm, l.topMm],
    ]),
    placedPart({ ...named('brace'), look, hidden: ['endA', 'endB'] }, blank, frame, [
      cutAlong(frame, 'endA', [0, 0, l.armLowMm], TO.up),
      cutAlong(frame, 'endB', [0, v.depth, 0], TO.back),
    ]),
  ]
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const rail = board(
    look,
    { id: 'rail', name: 'Wall rail', kind: 'wall rail', grain: 'x', face: 'back', hidden: ['faceA'] },
    [
      [v.endOverhang, v.length - v.endOverhang],
      [v.depth - v.railThickness, v.depth],
      [l.railTopMm - v.railWidth, l.railTopMm],
    ],
  )
  const boards = l.boards.fromMm.map((from, i) =>
    board(
      look,
      {
        id: `shelf-${i + 1}`,
        name: `Shelf board ${i + 1} from the front`,
        kind: 'shelf board',
        mayBeGluedUp: true,
        grain: 'x',
        face: 'up',
      },
      [
        [0, v.length],
        [from, from + l.boards.widthMm],
        [l.topMm, v.mountHeight],
      ],
    ),
  )
  const parts = [...countTo(v.brackets).flatMap((i) => bracket(l, i)), rail, ...boards]
  const back = parts[0].frame.y[1] > 0 ? 'edgeB' : 'edgeA'
  return letIn(
    parts,
    countTo(v.brackets).map((i) => ({
      host: `upright-${i + 1}`,
      guest: 'rail',
      face: back as 'edgeA' | 'edgeB',
      jointId: `rail-${i + 1}`,
    })),
  )
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const lapScrews = screwKind(v, 'lapScrewLength', 'A lap screw')
  const screws = screwKind(v, 'screwLength', 'A shelf or rail screw')
  const braceScrews = screwKind(v, 'braceScrewLength', 'A brace screw')
  return countTo(v.brackets).flatMap((i): JointPlan[] => {
    const [upright, arm, brace] = ['upright', 'arm', 'brace'].map((kind) => `${kind}-${i + 1}`)
    return [
      {
        id: `arm-${i + 1}`,
        kind: 'onFace',
        a: arm,
        b: upright,
        glued: true,
        screws: lapScrews(3),
        facing: TO.left,
        bearing: 'armWidth',
      },
      {
        id: `brace-low-${i + 1}`,
        kind: 'onFace',
        a: brace,
        b: upright,
        glued: true,
        screws: lapScrews(2),
        facing: TO.left,
        bearing: 'braceWidth',
      },
      {
        id: `brace-top-${i + 1}`,
        kind: 'butt',
        a: arm,
        b: brace,
        glued: true,
        screws: braceScrews(1),
        facing: TO.down,
        bearing: 'braceWidth',
      },
      {
        id: `rail-${i + 1}`,
        kind: 'letIn',
        a: 'rail',
        b: upright,
        glued: true,
        screws: screws(2),
        facing: TO.front,
        bearing: 'railWidth',
      },
      ...countTo(v.shelfBoards).map(
        (k): JointPlan => ({
          id: `shelf-${i + 1}-${k + 1}`,
          kind: 'onTop',
          a: `shelf-${k + 1}`,
          b: arm,
          glued: false,
          screws: screws(2),
          facing: TO.down,
          bearing: 'shelfBoards',
        }),
      ),
    ]
  })
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('mountHeight', 'Top of the shelf, from the floor', l.v.mountHeight),
  mmFigure('uprightLength', 'Uprights, length', l.topMm - l.uprightLowMm),
  mmFigure('armLength', 'Arms, length', l.v.depth - l.v.setBack),
  mmFigure('braceLongPoint', 'Braces, long point to long point', l.braceLengthMm),
  angleFigure('braceUpperCut', 'Upper end of a brace, from square', l.a),
  angleFigure('braceLowerCut', 'Lower end of a brace, from square', Math.PI / 2 - l.a),
  mmFigure('braceOnWall', 'A brace along the wall', l.v.braceWidth / Math.sin(l.a)),
  mmFigure('pitch', 'Brackets, from one to the next', l.pitchMm),
  mmFigure('railLength', 'Wall rail, length', l.v.length - 2 * l.v.endOverhang),
  mmFigure('railHeight', 'Middle of the wall rail, from the floor', l.railTopMm - l.v.railWidth / 2),
  mmFigure('boardWidth', 'Each shelf board, width', l.boards.widthMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v, uprightLowMm: low } = l
  const x = l.bracketX[0]
  return [
    measure('length', 'front', 'above', 0, v.length, [0, 0, v.mountHeight]),
    measure('endOverhang', 'front', 'below', 0, v.endOverhang, [0, 0, l.topMm]),
    measure('pitch', 'front', 'below', x, x + l.pitchMm, [0, 0, low]),
    measure('bracketThickness', 'front', 'below', x, x + v.thickness, [0, 0, low]),
    measure('height', 'front', 'left', low, v.mountHeight, [0, 0, 0]),
    measure('rail', 'front', 'right', l.railTopMm - v.railWidth, l.railTopMm, [
      v.length - v.endOverhang,
      0,
      0,
    ]),
    measure('shelfThickness', 'front', 'right', l.topMm, v.mountHeight, [v.length, 0, 0]),
    near(measure('depth', 'side', 'above', 0, v.depth, [0, 0, v.mountHeight])),
    measure('setBack', 'side', 'below', 0, v.setBack, [0, 0, l.topMm]),
    measure('braceIn', 'side', 'below', v.setBack, l.braceY, [0, 0, l.armLowMm]),
    measure('uprightWidth', 'side', 'below', v.depth - v.armWidth, v.depth, [0, 0, low]),
    measure('armWidth', 'side', 'left', l.armLowMm, l.topMm, [0, v.setBack, 0]),
    measure('uprightLength', 'side', 'left', low, l.topMm, [0, v.depth - v.armWidth, 0]),
    {
      kind: 'angle',
      id: 'braceAngle',
      view: 'side',
      apex: [x, v.depth - v.armWidth, l.armLowMm - (v.depth - v.armWidth - l.braceY) / Math.tan(l.a)],
      from: [x, v.depth - v.armWidth, l.armLowMm],
      to: [x, l.braceY, l.armLowMm],
    },
    measure('boardWidth', 'top', 'left', 0, l.boards.widthMm, [0, 0, v.mountHeight]),
    measure('between', 'top', 'below', v.endOverhang, v.length - v.endOverhang, [0, 0, v.mountHeight]),
    ...(v.shelfBoards > 1 && v.shelfGap > 0
      ? [
          measure('gap', 'top', 'right', l.boards.widthMm, l.boards.widthMm + v.shelfGap, [
            v.length,
            0,
            v.mountHeight,
          ]),
        ]
      : []),
  ]
}

function notices({ l, weightKg }: Made<Layout>): Notice[] {
  const { v } = l
  const loadKg = (v.length * v.depth * 100) / 1e6
  // About the foot of the uprights the load turns outwards; the rail's screws pull it back.
  const pullN =
    (9.81 * (loadKg + weightKg) * (v.depth / 2)) / Math.max(1, l.railTopMm - v.railWidth / 2 - l.uprightLowMm)
  const out: Notice[] = [
    {
      level: 'caution',
      parameter: 'railWidth',
      message: `Loaded with books (about ${Math.round(loadKg)} kg) it pulls at the wall screws with about ${Math.round(pullN / 10) * 10} N besides its weight. Screw the rail into studs or into plugs made for the wall, one near each bracket; what a wall holds is for its builder to say. Look for pipes and cables first.`,
      source: 'moments about the feet of the brackets, 1 kN/m² on the shelf (common practice for books)',
    },
  ]
  if (l.pitchMm > 32 * v.shelfThickness)
    out.push({
      level: 'caution',
      parameter: 'brackets',
      message: `${sayMm(l.pitchMm)} from bracket to bracket is far for boards ${sayMm(v.shelfThickness)} thick; they sag under books. ${v.brackets + 1} brackets or thicker boards would do.`,
      source: 'common practice: at most about 32 thicknesses',
    })
  if (v.endOverhang > 0.35 * l.pitchMm + 60)
    out.push({
      level: 'note',
      parameter: 'endOverhang',
      message:
        'The ends stand out far past the brackets: about a quarter of the distance between brackets sags least.',
      source: 'beam tables: equal sag at ends and middle',
    })
  return out
}

/** What stands at either end of the wall, where it leaves the shelf no room. */
function besideWall(lengthMm: number, wallMm: number, depthMm: number, heightMm: number): PlaceBox[] {
  if (wallMm >= lengthMm) return []
  const overMm = (lengthMm - wallMm) / 2
  const box = (id: string, x: number): PlaceBox => ({
    id,
    name: 'What stands beside the wall',
    min: [x, 0, heightMm - 600],
    max: [x + 80 + overMm, depthMm, heightMm + 150],
    parameter: 'wallWidth',
    views: ['front', 'top'],
  })
  return [box('besideLeft', -80), box('besideRight', lengthMm - overMm)]
}

export const wallShelf = furnitureDesign({
  id: 'wallShelf',
  version: 1,
  name: 'Wall shelf on braced brackets',
  goodFor:
    'Books, jars or tools on a wall, out of short boards; the braces carry what screws alone would not.',
  parameters,
  cures: {
    brackets: 'more',
    endOverhang: 'less',
    armWidth: 'more',
    braceWidth: 'more',
    thickness: 'more',
    railWidth: 'more',
    railThickness: 'more',
    shelfThickness: 'more',
    shelfBoards: 'more',
    shelfGap: 'more',
    screwSize: 'either',
    lapScrewLength: 'more',
    screwLength: 'more',
    braceScrewLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { 'shelf board': ['edgeA', 'endA', 'endB'] },
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit: ({ v }) => [reachLine('The shelf, within reach', v.mountHeight, 0, 'mountHeight')],
  use: ({ v }) => ({ kind: 'shelf', surfaces: countTo(v.shelfBoards).map((i) => `shelf-${i + 1}`) }),
  place: ({ v }) => [
    {
      id: 'wall',
      name: 'Wall',
      min: [0, v.depth, v.mountHeight - 600],
      max: [v.length, v.depth + 40, v.mountHeight + 150],
    },
    ...besideWall(v.length, v.wallWidth, v.depth, v.mountHeight),
  ],
  hangs: 'wall',
})
