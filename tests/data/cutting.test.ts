import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { restsOf } from '#lib/core/cutting/offcuts'
import type { Result } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { ask, latest } from '#lib/data/cut-plans'
import { cutsOfBuild, recordCut } from '#lib/data/cutting'
import { hold } from '#lib/data/holds'
import { plannedCutting } from '#lib/shop/cutting'
import type { Refusal } from '#lib/shop/refusal'
import { build, member, seatBoards, shop, variant } from './arrange'
import { plannedFor } from './work-out'

beforeAll(() => shop())
beforeEach(async () => {
  await database().hold.updateMany({
    where: { status: { in: ['live', 'requested'] } },
    data: { status: 'released', endedAt: new Date() },
  })
  await database().board.updateMany({ where: { status: 'inPool' }, data: { status: 'removed' } })
})

const codeOf = <T>(r: Result<T, Refusal>) => (r.ok ? 'ok' : r.error.code)

/** A planned seat whose boards are held, with a knot in the far end of the seat board, where an offcut comes from. */
async function heldSeat() {
  const [maker, owner] = [await member('member', 'Ada'), await member('member', 'Olga')]
  const { id: buildId } = await build(maker)
  await variant(buildId)
  const boards = await seatBoards(owner, { place: 'Rack 3', bowUm: 4_000 })
  const seat = boards[1]
  await database().defect.create({
    data: {
      boardId: seat.id,
      kind: 'knot',
      face: 'A',
      xUm: 1_900_000,
      yUm: 20_000,
      widthUm: 30_000,
      heightUm: 30_000,
    },
  })
  const planId = await plannedFor(maker, buildId)
  const held = await hold(maker, {
    buildId,
    boards: boards.map((b) => ({ boardId: b.id, version: b.version })),
  })
  expect(codeOf(held)).toBe('ok')
  const seen = await latest(maker, { buildId })
  if (!seen.ok || !seen.value?.newest.result) throw new Error('no plan')
  const { input, result } = seen.value.newest
  const planned = plannedCutting(input, result, seat.id)
  if (!planned) throw new Error('the seat board is not cut')
  return { maker, owner, buildId, planId, boards, seat, planned, input, result }
}

const offcutsOf = (parentId: string) =>
  database().board.findMany({
    where: { parentId },
    include: { defects: true, events: true },
    orderBy: { number: 'asc' },
  })

describe('into the books', () => {
  test('as planned: board out, hold used, parts made, offcuts back with parentage, the ledger tells it', async () => {
    const { maker, owner, buildId, planId, seat, planned } = await heldSeat()
    const recorded = await recordCut(maker, { planId, boardId: seat.id, note: 'Clean cut' })
    if (!recorded.ok) throw new Error(JSON.stringify(recorded.error))
    expect(recorded.value.parts).toBe(planned.parts.length)
    expect(recorded.value.offcuts).toHaveLength(planned.offcuts.length)
    const board = await database().board.findUniqueOrThrow({
      where: { id: seat.id },
      include: { holds: true },
    })
    expect([board.status, board.version, board.holds.map((h) => h.status)]).toEqual(['cut', 2, ['used']])
    const made = await database().partMade.findMany({ where: { buildId } })
    expect(made.map((p) => p.partId).sort()).toEqual(planned.parts.map((p) => p.partId).sort())
    const offcuts = await offcutsOf(seat.id)
    expect(offcuts.length).toBeGreaterThan(0)
    for (const o of offcuts) {
      expect([o.ownerId, o.terms, o.species, o.thicknessUm, o.metal, o.status, o.place]).toEqual([
        owner.memberId,
        'free',
        'whiteOak',
        22_000,
        'cleared',
        'inPool',
        'Rack 3',
      ])
      expect(o.events.map((e) => e.kind)).toEqual(['offcut'])
    }
    const events = await database().stockEvent.findMany({
      where: { boardId: seat.id },
      orderBy: { id: 'asc' },
    })
    expect(events.map((e) => e.kind)).toEqual(['held', 'cut'])
    expect(events[1].detail).toMatchObject({ offcuts: offcuts.map((o) => o.number) })
    const cuts = await cutsOfBuild(owner, { buildId })
    expect(cuts).toMatchObject({
      ok: true,
      value: [{ boardNumber: seat.number, note: 'Clean cut', memberName: 'Ada' }],
    })
  })

  test('the damage goes where the wood goes, and the bow with the square of the length', async () => {
    const { maker, planId, seat, planned } = await heldSeat()
    await recordCut(maker, { planId, boardId: seat.id })
    const offcuts = await offcutsOf(seat.id)
    const at = planned.offcuts.findIndex((o) => o.xUm <= 1_900_000 && o.xUm + o.lengthUm >= 1_930_000)
    const from = planned.offcuts[at]
    const withKnot = offcuts.find((o) => o.defects.length > 0)
    if (!from || !withKnot) throw new Error('the knot is in no offcut')
    expect(withKnot.defects).toMatchObject([
      { kind: 'knot', xUm: 1_900_000 - from.xUm, yUm: 20_000 - from.yUm, widthUm: 30_000, heightUm: 30_000 },
    ])
    // Sagitta of an arc: a half as long chord has a quarter of the rise (plane geometry).
    expect(withKnot.bowUm).toBe(Math.ceil(4_000 * (withKnot.lengthUm / 1_970_000) ** 2))
  })

  test('50 clicks at once: recorded once, 49 told that it is cut', async () => {
    const { maker, buildId, planId, seat, planned } = await heldSeat()
    const codes = await Promise.all(
      Array.from({ length: 50 }, () => recordCut(maker, { planId, boardId: seat.id }).then(codeOf)),
    )
    expect(codes.filter((c) => c === 'ok')).toHaveLength(1)
    expect(codes.filter((c) => c === 'alreadyCut')).toHaveLength(49)
    expect(await database().partMade.count({ where: { buildId } })).toBe(planned.parts.length)
    expect(await offcutsOf(seat.id)).toHaveLength(planned.offcuts.length)
  })

  test('what was really cut: a part failed, one offcut smaller, another rest kept; the next plan asks for the part', async () => {
    const { maker, buildId, planId, seat, planned } = await heldSeat()
    const [failed, ...came] = planned.parts.map((p) => p.partId)
    const offcuts = [
      { planned: 0, lengthUm: 150_000, widthUm: 60_000 },
      { planned: null, lengthUm: 200_000, widthUm: 50_000 },
    ]
    const recorded = await recordCut(maker, { planId, boardId: seat.id, made: came, offcuts, place: 'Bin A' })
    expect(codeOf(recorded)).toBe('ok')
    const rows = await offcutsOf(seat.id)
    expect(rows.map((o) => [o.lengthUm, o.widthUm, o.place])).toEqual([
      [150_000, 60_000, 'Bin A'],
      [200_000, 50_000, 'Bin A'],
    ])
    expect(rows[1].notes).toContain('not been mapped')
    expect(codeOf(await ask(maker, { buildId, seconds: 5 }))).toBe('ok')
    const again = await latest(maker, { buildId })
    if (!again.ok || !again.value) throw new Error('no plan')
    const wanted = again.value.newest.input.needs.flatMap((n) => n.partIds)
    expect(wanted).toContain(failed)
    for (const partId of came) expect(wanted).not.toContain(partId)
  })

  test('all boards cut: nothing is left to plan', async () => {
    const { maker, buildId, planId, boards } = await heldSeat()
    for (const b of boards) expect(codeOf(await recordCut(maker, { planId, boardId: b.id }))).toBe('ok')
    expect(codeOf(await ask(maker, { buildId, seconds: 5 }))).toBe('nothingToCut')
    expect(await database().partMade.count({ where: { buildId } })).toBe(14)
  })
})

describe('refused', () => {
  test('not held, not cleared, gone, not of this plan, not the maker; nothing changes', async () => {
    const { maker, buildId, planId, boards, seat } = await heldSeat()
    const cut = (over: object = {}) => recordCut(maker, { planId, boardId: seat.id, ...over }).then(codeOf)
    expect(codeOf(await recordCut(await member('admin'), { planId, boardId: seat.id }))).toBe('notAllowed')
    const set = (data: object) => database().board.update({ where: { id: seat.id }, data })
    await set({ metal: 'found' })
    expect(await cut()).toBe('boardGated')
    await set({ metal: 'cleared', lead: 'found' })
    expect(await cut()).toBe('boardGated')
    await set({ lead: 'notNeeded' })
    await database().hold.updateMany({
      where: { boardId: seat.id, status: 'live' },
      data: { createdAt: new Date(0), expiresAt: new Date(1) },
    })
    expect(await cut()).toBe('boardNotHeld')
    const stranger = await database().board.create({
      data: {
        ownerId: maker.memberId,
        lengthUm: 500_000,
        widthUm: 90_000,
        thicknessUm: 20_000,
        species: 'whiteOak',
      },
    })
    expect(await cut({ boardId: stranger.id })).toBe('notFound')
    expect(await database().partMade.count({ where: { buildId } })).toBe(0)
    expect(await offcutsOf(boards[0].id)).toHaveLength(0)
  })

  test('what cannot have come out: sentences by field', async () => {
    const { maker, planId, seat } = await heldSeat()
    const fields = async (over: object) => {
      const r = await recordCut(maker, { planId, boardId: seat.id, ...over })
      return r.ok || r.error.code !== 'badInput' ? codeOf(r) : Object.keys(r.error.fields ?? {})
    }
    const size = { lengthUm: 300_000, widthUm: 60_000 }
    expect(await fields({ offcuts: [{ planned: 0, ...size, lengthUm: 2_200_000 }] })).toEqual([
      'offcuts.0.lengthUm',
    ])
    expect(await fields({ offcuts: [{ planned: 0, ...size, widthUm: 100_000 }] })).toEqual([
      'offcuts.0.widthUm',
    ])
    expect(await fields({ offcuts: [{ planned: 0, ...size, widthUm: -4 }] })).toEqual(['offcuts.0.widthUm'])
    expect(await fields({ offcuts: [{ planned: 0, ...size, lengthUm: Number.NaN }] })).toEqual([
      'offcuts.0.lengthUm',
    ])
    expect(
      await fields({
        offcuts: [
          { planned: 0, ...size },
          { planned: 0, ...size },
        ],
      }),
    ).toEqual(['offcuts.1.planned'])
    expect(await fields({ offcuts: [{ planned: 0, lengthUm: 1_900_000, widthUm: 90_000 }] })).toEqual([
      'offcuts',
    ])
    expect(await fields({ made: ['no-such-part'] })).toEqual(['made'])
    expect(await database().boardCut.count({ where: { boardId: seat.id } })).toBe(0)
  })
})

test('the areas of a layout add up: parts, offcuts, waste and kerf are the whole usable board', async () => {
  const { input, result } = await heldSeat()
  for (const { board, tree } of result.plan.layouts) {
    const rests = restsOf(tree)
    const sum = rests.blankAreaUm2 + rests.offcutAreaUm2 + rests.wasteAreaUm2 + rests.kerfAreaUm2
    expect(sum).toBe(input.pool.usable[board].lengthUm * input.pool.usable[board].widthUm)
  }
})
