// A build from its start to its last part, through the real actions; the facts are told after every step.
import { beforeAll, expect, test } from 'vitest'
import { overview } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { decide, hold } from '#lib/data/holds'
import { buildFacts } from '#lib/data/internal/build-facts'
import { chosen, save } from '#lib/data/variants'
import { clear, start as startWait } from '#lib/data/waits'
import type { Actor } from '#lib/shop/actor'
import { board, member, shop, station } from './arrange'
import { must, planned, started } from './arrange-build'

let maker: Actor
let owner: Actor
const HOUR = 3_600_000
const inHours = (h: number) => new Date(Date.now() + h * HOUR)

beforeAll(async () => {
  await shop()
  ;[maker, owner] = [await member('member', 'Noor'), await member('member', 'Piet')]
})

const look = async (buildId: string) => must(await overview(maker, { buildId }))

/** Thick sound planks, enough for two seats. */
async function pool(terms: 'free' | 'ask') {
  const size = { lengthUm: 2_400_000, widthUm: 240_000, thicknessUm: 45_000, terms }
  return Promise.all(Array.from({ length: 6 }, () => board(owner, size)))
}

test('from the first number to the last coat', async () => {
  await pool('free')
  await pool('ask')
  const buildId = await started(maker)
  expect(await look(buildId)).toMatchObject({ stage: 'design', next: { turn: { of: 'maker' } } })

  const variant = must(await chosen(maker, { buildId }))
  const parameters = { ...variant.parameters, abreast: 1 }
  must(await save(maker, { variantId: variant.id, version: 1, parameters }))
  expect(await look(buildId)).toMatchObject({ stage: 'plan', facts: { design: 'saved', plan: 'none' } })

  const { plan, input, planId } = await planned(maker, buildId)
  expect(plan.shortages).toEqual([])
  const used = [...new Set(plan.layouts.map((l) => input.boards[l.board]))]
  expect(used.length).toBeGreaterThan(0)
  expect(await look(buildId)).toMatchObject({
    stage: 'hold',
    facts: { plan: 'ready', boards: { planned: used.length, held: 0 }, parts: { short: 0, made: 0 } },
  })

  must(await hold(maker, { buildId, boards: used.map((b) => ({ boardId: b.id, version: b.version })) }))
  const asked = await database().hold.findMany({ where: { buildId, status: 'requested' } })
  for (const h of asked) must(await decide(owner, { holdId: h.id, yes: true }))
  expect(await look(buildId)).toMatchObject({ stage: 'book', facts: { boards: { held: used.length } } })

  const keeper = await member('keeper', 'Bram')
  const saw = await station(keeper, { needsApproval: true })
  const booking = await database().booking.create({
    data: { stationId: saw.id, memberId: maker.memberId, buildId, startAt: inHours(3), endAt: inHours(4) },
  })
  expect((await look(buildId)).next?.turn).toEqual({ of: 'keeper', names: ['Bram'] })
  await database().booking.update({ where: { id: booking.id }, data: { status: 'approved' } })
  expect((await look(buildId)).next?.turn).toEqual({ of: 'time', until: booking.startAt })
  const later = (await buildFacts([buildId], inHours(3.5))).get(buildId)
  expect(later?.bookings.next?.hasBegun).toBe(true)
  const past = (await buildFacts([buildId], inHours(5))).get(buildId)
  expect(past?.bookings).toMatchObject({ approved: 0, past: 1, next: null })

  // What recording the cutting leaves behind, board by board.
  const partIds = input.needs.flatMap((n) => n.partIds)
  for (const [i, b] of used.entries()) {
    const cut = await database().boardCut.create({
      data: { boardId: b.id, buildId, planId, memberId: maker.memberId, layout: {} },
    })
    await database().hold.updateMany({
      where: { boardId: b.id },
      data: { status: 'used', endedAt: new Date() },
    })
    await database().board.update({ where: { id: b.id }, data: { status: 'cut', version: { increment: 1 } } })
    if (i === 0)
      await database().partMade.createMany({
        data: partIds.map((partId) => ({
          buildId,
          boardCutId: cut.id,
          partId,
          lengthUm: 1,
          widthUm: 1,
          thicknessUm: 1,
        })),
      })
  }
  expect(await look(buildId)).toMatchObject({
    stage: 'assemble',
    facts: {
      boards: { cut: used.length, changed: 0 },
      parts: { made: partIds.length, total: partIds.length },
    },
  })

  const { waitId } = must(await startWait(maker, { buildId, kind: 'glue', hours: 24 }))
  expect(await look(buildId)).toMatchObject({ stage: 'drying', next: { turn: { of: 'time' } } })
  const tomorrow = (await buildFacts([buildId], inHours(25))).get(buildId)
  expect(tomorrow?.waits).toEqual({ running: [], ready: ['Glue'], cleared: 0 })
  must(await clear(maker, { waitId }))
  expect((await look(buildId)).next?.sentence).toBe('Nothing is drying. Carry on, or call it finished.')
})

test('a plan grows stale with the design, and boards change under it', async () => {
  const me = await member('member', 'Me')
  const mine = await Promise.all(
    Array.from({ length: 5 }, () =>
      board(me, { lengthUm: 2_400_000, widthUm: 240_000, thicknessUm: 45_000 }),
    ),
  )
  const buildId = await started(me)
  const { plan, input } = await planned(me, buildId)
  const [first, second] = plan.layouts.map((l) => input.boards[l.board])
  const facts = async () => (await buildFacts([buildId], new Date())).get(buildId)!
  expect((await facts()).plan).toBe('ready')
  expect(mine.length).toBe(5)

  await database().board.update({ where: { id: first.id }, data: { version: { increment: 1 } } })
  expect((await facts()).boards.changed).toBe(1)
  const rival = await started(other())
  await database().hold.create({
    data: {
      boardId: second.id,
      buildId: rival,
      memberId: me.memberId,
      status: 'live',
      expiresAt: inHours(9),
    },
  })
  expect((await facts()).boards.changed).toBe(2)
  expect((await buildFacts([buildId], inHours(10))).get(buildId)?.boards.changed).toBe(1)

  const variant = must(await chosen(me, { buildId }))
  must(await save(me, { variantId: variant.id, version: 1, parameters: { ...variant.parameters, rake: 5 } }))
  expect((await facts()).plan).toBe('stale')
  must(await save(me, { variantId: variant.id, version: 2, parameters: variant.parameters }))
  expect((await facts()).plan).toBe('ready')
})

const other = () => owner

test('an empty pool: parts are short, and named with their size', async () => {
  const me = await member('member', 'Poor')
  await database().board.updateMany({ where: { status: 'inPool' }, data: { terms: 'mine' } })
  const buildId = await started(me)
  const { plan, input } = await planned(me, buildId)
  expect(plan.layouts).toEqual([])
  const seen = must(await overview(me, { buildId }))
  const wanted = input.needs.reduce((sum, n) => sum + n.partIds.length, 0)
  expect(seen).toMatchObject({ stage: 'short', facts: { parts: { short: wanted, total: wanted } } })
  expect(seen.short.parts.reduce((sum, p) => sum + p.missing, 0)).toBe(wanted)
  expect(seen.short.parts.map((p) => p.sizeUm[0])).toEqual(input.needs.map((n) => n.roughLengthUm))
})

test('plans without an answer', async () => {
  const buildId = await started(maker)
  const { id: variantId } = must(await chosen(maker, { buildId }))
  const plan = (over: object) =>
    database().cutPlan.create({
      data: {
        buildId,
        variantId,
        memberId: maker.memberId,
        status: 'queued',
        inputHash: '-',
        input: {},
        seed: 1,
        seconds: 1,
        ...over,
      },
    })
  const state = async () => (await buildFacts([buildId], new Date())).get(buildId)?.plan
  expect(await state()).toBe('none')
  const queued = await plan({})
  expect(await state()).toBe('working')
  await database().cutPlan.update({ where: { id: queued.id }, data: { status: 'failed' } })
  expect(await state()).toBe('failed')
})

test('a build whose numbers make no piece', async () => {
  const buildId = await started(maker)
  await database().variant.updateMany({ where: { buildId }, data: { parameters: { rake: -40 } } })
  expect(await look(buildId)).toMatchObject({ stage: 'design', facts: { design: 'refused' } })
})

test('no builds, no queries; unknown ones are left out', async () => {
  expect(await buildFacts([], new Date())).toEqual(new Map())
  expect([...(await buildFacts(['00000000-0000-4000-8000-000000000000'], new Date()))]).toEqual([])
})
