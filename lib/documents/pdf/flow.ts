/**
 * Sets flowing text on upright sheets: breaks lines, breaks tables between rows and repeats their heads, keeps a
 * heading with what follows. mm, downwards from the head of the frame. Tests: tests/documents/pdf/write-pdf.test.ts
 */
import type { Sketch } from '#lib/core/design/drawing/drawing'
import { drawingMarks, type Stroke, type Tone } from '../sheet/marks'
import { frameOf, type PaperName, TITLE_BLOCK_MM } from '../sheet/paper'
import type { TableColumn, TextBlock } from './content'
import { settable } from './fonts'
import type { Pen, TextStyle } from './pen'

const TEXT: TextStyle = { sizeMm: 3.7 }
const SMALL: TextStyle = { sizeMm: 3.2 }
const FOOT: TextStyle = { sizeMm: 2.6, tone: 'soft' }
const HEAD: TextStyle = { sizeMm: 2.8, tone: 'soft' }
const HEADING: Readonly<Record<1 | 2, TextStyle>> = {
  1: { sizeMm: 6.2, bold: true },
  2: { sizeMm: 4.4, bold: true },
}
/** Line spacing as a share of the size. */
const LEADING = 1.4
const BETWEEN_MM = 3
/** A heading is not left alone at the foot of a sheet. */
const KEEP_MM = 22
/** A table that is shorter is not broken. */
const SHORT_TABLE_MM = 60

const lineMm = ({ sizeMm }: TextStyle): number => sizeMm * LEADING

/** Lines of at most `widthMm`; a word longer than that is broken. */
export function brokenLines(pen: Pen, text: string, widthMm: number, style: TextStyle): string[] {
  const fits = (line: string): boolean => pen.widthOf(line, style) <= widthMm
  const lines: string[] = []
  let line = ''
  const push = (): void => {
    if (line !== '') lines.push(line)
    line = ''
  }
  for (const word of settable(text)
    .split(' ')
    .filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`
    if (fits(longer)) {
      line = longer
      continue
    }
    push()
    for (const sign of word) {
      if (line !== '' && !fits(line + sign)) push()
      line += sign
    }
  }
  push()
  return lines
}

export class Flow {
  private y = 0
  private readonly left: number
  private readonly right: number
  private readonly top: number
  private readonly foot: number
  private readonly footLines: readonly string[]

  /** @param foot stands at the foot of every sheet */
  constructor(
    private readonly pen: Pen,
    private readonly paper: PaperName,
    foot = '',
  ) {
    const frame = frameOf({ paper })
    this.left = frame.x0
    this.right = frame.x1
    this.top = frame.y1
    this.pen.beginSheet({ paper })
    this.footLines = brokenLines(pen, foot, this.width, FOOT)
    const footMm = this.footLines.length === 0 ? 0 : this.footLines.length * lineMm(FOOT) + 2
    this.foot = frame.y0 + TITLE_BLOCK_MM + 4 + footMm
    this.setFoot()
    this.y = this.top
  }

  private setFoot(): void {
    if (this.footLines.length === 0) return
    const top = this.foot - 2
    this.rule(top)
    this.footLines.forEach((line, i) => {
      this.pen.line(line, [this.left, top - 0.8 - FOOT.sizeMm - i * lineMm(FOOT)], FOOT)
    })
  }

  private get width(): number {
    return this.right - this.left
  }

  newSheet(): void {
    this.pen.beginSheet({ paper: this.paper })
    this.setFoot()
    this.y = this.top
  }

  private get isFresh(): boolean {
    return this.y === this.top
  }

  /** Begins a sheet if less than this is left of the present one. */
  private need(heightMm: number): boolean {
    if (this.isFresh || this.y - heightMm >= this.foot) return false
    this.newSheet()
    return true
  }

  private gap(mm: number): void {
    if (!this.isFresh) this.y -= mm
  }

  private rule(y: number, kind: Stroke['kind'] = 'hairline'): void {
    const points = [
      [this.left, y],
      [this.right, y],
    ] as const
    this.pen.strokes([{ kind, points }])
  }

  private setLines(lines: readonly string[], style: TextStyle, indentMm = 0): void {
    for (const line of lines) {
      this.need(lineMm(style))
      this.pen.line(line, [this.left + indentMm, this.y - style.sizeMm], style)
      this.y -= lineMm(style)
    }
  }

  private paragraph(text: string, style: TextStyle, indentMm = 0): void {
    this.setLines(brokenLines(this.pen, text, this.width - indentMm, style), style, indentMm)
  }

  private heading(text: string, level: 1 | 2, keepMm: number): void {
    const style = HEADING[level]
    this.gap(level === 1 ? 6 : 4)
    this.need(lineMm(style) + keepMm)
    this.paragraph(text, style)
    if (level === 1) this.rule(this.y - 0.5)
    this.y -= 2
  }

  private list(items: readonly string[]): void {
    for (const item of items) {
      const lines = brokenLines(this.pen, item, this.width - 5, TEXT)
      this.need(Math.min(lines.length, 3) * lineMm(TEXT))
      this.pen.line('•', [this.left + 1, this.y - TEXT.sizeMm], { ...TEXT, tone: 'soft' })
      this.setLines(lines, TEXT, 5)
      this.y -= 0.8
    }
  }

  private facts(items: readonly (readonly [string, string])[]): void {
    const half = this.width / 2
    for (let i = 0; i < items.length; i += 2) {
      const pairs = items.slice(i, i + 2).map(([label, value]) => ({
        label: brokenLines(this.pen, label, half * 0.55 - 2, SMALL),
        value: brokenLines(this.pen, value, half * 0.45 - 4, { ...SMALL, bold: true }),
      }))
      const lines = Math.max(...pairs.flatMap(({ label, value }) => [label.length, value.length]))
      this.need(lines * lineMm(SMALL) + 1.5)
      this.rule(this.y)
      pairs.forEach(({ label, value }, k) => {
        this.cell(label, this.left + k * half, this.y, { ...SMALL, tone: 'soft' })
        this.cell(value, this.left + k * half + half * 0.55, this.y, { ...SMALL, bold: true })
      })
      this.y -= lines * lineMm(SMALL) + 1.5
    }
  }

  private cell(
    lines: readonly string[],
    x: number,
    top: number,
    style: TextStyle,
    anchor: 'start' | 'end' = 'start',
  ): void {
    lines.forEach((line, i) => {
      this.pen.line(line, [x, top - 0.9 - style.sizeMm - i * lineMm(style)], style, anchor)
    })
  }

  private columnsOf(columns: readonly TableColumn[]): readonly Placed[] {
    const whole = columns.reduce((sum, { share }) => sum + share, 0)
    let from = this.left
    return columns.map(({ share, align = 'left' }) => {
      const widthMm = (this.width * share) / whole
      // Figures at the right keep clear of the words of the next column.
      const gapMm = align === 'left' ? 2 : 4
      const placed = {
        widthMm: widthMm - gapMm,
        x: align === 'left' ? from : from + widthMm - gapMm,
        anchor: align === 'left' ? ('start' as const) : ('end' as const),
      }
      from += widthMm
      return placed
    })
  }

  private tableRow(
    texts: readonly (readonly string[])[],
    columns: readonly Placed[],
    style: TextStyle,
  ): void {
    columns.forEach(({ x, anchor }, i) => {
      this.cell(texts[i] ?? [], x, this.y, style, anchor)
    })
    this.y -= heightOf(texts, style)
  }

  private table(heads: readonly TableColumn[], rows: readonly (readonly string[])[]): void {
    const columns = this.columnsOf(heads)
    const wrap = (texts: readonly string[], style: TextStyle): string[][] =>
      columns.map(({ widthMm }, i) => brokenLines(this.pen, texts[i] ?? '', widthMm, style))
    const head = wrap(
      heads.map((column) => column.head),
      HEAD,
    )
    const drawHead = (): void => {
      this.tableRow(head, columns, HEAD)
      this.rule(this.y, 'visible')
    }
    const most = Math.floor((this.top - this.foot - heightOf(head, HEAD)) / lineMm(SMALL)) - 1
    const split = rows.flatMap((row) => inParts(wrap(row, SMALL), most))
    const rowsMm = split.map((row) => heightOf(row, SMALL))
    const allMm = rowsMm.reduce((sum, mm) => sum + mm, 0)
    this.need(heightOf(head, HEAD) + (allMm <= SHORT_TABLE_MM ? allMm : rowsMm[0]))
    drawHead()
    for (const row of split) {
      if (this.need(heightOf(row, SMALL))) drawHead()
      this.tableRow(row, columns, SMALL)
      this.rule(this.y)
    }
  }

  private caution({ level, title, text }: Extract<TextBlock, { kind: 'caution' }>): void {
    const word = title ?? CAUTION_WORDS[level]
    const lines = brokenLines(this.pen, text, this.width - 8, TEXT)
    const bold: TextStyle = { ...TEXT, bold: true, tone: CAUTION_TONES[level] }
    const height = lineMm(bold) + lines.length * lineMm(TEXT) + 2
    this.need(Math.min(height, this.top - this.foot))
    const top = this.y
    this.y -= 1
    this.paragraph(word, bold, 5)
    this.setLines(lines, TEXT, 5)
    this.y -= 1
    // A bar beside it, on the sheet on which it ends.
    const [from, to] = [top > this.y ? top : this.top, this.y]
    const bar = [
      [this.left, from],
      [this.left + 1.2, from],
      [this.left + 1.2, to],
      [this.left, to],
    ] as const
    this.pen.shape({ points: bar, tone: CAUTION_TONES[level] })
  }

  private figure({ drawing, scale, mostHeightMm, caption }: Extract<TextBlock, { kind: 'figure' }>): void {
    const [widthMm, heightMm] = sizeOf(drawing)
    const room = Math.min(mostHeightMm ?? 120, this.top - this.foot - 8)
    const fits = Math.min(this.width / widthMm, room / heightMm)
    const by = scale ?? fits
    this.need(heightMm * by + (caption === undefined ? 2 : 8))
    const at = [this.left + (this.width - widthMm * by) / 2, this.y - heightMm * by] as const
    this.pen.marks(drawingMarks(drawing, { scale: by, at }))
    this.y -= heightMm * by + 1.5
    if (caption !== undefined) this.paragraph(caption, { ...SMALL, tone: 'soft' })
  }

  block(block: TextBlock): void {
    if (block.kind === 'newSheet') {
      if (!this.isFresh) this.newSheet()
      return
    }
    if (block.kind === 'heading') {
      this.heading(block.text, block.level ?? 1, block.keepMm ?? KEEP_MM)
      return
    }
    if (block.kind === 'paragraph') this.paragraph(block.text, block.soft ? { ...TEXT, tone: 'soft' } : TEXT)
    else if (block.kind === 'list') this.list(block.items)
    else if (block.kind === 'facts') this.facts(block.items)
    else if (block.kind === 'table') this.table(block.columns, block.rows)
    else if (block.kind === 'caution') this.caution(block)
    else this.figure(block)
    this.gap(BETWEEN_MM)
  }
}

interface Placed {
  readonly widthMm: number
  readonly x: number
  readonly anchor: 'start' | 'end'
}

const CAUTION_WORDS = { note: 'Note', caution: 'Caution', stop: 'Stop' } as const
const CAUTION_TONES = { note: 'accent', caution: 'caution', stop: 'stop' } as const satisfies Record<
  string,
  Tone
>

const sizeOf = ({ bounds: { min, max } }: Sketch): [number, number] => [max[0] - min[0], max[1] - min[1]]

const heightOf = (cells: readonly (readonly string[])[], style: TextStyle): number =>
  Math.max(1, ...cells.map((lines) => lines.length)) * lineMm(style) + 1.6

/** A row of more lines than a sheet holds, as several. */
function inParts(row: readonly (readonly string[])[], most: number): (readonly string[])[][] {
  const lines = Math.max(...row.map((cell) => cell.length))
  if (lines <= most) return [[...row]]
  return Array.from({ length: Math.ceil(lines / most) }, (_, k) =>
    row.map((cell) => cell.slice(k * most, (k + 1) * most)),
  )
}
