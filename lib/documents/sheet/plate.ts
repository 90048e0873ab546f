/**
 * A plate: one sheet of a drawing, with its frame and title block (data fields after ISO 7200). In: drawings with
 * their scale and place. Out: marks in mm of the paper. Tests: tests/documents/sheet/drawing-plates.test.ts
 */
import type { Sketch } from '#lib/core/design/drawing/drawing'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { drawingMarks, type Marks, marksOf, type Placing, type SheetText, type Stroke } from './marks'
import { type Box, frameOf, type SheetFormat, TITLE_BLOCK_MM } from './paper'

/** The same on every sheet of a document. */
export interface TitleBlock {
  readonly design: string
  readonly build: string
  readonly shop: string
  /** The day, as people read it. */
  readonly date: string
}

export interface PlacedDrawing extends Placing {
  readonly drawing: Sketch
}

/** How the views of a plate stand to each other: its symbol is drawn (ISO 5456-2). */
export type Projection = 'firstAngle' | 'thirdAngle'

export interface Plate extends SheetFormat {
  readonly title: string
  /** «1:10»; absent: not to scale. */
  readonly scale?: string
  /** «mm» or «inches». */
  readonly lengthsIn?: string
  readonly projection?: Projection
  readonly drawings: readonly PlacedDrawing[]
  /** What is on the sheet besides. */
  readonly marks?: Partial<Marks>
}

export interface SheetNumber {
  readonly sheet: number
  readonly of: number
}

const LABEL_MM = 2
const VALUE_MM = 3.2
/** Mean width of a letter, as a share of the type's size. */
const LETTER = 0.56

/** Cut off with an ellipsis where it is too long. @example shortened('Seats', 100, 3.2) //=> 'Seats' */
export function shortened(text: string, widthMm: number, sizeMm: number): string {
  const most = Math.max(1, Math.floor(widthMm / (LETTER * sizeMm)))
  const letters = [...text]
  return letters.length <= most
    ? text
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`
}

interface Cell {
  readonly label: string
  readonly value: string
  /** Share of the row. */
  readonly share: number
}

function rowMarks(cells: readonly Cell[], { x0, x1, y0, y1 }: Box): Marks {
  const whole = cells.reduce((sum, cell) => sum + cell.share, 0)
  const strokes: Stroke[] = []
  const texts: SheetText[] = []
  let left = x0
  for (const { label, value, share } of cells) {
    const width = ((x1 - x0) * share) / whole
    if (left > x0)
      strokes.push({
        kind: 'hairline',
        points: [
          [left, y0],
          [left, y1],
        ],
      })
    texts.push(
      { text: label, at: [left + 1.5, y1 - 2], anchor: 'start', sizeMm: LABEL_MM, tone: 'soft' },
      {
        text: shortened(value, width - 2.5, VALUE_MM),
        at: [left + 1.5, y0 + 2.6],
        anchor: 'start',
        sizeMm: VALUE_MM,
      },
    )
    left += width
  }
  return { strokes, shapes: [], texts }
}

export interface SheetFacts {
  readonly title: string
  readonly scale?: string
  readonly lengthsIn?: string
}

/** The strip along the foot of a sheet: what it is, of which build, when, how large, which of how many. */
export function titleBlockMarks(
  format: SheetFormat,
  block: TitleBlock,
  facts: SheetFacts,
  { sheet, of }: SheetNumber,
): Marks {
  const { x0, x1, y0 } = frameOf(format)
  const [middle, top] = [y0 + TITLE_BLOCK_MM / 2, y0 + TITLE_BLOCK_MM]
  const line = (y: number, kind: Stroke['kind']): Stroke => ({
    kind,
    points: [
      [x0, y],
      [x1, y],
    ],
  })
  const upper: Cell[] = [
    { label: 'Design', value: block.design, share: 5 },
    { label: 'Build', value: block.build, share: 5 },
    { label: 'Shop', value: block.shop, share: 4 },
  ]
  const lower: Cell[] = [
    { label: 'This sheet', value: facts.title, share: 6.4 },
    ...(facts.scale === undefined ? [] : [{ label: 'Scale', value: facts.scale, share: 1.6 }]),
    ...(facts.lengthsIn === undefined ? [] : [{ label: 'Lengths in', value: facts.lengthsIn, share: 1.8 }]),
    { label: 'Date', value: block.date, share: 2.4 },
    { label: 'Sheet', value: `${sheet} of ${of}`, share: 1.8 },
  ]
  return marksOf(
    { strokes: [line(top, 'visible'), line(middle, 'hairline')] },
    rowMarks(upper, { x0, x1, y0: middle, y1: top }),
    rowMarks(lower, { x0, x1, y0, y1: middle }),
  )
}

function frameMarks(format: SheetFormat): Partial<Marks> {
  const { x0, y0, x1, y1 } = frameOf(format)
  const points: Vec2[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
    [x0, y0],
  ]
  return { strokes: [{ kind: 'frame', points }] }
}

const circle = ([x, y]: Vec2, radius: number): Vec2[] =>
  Array.from({ length: 49 }, (_, i): Vec2 => {
    const turn = (i * Math.PI) / 24
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]
  })

/** A cone's frustum and its end: which view stands where. In the upper right corner of the frame. */
function projectionMarks(format: SheetFormat, projection: Projection): Partial<Marks> {
  const { x1, y1 } = frameOf(format)
  const y = y1 - 6
  // From the left: first angle has the frustum first, third angle its end.
  const [coneX, endX] = projection === 'firstAngle' ? [x1 - 20, x1 - 7] : [x1 - 10, x1 - 17]
  const cone: Vec2[] = [
    [coneX, y - 1.6],
    [coneX + 6, y - 3.2],
    [coneX + 6, y + 3.2],
    [coneX, y + 1.6],
    [coneX, y - 1.6],
  ]
  return {
    strokes: [
      { kind: 'visible', points: cone },
      { kind: 'visible', points: circle([endX, y], 1.6) },
      { kind: 'visible', points: circle([endX, y], 3.2) },
    ],
    texts: [
      {
        text: projection === 'firstAngle' ? 'First-angle projection' : 'Third-angle projection',
        at: [x1 - 23, y],
        anchor: 'end',
        sizeMm: 2.4,
        tone: 'soft',
      },
    ],
  }
}

/** All marks of a plate. */
export const plateMarks = (plate: Plate, block: TitleBlock, number: SheetNumber): Marks =>
  marksOf(
    ...plate.drawings.map(({ drawing, ...placing }) => drawingMarks(drawing, placing)),
    plate.marks ?? {},
    plate.projection === undefined ? {} : projectionMarks(plate, plate.projection),
    frameMarks(plate),
    titleBlockMarks(plate, block, plate, number),
  )
