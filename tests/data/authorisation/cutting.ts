import { database } from '#lib/data/client'
import { hold } from '#lib/data/holds'
import { board, build, member, seatBoards, variant } from '../arrange'
import { askForPlan, plannedFor } from '../work-out'
import type { AuthorisationCases } from './case'

/** Someone's build with a plan that is done and its boards held. */
async function plannedAndHeld() {
  const maker = await member('member', 'Maker')
  const { id: buildId } = await build(maker)
  await variant(buildId)
  const boards = await seatBoards(maker, { terms: 'mine' })
  const planId = await plannedFor(maker, buildId)
  await hold(maker, { buildId, boards: boards.map((b) => ({ boardId: b.id, version: b.version })) })
  return { maker, buildId, planId, boards }
}

const plansOf = (buildId: string) => () => database().cutPlan.findMany({ where: { buildId } })

export const cases: AuthorisationCases = {
  'cut-plans.ask': {
    refused: async () => {
      const maker = await member()
      const { id: buildId } = await build(maker)
      await variant(buildId)
      await board(maker)
      return { input: { buildId, seconds: 5 }, state: plansOf(buildId) }
    },
  },
  'plans-together.ask': {
    refused: async () => {
      const maker = await member()
      const [{ id: buildId }, { id: other }] = [await build(maker), await build(maker)]
      await variant(buildId)
      await variant(other)
      return {
        input: { buildId, others: [{ buildId: other }], seconds: 5 },
        state: plansOf(buildId),
      }
    },
  },
  'cut-plans.cancel': {
    refused: async () => {
      const maker = await member()
      const { id: buildId } = await build(maker)
      await variant(buildId)
      return { input: { planId: await askForPlan(maker, buildId) }, state: plansOf(buildId) }
    },
  },
  'cutting.recordCut': {
    refused: async () => {
      const { planId, boards } = await plannedAndHeld()
      const ids = boards.map((b) => b.id)
      return {
        input: { planId, boardId: ids[0] },
        state: () =>
          database().board.findMany({ where: { id: { in: ids } }, include: { holds: true, cut: true } }),
      }
    },
  },
  'setups.tick': {
    refused: async () => {
      const { planId } = await plannedAndHeld()
      return {
        input: { planId, keys: ['cut:any'], done: true },
        state: () => database().setupTick.findMany({ where: { planId } }),
      }
    },
  },
  'live.follow': {
    refused: async () => ({
      input: { topics: [`member:${(await member()).memberId}`] },
      state: async () => null,
    }),
  },
}
