import { expect, test } from 'vitest'
import { parseLength } from '#lib/core/units/inches'
import { sayLength, saySize, typedLength } from '#lib/format/length'

test('millimetres and inches', () => {
  expect(sayLength(1_611_313, 'mm')).toBe('1611.3 mm')
  expect(sayLength(1_611_313, 'in')).toBe('63 7/16"')
  // 3/4 in is 19.05 mm and 19 mm is 3/4 in to the nearest 32nd: international inch, exactly 25.4 mm (1959).
  expect(sayLength(19_000, 'in')).toBe('3/4"')
  expect(saySize([900_000, 90_000, 20_000], 'mm')).toBe('900 × 90 × 20 mm')
  expect(saySize([914_400, 88_900, 19_050], 'in')).toBe('36" × 3 1/2" × 3/4"')
})

test('what is offered for typing is read back as the same length', () => {
  for (const um of [19_050, 914_400, 1_611_313, 6_000, 12_345]) {
    expect(parseLength(typedLength(um, 'mm'), { unit: 'mm' })).toEqual({ ok: true, value: um })
  }
  for (const um of [19_050, 914_400, 25_400, 6_350]) {
    expect(parseLength(typedLength(um, 'in'), { unit: 'in' })).toEqual({ ok: true, value: um })
  }
})
