/**
 * Which parts that were cut still are parts of what is being made, when its numbers change or another variant is
 * chosen. In: the part as it was planned and cut, the part as it is asked for now. Lengths compared in whole
 * micrometres, angles to a millionth of a radian. A part with another blank, wood or a more exacting face does not
 * fit; one whose own cuts (notches, holes, mitres) are others fits as long as none of them has been made.
 * Tests: tests/shop/parts-made.test.ts
 */
import type { FaceRole, Model, Operation, Part } from '#lib/core/design/model'
import { umFromMm } from '#lib/core/units/length'
import { partOfStave } from './staves'

type Cut = Pick<Part, 'id' | 'blank' | 'operations' | 'faces' | 'species'>

/** What a face asks of its wood, more of it the higher. */
const ASKS: Readonly<Record<FaceRole, number>> = { hidden: 0, paint: 1, show: 2 }

const sizes = ({ blank }: Cut) =>
  [blank.lengthMm, blank.widthMm, blank.thicknessMm].map((mm) => umFromMm(mm)).join(' ')

const FINE = 1e6
const exact = (_: string, value: unknown) =>
  typeof value === 'number' ? Math.round(value * FINE) / FINE || 0 : value

/** One line for cuts that are the same, in whatever order they are listed. */
const cutsText = (operations: readonly Operation[]): string =>
  operations
    .map((op) => JSON.stringify(op, exact))
    .sort()
    .join('\n')

/**
 * Whether a piece that was cut for `was` may be used for `now`.
 * @param isWorked cuts of its own have been made on it
 * @example fitsStill(leg, { ...leg, blank: { ...leg.blank, lengthMm: 700 } }, false) //=> false
 */
export function fitsStill(was: Cut, now: Cut, isWorked: boolean): boolean {
  if (sizes(was) !== sizes(now)) return false
  // Any sound wood will do for a part that names none.
  if (now.species !== undefined && was.species !== now.species) return false
  const faces = Object.keys(now.faces) as (keyof Cut['faces'])[]
  if (faces.some((face) => ASKS[was.faces[face]] < ASKS[now.faces[face]])) return false
  return !isWorked || cutsText(was.operations) === cutsText(now.operations)
}

/** A piece that was cut, as the books know it. */
export interface MadePart {
  readonly id: string
  readonly partId: string
  readonly isSetAside: boolean
  /** Cuts of its own have been made on it. */
  readonly isWorked: boolean
  /** The part as it was planned; null where nobody can tell any more. */
  readonly was: Cut | null
}

export interface Standing {
  /** To be set aside, and to be taken up again. */
  readonly aside: readonly string[]
  readonly again: readonly string[]
}

/**
 * What changes in the books so that each part of the model has one piece at most, and that one fits it. A piece that
 * counts already is kept before one that was set aside; the first of the list before others.
 */
export function standingOf(made: readonly MadePart[], model: Pick<Model, 'parts'>): Standing {
  const parts = new Map(model.parts.map((part) => [part.id, part]))
  const fits = ({ partId, was, isWorked }: MadePart): boolean => {
    const now = parts.get(partOfStave(partId))
    return now !== undefined && was !== null && fitsStill(was, now, isWorked)
  }
  const inOrder = [...made].sort((a, b) => Number(a.isSetAside) - Number(b.isSetAside))
  const taken = new Map<string, string>()
  for (const piece of inOrder) if (!taken.has(piece.partId) && fits(piece)) taken.set(piece.partId, piece.id)
  const counts = (piece: MadePart) => taken.get(piece.partId) === piece.id
  return {
    aside: made.filter((m) => !m.isSetAside && !counts(m)).map((m) => m.id),
    again: made.filter((m) => m.isSetAside && counts(m)).map((m) => m.id),
  }
}

/**
 * The part that a tick at the bench speaks of: keys are `what:part:operation`; a key of a board has a slash in it.
 * @example partOfTick('op:leg-1:cut-endA') //=> 'leg-1'
 */
export const partOfTick = (key: string): string => key.split(/[:/#]/)[1] ?? ''
