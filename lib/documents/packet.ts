/**
 * The job packet: everything that a maker takes to the bench, as one printed document. Cover with a picture and the
 * numbers, cut list, sheets of drawings, joints and hardware, set-up cards where the cutting is planned, cautions.
 * In: a model, its drawings, set-ups in words. Out: sections for `writePdf`. Tests: tests/documents/packet.test.ts
 */
import type { ViewAxes } from '#lib/core/design/drawing/drawing'
import { boundsOf, type Sketch } from '#lib/core/design/drawing/drawing'
import { seenLines } from '#lib/core/design/drawing/hidden-lines'
import type { FaceName, Joint, Model } from '#lib/core/design/model'
import { outlineMeshes } from '#lib/core/design/part-solid'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { cross, unit } from '#lib/core/geometry/vec3'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { speciesById } from '#lib/core/wood/species'
import { sayFigure } from '#lib/format/figure'
import { sayLength } from '#lib/format/length'
import { sayInUnits } from '#lib/format/sentence'
import type { DrawingSet } from './drawing-set'
import type { PdfContent, TextBlock } from './pdf/content'
import type { PlateOptions } from './sheet/drawing-plates'

/** A set-up of one machine, in words and in the reader's unit. */
export interface PacketSetup {
  readonly number: number
  readonly station: string
  readonly title: string
  readonly settings: readonly { readonly label: string; readonly value: string; readonly isNew: boolean }[]
  readonly testCut: string
  readonly checkWith: string
  readonly cautions: readonly string[]
  readonly cuts: readonly { readonly title: string; readonly which: string; readonly note: string }[]
}

export interface PacketSource {
  readonly model: Model
  readonly design: string
  readonly build: string
  readonly units: LengthUnit
  /** Absent: the cutting is not planned yet. */
  readonly setups?: readonly PacketSetup[]
  /** Said with them: that they follow other numbers, or an unfinished plan. */
  readonly setupNotes?: readonly string[]
}

const towards = unit([0.62, -1, 0.55])
const right = unit(cross([0, 0, 1], towards))
/** From the front, the right and above. */
const PICTURE: ViewAxes = { towards, right, up: cross(towards, right) }

/** The piece as one sees it, without hidden edges: the first of several. */
export function pictureOf(kernel: SolidKernel, model: Model): Sketch {
  const parts = model.parts.filter((part) => part.unit === undefined || part.unit === 1)
  const { visible } = seenLines(outlineMeshes(kernel, parts), PICTURE)
  return {
    title: 'The piece',
    bounds: boundsOf(visible.flat()),
    lines: visible.map((points) => ({ kind: 'visible', points })),
    arrows: [],
    texts: [],
  }
}

const noticeBlocks = ({ model, units }: PacketSource): TextBlock[] =>
  model.notices.map(({ level, message, source }) => {
    const said = sayInUnits(message, units)
    return { kind: 'caution', level, text: source === undefined ? said : `${said} (${source})` }
  })

function cover(source: PacketSource, kernel: SolidKernel): TextBlock[] {
  const { model, units } = source
  return [
    { kind: 'heading', text: source.build },
    { kind: 'paragraph', text: `${source.design}. Job packet: read it through before the first cut.` },
    { kind: 'figure', drawing: pictureOf(kernel, model), mostHeightMm: 95 },
    { kind: 'facts', items: model.figures.map((figure) => [figure.label, sayFigure(figure, units)]) },
    ...noticeBlocks(source).filter((block) => block.kind === 'caution' && block.level !== 'note'),
    { kind: 'caution', level: 'caution', title: 'What comes first', text: COMES_FIRST },
  ]
}

const FACE_LETTERS: readonly (readonly [FaceName, string])[] = [
  ['faceA', 'face A'],
  ['faceB', 'face B'],
  ['edgeA', 'edge A'],
  ['edgeB', 'edge B'],
  ['endA', 'end A'],
  ['endB', 'end B'],
]

/** «all paint» or «show; hidden: end A, end B». */
function faceWords(faces: Model['parts'][number]['faces']): string {
  const seen = FACE_LETTERS.find(([face]) => faces[face] !== 'hidden')
  const hidden = FACE_LETTERS.filter(([face]) => faces[face] === 'hidden').map(([, word]) => word)
  const role = seen === undefined ? 'hidden' : faces[seen[0]]
  return hidden.length === 0 ? role : `${role}; hidden: ${hidden.join(', ')}`
}

function cutList({ model, units }: PacketSource, { groups }: DrawingSet): TextBlock[] {
  const say = (valueMm: number): string => sayLength(umFromMm(valueMm), units)
  const rows = groups.map(({ name, part, parts }) => [
    name,
    String(parts.length),
    say(part.blank.lengthMm),
    say(part.blank.widthMm),
    say(part.blank.thicknessMm),
    part.species === undefined ? 'any sound wood' : speciesById(part.species).name,
    faceWords(part.faces),
  ])
  return [
    { kind: 'heading', text: 'Cut list' },
    {
      kind: 'paragraph',
      soft: true,
      text: `Finished sizes of the blanks, before ends are cut. ${model.parts.length} parts, ${groups.length} different ones.`,
    },
    {
      kind: 'table',
      columns: [
        { head: 'Part', share: 3 },
        { head: 'Make', share: 0.8, align: 'right' },
        { head: 'Length', share: 1.5, align: 'right' },
        { head: 'Width', share: 1.4, align: 'right' },
        { head: 'Thick', share: 1.4, align: 'right' },
        { head: 'Wood', share: 2.2 },
        { head: 'Faces', share: 3 },
      ],
      rows,
    },
  ]
}

const JOINT_WORDS: Readonly<Record<Joint['kind'], string>> = {
  letIn: 'let in',
  onFace: 'on its face',
  onTop: 'on top of it',
  halfLap: 'half lapped with it',
  edge: 'edge to edge',
  butt: 'end to face',
}

function screwWords({ screws }: Joint): string {
  const lengths = new Map<number, number>()
  for (const { lengthMm } of screws) lengths.set(lengthMm, (lengths.get(lengthMm) ?? 0) + 1)
  const words = [...lengths].map(([lengthMm, count]) => `${count} × ${Number(lengthMm.toFixed(1))} mm`)
  return words.length === 0 ? 'none' : words.join(', ')
}

/** Joints that are alike share a row. */
function jointRows({ parts, joints }: Model): string[][] {
  const kindOf = new Map(parts.map((part) => [part.id, part.kind.replace(/, hand [ab]$/, '')]))
  const rows = new Map<string, { row: string[]; count: number }>()
  for (const joint of joints) {
    const row = [
      kindOf.get(joint.a) ?? joint.a,
      JOINT_WORDS[joint.kind],
      kindOf.get(joint.b) ?? joint.b,
      joint.glued ? 'glue' : 'no glue',
      screwWords(joint),
    ]
    const key = row.join('|')
    rows.set(key, { row, count: (rows.get(key)?.count ?? 0) + 1 })
  }
  return [...rows.values()].map(({ row, count }) => [String(count), ...row])
}

function jointsAndHardware({ model }: PacketSource): TextBlock[] {
  return [
    { kind: 'heading', text: 'Joints and hardware' },
    {
      kind: 'table',
      columns: [
        { head: 'Times', share: 0.8, align: 'right' },
        { head: 'This part', share: 2.4 },
        { head: 'stands', share: 2 },
        { head: 'this one', share: 2.4 },
        { head: 'Glue', share: 1.2 },
        { head: 'Screws in each', share: 2.4 },
      ],
      rows: jointRows(model),
    },
    { kind: 'heading', level: 2, text: 'To have ready' },
    {
      kind: 'table',
      columns: [
        { head: 'What', share: 2 },
        { head: 'Size', share: 3 },
        { head: 'Count', share: 1, align: 'right' },
      ],
      rows: model.hardware.map(({ kind, size, count }) => [kind, size, String(count)]),
    },
  ]
}

function setupCard(setup: PacketSetup): TextBlock[] {
  return [
    { kind: 'heading', level: 2, text: `${setup.number}. ${setup.station}: ${setup.title}`, keepMm: 70 },
    {
      kind: 'table',
      columns: [
        { head: 'Set', share: 2 },
        { head: 'To', share: 3 },
        { head: 'Since the set-up before', share: 2 },
      ],
      rows: setup.settings.map(({ label, value, isNew }) => [label, value, isNew ? 'new' : 'stands so']),
    },
    ...(setup.cautions.length === 0
      ? []
      : [{ kind: 'caution', level: 'caution', text: setup.cautions.join(' ') } as const]),
    { kind: 'paragraph', text: `Try it in scrap: ${setup.testCut} Check with: ${setup.checkWith}.` },
    {
      kind: 'list',
      items: setup.cuts.map(({ title, which, note }) =>
        [title, which, note].filter((word) => word !== '').join(': '),
      ),
    },
  ]
}

function setupSection({ setups, setupNotes = [] }: PacketSource): PdfContent['sections'] {
  if (setups === undefined || setups.length === 0) return []
  return [
    {
      kind: 'text',
      title: 'Set-ups in order',
      blocks: [
        { kind: 'heading', text: 'Set-ups in order' },
        ...setupNotes.map((text): TextBlock => ({ kind: 'caution', level: 'caution', text })),
        ...setups.flatMap(setupCard),
      ],
    },
  ]
}

const COMES_FIRST =
  'The machine’s manual, the maker’s label, your induction, the keeper of the station, local law and licensed practice come first, and where they say more, or something else, they are right. If you are not sure, do not make the cut: ask.'

/** The usual advice of the trade; docs/safety.md says more. */
const CAUTIONS: readonly string[] = [
  'No board goes to a planer, saw, router or laser before it is cleared of metal: magnet or detector and eye, on faces, edges and ends.',
  'An old finish of unknown age is not sanded, planed dry or burnt before it is tested for lead. Treated wood is never burnt or engraved, and not used for seats, tables, food or play.',
  'Eyes and ears covered; hair, sleeves, cords, rings and gloves away from what turns. Off and unplugged before a blade or bit is touched.',
  'Table saw: guard and riving knife on for every through cut; a straight edge at the fence; never the fence as a stop for a crosscut; push stick or block wherever a hand would come near. Too short to hold is too short to cut.',
  'Dust harms lungs: extraction first, a mask that fits second. Rags with drying oils catch fire by themselves: spread them out to dry or keep them under water in a closed metal can.',
  'Try every set-up in scrap and measure it before the first real piece. Load the finished piece with care before someone sits on it.',
  'Numbers for strength and tipping follow published loads and formulas; they are not a test and no certificate.',
]

function cautionBlocks(source: PacketSource): TextBlock[] {
  return [
    { kind: 'heading', text: 'Cautions' },
    { kind: 'caution', level: 'caution', title: 'What comes first', text: COMES_FIRST },
    { kind: 'list', items: CAUTIONS },
    ...noticeBlocks(source),
  ]
}

const text = (title: string, blocks: readonly TextBlock[]): PdfContent['sections'][number] => ({
  kind: 'text',
  title,
  blocks,
})

/** Sections of the packet, in the order in which they are needed. */
export function packetSections(
  source: PacketSource,
  set: DrawingSet,
  kernel: SolidKernel,
  options: PlateOptions,
): PdfContent['sections'] {
  const plates = set
    .all(options)
    .flatMap((made) => (made.status === 'made' ? [{ kind: 'plate' as const, plate: made.plate }] : []))
  return [
    text('Job packet', cover(source, kernel)),
    text('Cut list', cutList(source, set)),
    ...plates,
    text('Joints and hardware', jointsAndHardware(source)),
    ...setupSection(source),
    text('Cautions', cautionBlocks(source)),
  ]
}
