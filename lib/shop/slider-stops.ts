/**
 * How far one number of a design may go, the others staying as they are, before the design refuses. In: a design,
 * values that it builds, a parameter with a range. Out: the last values that are good on either side, and the sentence
 * that refuses beyond. Method: a dozen looks from the present value to each end of the range, then halving, on
 * the parameter's own steps; a gap narrower than the way between two looks may be missed. Tests: tests/shop/slider-stops.test.ts
 */
import type { Design, ParameterSpec, ParameterValues } from '#lib/core/design/model'

export interface SliderStop {
  readonly value: number
  /** What the design says beyond it; absent: the parameter's own range ends here. */
  readonly why?: string
}

export interface SliderStops {
  readonly low: SliderStop
  readonly high: SliderStop
}

const LOOKS = 12
/** Where a parameter names no step of its own. */
const FINE = 1

/** A parameter that a slider can show: a number between two ends. */
export const hasSlider = (
  spec: ParameterSpec,
): spec is ParameterSpec & { readonly min: number; readonly max: number } =>
  spec.unit !== 'choice' && spec.min !== undefined && spec.max !== undefined && spec.min < spec.max

/** The present value, then every whole step on the way to the end, then the end. */
function waysTo(from: number, end: number, step: number): { readonly count: number; at(i: number): number } {
  const way = end > from ? 1 : -1
  const slack = 1e-6 * way
  const first = way > 0 ? Math.floor(from / step + slack) + 1 : Math.ceil(from / step + slack) - 1
  const last = way > 0 ? Math.ceil(end / step - slack) - 1 : Math.floor(end / step - slack) + 1
  const between = Math.max(0, way * (last - first) + 1)
  const at = (i: number): number => {
    if (i === 0) return from
    return i > between ? end : Number(((first + way * (i - 1)) * step).toFixed(6))
  }
  return { count: end === from ? 0 : between + 1, at }
}

/** The last good value from `from` towards `end`. */
function stopTowards(
  refusal: (value: number) => string | null,
  from: number,
  end: number,
  step: number,
): SliderStop {
  const { count, at } = waysTo(from, end, step)
  const looks = Math.min(LOOKS, count)
  let good = 0
  for (let look = 1; look <= looks; look++) {
    let bad = Math.round((count * look) / looks)
    let why = refusal(at(bad))
    if (why === null) {
      good = bad
      continue
    }
    while (bad - good > 1) {
      const middle = Math.floor((good + bad) / 2)
      const there = refusal(at(middle))
      if (there === null) good = middle
      else [bad, why] = [middle, there]
    }
    return { value: at(good), why }
  }
  return { value: end }
}

/**
 * @returns null where the present values make no piece
 * @example sliderStops(counterSeat, {}, rakeSpec)?.high.why //=> 'The feet …'
 */
export function sliderStops(
  design: Pick<Design, 'build'>,
  values: ParameterValues,
  spec: ParameterSpec,
): SliderStops | null {
  if (!hasSlider(spec)) throw new RangeError(`no slider for ${spec.id}`)
  const from = values[spec.id] ?? spec.default
  const refusal = (value: number): string | null => {
    const built = design.build({ ...values, [spec.id]: value })
    if (built.ok) return null
    return built.error[0]?.message ?? 'This makes no piece.'
  }
  if (typeof from !== 'number' || refusal(from) !== null) return null
  const step = spec.unit === 'count' ? 1 : (spec.step ?? FINE)
  const side = (end: number) => stopTowards(refusal, from, end, step)
  return { low: side(spec.min), high: side(spec.max) }
}
