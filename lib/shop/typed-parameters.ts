/**
 * A design's parameters as they are typed: text in the person's units to values and back, a sentence for what cannot
 * be read. Used in the page as someone types; the design itself judges what the values make.
 * In: specs (mm, degrees), text. Out: values in the specs' units. A text that still is what was shown for a value gives
 * that value exactly, however it was rounded for showing. Pure, small: no schema library.
 * Tests: tests/shop/typed-parameters.test.ts
 */
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import {
  formatInches,
  formatMm,
  type LengthUnit,
  lengthProblemSentence,
  parseLength,
} from '#lib/core/units/inches'
import { MM_PER_INCH, mmFromUm, umFromMm } from '#lib/core/units/length'
import { err, ok, type Result } from '#lib/core/units/result'

const FINE_BELOW_MM = 2 * MM_PER_INCH
const INCH_STEP_MM = MM_PER_INCH / 16
const BIG_INCH_STEP_MM = MM_PER_INCH / 2
const BIG = 10

const inInches = (valueMm: number): string =>
  formatInches(umFromMm(valueMm), { denominator: Math.abs(valueMm) < FINE_BELOW_MM ? 32 : 16 })

/** As it stands in its field, without the unit. @example parameterText(heightSpec, 914.4, 'in') //=> '36' */
export function parameterText(spec: ParameterSpec, value: number | string, units: LengthUnit): string {
  if (typeof value === 'string') return value
  if (spec.unit !== 'mm') return String(Number(value.toFixed(3)))
  return units === 'in' ? inInches(value).replace('"', '') : formatMm(umFromMm(value), { decimals: 3 })
}

/** As a sentence says it, with the unit. @example sayParameter(rakeSpec, 8, 'mm') //=> '8°' */
export function sayParameter(spec: ParameterSpec, value: number | string, units: LengthUnit): string {
  if (spec.unit === 'choice') return spec.options?.find((o) => o.value === value)?.label ?? String(value)
  const text = parameterText(spec, value, units)
  if (spec.unit === 'mm') return units === 'in' ? `${text}"` : `${text} mm`
  return spec.unit === 'deg' ? `${text}°` : text
}

function readNumber(text: string, spec: ParameterSpec): Result<number, string> {
  const plain = text.replace(/\u2212/g, '-').replace(/\s*°$/, '')
  if (plain === '') return err(`Enter the ${spec.label.toLowerCase()}.`)
  if (!/^[+-]?(?:\d{1,9}(?:[.,]\d{0,6})?|[.,]\d{1,6})$/.test(plain))
    return err(`«${text.slice(0, 20)}» is not a number. Write it like ${spec.default}.`)
  const value = Number(plain.replace(',', '.'))
  if (spec.unit === 'count' && !Number.isInteger(value)) return err(`${spec.label}: a whole number.`)
  return ok(value)
}

function readLength(text: string, units: LengthUnit): Result<number, string> {
  const length = parseLength(text, { unit: units })
  return length.ok ? ok(mmFromUm(length.value)) : err(lengthProblemSentence(length.error))
}

function rangeFault(spec: ParameterSpec, value: number, units: LengthUnit): string | null {
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = spec
  if (value >= min && value <= max) return null
  const say = (v: number) => sayParameter(spec, v, units)
  const range =
    value < min
      ? `${spec.label} is ${say(value)}; the least is ${say(min)}.`
      : `${spec.label} is ${say(value)}; the most is ${say(max)}.`
  return spec.rangeReason ? `${range} ${spec.rangeReason}` : range
}

/** One parameter from its field. @example readParameter(heightSpec, '36', 'in') //=> { ok: true, value: 914.4 } */
export function readParameter(
  spec: ParameterSpec,
  text: string,
  units: LengthUnit,
): Result<number | string, string> {
  if (spec.unit === 'choice')
    return spec.options?.some((o) => o.value === text) ? ok(text) : err('Choose one of them.')
  const value = spec.unit === 'mm' ? readLength(text.trim(), units) : readNumber(text.trim(), spec)
  if (!value.ok) return value
  const fault = rangeFault(spec, value.value, units)
  return fault ? err(fault) : value
}

export interface TypedParameters {
  /** Of what could be read. */
  readonly values: ParameterValues
  /** A sentence by parameter. */
  readonly faults: Readonly<Record<string, string>>
}

/** @param saved what the fields were filled from; a parameter without a text keeps it */
export function readParameterTexts(
  specs: readonly ParameterSpec[],
  typed: Readonly<Record<string, string>>,
  saved: ParameterValues,
  units: LengthUnit,
): TypedParameters {
  const values: Record<string, number | string> = {}
  const faults: Record<string, string> = {}
  for (const spec of specs) {
    const kept = saved[spec.id] ?? spec.default
    const text = typed[spec.id]
    if (text === undefined || text.trim() === parameterText(spec, kept, units)) {
      values[spec.id] = kept
      continue
    }
    const read = readParameter(spec, text, units)
    if (read.ok) values[spec.id] = read.value
    else faults[spec.id] = read.error
  }
  return { values, faults }
}

/**
 * A step up or down, on whole steps and inside the range: what arrow keys and the two buttons do.
 * @param steps 1 or -1; `big` for ten times as much, half an inch in inches
 */
export function nudged(
  spec: ParameterSpec,
  value: number,
  options: { readonly steps: 1 | -1; readonly big: boolean; readonly units: LengthUnit },
): number {
  const { steps, big, units } = options
  const isInches = spec.unit === 'mm' && units === 'in'
  const fine = fineStep(spec, units)
  const step = !big ? fine : isInches ? BIG_INCH_STEP_MM : spec.unit === 'count' ? fine : fine * BIG
  const at = value / step
  const slack = 1e-6
  const next = steps > 0 ? Math.floor(at + slack) + 1 : Math.ceil(at - slack) - 1
  return inRange(spec, next * step)
}

const fineStep = (spec: ParameterSpec, units: LengthUnit): number =>
  spec.unit === 'mm' && units === 'in' ? INCH_STEP_MM : (spec.step ?? 1)

const inRange = (spec: ParameterSpec, value: number): number =>
  Number(Math.min(Math.max(value, spec.min ?? -Infinity), spec.max ?? Infinity).toFixed(6))

/** The whole step, or end of the range, nearest to a slider's place. @example nearestStep(rakeSpec, 7.31, 'mm') //=> 7.5 */
export function nearestStep(spec: ParameterSpec, value: number, units: LengthUnit): number {
  const step = fineStep(spec, units)
  const stops = [Math.round(value / step) * step, spec.min ?? value, spec.max ?? value]
  const away = (stop: number) => Math.abs(stop - value)
  return inRange(
    spec,
    stops.reduce((best, stop) => (away(stop) < away(best) ? stop : best)),
  )
}

/** Parameters whose values differ, in the order of the specs. */
export const changedParameters = (
  specs: readonly ParameterSpec[],
  a: ParameterValues,
  b: ParameterValues,
): ParameterSpec[] => specs.filter((s) => (a[s.id] ?? s.default) !== (b[s.id] ?? s.default))
