/**
 * Sentences of the core, whose lengths are in millimetres, as this person reads them: «takes at most 12 mm» becomes
 * «takes at most 15/32"». The core says a measure in one way only, a number and its unit, so that one place can turn them;
 * areas, feeds and the numbers of screws stay as they are. About strength also forces, stresses and weights: 1 lbf =
 * 4.4482216152605 N, 1 psi = 1 lbf/in², 1 lb = 0.45359237 kg, exactly (1959 agreement). Tests: tests/format/sentence.test.ts
 */
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { figures } from './amount'
import { sayLength } from './length'

type SayNumber = (digits: string) => string

/** One number, or several with a word between them, before their unit; not the number of a standard or a screw. */
const before = (unit: string): RegExp =>
  new RegExp(
    `(?<!(?:No\\.|EN|ISO) )(?<![\\d.])(-?\\d+(?:\\.\\d+)?)((?: (?:×|to|and|of) -?\\d+(?:\\.\\d+)?)*) ${unit}(?![²³/\\w])`,
    'g',
  )
const MORE = / (×|to|and|of) (-?\d+(?:\.\d+)?)/g

/** Puts every number before a unit in words of another, with the new unit at the end. */
const turned = (sentence: string, unit: RegExp, say: SayNumber, newUnit: string): string =>
  sentence.replace(
    unit,
    (_, first: string, more: string) =>
      say(first) + more.replace(MORE, (__, word, digits) => ` ${word} ${say(digits)}`) + newUnit,
  )

const LENGTHS = before('mm')
const inchesOf: SayNumber = (mm) => sayLength(umFromMm(Number(mm)), 'in')

/**
 * @example sayInUnits('4 to 8 mm is usual.', 'in') //=> '5/32" to 5/16" is usual.'
 * @example sayInUnits('4 to 8 mm is usual.', 'mm') //=> '4 to 8 mm is usual.'
 */
export const sayInUnits = (sentence: string, units: LengthUnit): string =>
  units === 'mm' ? sentence : turned(sentence, LENGTHS, inchesOf, '')

/** Below this a length with decimals is a movement or a sag, too fine for a fraction. */
const FINE_BELOW_MM = 12.7

const fineInchesOf: SayNumber = (mm) =>
  mm.includes('.') && Math.abs(Number(mm)) < FINE_BELOW_MM
    ? `${(Number(mm) / 25.4).toFixed(3)}"`
    : inchesOf(mm)

const LBF_N = 4.4482216152605
/** Turned over from their unit: how much of the other one is one of it. */
const OTHERS = [
  { unit: before('N(?! mm?\\b)'), newUnit: ' lbf', each: 1 / LBF_N },
  { unit: before('MPa'), newUnit: ' psi', each: 25.4 ** 2 / LBF_N },
  { unit: before('kg'), newUnit: ' lb', each: 1 / 0.45359237 },
] as const

/**
 * Of strength: lengths, forces, stresses and weights; small movements in thousandths of an inch.
 * @example sayStrengthInUnits('Sags 1.30 mm under 600 N.', 'in') //=> 'Sags 0.051" under 135 lbf.'
 */
export function sayStrengthInUnits(sentence: string, units: LengthUnit): string {
  if (units === 'mm') return sentence
  const lengths = turned(sentence, LENGTHS, fineInchesOf, '')
  return OTHERS.reduce(
    (said, { unit, newUnit, each }) => turned(said, unit, (n) => figures(Number(n) * each), newUnit),
    lengths,
  )
}
