import { beforeAll, expect, test } from 'vitest'
import { ofBuild } from '#lib/data/variant-sheet'
import { make, save } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { build, member, seatBoards, shop, variant } from './arrange'
import { must } from './arrange-build'
import { plannedFor } from './work-out'

let maker: Actor

beforeAll(async () => {
  await shop({ softwoodPerM3Minor: 60_000 })
  maker = await member('member', 'Noor')
})

test('the last cut plan of each variant says whether the pool yields its parts, and when the numbers have changed', async () => {
  const { id: buildId } = await build(maker)
  const { id: firstId } = await variant(buildId, { name: 'First' })
  await seatBoards(maker, { terms: 'mine' })
  await plannedFor(maker, buildId)
  must(await make(maker, { fromId: firstId, name: 'Second' }))
  const sheet = async () => must(await ofBuild(await member(), { buildId }))
  const [first, second] = (await sheet()).variants
  expect([first.name, first.chosen, second.name, second.chosen]).toEqual(['First', true, 'Second', false])
  expect(first.plan).toMatchObject({ isOlder: false, isUnfinished: false })
  expect(first.plan!.wanted).toBeGreaterThan(10)
  expect(first.plan!.placed).toBe(first.plan!.wanted)
  expect(second.plan).toBeNull()
  must(await save(maker, { variantId: firstId, version: 1, parameters: { abreast: 1, counterHeight: 960 } }))
  expect((await sheet()).variants[0].plan?.isOlder).toBe(true)
})

test('the shop’s own figures come with it, and who may do what', async () => {
  const { id: buildId } = await build(maker)
  await variant(buildId)
  const mine = must(await ofBuild(maker, { buildId }))
  expect(mine.shop.prices).toEqual({
    currency: 'EUR',
    softwoodPerM3Minor: 60_000,
    hardwoodPerM3Minor: null,
  })
  expect(mine).toMatchObject({ mayChange: true, isOpen: true, partsMade: 0, boardsHeld: 0 })
  expect(must(await ofBuild(await member(), { buildId })).mayChange).toBe(false)
})
