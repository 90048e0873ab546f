import { beforeAll, expect, test } from 'vitest'
import { finish } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { clear, lengthen, ofBuild, start } from '#lib/data/waits'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor
const HOUR = 3_600_000

beforeAll(async () => {
  await shop()
  maker = await member('member', 'Noor')
})

test('begun a while ago, ready that much sooner', async () => {
  const buildId = await started(maker)
  const before = Date.now()
  const wait = must(
    await start(maker, { buildId, kind: 'glue', label: 'Left frame', hours: 24, agoMinutes: 90 }),
  )
  expect(wait.readyAt.getTime() - before).toBeGreaterThanOrEqual(22.5 * HOUR)
  expect(wait.readyAt.getTime() - before).toBeLessThan(22.5 * HOUR + 60_000)
  must(await start(maker, { buildId, kind: 'filler', hours: 1, agoMinutes: 120 }))
  expect(must(await ofBuild(await member(), { buildId })).map((w) => [w.label, w.state])).toEqual([
    ['Filler', 'ready'],
    ['Left frame', 'running'],
  ])
})

test('cleared once, by its maker or an admin', async () => {
  const buildId = await started(maker)
  const { waitId } = must(await start(maker, { buildId, kind: 'paint', hours: 4 }))
  const stranger = await clear(await member(), { waitId })
  expect(stranger.ok ? '' : stranger.error.code).toBe('notAllowed')
  must(await clear(await member('admin'), { waitId }))
  const again = await clear(maker, { waitId })
  expect(again.ok ? '' : again.error.code).toBe('alreadyDecided')
  expect(must(await ofBuild(maker, { buildId }))).toEqual([])
})

test('still tacky: from now, or from when it was to be ready', async () => {
  const buildId = await started(maker)
  const over = must(await start(maker, { buildId, kind: 'paint', hours: 1, agoMinutes: 180 }))
  const longer = must(await lengthen(maker, { waitId: over.waitId, hours: 2 }))
  expect(Math.abs(longer.readyAt.getTime() - Date.now() - 2 * HOUR)).toBeLessThan(60_000)
  const running = must(await start(maker, { buildId, kind: 'oil', hours: 24 }))
  const more = must(await lengthen(maker, { waitId: running.waitId, hours: 2 }))
  expect(more.readyAt.getTime() - running.readyAt.getTime()).toBe(2 * HOUR)
  must(await clear(maker, { waitId: running.waitId }))
  expect((await lengthen(maker, { waitId: running.waitId, hours: 2 })).ok).toBe(false)
})

test.each([
  ['no time at all', { hours: 0 }, 'hours'],
  ['less than nothing', { hours: -3 }, 'hours'],
  ['longer than two months', { hours: 60 * 24 + 1 }, 'hours'],
  ['not a number', { hours: Number.NaN }, 'hours'],
  ['begun tomorrow', { hours: 4, agoMinutes: -60 }, 'agoMinutes'],
  ['begun two weeks ago', { hours: 4, agoMinutes: 20_160 }, 'agoMinutes'],
  ['a kind that is none', { hours: 4, kind: 'concrete' }, 'kind'],
  ['a label without end', { hours: 4, label: 'x'.repeat(121) }, 'label'],
])('%s: a sentence beside the field', async (_, over, field) => {
  const buildId = await started(maker)
  const result = await start(maker, { buildId, kind: 'paint', ...over })
  expect(result.ok ? '' : result.error.fields?.[field]).toMatch(/\w.*[.?]$/)
  expect(await database().wait.count({ where: { buildId } })).toBe(0)
})

test('nothing dries in a finished build', async () => {
  const buildId = await started(maker)
  const { waitId } = must(await start(maker, { buildId, kind: 'glue', hours: 24 }))
  must(await finish(maker, { buildId }))
  for (const result of [
    await start(maker, { buildId, kind: 'glue', hours: 24 }),
    await clear(maker, { waitId }),
  ])
    expect(result.ok ? '' : result.error.code).toBe('buildClosed')
})
