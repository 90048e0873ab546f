/** Who asks. Null stands for nobody: not signed in. */
export const ROLES = ['admin', 'keeper', 'member'] as const
export type Role = (typeof ROLES)[number]

export interface Actor {
  readonly memberId: string
  readonly name: string
  readonly role: Role
}

/** The least that an action asks of the one who calls it; what it touches is checked in the action itself. */
export type Audience = 'anyone' | 'member' | 'keeper' | 'admin'

/** An admin may do all that a keeper may, a keeper all that a member may. */
export function isAmong(actor: Actor | null, audience: Audience): boolean {
  if (audience === 'anyone') return true
  if (!actor) return false
  const rank: Record<Role, number> = { member: 1, keeper: 2, admin: 3 }
  return rank[actor.role] >= rank[audience]
}
