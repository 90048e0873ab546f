/**
 * Reads what a maker typed against a design's parameter list. Nothing is clamped or guessed: a value that
 * cannot be used is refused by name, and a parameter that was left out takes its default.
 * Tests: tests/core/design/parameters.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'
import type { DesignRefusal, ParameterSpec, ParameterValues } from './model'

const UNIT_SIGN = { mm: ' mm', deg: '°', count: '', choice: '' } as const

/** As a person reads it. @example sayValue(12.5, 'mm') //=> '12.5 mm' */
export const sayValue = (value: number, unit: ParameterSpec['unit']): string =>
  `${Number(value.toFixed(2))}${UNIT_SIGN[unit]}`

function refuseNumber(spec: ParameterSpec, value: number | string): string | undefined {
  if (typeof value !== 'number' || !Number.isFinite(value)) return `${spec.label} must be a number.`
  if (spec.unit === 'count' && !Number.isInteger(value)) return `${spec.label} must be a whole number.`
  const low = spec.min ?? Number.NEGATIVE_INFINITY
  const high = spec.max ?? Number.POSITIVE_INFINITY
  if (value >= low && value <= high) return undefined
  const range = `${spec.label} must lie between ${sayValue(low, spec.unit)} and ${sayValue(high, spec.unit)}; it is ${sayValue(value, spec.unit)}.`
  return spec.rangeReason === undefined ? range : `${range} ${spec.rangeReason}`
}

function refuseChoice(spec: ParameterSpec, value: number | string): string | undefined {
  if ((spec.options ?? []).some((option) => option.value === value)) return undefined
  const known = (spec.options ?? []).map((option) => option.label).join(', ')
  return `${spec.label} must be one of: ${known}.`
}

/**
 * All parameters with a value each, or every refusal at once.
 * @example readParameters([{ id: 'a', label: 'A', group: '', unit: 'mm', default: 3, help: '' }], {}) //=> { ok: true, value: { a: 3 } }
 */
export function readParameters(
  specs: readonly ParameterSpec[],
  values: ParameterValues,
): Result<ParameterValues, readonly DesignRefusal[]> {
  const known = new Set(specs.map((spec) => spec.id))
  const refusals: DesignRefusal[] = Object.keys(values)
    .filter((id) => !known.has(id))
    .map((id) => ({ parameter: id, message: `This design has no parameter «${id}».` }))
  const read: Record<string, number | string> = {}
  for (const spec of specs) {
    const given = values[spec.id]
    const value = given === undefined ? spec.default : given
    const message = spec.unit === 'choice' ? refuseChoice(spec, value) : refuseNumber(spec, value)
    if (message !== undefined) refusals.push({ parameter: spec.id, message })
    read[spec.id] = value
  }
  return refusals.length > 0 ? err(refusals) : ok(read)
}
