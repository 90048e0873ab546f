/**
 * What a printed document says, before it is set: sections of flowing text, and plates that each are one sheet.
 * Lengths in mm of the paper. `writePdf` (write-pdf.ts) sets it.
 */
import type { Sketch } from '#lib/core/design/drawing/drawing'
import type { PaperName } from '../sheet/paper'
import type { Plate, TitleBlock } from '../sheet/plate'

export interface TableColumn {
  readonly head: string
  /** Share of the width. */
  readonly share: number
  /** Figures stand at the right, so that their places line up. */
  readonly align?: 'left' | 'right'
}

export type TextBlock =
  /** `keepMm`: with so much of what follows. */
  | { readonly kind: 'heading'; readonly text: string; readonly level?: 1 | 2; readonly keepMm?: number }
  | { readonly kind: 'paragraph'; readonly text: string; readonly soft?: boolean }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Label and value, two pairs abreast. */
  | { readonly kind: 'facts'; readonly items: readonly (readonly [label: string, value: string])[] }
  /** Breaks across sheets between rows, its head repeated; a short one is kept whole. */
  | {
      readonly kind: 'table'
      readonly columns: readonly TableColumn[]
      readonly rows: readonly (readonly string[])[]
    }
  | {
      readonly kind: 'caution'
      readonly level: 'note' | 'caution' | 'stop'
      readonly title?: string
      readonly text: string
    }
  /** A drawing in the text. `scale` is paper over wood, 0.1 for 1:10; absent: as large as the room allows. */
  | {
      readonly kind: 'figure'
      readonly drawing: Sketch
      readonly scale?: number
      readonly mostHeightMm?: number
      readonly caption?: string
    }
  /** The next block begins on a sheet of its own. */
  | { readonly kind: 'newSheet' }

/** Flowing text over as many upright sheets as it takes. */
export interface TextSection {
  readonly kind: 'text'
  /** In the title block of its sheets. */
  readonly title: string
  readonly blocks: readonly TextBlock[]
  /** Stands small above the title block of every sheet: what must be read with any of them. */
  readonly foot?: string
}

export interface PlateSection {
  readonly kind: 'plate'
  readonly plate: Plate
}

export interface PdfContent {
  readonly title: string
  readonly paper: PaperName
  readonly titleBlock: TitleBlock
  /** Stands in the file; the same content and instant give the same bytes. */
  readonly madeAt: Date
  readonly sections: readonly (TextSection | PlateSection)[]
}
