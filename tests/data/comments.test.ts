import { beforeAll, expect, test } from 'vitest'
import { database } from '#lib/data/client'
import { add, addToVariant, ofBuild, remove } from '#lib/data/comments'
import { make, open, remove as removeVariant, save } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor
let other: Actor

beforeAll(async () => {
  await shop()
  ;[maker, other] = [await member('member', 'Noor'), await member('member', 'Piet')]
})

test('anyone of the shop comments; the oldest stands first', async () => {
  const buildId = await started(maker)
  must(await add(other, { buildId, body: '  The rake looks steep. ' }))
  must(await add(maker, { buildId, body: 'It clears the pipe.' }))
  const seen = must(await ofBuild(other, { buildId }))
  expect(seen.map((c) => [c.memberName, c.body, c.mayRemove])).toEqual([
    ['Piet', 'The rake looks steep.', true],
    ['Noor', 'It clears the pipe.', false],
  ])
})

test('each takes back their own, a keeper or an admin any, and nobody twice', async () => {
  const buildId = await started(maker)
  const { commentId } = must(await add(other, { buildId, body: 'Hm.' }))
  const stranger = await remove(maker, { commentId })
  expect(stranger.ok ? '' : stranger.error.code).toBe('notFound')
  must(await remove(other, { commentId }))
  expect((await remove(other, { commentId })).ok).toBe(false)
  const second = must(await add(other, { buildId, body: 'Hm again.' }))
  must(await remove(await member('admin'), second))
  const third = must(await add(other, { buildId, body: 'And again.' }))
  must(await remove(await member('keeper'), third))
  expect(must(await ofBuild(maker, { buildId }))).toEqual([])
})

test.each([
  ['nothing', '  \n '],
  ['4001 characters', 'x'.repeat(4001)],
])('%s is no comment', async (_, body) => {
  const result = await add(maker, { buildId: await started(maker), body })
  expect(result.ok ? '' : result.error.fields?.body).toMatch(/\.$/)
})

test('on a build that is not there', async () => {
  const result = await add(maker, { buildId: crypto.randomUUID(), body: 'Hello?' })
  expect(result.ok ? '' : result.error.code).toBe('notFound')
})

async function withVariant() {
  const buildId = await started(maker)
  const { id: fromId } = must(await open(maker, { buildId }))
  const { variantId } = must(await make(maker, { fromId, name: 'Second' }))
  return { buildId, variantId }
}

test('about a part and a place on a picture; an older version of the numbers says so', async () => {
  const { buildId, variantId } = await withVariant()
  const place = { view: 'corner', x: 0.25, y: 0.75 }
  must(await addToVariant(other, { variantId, version: 1, body: 'Thin.', partId: 'seat1-board-1', place }))
  must(await add(other, { buildId, body: 'On the whole, fine.' }))
  const about = async () => must(await ofBuild(maker, { buildId, variantId }))
  expect(await about()).toMatchObject([
    { partId: 'seat1-board-1', place, variant: { name: 'Second', isOlder: false, isGone: false } },
  ])
  must(await save(maker, { variantId, version: 1, parameters: { rake: 4 } }))
  expect((await about())[0].variant?.isOlder).toBe(true)
  must(await removeVariant(maker, { variantId }))
  const all = must(await ofBuild(maker, { buildId }))
  expect(all.map((c) => [c.body, c.variant?.isGone])).toEqual([
    ['Thin.', true],
    ['On the whole, fine.', undefined],
  ])
  expect((await addToVariant(other, { variantId, version: 1, body: 'Too late.' })).ok).toBe(false)
})

test.each([
  ['a part that is not there', { partId: 'wheel' }],
  ['a picture that is not there', { place: { view: 'below', x: 0, y: 0 } }],
  ['a place off the picture', { place: { view: 'side', x: 1.2, y: 0 } }],
  ['half a place', { place: { view: 'side', x: 0.5 } }],
])('%s: refused', async (_, more) => {
  const { variantId } = await withVariant()
  const result = await addToVariant(other, { variantId, version: 1, body: 'Here.', ...more })
  expect(result.ok ? '' : result.error.code).toBe('badInput')
})

test('the database itself wants a whole place, inside the picture, of a variant of the build', async () => {
  const [a, b] = [await withVariant(), await withVariant()]
  const row = { buildId: a.buildId, memberId: other.memberId, body: 'x' }
  const of = { variantId: a.variantId, variantVersion: 1 }
  for (const bad of [
    { ...of, view: 'side', x: 0.5 },
    { ...of, view: 'side', x: 0.5, y: 1.5 },
    { view: 'side', x: 0.5, y: 0.5 },
    { partId: 'seat1-board-1' },
    { variantId: a.variantId },
    { variantId: b.variantId, variantVersion: 1 },
  ])
    await expect(database().comment.create({ data: { ...row, ...bad } })).rejects.toThrow()
})
