import { beforeAll, expect, test } from 'vitest'
import { finish } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { ofBuild } from '#lib/data/variant-sheet'
import { make, open, remove, save } from '#lib/data/variants'
import { cast, takeBack } from '#lib/data/votes'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor
let piet: Actor

beforeAll(async () => {
  await shop()
  ;[maker, piet] = [await member('member', 'Noor'), await member('member', 'Piet')]
})

async function two() {
  const buildId = await started(maker)
  const { id: first } = must(await open(maker, { buildId }))
  const { variantId: second } = must(await make(maker, { fromId: first, name: 'Second' }))
  return { buildId, first, second }
}
const tally = async (buildId: string) =>
  must(await ofBuild(piet, { buildId })).variants.map((v) => [v.name, v.votes.map((n) => n.memberName)])

test('one voice a member; voting for another variant moves it; taking it back leaves none', async () => {
  const { buildId, first, second } = await two()
  must(await cast(piet, { variantId: first, version: 1 }))
  must(await cast(maker, { variantId: first, version: 1 }))
  must(await cast(piet, { variantId: second, version: 1 }))
  expect(await tally(buildId)).toEqual([
    ['First', ['Noor']],
    ['Second', ['Piet']],
  ])
  must(await takeBack(piet, { buildId }))
  expect(await tally(buildId)).toEqual([
    ['First', ['Noor']],
    ['Second', []],
  ])
  expect((await takeBack(piet, { buildId })).ok).toBe(false)
})

test('fifty votes of one member at once: one is there', async () => {
  const { buildId, first, second } = await two()
  const results = await Promise.all(
    Array.from({ length: 50 }, (_, i) => cast(piet, { variantId: i % 2 ? first : second, version: 1 })),
  )
  for (const r of results) if (!r.ok) expect(r.error.code).toBe('busy')
  expect(results.some((r) => r.ok)).toBe(true)
  expect(await database().vote.count({ where: { buildId } })).toBe(1)
})

test('thirty members at once: each voice is counted', async () => {
  const { buildId, first, second } = await two()
  const people = await Promise.all(Array.from({ length: 30 }, (_, i) => member('member', `M${i}`)))
  for (const r of await Promise.all(
    people.map((who, i) => cast(who, { variantId: i % 3 ? first : second, version: 1 })),
  ))
    must(r)
  expect((await tally(buildId)).map(([, names]) => names.length)).toEqual([20, 10])
})

test('a vote says when the numbers have changed since', async () => {
  const { buildId, second } = await two()
  must(await cast(piet, { variantId: second, version: 1 }))
  must(await save(maker, { variantId: second, version: 1, parameters: { rake: 4 } }))
  const seen = must(await ofBuild(piet, { buildId })).variants[1].votes
  expect(seen).toEqual([{ memberName: 'Piet', isMine: true, isOlder: true }])
})

test('not for a variant that is gone, of a build that is closed, or of a version to come', async () => {
  const { buildId, first, second } = await two()
  must(await cast(piet, { variantId: second, version: 1 }))
  expect((await cast(piet, { variantId: first, version: 2 })).ok).toBe(false)
  must(await remove(maker, { variantId: second }))
  expect(await database().vote.count({ where: { buildId } })).toBe(0)
  expect((await cast(piet, { variantId: second, version: 1 })).ok).toBe(false)
  must(await finish(maker, { buildId }))
  const closed = await cast(piet, { variantId: first, version: 1 })
  expect(closed.ok ? '' : closed.error.code).toBe('buildClosed')
})

test('the database itself keeps a vote to the variants of its build', async () => {
  const [a, b] = [await two(), await two()]
  const stray = database().vote.create({
    data: { buildId: a.buildId, variantId: b.first, memberId: piet.memberId, variantVersion: 1 },
  })
  await expect(stray).rejects.toThrow(/Vote_variantId_buildId_fkey|foreign key/i)
})
