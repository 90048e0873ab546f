import type { LengthUnit } from '#lib/core/units/inches'
import { sayInUnits } from '#lib/format/sentence'

/** Sentences by field, their lengths as this person reads them. */
export const inReadersUnits = (
  sentences: Readonly<Record<string, string>>,
  units: LengthUnit,
): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(sentences).map(([path, sentence]) => [path, sayInUnits(sentence, units)]))
