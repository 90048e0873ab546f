/**
 * Storage crate: slats on corner posts, bottom boards on two cleats between them. The long sides cover the ends of
 * the short ones; the gap under the top slat of each end is the grip. Thin short boards, square cuts, one screw size.
 * mm; x along the crate. Tests: tests/core/design/crate.test.ts
 */
import { engravedField, fieldParameters, refuseField } from '../../engraved-field'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, Notice, ParameterValues, Part } from '../../model'
import {
  board,
  countTo,
  type End,
  FRONT_BACK,
  LEFT_RIGHT,
  mirrored,
  type Side,
  type Span,
  sharesOf,
  TO,
  withOperations,
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

const THE_CRATE = 'The crate'
const THE_BOARDS = 'Slats and posts'

const parameters = [
  mmParameter('length', 'Length', THE_CRATE, [400, 220, 900], 'Outside, along the long sides.'),
  mmParameter('width', 'Width', THE_CRATE, [300, 180, 600], 'Outside, across the ends.'),
  mmParameter('height', 'Height', THE_CRATE, [250, 120, 600], 'Outside, bottom boards included.'),
  countParameter(
    'slats',
    'Slats on a side',
    THE_BOARDS,
    [3, 2, 8],
    'How many slats of equal width, one above the other, on each side.',
  ),
  mmParameter('slatGap', 'Gap between slats', THE_BOARDS, [10, 0, 40], 'Air, and less wood.'),
  mmParameter(
    'gripGap',
    'Grip',
    THE_BOARDS,
    [32, 25, 60],
    'Gap under the top slat of each end, for the fingers.',
    'Below 25 mm fingers do not go in.',
  ),
  mmParameter(
    'thickness',
    'Slat and bottom thickness',
    THE_BOARDS,
    [14, 9, 25, 0.5],
    'One thickness for slats and bottom boards.',
  ),
  mmParameter(
    'post',
    'Post and cleat size',
    THE_BOARDS,
    [32, 22, 60, 0.5],
    'Corner posts and bottom cleats are square in section.',
  ),
  countParameter(
    'bottomBoards',
    'Bottom boards',
    THE_BOARDS,
    [3, 1, 6],
    'How many boards of equal width make the bottom.',
  ),
  mmParameter(
    'bottomGap',
    'Gap between bottom boards',
    THE_BOARDS,
    [4, 0, 20],
    'Room for the boards to swell and for dirt to fall out.',
  ),
  ...fieldParameters(
    THE_BOARDS,
    [
      { value: 'front', label: 'on the top slat, front' },
      { value: 'both', label: 'on the top slats, front and back' },
    ],
    [
      [150, 40, 400],
      [40, 12, 150],
    ],
  ),
  screwSizeParameter,
  mmParameter(
    'screwLength',
    'Screw length',
    THE_SCREWS,
    [38, 16, 80],
    'Through a slat or a bottom board into a post or a cleat.',
  ),
  ...woodParameters,
] as const

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const t = v.thickness
  const sideMm = v.height - t
  const endSlatMm = (sideMm - (v.slats - 2) * v.slatGap - v.gripGap) / v.slats
  const long = sharesOf(sideMm, v.slats, v.slatGap)
  return {
    v,
    sideMm,
    endSlatMm,
    long,
    /** Lower edges of the end slats above the bottom boards; the last one lies above the grip. */
    endFrom: countTo(v.slats).map((i) =>
      i === v.slats - 1 ? sideMm - endSlatMm : i * (endSlatMm + v.slatGap),
    ),
    bottom: sharesOf(v.width, v.bottomBoards, v.bottomGap),
    postX: [t, t + v.post] as Span,
    postY: [t, t + v.post] as Span,
    cleatMm: v.width - 2 * t - 2 * v.post,
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v, cleatMm }) =>
    refuseIf(
      cleatMm < 60,
      'post',
      `Between the posts of an end ${sayMm(cleatMm)} would be left; leave 60 mm. Take posts of at most ${sayMm(v.post - (60 - cleatMm) / 2)}.`,
    ),
  ({ endSlatMm, long }) => {
    const least = Math.min(endSlatMm, long.widthMm)
    return refuseIf(
      least < 30,
      'slats',
      `The slats would be ${sayMm(Math.max(0, least))} wide; they need 30 mm. Fewer slats or smaller gaps would do.`,
    )
  },
  ({ v, bottom }) => {
    const bearMm = bottom.widthMm - v.thickness - v.post
    return refuseIf(
      v.bottomBoards > 1 && bearMm < 20,
      'bottomBoards',
      `The outer bottom boards would meet ${sayMm(Math.max(0, bearMm))} of the cleats; they need 20 mm. Fewer boards would do.`,
    )
  },
  ({ v, bottom }) =>
    refuseIf(
      v.bottomBoards > 1 && bottom.widthMm < 35,
      'bottomBoards',
      `Each bottom board would be ${sayMm(bottom.widthMm)} wide; it needs 35 mm.`,
    ),
  ({ v, long }) => {
    // Between the posts, clear of the screws in them.
    const lengthMm = v.length - 2 * (v.thickness + v.post)
    return refuseField(v, { lengthMm, widthMm: long.widthMm, thicknessMm: v.thickness }, 'a top slat')
  },
  ({ v }) => refuseSplit(v.screwSize, v.post, 'a post that takes screws from two sides', 5),
]

const corner = (x: Side, y: End): string => `${x}-${y}`
const alongX = (l: Layout, x: Side, span: Span): Span => (x === 'left' ? span : mirrored(l.v.length, span))
const alongY = (l: Layout, y: End, span: Span): Span => (y === 'front' ? span : mirrored(l.v.width, span))

/** The long slats, those on top with the field that is asked for. */
function withField({ v }: Layout, long: readonly Part[]): Part[] {
  const ends = v.field === 'none' ? [] : v.field === 'front' ? (['front'] as const) : FRONT_BACK
  const tops = ends.map((y) => `slat-${y}-${v.slats}`)
  return long.map((slat) =>
    tops.includes(slat.id) ? withOperations(slat, [engravedField(v, slat, 'faceA')]) : slat,
  )
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const t = v.thickness
  const posts = LEFT_RIGHT.flatMap((x) =>
    FRONT_BACK.map((y) =>
      board(
        look,
        {
          id: `post-${corner(x, y)}`,
          name: `Post, ${x} ${y}`,
          kind: 'post',
          grain: 'z',
          face: y,
          hidden: ['endA'],
        },
        [alongX(l, x, l.postX), alongY(l, y, l.postY), [t, v.height]],
      ),
    ),
  )
  const cleats = LEFT_RIGHT.map((x) =>
    board(
      look,
      {
        id: `cleat-${x}`,
        name: `Bottom cleat, ${x}`,
        kind: 'cleat',
        grain: 'y',
        face: x,
        hidden: ['faceA'],
        hiddenToward: ['down'],
      },
      [alongX(l, x, l.postX), [t + v.post, v.width - t - v.post], [t, t + v.post]],
    ),
  )
  const long = FRONT_BACK.flatMap((y) =>
    l.long.fromMm.map((from, i) =>
      board(
        look,
        {
          id: `slat-${y}-${i + 1}`,
          name: `Slat ${i + 1} from below, ${y}`,
          kind: 'long slat',
          grain: 'x',
          face: y,
        },
        [[0, v.length], alongY(l, y, [0, t]), [t + from, t + from + l.long.widthMm]],
      ),
    ),
  )
  const ends = LEFT_RIGHT.flatMap((x) =>
    l.endFrom.map((from, i) =>
      board(
        look,
        {
          id: `slat-${x}-${i + 1}`,
          name: `Slat ${i + 1} from below, ${x}`,
          kind: 'end slat',
          grain: 'y',
          face: x,
          hidden: ['endA', 'endB'],
        },
        [alongX(l, x, [0, t]), [t, v.width - t], [t + from, t + from + l.endSlatMm]],
      ),
    ),
  )
  const bottom = l.bottom.fromMm.map((from, i) =>
    board(
      look,
      {
        id: `bottom-${i + 1}`,
        name: `Bottom board ${i + 1} from the front`,
        kind: 'bottom board',
        grain: 'x',
        face: 'up',
        hidden: ['faceB'],
      },
      [
        [0, v.length],
        [from, from + l.bottom.widthMm],
        [0, t],
      ],
    ),
  )
  return [...posts, ...cleats, ...withField(l, long), ...ends, ...bottom]
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const screws = screwKind(v, 'screwLength', 'A screw')
  const inX = (x: Side) => (x === 'left' ? TO.right : TO.left)
  const inY = (y: End) => (y === 'front' ? TO.back : TO.front)
  const perSlat = (widthMm: number): number => (widthMm > 45 ? 2 : 1)
  const plan = (id: string, a: string, b: string, count: number, facing: JointPlan['facing']): JointPlan => ({
    id,
    kind: 'onFace',
    a,
    b,
    glued: true,
    screws: screws(count),
    facing,
    bearing: 'post',
  })
  return [
    ...FRONT_BACK.flatMap((y) =>
      LEFT_RIGHT.flatMap((x) =>
        countTo(v.slats).map((i) =>
          plan(
            `long-${corner(x, y)}-${i + 1}`,
            `slat-${y}-${i + 1}`,
            `post-${corner(x, y)}`,
            perSlat(l.long.widthMm),
            inY(y),
          ),
        ),
      ),
    ),
    ...LEFT_RIGHT.flatMap((x) =>
      FRONT_BACK.flatMap((y) =>
        countTo(v.slats).map((i) =>
          plan(
            `end-${corner(x, y)}-${i + 1}`,
            `slat-${x}-${i + 1}`,
            `post-${corner(x, y)}`,
            perSlat(l.endSlatMm),
            inX(x),
          ),
        ),
      ),
    ),
    ...LEFT_RIGHT.map((x) =>
      plan(`cleat-${x}`, `slat-${x}-1`, `cleat-${x}`, Math.max(2, Math.round(l.cleatMm / 90)), inX(x)),
    ),
    ...LEFT_RIGHT.flatMap((x) =>
      countTo(v.bottomBoards).map(
        (i): JointPlan => ({
          ...plan(`bottom-${x}-${i + 1}`, `bottom-${i + 1}`, `cleat-${x}`, 2, TO.up),
          kind: 'onTop',
          glued: false,
          bearing: 'bottomBoards',
        }),
      ),
    ),
  ]
}

const litres = (l: Layout): number => {
  const { length, width, height, thickness: t } = l.v
  return ((length - 2 * t) * (width - 2 * t) * (height - t)) / 1e6
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('insideLength', 'Inside, length', l.v.length - 2 * l.v.thickness),
  mmFigure('insideWidth', 'Inside, width', l.v.width - 2 * l.v.thickness),
  mmFigure('insideHeight', 'Inside, height', l.sideMm),
  mmFigure('longSlat', 'Long slats, width', l.long.widthMm),
  mmFigure('endSlat', 'End slats, width', l.endSlatMm),
  mmFigure('endSlatLength', 'End slats, length', l.v.width - 2 * l.v.thickness),
  mmFigure('postLength', 'Posts, length', l.sideMm),
  mmFigure('cleatLength', 'Cleats, length', l.cleatMm),
  mmFigure('bottomWidth', 'Each bottom board, width', l.bottom.widthMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v } = l
  const t = v.thickness
  const grip = t + l.endFrom[v.slats - 1]
  return [
    measure('length', 'front', 'below', 0, v.length, [0, 0, 0]),
    measure('height', 'front', 'left', 0, v.height, [0, 0, 0]),
    measure('longSlat', 'front', 'right', t, t + l.long.widthMm, [v.length, 0, 0]),
    ...(v.slatGap > 0
      ? [
          measure('slatGap', 'front', 'right', t + l.long.widthMm, t + l.long.widthMm + v.slatGap, [
            v.length,
            0,
            0,
          ]),
        ]
      : []),
    measure('bottomThickness', 'front', 'right', 0, t, [v.length, 0, 0]),
    measure('width', 'side', 'below', 0, v.width, [0, 0, 0]),
    measure('endSlat', 'side', 'right', grip, v.height, [v.length, v.width - t, 0]),
    measure('grip', 'side', 'right', grip - v.gripGap, grip, [v.length, v.width - t, 0]),
    measure('slatLength', 'side', 'above', t, v.width - t, [0, 0, v.height]),
    measure('post', 'top', 'below', t, t + v.post, [0, t, v.height]),
    measure('slatThickness', 'top', 'left', 0, t, [0, 0, v.height]),
    measure('bottomWidth', 'top', 'right', 0, l.bottom.widthMm, [v.length, 0, t]),
    ...(v.bottomBoards > 1 && v.bottomGap > 0
      ? [
          measure('bottomGap', 'top', 'right', l.bottom.widthMm, l.bottom.widthMm + v.bottomGap, [
            v.length,
            0,
            t,
          ]),
        ]
      : []),
  ]
}

function notices({ l, weightKg }: Made<Layout>): Notice[] {
  const full = litres(l) * 0.6 + weightKg
  return full > 23
    ? [
        {
          level: 'caution',
          parameter: 'length',
          message: `Full of books or tools (0.6 kg a litre) it weighs about ${Math.round(full)} kg, more than one person should lift: a smaller one carries better.`,
          source: 'NIOSH lifting equation: at most 23 kg under the best conditions',
        },
      ]
    : [
        {
          level: 'note',
          parameter: 'length',
          message: `It holds ${Math.round(litres(l))} litres; full of books or tools it weighs about ${Math.round(full)} kg.`,
          source: '0.6 kg a litre: common practice',
        },
      ]
}

export const crate = furnitureDesign({
  id: 'crate',
  version: 1,
  name: 'Storage crate',
  goodFor: 'Tools, toys, firewood or vegetables: uses up the shortest and thinnest boards of a teardown.',
  parameters,
  cures: {
    slats: 'more',
    slatGap: 'more',
    thickness: 'more',
    post: 'more',
    bottomBoards: 'more',
    bottomGap: 'more',
    screwSize: 'either',
    screwLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  use: (l) => ({ kind: 'shelf', surfaces: l.bottom.fromMm.map((_, i) => `bottom-${i + 1}`) }),
})
