import { beforeAll, describe, expect, test } from 'vitest'
import { database } from '#lib/data/client'
import { changeRole, removeMember } from '#lib/data/members'
import {
  createStation,
  editStation,
  giveInduction,
  listInductions,
  listStations,
  oneStation,
  retireStation,
  revokeInduction,
  tuneStation,
} from '#lib/data/stations'
import type { Actor } from '#lib/shop/actor'
import { member, shop, station } from './arrange'

let admin: Actor
let keeper: Actor
let maker: Actor

beforeAll(async () => {
  await shop()
  admin = await member('admin', 'Ada')
  keeper = await member('keeper', 'Kim')
  maker = await member('member', 'Max')
})

const tuning = {
  place: 'Bay 2',
  notes: 'Riving knife on.',
  opensMinute: 480,
  closesMinute: 1320,
  kerfUm: 3200,
  maxRipWidthUm: 760_000,
  maxCrosscutWidthUm: 600_000,
  minPieceLengthUm: 300_000,
  minPieceWidthUm: 40_000,
  maxPassUm: null,
}
const saw = () => ({
  ...tuning,
  name: `Saw ${Math.random()}`,
  kind: 'tableSaw',
  keeperId: keeper.memberId,
  needsInduction: true,
  needsApproval: true,
})

describe('stations', () => {
  test('made, shown, changed and taken out of use by an admin', async () => {
    const made = await createStation(admin, saw())
    if (!made.ok) throw new Error(made.error.code)
    const { stationId } = made.value
    expect(await oneStation(maker, { stationId })).toMatchObject({
      value: { kerfUm: 3200, keeper: { name: 'Kim' }, isInducted: false, isMine: false, mayKeep: false },
    })
    expect(await oneStation(keeper, { stationId })).toMatchObject({
      value: { isInducted: true, isMine: true },
    })
    expect((await editStation(admin, { stationId, ...saw(), place: 'Bay 3' })).ok).toBe(true)
    const later = new Date(Date.now() + 86_400_000)
    const booking = await database().booking.create({
      data: { stationId, memberId: maker.memberId, startAt: later, endAt: new Date(later.getTime() + 9e5) },
    })
    expect(await retireStation(admin, { stationId })).toEqual({ ok: true, value: { bookings: 1 } })
    expect(await database().booking.findUnique({ where: { id: booking.id } })).toMatchObject({
      status: 'cancelled',
    })
    expect(await oneStation(maker, { stationId })).toMatchObject({ error: { code: 'notFound' } })
    expect(await retireStation(admin, { stationId })).toMatchObject({ error: { code: 'notFound' } })
  })

  test('a sentence beside every bad field', async () => {
    const bad = {
      ...saw(),
      name: '',
      kind: 'anvil',
      opensMinute: -1,
      closesMinute: 2000,
      kerfUm: 50_000,
      maxPassUm: -3,
    }
    const result = await createStation(admin, bad)
    if (result.ok) throw new Error()
    expect(Object.keys(result.error.fields!).sort()).toEqual([
      'closesMinute',
      'kerfUm',
      'kind',
      'maxPassUm',
      'name',
      'opensMinute',
    ])
    expect(await createStation(admin, { ...saw(), opensMinute: 600, closesMinute: 600 })).toMatchObject({
      error: { fields: { closesMinute: 'It must close after it opens.' } },
    })
    expect(await createStation(admin, { ...saw(), keeperId: maker.memberId })).toMatchObject({
      error: { fields: { keeperId: expect.any(String) } },
    })
  })

  test('no two of one name', async () => {
    const one = saw()
    expect((await createStation(admin, one)).ok).toBe(true)
    expect(await createStation(admin, one)).toMatchObject({
      error: { code: 'alreadyExists', fields: { name: expect.any(String) } },
    })
  })

  test('a keeper tunes their own and no other', async () => {
    const [own, other] = [await station(keeper), await station(admin)]
    expect((await tuneStation(keeper, { stationId: own.id, ...tuning })).ok).toBe(true)
    expect(await tuneStation(keeper, { stationId: other.id, ...tuning })).toMatchObject({
      error: { code: 'notFound' },
    })
    // What only an admin sets is not taken from a keeper.
    await tuneStation(keeper, {
      stationId: own.id,
      ...tuning,
      name: 'Mine',
      needsInduction: true,
      keeperId: maker.memberId,
    })
    expect(await database().station.findUnique({ where: { id: own.id } })).toMatchObject({
      name: own.name,
      keeperId: keeper.memberId,
      needsInduction: false,
    })
  })

  test('a station never ends up with a keeper who was demoted or removed at the same moment', async () => {
    for (let round = 0; round < 8; round++) {
      const other = await member('keeper')
      const [made, gone] = await Promise.all([
        createStation(admin, { ...saw(), keeperId: other.memberId }),
        round % 2
          ? removeMember(admin, { memberId: other.memberId })
          : changeRole(admin, { memberId: other.memberId, role: 'member' }),
      ])
      expect(made.ok || gone.ok).toBe(true)
      const orphan = {
        retiredAt: null,
        keeper: { OR: [{ removedAt: { not: null } }, { role: 'member' as const }] },
      }
      expect(await database().station.count({ where: orphan })).toBe(0)
    }
  })

  test('the list says when each is next free for an hour', async () => {
    const free = await station(keeper)
    const busy = await station(keeper)
    const from = Math.ceil(Date.now() / 9e5) * 9e5
    const until = new Date(from + 4 * 3_600_000)
    await database().booking.create({
      data: {
        stationId: busy.id,
        memberId: maker.memberId,
        startAt: new Date(from - 9e5),
        endAt: until,
        status: 'approved',
      },
    })
    const listed = await listStations(maker, {})
    if (!listed.ok) throw new Error()
    const at = (s: { id: string }) => listed.value.find((x) => x.id === s.id)!.nextFreeAt
    expect(at(free)!.getTime()).toBeLessThanOrEqual(Date.now())
    expect(at(busy)).toEqual(until)
  })
})

describe('inductions', () => {
  test('given once, listed, revoked once', async () => {
    const own = await station(keeper, { needsInduction: true })
    const both = { stationId: own.id, memberId: maker.memberId }
    const given = await Promise.all(Array.from({ length: 10 }, () => giveInduction(keeper, both)))
    expect(given.filter((r) => r.ok)).toHaveLength(1)
    for (const r of given) if (!r.ok) expect(r.error.code).toBe('alreadyExists')
    expect(await listInductions(keeper, { stationId: own.id })).toMatchObject({
      value: [{ name: 'Max', givenBy: 'Kim' }],
    })
    expect(await oneStation(maker, { stationId: own.id })).toMatchObject({ value: { isInducted: true } })
    expect((await revokeInduction(admin, both)).ok).toBe(true)
    expect(await revokeInduction(keeper, both)).toMatchObject({ error: { code: 'notFound' } })
    expect((await giveInduction(keeper, both)).ok).toBe(true)
  })

  test('not to who is no member', async () => {
    const own = await station(keeper)
    const gone = await member()
    await removeMember(admin, { memberId: gone.memberId })
    expect(await giveInduction(keeper, { stationId: own.id, memberId: gone.memberId })).toMatchObject({
      error: { fields: { memberId: expect.any(String) } },
    })
  })
})
