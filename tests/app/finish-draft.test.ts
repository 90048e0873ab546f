import { expect, test } from 'vitest'
import { type FinishPlan, usualCoating } from '#lib/core/finish/finish-plan'
import { draftOf, faultsOf, freshId, planOf, withKind } from '../../app/builds/[id]/finish/draft'
import { sayHours, sayLitres, sayTape } from '../../app/builds/[id]/finish/say-finish'

const plan: FinishPlan = {
  when: 'apart',
  regions: [
    {
      id: 'a',
      name: 'Legs',
      kinds: ['leg'],
      faces: ['edgeA', 'edgeB'],
      roles: ['paint'],
      coating: usualCoating('paint', '#123456'),
    },
    { id: 'b', name: 'Rest', kinds: [], faces: [], roles: [], coating: usualCoating('oil') },
  ],
}
const draft = draftOf(plan)

test('what is typed is the plan that it came from', () => expect(planOf(draft)).toEqual(plan))

test.each([
  ['coats', '2.5'],
  ['coats', ''],
  ['spread', '0'],
  ['hours', 'soon'],
] as const)('%s of «%s» is told at its field, and there is no plan', (field, typed) => {
  const [first, ...rest] = draft.regions
  const wrong = { ...first, [field]: typed }
  expect(Object.keys(faultsOf(wrong))).toEqual([field])
  expect(planOf({ ...draft, regions: [wrong, ...rest] })).toBeNull()
})

test('a comma is a decimal sign', () =>
  expect(
    planOf({ ...draft, regions: [{ ...draft.regions[0], spread: '8,5' }] })?.regions[0].coating.spreadM2PerL,
  ).toBe(8.5))

test('what stays bare needs no numbers; another product brings its own', () => {
  const bare = withKind({ ...draft.regions[0], coats: 'x' }, 'bare')
  expect(faultsOf({ ...bare, coats: 'x' })).toEqual({})
  expect(withKind(draft.regions[0], 'varnish')).toMatchObject({ coats: '3', spread: '11', hours: '6' })
})

test('a new region has an id of its own', () => {
  const taken = [{ ...draft.regions[0], id: 'region-3' }, draft.regions[1]]
  expect(taken.map((r) => r.id)).not.toContain(freshId(taken))
})

// 1 US fl oz = 29.57353 ml, 32 to a quart.
test('amounts as they are said', () => {
  expect(sayLitres(0.137, 'mm')).toBe('140 ml')
  expect(sayLitres(0.004, 'mm')).toBe('4 ml')
  expect(sayLitres(1.26, 'mm')).toBe('1.3 l')
  expect(sayLitres(0.02957353, 'in')).toBe('1 fl oz')
  expect(sayLitres(0.946353, 'in')).toBe('1 qt')
  expect(sayHours(30)).toBe('30 h')
  expect(sayHours(72)).toBe('3 days')
  expect(sayTape(4120, 'mm')).toBe('4.1 m')
  expect(sayTape(304.8, 'in')).toBe('1 ft')
})
