/**
 * Scales of ISO 5455, and whether a drawing fits a sheet at one. Mm of the paper. Text keeps its size on paper, so a
 * drawing is laid out anew at each scale. Tests: tests/documents/sheet/drawing-plates.test.ts
 */
import type { Sketch } from '#lib/core/design/drawing/drawing'
import { type Box, drawingArea, type PaperName, type SheetFormat } from './paper'

/** Denominators: 1:1 to 1:100. */
export const SCALES = [1, 2, 5, 10, 20, 50, 100] as const
export type ScaleDenominator = (typeof SCALES)[number]

/** @example scaleText(10) //=> '1:10' */
export const scaleText = (denominator: ScaleDenominator): string => `1:${denominator}`

/** Height of figures and letters on paper; capitals are 0.7 of it, 2.5 mm after ISO 3098-1. */
export const FIGURES_MM = 3.5

/** A drawing for a text height in mm of the wood. */
export type Draw = (textMm: number) => Sketch

export interface Room {
  /** Kept for words, at the head and the foot of the drawing area. */
  readonly headMm: number
  readonly footMm: number
}

export interface Fitted {
  readonly status: 'fits'
  readonly format: SheetFormat
  readonly denominator: ScaleDenominator
  readonly sketch: Sketch
  /** Between head and foot. */
  readonly area: Box
}

export interface TooLarge {
  readonly status: 'tooLarge'
  /** What it takes at the scale that was asked for, and what the larger way of the sheet has. */
  readonly needsMm: readonly [number, number]
  readonly hasMm: readonly [number, number]
  readonly largest: ScaleDenominator
}

const sizeOf = ({ bounds: { min, max } }: Sketch): [number, number] => [max[0] - min[0], max[1] - min[1]]

function areaOf(format: SheetFormat, { headMm, footMm }: Room): Box {
  const area = drawingArea(format)
  return { ...area, y0: area.y0 + footMm, y1: area.y1 - headMm }
}

/** The way of the sheet that it fits, on its side first. */
function fitAt(
  draws: readonly Draw[],
  paper: PaperName,
  roomOf: (format: SheetFormat) => Room,
  denominator: ScaleDenominator,
): Fitted | undefined {
  for (const draw of draws) {
    const sketch = draw(FIGURES_MM * denominator)
    const [width, height] = sizeOf(sketch).map((mm) => mm / denominator)
    for (const turned of [true, false]) {
      const format: SheetFormat = { paper, turned }
      const area = areaOf(format, roomOf(format))
      if (width <= area.x1 - area.x0 && height <= area.y1 - area.y0)
        return { status: 'fits', format, denominator, sketch, area }
    }
  }
  return undefined
}

/** At the scale asked for, or the largest standard one at which it fits. `draws`: ways to lay it out, best first. */
export function fitToSheet(
  draws: readonly Draw[],
  paper: PaperName,
  roomOf: (format: SheetFormat) => Room,
  wanted?: ScaleDenominator,
): Fitted | TooLarge {
  const tried = wanted === undefined ? SCALES : [wanted]
  for (const denominator of tried) {
    const fitted = fitAt(draws, paper, roomOf, denominator)
    if (fitted !== undefined) return fitted
  }
  const denominator = tried[tried.length - 1]
  const [width, height] = sizeOf(draws[0](FIGURES_MM * denominator)).map((mm) => mm / denominator)
  const format: SheetFormat = { paper, turned: width > height }
  const area = areaOf(format, roomOf(format))
  const largest = SCALES.find((one) => fitAt(draws, paper, roomOf, one) !== undefined) ?? 100
  return {
    status: 'tooLarge',
    needsMm: [width, height],
    hasMm: [area.x1 - area.x0, area.y1 - area.y0],
    largest,
  }
}
