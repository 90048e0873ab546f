/**
 * Lengths as people in a shop write and read them: millimetres, and feet, inches and fractions.
 * In: text. Out: whole micrometres, or a code that says what is wrong with it. Arithmetic is exact (whole-number
 * ratios); the sum is snapped once, halves away from zero, as `63 7/16` in is 1,611,312.5 um.
 *
 * Which unit: what is written wins. Without a unit, a whole or decimal number is in the default unit, but a number
 * with a fraction (`63 7/16`, `7/16`) is always inches, since nobody writes millimetres in sixteenths.
 * Limits: one positive length; a fraction has a denominator that a tape or a division by three gives.
 * Tests: tests/core/units/inches.test.ts
 */
import { MM_PER_INCH, UM_PER_INCH, type Um, um } from './length'
import { err, ok, type Result } from './result'

export type LengthUnit = 'mm' | 'in'

export const LENGTH_PROBLEMS = [
  'empty',
  'notANumber',
  'negative',
  'tooLarge',
  'badFraction',
  'metricFraction',
  'mixedUnits',
  'ambiguousComma',
] as const
export type LengthProblem = (typeof LENGTH_PROBLEMS)[number]

/** The longest length that is taken for one: 100 m. */
export const MAX_LENGTH_UM = 100_000_000
const MAX_TEXT_LENGTH = 60
const DENOMINATORS: ReadonlySet<number> = new Set([2, 3, 4, 6, 8, 12, 16, 32, 64, 128])

const SENTENCES: Readonly<Record<LengthProblem, string>> = {
  empty: 'Enter a length.',
  notANumber: 'This is not a length. Write it like 1613, 161.3 cm, 63 7/16 or 5\' 3-7/16".',
  negative: 'A length cannot be negative.',
  tooLarge: 'This is more than 100 m. Check the number and its unit.',
  badFraction:
    'This fraction is not one on a tape. Write it like 7/16: halves, quarters, 8ths, 16ths or 32nds.',
  metricFraction: 'Fractions are for inches. Write millimetres as a decimal, like 12.5.',
  mixedUnits: 'Use one unit, or feet followed by inches, like 5\' 3".',
  ambiguousComma: 'A comma before three digits can be read in two ways. Write 1613 or 1.613.',
}

/** One sentence for the person who typed it. @example lengthProblemSentence('empty') //=> 'Enter a length.' */
export const lengthProblemSentence = (problem: LengthProblem): string => SENTENCES[problem]

/** An exact, non-negative ratio. */
interface Ratio {
  readonly over: bigint
  readonly under: bigint
}

type UnitName = 'mm' | 'cm' | 'm' | 'in' | 'ft'

/** Micrometres in one of each unit. */
const UM_PER: Readonly<Record<UnitName, bigint>> = {
  mm: 1_000n,
  cm: 10_000n,
  m: 1_000_000n,
  in: BigInt(UM_PER_INCH),
  ft: BigInt(UM_PER_INCH) * 12n,
}

const UNIT_WORDS: readonly (readonly [UnitName, RegExp])[] = [
  ['mm', /^(?:mm|millimet(?:re|er)s?)$/],
  ['cm', /^(?:cm|centimet(?:re|er)s?)$/],
  ['m', /^(?:m|met(?:re|er)s?)$/],
  ['in', /^(?:"|in|ins|inch|inches)$/],
  ['ft', /^(?:'|ft|foot|feet)$/],
]

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
}

/** Typographic quotes, primes, dashes and fractions as the plain characters that are parsed. */
function plainText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2032\u2018\u2019\u00b4`]/g, "'")
    .replace(/[\u2033\u201c\u201d\u201e]/g, '"')
    .replace(/''/g, '"')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()
}

const DECIMAL = String.raw`\d+(?:[.,]\d*)?|[.,]\d+`
const FRACTION = String.raw`\d+ ?/ ?\d+`
/** Whole and fraction (`63-7/16`), fraction alone, or decimal; then a unit, if any. */
const AMOUNT = new RegExp(
  String.raw`^(?:(${DECIMAL})(?: ?- ?| )(${FRACTION})|(${FRACTION})|(${DECIMAL})) ?('|"|[a-z]+)?\.?`,
)

interface Amount {
  readonly ratio: Ratio
  readonly isFraction: boolean
  readonly unit: UnitName | null
}

function decimalRatio(text: string, unit: UnitName | null): Result<Ratio, LengthProblem> {
  const [whole, decimals = ''] = text.split(/[.,]/)
  // Nobody means 1613 m of wood, so in metres the comma can only be a decimal one.
  const isAmbiguous = text.includes(',') && decimals.length === 3 && /[1-9]/.test(whole) && unit !== 'm'
  if (isAmbiguous) return err('ambiguousComma')
  return ok({ over: BigInt(`${whole}${decimals}` || '0'), under: 10n ** BigInt(decimals.length) })
}

function fractionRatio(text: string): Result<Ratio, LengthProblem> {
  const [over, under] = text.split('/').map((part) => Number(part.trim()))
  if (!DENOMINATORS.has(under) || !Number.isSafeInteger(over)) return err('badFraction')
  return ok({ over: BigInt(over), under: BigInt(under) })
}

function mixedRatio(whole: string, fraction: string): Result<Ratio, LengthProblem> {
  const part = fractionRatio(fraction)
  if (!part.ok) return part
  if (!/^\d+$/.test(whole) || part.value.over >= part.value.under) return err('badFraction')
  return ok({ over: BigInt(whole) * part.value.under + part.value.over, under: part.value.under })
}

/** Reads one amount and its unit from the start of `text`; the rest is what follows. */
function readAmount(text: string): Result<{ amount: Amount; rest: string }, LengthProblem> {
  const match = AMOUNT.exec(text)
  if (!match) return err('notANumber')
  const [all, whole, itsFraction, fraction, decimal, word] = match
  const unit = word === undefined ? null : UNIT_WORDS.find(([, pattern]) => pattern.test(word))?.[0]
  if (unit === undefined) return err('notANumber')
  const ratio = decimal
    ? decimalRatio(decimal, unit)
    : fraction
      ? fractionRatio(fraction)
      : mixedRatio(whole, itsFraction)
  if (!ratio.ok) return ratio
  const rest = text
    .slice(all.length)
    .trim()
    .replace(unit === 'ft' ? /^- ?/ : /^/, '')
  return ok({ amount: { ratio: ratio.value, isFraction: !decimal, unit }, rest })
}

const isMetric = (unit: UnitName | null): boolean => unit === 'mm' || unit === 'cm' || unit === 'm'

/** Micrometres times `under`, so that two ratios can be added before they are snapped. */
const scaled = (ratio: Ratio, unit: UnitName): Ratio => ({
  over: ratio.over * UM_PER[unit],
  under: ratio.under,
})

const sum = (a: Ratio, b: Ratio): Ratio => ({
  over: a.over * b.under + b.over * a.under,
  under: a.under * b.under,
})

/** Halves go up; the ratio is never negative. */
function snapped(ratio: Ratio): Result<Um, LengthProblem> {
  const valueUm = (2n * ratio.over + ratio.under) / (2n * ratio.under)
  return valueUm > BigInt(MAX_LENGTH_UM) ? err('tooLarge') : ok(um(Number(valueUm)))
}

/**
 * Reads a length as typed. See the head of this file for which unit a bare number is in.
 * @example parseLength('1613', { unit: 'mm' }) //=> { ok: true, value: 1613000 }
 * @example parseLength('63 7/16', { unit: 'mm' }) //=> { ok: true, value: 1611313 }
 * @example parseLength('5 ft 30 cm', { unit: 'in' }) //=> { ok: false, error: 'mixedUnits' }
 */
export function parseLength(text: string, options: { readonly unit: LengthUnit }): Result<Um, LengthProblem> {
  const plain = plainText(text)
  if (plain === '') return err('empty')
  if (plain.length > MAX_TEXT_LENGTH) return err('notANumber')
  if (/^-/.test(plain)) return err(AMOUNT.test(plain.slice(1).trim()) ? 'negative' : 'notANumber')

  const first = readAmount(plain)
  if (!first.ok) return first
  const { amount, rest } = first.value
  if (amount.isFraction && isMetric(amount.unit)) return err('metricFraction')
  const unit = amount.unit ?? (amount.isFraction ? 'in' : options.unit)
  if (rest === '') return snapped(scaled(amount.ratio, unit))
  return addedInches(amount, rest)
}

/** The inches after the feet; a missing inch mark is forgiven. */
function addedInches(feet: Amount, text: string): Result<Um, LengthProblem> {
  const second = readAmount(text)
  if (!second.ok) return second
  const { amount: inches, rest } = second.value
  if (feet.unit === null) return err('notANumber')
  if (feet.unit !== 'ft' || (inches.unit !== null && inches.unit !== 'in')) return err('mixedUnits')
  if (rest !== '') return err('notANumber')
  return snapped(sum(scaled(feet.ratio, 'ft'), scaled(inches.ratio, 'in')))
}

/** Nearest whole multiple, halves away from zero. Exact below 2^53. */
function nearest(over: number, under: number): number {
  const magnitude = Math.floor((2 * Math.abs(over) + under) / (2 * under))
  return over < 0 ? -magnitude : magnitude
}

function fractionText(ticks: number, denominator: number): string {
  let over = ticks
  let under = denominator
  while (over % 2 === 0 && over > 0) {
    over /= 2
    under /= 2
  }
  return over === 0 ? '' : `${over}/${under}`
}

/**
 * Micrometres to the nearest inch fraction, halves away from zero, reduced, with the inch mark.
 * @param feet whether 12 in and more are written as feet and inches
 * @example formatInches(1_611_313, { denominator: 16 }) //=> '63 7/16"'
 * @example formatInches(1_611_313, { denominator: 16, feet: true }) //=> `5' 3 7/16"`
 */
export function formatInches(
  valueUm: number,
  options: { readonly denominator: 16 | 32 | 64; readonly feet?: boolean },
): string {
  const { denominator } = options
  // Half a micrometre is the snap at the door: 15 31/32 in, stored as 405,606 um for 405,606.25, is still a half.
  const exactUm = Math.abs(um(valueUm)) + 0.5
  const magnitude = nearest(2 * exactUm * denominator, 2 * UM_PER_INCH)
  const wholeInches = Math.floor(magnitude / denominator)
  const feet = options.feet ? Math.floor(wholeInches / 12) : 0
  const inches = wholeInches - 12 * feet
  const fraction = fractionText(magnitude % denominator, denominator)
  const words = [feet > 0 ? `${feet}'` : '', inches > 0 || fraction === '' ? `${inches}` : '', fraction]
  return `${valueUm < 0 && magnitude > 0 ? '-' : ''}${words.filter((word) => word !== '').join(' ')}"`
}

/**
 * Micrometres as millimetres, without the unit: halves away from zero, no trailing zeros.
 * @param decimals most digits after the point, 0 to 3; by default 1
 * @example formatMm(1_611_313) //=> '1611.3'
 */
export function formatMm(valueUm: number, options: { readonly decimals?: 0 | 1 | 2 | 3 } = {}): string {
  const decimals = options.decimals ?? 1
  const ticks = nearest(um(valueUm), 10 ** (3 - decimals))
  const digits = `${Math.abs(ticks)}`.padStart(decimals + 1, '0')
  const cut = digits.length - decimals
  const fraction = digits.slice(cut).replace(/0+$/, '')
  return `${ticks < 0 ? '-' : ''}${digits.slice(0, cut)}${fraction === '' ? '' : `.${fraction}`}`
}

/** Inches as a plain number, for sums on screen. @example inchesFromUm(25_400) //=> 1 */
export const inchesFromUm = (valueUm: number): number => valueUm / 1000 / MM_PER_INCH
