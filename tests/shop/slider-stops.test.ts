import { describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { Design, ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { err } from '#lib/core/units/result'
import { hasSlider, sliderStops } from '#lib/shop/slider-stops'

const spec = (over: Partial<ParameterSpec> = {}): ParameterSpec => ({
  id: 'a',
  label: 'A',
  group: '',
  unit: 'mm',
  default: 50,
  min: 0,
  max: 100,
  step: 1,
  help: '',
  ...over,
})
/** Builds where `isGood`, and refuses with a sentence elsewhere. */
const rule = (isGood: (a: number) => boolean): Pick<Design, 'build'> => ({
  build: (values: ParameterValues) =>
    isGood(values.a as number)
      ? ({ ok: true, value: {} } as ReturnType<Design['build']>)
      : err([{ parameter: 'a', message: `No at ${values.a}.` }]),
})

describe('stops of a rule that is known', () => {
  test('the last whole step that is good, on both sides', () => {
    const stops = sliderStops(
      rule((a) => a > 17.3 && a < 81.9),
      { a: 50 },
      spec(),
    )!
    expect([stops.low.value, stops.high.value]).toEqual([18, 81])
    expect(stops.low.why).toMatch(/^No at /)
  })

  test('no rule in the way: the ends of the range, without a reason', () => {
    expect(
      sliderStops(
        rule(() => true),
        { a: 50 },
        spec(),
      ),
    ).toEqual({ low: { value: 0 }, high: { value: 100 } })
  })

  test('half steps and whole numbers', () => {
    const half = sliderStops(
      rule((a) => a < 60.7),
      { a: 50 },
      spec({ step: 0.5 }),
    )!
    expect(half.high.value).toBe(60.5)
    const whole = sliderStops(
      rule((a) => a < 4),
      { a: 2 },
      spec({ unit: 'count', min: 1, max: 12 }),
    )!
    expect([whole.low, whole.high.value]).toEqual([{ value: 1 }, 3])
  })

  test('a value between two steps next to its stop stays where it is', () => {
    const stops = sliderStops(
      rule((a) => a <= 50.4),
      { a: 50.4 },
      spec(),
    )!
    expect(stops.high.value).toBe(50.4)
  })

  test('values that make no piece have no stops; a choice has no slider', () => {
    expect(
      sliderStops(
        rule((a) => a > 60),
        { a: 50 },
        spec(),
      ),
    ).toBeNull()
    expect(hasSlider(spec({ unit: 'choice' }))).toBe(false)
    expect(() =>
      sliderStops(
        rule(() => true),
        {},
        spec({ unit: 'choice' }),
      ),
    ).toThrow(RangeError)
  })
})

describe.each(designs.map((d) => [d.id, d] as const))('%s', (_, design) => {
  test('every stop is itself good, and what lies a step beyond is refused', () => {
    let judged = 0
    // Every third: what is looked at is the search, not the rules of each design.
    for (const one of design.parameters.filter(hasSlider).filter((_, i) => i % 3 === 0)) {
      const stops = sliderStops(design, {}, one)!
      for (const [stop, way] of [
        [stops.low, -1],
        [stops.high, 1],
      ] as const) {
        const built = (value: number) => design.build({ [one.id]: value })
        expect(built(stop.value).ok, `${one.id} at ${stop.value}`).toBe(true)
        if (!stop.why) continue
        judged++
        const step = one.unit === 'count' ? 1 : (one.step ?? 1)
        // The next whole step: the design's own numbers need not lie on one.
        const next =
          way > 0 ? Math.floor(stop.value / step + 1e-6) + 1 : Math.ceil(stop.value / step - 1e-6) - 1
        const beyond = Math.min(Math.max(next * step, one.min), one.max)
        expect(built(beyond).ok, `${one.id} beyond ${stop.value}`).toBe(false)
      }
    }
    expect(judged).toBeGreaterThan(0)
  })
})
