import { beforeAll, describe, expect, test } from 'vitest'
import type { Result } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { pool, poolChoices } from '#lib/data/pool'
import type { Actor } from '#lib/shop/actor'
import type { Refusal } from '#lib/shop/refusal'
import { board, build, member, shop } from './arrange'

const worth = <T>(r: Result<T, Refusal>): T => {
  if (!r.ok) throw new Error(JSON.stringify(r.error))
  return r.value
}

const here: { ada: Actor; bo: Actor; looker: Actor } = {} as never

beforeAll(async () => {
  await shop()
  here.ada = await member('member', 'Ada')
  here.bo = await member('member', 'Bo')
  here.looker = await member('member', 'Looker')
  const { ada, bo } = here
  const oak = await board(ada, { lengthUm: 2_000_000, widthUm: 200_000, thicknessUm: 50_000 })
  await board(ada, { lengthUm: 1_000_000, widthUm: 100_000, thicknessUm: 20_000, terms: 'mine' })
  await board(bo, { lengthUm: 1_000_000, widthUm: 100_000, thicknessUm: 20_000, species: 'ponderosaPine' })
  await board(bo, { species: 'douglasFir', terms: 'ask', status: 'removed' })
  const { id: buildId } = await build(bo, { name: 'Stool' })
  const row = { boardId: oak.id, buildId, memberId: bo.memberId, status: 'live' } as const
  await database().hold.create({ data: { ...row, expiresAt: new Date(Date.now() + 1e7) } })
})

const look = async (wanted: object = {}) => worth(await pool(here.looker, wanted))
const countOf = async (wanted: object) => (await look(wanted)).total

describe('what is found', () => {
  test('everything in the pool, owner by owner, with the hold', async () => {
    const { boards, total } = await look()
    expect(total).toBe(3)
    expect(boards.map((b) => b.ownerName)).toEqual(['Ada', 'Ada', 'Bo'])
    expect(boards[0].hold).toMatchObject({ memberName: 'Bo', buildName: 'Stool' })
    expect(boards.slice(1).map((b) => b.hold)).toEqual([null, null])
  })

  test('sums by owner and species: 2 x 0.2 m = 0.4 m2, times 50 mm = 0.02 m3', async () => {
    const { all, byOwner, bySpecies } = await look()
    expect(all.areaM2).toBeCloseTo(0.4 + 0.1 + 0.1, 9)
    expect(all.volumeM3).toBeCloseTo(0.02 + 0.002 + 0.002, 9)
    expect(byOwner.map((o) => [o.ownerName, o.boards])).toEqual([
      ['Ada', 2],
      ['Bo', 1],
    ])
    expect(byOwner[0].areaM2).toBeCloseTo(0.5, 9)
    expect(bySpecies.map((s) => [s.species, s.boards])).toEqual([
      ['whiteOak', 2],
      ['ponderosaPine', 1],
    ])
  })

  test.each([
    [{ species: 'whiteOak' }, 2],
    [{ species: 'softwood' }, 1],
    [{ species: 'hardwood' }, 2],
    [{ minLengthUm: 1_000_001 }, 1],
    [{ minLengthUm: 1_000_000 }, 3],
    [{ minWidthUm: 150_000 }, 1],
    [{ minThicknessUm: 20_000 }, 3],
    [{ minThicknessUm: 20_001 }, 1],
    [{ terms: 'mine' }, 1],
    [{ freeNow: true }, 2],
    [{ state: 'removed' }, 1],
    [{ species: 'whiteOak', freeNow: true, terms: 'mine' }, 1],
    [{ number: 999_999 }, 0],
  ])('%o: %i', async (wanted, count) => expect(await countOf(wanted)).toBe(count))

  test('by owner', async () => expect(await countOf({ ownerId: here.bo.memberId })).toBe(1))

  test('a hold that has run out does not count, before the sweep has come by', async () => {
    const pine = await board(here.bo)
    const { id: buildId } = await build(here.ada)
    await database().hold.create({
      data: {
        boardId: pine.id,
        buildId,
        memberId: here.ada.memberId,
        status: 'live',
        createdAt: new Date(Date.now() - 2e6),
        expiresAt: new Date(Date.now() - 1e6),
      },
    })
    const { boards } = await look({ number: pine.number, freeNow: true })
    expect(boards).toMatchObject([{ id: pine.id, hold: null }])
    await database().hold.updateMany({
      where: { boardId: pine.id },
      data: { status: 'lapsed', endedAt: new Date() },
    })
    await database().board.update({ where: { id: pine.id }, data: { status: 'removed' } })
  })

  test('choices of the form', async () => {
    const { owners, species } = worth(await poolChoices(here.looker, {}))
    expect(owners.map((o) => o.name)).toEqual(['Ada', 'Bo'])
    expect(species.sort()).toEqual(['douglasFir', 'ponderosaPine', 'whiteOak'])
  })

  test.each([[{ species: 'x' }], [{ minLengthUm: -1 }], [{ page: 0 }], [{ terms: 'rent' }]])(
    '%o is refused',
    async (wanted) => expect(await pool(here.looker, wanted)).toMatchObject({ error: { code: 'badInput' } }),
  )
})

test('2,000 boards: every one on exactly one page, sums over all', async () => {
  const owner = await member('member', 'Zed')
  await database().board.createMany({
    data: Array.from({ length: 2_000 }, (_, i) => ({
      ownerId: owner.memberId,
      lengthUm: 500_000 + (i % 37) * 10_000,
      widthUm: 90_000,
      thicknessUm: 20_000 + (i % 5) * 1_000,
      species: i % 3 ? 'beech' : 'teak',
    })),
  })
  const seen = new Set<string>()
  let most = 0
  for (let page = 1; page <= 40; page++) {
    const { boards, total, pages } = await look({ ownerId: owner.memberId, page })
    expect([total, pages]).toEqual([2_000, 40])
    most = Math.max(most, boards.length)
    for (const b of boards) seen.add(b.id)
  }
  expect([seen.size, most]).toEqual([2_000, 50])
  const { bySpecies } = await look({ ownerId: owner.memberId })
  expect(bySpecies.reduce((n, s) => n + s.boards, 0)).toBe(2_000)
})
