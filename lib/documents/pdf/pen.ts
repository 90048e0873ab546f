/**
 * Writes on the sheets of a PDF in mm from the sheet's lower left corner, y up: texts in the embedded type, strokes
 * and shapes. Everything else in this folder goes through it. Tests: tests/documents/pdf/write-pdf.test.ts
 */
import PDFDocument from 'pdfkit'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import {
  type FilledShape,
  type Marks,
  MIDDLE,
  type SheetText,
  STROKE_ORDER,
  STROKES,
  type Stroke,
  TONES,
  type Tone,
} from '../sheet/marks'
import { type SheetFormat, sheetSize } from '../sheet/paper'
import { fontFile, runsOf, settable, type Weight } from './fonts'

export const PT_PER_MM = 72 / 25.4

export interface TextStyle {
  readonly sizeMm: number
  readonly bold?: boolean
  readonly tone?: Tone
}

const weightOf = ({ bold }: { bold?: boolean }): Weight => (bold ? 600 : 400)

export interface PenFacts {
  readonly title: string
  readonly author: string
  readonly madeAt: Date
}

export class Pen {
  private readonly doc: PDFKit.PDFDocument
  private readonly chunks: Uint8Array[] = []
  private readonly done: Promise<void>
  private heightMm = 0
  /** Sheets begun so far. */
  sheets = 0

  constructor({ title, author, madeAt }: PenFacts) {
    this.doc = new PDFDocument({
      autoFirstPage: false,
      bufferPages: true,
      margin: 0,
      // Else the library embeds a type of its own that nothing is set in.
      font: null as unknown as string,
      lang: 'en',
      displayTitle: true,
      info: { Title: title, Author: author, Creator: 'Fellowbench', CreationDate: madeAt },
    })
    this.done = new Promise((resolve, reject) => {
      this.doc.on('data', (chunk: Uint8Array) => this.chunks.push(chunk))
      this.doc.on('end', resolve)
      this.doc.on('error', reject)
    })
  }

  beginSheet(format: SheetFormat): void {
    const { widthMm, heightMm } = sheetSize(format)
    this.heightMm = heightMm
    this.sheets++
    this.doc.addPage({ size: [widthMm * PT_PER_MM, heightMm * PT_PER_MM], margin: 0 })
  }

  /** Back to a sheet, from 0, to write on it again. */
  turnTo(sheet: number): void {
    const { height } = this.doc.switchToPage(sheet)
    this.heightMm = height / PT_PER_MM
  }

  /** An entry of the document's outline that leads to this sheet. */
  bookmark(title: string): void {
    this.doc.outline.addItem(settable(title))
  }

  private x = (mm: number): number => mm * PT_PER_MM
  private y = (mm: number): number => (this.heightMm - mm) * PT_PER_MM

  private setType(script: string, style: TextStyle): void {
    const weight = weightOf(style)
    const name = `${script}-${weight}`
    // A file is embedded once, under its name.
    this.doc.registerFont(name, fontFile(script, weight))
    this.doc.font(name, style.sizeMm * PT_PER_MM)
  }

  /** Width of a text that is settable already. */
  widthOf(text: string, style: TextStyle): number {
    let width = 0
    for (const run of runsOf(text)) {
      this.setType(run.script, style)
      width += this.doc.widthOfString(run.text)
    }
    return width / PT_PER_MM
  }

  /** One line, its letters standing on `y`. */
  line(text: string, [x, y]: Vec2, style: TextStyle, anchor: SheetText['anchor'] = 'start'): void {
    const plain = settable(text)
    const width = anchor === 'start' ? 0 : this.widthOf(plain, style)
    let left = x - (anchor === 'middle' ? width / 2 : width)
    for (const run of runsOf(plain)) {
      this.setType(run.script, style)
      this.doc.fillColor(TONES[style.tone ?? 'ink'])
      this.doc.text(run.text, this.x(left), this.y(y), { lineBreak: false, baseline: 'alphabetic' })
      left += this.doc.widthOfString(run.text) / PT_PER_MM
    }
  }

  private path(points: readonly Vec2[]): void {
    const [first, ...rest] = points
    this.doc.moveTo(this.x(first[0]), this.y(first[1]))
    for (const [x, y] of rest) this.doc.lineTo(this.x(x), this.y(y))
  }

  strokes(list: readonly Stroke[]): void {
    for (const kind of STROKE_ORDER) {
      const own = list.filter((stroke) => stroke.kind === kind && stroke.points.length > 1)
      if (own.length === 0) continue
      const { widthMm, tone, dashMm } = STROKES[kind]
      this.doc.save()
      this.doc
        .lineWidth(widthMm * PT_PER_MM)
        .lineCap(dashMm === undefined ? 'round' : 'butt')
        .lineJoin('round')
      if (dashMm !== undefined)
        // Its type knows only one length; the format takes as many as there are.
        this.doc.dash(dashMm.map((mm) => mm * PT_PER_MM) as unknown as number, {})
      for (const { points } of own) this.path(points)
      this.doc.stroke(TONES[tone])
      this.doc.restore()
    }
  }

  shape({ points, tone }: FilledShape): void {
    this.path(points)
    this.doc.closePath().fill(TONES[tone])
  }

  private sheetText(text: SheetText): void {
    const { at, angleRad = 0, sizeMm } = text
    this.doc.save()
    if (angleRad !== 0)
      this.doc.rotate((-angleRad * 180) / Math.PI, { origin: [this.x(at[0]), this.y(at[1])] })
    if (text.clear) {
      const width = this.widthOf(settable(text.text), text)
      const left = at[0] - (text.anchor === 'middle' ? width / 2 : text.anchor === 'end' ? width : 0)
      const top = this.y(at[1] + 0.45 * sizeMm)
      this.doc.rect(this.x(left), top, width * PT_PER_MM, 0.9 * sizeMm * PT_PER_MM).fill('#ffffff')
    }
    this.line(text.text, [at[0], at[1] - MIDDLE * sizeMm], text, text.anchor)
    this.doc.restore()
  }

  marks({ strokes, shapes, texts }: Marks): void {
    this.strokes(strokes)
    for (const shape of shapes) this.shape(shape)
    for (const text of texts) this.sheetText(text)
  }

  async end(): Promise<Uint8Array> {
    this.doc.end()
    await this.done
    return Uint8Array.from(Buffer.concat(this.chunks))
  }
}
