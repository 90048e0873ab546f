/**
 * Votes: which variant of a build a member would make. One voice a member and build (unique index); it is moved by
 * voting for another variant, and taken back. The maker marks the chosen one; votes decide nothing by themselves.
 * Tests: tests/data/votes.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { action, id } from './action'
import { openVariant } from './internal/open-variant'
import { announce, type Transaction, transact } from './transaction'

async function tell(tx: Transaction, buildId: string, makerId: string): Promise<void> {
  for (const topic of [`build:${buildId}`, `member:${makerId}`]) await announce(tx, topic)
}

/** @see version of the variant that was looked at */
export const cast = action({
  audience: 'member',
  shared: true,
  input: z.object({ variantId: id, version: z.int().min(1) }),
  run: (actor, { variantId, version }) =>
    transact(async (tx) => {
      const variant = await openVariant(tx, variantId)
      if (!variant.ok) return variant
      if (variant.value.version < version) return err(refusal('notFound'))
      const { buildId, makerId } = variant.value
      await tx.$executeRaw`
        insert into "Vote" ("buildId", "memberId", "variantId", "variantVersion")
        values (${buildId}::uuid, ${actor.memberId}::uuid, ${variantId}::uuid, ${version})
        on conflict ("buildId", "memberId") do update
          set "variantId" = excluded."variantId", "variantVersion" = excluded."variantVersion", "at" = now()`
      await tell(tx, buildId, makerId)
      return ok(null)
    }),
})

/** Takes back one's own vote in a build. */
export const takeBack = action({
  audience: 'member',
  input: z.object({ buildId: id }),
  run: (actor, { buildId }) =>
    transact(async (tx) => {
      const build = await tx.build.findUnique({ where: { id: buildId }, select: { memberId: true } })
      if (!build) return err(refusal('notFound'))
      const gone = await tx.vote.deleteMany({ where: { buildId, memberId: actor.memberId } })
      if (gone.count === 0) return err(refusal('notFound'))
      await tell(tx, buildId, build.memberId)
      return ok(null)
    }),
})
