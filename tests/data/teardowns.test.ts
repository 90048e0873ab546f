import { beforeAll, describe, expect, test } from 'vitest'
import type { Result } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { changeTeardown, logBoards, startTeardown, teardown, teardowns } from '#lib/data/teardowns'
import type { Actor } from '#lib/shop/actor'
import type { Refusal } from '#lib/shop/refusal'
import { member, shop } from './arrange'

beforeAll(() => shop())

const worth = <T>(r: Result<T, Refusal>): T => {
  if (!r.ok) throw new Error(JSON.stringify(r.error))
  return r.value
}

const bed = async (owner: Actor) =>
  worth(await startTeardown(owner, { name: 'Pine bed', foundAt: 'Kerb' })).id

const slat = (teardownId: string, over: object = {}) => ({
  teardownId,
  lengthUm: 890_000,
  widthUm: 92_000,
  thicknessUm: 22_000,
  species: 'ponderosaPine',
  finish: 'bare',
  terms: 'free',
  ...over,
})

describe('logging boards', () => {
  test('alike boards get a number each, an owner and an entry in the ledger each', async () => {
    const owner = await member()
    const teardownId = await bed(owner)
    const { boards } = worth(await logBoards(owner, slat(teardownId, { alike: 20, cupUm: 1_500 })))
    expect(new Set(boards.map((b) => b.number)).size).toBe(20)
    expect(boards.map((b) => b.number)).toEqual([...boards.map((b) => b.number)].sort((a, b) => a - b))
    const rows = await database().board.findMany({ where: { teardownId }, include: { events: true } })
    expect(rows).toHaveLength(20)
    for (const row of rows) {
      expect(row).toMatchObject({
        ownerId: owner.memberId,
        cupUm: 1_500,
        status: 'inPool',
        metal: 'unchecked',
      })
      expect(row.events).toMatchObject([
        { kind: 'takenIn', memberId: owner.memberId, detail: { teardownId, teardown: 'Pine bed' } },
      ])
    }
  })

  test.each([
    ['bare', false, 'notNeeded'],
    ['paint', false, 'untested'],
    ['unknown', false, 'untested'],
    ['clear', true, 'notNeeded'],
  ])('finish %s, known to be new %s: lead %s', async (finish, isFinishNew, lead) => {
    const owner = await member()
    const { boards } = worth(await logBoards(owner, slat(await bed(owner), { finish, isFinishNew })))
    expect((await database().board.findUniqueOrThrow({ where: { id: boards[0].id } })).lead).toBe(lead)
  })

  test.each([
    [{ lengthUm: 0 }, 'length'],
    [{ thicknessUm: 1_000 }, 'thickness'],
    [{ widthUm: 2_000_000 }, 'width'],
    [{ cupUm: 60_000 }, 'cup'],
    [{ species: 'balsa?' }, 'species'],
    [{ alike: 21 }, 'alike'],
    [{ alike: 0 }, 'alike'],
    [{ finish: 'chrome' }, 'finish'],
    [{ place: 'x'.repeat(81) }, 'place'],
  ])('%o: a sentence beside %s, and no board', async (over, field) => {
    const owner = await member()
    const teardownId = await bed(owner)
    const result = await logBoards(owner, slat(teardownId, over))
    expect(result).toMatchObject({
      ok: false,
      error: { code: 'badInput', fields: { [field]: expect.any(String) } },
    })
    expect(await database().board.count({ where: { teardownId } })).toBe(0)
  })

  test('only who began it, or an admin, who logs for them', async () => {
    const owner = await member()
    const teardownId = await bed(owner)
    expect(await logBoards(await member(), slat(teardownId))).toMatchObject({ error: { code: 'notAllowed' } })
    const { boards } = worth(await logBoards(await member('admin'), slat(teardownId)))
    expect((await database().board.findUniqueOrThrow({ where: { id: boards[0].id } })).ownerId).toBe(
      owner.memberId,
    )
  })

  test('many at once, from several members: no number twice, none lost', async () => {
    const owners = await Promise.all(Array.from({ length: 8 }, () => member()))
    const results = await Promise.all(
      owners.map(async (o) => worth(await logBoards(o, slat(await bed(o), { alike: 15 })))),
    )
    const numbers = results.flatMap((r) => r.boards.map((b) => b.number))
    expect(new Set(numbers).size).toBe(120)
  })
})

test('a teardown with its boards, the last logged first; changed by its owner only', async () => {
  const owner = await member('member', 'Ola')
  const teardownId = await bed(owner)
  worth(await logBoards(owner, slat(teardownId)))
  worth(await logBoards(owner, slat(teardownId, { lengthUm: 500_000 })))
  const page = worth(await teardown(await member(), { teardownId }))
  expect(page).toMatchObject({ name: 'Pine bed', memberName: 'Ola', mayChange: false, count: 2 })
  expect(page.boards.map((b) => b.lengthUm)).toEqual([500_000, 890_000])
  worth(
    await changeTeardown(owner, { teardownId, name: 'Pine bed, two', foundAt: '', notes: 'Brass screws' }),
  )
  expect(worth(await teardown(owner, { teardownId }))).toMatchObject({
    name: 'Pine bed, two',
    mayChange: true,
  })
})

test('the list goes in pages, newest first, with how many boards', async () => {
  await database().board.updateMany({ data: { teardownId: null } })
  await database().teardown.deleteMany()
  const owner = await member()
  for (let i = 0; i < 45; i++)
    await database().teardown.create({
      data: { memberId: owner.memberId, name: `T${i}`, createdAt: new Date(i * 1000) },
    })
  const first = worth(await teardowns(owner, {}))
  const second = worth(await teardowns(owner, { page: 2 }))
  expect([first.total, first.pages, first.list.length, second.list.length]).toEqual([45, 2, 40, 5])
  expect([...first.list, ...second.list].map((t) => t.name)).toEqual(
    Array.from({ length: 45 }, (_, i) => `T${44 - i}`),
  )
})
