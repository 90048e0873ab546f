/**
 * Open bookcase: four posts, bearers across each side partly let into the posts, shelf boards between the posts on
 * the part of the bearers that stands proud, and rails across the back that are screwed to posts and shelves and keep
 * it from racking. Square cuts only, no wide boards. mm; the back is y = depth. Tests: tests/core/design/bookcase.test.ts
 */
import { reachLine } from '../../fit/fit-lines'
import { nicheBoxes, nicheFit, nicheParameters } from '../../fit/niche'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  countTo,
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

const THE_CASE = 'The bookcase'
const THE_FRAME = 'Posts, bearers and rails'

const parameters = [
  mmParameter(
    'height',
    'Height',
    THE_CASE,
    [1100, 300, 2200],
    'From the floor to the tops of posts and top shelf.',
  ),
  mmParameter('width', 'Width', THE_CASE, [760, 300, 1200], 'Left to right, over the posts.'),
  mmParameter('depth', 'Depth', THE_CASE, [280, 180, 450], 'Front to back, rails included.'),
  countParameter(
    'shelves',
    'Shelves',
    THE_CASE,
    [4, 2, 8],
    'How many shelves, top and bottom included, at equal distances.',
  ),
  countParameter(
    'shelfBoards',
    'Boards in a shelf',
    THE_CASE,
    [2, 1, 4],
    'How many boards of equal width make a shelf.',
  ),
  mmParameter(
    'shelfThickness',
    'Shelf thickness',
    THE_CASE,
    [22, 14, 40, 0.5],
    'Finished thickness of the shelf boards.',
  ),
  mmParameter('shelfGap', 'Gap between boards', THE_CASE, [3, 0, 10, 0.5], 'Room for the boards to swell.'),
  mmParameter(
    'bottomHeight',
    'Bottom shelf height',
    THE_CASE,
    [120, 60, 500],
    'From the floor to the top of the bottom shelf.',
  ),
  mmParameter('postWidth', 'Post width', THE_FRAME, [60, 35, 120, 0.5], 'Seen from the side.'),
  mmParameter('postThickness', 'Post thickness', THE_FRAME, [34, 22, 60, 0.5], 'Seen from the front.'),
  mmParameter(
    'bearerWidth',
    'Bearer width',
    THE_FRAME,
    [45, 30, 90, 0.5],
    'Upright size of the bearers under the shelves.',
  ),
  mmParameter(
    'bearerThickness',
    'Bearer thickness',
    THE_FRAME,
    [28, 18, 45, 0.5],
    'What is not let into the posts stands proud and carries the shelves.',
  ),
  mmParameter(
    'letIn',
    'Bearers let in',
    THE_FRAME,
    [10, 3, 25, 0.5],
    'Depth of the notches in the posts; their lower shoulders carry the load.',
  ),
  countParameter(
    'rails',
    'Rails across the back',
    THE_FRAME,
    [3, 2, 4],
    'How many rails tie the back posts, each behind a shelf.',
  ),
  mmParameter(
    'railWidth',
    'Rail width',
    THE_FRAME,
    [75, 45, 160, 0.5],
    'Upright size of the rails; wider ones rack less.',
  ),
  mmParameter(
    'railThickness',
    'Rail thickness',
    THE_FRAME,
    [19, 12, 30, 0.5],
    'Finished thickness of the rails.',
  ),
  ...nicheParameters,
  screwSizeParameter,
  mmParameter(
    'bearerScrewLength',
    'Bearer screw length',
    THE_SCREWS,
    [45, 16, 90],
    'Through a bearer into a post.',
  ),
  mmParameter(
    'screwLength',
    'Shelf and rail screw length',
    THE_SCREWS,
    [50, 20, 120],
    'Down through a shelf board into a bearer, and through a rail into a post or the edge of a shelf.',
  ),
  ...woodParameters,
] as const

const LEAST_PROUD_MM = 12

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const innerDepthMm = v.depth - v.railThickness
  const pitchMm = (v.height - v.bottomHeight) / (v.shelves - 1)
  const tops = countTo(v.shelves).map((i) => v.bottomHeight + i * pitchMm)
  const postY: Readonly<Record<End, Span>> = {
    front: [0, v.postWidth],
    back: [innerDepthMm - v.postWidth, innerDepthMm],
  }
  return {
    v,
    innerDepthMm,
    pitchMm,
    tops,
    postY,
    /** Shelves that have a rail behind them: bottom, top and evenly between. */
    railAt: countTo(v.rails).map((i) => Math.round((i * (v.shelves - 1)) / (v.rails - 1))),
    proudMm: v.bearerThickness - v.letIn,
    shelfLengthMm: v.width - 2 * v.postThickness,
    boards: sharesOf(innerDepthMm, v.shelfBoards, v.shelfGap),
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, pitchMm }) => {
    const clearMm = pitchMm - v.shelfThickness - Math.max(v.bearerWidth, v.railWidth - v.shelfThickness)
    return refuseIf(
      clearMm < 60,
      'shelves',
      `Between two shelves ${sayMm(Math.max(0, clearMm))} would be left; leave 60 mm. Fewer shelves would do.`,
    )
  },
  ({ v }) => {
    const lowMm = v.bottomHeight - Math.max(v.shelfThickness + v.bearerWidth, v.railWidth)
    return refuseIf(
      lowMm < 15,
      'bottomHeight',
      `Rail or bearers of the bottom shelf would end ${sayMm(lowMm)} above the floor. Make it at least ${sayMm(v.bottomHeight - lowMm + 15)} high.`,
    )
  },
  ({ v, innerDepthMm }) =>
    refuseIf(
      innerDepthMm - 2 * v.postWidth < 20,
      'postWidth',
      `The posts of one side would stand ${sayMm(innerDepthMm - 2 * v.postWidth)} apart; they need 20 mm.`,
    ),
  ({ v }) =>
    refuseIf(
      v.letIn > v.postThickness / 2,
      'letIn',
      `The notches would take more than half of a post ${sayMm(v.postThickness)} thick. Let in at most ${sayMm(v.postThickness / 2)}.`,
    ),
  ({ v, proudMm }) =>
    refuseIf(
      proudMm < LEAST_PROUD_MM,
      'letIn',
      `The shelves would lie on ${sayMm(Math.max(0, proudMm))} of the bearers; they need ${LEAST_PROUD_MM} mm. Let in at most ${sayMm(v.bearerThickness - LEAST_PROUD_MM)}.`,
    ),
  ({ v, shelfLengthMm }) =>
    refuseIf(
      shelfLengthMm < 200,
      'width',
      `The shelves would be ${sayMm(shelfLengthMm)} long; make it at least ${sayMm(v.width + 200 - shelfLengthMm)} wide.`,
    ),
  ({ boards }) =>
    refuseIf(
      boards.widthMm < 45,
      'shelfBoards',
      `Each shelf board would be ${sayMm(boards.widthMm)} wide; it needs 45 mm.`,
    ),
  ({ v }) =>
    refuseIf(v.rails > v.shelves, 'rails', `Each rail lies behind a shelf, and there are ${v.shelves}.`),
  ({ v, proudMm }) => {
    const least = Math.min(proudMm, v.shelfThickness)
    return refuseSplit(v.screwSize, least, 'the edge of a shelf or what carries it', 2.5)
  },
]

const postId = (side: Side, end: End): string => `post-${side}-${end}`
const bearerId = (side: Side, i: number): string => `bearer-${side}-${i + 1}`
const shelfId = (i: number, k: number): string => `shelf-${i + 1}-${k + 1}`
const across = (l: Layout, side: Side, span: Span): Span =>
  side === 'left' ? span : mirrored(l.v.width, span)

function sideParts(l: Layout, side: Side): Part[] {
  const { v, look } = l
  const inner = side === 'left' ? 'right' : 'left'
  const posts = FRONT_BACK.map((end) =>
    board(
      look,
      {
        id: postId(side, end),
        name: `Post, ${side} ${end}`,
        kind: 'post',
        grain: 'z',
        face: inner,
        hidden: ['endA'],
      },
      [across(l, side, [0, v.postThickness]), l.postY[end], [0, v.height]],
    ),
  )
  const bearerX: Span = [v.postThickness - v.letIn, v.postThickness + l.proudMm]
  const bearers = l.tops.map((top, i) =>
    board(
      look,
      {
        id: bearerId(side, i),
        name: `Bearer, ${side}, shelf ${i + 1} from below`,
        kind: 'bearer',
        grain: 'y',
        face: inner,
        hidden: ['faceB'],
        hiddenToward: ['up'],
      },
      [
        across(l, side, bearerX),
        [0, l.innerDepthMm],
        [top - v.shelfThickness - v.bearerWidth, top - v.shelfThickness],
      ],
    ),
  )
  return [...posts, ...bearers]
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const rails = l.railAt.map((i, k) =>
    board(
      look,
      {
        id: `rail-${k + 1}`,
        name: `Rail ${k + 1} from below, back`,
        kind: 'rail',
        grain: 'x',
        face: 'back',
        hidden: ['faceB'],
      },
      [
        [0, v.width],
        [l.innerDepthMm, v.depth],
        [l.tops[i] - v.railWidth, l.tops[i]],
      ],
    ),
  )
  const shelves = l.tops.flatMap((top, i) =>
    l.boards.fromMm.map((from, k) =>
      board(
        look,
        {
          id: shelfId(i, k),
          name: `Shelf ${i + 1} from below, board ${k + 1} from the front`,
          kind: 'shelf board',
          mayBeGluedUp: true,
          grain: 'x',
          face: 'up',
        },
        [
          [v.postThickness, v.width - v.postThickness],
          [from, from + l.boards.widthMm],
          [top - v.shelfThickness, top],
        ],
      ),
    ),
  )
  const parts = [...LEFT_RIGHT.flatMap((side) => sideParts(l, side)), ...rails, ...shelves]
  const housings = LEFT_RIGHT.flatMap((side) =>
    FRONT_BACK.flatMap((end) =>
      countTo(v.shelves).map((i) => ({
        host: postId(side, end),
        guest: bearerId(side, i),
        face: 'faceA' as const,
        jointId: `bearer-${side}-${end}-${i + 1}`,
      })),
    ),
  )
  return letIn(parts, housings)
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const bearerScrews = screwKind(v, 'bearerScrewLength', 'A bearer screw')
  const screws = screwKind(v, 'screwLength', 'A shelf or rail screw')
  const laps = LEFT_RIGHT.flatMap((side) =>
    FRONT_BACK.flatMap((end) =>
      countTo(v.shelves).map(
        (i): JointPlan => ({
          id: `bearer-${side}-${end}-${i + 1}`,
          kind: 'letIn',
          a: bearerId(side, i),
          b: postId(side, end),
          glued: true,
          screws: bearerScrews(2),
          facing: TO[side],
          bearing: 'postWidth',
        }),
      ),
    ),
  )
  const rails = l.railAt.flatMap((i, k): JointPlan[] => [
    ...LEFT_RIGHT.map(
      (side): JointPlan => ({
        id: `rail-${k + 1}-${side}`,
        kind: 'onFace',
        a: `rail-${k + 1}`,
        b: postId(side, 'back'),
        glued: true,
        screws: screws(2),
        facing: TO.front,
        bearing: 'postThickness',
      }),
    ),
    {
      id: `rail-${k + 1}-shelf`,
      kind: 'onFace',
      a: `rail-${k + 1}`,
      b: shelfId(i, v.shelfBoards - 1),
      glued: true,
      screws: screws(Math.max(2, Math.round(l.shelfLengthMm / 200))),
      facing: TO.front,
      bearing: 'shelfThickness',
    },
  ])
  const shelves = l.tops.flatMap((_, i) =>
    LEFT_RIGHT.flatMap((side) =>
      countTo(v.shelfBoards).map(
        (k): JointPlan => ({
          id: `shelf-${side}-${i + 1}-${k + 1}`,
          kind: 'onTop',
          a: shelfId(i, k),
          b: bearerId(side, i),
          glued: false,
          screws: screws(l.boards.widthMm > 70 ? 2 : 1),
          facing: TO.down,
          bearing: 'letIn',
        }),
      ),
    ),
  )
  return [...laps, ...rails, ...shelves]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Height', l.v.height),
  mmFigure('shelfLength', 'Shelf boards, length', l.shelfLengthMm),
  mmFigure('boardWidth', 'Each shelf board, width', l.boards.widthMm),
  mmFigure('pitch', 'Shelves, from top to top', l.pitchMm),
  mmFigure('clear', 'Clear height between shelves', l.pitchMm - l.v.shelfThickness),
  mmFigure('bearerLength', 'Bearers, length', l.innerDepthMm),
  mmFigure('railLength', 'Rails, length', l.v.width),
  mmFigure('proud', 'Bearers stand proud of the posts', l.proudMm),
  mmFigure('shelfRun', 'Shelf length in all', l.shelfLengthMm * l.v.shelves),
]

function dimensions(l: Layout): Dimension[] {
  const { v, tops } = l
  const h = v.height
  const first = tops[0]
  return [
    measure('width', 'front', 'above', 0, v.width, [0, 0, h]),
    measure('shelfLength', 'front', 'below', v.postThickness, v.width - v.postThickness, [0, 0, 0]),
    measure('postThickness', 'front', 'below', 0, v.postThickness, [0, 0, 0]),
    measure('height', 'front', 'left', 0, h, [0, 0, 0]),
    measure('bottomHeight', 'front', 'left', 0, first, [0, 0, 0]),
    measure('pitch', 'front', 'left', first, tops[1], [0, 0, 0]),
    measure('shelfThickness', 'front', 'right', first - v.shelfThickness, first, [
      v.width - v.postThickness,
      0,
      0,
    ]),
    measure(
      'bearerWidth',
      'front',
      'right',
      first - v.shelfThickness - v.bearerWidth,
      first - v.shelfThickness,
      [v.width - v.postThickness, 0, 0],
    ),
    measure('depth', 'side', 'above', 0, v.depth, [0, 0, h]),
    measure('postWidth', 'side', 'below', 0, v.postWidth, [0, 0, 0]),
    measure('postsOver', 'side', 'below', 0, l.innerDepthMm, [0, 0, 0]),
    measure('railWidth', 'side', 'right', h - v.railWidth, h, [0, v.depth, 0]),
    ...l.railAt
      .slice(1, -1)
      .map((i, k) => measure(`railTop-${k + 2}`, 'side', 'right', 0, tops[i], [0, v.depth, 0])),
    measure('boardWidth', 'top', 'left', 0, l.boards.widthMm, [v.postThickness, 0, h]),
    measure('proud', 'top', 'below', v.postThickness, v.postThickness + l.proudMm, [0, 0, h]),
    measure('railThickness', 'top', 'right', l.innerDepthMm, v.depth, [v.width, 0, h]),
    ...(v.shelfBoards > 1 && v.shelfGap > 0
      ? [
          measure('gap', 'top', 'right', l.boards.widthMm, l.boards.widthMm + v.shelfGap, [
            v.width - v.postThickness,
            0,
            h,
          ]),
        ]
      : []),
  ]
}

function notices({ l }: Made<Layout>): Notice[] {
  const { v } = l
  const out: Notice[] = []
  if (v.height > 600 && v.height > 2.5 * v.depth)
    out.push({
      level: 'caution',
      parameter: 'height',
      message: `Fasten it to the wall: ${sayMm(v.height)} high and ${sayMm(v.depth)} deep, it falls on a child who climbs it. Heavy books go on the lower shelves.`,
      source:
        'common practice; ASTM F2057 asks for it from 27 in of height for clothes storage (from memory)',
    })
  if (l.shelfLengthMm > 34 * v.shelfThickness)
    out.push({
      level: 'caution',
      parameter: 'shelfThickness',
      message: `Shelves ${sayMm(l.shelfLengthMm)} long and ${sayMm(v.shelfThickness)} thick sag under books; the strength report says how far.`,
      source: 'common practice: at most about 34 thicknesses for books',
    })
  if (l.pitchMm - v.shelfThickness < 230)
    out.push({
      level: 'note',
      parameter: 'shelves',
      message: `${sayMm(l.pitchMm - v.shelfThickness)} between shelves suits small books; most want 230 to 320 mm.`,
      source: 'common practice',
    })
  return out
}

const sizeOf = ({ v }: Layout) => ({ widthMm: v.width, depthMm: v.depth, heightMm: v.height })

export const bookcase = furnitureDesign({
  id: 'bookcase',
  version: 1,
  name: 'Open bookcase',
  goodFor:
    'Books and boxes in a living room or a shop: open on all sides, narrow boards, carried by notches rather than by screws.',
  parameters,
  cures: {
    postWidth: 'more',
    postThickness: 'more',
    bearerWidth: 'more',
    bearerThickness: 'more',
    letIn: 'either',
    rails: 'more',
    railWidth: 'more',
    railThickness: 'more',
    shelfThickness: 'more',
    shelfBoards: 'more',
    shelfGap: 'more',
    screwSize: 'either',
    bearerScrewLength: 'more',
    screwLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit: (l) => [
    reachLine('The top shelf, within reach', l.tops[l.tops.length - 1], 0, 'height'),
    ...nicheFit(l.v, sizeOf(l)),
  ],
  place: (l) => nicheBoxes(l.v, sizeOf(l)),
  use: (l) => ({
    kind: 'shelf',
    surfaces: l.tops.flatMap((_, i) => countTo(l.v.shelfBoards).map((k) => shelfId(i, k))),
  }),
})
