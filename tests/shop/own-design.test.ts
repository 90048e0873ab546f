import { expect, test } from 'vitest'
import { mayChangeDesign, maySee, ownDesignName, ownVersionOf } from '#lib/shop/own-design'

const designId = '0b2f9c1e-5a7d-4f60-8e9a-1c2d3e4f5a6b'

test('a version has a name and is found by it', () => {
  expect(ownVersionOf(ownDesignName({ designId, number: 12 }))).toEqual({ designId, number: 12 })
})

test.each([
  'crate',
  'own:',
  `own:${designId}`,
  `own:${designId}@0`,
  `own:${designId}@-1`,
  `own:${designId}@1.5`,
  `own:${designId}@1;`,
  `own:${'-'.repeat(36)}@1`,
  `own:${designId.toUpperCase()}@1`,
])('«%s» names no version of a member’s design', (name) => expect(ownVersionOf(name)).toBeUndefined())

const owner = { memberId: 'o', role: 'member' } as const
const other = { memberId: 'x', role: 'member' } as const
const admin = { memberId: 'a', role: 'admin' } as const
test.each([
  [owner, 'mine', true, true],
  [owner, 'shop', true, true],
  [other, 'mine', false, false],
  [other, 'shop', true, false],
  [admin, 'mine', false, false],
  [admin, 'shop', true, true],
] as const)('%o of a design that is %s', (actor, sharing, sees, changes) => {
  expect(maySee(actor, { ownerId: 'o', sharing })).toBe(sees)
  expect(mayChangeDesign(actor, { ownerId: 'o', sharing })).toBe(changes)
})
