/** Measured features and what lies between them, in words. */
import type { Feature, Measurement } from '#lib/core/design/measure'
import { edgeLength } from '#lib/core/design/measure'
import type { FaceName, Model } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'

export const FACE_WORDS: Readonly<Record<FaceName, string>> = {
  faceA: 'face A',
  faceB: 'face B',
  edgeA: 'edge A',
  edgeB: 'edge B',
  endA: 'end A',
  endB: 'end B',
}

const sayMm = (mm: number, units: LengthUnit): string => sayLength(umFromMm(mm), units)

function featureWords(feature: Feature, units: LengthUnit): string {
  if (feature.kind === 'corner') return 'a corner'
  if (feature.kind === 'edge') return `an arris, ${sayMm(edgeLength(feature), units)} long,`
  const { of } = feature
  if ('face' in of) return FACE_WORDS[of.face]
  return 'notchId' in of ? `the ${of.role} of a notch` : 'a chamfer'
}

/** @example sayFeature(model, feature, 'mm') //=> 'face A of Seat board 2' */
export function sayFeature(model: Model, feature: Feature, units: LengthUnit): string {
  const part = model.parts.find(({ id }) => id === feature.partId)
  return `${featureWords(feature, units)} of ${part?.name ?? 'a part'}`
}

const sayDegrees = (rad: number): string => `${Number(((rad * 180) / Math.PI).toFixed(2))}°`

/** @example sayMeasured({ kind: 'distance', value: 450, … }, 'mm') //=> '450 mm' */
export function sayMeasured({ kind, value }: Measurement, units: LengthUnit): string {
  if (kind === 'distance') return sayMm(value, units)
  const other = Math.PI - value
  return Math.abs(other - value) < 1e-6 ? '90°' : `${sayDegrees(value)} (or ${sayDegrees(other)})`
}
