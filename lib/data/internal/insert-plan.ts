import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import type { PlanInput } from '#lib/shop/plan-input'
import { type Refusal, refusal } from '#lib/shop/refusal'
import type { Prisma } from '../generated/client'
import { announce, type Transaction } from '../transaction'
import { ownOpenBuild } from './own-build'
import { queuePlan } from './plan-life'
import { type PlanSource, questionHash } from './plan-source'

export const PLAN_CLASHES = { cut_plan_one_unfinished: refusal('planBusy') }
export const MAX_SECONDS = 600

/** A plan and its job, if the build is the actor's own, open, and still made to the numbers that were read. */
export async function insertPlan(
  tx: Transaction,
  actor: Actor,
  plan: {
    readonly buildId: string
    readonly seconds: number
    readonly source: Pick<PlanSource, 'variant'>
    readonly input: PlanInput
    readonly isTogether?: boolean
  },
): Promise<Result<{ planId: string }, Refusal>> {
  const { buildId, source } = plan
  const build = await ownOpenBuild(tx, actor, buildId)
  if (!build.ok) return build
  const unchanged = { id: source.variant.id, version: source.variant.version, chosen: true }
  if ((await tx.variant.count({ where: unchanged })) === 0) return err(refusal('changedMeanwhile'))
  const before = await tx.cutPlan.count({ where: { buildId } })
  const row = await tx.cutPlan.create({
    data: {
      buildId,
      variantId: source.variant.id,
      memberId: actor.memberId,
      status: 'queued',
      inputHash: questionHash(plan.input),
      input: plan.input as unknown as Prisma.InputJsonValue,
      seed: before + 1,
      seconds: plan.seconds,
      isTogether: plan.isTogether ?? false,
    },
    select: { id: true },
  })
  await queuePlan(tx, row.id)
  await announce(tx, `plan:${row.id}`)
  await announce(tx, `build:${buildId}`)
  return ok({ planId: row.id })
}
