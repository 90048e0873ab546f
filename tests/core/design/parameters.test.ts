import { describe, expect, it } from 'vitest'
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'

const specs: readonly ParameterSpec[] = [
  {
    id: 'height',
    label: 'Height',
    group: 'g',
    unit: 'mm',
    default: 900,
    min: 100,
    max: 1000,
    help: '',
    rangeReason: 'Why.',
  },
  { id: 'count', label: 'Count', group: 'g', unit: 'count', default: 2, min: 1, max: 4, help: '' },
  {
    id: 'way',
    label: 'Way',
    group: 'g',
    unit: 'choice',
    default: 'a',
    options: [{ value: 'a', label: 'A' }],
    help: '',
  },
]
const refused = (values: unknown): string[] => {
  const read = readParameters(specs, values as ParameterValues)
  return read.ok ? [] : read.error.map((refusal) => refusal.parameter)
}

describe('reading parameters', () => {
  it('fills in defaults and keeps what was typed', () => {
    expect(readParameters(specs, { height: 500.5 })).toEqual({
      ok: true,
      value: { height: 500.5, count: 2, way: 'a' },
    })
  })

  it.each([
    [{ height: 'tall' }, 'height'],
    [{ height: '500' }, 'height'],
    [{ height: Number.NaN }, 'height'],
    [{ height: Number.POSITIVE_INFINITY }, 'height'],
    [{ height: null }, 'height'],
    [{ height: {} }, 'height'],
    [{ height: 99.99 }, 'height'],
    [{ height: -500 }, 'height'],
    [{ height: 1e308 }, 'height'],
    [{ count: 1.5 }, 'count'],
    [{ way: 'b' }, 'way'],
    [{ way: 0 }, 'way'],
    [{ heigth: 500 }, 'heigth'],
    [{ constructor: 1 }, 'constructor'],
  ])('refuses %j by name', (values, parameter) => {
    expect(refused(values)).toEqual([parameter])
  })

  it('names every fault at once, with the range and its reason', () => {
    const read = readParameters(specs, { height: 5, count: 9, other: 1 })
    expect(read.ok).toBe(false)
    if (read.ok) return
    expect(read.error.map((refusal) => refusal.parameter).sort()).toEqual(['count', 'height', 'other'])
    const sentence = read.error.find((refusal) => refusal.parameter === 'height')?.message
    expect(sentence).toBe('Height must lie between 100 mm and 1000 mm; it is 5 mm. Why.')
  })
})
