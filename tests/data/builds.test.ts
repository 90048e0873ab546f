import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import {
  abandon,
  all,
  describe as describeBuild,
  finish,
  header,
  overview,
  reopen,
  start,
} from '#lib/data/builds'
import { database } from '#lib/data/client'
import { add } from '#lib/data/comments'
import { hold } from '#lib/data/holds'
import { chosen } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { board, member, shop, station } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor
let other: Actor
let admin: Actor

beforeAll(async () => {
  await shop()
  ;[maker, other, admin] = [
    await member('member', 'Noor'),
    await member('member', 'Piet'),
    await member('admin', 'Signe'),
  ]
})

const HOUR = 3_600_000
const inHours = (h: number) => new Date(Date.now() + h * HOUR)

describe('starting', () => {
  test('a build has one chosen variant with every number of the design', async () => {
    const buildId = await started(maker, '  Seats  ')
    const variant = must(await chosen(maker, { buildId }))
    expect(variant).toMatchObject({ designId: 'counterSeat', version: 1, mayChange: true, partsMade: 0 })
    expect(Object.keys(variant.parameters).sort()).toEqual(counterSeat.parameters.map((p) => p.id).sort())
    expect(must(await header(other, { buildId }))).toMatchObject({
      name: 'Seats',
      makerName: 'Noor',
      isMine: false,
      mayChange: false,
      isOpen: true,
      designName: counterSeat.name,
    })
  })

  test.each([
    ['no name', { name: '   ', designId: 'counterSeat' }, 'name'],
    ['a name of 121 characters', { name: 'x'.repeat(121), designId: 'counterSeat' }, 'name'],
    ['a design that is not there', { name: 'A', designId: 'throne' }, 'designId'],
    ['no design', { name: 'A', designId: '' }, 'designId'],
  ])('%s: a sentence beside the field, and no build', async (_, input, field) => {
    const before = await database().build.count()
    const result = await start(maker, input)
    expect(result.ok ? null : result.error.fields?.[field]).toMatch(/\w+.*\.$/)
    expect(await database().build.count()).toBe(before)
  })
})

describe('changing', () => {
  test('the maker and an admin name it anew, another member does not', async () => {
    const buildId = await started(maker)
    expect((await describeBuild(other, { buildId, name: 'Mine now', notes: '' })).ok).toBe(false)
    must(await describeBuild(maker, { buildId, name: 'Two seats', notes: 'Mind the pipe.' }))
    expect(must(await overview(other, { buildId })).notes).toBe('Mind the pipe.')
    must(await describeBuild(admin, { buildId, name: 'Three seats', notes: '' }))
    expect(must(await header(maker, { buildId })).name).toBe('Three seats')
  })

  test('what is not there is not found', async () => {
    const nowhere = { buildId: randomUUID() }
    for (const ask of [header, overview, finish, abandon, reopen]) {
      const result = await ask(admin, nowhere)
      expect(result.ok ? '' : result.error.code).toBe('notFound')
    }
  })
})

describe.each([
  ['finished', finish, 'finishedAt'],
  ['given up', abandon, 'abandonedAt'],
] as const)('a build that is %s', (_, close, field) => {
  test('lets go of boards, bookings to come and plans that wait, and of nothing else', async () => {
    const owner = await member()
    const [free, asked] = [await board(owner), await board(owner, { terms: 'ask' })]
    const [buildId, elsewhere] = [await started(maker), await started(maker, 'Another one')]
    must(
      await hold(maker, {
        buildId,
        boards: [free, asked].map((b) => ({ boardId: b.id, version: b.version })),
      }),
    )
    const kept = await board(owner)
    must(await hold(maker, { buildId: elsewhere, boards: [{ boardId: kept.id, version: kept.version }] }))
    const saw = await station(await member('keeper'))
    const at = (from: number, to: number, over: object) =>
      database().booking.create({
        data: {
          stationId: saw.id,
          memberId: maker.memberId,
          startAt: inHours(from),
          endAt: inHours(to),
          status: 'approved',
          ...over,
        },
      })
    const [running, coming, others] = [
      await at(-1, 1, { buildId }),
      await at(2, 3, { buildId }),
      await at(4, 5, { buildId: elsewhere }),
    ]
    const { id: variantId } = must(await chosen(maker, { buildId }))
    await database().cutPlan.create({
      data: {
        buildId,
        variantId,
        memberId: maker.memberId,
        status: 'queued',
        inputHash: '-',
        input: {},
        seed: 1,
        seconds: 1,
      },
    })

    expect(must(await close(maker, { buildId }))).toEqual({ released: 2, cancelled: 1 })

    const row = await database().build.findUniqueOrThrow({ where: { id: buildId } })
    expect(row[field]).not.toBeNull()
    const holds = await database().hold.findMany({ where: { buildId }, select: { status: true } })
    expect(holds.map((h) => h.status)).toEqual(['released', 'released'])
    expect(await database().hold.count({ where: { buildId: elsewhere, status: 'live' } })).toBe(1)
    const statusOf = async (id: string) =>
      (await database().booking.findUniqueOrThrow({ where: { id } })).status
    expect([await statusOf(running.id), await statusOf(coming.id), await statusOf(others.id)]).toEqual([
      'approved',
      'cancelled',
      'approved',
    ])
    expect(await database().cutPlan.count({ where: { buildId, status: 'cancelled' } })).toBe(1)
    const ledger = await database().stockEvent.count({ where: { buildId, kind: 'released' } })
    expect(ledger).toBe(2)
  })

  test('is closed once, takes no board, and may be taken up again', async () => {
    const buildId = await started(maker)
    expect((await close(other, { buildId })).ok).toBe(false)
    must(await close(maker, { buildId }))
    const again = await close(maker, { buildId })
    expect(again.ok ? '' : again.error.code).toBe('buildClosed')
    const plank = await board(await member())
    const taken = await hold(maker, { buildId, boards: [{ boardId: plank.id, version: plank.version }] })
    expect(taken.ok ? '' : taken.error.code).toBe('buildClosed')
    expect(must(await overview(maker, { buildId })).next).toBeNull()
    expect((await reopen(other, { buildId })).ok).toBe(false)
    must(await reopen(maker, { buildId }))
    expect(must(await header(maker, { buildId })).isOpen).toBe(true)
  })

  test('ten closings at once: one counts', async () => {
    const buildId = await started(maker)
    const results = await Promise.all(Array.from({ length: 10 }, () => close(maker, { buildId })))
    expect(results.filter((r) => r.ok)).toHaveLength(1)
  })

  test('closing while boards are being held leaves no hold behind', async () => {
    const owner = await member()
    for (let round = 0; round < 5; round++) {
      const buildId = await started(maker)
      const planks = await Promise.all([board(owner), board(owner)])
      const boards = planks.map((b) => ({ boardId: b.id, version: b.version }))
      await Promise.all([hold(maker, { buildId, boards }), close(maker, { buildId })])
      expect(await database().hold.count({ where: { buildId, status: { in: ['live', 'requested'] } } })).toBe(
        0,
      )
    }
  })
})

describe('all builds', () => {
  test('mine first, with people; finished ones apart', async () => {
    const me = await member('member', 'Me')
    const [first, second] = [await started(me, 'First'), await started(me, 'Second')]
    const theirs = await started(other, 'Theirs')
    const owner = await member('member', 'Owner of a board')
    const plank = await board(owner)
    must(await hold(me, { buildId: first, boards: [{ boardId: plank.id, version: plank.version }] }))
    must(await add(other, { buildId: first, body: 'Nice.' }))
    must(await add(me, { buildId: first, body: 'Thank you.' }))
    must(await finish(me, { buildId: second }))

    const open = must(await all(me, {})).builds
    expect(open.filter((b) => b.isMine).map((b) => b.name)).toEqual(['First'])
    expect(open[0].isMine).toBe(true)
    expect(open.findIndex((b) => b.id === theirs)).toBeGreaterThan(0)
    expect([...open[0].others].sort()).toEqual(['Owner of a board', 'Piet'])
    expect(open[0]).toMatchObject({ stage: 'design', makerName: 'Me', short: 0 })

    const closed = must(await all(me, { show: 'closed' })).builds
    expect(closed.filter((b) => b.isMine).map((b) => [b.name, b.stage, b.next])).toEqual([
      ['Second', 'finished', null],
    ])
  })
})
