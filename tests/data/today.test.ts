import pg from 'pg'
import { beforeAll, beforeEach, expect, test } from 'vitest'
import { finish } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { add, addToVariant } from '#lib/data/comments'
import { mine } from '#lib/data/today'
import { make, open } from '#lib/data/variants'
import { cast } from '#lib/data/votes'
import { clear, start as startWait } from '#lib/data/waits'
import type { Actor } from '#lib/shop/actor'
import { board, member, shop, station } from './arrange'
import { must, started } from './arrange-build'

let me: Actor
let other: Actor
const HOUR = 3_600_000
const inHours = (h: number) => new Date(Date.now() + h * HOUR)

beforeAll(() => shop())
beforeEach(async () => {
  ;[me, other] = [await member('member', 'Noor'), await member('member', 'Piet')]
})

const today = async (who: Actor) => must(await mine(who, {}))

test('a new member: nothing waits, and nothing of anyone else is shown', async () => {
  const buildId = await started(other)
  must(await startWait(other, { buildId, kind: 'glue', hours: 24 }))
  await database().booking.create({
    data: {
      stationId: (await station(other)).id,
      memberId: other.memberId,
      startAt: inHours(1),
      endAt: inHours(2),
    },
  })
  const { now, ...rest } = await today(me)
  expect(now).toBeInstanceOf(Date)
  expect(rest).toEqual({
    builds: [],
    drying: [],
    booked: [],
    decisions: [],
    lapsing: [],
    remarks: [],
    votes: [],
    firsts: { hasBoard: false, hasBuild: false, hasInduction: false, hasStations: true },
  })
})

test('builds that wait for me come before those that wait for others; finished ones are gone', async () => {
  const [mineToDo, waiting, done] = [
    await started(me, 'To do'),
    await started(me, 'Waiting'),
    await started(me, 'Done'),
  ]
  const variant = await database().variant.findFirstOrThrow({ where: { buildId: waiting } })
  await database().cutPlan.create({
    data: {
      buildId: waiting,
      variantId: variant.id,
      memberId: me.memberId,
      status: 'queued',
      inputHash: '-',
      input: {},
      seed: 1,
      seconds: 1,
    },
  })
  must(await finish(me, { buildId: done }))
  const { builds } = await today(me)
  expect(builds.map((b) => [b.name, b.next?.turn.of])).toEqual([
    ['To do', 'maker'],
    ['Waiting', 'shop'],
  ])
  expect(builds[0].id).toBe(mineToDo)
})

test('what is drying, the first to be ready first; cleared and finished ones are gone', async () => {
  const buildId = await started(me)
  must(await startWait(me, { buildId, kind: 'oil', hours: 24 }))
  must(await startWait(me, { buildId, kind: 'glue', hours: 1, agoMinutes: 120 }))
  const gone = must(await startWait(me, { buildId, kind: 'paint', hours: 2 }))
  must(await clear(me, { waitId: gone.waitId }))
  expect((await today(me)).drying.map((w) => [w.label, w.state])).toEqual([
    ['Glue', 'ready'],
    ['Oil', 'running'],
  ])
  must(await finish(me, { buildId }))
  expect((await today(me)).drying).toEqual([])
})

test('booked next: mine, and what is agreed at the stations that I keep', async () => {
  const keeper = await member('keeper', 'Bram')
  const [saw, planer] = [await station(keeper), await station(other)]
  const book = (who: Actor, stationId: string, from: number, status: 'approved' | 'requested' | 'declined') =>
    database().booking.create({
      data: {
        stationId,
        memberId: who.memberId,
        startAt: inHours(from),
        endAt: inHours(from + 1),
        status,
        ...(status === 'declined' ? { decidedById: keeper.memberId } : {}),
      },
    })
  await book(me, saw.id, 5, 'approved')
  await book(other, saw.id, 2, 'approved')
  await book(other, saw.id, 8, 'requested')
  await book(me, planer.id, 3, 'requested')
  await book(me, planer.id, 6, 'declined')
  await book(me, planer.id, -3, 'approved')
  await book(me, planer.id, 24 * 9, 'approved')
  await book(me, planer.id, -0.5, 'approved')
  const seen = async (who: Actor) =>
    (await today(who)).booked.map((b) => [b.stationName, b.memberName, b.status, b.hasBegun])
  expect(await seen(me)).toEqual([
    [planer.name, 'Noor', 'approved', true],
    [planer.name, 'Noor', 'requested', false],
    [saw.name, 'Noor', 'approved', false],
  ])
  expect(await seen(keeper)).toEqual([
    [saw.name, 'Piet', 'approved', false],
    [saw.name, 'Noor', 'approved', false],
  ])
})

test('what others decided about my requests, the newest first, for a week', async () => {
  const buildId = await started(me)
  const keeper = await member('keeper', 'Bram')
  const saw = await station(keeper, { name: 'Saw of decisions' })
  const held = async (over: object) => {
    const plank = await board(other)
    await database().hold.create({
      data: {
        boardId: plank.id,
        buildId,
        memberId: me.memberId,
        createdAt: inHours(-400),
        expiresAt: inHours(50),
        ...over,
      } as never,
    })
    return plank.number
  }
  const by = { decidedById: other.memberId }
  const yes = await held({ status: 'live', ...by, decidedAt: inHours(-1) })
  const no = await held({ status: 'declined', ...by, decidedAt: inHours(-3), endedAt: inHours(-3) })
  const ranOut = await held({ status: 'lapsed', endedAt: inHours(-4), expiresAt: inHours(-4) })
  await held({ status: 'declined', ...by, decidedAt: inHours(-200), endedAt: inHours(-200) })
  await held({ status: 'live' })
  await database().booking.create({
    data: {
      stationId: saw.id,
      memberId: me.memberId,
      startAt: inHours(100),
      endAt: inHours(101),
      status: 'declined',
      decidedById: keeper.memberId,
      decidedAt: inHours(-2),
      decisionNote: 'Blade is away.',
    },
  })
  const { decisions } = await today(me)
  expect(decisions.map((d) => [d.what, d.answer, d.by, d.note])).toEqual([
    ['hold', 'yes', 'Piet', ''],
    ['booking', 'no', 'Bram', 'Blade is away.'],
    ['hold', 'no', 'Piet', ''],
    ['hold', 'lapsed', null, ''],
  ])
  expect([decisions[0], decisions[2], decisions[3]].map((d) => d.about)).toEqual(
    [yes, no, ranOut].map((n) => `Board ${n}`),
  )
  expect(decisions[1].about).toMatch(/^Saw of decisions, \w{3} \d+ \w+, \d\d:\d\d$/)
})

test('holds that run out within a day, a line a build', async () => {
  const [soon, later] = [await started(me), await started(me)]
  const first = inHours(3)
  for (const [buildId, expiresAt] of [
    [soon, first],
    [soon, inHours(20)],
    [soon, inHours(30)],
    [later, inHours(48)],
  ] as const)
    await database().hold.create({
      data: { boardId: (await board(other)).id, buildId, memberId: me.memberId, status: 'live', expiresAt },
    })
  expect((await today(me)).lapsing).toEqual([{ buildId: soon, boards: 2, firstAt: first }])
})

test('what others said about my builds, not what I said myself', async () => {
  const buildId = await started(me, 'Talked about')
  must(await add(other, { buildId, body: 'First' }))
  must(await add(me, { buildId, body: 'Mine' }))
  must(await add(other, { buildId, body: 'Second' }))
  expect((await today(me)).remarks.map((r) => [r.memberName, r.buildName, r.body])).toEqual([
    ['Piet', 'Talked about', 'Second'],
    ['Piet', 'Talked about', 'First'],
  ])
  expect((await today(other)).remarks).toEqual([])
})

test('a number of queries that does not grow with the builds', async () => {
  const queries: string[] = []
  const spied = spyOnQueries(queries)
  await started(me)
  queries.length = 0
  await today(me)
  const withOne = queries.length
  for (let i = 0; i < 12; i++) await started(me, `Build ${i}`)
  queries.length = 0
  expect((await today(me)).builds).toHaveLength(13)
  spied()
  expect(withOne).toBeGreaterThan(5)
  expect(queries.length).toBe(withOne)
})

/** Listens to the statements that go over the wire. */
function spyOnQueries(into: string[]): () => void {
  const { Client } = pg
  const query = Client.prototype.query
  Client.prototype.query = function (this: unknown, ...args: unknown[]) {
    const [first] = args as [string | { text?: string }]
    into.push(typeof first === 'string' ? first : (first.text ?? ''))
    return query.apply(this as never, args as never)
  } as never
  return () => {
    Client.prototype.query = query
  }
}

test('who voted for which variant of my builds, and what was said about one; not what I did myself', async () => {
  const buildId = await started(me, 'Seats')
  const { id: fromId } = must(await open(me, { buildId }))
  const { variantId } = must(await make(me, { fromId, name: 'With a low back' }))
  must(await cast(me, { variantId: fromId, version: 1 }))
  must(await cast(other, { variantId, version: 1 }))
  must(await addToVariant(other, { variantId, version: 1, body: 'This one.' }))
  const { votes, remarks } = await today(me)
  expect(votes.map((v) => [v.memberName, v.variantName, v.buildName])).toEqual([
    ['Piet', 'With a low back', 'Seats'],
  ])
  expect(remarks.map((r) => [r.body, r.variant?.name])).toEqual([['This one.', 'With a low back']])
  must(await finish(me, { buildId }))
  expect((await today(me)).votes).toEqual([])
})
