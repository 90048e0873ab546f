import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import {
  changedParameters,
  nearestStep,
  nudged,
  parameterText,
  readParameter,
  readParameterTexts,
  sayParameter,
} from '#lib/shop/typed-parameters'

const specs: readonly ParameterSpec[] = counterSeat.parameters
const spec = (id: string) => specs.find((s) => s.id === id)!
const height = spec('counterHeight')
const rake = spec('rake')
const defaults: ParameterValues = Object.fromEntries(specs.map((s) => [s.id, s.default]))

describe('reading', () => {
  test.each([
    // 36 in of 25.4 mm is 914.4 mm: international inch (1959).
    ['36', 'in', 914.4],
    ['36"', 'mm', 914.4],
    ['35 3/4', 'mm', 908.05],
    ['3\' 1/2"', 'in', 927.1],
    ['914.4', 'mm', 914.4],
    ['92 cm', 'in', 920],
    [' 900 ', 'mm', 900],
  ] as const)('%s in %s', (text, units, mm) => {
    expect(readParameter(height, text, units)).toEqual({ ok: true, value: mm })
  })

  test.each([
    ['counterHeight', 'abc', /not a length/],
    ['counterHeight', '', /Enter/],
    ['counterHeight', '-900', /negative/],
    ['counterHeight', '999999999', /100 m/],
    ['counterHeight', '5000', /5000 mm; the most is 1250 mm/],
    ['counterHeight', '100', /100 mm; the least is 650 mm/],
    ['rake', 'steep', /«steep» is not a number/],
    ['rake', '-3', /-3°; the least is 0°.*cross/],
    ['rake', '1e3', /not a number/],
    ['rake', '', /Enter the rake/],
    ['abreast', '2.5', /whole number/],
    ['abreast', '0', /least is 1/],
    ['finish', 'gold', /Choose/],
  ])('%s «%s»: a sentence', (id, text, sentence) => {
    const read = readParameter(spec(id), text, 'mm')
    expect(read.ok ? '' : read.error).toMatch(sentence)
    expect(read.ok ? '' : read.error).toMatch(/\.$/)
  })

  test('the range is said in the units of who reads it', () => {
    const read = readParameter(height, '100', 'in')
    expect(read.ok ? '' : read.error).toBe('Counter height is 100"; the most is 49 3/16".')
  })

  test('degrees and decimal commas', () => {
    expect(readParameter(rake, '7,5°', 'mm')).toEqual({ ok: true, value: 7.5 })
    expect(readParameter(rake, '\u22123', 'mm').ok).toBe(false)
  })
})

test('what is shown for a value and not touched gives the value exactly, in either unit', () => {
  const judged = { count: 0 }
  fc.assert(
    fc.property(fc.double({ min: 650, max: 1250, noNaN: true }), fc.constantFrom('mm', 'in'), (mm, units) => {
      judged.count++
      const text = parameterText(height, mm, units as 'mm')
      const read = readParameterTexts([height], { counterHeight: text }, { counterHeight: mm }, units as 'mm')
      expect(read).toEqual({ values: { counterHeight: mm }, faults: {} })
    }),
  )
  expect(judged.count).toBeGreaterThan(50)
})

test('all at once: good values, faults by name, the rest kept', () => {
  const typed = { counterHeight: '950', rake: 'abc', finish: 'paint' }
  const { values, faults } = readParameterTexts(specs, typed, defaults, 'mm')
  expect(values).toMatchObject({ counterHeight: 950, finish: 'paint', seatWidth: defaults.seatWidth })
  expect(Object.keys(faults)).toEqual(['rake'])
  expect('rake' in values).toBe(false)
  expect(changedParameters(specs, { ...defaults, ...values }, defaults).map((s) => s.id)).toEqual([
    'counterHeight',
    'finish',
  ])
})

describe('steps', () => {
  const up = { steps: 1, big: false, units: 'mm' } as const
  const down = { steps: -1, big: false, units: 'mm' } as const

  test('go to the next whole step and stop at the range', () => {
    expect(nudged(height, 914.4, up)).toBe(915)
    expect(nudged(height, 914.4, down)).toBe(914)
    expect(nudged(height, 915, up)).toBe(916)
    expect(nudged(height, 914.4, { ...up, big: true })).toBe(920)
    expect(nudged(height, 1250, up)).toBe(1250)
    expect(nudged(rake, 0.3, down)).toBe(0)
    expect(nudged(rake, 0, down)).toBe(0)
    expect(nudged(rake, 8, up)).toBe(8.5)
    expect(nudged(spec('abreast'), 2, { ...up, big: true })).toBe(3)
  })

  test('are sixteenths and halves in inches', () => {
    expect(parameterText(height, nudged(height, 914.4, { ...up, units: 'in' }), 'in')).toBe('36 1/16')
    expect(parameterText(height, nudged(height, 914.4, { ...up, units: 'in', big: true }), 'in')).toBe(
      '36 1/2',
    )
  })

  test('up and down again is where it began, from a whole step', () => {
    for (const s of specs) {
      if (s.unit === 'choice' || s.min === undefined || s.max === undefined) continue
      const from = nudged(s, (s.min + s.max) / 2, up)
      expect(nudged(s, nudged(s, from, up), down)).toBeCloseTo(from, 6)
    }
  })
})

test('said with their units', () => {
  expect(sayParameter(rake, 8, 'mm')).toBe('8°')
  expect(sayParameter(height, 914.4, 'in')).toBe('36"')
  expect(sayParameter(spec('abreast'), 2, 'mm')).toBe('2')
  expect(sayParameter(spec('finish'), 'paint', 'mm')).toBe('paint: filled holes are hidden')
})

test.each([
  ['half degrees', { unit: 'deg', step: 0.5 }, 7.31, 'mm', 7.5],
  ['whole millimetres', { unit: 'mm', step: 1 }, 99.4, 'mm', 99],
  ['sixteenths of an inch', { unit: 'mm', step: 1 }, 25.9, 'in', 25.4],
  ['the end of the range', { unit: 'mm', step: 7 }, 149, 'mm', 150],
] as const)('a slider stands on whole steps: %s', (_, over, value, units, step) => {
  const spec = { id: 'a', label: 'A', group: '', default: 0, min: 0, max: 150, help: '', ...over }
  expect(nearestStep(spec, value, units)).toBe(step)
})
