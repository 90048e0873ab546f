/** What the editor shows of each row of a recipe: its fields in order, and what a new row begins with. */
import type { Recipe } from '#lib/core/design/recipe/recipe'

type Row = Readonly<Record<string, unknown>>

export type FieldSpec = {
  readonly key: string
  readonly label: string
  readonly optional?: boolean
  readonly wide?: boolean
  /** Shown only for such rows. */
  readonly only?: (row: Row) => boolean
} & (
  | { readonly kind: 'formula' | 'words' | 'number' | 'yesNo' | 'ways' | 'options' }
  | {
      readonly kind: 'choice'
      readonly options: readonly (readonly [value: string, label: string])[]
      /** The row for another choice. */
      readonly turn?: (row: Row, value: string) => Row
    }
  | { readonly kind: 'part' | 'parameter' }
  | {
      readonly kind: 'list'
      readonly fields: readonly FieldSpec[]
      readonly fresh: Row
      readonly add: string
    }
  | {
      readonly kind: 'group'
      readonly fields: readonly FieldSpec[]
      readonly fresh: Row
      readonly add: string
    }
)

const formula = (
  key: string,
  label: string,
  more: { optional?: boolean; wide?: boolean } = {},
): FieldSpec => ({
  kind: 'formula',
  key,
  label,
  ...more,
})
const words = (key: string, label: string, more: { optional?: boolean; wide?: boolean } = {}): FieldSpec => ({
  kind: 'words',
  key,
  label,
  ...more,
})
const choice = (
  key: string,
  label: string,
  options: readonly (readonly [string, string])[],
  more: { optional?: boolean; turn?: (row: Row, value: string) => Row } = {},
): FieldSpec => ({ kind: 'choice', key, label, options, ...more })

export const WAYS = [
  ['left', 'left'],
  ['right', 'right'],
  ['front', 'front'],
  ['back', 'back'],
  ['up', 'up'],
  ['down', 'down'],
] as const
const AXES = [
  ['x', 'left to right'],
  ['y', 'front to back'],
  ['z', 'upright'],
] as const
const VIEWS = [
  ['front', 'front'],
  ['side', 'side'],
  ['top', 'top'],
] as const

const turns: FieldSpec = {
  kind: 'list',
  key: 'turns',
  label: 'Turned about its corner',
  add: 'Add a turn',
  fresh: { about: 'y', by: '0' },
  fields: [choice('about', 'About the axis', AXES), formula('by', 'By, in degrees')],
}

const isPlane = (row: Row) => row.kind === 'plane'
const isAngle = (row: Row) => row.kind === 'angle'
const only = (spec: FieldSpec, when: (row: Row) => boolean): FieldSpec => ({ ...spec, only: when })

const cuts: FieldSpec = {
  kind: 'list',
  key: 'cuts',
  label: 'Ends cut',
  add: 'Cut an end',
  fresh: { kind: 'angle', end: 'left', mitre: '0', bevel: '0' },
  fields: [
    choice('end', 'End', WAYS),
    choice(
      'kind',
      'Cut',
      [
        ['angle', 'by mitre and bevel'],
        ['plane', 'along a plane of the piece'],
      ],
      {
        turn: (row, value) =>
          value === 'plane'
            ? { kind: 'plane', end: row.end, x: '0', y: '0', z: '0', facing: 'down' }
            : { kind: 'angle', end: row.end, mitre: '0', bevel: '0' },
      },
    ),
    only(formula('mitre', 'Mitre, degrees'), isAngle),
    only(formula('bevel', 'Bevel, degrees'), isAngle),
    only(formula('x', 'Through: from the left'), isPlane),
    only(formula('y', 'From the front'), isPlane),
    only(formula('z', 'Above the floor'), isPlane),
    only(choice('facing', 'Waste lies to the', WAYS), isPlane),
    only(turns, isPlane),
  ],
}

const between: readonly FieldSpec[] = [
  choice('between.0', 'Between this face', WAYS),
  choice('between.1', 'and this one', WAYS),
]

export const PART_FIELDS: readonly FieldSpec[] = [
  words('name', 'What it is called'),
  words('id', 'Short name'),
  words('kind', 'Cut alike: kind'),
  choice('sides', 'Copies', [
    ['one', 'one'],
    ['leftRight', 'left and right'],
    ['frontBack', 'front and back'],
    ['corners', 'at four corners'],
  ]),
  formula('repeat', 'How many in a row', { optional: true }),
  formula('when', 'Made only if', { optional: true }),
  formula('length', 'Length'),
  formula('width', 'Width'),
  formula('thickness', 'Thickness'),
  choice('grain', 'Grain runs', AXES),
  choice('face', 'Face A looks', WAYS),
  formula('x', 'Corner: from the left'),
  formula('y', 'Corner: from the front'),
  formula('z', 'Corner: above the floor'),
  { kind: 'ways', key: 'hidden', label: 'Out of sight', optional: true, wide: true },
  turns,
  cuts,
  {
    kind: 'list',
    key: 'notches',
    label: 'Notches',
    add: 'Add a notch',
    fresh: { face: 'front', along: '0', width: '20', depth: '5' },
    fields: [
      choice('face', 'In the face', WAYS),
      formula('along', 'Middle, along the grain'),
      formula('width', 'Width'),
      formula('depth', 'Depth'),
      formula('skew', 'Skew, degrees', { optional: true }),
    ],
  },
  {
    kind: 'list',
    key: 'holes',
    label: 'Holes',
    add: 'Add a hole',
    fresh: { face: 'front', along: '0', across: '0', diameter: '8', depth: '10' },
    fields: [
      choice('face', 'In the face', WAYS),
      formula('along', 'Along the grain'),
      formula('across', 'Across it'),
      formula('diameter', 'Diameter'),
      formula('depth', 'Depth'),
    ],
  },
  {
    kind: 'list',
    key: 'tapers',
    label: 'Tapers',
    add: 'Add a taper',
    fresh: { face: 'right', end: 'down', length: '200', depth: '10' },
    fields: [
      choice('face', 'Off the face', WAYS),
      choice('end', 'Towards the end', WAYS),
      formula('length', 'Length'),
      formula('depth', 'Depth at the end'),
    ],
  },
  {
    kind: 'list',
    key: 'edgeBevels',
    label: 'Edges bevelled',
    add: 'Bevel an edge',
    fresh: { edge: 'up', by: '0' },
    fields: [choice('edge', 'Edge', WAYS), formula('by', 'By, in degrees')],
  },
  {
    kind: 'list',
    key: 'roundOvers',
    label: 'Single edges rounded',
    add: 'Round one edge',
    fresh: { between: ['up', 'front'], radius: '3' },
    fields: [...between, formula('radius', 'Radius')],
  },
  {
    kind: 'list',
    key: 'chamfers',
    label: 'Edges chamfered',
    add: 'Chamfer an edge',
    fresh: { between: ['up', 'front'], width: '3' },
    fields: [...between, formula('width', 'Taken off either face')],
  },
  {
    kind: 'list',
    key: 'engravings',
    label: 'Engraved fields',
    add: 'Engrave a field',
    fresh: { face: 'front', along: '50', across: '20', length: '60', width: '20', depth: '0.8' },
    fields: [
      choice('face', 'In the face', WAYS),
      formula('along', 'Middle, along the grain'),
      formula('across', 'Middle, across it'),
      formula('length', 'Length'),
      formula('width', 'Width'),
      formula('depth', 'Depth'),
    ],
  },
  {
    kind: 'group',
    key: 'eased',
    label: 'Edges rounded',
    add: 'Round its edges',
    fresh: { sides: [], radius: '3' },
    fields: [
      { kind: 'ways', key: 'sides', label: 'Along the sides', wide: true },
      formula('radius', 'Radius'),
    ],
  },
]

export const JOINT_FIELDS: readonly FieldSpec[] = [
  words('id', 'Short name'),
  { kind: 'part', key: 'a', label: 'This part' },
  { kind: 'part', key: 'b', label: 'On or in this part' },
  choice('kind', 'How', [
    ['onFace', 'face to face'],
    ['onTop', 'lies on it'],
    ['butt', 'end to face'],
    ['edge', 'edge to edge'],
    ['letIn', 'let in: a notch in the second'],
    ['halfLap', 'half-lap: a notch in both'],
  ]),
  choice('facing', 'From the first to the second', WAYS, { optional: true }),
  { kind: 'yesNo', key: 'glued', label: 'Glued' },
  formula('when', 'Only if', { optional: true, wide: true }),
  {
    kind: 'group',
    key: 'screws',
    label: 'Screws',
    add: 'Screw it',
    fresh: { count: '2', length: '40' },
    fields: [
      formula('count', 'How many'),
      formula('length', 'Length'),
      words('called', 'What one is called', { optional: true }),
    ],
  },
  { kind: 'parameter', key: 'blame', label: 'Parameter to name if they hardly touch', optional: true },
]

const isChoice = (row: Row) => row.unit === 'choice'
const isNumber = (row: Row) => row.unit !== 'choice'

export const PARAMETER_FIELDS: readonly FieldSpec[] = [
  words('label', 'Label'),
  words('id', 'Name in formulas'),
  words('group', 'Heading'),
  choice(
    'unit',
    'What it is',
    [
      ['mm', 'a length, mm'],
      ['deg', 'an angle, degrees'],
      ['count', 'a whole number'],
      ['choice', 'a choice'],
    ],
    {
      turn: ({ min: _, max: __, step: ___, options: ____, ...row }, unit) =>
        unit === 'choice'
          ? { ...row, unit, default: 'plain', options: [{ value: 'plain', label: 'plain' }] }
          : {
              ...row,
              unit,
              default: 1,
              min: 0,
              max: unit === 'mm' ? 1000 : unit === 'deg' ? 90 : 10,
              step: 1,
            },
    },
  ),
  only({ kind: 'number', key: 'default', label: 'Number' }, isNumber),
  only({ kind: 'number', key: 'min', label: 'Least' }, isNumber),
  only({ kind: 'number', key: 'max', label: 'Most' }, isNumber),
  only({ kind: 'number', key: 'step', label: 'Step' }, isNumber),
  only({ kind: 'words', key: 'default', label: 'Chosen to begin with' }, isChoice),
  only(
    {
      kind: 'list',
      key: 'options',
      label: 'Choices',
      add: 'Add a choice',
      fresh: { value: '', label: '' },
      fields: [words('value', 'In formulas'), words('label', 'As it is read')],
    },
    isChoice,
  ),
  words('help', 'Help', { wide: true }),
]

export const DERIVED_FIELDS: readonly FieldSpec[] = [
  words('id', 'Name'),
  choice('unit', 'What it is', [
    ['mm', 'a length, mm'],
    ['deg', 'an angle, degrees'],
    ['number', 'a plain number'],
    ['yesNo', 'yes or no'],
  ]),
  formula('formula', 'Formula', { wide: true }),
  words('note', 'Note', { optional: true, wide: true }),
]

export const RULE_FIELDS: readonly FieldSpec[] = [
  formula('holds', 'Must hold', { wide: true }),
  { kind: 'parameter', key: 'parameter', label: 'Parameter at fault' },
  words('message', 'What to say otherwise', { wide: true }),
]

export const FIGURE_FIELDS: readonly FieldSpec[] = [
  words('label', 'Label', { wide: true }),
  choice('unit', 'What it is', [
    ['mm', 'a length, mm'],
    ['deg', 'an angle, degrees'],
    ['number', 'a plain number'],
  ]),
  formula('value', 'Value'),
  formula('when', 'Shown only if', { optional: true }),
]

const isLinear = (row: Row) => row.kind === 'linear'
const point = (key: string, label: string): FieldSpec[] =>
  ['from the left', 'from the front', 'above the floor'].map((words, k) =>
    only(formula(`${key}.${k}`, `${label}: ${words}`), (row) => row.kind === 'angle'),
  )

export const DIMENSION_FIELDS: readonly FieldSpec[] = [
  choice('view', 'In the view', VIEWS),
  only(
    choice('side', 'Its line stands', [
      ['left', 'at the left'],
      ['right', 'at the right'],
      ['above', 'above'],
      ['below', 'below'],
    ]),
    isLinear,
  ),
  only(formula('from', 'From'), isLinear),
  only(formula('to', 'To'), isLinear),
  only(formula('x', 'At: from the left'), isLinear),
  only(formula('y', 'At: from the front'), isLinear),
  only(formula('z', 'At: above the floor'), isLinear),
  ...point('apex', 'Corner'),
  ...point('from', 'One arm'),
  ...point('to', 'Other arm'),
  formula('when', 'Shown only if', { optional: true }),
]

export const NOTICE_FIELDS: readonly FieldSpec[] = [
  choice('level', 'How grave', [
    ['note', 'a note'],
    ['caution', 'a caution'],
    ['stop', 'a stop: do not build it so'],
  ]),
  formula('when', 'Said only if', { optional: true, wide: true }),
  words('message', 'What it says', { wide: true }),
  { kind: 'parameter', key: 'parameter', label: 'About the parameter', optional: true },
  words('source', 'Where that is known from', { optional: true, wide: true }),
]

const corner = (key: 'min' | 'max', from: string): FieldSpec[] =>
  ['from the left', 'from the front', 'above the floor'].map((words, k) =>
    formula(`${key}.${k}`, `${from}: ${words}`),
  )

const PLACE_FIELDS: readonly FieldSpec[] = [
  words('name', 'What it is called'),
  words('id', 'Short name'),
  ...corner('min', 'Begins'),
  ...corner('max', 'Ends'),
  formula('when', 'There only if', { optional: true, wide: true }),
  {
    kind: 'parameter',
    key: 'parameter',
    label: 'Parameter to name if a part stands into it',
    optional: true,
  },
]

export type RoomId =
  | 'place'
  | 'parameters'
  | 'derived'
  | 'parts'
  | 'joints'
  | 'rules'
  | 'figures'
  | 'dimensions'
  | 'notices'

export interface Room {
  readonly id: RoomId
  readonly title: string
  readonly note: string
  readonly add: string
  readonly fields: readonly FieldSpec[]
  /** @param name that no other row has */
  readonly fresh: (recipe: Recipe, name: string) => Row
  /** What a row is called in its line. */
  readonly nameOf: (row: Row) => string
  /** Fields that its line shows. */
  readonly shows: readonly string[]
  /** What stands between them; absent: ×. */
  readonly joins?: string
}

const text = (value: unknown): string => String(value ?? '')
const firstParameter = (recipe: Recipe): string => recipe.parameters[0]?.id ?? 'finish'

export const ROOMS: readonly Room[] = [
  {
    id: 'parameters',
    title: 'Parameters',
    note: 'What whoever builds it may set. Screws, wood and finish are there by themselves.',
    add: 'Add a parameter',
    fields: PARAMETER_FIELDS,
    fresh: (_, id) => ({
      id,
      label: 'New length',
      group: 'The piece',
      unit: 'mm',
      default: 100,
      min: 10,
      max: 1000,
      step: 1,
      help: '',
    }),
    nameOf: (row) => text(row.label),
    shows: ['id', 'default'],
    joins: ' = ',
  },
  {
    id: 'derived',
    title: 'Derived values',
    note: 'Formulas with a name, to be used in others.',
    add: 'Add a derived value',
    fields: DERIVED_FIELDS,
    fresh: (_, id) => ({ id, unit: 'mm', formula: '0' }),
    nameOf: (row) => text(row.id),
    shows: ['formula'],
  },
  {
    id: 'parts',
    title: 'Parts',
    note: 'Each row is a part and its copies. Its numbers are those of the left or front copy.',
    add: 'Add a part',
    fields: PART_FIELDS,
    fresh: (_, id) => ({
      id,
      name: 'New part',
      kind: 'board',
      sides: 'one',
      length: '300',
      width: '90',
      thickness: '19',
      grain: 'x',
      face: 'up',
      x: '0',
      y: '0',
      z: '0',
    }),
    nameOf: (row) => text(row.name),
    shows: ['length', 'width', 'thickness'],
  },
  {
    id: 'joints',
    title: 'Joints',
    note: 'Which parts are joined, and how. Where they touch and where the screws go follows from the parts.',
    add: 'Add a joint',
    fields: JOINT_FIELDS,
    fresh: ({ parts }, id) => ({
      id,
      a: parts[0]?.id ?? '',
      b: parts[1]?.id ?? '',
      kind: 'onFace',
      glued: true,
      screws: { count: '2', length: '40' },
    }),
    nameOf: (row) => `${text(row.a)} on ${text(row.b)}`,
    shows: ['screws.count', 'screws.length'],
  },
  {
    id: 'rules',
    title: 'Rules',
    note: 'What must hold. A sentence may show numbers in braces: {length}.',
    add: 'Add a rule',
    fields: RULE_FIELDS,
    fresh: (recipe) => ({ holds: '1 > 0', parameter: firstParameter(recipe), message: 'That does not fit.' }),
    nameOf: (row) => text(row.parameter),
    shows: ['holds'],
  },
  {
    id: 'figures',
    title: 'Figures',
    note: 'Numbers that a maker wants to read off.',
    add: 'Add a figure',
    fields: FIGURE_FIELDS,
    fresh: () => ({ label: 'New figure', unit: 'mm', value: '0' }),
    nameOf: (row) => text(row.label),
    shows: ['value'],
  },
  {
    id: 'dimensions',
    title: 'Dimensions',
    note: 'What the drawings measure.',
    add: 'Add a dimension',
    fields: DIMENSION_FIELDS,
    fresh: () => ({
      kind: 'linear',
      view: 'front',
      side: 'below',
      from: '0',
      to: '100',
      x: '0',
      y: '0',
      z: '0',
    }),
    nameOf: (row) => `${text(row.view)} view${row.kind === 'angle' ? ', angle' : `, ${text(row.side)}`}`,
    shows: ['from', 'to'],
    joins: ' to ',
  },
  {
    id: 'notices',
    title: 'Notices',
    note: 'What a maker should know of a piece that can be built.',
    add: 'Add a notice',
    fields: NOTICE_FIELDS,
    fresh: () => ({ level: 'note', message: 'Something to know.' }),
    nameOf: (row) => text(row.message).slice(0, 60),
    shows: [],
  },
  {
    id: 'place',
    title: 'The place',
    note: 'A wall, a counter, a table: boxes that are drawn with the piece. A part that would stand into one is said.',
    add: 'Add a box',
    fields: PLACE_FIELDS,
    fresh: (_, id) => ({ id, name: 'Wall', min: ['0', '300', '0'], max: ['600', '340', '900'] }),
    nameOf: (row) => text(row.name),
    shows: ['min.1', 'max.1'],
    joins: ' to ',
  },
]

/** A line of the fit: sizes, and when it is said. */
const fitLine = (
  key: string,
  label: string,
  sizes: readonly (readonly [key: string, label: string])[],
): FieldSpec => ({
  kind: 'group',
  key: `fit.${key}`,
  label,
  add: `Judge it: ${label.toLowerCase()}`,
  fresh: Object.fromEntries(sizes.map(([size]) => [size, '400'])),
  fields: [
    ...sizes.map(([size, words]) => formula(size, words)),
    formula('when', 'Said only if', { optional: true, wide: true }),
  ],
})

/** The whole piece, where it is not rows. */
export const PIECE_FIELDS: readonly FieldSpec[] = [
  words('name', 'What it is called', { wide: true }),
  words('goodFor', 'What it is good for', { wide: true }),
  formula('middle.x', 'Middle, from the left'),
  formula('middle.y', 'Middle, from the front'),
  choice('use.kind', 'What it is used as', [
    ['seat', 'a seat'],
    ['table', 'a table'],
    ['shelf', 'a shelf'],
  ]),
  fitLine('seat', 'A seat against legs and hips', [
    ['height', 'Top of the seat above the floor'],
    ['depth', 'Front edge to back edge'],
    ['width', 'Width for one person'],
  ]),
  fitLine('table', 'A table or counter over a seat', [
    ['seat', 'Top of the seat above the floor'],
    ['top', 'Top of the table'],
    ['underside', 'Lowest thing over the thighs'],
  ]),
  fitLine('abreast', 'People side by side', [['length', 'Length at which they sit']]),
  fitLine('reach', 'Within reach', [['height', 'Highest surface above the floor']]),
  fitLine('play', 'Play in a niche', [
    ['opening', 'Width of the niche'],
    ['width', 'Width of the piece'],
  ]),
]
