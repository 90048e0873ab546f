import { beforeAll, expect, test } from 'vitest'
import { planTogether } from '#lib/core/cutting/plan-together'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { database } from '#lib/data/client'
import { cancel, latest as latestOwn } from '#lib/data/cut-plans'
import { recordCut } from '#lib/data/cutting'
import { hold } from '#lib/data/holds'
import { claimPlan, endPlan } from '#lib/data/internal/plan-life'
import { ask, candidates, latest } from '#lib/data/plans-together'
import { tick } from '#lib/data/setups'
import type { Actor } from '#lib/shop/actor'
import {
  boardShares,
  groupsOf,
  partOfBuild,
  savingOf,
  type TogetherInput,
  togetherFigures,
} from '#lib/shop/plan-together'
import { board, build, member, seatBoards, shop, variant } from './arrange'
import { must } from './arrange-build'

beforeAll(() => shop())

async function seatOf(maker: Actor) {
  const { id: buildId } = await build(maker, { name: `${maker.name}'s seat` })
  await variant(buildId)
  return buildId
}

async function workOutTogether(planId: string) {
  const run = await claimPlan(planId)
  if (!run) throw new Error('not to be claimed')
  const input = run.input as TogetherInput
  const { plan, alone } = planTogether(input.pool.problem, groupsOf(input), {
    seed: 1,
    budget: { maxSteps: 6_000 },
  })
  expect(verifyCutPlan(input.pool.problem, plan)).toEqual([])
  must2(await endPlan(run, { status: 'done', plan, alone, elapsedMs: 5 }))
}
const must2 = (ok: boolean) => {
  if (!ok) throw new Error('overtaken')
}

test('two makers on one pool: terms of each maker, figures beside one after another, nothing held', async () => {
  const [ada, ben] = [await member('member', 'Ada'), await member('member', 'Ben')]
  const [hers, his] = [await seatOf(ada), await seatOf(ben)]
  await seatBoards(ada)
  await seatBoards(ben)
  const onlyBens = await board(ben, {
    lengthUm: 2_000_000,
    widthUm: 200_000,
    thicknessUm: 45_000,
    terms: 'mine',
  })
  expect(must(await candidates(ada, { buildId: hers })).map((c) => c.id)).toContain(his)

  const { planId } = must(
    await ask(ada, {
      buildId: hers,
      priority: 'first',
      others: [{ buildId: his, priority: 'even' }],
      seconds: 5,
    }),
  )
  await workOutTogether(planId)
  const view = must(await latest(ada, { buildId: hers }))
  if (!view?.result) throw new Error('no plan')
  const { input, result } = view
  expect(input.builds.map((b) => [b.buildId, b.makerName, b.priority])).toEqual([
    [hers, 'Ada', 'first'],
    [his, 'Ben', 'even'],
  ])
  // What Ben keeps for himself is for his build alone.
  const kept = input.pool.boardIds.indexOf(onlyBens.id)
  input.pool.problem.blanks.forEach((blank, i) => {
    if (input.buildOf[i] === 0) expect(blank.boards).not.toContain(kept)
  })
  expect(input.pool.problem.blanks.some((b, i) => input.buildOf[i] === 1 && b.boards?.includes(kept))).toBe(
    true,
  )
  for (const { layout, builds } of boardShares(input, result)) {
    const ids = result.partIds[layout].map((id) => partOfBuild(id).build)
    expect([...new Set(ids)].sort()).toEqual([...builds].sort())
  }
  const figures = togetherFigures(input, result.plan)
  expect(figures.map((f) => f.made)).toEqual(figures.map((f) => f.wanted))
  expect(savingOf(input, result)?.parts).toBeGreaterThanOrEqual(0)
  expect(savingOf(input, result)?.cost).toBeGreaterThanOrEqual(0)
  expect(await database().hold.count({ where: { buildId: { in: [hers, his] } } })).toBe(0)
})

test('is no plan of the build itself: not shown, not cut, not ticked', async () => {
  const ada = await member('member', 'Ada')
  const [one, two] = [await seatOf(ada), await seatOf(ada)]
  await seatBoards(ada)
  const { planId } = must(await ask(ada, { buildId: one, others: [{ buildId: two }], seconds: 5 }))
  await workOutTogether(planId)
  expect(must(await latestOwn(ada, { buildId: one }))).toBeNull()
  const view = must(await latest(ada, { buildId: one }))
  const [first] = view?.boards ?? []
  must(await hold(ada, { buildId: one, boards: [{ boardId: first.boardId, version: first.version }] }))
  expect(must(await latest(ada, { buildId: one }))?.boards[0].heldByBuildId).toBe(one)
  const cut = await recordCut(ada, { planId, boardId: first.boardId })
  expect(cut.ok ? '' : cut.error.code).toBe('notFound')
  const ticked = await tick(ada, { planId, keys: ['cut:any'], done: true })
  expect(ticked.ok ? '' : ticked.error.code).toBe('notFound')
})

test('for a build of one’s own only; with open builds only; cancelled by its maker', async () => {
  const [ada, ben] = [await member('member', 'Ada'), await member('member', 'Ben')]
  const [hers, his] = [await seatOf(ada), await seatOf(ben)]
  await seatBoards(ada)
  const codeOf = async (input: unknown, actor = ben) => {
    const asked = await ask(actor, input)
    return asked.ok ? 'ok' : asked.error.code
  }
  expect(await codeOf({ buildId: hers, others: [{ buildId: his }], seconds: 5 })).toBe('notAllowed')
  expect(await codeOf({ buildId: his, others: [{ buildId: his }], seconds: 5 })).toBe('badInput')
  await database().build.update({ where: { id: hers }, data: { finishedAt: new Date() } })
  expect(await codeOf({ buildId: his, others: [{ buildId: hers }], seconds: 5 })).toBe('buildClosed')
  await database().build.update({ where: { id: hers }, data: { finishedAt: null } })
  const { planId } = must(await ask(ben, { buildId: his, others: [{ buildId: hers }], seconds: 5 }))
  expect(await codeOf({ buildId: his, others: [{ buildId: hers }], seconds: 5 })).toBe('planBusy')
  const stopped = await cancel(ada, { planId })
  expect(stopped.ok ? '' : stopped.error.code).toBe('notAllowed')
  expect(must(await cancel(ben, { planId }))).toEqual({ status: 'cancelled' })
})
