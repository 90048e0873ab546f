/** Random parameters for a design. */
import fc from 'fast-check'
import type { Design, ParameterSpec, ParameterValues } from '#lib/core/design/model'

/** Mostly its default, else somewhere about it, at times anywhere in its range. */
function arbitraryOf(spec: ParameterSpec): fc.Arbitrary<number | string> {
  if (spec.unit === 'choice') return fc.constantFrom(...spec.options!.map((option) => option.value))
  const [low, high, usual] = [spec.min!, spec.max!, Number(spec.default)]
  const number = (min: number, max: number): fc.Arbitrary<number> =>
    spec.unit === 'count'
      ? fc.integer({ min: Math.ceil(min), max: Math.floor(max) })
      : fc.double({ min, max, noNaN: true })
  const about = number(
    Math.max(low, usual - 0.25 * Math.abs(usual)),
    Math.min(high, usual + 0.3 * Math.abs(usual)),
  )
  return fc.oneof(
    { weight: 8, arbitrary: fc.constant(usual) },
    { weight: 4, arbitrary: about },
    { weight: 1, arbitrary: number(low, high) },
  )
}
/** Any set of them; the species is left open. */
export const parametersOf = (design: Design): fc.Arbitrary<ParameterValues> =>
  fc.record(
    Object.fromEntries(
      design.parameters.map((spec) => [
        spec.id,
        spec.id === 'species' ? fc.constant('any') : arbitraryOf(spec),
      ]),
    ),
  )
