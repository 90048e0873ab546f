import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor, Role } from '#lib/shop/actor'
import { type Refusal, refusal } from '#lib/shop/refusal'
import type { Transaction } from '../transaction'

/** The actor's row, kept from being removed or demoted until this transaction ends. Members before stations. */
export async function holdMember(
  tx: Transaction,
  memberId: string,
  roles: readonly Role[] = ['admin', 'keeper', 'member'],
): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    select 1 from "Member"
    where "id" = ${memberId}::uuid and "removedAt" is null and "role"::text = any(${[...roles]})
    for share`
  return rows.length === 1
}

/**
 * Locks all admins, and the member in question, in the order of their ids; says whether the actor still is an admin.
 * Under this lock "is another admin left?" has one answer, however many remove each other at once.
 */
export async function lockAdmins(
  tx: Transaction,
  actor: Actor,
  memberId: string,
): Promise<Result<{ admins: ReadonlySet<string> }, Refusal>> {
  const rows = await tx.$queryRaw<{ id: string; role: Role; isLive: boolean }[]>`
    select "id", "role"::text as "role", "removedAt" is null as "isLive" from "Member"
    where ("role" = 'admin' and "removedAt" is null) or "id" = ${memberId}::uuid
    order by "id" for no key update`
  const admins = new Set(rows.filter((r) => r.isLive && r.role === 'admin').map((r) => r.id))
  if (!admins.has(actor.memberId)) return err(refusal('notAllowed'))
  if (!rows.some((r) => r.id === memberId && r.isLive)) return err(refusal('notFound'))
  return ok({ admins })
}
