/**
 * Is a board, as typed, a board at all? Every complaint names the field it stands beside.
 * In: whole micrometres, as in board.ts. Out: a list of complaints, empty for a board that can be stored.
 * Limits are those of what comes out of furniture and of an ordinary shop, all in BOARD_LIMITS (common practice).
 * Not judged: whether the species is known (lib/core/wood/species.ts), whether the board is any use.
 * Tests: tests/core/board/validate.test.ts
 */
import { formatInches, formatMm, type LengthUnit } from '#lib/core/units/inches'
import { DEFECT_KINDS, type Defect, type Warp } from './board'

export const BOARD_LIMITS = {
  lengthUm: { min: 20_000, max: 12_000_000 },
  widthUm: { min: 5_000, max: 1_500_000 },
  thicknessUm: { min: 2_000, max: 300_000 },
  /** Share of the width. A quarter is a half-pipe, not a cupped board. */
  cupShare: 0.25,
  /** Share of the length, for bow and crook. */
  bendShare: 0.1,
  /** Share of the width by which the fourth corner may lift. */
  twistShare: 0.5,
  defects: 200,
} as const

export type DraftDefect = Omit<Defect, 'id'>

/** What a form knows of a board before it is stored. */
export interface BoardDraft {
  readonly lengthUm: number
  readonly widthUm: number
  readonly thicknessUm: number
  readonly warp: Warp
  readonly defects: readonly DraftDefect[]
}

export type BoardField =
  | 'length'
  | 'width'
  | 'thickness'
  | 'cup'
  | 'bow'
  | 'crook'
  | 'twist'
  | 'defects'
  | `defects.${number}.${'kind' | 'face' | 'x' | 'y' | 'width' | 'height'}`

export interface BoardComplaint {
  readonly field: BoardField
  readonly message: string
}

type Say = (valueUm: number) => string

const sayIn = (unit: LengthUnit): Say =>
  unit === 'in'
    ? (valueUm) => formatInches(valueUm, { denominator: 16 })
    : (valueUm) => `${formatMm(valueUm)} mm`

const isWhole = (value: number): boolean => Number.isSafeInteger(value)

function sizeComplaint(
  field: 'length' | 'width' | 'thickness',
  valueUm: number,
  limit: { readonly min: number; readonly max: number },
  say: Say,
): BoardComplaint[] {
  if (!isWhole(valueUm)) return [{ field, message: `Enter the ${field}.` }]
  if (valueUm < limit.min)
    return [{ field, message: `The ${field} is ${say(valueUm)}; the least is ${say(limit.min)}.` }]
  if (valueUm > limit.max)
    return [{ field, message: `The ${field} is ${say(valueUm)}; the most is ${say(limit.max)}.` }]
  return []
}

function warpComplaint(
  field: 'cup' | 'bow' | 'crook' | 'twist',
  valueUm: number,
  maxUm: number,
  say: Say,
): BoardComplaint[] {
  if (!isWhole(valueUm)) return [{ field, message: `Enter the ${field}, or 0 for none.` }]
  if (valueUm < 0) return [{ field, message: `The ${field} cannot be negative.` }]
  // A size that is itself wrong has its own complaint.
  if (!Number.isFinite(maxUm) || maxUm <= 0 || valueUm <= maxUm) return []
  const message = `A ${field} of ${say(valueUm)} is too much for a board of this size; the most is ${say(Math.floor(maxUm))}.`
  return [{ field, message }]
}

/** One axis of a defect: where it begins and how far it reaches along a side of the board. */
function extentComplaint(
  begin: { readonly field: BoardField; readonly valueUm: number },
  extent: { readonly field: BoardField; readonly valueUm: number },
  side: { readonly name: 'length' | 'width'; readonly sizeUm: number },
  say: Say,
): BoardComplaint[] {
  if (!isWhole(begin.valueUm)) return [{ field: begin.field, message: 'Enter where the defect begins.' }]
  if (!isWhole(extent.valueUm) || extent.valueUm <= 0)
    return [{ field: extent.field, message: 'Enter how large the defect is, more than 0.' }]
  if (begin.valueUm < 0) return [{ field: begin.field, message: 'The defect begins off the board.' }]
  if (!isWhole(side.sizeUm) || begin.valueUm + extent.valueUm <= side.sizeUm) return []
  const endUm = begin.valueUm + extent.valueUm
  const message = `The defect ends at ${say(endUm)}, off the board: its ${side.name} is ${say(side.sizeUm)}.`
  return [{ field: begin.valueUm >= side.sizeUm ? begin.field : extent.field, message }]
}

function defectComplaints(draft: BoardDraft, index: number, say: Say): BoardComplaint[] {
  const defect = draft.defects[index]
  const field = (name: 'kind' | 'face' | 'x' | 'y' | 'width' | 'height') =>
    `defects.${index}.${name}` as const
  const complaints: BoardComplaint[] = []
  if (!DEFECT_KINDS.includes(defect.kind))
    complaints.push({ field: field('kind'), message: 'Choose what kind of defect it is.' })
  if (!['A', 'B', 'through'].includes(defect.face))
    complaints.push({ field: field('face'), message: 'Choose the face it is seen on.' })
  const along = extentComplaint(
    { field: field('x'), valueUm: defect.xUm },
    { field: field('width'), valueUm: defect.widthUm },
    { name: 'length', sizeUm: draft.lengthUm },
    say,
  )
  const across = extentComplaint(
    { field: field('y'), valueUm: defect.yUm },
    { field: field('height'), valueUm: defect.heightUm },
    { name: 'width', sizeUm: draft.widthUm },
    say,
  )
  return [...complaints, ...along, ...across]
}

/**
 * What is wrong with a board as typed.
 * @param unit in which the messages speak of lengths
 * @example validateBoard({ lengthUm: 0, widthUm: 90_000, thicknessUm: 20_000, warp: flat, defects: [] })
 * //=> [{ field: 'length', message: 'The length is 0 mm; the least is 20 mm.' }]
 */
export function validateBoard(
  draft: BoardDraft,
  options: { readonly unit?: LengthUnit } = {},
): BoardComplaint[] {
  const say = sayIn(options.unit ?? 'mm')
  const { lengthUm, widthUm, thicknessUm, warp, defects } = draft
  const bendUm = lengthUm * BOARD_LIMITS.bendShare
  const tooMany = `Enter at most ${BOARD_LIMITS.defects} defects.`
  return [
    ...sizeComplaint('length', lengthUm, BOARD_LIMITS.lengthUm, say),
    ...sizeComplaint('width', widthUm, BOARD_LIMITS.widthUm, say),
    ...sizeComplaint('thickness', thicknessUm, BOARD_LIMITS.thicknessUm, say),
    ...warpComplaint('cup', warp.cupUm, widthUm * BOARD_LIMITS.cupShare, say),
    ...warpComplaint('bow', warp.bowUm, bendUm, say),
    ...warpComplaint('crook', warp.crookUm, Math.min(bendUm, widthUm / 2), say),
    ...warpComplaint('twist', warp.twistUm, widthUm * BOARD_LIMITS.twistShare, say),
    ...(defects.length > BOARD_LIMITS.defects
      ? [{ field: 'defects' as const, message: tooMany }]
      : defects.flatMap((_, index) => defectComplaints(draft, index, say))),
  ]
}
