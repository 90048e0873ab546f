import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { type Refusal, refusal } from '#lib/shop/refusal'
import type { Transaction } from '../transaction'

export interface OwnBuild {
  readonly id: string
  readonly name: string
}

/** The build, if it is the actor's own and still open. Locked against being finished or given up meanwhile. */
export async function ownOpenBuild(
  tx: Transaction,
  actor: Actor,
  buildId: string,
): Promise<Result<OwnBuild, Refusal>> {
  await tx.$queryRaw`select 1 from "Build" where "id" = ${buildId}::uuid for key share`
  const build = await tx.build.findUnique({
    where: { id: buildId },
    select: { id: true, name: true, memberId: true, finishedAt: true, abandonedAt: true },
  })
  if (!build) return err(refusal('notFound'))
  if (build.memberId !== actor.memberId) return err(refusal('notAllowed'))
  if (build.finishedAt || build.abandonedAt) return err(refusal('buildClosed'))
  return ok({ id: build.id, name: build.name })
}
