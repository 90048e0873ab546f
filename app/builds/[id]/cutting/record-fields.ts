/**
 * The form that records a cutting, read: which parts came out, which rests were kept, at which size. A size that was
 * not touched is the planned one exactly, whatever it was rounded to on the screen. Tests: tests/app/record-fields.test.ts
 */
import type { LengthUnit } from '#lib/core/units/inches'
import { err, ok, type Result } from '#lib/core/units/result'
import { typedLength } from '#lib/format/length'
import type { KeptOffcut } from '#lib/shop/cutting'
import { lengthText } from '#lib/shop/fields'
import { type Refusal, refusal } from '#lib/shop/refusal'

type Typed = Readonly<Record<string, string>>

export interface RecordInput {
  readonly planId: string
  readonly boardId: string
  readonly made: readonly string[]
  readonly offcuts: readonly KeptOffcut[]
  readonly place: string
  readonly note: string
}

const PART = 'part.'
/** Row of the rest that was not planned. */
export const OTHER = 'other'

const rowsOf = (typed: Typed): string[] =>
  Object.keys(typed).flatMap((name) => {
    const [, row] = /^keep\.(.+)$/.exec(name) ?? []
    return row === undefined ? [] : [row]
  })

function readSize(
  typed: Typed,
  row: string,
  side: 'lengthUm' | 'widthUm',
  fields: Record<string, string>,
): number {
  const units: LengthUnit = typed.units === 'in' ? 'in' : 'mm'
  const name = `offcuts.${row}.${side}`
  const was = Number(typed[`was.${row}.${side}`] ?? Number.NaN)
  if (Number.isSafeInteger(was) && typed[name]?.trim() === typedLength(was, units)) return was
  const read = lengthText({ units, what: side === 'lengthUm' ? 'length' : 'width' }).safeParse(
    typed[name] ?? '',
  )
  if (read.success) return read.data
  fields[name] = read.error.issues[0].message
  return 0
}

/** @returns the input, and by index of its offcuts the row of the form */
export function readRecord(typed: Typed): Result<{ input: RecordInput; rows: readonly string[] }, Refusal> {
  const fields: Record<string, string> = {}
  const rows = rowsOf(typed)
  const offcuts = rows.map((row) => ({
    planned: row === OTHER ? null : Number(row),
    lengthUm: readSize(typed, row, 'lengthUm', fields),
    widthUm: readSize(typed, row, 'widthUm', fields),
  }))
  if (Object.keys(fields).length > 0) return err(refusal('badInput', { fields }))
  const made = Object.keys(typed).flatMap((name) => (name.startsWith(PART) ? [name.slice(PART.length)] : []))
  const { planId = '', boardId = '', place = '', note = '' } = typed
  return ok({ input: { planId, boardId, made, offcuts, place, note }, rows })
}

/** Sentences of the refusal beside the fields of the form: its rows are not numbered as the offcuts are. */
export function boardAtField(r: Refusal, rows: readonly string[]): Refusal {
  if (!r.fields) return r
  const renamed = Object.entries(r.fields).map(([name, sentence]) => [
    name.replace(/^offcuts\.(\d+)\./, (_, i) => `offcuts.${rows[Number(i)]}.`),
    sentence,
  ])
  return { ...r, fields: Object.fromEntries(renamed) }
}
