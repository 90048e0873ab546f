import 'server-only'
import type { Actor } from '#lib/shop/actor'
import { database } from '../client'

/**
 * The member of a session, if it still stands: not removed, and no password change or sign-out everywhere since.
 * Looked up at every request, so that a removal ends sessions at once.
 */
export async function liveMember(memberId: string, sessionVersion: number): Promise<Actor | null> {
  const member = await database().member.findFirst({
    where: { id: memberId, sessionVersion, removedAt: null },
    select: { id: true, name: true, role: true },
  })
  return member && { memberId: member.id, name: member.name, role: member.role }
}
