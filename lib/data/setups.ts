/**
 * What the set-ups of a build are planned from, and what has been ticked off at the bench.
 * Rules: lib/shop/setup-work.ts; the planning itself: lib/core/setups. Tests: tests/data/setups.test.ts
 */
import 'server-only'
import { z } from 'zod'
import type { SetupInput } from '#lib/core/setups/setup-input'
import type { StationKind } from '#lib/core/setups/setup-plan'
import { err, ok, type Result } from '#lib/core/units/result'
import type { CutLayout } from '#lib/shop/cutting'
import { setupShop } from '#lib/shop/machines'
import { partOfTick } from '#lib/shop/parts-made'
import type { PlanInput } from '#lib/shop/plan-input'
import type { PlanResult } from '#lib/shop/plan-result'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { isSettled, settledIds, setupInput, type WorkBoard } from '#lib/shop/setup-work'
import { action, id, query } from './action'
import { database } from './client'
import { Prisma } from './generated/client'
import { designText, modelParts } from './internal/model-parts'
import { modelOf, stationFigures } from './internal/plan-source'
import { announce, type Transaction, transact } from './transaction'

const CUT_ROW = {
  select: {
    planId: true,
    layout: true,
    parts: { where: { setAsideAt: null }, select: { partId: true } },
    board: {
      select: {
        id: true,
        number: true,
        lengthUm: true,
        widthUm: true,
        thicknessUm: true,
        cupUm: true,
        bowUm: true,
        crookUm: true,
        twistUm: true,
      },
    },
  },
  orderBy: { cutAt: 'asc' },
} as const

interface CutRow {
  planId: string
  layout: unknown
  parts: readonly { readonly partId: string }[]
  board: Pick<WorkBoard, 'id' | 'number' | 'lengthUm' | 'widthUm' | 'thicknessUm'> & WorkBoard['warp']
}

function cutBoard(row: CutRow): WorkBoard {
  const { cupUm, bowUm, crookUm, twistUm, ...board } = row.board
  const layout = row.layout as CutLayout
  // A piece that was set aside becomes no part of what is made now.
  const counts = new Set(row.parts.map((p) => p.partId))
  const partIds = layout.partIds.map((id) => (id !== null && counts.has(id) ? id : null))
  const { tree } = layout
  return { ...board, warp: { cupUm, bowUm, crookUm, twistUm }, tree, partIds, isCut: true }
}

/** Boards of the plan that are not cut yet. */
function boardsToCut(input: PlanInput, result: PlanResult, cut: ReadonlySet<string>): WorkBoard[] {
  return result.plan.layouts.flatMap((layout, i) => {
    const { id, number, lengthUm, widthUm, thicknessUm, warp } = input.boards[layout.board]
    if (cut.has(id)) return []
    const { tree } = layout
    return [
      { id, number, lengthUm, widthUm, thicknessUm, warp, tree, partIds: result.partIds[i], isCut: false },
    ]
  })
}

export interface SetupWorkView {
  readonly planId: string
  readonly buildName: string
  readonly isMaker: boolean
  readonly isUnfinished: boolean
  /** The build is made to other numbers now than those that were planned for. */
  readonly isDesignChanged: boolean
  readonly input: SetupInput
  readonly boards: readonly { readonly id: string; readonly number: number; readonly isCut: boolean }[]
  readonly ticks: readonly { readonly key: string; readonly memberName: string; readonly at: Date }[]
  readonly stations: readonly { readonly id: string; readonly name: string; readonly kind: StationKind }[]
}

const isUnfinished = (status: string) => status === 'queued' || status === 'running'

const stationsInUse = () =>
  database().station.findMany({
    where: { retiredAt: null },
    select: { id: true, name: true, kind: true },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  })

const newestResult = (buildId: string) =>
  database().cutPlan.findFirst({
    where: { buildId, isTogether: false, NOT: { result: { equals: Prisma.AnyNull } } },
    orderBy: { createdAt: 'desc' },
    include: { build: { select: { name: true, memberId: true } } },
  })

/** The work of a build: boards cut so far and boards of its newest plan with a result; null before there is one. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }): Promise<Result<SetupWorkView | null, Refusal>> => {
    const plan = await newestResult(buildId)
    if (!plan) return ok(null)
    const input = plan.input as unknown as PlanInput
    // The parts as the plan knew them: the design may have changed since.
    const model = await modelOf(input.design.designId, input.design.parameters)
    if (!model.ok) return model
    const cuts = (await database().boardCut.findMany({ where: { buildId }, ...CUT_ROW })).map(cutBoard)
    const waiting = boardsToCut(input, plan.result as unknown as PlanResult, new Set(cuts.map((c) => c.id)))
    const boards = [...cuts, ...waiting]
    const [ticks, stations, figures, chosen] = await Promise.all([
      database().setupTick.findMany({
        where: { plan: { buildId } },
        select: { key: true, planId: true, at: true, member: { select: { name: true } } },
        orderBy: { at: 'asc' },
      }),
      stationsInUse(),
      stationFigures(database()),
      database().variant.findFirst({
        where: { buildId, chosen: true },
        select: { designId: true, parameters: true },
      }),
    ])
    const { designId, designVersion, parameters } = input.design
    const now = chosen && (await modelParts(chosen.designId, chosen.parameters))
    const settled = settledIds(boards)
    return ok({
      planId: plan.id,
      buildName: plan.build.name,
      isMaker: plan.build.memberId === actor.memberId,
      isUnfinished: isUnfinished(plan.status),
      isDesignChanged: now?.text !== designText(designId, designVersion, parameters),
      input: setupInput(model.value, boards, input.shop.allowances.sandPerFaceUm, setupShop(figures)),
      boards: boards.map(({ id, number, isCut }) => ({ id, number, isCut })),
      ticks: ticks
        .filter((t) => t.planId === plan.id || isSettled(t.key, settled))
        .map(({ key, at, member }) => ({ key, at, memberName: member.name })),
      stations,
    })
  },
})

/**
 * Whether a plan for other numbers speaks of parts that are not made yet, or no more: a tick on one of them would be
 * taken for a later piece of that name.
 */
async function speaksOfOthers(
  tx: Transaction,
  buildId: string,
  design: PlanInput['design'],
  keys: readonly string[],
): Promise<boolean> {
  const { designId, designVersion, parameters } = design
  const chosen = await tx.variant.findFirst({
    where: { buildId, chosen: true },
    select: { designId: true, parameters: true },
  })
  const now = chosen && (await modelParts(chosen.designId, chosen.parameters, tx))
  if (now?.text === designText(designId, designVersion, parameters)) return false
  const planned = new Set((await modelParts(designId, parameters, tx))?.partIds)
  const wanted = [...new Set(keys.map(partOfTick))].filter((id) => planned.has(id))
  const count = await tx.partMade.count({ where: { buildId, partId: { in: wanted }, setAsideAt: null } })
  return count < wanted.length
}

/** Ticks cuts off at the bench, or takes the ticks back. Keys are those of the plan of set-ups. */
export const tick = action({
  audience: 'member',
  input: z.object({
    planId: id,
    keys: z.array(z.string().min(1).max(300)).min(1).max(500),
    done: z.boolean(),
  }),
  run: (actor, { planId, keys, done }) =>
    transact(async (tx) => {
      const plan = await tx.cutPlan.findUnique({
        where: { id: planId },
        select: {
          buildId: true,
          status: true,
          isTogether: true,
          input: true,
          build: { select: { memberId: true } },
        },
      })
      if (!plan || plan.isTogether) return err(refusal('notFound'))
      if (plan.build.memberId !== actor.memberId) return err(refusal('notAllowed'))
      if (isUnfinished(plan.status)) return err(refusal('planBusy'))
      // Another variant is not chosen between the look at the parts and the tick.
      await tx.$queryRaw`select 1 from "Build" where "id" = ${plan.buildId}::uuid for key share`
      const { design } = plan.input as unknown as PlanInput
      if (done && (await speaksOfOthers(tx, plan.buildId, design, keys))) return err(refusal('planStale'))
      const wanted = { plan: { buildId: plan.buildId }, key: { in: keys } }
      if (done) {
        const { memberId } = actor
        await tx.setupTick.createMany({
          data: keys.map((key) => ({ planId, key, memberId })),
          skipDuplicates: true,
        })
      } else await tx.setupTick.deleteMany({ where: wanted })
      await announce(tx, `build:${plan.buildId}`)
      return ok({ done })
    }),
})
