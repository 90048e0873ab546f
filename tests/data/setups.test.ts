import { beforeAll, describe, expect, test } from 'vitest'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { Result } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { recordCut } from '#lib/data/cutting'
import { hold } from '#lib/data/holds'
import { ofBuild, type SetupWorkView, tick } from '#lib/data/setups'
import type { Actor } from '#lib/shop/actor'
import type { Refusal } from '#lib/shop/refusal'
import { build, member, seatBoards, shop, station, variant } from './arrange'
import { plannedFor } from './work-out'

beforeAll(() => shop())

const codeOf = <T>(r: Result<T, Refusal>) => (r.ok ? 'ok' : r.error.code)

async function plannedSeat() {
  const maker = await member('member', 'Ada')
  const { id: buildId } = await build(maker)
  await variant(buildId)
  const boards = await seatBoards(maker, { terms: 'mine' })
  const planId = await plannedFor(maker, buildId)
  return { maker, buildId, planId, boards }
}

async function work(actor: Actor, buildId: string): Promise<SetupWorkView> {
  const seen = await ofBuild(actor, { buildId })
  if (!seen.ok || !seen.value) throw new Error('no work')
  return seen.value
}

describe('set-ups of a build', () => {
  test('every part has its piece, before, during and after the cutting, and the sums stay the same', async () => {
    const { maker, buildId, planId, boards } = await plannedSeat()
    const before = planSetups((await work(maker, buildId)).input)
    expect(before.partsWithoutPiece).toEqual([])
    expect(before.settings).toBeLessThan(before.settingsPieceByPiece)
    const held = boards.map((b) => ({ boardId: b.id, version: b.version }))
    expect(codeOf(await hold(maker, { buildId, boards: held }))).toBe('ok')
    for (const b of boards) {
      expect(codeOf(await recordCut(maker, { planId, boardId: b.id }))).toBe('ok')
      const during = planSetups((await work(maker, buildId)).input)
      expect(during.partsWithoutPiece).toEqual([])
      expect(during.cuttingSeconds).toBeCloseTo(before.cuttingSeconds, 6)
    }
    const keys = (plan: typeof before) => plan.setups.flatMap((s) => s.cuts.map((c) => c.key)).sort()
    expect(keys(planSetups((await work(maker, buildId)).input))).toEqual(keys(before))
  })

  test('a part that failed has no piece until the next plan', async () => {
    const { maker, buildId, planId, boards } = await plannedSeat()
    await hold(maker, { buildId, boards: boards.map((b) => ({ boardId: b.id, version: b.version })) })
    const [legs] = boards
    const made = (await work(maker, buildId)).input.needs
      .flatMap((n) => n.partIds)
      .filter((p) => p.includes('leg'))
    await recordCut(maker, { planId, boardId: legs.id, made: made.slice(1) })
    expect(planSetups((await work(maker, buildId)).input).partsWithoutPiece).toEqual([made[0]])
  })

  test("the shop's own saw decides: kerf and stations", async () => {
    const { maker, buildId } = await plannedSeat()
    const saw = await station(await member('keeper'), { kerfUm: 2_400, name: 'Old saw' })
    const seen = await work(maker, buildId)
    expect(seen.input.shop.tableSaw.kerfMm).toBe(2.4)
    expect(seen.stations).toEqual([{ id: saw.id, name: 'Old saw', kind: 'tableSaw' }])
    await database().station.update({ where: { id: saw.id }, data: { retiredAt: new Date() } })
  })
})

describe('ticks', () => {
  test('the maker ticks and takes back; twice is once; nobody else does', async () => {
    const { maker, buildId, planId } = await plannedSeat()
    const [setup] = planSetups((await work(maker, buildId)).input).setups
    const keys = setup.cuts.map((c) => c.key)
    await Promise.all([1, 2, 3].map(() => tick(maker, { planId, keys, done: true })))
    expect((await work(maker, buildId)).ticks.map((t) => [t.key, t.memberName]).sort()).toEqual(
      keys.map((key) => [key, 'Ada']).sort(),
    )
    expect(codeOf(await tick(await member(), { planId, keys, done: false }))).toBe('notAllowed')
    await tick(maker, { planId, keys: keys.slice(1), done: false })
    expect((await work(maker, buildId)).ticks.map((t) => t.key)).toEqual(keys.slice(0, 1))
  })
})

test('after another plan: ticks of boards that are cut stay, those of boards that may be cut otherwise do not', async () => {
  const { maker, buildId, planId, boards } = await plannedSeat()
  await hold(maker, { buildId, boards: boards.map((b) => ({ boardId: b.id, version: b.version })) })
  await recordCut(maker, { planId, boardId: boards[0].id })
  const keys = planSetups((await work(maker, buildId)).input).setups.flatMap((s) => s.cuts.map((c) => c.key))
  expect(codeOf(await tick(maker, { planId, keys, done: true }))).toBe('ok')
  expect((await work(maker, buildId)).ticks).toHaveLength(keys.length)
  await plannedFor(maker, buildId)
  const left = (await work(maker, buildId)).ticks.map((t) => t.key)
  const made = (await database().partMade.findMany({ where: { buildId } })).map((p) => p.partId)
  const subjects = new Set(left.map((k) => k.split(/[:/]/)[1]))
  expect(subjects).toEqual(new Set([boards[0].id, ...made]))
})

test('no plan yet: no set-ups', async () => {
  const maker = await member()
  const { id: buildId } = await build(maker)
  expect(await ofBuild(maker, { buildId })).toEqual({ ok: true, value: null })
})
