import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { type Refusal, refusal } from '#lib/shop/refusal'
import type { Transaction } from '../transaction'

export interface ChangeableBuild {
  readonly id: string
  readonly name: string
  readonly memberId: string
  readonly finishedAt: Date | null
  readonly abandonedAt: Date | null
}

/** Whether a build and what belongs to it is this member's to change: the maker's and any admin's. */
export const mayChange = (actor: Actor, makerId: string): boolean =>
  actor.memberId === makerId || actor.role === 'admin'

export async function lockBuild(tx: Transaction, buildId: string, lock: 'share' | 'update'): Promise<void> {
  if (lock === 'share') await tx.$queryRaw`select 1 from "Build" where "id" = ${buildId}::uuid for key share`
  else await tx.$queryRaw`select 1 from "Build" where "id" = ${buildId}::uuid for update`
}

/**
 * The build, if the actor may change it.
 * @param lock `share`: it stays as open or closed as it is until the transaction ends; `update`: it is about to change
 */
export async function changeableBuild(
  tx: Transaction,
  actor: Actor,
  buildId: string,
  lock: 'share' | 'update' = 'share',
): Promise<Result<ChangeableBuild, Refusal>> {
  await lockBuild(tx, buildId, lock)
  const build = await tx.build.findUnique({
    where: { id: buildId },
    select: { id: true, name: true, memberId: true, finishedAt: true, abandonedAt: true },
  })
  if (!build) return err(refusal('notFound'))
  return mayChange(actor, build.memberId) ? ok(build) : err(refusal('notAllowed'))
}

/** As `changeableBuild`, and neither finished nor given up. */
export async function changeableOpenBuild(
  tx: Transaction,
  actor: Actor,
  buildId: string,
  lock: 'share' | 'update' = 'share',
): Promise<Result<ChangeableBuild, Refusal>> {
  const build = await changeableBuild(tx, actor, buildId, lock)
  if (!build.ok) return build
  return build.value.finishedAt || build.value.abandonedAt ? err(refusal('buildClosed')) : build
}
