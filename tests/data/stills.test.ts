import { beforeAll, expect, test } from 'vitest'
import { database } from '#lib/data/client'
import { addToVariant, ofBuild as commentsOf } from '#lib/data/comments'
import { file, ofBuild, remove, show } from '#lib/data/stills'
import { make, open, remove as removeVariant, save } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'
import { onePixel } from './one-pixel'

let maker: Actor
let other: Actor

beforeAll(async () => {
  await shop()
  ;[maker, other] = [await member('member', 'Noor'), await member('member', 'Piet')]
})

async function withVariant() {
  const buildId = await started(maker)
  const { id: fromId } = must(await open(maker, { buildId }))
  const { variantId } = must(await make(maker, { fromId, name: 'Second' }))
  return { buildId, variantId }
}

const still = (variantId: string, over: object = {}) => ({
  ...{ variantId, version: 1, caption: 'Taken apart', png: onePixel() },
  ...over,
})

test('anyone shows a picture of a variant, and all see it; other numbers later say so', async () => {
  const { buildId, variantId } = await withVariant()
  const { stillId } = must(await show(other, still(variantId)))
  const list = async (who: Actor) => must(await ofBuild(who, { buildId }))
  expect(await list(maker)).toMatchObject([
    { id: stillId, variantId, caption: 'Taken apart', memberName: 'Piet', widthPx: 1, mayRemove: false },
  ])
  expect((await list(other))[0]).toMatchObject({ mayRemove: true, isOlder: false })
  expect(must(await file(maker, { stillId }))).toEqual(onePixel())
  must(await save(maker, { variantId, version: 1, parameters: { rake: 4 } }))
  expect((await list(maker))[0].isOlder).toBe(true)
})

test('a place on it is commented on; taken back, its bytes are gone and what was said stays', async () => {
  const { buildId, variantId } = await withVariant()
  const { stillId } = must(await show(other, still(variantId)))
  const place = { view: stillId, x: 0.5, y: 0.25 }
  must(await addToVariant(maker, { variantId, version: 1, body: 'This gap?', place }))
  expect(must(await commentsOf(other, { buildId, variantId }))).toMatchObject([{ place }])
  const stranger = await remove(maker, { stillId })
  expect(stranger.ok ? '' : stranger.error.code).toBe('notFound')
  must(await remove(other, { stillId }))
  expect((await remove(other, { stillId })).ok).toBe(false)
  expect((await file(other, { stillId })).ok).toBe(false)
  expect(must(await ofBuild(maker, { buildId }))).toEqual([])
  const kept = await database().still.findUniqueOrThrow({ where: { id: stillId } })
  expect(kept.png).toBeNull()
  expect(must(await commentsOf(other, { buildId, variantId }))).toMatchObject([{ body: 'This gap?', place }])
  const late = await addToVariant(maker, { variantId, version: 1, body: 'Too late.', place })
  expect(late.ok ? '' : late.error.code).toBe('notFound')
})

test.each(['keeper', 'admin'] as const)('a %s takes back any', async (role) => {
  const { variantId } = await withVariant()
  const { stillId } = must(await show(other, still(variantId)))
  must(await remove(await member(role), { stillId }))
})

test('a place on a still of another variant is none', async () => {
  const [a, b] = [await withVariant(), await withVariant()]
  const { stillId } = must(await show(other, still(a.variantId)))
  const place = { view: stillId, x: 0.5, y: 0.5 }
  const said = await addToVariant(other, { variantId: b.variantId, version: 1, body: 'Here.', place })
  expect(said.ok ? '' : said.error.code).toBe('notFound')
})

test.each([
  ['a page under the name of a picture', { png: new TextEncoder().encode('<script>alert(1)</script>') }],
  ['text instead of bytes', { png: 'PNG' }],
  ['no caption', { caption: '  ' }],
  ['a caption of 121 characters', { caption: 'x'.repeat(121) }],
])('%s: refused', async (_, over) => {
  const { variantId } = await withVariant()
  const shown = await show(other, still(variantId, over))
  expect(shown.ok ? '' : shown.error.code).toBe('badInput')
})

test('of numbers that are not there yet, of a build that has ended, of a variant that was taken away: refused', async () => {
  const { buildId, variantId } = await withVariant()
  const ahead = await show(other, still(variantId, { version: 2 }))
  expect(ahead.ok ? '' : ahead.error.code).toBe('notFound')
  const { stillId } = must(await show(other, still(variantId)))
  must(await removeVariant(maker, { variantId }))
  expect((await file(other, { stillId })).ok).toBe(false)
  expect((await show(other, still(variantId))).ok).toBe(false)
  const { id: chosenId } = must(await open(maker, { buildId }))
  await database().build.update({ where: { id: buildId }, data: { finishedAt: new Date() } })
  const closed = await show(other, still(chosenId))
  expect(closed.ok ? '' : closed.error.code).toBe('buildClosed')
})

test('24 a build, however many are sent at once; one taken back makes room', async () => {
  const { buildId, variantId } = await withVariant()
  for (let i = 0; i < 20; i++) must(await show(other, still(variantId)))
  const rest = await Promise.all(Array.from({ length: 8 }, () => show(other, still(variantId))))
  expect(rest.filter((r) => r.ok)).toHaveLength(4)
  expect(new Set(rest.flatMap((r) => (r.ok ? [] : [r.error.code])))).toEqual(new Set(['tooMany']))
  const [first] = must(await ofBuild(other, { buildId }))
  must(await remove(other, { stillId: first.id }))
  must(await show(other, still(variantId)))
  expect(must(await ofBuild(other, { buildId }))).toHaveLength(24)
})

test('the database itself refuses what is no picture, has no room, or is kept after it was taken back', async () => {
  const { buildId, variantId } = await withVariant()
  const row = {
    ...{ buildId, variantId, variantVersion: 1, memberId: other.memberId, slot: 1, caption: 'x' },
    ...{ widthPx: 1, heightPx: 1, png: onePixel() },
  }
  for (const bad of [
    { png: new TextEncoder().encode('<script>') },
    { png: new Uint8Array(4 * 1024 * 1024 + 1).fill(0) },
    { png: null },
    { deletedAt: new Date() },
    { slot: 25 },
    { slot: 0 },
    { caption: ' ' },
    { widthPx: 5000 },
    { buildId: (await withVariant()).buildId },
  ])
    await expect(database().still.create({ data: { ...row, ...bad } })).rejects.toThrow()
  const made = await database().still.create({ data: row })
  await expect(database().still.create({ data: row })).rejects.toThrow()
  const of = { buildId, variantId, variantVersion: 1, memberId: other.memberId, body: 'x', x: 0.5, y: 0.5 }
  await expect(
    database().comment.create({ data: { ...of, view: 'side', stillId: made.id } }),
  ).rejects.toThrow()
  await database().comment.create({ data: { ...of, stillId: made.id } })
})
