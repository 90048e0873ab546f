import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutPlan } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import type { Result } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { ask, type CutPlanView, cancel, latest } from '#lib/data/cut-plans'
import { hold } from '#lib/data/holds'
import { beat, claimPlan, endPlan, keepProgress, reviveStalePlans } from '#lib/data/internal/plan-life'
import type { Actor } from '#lib/shop/actor'
import type { PlanResult } from '#lib/shop/plan-result'
import type { Refusal } from '#lib/shop/refusal'
import { board, build, member, seatBoards, shop, variant } from './arrange'
import { askForPlan, plannedFor } from './work-out'

beforeAll(() => shop())
// Each test has the pool to itself: what earlier tests left is taken out.
beforeEach(async () => {
  await database().hold.updateMany({
    where: { status: { in: ['live', 'requested'] } },
    data: { status: 'released', endedAt: new Date() },
  })
  await database().board.updateMany({ data: { status: 'removed' } })
})

const codeOf = <T>(r: Result<T, Refusal>) => (r.ok ? 'ok' : r.error.code)

async function seatBuild(name = 'Ada') {
  const maker = await member('member', name)
  const { id: buildId } = await build(maker, { name: `${name}'s seat` })
  await variant(buildId)
  return { maker, buildId }
}

async function view(actor: Actor, buildId: string): Promise<CutPlanView> {
  const seen = await latest(actor, { buildId })
  if (!seen.ok || !seen.value) throw new Error('no plan')
  return seen.value.newest
}

const jobsOf = (planId: string) =>
  database().$queryRaw<{ key: string; attempts: number }[]>`
    select key, attempts from graphile_worker.jobs where key = ${`plan:${planId}`}`

const rowOf = (id: string) => database().cutPlan.findUniqueOrThrow({ where: { id } })

describe('asking', () => {
  test('a plan is queued with its job; a second one waits for the first; the answer is sound and names parts', async () => {
    const { maker, buildId } = await seatBuild()
    const owner = await member()
    await seatBoards(owner)
    const planId = await askForPlan(maker, buildId)
    expect(await jobsOf(planId)).toHaveLength(1)
    expect(codeOf(await ask(maker, { buildId, seconds: 5 }))).toBe('planBusy')
    const run = await claimPlan(planId)
    if (!run) throw new Error('not claimed')
    expect(await claimPlan(planId)).toBeNull()
    const plan = planCuts(run.input.pool.problem, { seed: 1, budget: { maxSteps: 3_000 } })
    expect(await endPlan(run, { status: 'done', plan, elapsedMs: 40 })).toBe(true)
    const seen = await view(await member(), buildId)
    expect(seen).toMatchObject({
      status: 'done',
      isMaker: false,
      changes: { isDesignChanged: false, boards: [] },
    })
    if (!seen.result) throw new Error('no result')
    expect(verifyCutPlan(seen.input.pool.problem, seen.result.plan)).toEqual([])
    expect(seen.result.plan.shortages).toEqual([])
    // One counter seat: 4 legs, 4 supports, 2 rails, 4 seat boards. Each part is named once.
    const parts = seen.result.partIds.flat()
    expect([...new Set(parts)]).toHaveLength(14)
    expect(parts).toHaveLength(14)
  })

  test('50 askings at once: one plan, 49 told that one is being worked out', async () => {
    const { maker, buildId } = await seatBuild()
    await seatBoards(maker)
    const codes = await Promise.all(
      Array.from({ length: 50 }, () => ask(maker, { buildId, seconds: 5 }).then(codeOf)),
    )
    expect(codes.filter((c) => c === 'ok')).toHaveLength(1)
    expect(codes.filter((c) => c === 'planBusy')).toHaveLength(49)
    expect(await database().cutPlan.count({ where: { buildId } })).toBe(1)
  })

  test('which boards: own and free ones, those to be asked for, none that is kept or held elsewhere', async () => {
    const { maker, buildId } = await seatBuild()
    const other = await seatBuild('Bo')
    const owner = await member('member', 'Olga')
    const size = { lengthUm: 900_000, widthUm: 120_000, thicknessUm: 25_000 }
    const [own, free, ask1, kept, held, cleared] = [
      await board(maker, { ...size, terms: 'mine' }),
      await board(owner, size),
      await board(owner, { ...size, terms: 'ask' }),
      await board(owner, { ...size, terms: 'mine' }),
      await board(owner, size),
      await board(owner, { ...size, metal: 'unchecked' }),
    ]
    await hold(other.maker, { buildId: other.buildId, boards: [{ boardId: held.id, version: 1 }] })
    await askForPlan(maker, buildId)
    const { input } = await view(maker, buildId)
    expect(input.boards.map((b) => b.id)).toEqual([own.id, free.id, ask1.id])
    expect(input.boards.map((b) => b.needsYes)).toEqual([false, false, true])
    expect(input.boards.some((b) => [kept.id, held.id, cleared.id].includes(b.id))).toBe(false)
  })

  test('refused: no design, a design that cannot be, nothing left to cut, a build of someone else', async () => {
    const { maker, buildId } = await seatBuild()
    const bare = await build(maker)
    expect(codeOf(await ask(maker, { buildId: bare.id, seconds: 5 }))).toBe('designRefused')
    const bad = await build(maker)
    await variant(bad.id, { parameters: { abreast: 1, rake: 'steep' } })
    expect(codeOf(await ask(maker, { buildId: bad.id, seconds: 5 }))).toBe('designRefused')
    expect(codeOf(await ask(await member('admin'), { buildId, seconds: 5 }))).toBe('notAllowed')
    expect(codeOf(await ask(maker, { buildId, seconds: 0 }))).toBe('badInput')
    expect(codeOf(await ask(maker, { buildId, seconds: 100_000 }))).toBe('badInput')
  })

  test('an empty pool is answered too: everything is short', async () => {
    const { maker, buildId } = await seatBuild()
    await plannedFor(maker, buildId)
    const seen = await view(maker, buildId)
    expect(seen.result?.plan.shortages.reduce((sum, s) => sum + s.missing, 0)).toBe(14)
    expect(seen.input.pool.unmakeable.length).toBe(seen.input.needs.length)
  })
})

describe('what has changed since', () => {
  test('the design, a board of the plan, boards that came', async () => {
    const { maker, buildId } = await seatBuild()
    const owner = await member()
    const [legs] = await seatBoards(owner)
    await plannedFor(maker, buildId)
    const fresh = { isDesignChanged: false, boards: [], newBoards: 0 }
    expect((await view(maker, buildId)).changes).toEqual(fresh)
    await board(owner, { lengthUm: 900_000, widthUm: 120_000, thicknessUm: 25_000 })
    expect((await view(maker, buildId)).changes).toEqual({ ...fresh, newBoards: 1 })
    await database().board.update({ where: { id: legs.id }, data: { version: { increment: 1 } } })
    expect((await view(maker, buildId)).changes?.boards).toEqual([{ number: legs.number, why: 'changed' }])
    const other = await seatBuild('Bo')
    await hold(other.maker, { buildId: other.buildId, boards: [{ boardId: legs.id, version: 2 }] })
    const seen = await view(maker, buildId)
    expect(seen.changes?.boards).toEqual([{ number: legs.number, why: 'notForUse' }])
    expect(seen.boards.find((b) => b.boardId === legs.id)?.hold).toMatchObject({
      isHere: false,
      memberName: 'Bo',
    })
    await database().variant.updateMany({ where: { buildId }, data: { parameters: { abreast: 2 } } })
    expect((await view(maker, buildId)).changes?.isDesignChanged).toBe(true)
  })
})

describe('the life of a plan', () => {
  const weaker = (plan: CutPlan): CutPlan => ({ ...plan, layouts: plan.layouts.slice(0, 1), weightMade: 1 })

  async function claimed() {
    const { maker, buildId } = await seatBuild()
    await seatBoards(maker)
    const planId = await askForPlan(maker, buildId)
    const run = await claimPlan(planId)
    if (!run) throw new Error('not claimed')
    const plan = planCuts(run.input.pool.problem, { seed: 1, budget: { maxSteps: 3_000 } })
    return { maker, buildId, planId, run, plan }
  }
  const later = (ms: number) => new Date(Date.now() + ms)
  const kept = async (planId: string) => (await rowOf(planId)).result as unknown as PlanResult | null

  test('a run that was overtaken writes nothing', async () => {
    const { planId, run, plan } = await claimed()
    await keepProgress(run, plan, 100)
    const second = await claimPlan(planId, later(20_000))
    if (!second) throw new Error('not overtaken')
    expect(second.kept?.weightMade).toBe(plan.weightMade)
    expect(await beat(run)).toBe('overtaken')
    expect(await keepProgress(run, weaker(plan), 200)).toBe(false)
    expect(await endPlan(run, { status: 'failed', failure: 'late' })).toBe(false)
    expect((await kept(planId))?.plan.weightMade).toBe(plan.weightMade)
    expect((await rowOf(planId)).attempt).toBe(2)
    expect(await endPlan(second, { status: 'done', plan: weaker(plan), elapsedMs: 300 })).toBe(true)
    expect((await kept(planId))?.plan.weightMade).toBe(plan.weightMade)
  })

  test('a silent run is queued again twice, then reported as interrupted, its best plan kept', async () => {
    const { planId, run, plan } = await claimed()
    await keepProgress(run, plan, 100)
    expect(await reviveStalePlans()).toEqual({ queued: 0, interrupted: 0 })
    for (const attempt of [2, 3]) {
      expect(await reviveStalePlans(later(20_000))).toEqual({ queued: 1, interrupted: 0 })
      expect((await rowOf(planId)).status).toBe('queued')
      expect(await jobsOf(planId)).toHaveLength(1)
      expect((await claimPlan(planId)) && (await rowOf(planId)).attempt).toBe(attempt)
    }
    expect(await reviveStalePlans(later(20_000))).toEqual({ queued: 0, interrupted: 1 })
    expect((await rowOf(planId)).status).toBe('interrupted')
    expect((await kept(planId))?.plan.weightMade).toBe(plan.weightMade)
    expect(await claimPlan(planId)).toBeNull()
  })

  test('a queued plan whose job is lost gets a new one', async () => {
    const { maker, buildId } = await seatBuild()
    const planId = await askForPlan(maker, buildId)
    await database().$executeRaw`select graphile_worker.remove_job(${`plan:${planId}`})`
    expect(await jobsOf(planId)).toHaveLength(0)
    await reviveStalePlans(later(20_000))
    expect(await jobsOf(planId)).toHaveLength(1)
  })

  test('cancel: at once while it waits; heard by the next beat while it runs', async () => {
    const waiting = await seatBuild()
    const planId = await askForPlan(waiting.maker, waiting.buildId)
    expect(await cancel(waiting.maker, { planId })).toEqual({ ok: true, value: { status: 'cancelled' } })
    expect(await claimPlan(planId)).toBeNull()
    expect(codeOf(await cancel(waiting.maker, { planId }))).toBe('alreadyDecided')
    const { maker, run, plan, planId: running } = await claimed()
    expect(await beat(run)).toBe('goOn')
    expect(await cancel(maker, { planId: running })).toEqual({ ok: true, value: { status: 'stopping' } })
    expect(await beat(run)).toBe('cancelAsked')
    await endPlan(run, { status: 'cancelled', plan, elapsedMs: 10 })
    expect((await kept(running))?.plan.weightMade).toBe(plan.weightMade)
  })
})
