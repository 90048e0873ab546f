import { beforeAll, expect, test } from 'vitest'
import { add, ofBuild, remove } from '#lib/data/comments'
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

test('each takes back their own, an admin any, and nobody twice', async () => {
  const buildId = await started(maker)
  const { commentId } = must(await add(other, { buildId, body: 'Hm.' }))
  const stranger = await remove(maker, { commentId })
  expect(stranger.ok ? '' : stranger.error.code).toBe('notFound')
  must(await remove(other, { commentId }))
  expect((await remove(other, { commentId })).ok).toBe(false)
  const second = must(await add(other, { buildId, body: 'Hm again.' }))
  must(await remove(await member('admin'), second))
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
