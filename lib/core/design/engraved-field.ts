/**
 * A field to engrave in the middle of a board: a name, what is in it, for whom it was made. mm. What it shows is drawn
 * elsewhere; here it is a shallow rectangle that drawings, set-ups and weight know of. In: the board, the face, what the
 * maker set. Out: the operation, or why it does not fit. Tests: tests/core/design/engraved-field.test.ts
 */
import type { DesignRefusal, EngravedField, Part } from './model'
import { sayValue } from './parameters'
import { choiceParameter, mmParameter } from './shared-parameters'

/** Left free between the field and whatever bounds it. */
const MARGIN_MM = 5
/** A field takes at most this share of the wood's thickness. */
const MOST_OF_THICKNESS = 0.2
const ROUNDING_MM = 1e-9

/** @param where which boards it may be on, besides none @param sizes default, least and most along and across, mm */
export const fieldParameters = (
  group: string,
  where: readonly { readonly value: string; readonly label: string }[],
  [lengthMm, widthMm]: readonly [readonly [number, number, number], readonly [number, number, number]],
) =>
  [
    choiceParameter(
      'field',
      'Engraved field',
      group,
      [{ value: 'none', label: 'none' }, ...where],
      'Room for a name or a sign, burnt in by the laser engraver.',
    ),
    mmParameter('fieldLength', 'Field length', group, lengthMm, 'Along the grain; only with a field.'),
    mmParameter('fieldWidth', 'Field width', group, widthMm, 'Across the grain; only with a field.'),
    mmParameter(
      'fieldDepth',
      'Field depth',
      group,
      [0.8, 0.2, 2, 0.1],
      'How deep it is burnt; only with a field.',
    ),
  ] as const

export interface FieldValues {
  readonly field: string
  readonly fieldLength: number
  readonly fieldWidth: number
  readonly fieldDepth: number
}

/** In the middle of a face. */
export const engravedField = (v: FieldValues, { blank }: Part, face: 'faceA' | 'faceB'): EngravedField => ({
  kind: 'engravedField',
  id: 'field',
  face,
  alongMm: blank.lengthMm / 2,
  acrossMm: 0,
  lengthMm: v.fieldLength,
  widthMm: v.fieldWidth,
  depthMm: v.fieldDepth,
})

/** @param board what of it is free, along and across the grain, and its thickness @param called «the top slat» */
export function refuseField(
  v: FieldValues,
  board: { readonly lengthMm: number; readonly widthMm: number; readonly thicknessMm: number },
  called: string,
): readonly DesignRefusal[] {
  if (v.field === 'none') return []
  const bounds = [
    ['fieldLength', v.fieldLength, board.lengthMm - 2 * MARGIN_MM],
    ['fieldWidth', v.fieldWidth, board.widthMm - 2 * MARGIN_MM],
    ['fieldDepth', v.fieldDepth, MOST_OF_THICKNESS * board.thicknessMm],
  ] as const
  return bounds.flatMap(([parameter, isMm, mostMm]) =>
    isMm > mostMm + ROUNDING_MM
      ? [
          {
            parameter,
            message: `On ${called} a field has room for ${sayValue(Math.max(0, mostMm), 'mm')}, not ${sayValue(isMm, 'mm')}.`,
          },
        ]
      : [],
  )
}
