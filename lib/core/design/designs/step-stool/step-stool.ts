/**
 * Step stool of two steps: on either side three posts and two bearers let into them, the treads screwed down on the
 * bearers, rails under the front of each tread and two across the back keep it square. Upright boards only, square
 * cuts throughout. mm; x left to right, y from the front up the steps. Tests: tests/core/design/step-stool.test.ts
 */

import { BODY_SOURCE, bodySizeMm } from '../../body-sizes'
import { ALL_ROUND, edgeRadiusParameter } from '../../ease-boards'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, FitLine, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  countTo,
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

const THE_STEPS = 'The steps'
const THE_SIDES = 'Posts, bearers and rails'

const parameters = [
  mmParameter(
    'height',
    'Height',
    THE_STEPS,
    [440, 280, 560],
    'From the floor to the top of the upper tread; the lower one lies at half of it.',
    'Above 560 mm it is a ladder, and this design is none.',
  ),
  mmParameter('width', 'Width', THE_STEPS, [400, 280, 700], 'Left to right: the length of the tread boards.'),
  mmParameter('treadDepth', 'Tread depth', THE_STEPS, [220, 150, 320], 'Front to back, of each tread.'),
  countParameter(
    'treadBoards',
    'Boards in a tread',
    THE_STEPS,
    [2, 1, 4],
    'How many boards of equal width make each tread.',
  ),
  mmParameter(
    'treadThickness',
    'Tread thickness',
    THE_STEPS,
    [25, 18, 45, 0.5],
    'Finished thickness of the tread boards.',
  ),
  mmParameter(
    'treadGap',
    'Gap between boards',
    THE_STEPS,
    [4, 0, 10, 0.5],
    'Room for the boards to swell; too wide a gap catches a heel.',
  ),
  mmParameter(
    'overhang',
    'Overhang',
    THE_STEPS,
    [10, 0, 40],
    'How far the treads stand out past the posts at the sides and past the rails in front.',
  ),
  mmParameter('postWidth', 'Post width', THE_SIDES, [55, 35, 110, 0.5], 'Seen from the side.'),
  mmParameter(
    'postThickness',
    'Post thickness',
    THE_SIDES,
    [38, 24, 60, 0.5],
    'Seen from the front; the notches for the bearers are cut into it.',
  ),
  mmParameter(
    'bearerWidth',
    'Bearer and rail width',
    THE_SIDES,
    [60, 40, 110, 0.5],
    'Upright size of the bearers and of the rails.',
  ),
  mmParameter(
    'bearerThickness',
    'Bearer and rail thickness',
    THE_SIDES,
    [22, 12, 36, 0.5],
    'Also the depth of the notches, so that the bearers finish flush inside.',
  ),
  edgeRadiusParameter(THE_STEPS, 'the treads'),
  screwSizeParameter,
  mmParameter(
    'bearerScrewLength',
    'Bearer screw length',
    THE_SCREWS,
    [33, 12, 80],
    'Through a bearer into what its notch leaves of a post.',
  ),
  mmParameter(
    'screwLength',
    'Tread and rail screw length',
    THE_SCREWS,
    [50, 20, 120],
    'Down through a tread into bearers and rails, and through a rail into the edge of a post.',
  ),
  ...woodParameters,
] as const

const LEAST_BEARING_MM = 25
const POSTS = ['front', 'middle', 'back'] as const
const RAILS = ['front', 'middle', 'back', 'low'] as const
const LEVELS = ['lower', 'upper'] as const
type Post = (typeof POSTS)[number]
type Rail = (typeof RAILS)[number]
type Level = (typeof LEVELS)[number]

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const depthMm = 2 * v.treadDepth
  const t = v.bearerThickness
  const under: Readonly<Record<Level, number>> = {
    lower: v.height / 2 - v.treadThickness,
    upper: v.height - v.treadThickness,
  }
  const from = (front: number): Span => [front, front + v.postWidth]
  const postY: Readonly<Record<Post, Span>> = {
    front: from(v.overhang + t),
    middle: from(v.treadDepth + v.overhang + t),
    back: mirrored(depthMm, from(t)),
  }
  return {
    v,
    depthMm,
    under,
    postY,
    postX: [v.overhang, v.overhang + v.postThickness] as Span,
    bearerY: { lower: [postY.front[0], postY.back[1]], upper: [postY.middle[0], postY.back[1]] } as Readonly<
      Record<Level, Span>
    >,
    treadFrom: { lower: 0, upper: v.treadDepth } as Readonly<Record<Level, number>>,
    boards: sharesOf(v.treadDepth, v.treadBoards, v.treadGap),
    betweenMm: v.width - 2 * (v.overhang + v.postThickness),
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, betweenMm }) =>
    refuseIf(
      betweenMm < 120,
      'width',
      `Between the sides ${sayMm(betweenMm)} would be left; they need 120 mm. Make it at least ${sayMm(v.width + 120 - betweenMm)} wide.`,
    ),
  ({ v, under }) =>
    refuseIf(
      under.lower - v.bearerWidth < 40,
      'bearerWidth',
      `The lower bearers would end ${sayMm(under.lower - v.bearerWidth)} above the floor; leave 40 mm.`,
    ),
  ({ postY }) => {
    const least = Math.min(postY.middle[0] - postY.front[1], postY.back[0] - postY.middle[1])
    return refuseIf(
      least < 20,
      'postWidth',
      `Two posts of a side would stand ${sayMm(least)} apart; they need 20 mm.`,
    )
  },
  ({ v }) =>
    refuseIf(
      v.bearerThickness > (v.postThickness * 2) / 3,
      'bearerThickness',
      `The notches would leave ${sayMm(v.postThickness - v.bearerThickness)} of a post ${sayMm(v.postThickness)} thick, less than a third. Let in at most ${sayMm((v.postThickness * 2) / 3)}.`,
    ),
  ({ boards }) =>
    refuseIf(
      boards.widthMm < 50,
      'treadBoards',
      `Each tread board would be ${sayMm(boards.widthMm)} wide; it needs 50 mm.`,
    ),
  ({ v, boards }) => {
    const bearMm = boards.widthMm - v.overhang - v.bearerThickness
    return refuseIf(
      bearMm < LEAST_BEARING_MM,
      'overhang',
      `The first tread board would lie on ${sayMm(Math.max(0, bearMm))} of the bearers; it needs ${LEAST_BEARING_MM} mm.`,
    )
  },
  ({ v }) => refuseSplit(v.screwSize, v.bearerThickness, 'the edge of a bearer'),
]

const levelOf = (post: Post): Level => (post === 'front' ? 'lower' : 'upper')
const postId = (side: Side, post: Post): string => `post-${side}-${post}`
const bearerId = (side: Side, level: Level): string => `bearer-${side}-${level}`
const across = (l: Layout, side: Side, span: Span): Span =>
  side === 'left' ? span : mirrored(l.v.width, span)
const insideOf = (side: Side): 'left' | 'right' => (side === 'left' ? 'right' : 'left')
/** Posts that a bearer is let into. */
const heldBy = (level: Level): readonly Post[] => (level === 'lower' ? POSTS : ['middle', 'back'])

function sideParts(l: Layout, side: Side): Part[] {
  const { v, look, postX, under } = l
  const inner = insideOf(side)
  const posts = POSTS.map((post) =>
    board(
      look,
      {
        id: postId(side, post),
        name: `Post, ${side}, ${post}`,
        kind: `post, ${levelOf(post)}`,
        grain: 'z',
        face: inner,
        hidden: ['endA', 'endB'],
      },
      [across(l, side, postX), l.postY[post], [0, under[levelOf(post)]]],
    ),
  )
  const bearers = LEVELS.map((level) =>
    board(
      look,
      {
        id: bearerId(side, level),
        name: `Bearer, ${side}, ${level}`,
        kind: `${level} bearer`,
        grain: 'y',
        face: inner,
        hidden: ['edgeB'],
      },
      [
        across(l, side, [postX[1] - v.bearerThickness, postX[1]]),
        l.bearerY[level],
        [under[level] - v.bearerWidth, under[level]],
      ],
    ),
  )
  return [...posts, ...bearers]
}

/** The post that a rail lies on, and the height of its upper edge. */
const railPost = (rail: Rail): Post => (rail === 'low' ? 'back' : rail)
const railTopMm = (l: Layout, rail: Rail): number =>
  rail === 'front' || rail === 'low' ? l.under.lower : l.under.upper

function rail(l: Layout, which: Rail): Part {
  const { v, postY } = l
  const isBack = railPost(which) === 'back'
  const edge = isBack ? postY.back[1] : postY[railPost(which)][0]
  const top = railTopMm(l, which)
  return board(
    l.look,
    {
      id: `rail-${which}`,
      name: which === 'low' ? 'Rail, back, lower' : `Rail, ${which}`,
      kind: 'rail',
      grain: 'x',
      face: isBack ? 'back' : 'front',
      hidden: ['faceB'],
    },
    [
      [v.overhang, v.width - v.overhang],
      isBack ? [edge, edge + v.bearerThickness] : [edge - v.bearerThickness, edge],
      [top - v.bearerWidth, top],
    ],
  )
}

const treadId = (level: Level, i: number): string => `tread-${level}-${i + 1}`
const tread = (l: Layout, level: Level, i: number): Part => {
  const front = l.treadFrom[level] + l.boards.fromMm[i]
  return board(
    l.look,
    {
      id: treadId(level, i),
      name: `Tread, ${level}, board ${i + 1} from the front`,
      kind: 'tread',
      grain: 'x',
      face: 'up',
      hidden: ['faceB'],
    },
    [
      [0, l.v.width],
      [front, front + l.boards.widthMm],
      [l.under[level], l.under[level] + l.v.treadThickness],
    ],
  )
}

function partsOf(l: Layout): Part[] {
  const parts = [
    ...LEFT_RIGHT.flatMap((side) => sideParts(l, side)),
    ...RAILS.map((which) => rail(l, which)),
    ...LEVELS.flatMap((level) => countTo(l.v.treadBoards).map((i) => tread(l, level, i))),
  ]
  const housings = LEFT_RIGHT.flatMap((side) =>
    LEVELS.flatMap((level) =>
      heldBy(level).map((post) => ({
        host: postId(side, post),
        guest: bearerId(side, level),
        face: 'faceA' as const,
        jointId: `lap-${side}-${post}-${level}`,
      })),
    ),
  )
  return letIn(parts, housings)
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const bearerScrews = screwKind(v, 'bearerScrewLength', 'A bearer screw')
  const screws = screwKind(v, 'screwLength', 'A tread or rail screw')
  const laps = LEFT_RIGHT.flatMap((side) =>
    LEVELS.flatMap((level) =>
      heldBy(level).map(
        (post): JointPlan => ({
          id: `lap-${side}-${post}-${level}`,
          kind: 'letIn',
          a: bearerId(side, level),
          b: postId(side, post),
          glued: true,
          screws: bearerScrews(2),
          facing: TO[side],
          bearing: 'postWidth',
        }),
      ),
    ),
  )
  const rails = RAILS.flatMap((which) =>
    LEFT_RIGHT.map(
      (side): JointPlan => ({
        id: `rail-${which}-${side}`,
        kind: 'onFace',
        a: `rail-${which}`,
        b: postId(side, railPost(which)),
        glued: true,
        screws: screws(2),
        facing: railPost(which) === 'back' ? TO.front : TO.back,
        bearing: 'postThickness',
      }),
    ),
  )
  const onBearers = LEFT_RIGHT.flatMap((side) =>
    LEVELS.flatMap((level) =>
      countTo(v.treadBoards).map(
        (i): JointPlan => ({
          id: `tread-${side}-${level}-${i + 1}`,
          kind: 'onTop',
          a: treadId(level, i),
          b: bearerId(side, level),
          glued: false,
          screws: screws(2),
          facing: TO.down,
          bearing: 'treadBoards',
        }),
      ),
    ),
  )
  const along = Math.max(2, Math.round(l.betweenMm / 150))
  const onRail = (level: Level, which: Rail, i: number): JointPlan => ({
    id: `tread-${which}`,
    kind: 'onTop',
    a: treadId(level, i),
    b: `rail-${which}`,
    glued: true,
    screws: screws(along),
    facing: TO.down,
    bearing: 'overhang',
  })
  return [
    ...laps,
    ...rails,
    ...onBearers,
    onRail('lower', 'front', 0),
    onRail('upper', 'middle', 0),
    onRail('upper', 'back', v.treadBoards - 1),
  ]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('height', 'Upper tread, from the floor', l.v.height),
  mmFigure('rise', 'Rise of each step', l.v.height / 2),
  mmFigure('overallDepth', 'Depth over all', l.depthMm),
  mmFigure('longPost', 'Middle and back posts, length', l.under.upper),
  mmFigure('shortPost', 'Front posts, length', l.under.lower),
  mmFigure('longBearer', 'Lower bearers, length', l.bearerY.lower[1] - l.bearerY.lower[0]),
  mmFigure('shortBearer', 'Upper bearers, length', l.bearerY.upper[1] - l.bearerY.upper[0]),
  mmFigure('rail', 'Rails, length', l.v.width - 2 * l.v.overhang),
  mmFigure('boardWidth', 'Each tread board, width', l.boards.widthMm),
  mmFigure('notchDepth', 'Notch depth', l.v.bearerThickness),
  mmFigure('postLeft', 'Post left beside a notch', l.v.postThickness - l.v.bearerThickness),
]

function dimensions(l: Layout): Dimension[] {
  const { v, postX, postY, under } = l
  const top = v.height
  return [
    measure('width', 'front', 'above', 0, v.width, [0, 0, top]),
    measure('rail', 'front', 'below', v.overhang, v.width - v.overhang, [0, 0, 0]),
    measure('postThickness', 'front', 'below', postX[0], postX[1], [0, 0, 0]),
    measure('height', 'front', 'left', 0, top, [0, 0, 0]),
    measure('rise', 'front', 'left', 0, top / 2, [0, 0, 0]),
    measure('railWidth', 'front', 'right', under.lower - v.bearerWidth, under.lower, [
      v.width - v.overhang,
      0,
      0,
    ]),
    measure('treadThickness', 'front', 'right', under.upper, top, [v.width, 0, 0]),
    measure('depth', 'side', 'below', 0, l.depthMm, [0, 0, 0]),
    measure('treadDepth', 'side', 'above', l.treadFrom.upper, l.depthMm, [0, 0, top]),
    measure('frontPost', 'side', 'below', postY.front[0], postY.front[1], [0, 0, 0]),
    measure('postsApart', 'side', 'below', postY.front[0], postY.middle[0], [0, 0, 0]),
    measure('backPosts', 'side', 'below', postY.middle[0], postY.back[1], [0, 0, 0]),
    measure('shortPost', 'side', 'left', 0, under.lower, [0, postY.front[0], 0]),
    measure('longPost', 'side', 'right', 0, under.upper, [0, postY.back[1], 0]),
    measure('boardWidth', 'top', 'left', 0, l.boards.widthMm, [0, 0, top / 2]),
    measure('overhang', 'top', 'below', 0, v.overhang, [0, 0, top / 2]),
    ...(v.treadBoards > 1 && v.treadGap > 0
      ? [
          measure('gap', 'top', 'right', l.boards.widthMm, l.boards.widthMm + v.treadGap, [
            v.width,
            0,
            top / 2,
          ]),
        ]
      : []),
  ]
}

function notices({ l }: Made<Layout>): Notice[] {
  const { v } = l
  const rise = v.height / 2
  const out: Notice[] = [
    {
      level: 'caution',
      parameter: 'height',
      message:
        'People stand on it: have the strength report pass before it is used, stand it on a level dry floor, and stay between its sides.',
      source: 'common practice; no test of a standard is computed here',
    },
  ]
  if (rise < 150 || rise > 230)
    out.push({
      level: 'note',
      parameter: 'height',
      message: `Each step rises ${sayMm(rise)}; 150 to 230 mm is easy to climb.`,
      source: 'common practice',
    })
  if (v.width < 300)
    out.push({
      level: 'caution',
      parameter: 'width',
      message: `${sayMm(v.width)} is narrow for two feet; 300 mm or more stands steadier.`,
      source: 'common practice',
    })
  if (v.overhang > 20)
    out.push({
      level: 'caution',
      parameter: 'overhang',
      message: `Standing on ${sayMm(v.overhang)} of overhang can tip a light stool; 20 mm or less is safer.`,
      source: 'common practice',
    })
  return out
}

/** How high a small woman puts something, standing on the upper tread. */
const fit = ({ v }: Layout): FitLine[] => [
  {
    id: 'reach',
    label: 'A small woman reaches, from the upper tread',
    valueMm: v.height + bodySizeMm('gripReach', 'women', 0.05),
    measured: 'from the floor to the grip of a raised hand, no shoes',
    source: `${BODY_SOURCE}; 5th percentile of women, from memory`,
    level: 'good',
    parameter: 'height',
  },
]

export const stepStool = furnitureDesign({
  id: 'stepStool',
  version: 1,
  name: 'Step stool',
  goodFor: 'Two steady steps up to a shelf or a basin, and a low seat in between: square cuts only.',
  parameters,
  cures: {
    overhang: 'less',
    postWidth: 'more',
    postThickness: 'more',
    bearerWidth: 'more',
    bearerThickness: 'more',
    treadThickness: 'more',
    treadBoards: 'more',
    treadGap: 'more',
    screwSize: 'either',
    bearerScrewLength: 'more',
    screwLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  eased: { tread: ALL_ROUND },
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  fit,
  use: ({ v }) => ({
    kind: 'seat',
    surfaces: LEVELS.flatMap((level) => countTo(v.treadBoards).map((i) => treadId(level, i))),
  }),
})
