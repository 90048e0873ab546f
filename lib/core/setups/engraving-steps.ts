/**
 * Engraved fields on the laser: focused for the part's thickness, line after line along the grain. mm, s.
 * Time of a field: its lines times (length / speed + 2 speed / acceleration), for each pass (constant acceleration at
 * both ends of a line). Tests: tests/core/setups/eased-edges.test.ts
 */

import { FACE_WORDS } from '#lib/core/design/face-words'
import type { EngravedField, Part } from '#lib/core/design/model'
import type { Draft, PartContext } from './part-context'
import type { SetupShop } from './setup-shop'
import { settingMm } from './step'
import { mmText, passesText } from './wording'

const isField = (op: Part['operations'][number]): op is EngravedField => op.kind === 'engravedField'

/** Seconds of one pass over a field. @example engravingSeconds({ lengthMm: 100, widthMm: 50 }, DEFAULT_SETUP_SHOP.laserEngraver) //=> 266.67 */
export const engravingSeconds = (
  { lengthMm, widthMm }: Pick<EngravedField, 'lengthMm' | 'widthMm'>,
  { lineMm, speedMmPerS, accelMmPerS2 }: SetupShop['laserEngraver'],
): number => (widthMm / lineMm) * (lengthMm / speedMmPerS + (2 * speedMmPerS) / accelMmPerS2)

export const engravingSteps = (part: Part, context: PartContext): readonly Draft[] =>
  part.operations.filter(isField).map((field) => engravingDraft(part, field, context))

function placeText({ face, alongMm, acrossMm }: EngravedField): string {
  const towards = face === 'faceA' || face === 'faceB' ? ['edge B', 'edge A'] : ['face A', 'face B']
  const off =
    Math.abs(acrossMm) < 0.05
      ? 'on the middle line'
      : `${mmText(Math.abs(acrossMm))} off the middle line towards ${towards[acrossMm > 0 ? 0 : 1]}`
  return `its middle ${mmText(alongMm)} from end A, ${off}`
}

function engravingDraft(part: Part, field: EngravedField, context: PartContext): Draft {
  const { laserEngraver, times } = context.input.shop
  const isOnFace = field.face === 'faceA' || field.face === 'faceB'
  const thicknessMm = isOnFace ? part.blank.thicknessMm : part.blank.widthMm
  const passes = Math.max(1, Math.ceil(field.depthMm / laserEngraver.passDepthMm - 1e-9))
  return {
    key: `op:${part.id}:${field.id}`,
    kind: 'engrave',
    station: 'laserEngraver',
    needs: { thickness: settingMm(thicknessMm), depth: settingMm(field.depthMm) },
    settings: { thicknessMm, depthMm: field.depthMm },
    passes,
    note: `Field ${mmText(field.lengthMm)} along the grain by ${mmText(field.widthMm)} on ${FACE_WORDS[field.face]}, ${placeText(field)}; ${passesText(passes)}. Mask it first if the finish is on.`,
    seconds: times.handle + passes * engravingSeconds(field, laserEngraver),
    operationIds: [field.id],
  }
}
