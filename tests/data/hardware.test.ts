// Lots of hardware against PostgreSQL: counts are what the events add up to, also with everyone taking at once.
import { beforeAll, describe, expect, test } from 'vitest'
import { database } from '#lib/data/client'
import { changeLot, hardware, logHardware, ofBuild, ofTeardown, putBack, take } from '#lib/data/hardware'
import { build, member, shop } from './arrange'
import { started, must as worth } from './arrange-build'

beforeAll(() => shop())

async function lot(over: object = {}) {
  const owner = await member('member', 'Ola')
  const { id: teardownId } = await database().teardown.create({
    data: { memberId: owner.memberId, name: 'Wardrobe' },
  })
  const input = { teardownId, kind: 'screw', size: 'No. 8 × 32 mm', count: 20, ...over }
  const { lotId } = worth(await logHardware(owner, input))
  return { owner, teardownId, lotId }
}

const left = async (lotId: string) =>
  (await database().hardwareLot.findUniqueOrThrow({ where: { id: lotId } })).count

describe('a lot', () => {
  test('is its owner’s, seen with its teardown and by all', async () => {
    const { owner, teardownId, lotId } = await lot({ place: 'Tin by the window' })
    const stranger = await member()
    expect(worth(await ofTeardown(stranger, { teardownId }))).toEqual([
      expect.objectContaining({ id: lotId, count: 20, ownerName: 'Ola', mayTake: true, mayChange: false }),
    ])
    const { lots } = worth(await hardware(owner, {}))
    expect(lots).toContainEqual(expect.objectContaining({ id: lotId, mayChange: true }))
  })

  test.each([
    [{ count: 0 }, 'count'],
    [{ count: 1.5 }, 'count'],
    [{ count: 10_001 }, 'count'],
    [{ size: '  ' }, 'size'],
    [{ size: 'x'.repeat(61) }, 'size'],
    [{ kind: 'anvil' }, 'kind'],
    [{ terms: 'ask' }, 'terms'],
    [{ place: 'x'.repeat(81) }, 'place'],
  ])('%o: a sentence beside %s', async (over, field) => {
    const { owner, teardownId } = await lot()
    const input = { teardownId, kind: 'hinge', size: '50 mm', count: 2, ...over }
    expect(await logHardware(owner, input)).toMatchObject({
      error: { fields: { [field]: expect.any(String) } },
    })
    expect(await database().hardwareLot.count({ where: { teardownId } })).toBe(1)
  })

  test('kept for its owner is not taken by others, and not seen to be takeable', async () => {
    const { owner, teardownId, lotId } = await lot({ terms: 'mine' })
    const other = await member()
    expect(await take(other, { lotId, count: 1 })).toMatchObject({ error: { code: 'notFound' } })
    expect(worth(await ofTeardown(other, { teardownId }))).toMatchObject([{ mayTake: false }])
    worth(await take(owner, { lotId, count: 1 }))
    expect(await left(lotId)).toBe(19)
  })

  test('is counted anew by its owner or an admin, and the books say by how much', async () => {
    const { owner, lotId } = await lot()
    worth(await changeLot(owner, { lotId, count: 17, place: 'Rack 2' }))
    worth(await changeLot(await member('admin'), { lotId, count: 0 }))
    expect(await changeLot(await member(), { lotId, count: 5 })).toMatchObject({
      error: { code: 'notFound' },
    })
    const events = await database().hardwareEvent.findMany({ where: { lotId }, orderBy: { id: 'asc' } })
    expect(events.map(({ kind, change }) => [kind, change])).toEqual([
      ['takenIn', 20],
      ['counted', -3],
      ['counted', -17],
    ])
    expect(worth(await hardware(owner, {})).lots.map((l) => l.id)).not.toContain(lotId)
  })
})

describe('a build', () => {
  test('takes what it wants, puts back what is over, and nothing more', async () => {
    const maker = await member()
    const buildId = await started(maker)
    const seen = async () => worth(await ofBuild(maker, { buildId })).wanted[0]
    const { size, wanted } = await seen()
    expect(wanted).toBeGreaterThan(3)
    const { lotId } = await lot({ size: size.toLowerCase(), count: 500 })
    expect(await seen()).toMatchObject({ taken: 0 })
    expect((await seen()).lots.map((l) => l.id)).toContain(lotId)

    worth(await take(maker, { lotId, buildId, count: wanted }))
    expect(await seen()).toMatchObject({ taken: wanted })
    worth(await putBack(maker, { lotId, buildId, count: 2 }))
    expect(await seen()).toMatchObject({ taken: wanted - 2 })
    expect(await putBack(maker, { lotId, buildId, count: wanted })).toMatchObject({
      error: { fields: { count: 'More than were taken for this build.' } },
    })
    expect(await left(lotId)).toBe(500 - wanted + 2)
    expect(await take(await member(), { lotId, buildId, count: 1 })).toMatchObject({
      error: { code: 'notAllowed' },
    })
  })

  test('that is closed takes nothing', async () => {
    const maker = await member()
    const { id: buildId } = await build(maker, { finishedAt: new Date() })
    const { lotId } = await lot()
    expect(await take(maker, { lotId, buildId, count: 1 })).toMatchObject({ error: { code: 'buildClosed' } })
    expect(await left(lotId)).toBe(20)
  })
})

describe('the books', () => {
  test('thirty take one each of twenty: twenty get one, ten are told, none is left', async () => {
    const { lotId } = await lot()
    const takers = await Promise.all(Array.from({ length: 30 }, () => member()))
    const results = await Promise.all(takers.map((who) => take(who, { lotId, count: 1 })))
    expect(results.filter((r) => r.ok)).toHaveLength(20)
    for (const r of results.filter((r) => !r.ok))
      expect(r).toMatchObject({ error: { fields: { count: expect.stringContaining('not that many') } } })
    expect(await left(lotId)).toBe(0)
  })

  test.each([
    'update "HardwareEvent" set "change" = 5',
    'delete from "HardwareEvent"',
    'truncate "HardwareEvent"',
    'delete from "HardwareLot"',
    'update "HardwareLot" set "count" = -1',
  ])('refuse: %s', async (sql) => {
    await lot()
    await expect(database().$executeRawUnsafe(sql)).rejects.toThrow()
  })
})
