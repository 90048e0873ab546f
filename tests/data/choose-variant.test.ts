// What follows when another variant is chosen under a cut plan, holds, ticks and parts that are cut already.
import { beforeAll, describe, expect, test } from 'vitest'
import { overview } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { ask, latest } from '#lib/data/cut-plans'
import { cutsOfBuild, recordCut } from '#lib/data/cutting'
import { hold } from '#lib/data/holds'
import { claimPlan, endPlan } from '#lib/data/internal/plan-life'
import { ofBuild as setupsOf, tick } from '#lib/data/setups'
import { choose, chosen, make, save } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { isStale } from '#lib/shop/plan-input'
import { build, member, seatBoards, shop, variant } from './arrange'
import { must } from './arrange-build'
import { plannedFor } from './work-out'

let maker: Actor

beforeAll(async () => {
  await shop()
  maker = await member('member', 'Noor')
})

/** A build of one seat by a maker of its own: `boards` that are theirs alone, planned and held. */
async function plannedSeat() {
  maker = await member('member', 'Noor')
  const { id: buildId } = await build(maker)
  const { id: firstId } = await variant(buildId, { name: 'First' })
  const boards = await seatBoards(maker, { terms: 'mine' })
  const planId = await plannedFor(maker, buildId)
  must(await hold(maker, { buildId, boards: boards.map((b) => ({ boardId: b.id, version: b.version })) }))
  return { buildId, firstId, boards, planId }
}

const another = async (fromId: string, name: string, parameters: object) =>
  must(await make(maker, { fromId, name, parameters: { abreast: 1, ...parameters } })).variantId

const take = (variantId: string, insteadOfId: string, version = 1) =>
  choose(maker, { variantId, version, insteadOfId })

const madeIn = (buildId: string) =>
  database().partMade.findMany({ where: { buildId }, orderBy: [{ partId: 'asc' }, { id: 'asc' }] })
const live = async (buildId: string) => (await madeIn(buildId)).filter((m) => m.setAsideAt === null)

describe('a cut plan', () => {
  test('that is done is out of date for the other numbers, good again for the first ones; holds stay', async () => {
    const { buildId, firstId } = await plannedSeat()
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    const planState = async () => must(await overview(maker, { buildId })).facts.plan
    expect(await planState()).toBe('ready')
    must(await take(tall, firstId))
    expect(await planState()).toBe('stale')
    const view = must(await latest(maker, { buildId }))!.newest
    expect(isStale(view.changes!)).toBe(true)
    expect(await database().hold.count({ where: { buildId, status: 'live' } })).toBe(3)
    expect(must(await setupsOf(maker, { buildId }))?.isDesignChanged).toBe(true)
    must(await take(firstId, tall))
    expect(await planState()).toBe('ready')
    expect(must(await setupsOf(maker, { buildId }))?.isDesignChanged).toBe(false)
  })

  test('that waits is taken back; a new one may be asked for at once', async () => {
    const { buildId, firstId } = await plannedSeat()
    const { planId } = must(await ask(maker, { buildId, seconds: 5 }))
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    expect(must(await take(tall, firstId)).plansStopped).toBe(1)
    expect((await database().cutPlan.findUniqueOrThrow({ where: { id: planId } })).status).toBe('cancelled')
    expect((await ask(maker, { buildId, seconds: 5 })).ok).toBe(true)
  })

  test('that is being worked out is asked to stop, and what it found is flagged', async () => {
    const { buildId, firstId } = await plannedSeat()
    const { planId } = must(await ask(maker, { buildId, seconds: 5 }))
    const run = (await claimPlan(planId))!
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    expect(must(await take(tall, firstId)).plansStopped).toBe(1)
    const row = await database().cutPlan.findUniqueOrThrow({ where: { id: planId } })
    expect([row.status, row.cancelAskedAt !== null]).toEqual(['running', true])
    await endPlan(run, { status: 'cancelled' })
    const view = must(await latest(maker, { buildId }))!
    expect(view.former && isStale(view.former.changes!)).toBe(true)
  })
})

describe('parts that are cut', () => {
  /** All three boards cut, one of the legs worked on. */
  async function cutSeat() {
    const seat = await plannedSeat()
    for (const { id: boardId } of seat.boards) must(await recordCut(maker, { planId: seat.planId, boardId }))
    const leg = (await live(seat.buildId)).find((m) => m.partId.includes('-leg-'))!
    must(await tick(maker, { planId: seat.planId, keys: [`op:${leg.partId}:cut-endA`], done: true }))
    return { ...seat, leg: leg.partId }
  }

  test('and are of another size are set aside, their ticks gone, and asked for again; then taken up again', async () => {
    const { buildId, firstId, leg } = await cutSeat()
    const all = (await live(buildId)).length
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    const { setAside } = must(await take(tall, firstId))
    expect(setAside).toBeGreaterThan(0)
    expect(await live(buildId)).toHaveLength(all - setAside)
    expect((await live(buildId)).map((m) => m.partId)).not.toContain(leg)
    expect((await madeIn(buildId)).find((m) => m.partId === leg)?.isWorked).toBe(true)
    expect(await database().setupTick.count({ where: { plan: { buildId } } })).toBe(0)
    expect(must(await overview(maker, { buildId })).facts.parts.made).toBe(all - setAside)
    expect(must(await chosen(maker, { buildId })).partsMade).toBe(all - setAside)
    const cuts = must(await cutsOfBuild(maker, { buildId }))
    expect(cuts.reduce((sum, cut) => sum + cut.setAside, 0)).toBe(setAside)
    expect(must(await take(firstId, tall))).toMatchObject({ setAside: 0, takenUp: setAside })
    expect(await live(buildId)).toHaveLength(all)
  })

  test('a blank that was worked on fits no other cuts, one that was not does', async () => {
    const { buildId, firstId, leg } = await cutSeat()
    const thick = await another(firstId, 'Other screws', { screwSize: 'no10' })
    must(await take(thick, firstId))
    const rows = await madeIn(buildId)
    expect(rows.filter((m) => m.setAsideAt !== null).map((m) => m.partId)).toEqual([leg])
  })

  test('changing the numbers of the chosen one has the same consequences; of another one none', async () => {
    const { buildId, firstId } = await cutSeat()
    const all = (await live(buildId)).length
    const other = await another(firstId, 'Other', { counterHeight: 960 })
    must(await save(maker, { variantId: other, version: 1, parameters: { abreast: 1, counterHeight: 970 } }))
    expect(await live(buildId)).toHaveLength(all)
    must(
      await save(maker, { variantId: firstId, version: 1, parameters: { abreast: 1, counterHeight: 960 } }),
    )
    expect((await live(buildId)).length).toBeLessThan(all)
  })

  test('no tick of a plan for other numbers is taken for a later piece', async () => {
    const { buildId, firstId, planId, leg } = await cutSeat()
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    must(await take(tall, firstId))
    const late = await tick(maker, { planId, keys: [`op:${leg}:cut-endB`], done: true })
    expect(late.ok ? '' : late.error.code).toBe('planStale')
    const stays = (await live(buildId))[0].partId
    must(await tick(maker, { planId, keys: [`op:${stays}:x`], done: true }))
  })

  test('a board that is cut by a plan for other numbers: what does not fit does not count', async () => {
    const { buildId, firstId, planId, boards } = await plannedSeat()
    const tall = await another(firstId, 'Taller', { counterHeight: 960 })
    must(await take(tall, firstId))
    const record = must(await recordCut(maker, { planId, boardId: boards[0].id }))
    expect(record.setAside).toBe(record.parts)
    expect(await live(buildId)).toEqual([])
  })
})

describe('at once', () => {
  test('fifty choices: exactly one is taken, exactly one is chosen', async () => {
    const { id: buildId } = await build(maker)
    const { id: firstId } = await variant(buildId, { name: 'First' })
    const others = await Promise.all(
      Array.from({ length: 5 }, (_, i) => another(firstId, `No. ${i}`, { counterHeight: 920 + i })),
    )
    const admin = await member('admin')
    const tries = Array.from({ length: 50 }, (_, i) =>
      choose(i % 2 ? admin : maker, {
        variantId: others[i % 5],
        version: 1,
        insteadOfId: firstId,
      }),
    )
    const results = await Promise.all(tries)
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    const codes = new Set(results.flatMap((r) => (r.ok ? [] : [r.error.code])))
    for (const code of codes) expect(['changedMeanwhile', 'alreadyDecided', 'busy']).toContain(code)
    expect(await database().variant.count({ where: { buildId, chosen: true } })).toBe(1)
  })

  test('one is taken away while it is chosen: either, never a chosen one that is gone', async () => {
    const { id: buildId } = await build(maker)
    const { id: firstId } = await variant(buildId, { name: 'First' })
    const { remove } = await import('#lib/data/variants')
    for (let i = 0; i < 8; i++) {
      const now = must(await chosen(maker, { buildId })).id
      const other = await another(firstId, `Other ${i}`, {})
      await Promise.all([take(other, now), remove(maker, { variantId: other })])
      const kept = await database().variant.findMany({ where: { buildId, chosen: true } })
      expect(kept.map((v) => v.deletedAt)).toEqual([null])
    }
  })
})

test('numbers that make no piece cannot be chosen; nor a variant of another build', async () => {
  const [a, b] = [await plannedSeat(), await build(maker)]
  const strange = await variant(b.id, { name: 'Elsewhere', chosen: true })
  const wrong = await take(strange.id, a.firstId)
  expect(wrong.ok).toBe(false)
  const other = await another(a.firstId, 'Broken', {})
  await database().variant.update({ where: { id: other }, data: { parameters: { rake: -50 } } })
  const broken = await take(other, a.firstId)
  expect(broken.ok ? '' : broken.error.code).toBe('designRefused')
  expect(must(await chosen(maker, { buildId: a.buildId })).id).toBe(a.firstId)
})
