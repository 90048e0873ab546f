import { beforeAll, describe, expect, test } from 'vitest'
import type { Result } from '#lib/core/units/result'
import { ok } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { decide, extend, hold, holdsOfBuild, release, requestsToMe } from '#lib/data/holds'
import { lapseAll, releaseHoldsOfBuild } from '#lib/data/internal/hold-life'
import { transact } from '#lib/data/transaction'
import type { Actor } from '#lib/shop/actor'
import type { Refusal } from '#lib/shop/refusal'
import { board, build, member, shop } from './arrange'

beforeAll(() => shop())

const seen = (...boards: { id: string; version: number }[]) =>
  boards.map((b) => ({ boardId: b.id, version: b.version }))

const codeOf = <T>(r: Result<T, Refusal>) => (r.ok ? 'ok' : r.error.code)

const liveOn = (boardId: string) => database().hold.findMany({ where: { boardId, status: 'live' } })

const kindsOf = async (boardId: string) =>
  (await database().stockEvent.findMany({ where: { boardId }, orderBy: { id: 'asc' } })).map((e) => e.kind)

async function makerWithBuild(name: string): Promise<{ maker: Actor; buildId: string }> {
  const maker = await member('member', name)
  return { maker, buildId: (await build(maker, { name: `${name}'s bench` })).id }
}

/** Moves a hold into the past, as if its hours had gone by. */
const expire = (holdId: string) =>
  database().hold.update({
    where: { id: holdId },
    data: { createdAt: new Date(Date.now() - 7_200_000), expiresAt: new Date(Date.now() - 3_600_000) },
  })

describe('who gets a board', () => {
  test('50 members at once: exactly one live hold, 49 told by whom, none throws', async () => {
    const owner = await member('member', 'Owner')
    const wanted = await board(owner)
    const makers = await Promise.all(Array.from({ length: 50 }, (_, i) => makerWithBuild(`Maker ${i}`)))
    const results = await Promise.all(
      makers.map(({ maker, buildId }) => hold(maker, { buildId, boards: seen(wanted) })),
    )
    const codes = results.map(codeOf)
    expect(codes.filter((c) => c === 'ok')).toHaveLength(1)
    expect(codes.filter((c) => c === 'boardsHeld')).toHaveLength(49)
    const winner = makers[codes.indexOf('ok')].maker
    for (const r of results)
      if (!r.ok) expect(r.error.fields?.[wanted.id]).toContain(`is held by ${winner.name} for`)
    expect(await liveOn(wanted.id)).toHaveLength(1)
    expect(await kindsOf(wanted.id)).toEqual(['held'])
  })

  test('overlapping sets in opposite order: one wins all, the other none and is told which and by whom', async () => {
    const owner = await member()
    const boards = await Promise.all(Array.from({ length: 6 }, () => board(owner)))
    for (let round = 0; round < 5; round++) {
      const [a, b] = await Promise.all([makerWithBuild('Ada'), makerWithBuild('Bo')])
      const [first, second] = await Promise.all([
        hold(a.maker, { buildId: a.buildId, boards: seen(...boards.slice(0, 4)) }),
        hold(b.maker, { buildId: b.buildId, boards: seen(...boards.slice(2).reverse()) }),
      ])
      expect([codeOf(first), codeOf(second)].sort()).toEqual(['boardsHeld', 'ok'])
      const [winner, loser, lost] = first.ok ? [a, b, second] : [b, a, first]
      expect(await database().hold.count({ where: { buildId: winner.buildId, status: 'live' } })).toBe(4)
      expect(await database().hold.count({ where: { buildId: loser.buildId } })).toBe(0)
      if (lost.ok) throw new Error('both won')
      expect(Object.keys(lost.error.fields ?? {}).sort()).toEqual([boards[2].id, boards[3].id].sort())
      expect(lost.error.about).toContain(winner.maker.name)
      await transact(async (tx) => ok(await releaseHoldsOfBuild(tx, winner.buildId, winner.maker.memberId)))
    }
  })

  test('a hold that has run out lapses when another asks, and the ledger says so', async () => {
    const wanted = await board(await member())
    const [a, b] = await Promise.all([makerWithBuild('Ada'), makerWithBuild('Bo')])
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const [held] = await liveOn(wanted.id)
    expect(codeOf(await hold(b.maker, { buildId: b.buildId, boards: seen(wanted) }))).toBe('boardsHeld')
    await expire(held.id)
    expect(codeOf(await hold(b.maker, { buildId: b.buildId, boards: seen(wanted) }))).toBe('ok')
    expect((await liveOn(wanted.id)).map((h) => h.buildId)).toEqual([b.buildId])
    expect(await kindsOf(wanted.id)).toEqual(['held', 'lapsed', 'held'])
    expect(codeOf(await extend(a.maker, { holdId: held.id }))).toBe('boardNotHeld')
  })

  test('the sweep lapses what nobody asks for', async () => {
    const wanted = await board(await member())
    const a = await makerWithBuild('Ada')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const [held] = await liveOn(wanted.id)
    await expire(held.id)
    const lapsed = await transact(async (tx) => ok(await lapseAll(tx, new Date())))
    expect(lapsed).toEqual({ ok: true, value: 1 })
    expect(await liveOn(wanted.id)).toHaveLength(0)
    expect(await transact(async (tx) => ok(await lapseAll(tx, new Date())))).toEqual({ ok: true, value: 0 })
  })
})

describe('what stands in the way', () => {
  test('kept boards, boards that left, changed boards: all named, nothing held', async () => {
    const owner = await member('member', 'Olga')
    const [free, mine, gone, changed] = await Promise.all([
      board(owner),
      board(owner, { terms: 'mine' }),
      board(owner, { status: 'removed' }),
      board(owner, { version: 3 }),
    ])
    const a = await makerWithBuild('Ada')
    const all = seen(free, mine, gone, { id: changed.id, version: 2 })
    const refused = await hold(a.maker, { buildId: a.buildId, boards: all })
    if (refused.ok) throw new Error('held')
    expect(refused.error.code).toBe('notAllowed')
    expect(Object.keys(refused.error.fields ?? {}).sort()).toEqual([mine.id, gone.id, changed.id].sort())
    expect(refused.error.fields?.[mine.id]).toContain('kept by Olga')
    const pair = await hold(a.maker, {
      buildId: a.buildId,
      boards: seen(free, { id: changed.id, version: 2 }),
    })
    expect(codeOf(pair)).toBe('boardsChanged')
    expect(await liveOn(free.id)).toHaveLength(0)
    const own = await makerWithBuild('x')
    expect(codeOf(await hold(own.maker, { buildId: a.buildId, boards: seen(free) }))).toBe('notAllowed')
  })

  test('holding what one holds already keeps it; a closed build holds nothing', async () => {
    const wanted = await board(await member())
    const a = await makerWithBuild('Ada')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const again = await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    expect(again).toMatchObject({ ok: true, value: { held: 0, asked: 0, kept: 1 } })
    await database().build.update({ where: { id: a.buildId }, data: { abandonedAt: new Date() } })
    expect(codeOf(await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) }))).toBe('buildClosed')
  })
})

describe('boards that are shared on request', () => {
  test('a request is seen by the owner alone, granted with one tap, and goes live', async () => {
    const owner = await member('member', 'Olga')
    const wanted = await board(owner, { terms: 'ask' })
    const a = await makerWithBuild('Ada')
    const asked = await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    expect(asked).toMatchObject({ ok: true, value: { held: 0, asked: 1 } })
    const requests = await requestsToMe(owner, {})
    if (!requests.ok) throw new Error('refused')
    expect(requests.value.map((h) => [h.board.id, h.memberName])).toEqual([[wanted.id, 'Ada']])
    const [{ id: holdId }] = requests.value
    expect(codeOf(await decide(a.maker, { holdId, yes: true }))).toBe('notAllowed')
    expect(await decide(owner, { holdId, yes: true })).toEqual({ ok: true, value: { status: 'live' } })
    expect(codeOf(await decide(owner, { holdId, yes: false }))).toBe('alreadyDecided')
    expect(await kindsOf(wanted.id)).toEqual(['holdAsked', 'held'])
    const mine = await holdsOfBuild(a.maker, { buildId: a.buildId })
    expect(mine).toMatchObject({ ok: true, value: [{ status: 'live', board: { ownerName: 'Olga' } }] })
  })

  test('two requests granted at once: one goes live, the other is told who has it and may be asked again', async () => {
    const owner = await member('member', 'Olga')
    const wanted = await board(owner, { terms: 'ask' })
    const makers = [await makerWithBuild('Ada'), await makerWithBuild('Bo')]
    for (const m of makers) await hold(m.maker, { buildId: m.buildId, boards: seen(wanted) })
    const holds = await database().hold.findMany({ where: { boardId: wanted.id } })
    const results = await Promise.all(holds.map((h) => decide(owner, { holdId: h.id, yes: true })))
    expect(results.map(codeOf).sort()).toEqual(['boardsHeld', 'ok'])
    expect(await liveOn(wanted.id)).toHaveLength(1)
    expect(await database().hold.count({ where: { boardId: wanted.id, status: 'requested' } })).toBe(1)
  })

  test('the owner takes the board first: a yes comes too late', async () => {
    const owner = await member('member', 'Olga')
    const wanted = await board(owner, { terms: 'ask' })
    const a = await makerWithBuild('Ada')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const own = await build(owner)
    expect(codeOf(await hold(owner, { buildId: own.id, boards: seen(wanted) }))).toBe('ok')
    const [request] = await database().hold.findMany({ where: { boardId: wanted.id, status: 'requested' } })
    expect(codeOf(await decide(owner, { holdId: request.id, yes: true }))).toBe('boardsHeld')
    expect(codeOf(await extend(owner, { holdId: (await liveOn(wanted.id))[0].id }))).toBe('othersWait')
    expect(codeOf(await release(a.maker, { holdId: request.id }))).toBe('ok')
    expect(codeOf(await extend(owner, { holdId: (await liveOn(wanted.id))[0].id }))).toBe('ok')
  })

  test('a no ends the request; a request needs no yes once the board is free to all', async () => {
    const owner = await member('member', 'Olga')
    const wanted = await board(owner, { terms: 'ask' })
    const a = await makerWithBuild('Ada')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const [request] = await database().hold.findMany({ where: { boardId: wanted.id } })
    expect(await decide(owner, { holdId: request.id, yes: false })).toMatchObject({ ok: true })
    expect(codeOf(await release(a.maker, { holdId: request.id }))).toBe('alreadyDecided')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    await database().board.update({ where: { id: wanted.id }, data: { terms: 'free' } })
    const raised = await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    expect(raised).toMatchObject({ ok: true, value: { held: 1, asked: 0 } })
    expect(await kindsOf(wanted.id)).toEqual(['holdAsked', 'declined', 'holdAsked', 'held'])
  })
})

describe('letting go', () => {
  test('the maker or an admin releases, nobody else', async () => {
    const wanted = await board(await member())
    const a = await makerWithBuild('Ada')
    await hold(a.maker, { buildId: a.buildId, boards: seen(wanted) })
    const [held] = await liveOn(wanted.id)
    expect(codeOf(await release(await member('keeper'), { holdId: held.id }))).toBe('notAllowed')
    expect(codeOf(await release(await member('admin'), { holdId: held.id }))).toBe('ok')
    expect(await liveOn(wanted.id)).toHaveLength(0)
    expect(await kindsOf(wanted.id)).toEqual(['held', 'released'])
  })
})
