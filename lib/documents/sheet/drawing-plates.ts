/**
 * Drawings of a model as sheets: the whole piece in one view or three (first-angle projection), and each distinct part
 * alone with its notes. In: the model and lines that are found once (`views`, `shapes`). Out: plates with title
 * blocks to come, or why one does not fit. Tests: tests/documents/sheet/drawing-plates.test.ts
 */

import { type DrawOptions, drawView, type ModelView } from '#lib/core/design/drawing/draw-model'
import { drawPart, type PartShape } from '#lib/core/design/drawing/draw-part'
import { boundsOf, type Drawing, movedBy, type Sketch, textBox } from '#lib/core/design/drawing/drawing'
import { partNotes, type Say } from '#lib/core/design/drawing/part-notes'
import type { Model, ViewName } from '#lib/core/design/model'
import type { SameParts } from '#lib/core/design/same-parts'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { SheetText } from './marks'
import { drawingArea, type PaperName, type SheetFormat } from './paper'
import type { Plate } from './plate'
import { type Fitted, fitToSheet, type Room, type ScaleDenominator, scaleText, type TooLarge } from './scales'

export interface PlateOptions {
  readonly paper: PaperName
  readonly lengthsIn: 'mm' | 'inches'
  readonly say: Say
  /** Absent: the largest standard scale that fits. */
  readonly scale?: ScaleDenominator
}

export type MadePlate = { readonly status: 'made'; readonly plate: Plate } | TooLarge

/** The middle of its area. */
function placed({ sketch, denominator, area }: Fitted): Plate['drawings'] {
  const { min, max } = sketch.bounds
  const at: Vec2 = [
    (area.x0 + area.x1 - (max[0] - min[0]) / denominator) / 2,
    (area.y0 + area.y1 - (max[1] - min[1]) / denominator) / 2,
  ]
  return [{ drawing: sketch, scale: 1 / denominator, at }]
}

const plateFrom = (
  fitted: Fitted,
  { lengthsIn }: PlateOptions,
  more: Pick<Plate, 'title'> & Partial<Plate>,
): Plate => ({
  ...fitted.format,
  scale: scaleText(fitted.denominator),
  lengthsIn,
  drawings: placed(fitted),
  ...more,
})

const NO_WORDS: Room = { headMm: 0, footMm: 0 }
const VIEW_TITLES: Readonly<Record<ViewName | 'all', string>> = {
  all: 'The whole piece',
  front: 'Front',
  side: 'Side, from the right',
  top: 'Top',
}

/** Views in first-angle projection: the view from the right on the left of the front, the top below it. */
function arranged({ front, side, top }: Readonly<Record<ViewName, Drawing>>, textMm: number): Sketch {
  const gap = 2 * textMm
  const parts = [
    movedBy(front, [0, 0]),
    movedBy(side, [Math.min(front.bounds.min[0], top.bounds.min[0]) - gap - side.bounds.max[0], 0]),
    movedBy(top, [0, Math.min(front.bounds.min[1], side.bounds.min[1]) - gap - top.bounds.max[1]]),
  ]
  const all = {
    lines: parts.flatMap((part) => part.lines),
    arrows: parts.flatMap((part) => part.arrows),
    texts: parts.flatMap((part) => part.texts),
  }
  const bounds = boundsOf([...all.lines.flatMap((line) => line.points), ...all.texts.flatMap(textBox)])
  return { title: VIEW_TITLES.all, bounds, ...all }
}

/** The whole piece in one of its views, or in all three. */
export function modelPlate(
  model: Model,
  views: readonly ModelView[],
  which: ViewName | 'all',
  options: PlateOptions,
): MadePlate {
  const drawn = (textMm: number, view: ViewName): Drawing => {
    const how: DrawOptions = { textMm, say: options.say, narrow: which === 'all' }
    return drawView(model, views.find((one) => one.view === view)!, how)
  }
  const draw = (textMm: number): Sketch =>
    which === 'all'
      ? arranged(
          { front: drawn(textMm, 'front'), side: drawn(textMm, 'side'), top: drawn(textMm, 'top') },
          textMm,
        )
      : drawn(textMm, which)
  const room: Room = which === 'all' ? { headMm: 6, footMm: 0 } : NO_WORDS
  const fitted = fitToSheet([draw], options.paper, () => room, options.scale)
  if (fitted.status === 'tooLarge') return fitted
  const projection = which === 'all' ? ({ projection: 'firstAngle' } as const) : {}
  return { status: 'made', plate: plateFrom(fitted, options, { title: VIEW_TITLES[which], ...projection }) }
}

const NOTE_MM = 3.2
const NOTE_LINE_MM = 4.6
const HEAD_MM = 15
/** Mean width of a letter, as a share of the type's size; a little wide, so that lines are never too long. */
const LETTER = 0.54

/** Lines of at most a width, by the mean width of letters. */
export function roughLines(text: string, widthMm: number, sizeMm: number): string[] {
  const most = Math.max(8, Math.floor(widthMm / (LETTER * sizeMm)))
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1]
    if (last !== undefined && last.length + 1 + word.length <= most)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

const columnsOf = ({ turned }: SheetFormat): number => (turned ? 2 : 1)
const COLUMN_GAP_MM = 6

function noteColumns(notes: readonly string[], format: SheetFormat): string[][] {
  const { x0, x1 } = drawingArea(format)
  const columns = columnsOf(format)
  const width = (x1 - x0 - (columns - 1) * COLUMN_GAP_MM) / columns
  const lines = notes.map((note) => roughLines(note, width, NOTE_MM))
  const each = Math.ceil(lines.flat().length / columns)
  const out: string[][] = [[]]
  for (const one of lines) {
    const last = out[out.length - 1]
    if (last.length > 0 && last.length + one.length > each && out.length < columns) out.push([...one])
    else last.push(...one)
  }
  return out
}

const notesMm = (columns: readonly (readonly string[])[]): number =>
  Math.max(...columns.map((lines) => lines.length)) * NOTE_LINE_MM + 4

function noteTexts(columns: readonly (readonly string[])[], format: SheetFormat): SheetText[] {
  const { x0, x1, y0 } = drawingArea(format)
  const width = (x1 - x0 + COLUMN_GAP_MM) / columnsOf(format)
  const top = y0 + notesMm(columns) - 4
  return columns.flatMap((lines, k) =>
    lines.map(
      (text, i): SheetText => ({
        text,
        at: [x0 + k * width, top - i * NOTE_LINE_MM],
        anchor: 'start',
        sizeMm: NOTE_MM,
      }),
    ),
  )
}

function headTexts(
  group: SameParts,
  groups: readonly SameParts[],
  options: PlateOptions,
  format: SheetFormat,
): SheetText[] {
  const { x0, x1, y1 } = drawingArea(format)
  const { lengthMm, widthMm, thicknessMm } = group.part.blank
  const size = [lengthMm, widthMm, thicknessMm].map(options.say).join(' × ')
  const mirror =
    group.mirrorOf === undefined ? '' : ` Mirror image of ${groups[group.mirrorOf].name.toLowerCase()}.`
  const wood = group.part.species === undefined ? 'any sound wood' : `wood: ${group.part.species}`
  const names = group.parts.map(({ name }) => name).join('; ')
  const small = { anchor: 'start', sizeMm: NOTE_MM, tone: 'soft' } as const
  const unit = options.lengthsIn === 'mm' ? ' mm' : ''
  const [first, ...rest] = roughLines(names, x1 - x0 - 8, NOTE_MM)
  return [
    {
      text: `${group.name}: make ${group.parts.length}`,
      at: [x0, y1 - 3],
      anchor: 'start',
      sizeMm: 5,
      bold: true,
    },
    { text: `Blank ${size}${unit}, ${wood}.${mirror}`, at: [x0, y1 - 8.2], ...small },
    { text: rest.length === 0 ? first : `${first} …`, at: [x0, y1 - 12.4], ...small },
  ]
}

/** One distinct part alone: its sides, its dimensions, and in words what it takes to make it. */
export function partPlate(
  shape: PartShape,
  group: SameParts,
  groups: readonly SameParts[],
  options: PlateOptions,
): MadePlate {
  const notes = [
    ...partNotes(shape.part, options.say),
    'Places along the grain are measured from the corner marked 0.',
  ]
  const columnsFor = (format: SheetFormat): string[][] => noteColumns(notes, format)
  const roomOf = (format: SheetFormat): Room => ({ headMm: HEAD_MM, footMm: notesMm(columnsFor(format)) })
  const draws = ([1, 2] as const).map(
    (columns) =>
      (textMm: number): Sketch =>
        drawPart(shape, { textMm, say: options.say, columns }),
  )
  const fitted = fitToSheet(draws, options.paper, roomOf, options.scale)
  if (fitted.status === 'tooLarge') return fitted
  const texts = [
    ...headTexts(group, groups, options, fitted.format),
    ...noteTexts(columnsFor(fitted.format), fitted.format),
  ]
  return {
    status: 'made',
    plate: plateFrom(fitted, options, {
      title: group.name,
      projection: 'firstAngle',
      marks: { texts },
    }),
  }
}
