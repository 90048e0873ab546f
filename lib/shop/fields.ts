/**
 * Typed text as values: what a form sends, read with zod, one clear sentence a field.
 * In: strings as typed (absent counts as empty). Out: whole micrometres, whole or decimal numbers, trimmed words.
 * A door reads its form with these in the units that the form was shown in, and calls lib/data with the numbers.
 * Tests: tests/shop/fields.test.ts
 */
import { z } from 'zod'
import {
  formatInches,
  formatMm,
  type LengthUnit,
  lengthProblemSentence,
  MAX_LENGTH_UM,
  parseLength,
} from '#lib/core/units/inches'
import { err, ok, type Result } from '#lib/core/units/result'
import { type Refusal, refusal } from './refusal'

/** One sentence a field, the first that is wrong with it. */
export function fieldsOf(error: z.ZodError): Record<string, string> {
  const fields: Record<string, string> = {}
  for (const issue of error.issues) fields[issue.path.join('.')] ??= issue.message
  return fields
}

/**
 * Reads what was typed into a form.
 * @example readTyped(z.object({ count: wholeNumberText({ what: 'number', min: 1, max: 20 }) }), { count: '4' })
 * //=> { ok: true, value: { count: 4 } }
 */
export function readTyped<T>(
  schema: z.ZodType<T>,
  typed: Readonly<Record<string, string>>,
): Result<T, Refusal> {
  const read = schema.safeParse(typed)
  return read.success ? ok(read.data) : err(refusal('badInput', { fields: fieldsOf(read.error) }))
}

const typed = () => z.string().prefault('')

/** The sentence that refuses, or the value. */
const asked = <T>(read: (text: string) => Result<T, string>) =>
  typed().transform((text, context) => {
    const value = read(text.trim())
    if (value.ok) return value.value
    context.addIssue({ code: 'custom', message: value.error })
    return z.NEVER
  })

const orNull = <T>(read: (text: string) => Result<T, string>) =>
  asked((text): Result<T | null, string> => (text === '' ? ok(null) : read(text)))

/** In which units the form was shown: what a bare number in it means. */
export const unitsText = z.enum(['mm', 'in'], 'Say whether you write millimetres or inches.')

export interface LengthTextOptions {
  /** What a bare number means, and what the sentence speaks in. */
  readonly units: LengthUnit
  /** As the sentence says it: «length», «height of the counter». */
  readonly what: string
  readonly minUm?: number
  readonly maxUm?: number
}

const sayLength = (valueUm: number, units: LengthUnit): string =>
  units === 'in' ? formatInches(valueUm, { denominator: 32 }) : `${formatMm(valueUm)} mm`

function readLength(text: string, options: LengthTextOptions): Result<number, string> {
  const { units, what, minUm = 0, maxUm = MAX_LENGTH_UM } = options
  const length = parseLength(text, { unit: units })
  if (!length.ok)
    return err(length.error === 'empty' ? `Enter the ${what}.` : lengthProblemSentence(length.error))
  const say = (valueUm: number) => sayLength(valueUm, units)
  if (length.value < minUm) return err(`The ${what} is ${say(length.value)}; the least is ${say(minUm)}.`)
  if (length.value > maxUm) return err(`The ${what} is ${say(length.value)}; the most is ${say(maxUm)}.`)
  return ok(length.value)
}

/** A length, in whole micrometres. @example lengthText({ units: 'mm', what: 'length' }).parse('63 7/16') //=> 1611313 */
export const lengthText = (options: LengthTextOptions) => asked((text) => readLength(text, options))

/** A length, or null where nothing was typed. */
export const optionalLengthText = (options: LengthTextOptions) => orNull((text) => readLength(text, options))

export interface NumberTextOptions {
  readonly what: string
  readonly min: number
  readonly max: number
}

function readWhole(text: string, { what, min, max }: NumberTextOptions): Result<number, string> {
  if (text === '') return err(`Enter the ${what}.`)
  if (!/^[+-]?\d{1,12}$/.test(text))
    return err(`Write the ${what} as a whole number, like ${Math.max(min, 1)}.`)
  const value = Number(text)
  return value < min || value > max ? err(`The ${what} is from ${min} to ${max}.`) : ok(value)
}

/** @example wholeNumberText({ what: 'number of boards', min: 1, max: 20 }).parse('4') //=> 4 */
export const wholeNumberText = (options: NumberTextOptions) => asked((text) => readWhole(text, options))
export const optionalWholeNumberText = (options: NumberTextOptions) =>
  orNull((text) => readWhole(text, options))

function readDecimal(text: string, { what, min, max }: NumberTextOptions): Result<number, string> {
  if (text === '') return err(`Enter the ${what}.`)
  const plain = text.replace(/\u2212/g, '-').replace(/\s*°$/, '')
  if (!/^[+-]?(?:\d{1,9}(?:[.,]\d{0,6})?|[.,]\d{1,6})$/.test(plain))
    return err(`Write the ${what} as a number, like ${Math.max(min, 1)} or ${Math.max(min, 1) + 0.5}.`)
  const value = Number(plain.replace(',', '.'))
  return value < min || value > max ? err(`The ${what} is from ${min} to ${max}.`) : ok(value)
}

/** A number with decimals, point or comma: angles, percentages. @example decimalText({ what: 'rake', min: 0, max: 30 }).parse('7,5°') //=> 7.5 */
export const decimalText = (options: NumberTextOptions) => asked((text) => readDecimal(text, options))
export const optionalDecimalText = (options: NumberTextOptions) =>
  orNull((text) => readDecimal(text, options))

const tooLong = (what: string, max: number) => `Keep the ${what} to ${max} characters.`

/** Words that must be there, trimmed. */
export const nameText = (what: string, max = 120) =>
  typed()
    .transform((text) => text.trim())
    .pipe(z.string().min(1, `Enter the ${what}.`).max(max, tooLong(what, max)))

/** Words that may be left out: '' then. Trimmed. */
export const noteText = (what: string, max = 2000) =>
  typed()
    .transform((text) => text.trim())
    .pipe(z.string().max(max, tooLong(what, max)))

/** A box that is ticked or not. */
export const checkText = typed().transform((text) => text !== '' && text !== 'false')

/** One of a few. @param message said when none of them was sent */
export const choiceText = <const V extends readonly [string, ...string[]]>(values: V, message: string) =>
  z.enum(values, message)

/** A number that the page itself sent along: a version, a count. */
export const hiddenNumber = z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER)
