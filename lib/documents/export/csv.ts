/**
 * Tables as CSV (RFC 4180): header line, CRLF, quotes doubled. A text that a spreadsheet would take for a formula is
 * begun with an apostrophe. Columns are told in docs/formats.md. Tests: tests/documents/export/csv.test.ts
 */
import type { EndCut, FaceName, Model, Part } from '#lib/core/design/model'
import { samePartsOf } from '#lib/core/design/same-parts'

type Cell = string | number

/** Begins that spreadsheets calculate. */
const FORMULA = /^[=+\-@\t\r]/

function cellText(cell: Cell): string {
  if (typeof cell === 'number') return String(cell)
  const safe = FORMULA.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe
}

/** @example csvText(['part', 'count'], [['Leg, hand a', 2]]) //=> 'part,count\r\n"Leg, hand a",2\r\n' */
export const csvText = (header: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [header, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('')

const HEADER = [
  'part',
  'count',
  'length_mm',
  'width_mm',
  'thickness_mm',
  'wood',
  'face_a',
  'face_b',
  'edge_a',
  'edge_b',
  'end_a',
  'end_b',
  'end_a_turn_deg',
  'end_a_tilt_deg',
  'end_b_turn_deg',
  'end_b_tilt_deg',
  'names',
] as const

const FACES: readonly FaceName[] = ['faceA', 'faceB', 'edgeA', 'edgeB', 'endA', 'endB']

/** To a micrometre, without a tail of digits. */
const mm = (value: number): number => Number(value.toFixed(3))
const degrees = (rad: number): number => Number(((rad * 180) / Math.PI).toFixed(3)) + 0

function endAngles(part: Part): number[] {
  return (['endA', 'endB'] as const).flatMap((end) => {
    const cut = part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end)
    return [degrees(cut?.mitreRad ?? 0), degrees(cut?.bevelRad ?? 0)]
  })
}

/** Blanks to cut, one line for parts that are made alike, longest first. */
export function cutListCsv(model: Model): string {
  const groups = samePartsOf(model.parts)
  const rows = groups.map(({ name, part, parts }): Cell[] => [
    name,
    parts.length,
    mm(part.blank.lengthMm),
    mm(part.blank.widthMm),
    mm(part.blank.thicknessMm),
    part.species ?? 'any',
    ...FACES.map((face) => part.faces[face]),
    ...endAngles(part),
    parts.map((one) => one.name).join('; '),
  ])
  rows.sort((a, b) => Number(b[2]) - Number(a[2]))
  return csvText(HEADER, rows)
}

/** What has to be at hand besides wood. */
export const hardwareCsv = (model: Model): string =>
  csvText(
    ['kind', 'size', 'count'],
    model.hardware.map(({ kind, size, count }) => [kind, size, count]),
  )
