/**
 * Sentences of the core, whose lengths are in millimetres, as this person reads them: «takes at most 12 mm» becomes
 * «takes at most 15/32"». The core says lengths in one way only, a number and «mm», so that one place can turn them; areas,
 * feeds and the numbers of screws stay as they are. Tests: tests/format/sentence.test.ts
 */
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from './length'

/** One number, or several with «×», «to» or «and» between them, before «mm»; not those of «mm²» or «mm/s». */
const LENGTHS = /(?<!No\. )(?<![\d.])(-?\d+(?:\.\d+)?)((?: (?:×|to|and) -?\d+(?:\.\d+)?)*) mm(?![²³/\w])/g
const MORE = / (×|to|and) (-?\d+(?:\.\d+)?)/g

/**
 * @example sayInUnits('4 to 8 mm is usual.', 'in') //=> '5/32" to 5/16" is usual.'
 * @example sayInUnits('4 to 8 mm is usual.', 'mm') //=> '4 to 8 mm is usual.'
 */
export function sayInUnits(sentence: string, units: LengthUnit): string {
  if (units === 'mm') return sentence
  const say = (mm: string): string => sayLength(umFromMm(Number(mm)), units)
  return sentence.replace(
    LENGTHS,
    (_, first: string, more: string) =>
      say(first) + more.replace(MORE, (__, word, mm) => ` ${word} ${say(mm)}`),
  )
}
