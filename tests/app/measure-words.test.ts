import { expect, test } from 'vitest'
import { fileName } from '../../app/ui/model-view/save-picture'
import { sayMeasured } from '../../app/ui/model-view/say-measure'

const along = (value: number) => ({
  kind: 'distance' as const,
  value,
  from: [0, 0, 0] as const,
  to: [1, 0, 0] as const,
})
const turned = (degrees: number) => ({ ...along((degrees * Math.PI) / 180), kind: 'angle' as const })

test('lengths in the unit of who measures', () => {
  expect(sayMeasured(along(450), 'mm')).toBe('450 mm')
  expect(sayMeasured(along(450.04), 'mm')).toBe('450 mm')
  expect(sayMeasured(along(25.4 * 17.75), 'in')).toBe('17 3/4"')
})

test('an angle and what makes it up to two right ones', () => {
  expect(sayMeasured(turned(90), 'mm')).toBe('90°')
  expect(sayMeasured(turned(80), 'mm')).toBe('80° (or 100°)')
  expect(sayMeasured(turned(8.12), 'mm')).toBe('8.12° (or 171.88°)')
})

test('a picture is named after its piece', () => {
  expect(fileName('Seats for the kitchen counter')).toBe('seats-for-the-kitchen-counter.png')
  expect(fileName('  Hyllä № 2/3 ')).toBe('hyllä-2-3.png')
  expect(fileName('…')).toBe('model.png')
})
