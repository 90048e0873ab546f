/**
 * Sheets of paper that drawings and reports are laid out on. mm; the origin is the sheet's lower left corner, y up.
 * A4 after ISO 216, Letter after ANSI/ASME Y14.1 (8½ × 11 in). Frame after ISO 5457: 20 mm on the left to file by,
 * 10 mm elsewhere, which every office printer can reach. Tests: tests/documents/sheet/drawing-plates.test.ts
 */
export type PaperName = 'a4' | 'letter'

export const PAPERS: Readonly<Record<PaperName, { label: string; widthMm: number; heightMm: number }>> = {
  a4: { label: 'A4', widthMm: 210, heightMm: 297 },
  letter: { label: 'US Letter', widthMm: 215.9, heightMm: 279.4 },
}

/** A sheet of a paper, upright or turned on its side. */
export interface SheetFormat {
  readonly paper: PaperName
  readonly turned?: boolean
}

export interface Box {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

const FILING_MM = 20
const MARGIN_MM = 10
/** Height of the title block along the foot of the frame. */
export const TITLE_BLOCK_MM = 17
/** Kept clear inside the frame. */
const PADDING_MM = 3

/** @example sheetSize({ paper: 'a4', turned: true }) //=> { widthMm: 297, heightMm: 210 } */
export function sheetSize({ paper, turned }: SheetFormat): { widthMm: number; heightMm: number } {
  const { widthMm, heightMm } = PAPERS[paper]
  return turned ? { widthMm: heightMm, heightMm: widthMm } : { widthMm, heightMm }
}

/** The frame of a sheet. @example frameOf({ paper: 'a4' }) //=> { x0: 20, y0: 10, x1: 200, y1: 287 } */
export function frameOf(format: SheetFormat): Box {
  const { widthMm, heightMm } = sheetSize(format)
  return { x0: FILING_MM, y0: MARGIN_MM, x1: widthMm - MARGIN_MM, y1: heightMm - MARGIN_MM }
}

/** What is left for drawings: inside the frame, above the title block. */
export function drawingArea(format: SheetFormat): Box {
  const { x0, y0, x1, y1 } = frameOf(format)
  return {
    x0: x0 + PADDING_MM,
    y0: y0 + TITLE_BLOCK_MM + PADDING_MM,
    x1: x1 - PADDING_MM,
    y1: y1 - PADDING_MM,
  }
}
