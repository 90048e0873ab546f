/**
 * Numbers that a link offers to a design: they stand in its fields as a draft, unsaved, until someone saves or puts
 * them back. In a link: `try=ID:VALUE`, any number of times; mm, degrees. What the design does not know, or does not
 * allow, is dropped. Tests: tests/shop/design-draft.test.ts
 */
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import type { LengthUnit } from '#lib/core/units/inches'
import { parameterText } from './typed-parameters'

export const DRAFT_KEY = 'try'

/** @example draftQuery({ legWidth: 50, joint: 'letIn' }) //=> 'try=legWidth%3A50&try=joint%3AletIn' */
export const draftQuery = (values: ParameterValues): string =>
  new URLSearchParams(Object.entries(values).map(([id, value]) => [DRAFT_KEY, `${id}:${value}`])).toString()

/** More than this in one link is no draft. */
const MOST_OFFERED = 60

/** What a link offers, of what the design allows. @param entries of `try`: as a page's address gives them */
export function readDraft(
  specs: readonly ParameterSpec[],
  entries: string | readonly string[] | undefined,
): ParameterValues {
  const list = entries === undefined ? [] : typeof entries === 'string' ? [entries] : entries
  const values: Record<string, number | string> = {}
  for (const entry of list.slice(0, MOST_OFFERED)) {
    const at = entry.indexOf(':')
    const spec = specs.find(({ id }) => id === entry.slice(0, at))
    const text = entry.slice(at + 1)
    if (spec === undefined || text === '') continue
    const read = readParameters([spec], { [spec.id]: spec.unit === 'choice' ? text : Number(text) })
    if (read.ok) values[spec.id] = read.value[spec.id]
  }
  return values
}

/** The same as it would be typed. In inches a length keeps its millimetres, since a fraction would change it. */
export function draftTexts(
  specs: readonly ParameterSpec[],
  values: ParameterValues,
  units: LengthUnit,
): Record<string, string> {
  const texts = specs.flatMap((spec) => {
    const value = values[spec.id]
    if (value === undefined) return []
    const isExact = spec.unit === 'mm' && units === 'in'
    return [[spec.id, isExact ? `${value} mm` : parameterText(spec, value, units)] as const]
  })
  return Object.fromEntries(texts)
}
