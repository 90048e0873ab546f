import { beforeAll, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { planSetups } from '#lib/core/setups/plan-setups'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { database } from '#lib/data/client'
import { glueable, latest } from '#lib/data/cut-plans'
import { recordCut } from '#lib/data/cutting'
import { hold } from '#lib/data/holds'
import { buildFacts } from '#lib/data/internal/build-facts'
import { ofBuild } from '#lib/data/setups'
import { partOfStave } from '#lib/shop/staves'
import { board, build, member, shop, variant } from './arrange'
import { must } from './arrange-build'
import { plannedFor } from './work-out'

beforeAll(() => shop())

/** Boards for a bench, none of them wide enough for its uprights of 145 mm. */
async function benchOfNarrowBoards() {
  const maker = await member('member', 'Ada')
  const { id: buildId } = await build(maker)
  const design = designById('bench')
  const defaults = Object.fromEntries((design?.parameters ?? []).map((p) => [p.id, p.default]))
  await variant(buildId, { designId: 'bench', parameters: defaults })
  const over = { species: 'whiteOak' }
  for (let i = 0; i < 8; i++)
    await board(maker, { ...over, lengthUm: 470_000, widthUm: 80_000, thicknessUm: 34_000 })
  for (let i = 0; i < 7; i++)
    await board(maker, { ...over, lengthUm: 1_250_000, widthUm: 120_000, thicknessUm: 32_000 })
  return { maker, buildId }
}

const newest = async (actor: Parameters<typeof latest>[0], buildId: string) => {
  const seen = must(await latest(actor, { buildId }))
  if (!seen?.newest.result) throw new Error('no plan')
  return { ...seen.newest, result: seen.newest.result }
}

test('a wide part is asked for as staves, its boards are cut one by one, and it is made with its last stave', async () => {
  const { maker, buildId } = await benchOfNarrowBoards()
  const options = must(await glueable(maker, { buildId }))
  expect(options.find((o) => o.id === 'upright')).toMatchObject({ count: 4, isChosen: true })
  await plannedFor(maker, buildId)
  expect((await newest(maker, buildId)).result.plan.shortages).toMatchObject([{ missing: 4 }])

  const planId = await plannedFor(maker, buildId, ['upright'])
  const plan = await newest(maker, buildId)
  expect(plan.result.plan.shortages).toEqual([])
  expect(plan.changes).toMatchObject({ isDesignChanged: false, boards: [] })
  const facts = (await buildFacts([buildId], new Date())).get(buildId)
  expect(facts?.parts).toMatchObject({ made: 0, short: 0 })
  const work = must(await ofBuild(maker, { buildId }))
  if (!work) throw new Error('no work')
  const setups = planSetups(work.input)
  expect(verifySetups(work.input, setups)).toEqual([])
  expect(
    setups.setups
      .flatMap((s) => s.cuts)
      .filter((c) => c.key.startsWith('glue:upright') || c.key.startsWith('glue:')),
  ).not.toEqual([])

  const boards = plan.boards.map(({ boardId, version }) => ({ boardId, version }))
  must(await hold(maker, { buildId, boards }))
  const staved = plan.result.partIds
    .map((ids, i) => ({ ids, boardId: plan.input.pool.boardIds[plan.result.plan.layouts[i].board] }))
    .filter(({ ids }) => ids.some((id) => id.includes('~')))
  expect(staved.length).toBeGreaterThan(1)
  const [first, ...rest] = staved
  must(await recordCut(maker, { planId, boardId: first.boardId }))
  const made = async () =>
    (await database().partMade.findMany({ where: { buildId } })).map((p) => p.partId).sort()
  expect(await made()).toEqual([...first.ids].sort())

  // Planned anew with one stave cut: only what is wanted still, and it still comes together.
  await plannedFor(maker, buildId, ['upright'])
  const again = await newest(maker, buildId)
  expect(again.input.partsMade).toEqual([...first.ids].sort())
  const begun = again.input.needs.find((n) => n.stavesMade !== undefined)
  expect(begun).toMatchObject({ count: 1, partIds: [partOfStave(first.ids[0])] })
  expect(again.result.plan.shortages).toEqual([])
  const ids = again.result.partIds.flat()
  expect(new Set([...ids, ...first.ids]).size).toBe(ids.length + first.ids.length)

  const held = again.boards.map(({ boardId, version }) => ({ boardId, version }))
  must(await hold(maker, { buildId, boards: held }))
  for (const { boardId } of held) must(await recordCut(maker, { planId: again.id, boardId }))
  expect(rest.length).toBeGreaterThan(0)
  const after = (await buildFacts([buildId], new Date())).get(buildId)
  expect(after?.parts.made).toBe(after?.parts.total)
})
