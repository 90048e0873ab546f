import 'server-only'
import { z } from 'zod'
import { DEFECT_KINDS } from '#lib/core/board/board'
import { type BoardComplaint, type BoardDraft, validateBoard } from '#lib/core/board/validate'
import type { LengthUnit } from '#lib/core/units/inches'
import { isSpeciesId } from '#lib/core/wood/species'
import { FINISHES } from '#lib/shop/boards'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { TERMS } from '#lib/shop/sharing'

const MAX_UM = 100_000_000
/** Loose here: what a board may measure is said by validateBoard, in the units of the person. */
const um = z.int('Enter whole micrometres.').min(-MAX_UM).max(MAX_UM)

export const unitsInput = z.enum(['mm', 'in']).default('mm')

/** What is logged of a board. Field names without `Um` are what complaints stand beside: `length`, `cup`. */
export const boardFacts = z.object({
  lengthUm: um,
  widthUm: um,
  thicknessUm: um,
  cupUm: um.default(0),
  bowUm: um.default(0),
  crookUm: um.default(0),
  twistUm: um.default(0),
  species: z.string().max(40).refine(isSpeciesId, 'Choose a species, or «Not known».'),
  finish: z.enum(FINISHES, 'Say what finish is on it.'),
  /** Known to be newer than any paint with lead in it: no lead test needed. */
  isFinishNew: z.boolean().default(false),
  treated: z.boolean().default(false),
  terms: z.enum(TERMS, 'Say on which terms you share it.'),
  place: z.string().trim().max(80, 'Keep the place to 80 characters.').default(''),
  notes: z.string().trim().max(1000, 'Keep the notes to 1000 characters.').default(''),
})
export type BoardFacts = z.infer<typeof boardFacts>

export const markInput = z.object({
  kind: z.enum(DEFECT_KINDS, 'Choose what kind of defect it is.'),
  face: z.enum(['A', 'B', 'through'], 'Choose the face it is seen on.'),
  xUm: um,
  yUm: um,
  widthUm: um,
  heightUm: um,
})
export type Mark = z.infer<typeof markInput>

/** What stands in a form beside its fields: the first complaint a field. */
export function complaintsRefusal(complaints: readonly BoardComplaint[]): Refusal | null {
  if (complaints.length === 0) return null
  const fields: Record<string, string> = {}
  for (const c of complaints) fields[c.field] ??= c.message
  return refusal('badInput', { fields })
}

type Measures = Pick<
  BoardFacts,
  'lengthUm' | 'widthUm' | 'thicknessUm' | 'cupUm' | 'bowUm' | 'crookUm' | 'twistUm'
>

export const draftOf = (m: Measures, defects: BoardDraft['defects'] = []): BoardDraft => ({
  lengthUm: m.lengthUm,
  widthUm: m.widthUm,
  thicknessUm: m.thicknessUm,
  warp: { cupUm: m.cupUm, bowUm: m.bowUm, crookUm: m.crookUm, twistUm: m.twistUm },
  defects,
})

/** Whether it can be a board at all; sentences in the units of the person. */
export const measuresRefusal = (measures: Measures, unit: LengthUnit): Refusal | null =>
  complaintsRefusal(validateBoard(draftOf(measures), { unit }))
