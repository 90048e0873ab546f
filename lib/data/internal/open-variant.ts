import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import { type Refusal, refusal } from '#lib/shop/refusal'
import type { Transaction } from '../transaction'
import { lockBuild } from './changeable-build'

export interface OpenVariant {
  readonly buildId: string
  readonly makerId: string
  readonly designId: string
  readonly parameters: unknown
  readonly version: number
}

/**
 * A variant of an open build, for anyone of the shop; neither goes away until this transaction ends.
 * @param lock `update`: nobody else does the like meanwhile
 */
export async function openVariant(
  tx: Transaction,
  variantId: string,
  lock: 'share' | 'update' = 'share',
): Promise<Result<OpenVariant, Refusal>> {
  const row = await tx.variant.findFirst({ where: { id: variantId }, select: { buildId: true } })
  if (!row) return err(refusal('notFound'))
  await lockBuild(tx, row.buildId, lock)
  const variant = await tx.variant.findFirst({
    where: { id: variantId, deletedAt: null },
    select: {
      buildId: true,
      designId: true,
      parameters: true,
      version: true,
      build: { select: { memberId: true, finishedAt: true, abandonedAt: true } },
    },
  })
  if (!variant) return err(refusal('notFound'))
  const { build, ...rest } = variant
  if (build.finishedAt || build.abandonedAt) return err(refusal('buildClosed'))
  return ok({ ...rest, makerId: build.memberId })
}
