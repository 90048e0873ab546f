/**
 * The strength report as a printed document: the verdict, where it hurts and how it bends, every check with what is
 * asked, borne and left over, tipping, woods, ways to join, movement, the range, and where the numbers are from. The
 * caution stands on every sheet. In: what the Strength page shows. Out: PdfContent. N, mm, MPa as on the page.
 * Tests: tests/documents/strength/report-content.test.ts
 */
import { MOST_MARGIN, type StrengthCheck, say3 } from '#lib/core/statics/checks'
import type { JointComparison } from '#lib/core/statics/compare-joints'
import type { WoodVerdict } from '#lib/core/statics/compare-woods'
import type { DeflectedShape, DrawnPart } from '#lib/core/statics/deflected-shape'
import type { ScatterReport } from '#lib/core/statics/monte-carlo'
import { MOVEMENT, SCATTER, type Sourced } from '#lib/core/statics/sources'
import type { StrengthReport } from '#lib/core/statics/strength'
import { sayStrengthInUnits } from '#lib/format/sentence'
import { feetDrawing, shapeDrawing } from '#lib/shop/strength-drawing'
import {
  alikeChecks,
  alikeHeld,
  carrierWords,
  checkMarginWords,
  type Level,
  marginWords,
  movingParts,
  sayLoads,
  sayTag,
  tippingWords,
  verdictOf,
  woodsWords,
} from '#lib/shop/strength-words'
import type { DocumentOrder } from '../order'
import type { PdfContent, TableColumn, TextBlock } from '../pdf/content'
import { feetOnPaper, shapeOnPaper } from './report-drawings'

export interface PrintedStrength {
  readonly report: StrengthReport
  readonly parts: readonly DrawnPart[]
  readonly shapes: readonly DeflectedShape[]
  readonly woods: readonly WoodVerdict[]
  /** Absent: the model's design is not known. */
  readonly comparison?: JointComparison
  readonly scatter?: ScatterReport
  readonly judgedFor: Extract<DocumentOrder, { kind: 'strength' }>['judgedFor']
}

/** Of what stands under a heading, so much comes with it: a figure and its caption, a paragraph and rows of a table. */
const KEEP_MM = { figure: 80, table: 48 } as const

const CAUTION_LEVEL: Readonly<Record<Level, 'note' | 'caution' | 'stop'>> = {
  good: 'note',
  caution: 'caution',
  stop: 'stop',
}

const heading = (text: string, level: 1 | 2 = 1, keepMm?: number): TextBlock => ({
  kind: 'heading',
  ...{ text, level, keepMm },
})
const paragraph = (text: string, soft = false): TextBlock => ({ kind: 'paragraph', text, soft })
const column = (head: string, share: number, align: TableColumn['align'] = 'left'): TableColumn => ({
  head,
  share,
  align,
})

function verdictBlocks({ report, woods }: PrintedStrength): TextBlock[] {
  const { level, title, margin, count } = verdictOf(report.checks, woods)
  const text = [margin, report.checks[0].sentence, count].join(' ')
  return [{ kind: 'caution', level: CAUTION_LEVEL[level], title, text }]
}

function shapeBlock({ report, parts, shapes }: PrintedStrength): TextBlock {
  const [check] = report.checks
  const shape = shapes.find(({ loadCase }) => loadCase === check.loadCase)
  const drawn = shapeDrawing(parts, shape, check.where.at)
  const names = parts.filter(({ partId }) => check.where.partIds.includes(partId)).map(({ name }) => name)
  const bends = drawn.deflected
    ? ` Chain lines: how its parts bend, drawn ${drawn.deflected.times} times larger, in truth ${shape?.mostMm.toFixed(1)} mm at most.`
    : ''
  return {
    kind: 'figure',
    drawing: shapeOnPaper(drawn, new Set(check.where.partIds)),
    mostHeightMm: 92,
    caption: `${check.loadCase}, from the ${drawn.view}. Ring: where it is closest to failing${names.length > 0 ? `; thick: ${names.join(' and ')}` : ''}.${bends}`,
  }
}

/** Sources by number, in the order in which they are met. */
class Sources {
  readonly #numbers = new Map<string, number>()

  of(sources: readonly Sourced[]): string {
    return sources
      .map((one) => {
        const said = `${one.source} (${sayTag(one.tag)})`
        if (!this.#numbers.has(said)) this.#numbers.set(said, this.#numbers.size + 1)
        return this.#numbers.get(said)
      })
      .join(', ')
  }

  get list(): string[] {
    return [...this.#numbers].map(([said, n]) => `${n}: ${said}`)
  }
}

const said = (value: number, unit: StrengthCheck['unit']): string => {
  if (value >= MOST_MARGIN && unit === 'times') return '–'
  return `${say3(value)} ${unit === 'times' ? '×' : unit}`
}

const outcomeOf = ({ passes, weight, condition }: StrengthCheck): string => {
  if (passes) return 'passes'
  if (weight === 'safety') return 'FAILS'
  return condition === undefined ? 'fails, comfort' : `safe ${condition}`
}

function checkBlocks({ report, parts }: PrintedStrength, sources: Sources): TextBlock[] {
  const kinds = new Map(parts.map(({ partId, kind }) => [partId, kind]))
  const lines = alikeChecks(report.checks, (id) => kinds.get(id) ?? id)
  const rows = lines.map(({ worst, others }) => [
    `${worst.title}${others.length > 0 ? ` (worst of ${others.length + 1} alike)` : ''}`,
    worst.loadCase,
    said(worst.demand, worst.unit),
    worst.kind === 'wall' ? 'not known' : said(worst.capacity, worst.unit),
    worst.margin >= MOST_MARGIN || worst.kind === 'wall' ? '–' : say3(worst.margin),
    outcomeOf(worst),
    sources.of(worst.sources),
  ])
  const failing = lines.filter(({ worst }) => !worst.passes).map(({ worst }) => worst)
  return [
    heading('Checks', 1, KEEP_MM.table),
    paragraph('The governing one first. Margin: what it bears over what is asked; 1 just passes.', true),
    {
      kind: 'table',
      columns: [
        column('Check', 25),
        column('Load', 17),
        column('Asked', 10, 'right'),
        column('Bears', 10, 'right'),
        column('Margin', 8, 'right'),
        column('Outcome', 11),
        column('Source', 8),
      ],
      rows,
    },
    ...(failing.length === 0
      ? []
      : [
          heading('What fails', 2),
          {
            kind: 'list' as const,
            items: failing.map((check) => `${check.title} ${checkMarginWords(check)}. ${check.sentence}`),
          },
        ]),
  ]
}

function tippingBlocks({ report: { tipping } }: PrintedStrength, sources: Sources): TextBlock[] {
  if (tipping === undefined) return []
  const drawn = feetDrawing(tipping)
  const more = [tipping.onFootRest, tipping.onEdge].filter((one) => one !== undefined)
  return [
    heading('Tipping', 1, KEEP_MM.figure),
    ...(drawn === undefined
      ? []
      : [
          {
            kind: 'figure' as const,
            drawing: feetOnPaper(drawn),
            mostHeightMm: 62,
            caption:
              'From above, front at the bottom. Thin: the ground that the feet span; dashed: the top. The arrow: where the load stands and which way it goes over first, about the thick line.',
          },
        ]),
    {
      kind: 'table',
      columns: [column('Case', 25), column('Load', 28), column('It', 42), column('Source', 8)],
      rows: [...tipping.cases, ...more].map(({ case: one, worst, lean }) => [
        one.name,
        sayLoads(one),
        tippingWords(worst, lean),
        sources.of([one.source]),
      ]),
    },
    paragraph(
      `As judged it weighs about ${(tipping.piece.weightN / 9.81).toFixed(1)} kg. Empty, it falls over when it is tilted by ${((tipping.tiltRad * 180) / Math.PI).toFixed(0)}°. All this is on a level, hard floor.`,
    ),
  ]
}

function woodBlocks({ woods }: PrintedStrength): TextBlock[] {
  if (woods.length === 0) return []
  return [
    heading('Woods that would do', 1, KEEP_MM.table),
    paragraph(woodsWords(woods)),
    {
      kind: 'table',
      columns: [
        column('Wood', 25),
        column('Safety', 10),
        column('Margin', 8, 'right'),
        column('Closest', 45),
      ],
      rows: woods.map(({ name, passes, margin, title }) => [
        name,
        passes ? 'holds' : 'FAILS',
        say3(margin),
        title,
      ]),
    },
  ]
}

function wayBlocks({ comparison }: PrintedStrength): TextBlock[] {
  if (comparison === undefined) return []
  const able = comparison.ways.filter(({ outcome }) => outcome.ok)
  if (able.length < 2) return []
  return [
    heading('Ways to join it', 1, KEEP_MM.table),
    paragraph(comparison.sentence),
    {
      kind: 'table',
      columns: [
        column('Way', 20),
        column('Worst joint', 28),
        column('With its glue', 22),
        column('Once the glue has let go', 22),
        column('Sways', 9, 'right'),
      ],
      rows: comparison.ways.map(({ label, outcome }) =>
        outcome.ok
          ? [
              label,
              `${outcome.between.join(' to ')}, ${outcome.loadCase.toLowerCase()}`,
              marginWords(outcome.margin),
              marginWords(outcome.marginWithoutGlue),
              `${say3(outcome.swayMm)} mm`,
            ]
          : [label, outcome.sentence, '', '', ''],
      ),
    },
    heading('What carries in the worst joint', 2),
    {
      kind: 'list',
      items: able.map(
        ({ label, outcome }) =>
          `${label}: ${outcome.ok ? outcome.carriers.map(carrierWords).join('; ') : ''}.`,
      ),
    },
  ]
}

function movementBlocks({ report, parts }: PrintedStrength, sources: Sources): TextBlock[] {
  const { season, held, gaps, parts: moving } = report.movement
  const names = new Map(parts.map(({ partId, name }) => [partId, name]))
  const kinds = new Map(parts.map(({ partId, kind }) => [partId, kind]))
  const name = (id: string) => `«${names.get(id) ?? id}»`
  const kind = (id: string) => kinds.get(id) ?? id
  const items = [
    ...alikeHeld(held, kind).map(
      ({ worst: one, count }) =>
        `${name(one.partId)}, ${one.isGlued ? 'glued' : 'screwed'} to ${name(one.byId)} over ${Math.round(one.spanMm)} mm: wants to move ${one.growthMm.toFixed(1)} mm, ${one.limitMm.toFixed(1)} mm is borne${count > 1 ? `; ${count} alike` : ''}.`,
    ),
    ...gaps.map(
      (gap) =>
        `Between ${name(gap.partIds[0])} and ${name(gap.partIds[1])}: damp takes ${gap.growthMm.toFixed(1)} mm of ${gap.gapMm.toFixed(1)} mm.`,
    ),
  ]
  return [
    heading('Wood movement', 1, KEEP_MM.table),
    paragraph(
      `Across the grain, from ${season.dryPct.toFixed(1)} % moisture in the wood to ${season.dampPct.toFixed(1)} %. Along the grain it hardly moves. Source ${sources.of([MOVEMENT])}.`,
    ),
    {
      kind: 'table',
      columns: [
        column('Part', 50),
        column('Alike', 8, 'right'),
        column('Width', 12, 'right'),
        column('Grows by', 12, 'right'),
      ],
      rows: movingParts(moving, kind).map(({ partId, count, widthMm, growthMm }) => [
        names.get(partId) ?? partId,
        String(count),
        `${widthMm.toFixed(1)} mm`,
        `${growthMm.toFixed(1)} mm`,
      ]),
    },
    ...(items.length > 0 ? [heading('Held or pinched', 2), { kind: 'list' as const, items }] : []),
  ]
}

/** Rows of the range that are printed. */
const RANGE_ROWS = 10

const percent = (share: number): string =>
  share > 0 && share < 0.001 ? 'under 0.1 %' : `${(100 * share).toFixed(1)} %`

function rangeBlocks({ scatter }: PrintedStrength, sources: Sources): TextBlock[] {
  if (scatter === undefined || scatter.checks.length === 0) return []
  return [
    heading('How sure is that?', 1, KEEP_MM.table),
    paragraph(
      `Of ${scatter.draws} such pieces, drawn by lot as wood, joints and loads scatter (seed ${scatter.seed}), ${scatter.anyFails === 0 ? 'none failed' : `${percent(scatter.anyFails)} failed somewhere`} under the published loads. True strength over true load, without the factor of safety that the checks keep. Source ${sources.of([SCATTER])}.`,
    ),
    {
      kind: 'table',
      columns: [
        column('Check', 44),
        column('One in twenty has less than', 14, 'right'),
        column('Middle', 10, 'right'),
        column('One in twenty has more than', 14, 'right'),
        column('Fail', 11, 'right'),
      ],
      rows: scatter.checks
        .slice(0, RANGE_ROWS)
        .map(({ title, low, middle, high, fails }) => [
          title,
          low.toFixed(1),
          middle.toFixed(1),
          high.toFixed(1),
          percent(fails),
        ]),
    },
  ]
}

/** Everything that a block says, in the reader's units. */
function inUnits(block: TextBlock, say: (text: string) => string): TextBlock {
  switch (block.kind) {
    case 'heading':
    case 'paragraph':
    case 'caution':
      return { ...block, text: say(block.text) }
    case 'list':
      return { ...block, items: block.items.map(say) }
    case 'facts':
      return { ...block, items: block.items.map(([label, value]) => [label, say(value)] as const) }
    case 'table':
      return { ...block, rows: block.rows.map((row) => row.map(say)) }
    case 'figure':
      return block.caption === undefined ? block : { ...block, caption: say(block.caption) }
    case 'newSheet':
      return block
  }
}

/** The report, ready to be set. */
export function strengthReport(
  printed: PrintedStrength,
  facts: Pick<DocumentOrder, 'paper' | 'units' | 'titleBlock' | 'madeAt'>,
): PdfContent {
  const { report, judgedFor } = printed
  const sources = new Sources()
  const checks = checkBlocks(printed, sources)
  const tipping = tippingBlocks(printed, sources)
  const blocks: TextBlock[] = [
    heading(`Strength: ${facts.titleBlock.design}`),
    ...verdictBlocks(printed),
    { kind: 'facts', items: judgedFor },
    shapeBlock(printed),
    { kind: 'caution', level: 'caution', title: 'Advice, no certificate', text: report.caution },
    ...checks,
    ...woodBlocks(printed),
    ...tipping,
    ...wayBlocks(printed),
    ...movementBlocks(printed, sources),
    ...rangeBlocks(printed, sources),
    heading('Good to know'),
    { kind: 'list', items: report.notes },
  ]
  const { paper, units, titleBlock, madeAt } = facts
  const say = (text: string) => sayStrengthInUnits(text, units)
  // What a standard asks is quoted in its own units.
  const quoted: TextBlock[] = [heading('Sources'), { kind: 'list', items: sources.list }]
  return {
    paper,
    titleBlock,
    madeAt,
    title: `Strength report: ${titleBlock.build}`,
    sections: [
      {
        kind: 'text',
        title: 'Strength report',
        foot: report.caution,
        blocks: [...blocks.map((block) => inUnits(block, say)), ...quoted],
      },
    ],
  }
}
