/**
 * A seat that stands at a table, a desk or a counter: its top and what lies beneath, the seat pushed under or not. mm;
 * the person looks along +y, the table's edge is at the back of the seat. Tests: tests/core/design/fit/fit-piece.test.ts
 */
import type { FitLine, PlaceBox } from '../model'
import { choiceParameter, mmParameter } from '../shared-parameters'
import { tableLines } from './fit-lines'

const THE_TABLE = 'The table it stands at'
/** Of a table, as much as is drawn. */
const DRAWN_MM = 700

export const tablePlaceParameters = [
  choiceParameter(
    'standsAt',
    'Stands',
    THE_TABLE,
    [
      { value: 'alone', label: 'by itself' },
      { value: 'table', label: 'at a table, desk or counter' },
    ],
    'At a table the seat is judged with it; nothing in the piece changes by itself.',
  ),
  mmParameter(
    'tableHeight',
    'Table height',
    THE_TABLE,
    [740, 400, 1250],
    'From the floor to its top surface.',
  ),
  mmParameter(
    'tableThickness',
    'Table thickness',
    THE_TABLE,
    [100, 8, 250],
    'From its top surface down to the lowest thing over the thighs: underside, edge strip or apron.',
  ),
  mmParameter(
    'tuckUnder',
    'Pushed under',
    THE_TABLE,
    [0, 0, 600],
    'How far the seat goes in under the edge of the table when nobody sits on it.',
  ),
] as const

interface TablePlace {
  readonly standsAt: string
  readonly tableHeight: number
  readonly tableThickness: number
  readonly tuckUnder: number
}

/** The table over the back of a seat. @param seat width and depth over all, top surface */
export function tableBoxes(
  v: TablePlace,
  seat: { readonly widthMm: number; readonly depthMm: number },
): PlaceBox[] {
  if (v.standsAt !== 'table') return []
  const edgeMm = seat.depthMm - v.tuckUnder
  return [
    {
      id: 'counter',
      name: 'Table',
      min: [-150, edgeMm, v.tableHeight - v.tableThickness],
      max: [seat.widthMm + 150, edgeMm + DRAWN_MM, v.tableHeight],
      parameter: 'tableHeight',
    },
  ]
}

/** Room for thighs and height for elbows at that table. */
export const tableFit = (v: TablePlace, seatMm: number): FitLine[] =>
  v.standsAt !== 'table'
    ? []
    : tableLines({
        seatMm,
        topMm: v.tableHeight,
        undersideMm: v.tableHeight - v.tableThickness,
        parameters: { room: 'tableHeight', height: 'tableHeight' },
      })
