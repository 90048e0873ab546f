/** The bookcase as a recipe, for members who copy it. Its twin in code is bookcase.ts; twins.test.ts compares them. */
import type { Recipe, RecipePlace } from '../../recipe/recipe'
import { measured, ownParameters } from '../../recipe/written'
import { bookcase } from './bookcase'

/** A box between two planes each way; the wall stands behind the piece. */
const box = (
  [id, name, parameter]: readonly [string, string, string],
  when: string,
  [x, y, z]: readonly [Span, Span, Span],
  views: RecipePlace['views'] = ['front', 'top'],
): RecipePlace => ({
  ...{ id, name, parameter, when, views },
  min: [x[0], y[0], z[0]],
  max: [x[1], y[1], z[1]],
})
type Span = readonly [string, string]

const NICHE = 'standsAt == "niche"'
const SKIRTED = 'skirtingThickness > 0 and skirtingHeight > 0'
const [ALONG, DEEP, HIGH]: readonly Span[] = [
  ['nicheLeft', 'nicheRight'],
  ['0', 'wallY'],
  ['0', 'nicheTop'],
]
const LOW: Span = ['0', 'skirtingHeight']

const PLACE: readonly RecipePlace[] = [
  box(['wall', 'Wall', 'offWall'], 'standsAt != "free"', [ALONG, ['wallY', 'wallY + 60'], HIGH], ['top']),
  box(
    ['skirting', 'Skirting', 'offWall'],
    `standsAt != "free" and ${SKIRTED}`,
    [ALONG, ['wallY - skirtingThickness', 'wallY'], LOW],
    ['top'],
  ),
  box(['wallLeft', 'Wall, left', 'nicheWidth'], NICHE, [['nicheLeft - 60', 'nicheLeft'], DEEP, HIGH]),
  box(['wallRight', 'Wall, right', 'nicheWidth'], NICHE, [['nicheRight', 'nicheRight + 60'], DEEP, HIGH]),
  box(['overhead', 'What is overhead', 'nicheHeight'], NICHE, [ALONG, DEEP, ['nicheTop', 'nicheTop + 60']]),
  box(['skirtingLeft', 'Skirting, left', 'nicheWidth'], `${NICHE} and ${SKIRTED}`, [
    ['nicheLeft', 'nicheLeft + skirtingThickness'],
    DEEP,
    LOW,
  ]),
  box(['skirtingRight', 'Skirting, right', 'nicheWidth'], `${NICHE} and ${SKIRTED}`, [
    ['nicheRight - skirtingThickness', 'nicheRight'],
    DEEP,
    LOW,
  ]),
]

export const bookcaseRecipe: Recipe = {
  format: 1,
  name: bookcase.name,
  goodFor: bookcase.goodFor,
  parameters: ownParameters(bookcase),
  derived: [
    { id: 'inner', unit: 'mm', formula: 'depth - railThickness', note: 'Depth without the rails' },
    { id: 'pitch', unit: 'mm', formula: '(height - bottomHeight) / (shelves - 1)', note: 'Shelf to shelf' },
    { id: 'proud', unit: 'mm', formula: 'bearerThickness - letIn', note: 'What carries the shelves' },
    { id: 'shelfLength', unit: 'mm', formula: 'width - 2 * postThickness' },
    {
      id: 'shelfBoard',
      unit: 'mm',
      formula: '(inner - (shelfBoards - 1) * shelfGap) / shelfBoards',
      note: 'Width of a shelf board',
    },
    {
      id: 'clear',
      unit: 'mm',
      formula: 'pitch - shelfThickness - max(bearerWidth, railWidth - shelfThickness)',
      note: 'Between two shelves, where it is least',
    },
    { id: 'wallY', unit: 'mm', formula: 'depth + offWall', note: 'From the front to the wall behind it' },
    {
      id: 'nicheLeft',
      unit: 'mm',
      formula: 'standsAt == "niche" ? (width - nicheWidth) / 2 : -150',
      note: 'Left end of the wall that is drawn',
    },
    { id: 'nicheRight', unit: 'mm', formula: 'width - nicheLeft', note: 'Its right end' },
    { id: 'nicheTop', unit: 'mm', formula: 'standsAt == "niche" ? nicheHeight : height + 150' },
    {
      id: 'sideSkirting',
      unit: 'mm',
      formula: 'skirtingHeight > 0 ? skirtingThickness : 0',
      note: 'What the skirting takes of a niche at either side',
    },
    {
      id: 'low',
      unit: 'mm',
      formula: 'bottomHeight - max(shelfThickness + bearerWidth, railWidth)',
      note: 'From the floor to the lowest rail or bearer',
    },
  ],
  rules: [
    {
      holds: 'clear >= 60',
      parameter: 'shelves',
      message: 'Between two shelves {max(0, clear)} would be left; leave 60 mm. Fewer shelves would do.',
    },
    {
      holds: 'low >= 15',
      parameter: 'bottomHeight',
      message:
        'Rail or bearers of the bottom shelf would end {low} above the floor. Make it at least {bottomHeight - low + 15} high.',
    },
    {
      holds: 'inner - 2 * postWidth >= 20',
      parameter: 'postWidth',
      message: 'The posts of one side would stand {inner - 2 * postWidth} apart; they need 20 mm.',
    },
    {
      holds: 'letIn <= postThickness / 2',
      parameter: 'letIn',
      message:
        'The notches would take more than half of a post {postThickness} thick. Let in at most {postThickness / 2}.',
    },
    {
      holds: 'proud >= 12',
      parameter: 'letIn',
      message:
        'The shelves would lie on {max(0, proud)} of the bearers; they need 12 mm. Let in at most {bearerThickness - 12}.',
    },
    {
      holds: 'shelfLength >= 200',
      parameter: 'width',
      message: 'The shelves would be {shelfLength} long; make it at least {width + 200 - shelfLength} wide.',
    },
    {
      holds: 'shelfBoard >= 45',
      parameter: 'shelfBoards',
      message: 'Each shelf board would be {shelfBoard} wide; it needs 45 mm.',
    },
    {
      holds: 'rails <= shelves',
      parameter: 'rails',
      message: 'Each rail lies behind a shelf, and there are {shelves}.',
    },
    {
      holds: 'min(proud, shelfThickness) >= 2.5 * shank(screwSize)',
      parameter: 'screwSize',
      message:
        'A {shank(screwSize)} shank would split the edge of a shelf or what carries it, {min(proud, shelfThickness)} of wood; it must be {2.5 * shank(screwSize)} thick.',
    },
  ],
  middle: { x: 'width / 2', y: 'inner / 2' },
  parts: [
    {
      id: 'post',
      name: 'Post',
      kind: 'post',
      sides: 'corners',
      length: 'height',
      width: 'postWidth',
      thickness: 'postThickness',
      grain: 'z',
      face: 'right',
      x: '0',
      y: '0',
      z: '0',
      hidden: ['down'],
    },
    {
      id: 'bearer',
      name: 'Bearer, shelf {n} from below',
      kind: 'bearer',
      sides: 'leftRight',
      repeat: 'shelves',
      length: 'inner',
      width: 'bearerWidth',
      thickness: 'bearerThickness',
      grain: 'y',
      face: 'right',
      x: 'postThickness - letIn',
      y: '0',
      z: 'bottomHeight + i * pitch - shelfThickness - bearerWidth',
      hidden: ['left', 'up'],
    },
    {
      id: 'rail',
      name: 'Rail {n} from below, back',
      kind: 'rail',
      sides: 'one',
      repeat: 'rails',
      length: 'width',
      width: 'railWidth',
      thickness: 'railThickness',
      grain: 'x',
      face: 'back',
      x: '0',
      y: 'inner',
      z: 'bottomHeight + round(i * (shelves - 1) / (rails - 1)) * pitch - railWidth',
      hidden: ['front'],
    },
    {
      id: 'shelf',
      name: 'Shelf {floor(i / shelfBoards) + 1} from below, board {i mod shelfBoards + 1} from the front',
      kind: 'shelf board',
      sides: 'one',
      repeat: 'shelves * shelfBoards',
      length: 'shelfLength',
      width: 'shelfBoard',
      thickness: 'shelfThickness',
      grain: 'x',
      face: 'up',
      x: 'postThickness',
      y: '(i mod shelfBoards) * (shelfBoard + shelfGap)',
      z: 'bottomHeight + floor(i / shelfBoards) * pitch - shelfThickness',
    },
  ],
  joints: [
    {
      id: 'bearer',
      a: 'bearer',
      b: 'post',
      kind: 'letIn',
      glued: true,
      facing: 'left',
      screws: { count: '2', length: 'bearerScrewLength', called: 'A bearer screw' },
      blame: 'postWidth',
    },
    {
      id: 'rail',
      a: 'rail',
      b: 'post',
      kind: 'onFace',
      glued: true,
      facing: 'back',
      when: 'atBack',
      screws: { count: '2', length: 'screwLength', called: 'A shelf or rail screw' },
      blame: 'postThickness',
    },
    {
      id: 'railShelf',
      a: 'rail',
      b: 'shelf',
      kind: 'onFace',
      glued: true,
      facing: 'front',
      when: 'j == round(i * (shelves - 1) / (rails - 1)) * shelfBoards + shelfBoards - 1',
      screws: {
        count: 'max(2, round(shelfLength / 200 mm))',
        length: 'screwLength',
        called: 'A shelf or rail screw',
      },
      blame: 'shelfThickness',
    },
    {
      id: 'shelf',
      a: 'shelf',
      b: 'bearer',
      kind: 'onTop',
      glued: false,
      facing: 'down',
      when: 'floor(i / shelfBoards) == j',
      screws: {
        count: 'shelfBoard > 70 ? 2 : 1',
        length: 'screwLength',
        called: 'A shelf or rail screw',
      },
      blame: 'letIn',
    },
  ],
  figures: [
    { label: 'Height', unit: 'mm', value: 'height' },
    { label: 'Shelf boards, length', unit: 'mm', value: 'shelfLength' },
    { label: 'Each shelf board, width', unit: 'mm', value: 'shelfBoard' },
    { label: 'Shelves, from top to top', unit: 'mm', value: 'pitch' },
    { label: 'Clear height between shelves', unit: 'mm', value: 'pitch - shelfThickness' },
    { label: 'Bearers, length', unit: 'mm', value: 'inner' },
    { label: 'Rails, length', unit: 'mm', value: 'width' },
    { label: 'Bearers stand proud of the posts', unit: 'mm', value: 'proud' },
    { label: 'Shelf length in all', unit: 'mm', value: 'shelfLength * shelves' },
  ],
  dimensions: [
    measured('front', 'above', '0', 'width', ['0', '0', 'height']),
    measured('front', 'below', 'postThickness', 'width - postThickness'),
    measured('front', 'below', '0', 'postThickness'),
    measured('front', 'left', '0', 'height'),
    measured('front', 'left', '0', 'bottomHeight'),
    measured('front', 'left', 'bottomHeight', 'bottomHeight + pitch'),
    measured('front', 'right', 'bottomHeight - shelfThickness', 'bottomHeight', [
      'width - postThickness',
      '0',
      '0',
    ]),
    measured(
      'front',
      'right',
      'bottomHeight - shelfThickness - bearerWidth',
      'bottomHeight - shelfThickness',
      ['width - postThickness', '0', '0'],
    ),
    measured('side', 'above', '0', 'depth', ['0', '0', 'height']),
    measured('side', 'below', '0', 'postWidth'),
    measured('side', 'below', '0', 'inner'),
    measured('side', 'right', 'height - railWidth', 'height', ['0', 'depth', '0']),
    measured(
      'side',
      'right',
      '0',
      'bottomHeight + round((shelves - 1) / (rails - 1)) * pitch',
      ['0', 'depth', '0'],
      { when: 'rails > 2' },
    ),
    measured(
      'side',
      'right',
      '0',
      'bottomHeight + round(2 * (shelves - 1) / (rails - 1)) * pitch',
      ['0', 'depth', '0'],
      { when: 'rails > 3' },
    ),
    measured('top', 'left', '0', 'shelfBoard', ['postThickness', '0', 'height']),
    measured('top', 'below', 'postThickness', 'postThickness + proud', ['0', '0', 'height']),
    measured('top', 'right', 'inner', 'depth', ['width', '0', 'height']),
    measured('top', 'right', 'shelfBoard', 'shelfBoard + shelfGap', ['width', '0', 'height'], {
      when: 'shelfBoards > 1 and shelfGap > 0',
    }),
  ],
  notices: [
    {
      level: 'caution',
      when: 'height > 600 and height > 2.5 * depth',
      parameter: 'height',
      message:
        'Fasten it to the wall: {height} high and {depth} deep, it falls on a child who climbs it. Heavy books go on the lower shelves.',
      source:
        'common practice; ASTM F2057 asks for it from 27 in of height for clothes storage (from memory)',
    },
    {
      level: 'caution',
      when: 'shelfLength > 34 * shelfThickness',
      parameter: 'shelfThickness',
      message:
        'Shelves {shelfLength} long and {shelfThickness} thick sag under books; the strength report says how far.',
      source: 'common practice: at most about 34 thicknesses for books',
    },
    {
      level: 'note',
      when: 'pitch - shelfThickness < 230',
      parameter: 'shelves',
      message: '{pitch - shelfThickness} between shelves suits small books; most want 230 to 320 mm.',
      source: 'common practice',
    },
  ],
  use: { kind: 'shelf', surfaces: ['shelf'] },
  fit: {
    reach: { height: 'height' },
    play: { opening: 'nicheWidth - 2 * sideSkirting', width: 'width', when: 'standsAt == "niche"' },
  },
  place: PLACE,
}
