/**
 * What is on a sheet before it becomes SVG or PDF: strokes, filled shapes and texts, in mm of the paper, origin at
 * the sheet's lower left corner, y up. Line widths and dashes: ISO 128-2, line group 0.35 (thick 0.35 mm, thin
 * 0.18 mm), dashes as multiples of the width. Tests: tests/documents/pdf/write-pdf.test.ts
 */
import type { LineKind, Sketch } from '#lib/core/design/drawing/drawing'
import type { Vec2 } from '#lib/core/geometry/polygon2'

/** Lines of a drawing, and those that only sheets have. */
export type StrokeKind = LineKind | 'frame' | 'hairline' | 'cut'
export type Tone = 'ink' | 'soft' | 'faint' | 'accent' | 'caution' | 'stop'

export interface Stroke {
  readonly kind: StrokeKind
  readonly points: readonly Vec2[]
}

export interface FilledShape {
  readonly points: readonly Vec2[]
  readonly tone: Tone
}

export interface SheetText {
  readonly text: string
  /** On the middle of the letters' height; start, middle or end of the line. */
  readonly at: Vec2
  readonly anchor: 'start' | 'middle' | 'end'
  /** Size of the type, whose capitals are 0.7 of it. */
  readonly sizeMm: number
  readonly angleRad?: number
  readonly bold?: boolean
  readonly tone?: Tone
  /** Paper is left blank behind it, so that a line that passes is broken off at its figures. */
  readonly clear?: boolean
}

export interface Marks {
  readonly strokes: readonly Stroke[]
  readonly shapes: readonly FilledShape[]
  readonly texts: readonly SheetText[]
}

const THICK_MM = 0.35
const THIN_MM = 0.18
const LONG = 24 * THIN_MM
const GAP = 3 * THIN_MM
const DOT = 0.5 * THIN_MM

export interface StrokeStyle {
  readonly widthMm: number
  readonly tone: Tone
  readonly dashMm?: readonly number[]
}

export const STROKES: Readonly<Record<StrokeKind, StrokeStyle>> = {
  surroundings: { widthMm: THIN_MM, tone: 'soft', dashMm: [LONG, GAP, DOT, GAP, DOT, GAP] },
  floor: { widthMm: THIN_MM, tone: 'soft' },
  hidden: { widthMm: THIN_MM, tone: 'ink', dashMm: [12 * THIN_MM, GAP] },
  axis: { widthMm: THIN_MM, tone: 'accent', dashMm: [LONG, GAP, DOT, GAP] },
  dimension: { widthMm: THIN_MM, tone: 'soft' },
  visible: { widthMm: THICK_MM, tone: 'ink' },
  clash: { widthMm: THIN_MM, tone: 'stop' },
  cut: { widthMm: THIN_MM, tone: 'ink' },
  frame: { widthMm: 0.7, tone: 'ink' },
  hairline: { widthMm: THIN_MM, tone: 'faint' },
}

/** Drawn in this order, so that what is seen lies on top. */
export const STROKE_ORDER = Object.keys(STROKES) as StrokeKind[]

/** Colours of paper; a page on a screen has its own. */
export const TONES: Readonly<Record<Tone, string>> = {
  ink: '#25241f',
  soft: '#5a5649',
  faint: '#b3ab98',
  accent: '#0d5a70',
  caution: '#7d5000',
  stop: '#a01f1c',
}

/** Height of the middle of capitals and figures over their line, as a share of the type's size. */
export const MIDDLE = 0.349

export const marksOf = (...parts: readonly Partial<Marks>[]): Marks => ({
  strokes: parts.flatMap((part) => part.strokes ?? []),
  shapes: parts.flatMap((part) => part.shapes ?? []),
  texts: parts.flatMap((part) => part.texts ?? []),
})

/** From a drawing's own mm to mm of the paper. */
export interface Placing {
  /** Paper over wood: 0.1 is 1:10. */
  readonly scale: number
  /** Where the lower left corner of the drawing's bounds lies on the paper. */
  readonly at: Vec2
}

/** A drawing on a sheet, at a true scale. */
export function drawingMarks(drawing: Sketch, { scale, at }: Placing): Marks {
  const put = ([x, y]: Vec2): Vec2 => [
    at[0] + (x - drawing.bounds.min[0]) * scale,
    at[1] + (y - drawing.bounds.min[1]) * scale,
  ]
  return {
    strokes: drawing.lines.map(({ kind, points }) => ({ kind, points: points.map(put) })),
    shapes: drawing.arrows.map(({ points }) => ({ points: points.map(put), tone: 'soft' })),
    texts: drawing.texts.map((text) => ({
      text: text.text,
      at: put(text.at),
      anchor: 'middle',
      sizeMm: text.heightMm * scale,
      angleRad: text.angleRad,
      tone: text.kind === 'label' ? 'soft' : 'ink',
      clear: true,
    })),
  }
}
