/**
 * Full-size templates on sheets, at exactly 1:1: small ones share a sheet, large ones are tiled with marks to join them
 * by and a map of the tiles. Every sheet has bars to measure before anything is cut. In: shapes of parts. Out: plates.
 * Method: shelves, first fit in order. Tests: tests/documents/templates.test.ts
 */
import type { PartShape } from '#lib/core/design/drawing/draw-part'
import type { Bounds2 } from '#lib/core/design/drawing/drawing'
import type { Say } from '#lib/core/design/drawing/part-notes'
import { linesWithin, type Template, templatesOf } from '#lib/core/design/drawing/part-template'
import type { SameParts } from '#lib/core/design/same-parts'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { MM_PER_INCH } from '#lib/core/units/length'
import { type Marks, marksOf, type SheetText, type Stroke } from './sheet/marks'
import { type Box, drawingArea, type PaperName, type SheetFormat } from './sheet/paper'
import type { Plate } from './sheet/plate'

export interface TemplateOptions {
  readonly paper: PaperName
  readonly lengthsIn: 'mm' | 'inches'
  readonly say: Say
}

/** Length of the bars by which a print is judged. */
export const CHECK_BAR_MM = 100
export const CHECK_BAR_IN = 4
export const CHECK_SENTENCE =
  'Print at «actual size» or 100 %, never «fit to page». Measure the bar first: if it is not 100 mm, throw this print away.'

const BARS_MM = 21
const NAME_MM = 9
const BETWEEN_MM = 6
/** Neighbouring tiles show this much of each other. */
const OVERLAP_MM = 12
const SMALL: Pick<SheetText, 'anchor' | 'sizeMm'> = { anchor: 'start', sizeMm: 3 }

const line = (kind: Stroke['kind'], ...points: readonly Vec2[]): Stroke => ({ kind, points })

/** A bar with a tick at each step, its ends longer. */
function bar([x, y]: Vec2, stepMm: number, steps: number, text: string): Partial<Marks> {
  const ticks = Array.from({ length: steps + 1 }, (_, i) => {
    const up = i === 0 || i === steps ? 2.4 : 1.4
    return line('cut', [x + i * stepMm, y], [x + i * stepMm, y + up])
  })
  return {
    strokes: [line('cut', [x, y], [x + steps * stepMm, y]), ...ticks],
    texts: [{ text, at: [x + steps * stepMm + 3, y + 1], ...SMALL }],
  }
}

function barMarks({ x0, y0 }: Box): Marks {
  return marksOf(
    bar([x0, y0 + 9], 10, CHECK_BAR_MM / 10, `${CHECK_BAR_MM} mm`),
    bar([x0, y0 + 3], MM_PER_INCH / 2, CHECK_BAR_IN * 2, `${CHECK_BAR_IN} in`),
    { texts: [{ text: CHECK_SENTENCE, at: [x0, y0 + 16], ...SMALL, bold: true }] },
  )
}

interface Item {
  readonly name: string
  readonly template: Template
}

const sizeOf = ({ bounds: { min, max } }: Template): [number, number] => [max[0] - min[0], max[1] - min[1]]

function nameOf(group: SameParts, template: Template, { say, lengthsIn }: TemplateOptions): string {
  const head = `${group.name}, make ${group.parts.length}: ${template.side}`
  if (template.stretch === undefined) return head
  const unit = lengthsIn === 'mm' ? ' mm' : ''
  const [from, to] = template.stretch
  if (template.atEndA && template.atEndB) return `${head}, whole, end A on the left`
  if (template.atEndA) return `${head} at end A`
  if (template.atEndB) return `${head} at end B, begins ${say(from)}${unit} from end A`
  return `${head}, ${say(from)} to ${say(to)}${unit} from end A`
}

/** Lines of a template on the paper, its lower left corner at a place, where it is shown whole or in part. */
function linesAt({ lines, bounds }: Template, at: Vec2, shown: Bounds2 = bounds): Stroke[] {
  const put = ([x, y]: Vec2): Vec2 => [at[0] + x - shown.min[0], at[1] + y - shown.min[1]]
  return linesWithin(lines, shown).map(({ kind, points }) =>
    line(kind === 'visible' ? 'cut' : kind, ...points.map(put)),
  )
}

/** Where a stretch was broken off: a chain line to line up with a mark on the wood. */
function breaks({ bounds: { min, max }, atEndA, atEndB }: Template, at: Vec2): Stroke[] {
  const height = max[1] - min[1]
  const upright = (x: number): Stroke => line('axis', [x, at[1] - 2], [x, at[1] + height + 2])
  return [...(atEndA ? [] : [upright(at[0])]), ...(atEndB ? [] : [upright(at[0] + max[0] - min[0])])]
}

const whole = (item: Item, at: Vec2): Partial<Marks> => {
  const [, height] = sizeOf(item.template)
  return {
    strokes: [...linesAt(item.template, at), ...breaks(item.template, at)],
    texts: [{ text: item.name, at: [at[0], at[1] + height + 4.5], ...SMALL }],
  }
}

/** Sheets of small templates: shelves from the head down. */
function packed(items: readonly Item[], area: Box): Partial<Marks>[][] {
  const sheets: Partial<Marks>[][] = []
  let [x, top, shelf] = [Infinity, -Infinity, 0]
  for (const item of items) {
    const [width, height] = sizeOf(item.template)
    // A name may be longer than its template is wide.
    const takes = Math.max(width, item.name.length * 0.54 * SMALL.sizeMm)
    if (x + takes > area.x1) {
      top -= shelf
      shelf = 0
      x = area.x0
    }
    if (top - height - NAME_MM < area.y0) {
      sheets.push([])
      top = area.y1
      x = area.x0
      shelf = 0
    }
    sheets[sheets.length - 1].push(whole(item, [x, top - NAME_MM - height]))
    shelf = Math.max(shelf, height + NAME_MM + BETWEEN_MM)
    x += takes + 2 * BETWEEN_MM
  }
  return sheets
}

/** Starts of the tiles that cover a length. */
export function tileStarts(lengthMm: number, roomMm: number): number[] {
  const count = lengthMm <= roomMm ? 1 : Math.ceil((lengthMm - OVERLAP_MM) / (roomMm - OVERLAP_MM))
  return Array.from({ length: count }, (_, i) => i * (roomMm - OVERLAP_MM))
}

/** Crosses in the strips that two tiles share: laid over each other they join them. */
function joinMarks(shown: Bounds2, all: Bounds2, at: Vec2): Stroke[] {
  const middle = OVERLAP_MM / 2
  const xs = [shown.min[0] + middle, shown.max[0] - middle]
  const ys = [shown.min[1] + middle, shown.max[1] - middle]
  const isInner = [
    shown.min[0] > all.min[0],
    shown.max[0] < all.max[0],
    shown.min[1] > all.min[1],
    shown.max[1] < all.max[1],
  ]
  const places: Vec2[] = [
    ...[0, 1].flatMap((i) => (isInner[i] ? ys.map((y): Vec2 => [xs[i], y]) : [])),
    ...[0, 1].flatMap((i) => (isInner[2 + i] ? xs.map((x): Vec2 => [x, ys[i]]) : [])),
  ]
  return places.flatMap(([x, y]) => {
    const [px, py] = [at[0] + x - shown.min[0], at[1] + y - shown.min[1]]
    return [line('cut', [px - 4, py], [px + 4, py]), line('cut', [px, py - 4], [px, py + 4])]
  })
}

const tileName = (column: number, row: number): string => `${String.fromCharCode(65 + row)}${column + 1}`

/** A small plan of the tiles, this one crossed out. */
function tileMap(columns: number, rows: number, [column, row]: Vec2, { x1, y1 }: Box): Partial<Marks> {
  const cell = 5
  const [left, top] = [x1 - columns * cell, y1]
  const at = (c: number, r: number): Vec2 => [left + c * cell, top - r * cell]
  const grid = [
    ...Array.from({ length: columns + 1 }, (_, c) => line('cut', at(c, 0), at(c, rows))),
    ...Array.from({ length: rows + 1 }, (_, r) => line('cut', at(0, r), at(columns, r))),
    line('cut', at(column, row), at(column + 1, row + 1)),
    line('cut', at(column + 1, row), at(column, row + 1)),
  ]
  return { strokes: grid }
}

/** A template over several sheets. */
function tiled({ name, template }: Item, area: Box): Partial<Marks>[][] {
  const { bounds } = template
  const [width, height] = sizeOf(template)
  const room = [area.x1 - area.x0, area.y1 - area.y0 - NAME_MM - 6]
  const [xs, ys] = [tileStarts(width, room[0]), tileStarts(height, room[1])]
  return ys.flatMap((y, row) =>
    xs.map((x, column) => {
      const [low, high] = [bounds.max[1] - y - room[1], bounds.max[1] - y]
      const shown: Bounds2 = {
        min: [bounds.min[0] + x, Math.max(bounds.min[1], low)],
        max: [Math.min(bounds.max[0], bounds.min[0] + x + room[0]), high],
      }
      const at: Vec2 = [area.x0, area.y1 - NAME_MM - 6 - (shown.max[1] - shown.min[1])]
      const say = `${name}. Sheet ${tileName(column, row)} of ${tileName(0, 0)} to ${tileName(xs.length - 1, ys.length - 1)}: lay the crosses over each other.`
      return [
        { strokes: [...linesAt(template, at, shown), ...joinMarks(shown, bounds, at)] },
        { texts: [{ text: say, at: [area.x0, area.y1 - 3] as const, ...SMALL }] },
        tileMap(xs.length, ys.length, [column, row], area),
      ]
    }),
  )
}

export interface PartToTemplate {
  readonly shape: PartShape
  readonly group: SameParts
}

/** Sheets of templates of all parts that need one; none where every part is square and plain. */
export function templatePlates(parts: readonly PartToTemplate[], options: TemplateOptions): Plate[] {
  const format: SheetFormat = { paper: options.paper, turned: true }
  const inside = drawingArea(format)
  const area: Box = { ...inside, y0: inside.y0 + BARS_MM + 4 }
  const items = parts.flatMap(({ shape, group }) =>
    templatesOf(shape).map((template): Item => ({ name: nameOf(group, template, options), template })),
  )
  const isSmall = ({ template }: Item): boolean => {
    const [width, height] = sizeOf(template)
    return width <= area.x1 - area.x0 && height + NAME_MM <= area.y1 - area.y0
  }
  const small = items.filter(isSmall)
  const large = items.filter((item) => !isSmall(item))
  const sheets = [...packed(small, area), ...large.flatMap((item) => tiled(item, area))]
  return sheets.map((marks) => ({
    ...format,
    title: 'Full-size templates',
    scale: '1:1',
    lengthsIn: options.lengthsIn,
    drawings: [],
    marks: marksOf(barMarks(inside), ...marks),
  }))
}
