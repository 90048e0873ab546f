import { expect, test } from 'vitest'
import { sayFigure } from '#lib/format/figure'

test('figures in millimetres and in inches', () => {
  expect(sayFigure({ value: 596.44, unit: 'mm' }, 'mm')).toBe('596.4 mm')
  expect(sayFigure({ value: 914.4, unit: 'mm' }, 'in')).toBe('36"')
  expect(sayFigure({ value: (8 * Math.PI) / 180, unit: 'rad' }, 'in')).toBe('8°')
  // One pound is 0.45359237 kg and a square foot 0.09290304 m2, exactly (international yard and pound, 1959).
  expect(sayFigure({ value: 4.5359237, unit: 'kg' }, 'in')).toBe('10 lb')
  expect(sayFigure({ value: 4.54, unit: 'kg' }, 'mm')).toBe('4.54 kg')
  expect(sayFigure({ value: 929_030.4, unit: 'mm2' }, 'in')).toBe('10 ft²')
  expect(sayFigure({ value: 929_030.4, unit: 'mm2' }, 'mm')).toBe('0.93 m²')
  expect(sayFigure({ value: 24, unit: 'count' }, 'mm')).toBe('24')
})
