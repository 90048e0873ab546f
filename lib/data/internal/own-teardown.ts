import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { mayChange } from '#lib/shop/sharing'
import type { Transaction } from '../transaction'

/** The teardown, if what comes out of it is the actor's to log. */
export async function ownTeardown(
  tx: Transaction,
  actor: Actor,
  teardownId: string,
): Promise<Result<{ memberId: string; name: string }, Refusal>> {
  const row = await tx.teardown.findUnique({
    where: { id: teardownId },
    select: { memberId: true, name: true },
  })
  if (!row) return err(refusal('notFound'))
  return mayChange(actor, row.memberId) ? ok(row) : err(refusal('notAllowed'))
}
