import { afterEach, beforeAll, describe, expect, test } from 'vitest'
import { ok } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { hold } from '#lib/data/holds'
import { lapseAll } from '#lib/data/internal/hold-life'
import { ANYTHING, Listener, listener } from '#lib/data/internal/listener'
import { follow } from '#lib/data/live'
import { announce, transact } from '#lib/data/transaction'
import { board, build, member, shop } from './arrange'

beforeAll(() => shop())

const listening = async () =>
  (
    await database().$queryRaw<{ pid: number }[]>`
      select pid from pg_stat_activity where datname = current_database() and query ilike 'listen fellowbench'`
  ).map((r) => r.pid)

async function until(is: () => boolean | Promise<boolean>): Promise<void> {
  for (let i = 0; i < 200; i++) {
    if (await is()) return
    await new Promise((resolve) => setTimeout(resolve, 25))
  }
  throw new Error('waited too long')
}

const stops: (() => void)[] = []
afterEach(() => {
  for (const stop of stops.splice(0)) stop()
})
async function following(...topics: string[]): Promise<string[]> {
  const heard: string[] = []
  stops.push(await listener().follow(topics, (topic) => heard.push(topic)))
  return heard
}

describe('following', () => {
  test('a hold tells the board, the build, the owner and the pool; others hear nothing', async () => {
    const [maker, owner, stranger] = [await member(), await member(), await member()]
    const [wanted, { id: buildId }] = [await board(owner), await build(maker)]
    const mine = await following('pool', `board:${wanted.id}`, `build:${buildId}`, `member:${owner.memberId}`)
    const theirs = await following(`member:${stranger.memberId}`)
    await hold(maker, { buildId, boards: [{ boardId: wanted.id, version: 1 }] })
    await until(() => mine.length >= 4)
    expect([...mine].sort()).toEqual(
      ['pool', `board:${wanted.id}`, `build:${buildId}`, `member:${owner.memberId}`].sort(),
    )
    expect(theirs).toEqual([])
  })

  test('a request that runs out is told to who asked and to the owner, who still has it on Today', async () => {
    const [maker, owner] = [await member(), await member()]
    const [wanted, { id: buildId }] = [await board(owner, { terms: 'ask' }), await build(maker)]
    const heard = await following(`member:${maker.memberId}`, `member:${owner.memberId}`)
    await hold(maker, { buildId, boards: [{ boardId: wanted.id, version: 1 }] })
    await until(() => heard.splice(0).length > 0) // the request itself
    const later = new Date(Date.now() + 400 * 24 * 3_600_000)
    await transact(async (tx) => ok(await lapseAll(tx, later)))
    await until(() => heard.length >= 2)
    expect([...heard].sort()).toEqual([`member:${maker.memberId}`, `member:${owner.memberId}`].sort())
  })

  test('what is rolled back is not told', async () => {
    const heard = await following('pool')
    await transact(async (tx) => {
      await announce(tx, 'pool')
      throw new Error('no')
    }).catch(() => {})
    await transact(async (tx) => ok(await announce(tx, 'pool')))
    await until(() => heard.length > 0)
    expect(heard).toEqual(['pool'])
  })

  test('50 followers share one connection; with the last one it closes', async () => {
    const all = await Promise.all(Array.from({ length: 50 }, () => following('pool')))
    expect(await listening()).toHaveLength(1)
    await transact(async (tx) => ok(await announce(tx, 'pool')))
    await until(() => all.every((heard) => heard.length === 1))
    for (const stop of stops.splice(0)) stop()
    expect(listener().followers).toBe(0)
  })

  test('the connection closes a while after the last follower, not before the next one comes', async () => {
    const before = (await listening()).length
    const own = new Listener(150)
    const stop = await own.follow(['pool'], () => {})
    stop()
    const stopAgain = await own.follow(['pool'], () => {})
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(await listening()).toHaveLength(before + 1)
    stopAgain()
    await until(async () => (await listening()).length === before)
  })

  test('a page that begins to follow learns what changed since it was made', async () => {
    const own = new Listener(0)
    expect(own.mayHaveChanged(['pool'], Date.now())).toBe(true) // it was not listening: nobody knows
    const heard: string[] = []
    const stop = await own.follow(['builds'], (topic) => heard.push(topic))
    const madeAt = Date.now()
    expect(own.mayHaveChanged(['pool', 'builds'], madeAt)).toBe(false)
    expect(own.mayHaveChanged(['pool'], madeAt - 60_000)).toBe(true)
    await transact(async (tx) => {
      await announce(tx, 'pool')
      return ok(await announce(tx, 'builds'))
    })
    await until(() => heard.length === 1)
    expect(own.mayHaveChanged(['pool'], madeAt)).toBe(true)
    expect(own.mayHaveChanged(['stations'], madeAt)).toBe(false)
    expect(own.mayHaveChanged(['pool'], Date.now() + 1)).toBe(false)
    stop()
  })

  test('after a lost connection nothing is taken for unchanged', async () => {
    const own = new Listener(0)
    const before = await listening()
    const stop = await own.follow(['pool'], () => {})
    const madeAt = Date.now()
    const pid = (await listening()).find((p) => !before.includes(p))!
    await database().$queryRaw`select pg_terminate_backend(${pid}::int)`
    await until(() => own.mayHaveChanged(['pool'], madeAt))
    stop()
  })

  test('a connection that is lost is made anew, and all are told to look again', async () => {
    const heard = await following('pool')
    const [pid] = await listening()
    await database().$queryRaw`select pg_terminate_backend(${pid}::int)`
    await until(() => heard.includes(ANYTHING))
    await transact(async (tx) => ok(await announce(tx, 'pool')))
    await until(() => heard.includes('pool'))
  })
})

test('topics are a closed list, and what waits for another member is not mine to follow', async () => {
  const [actor, other] = [await member(), await member()]
  const code = async (...topics: string[]) => {
    const r = await follow(actor, { topics })
    return r.ok ? 'ok' : r.error.code
  }
  expect(await code('pool', `member:${actor.memberId}`, `plan:${other.memberId}`)).toBe('ok')
  expect(await code(`member:${other.memberId}`)).toBe('notAllowed')
  expect(await code('everything')).toBe('badInput')
  expect(await code()).toBe('badInput')
  expect(await code(...Array.from({ length: 21 }, () => 'pool'))).toBe('badInput')
})
