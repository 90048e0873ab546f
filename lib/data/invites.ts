import 'server-only'
import { z } from 'zod'
import { hashPassword } from '#lib/auth/password'
import { err, ok } from '#lib/core/units/result'
import { passwordFault } from '#lib/shop/members'
import { refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import { email, newPassword, personName, role, token } from './internal/fields'
import { holdMember } from './internal/member-lock'
import { randomToken, tokenHash } from './internal/tokens'
import { announce, type Transaction, transact } from './transaction'

const LINK_DAYS = 7
const DAY_MS = 24 * 3_600_000

const stillOpen = (now: Date) => ({ usedAt: null, revokedAt: null, expiresAt: { gt: now } })

/**
 * A one-time link for an e-mail. An earlier one for it stops working. Only the token's hash is kept: the link is
 * shown once.
 */
export const invite = action({
  audience: 'admin',
  input: z.object({ email, role }),
  run: async (actor, input) => {
    const secret = randomToken()
    const now = new Date()
    const expiresAt = new Date(now.getTime() + LINK_DAYS * DAY_MS)
    const there = (sentence: string) => refusal('alreadyExists', { fields: { email: sentence } })
    return transact(
      async (tx) => {
        if (!(await holdMember(tx, actor.memberId, ['admin']))) return err(refusal('notAllowed'))
        if (await tx.member.count({ where: { email: input.email, removedAt: null } }))
          return err(there('They are a member already.'))
        const open = { email: input.email, usedAt: null, revokedAt: null }
        await tx.invite.updateMany({ where: open, data: { revokedAt: now } })
        const data = { ...input, tokenHash: tokenHash(secret), expiresAt, invitedById: actor.memberId }
        const made = await tx.invite.create({ data })
        await announce(tx, 'members')
        return ok({ inviteId: made.id, token: secret, expiresAt })
      },
      { invite_one_open_per_email: there('Someone else is inviting them just now.') },
    )
  },
})

/** Links that still work, the newest first. Never the tokens. */
export const listInvites = query({
  audience: 'admin',
  input: nothing,
  run: async () =>
    ok(
      await database().invite.findMany({
        where: stillOpen(new Date()),
        orderBy: { createdAt: 'desc' },
        select: {
          id: true,
          email: true,
          role: true,
          createdAt: true,
          expiresAt: true,
          invitedBy: { select: { name: true } },
        },
      }),
    ),
})

export const revokeInvite = action({
  audience: 'admin',
  input: z.object({ inviteId: id }),
  run: async (_, { inviteId }) => {
    const now = new Date()
    const { count } = await database().invite.updateMany({
      where: { id: inviteId, usedAt: null, revokedAt: null },
      data: { revokedAt: now },
    })
    return count === 1 ? ok(null) : err(refusal('linkSpent'))
  },
})

/** What a link invites to, for the page that it opens. */
export const peekInvite = query({
  audience: 'anyone',
  input: z.object({ token }),
  run: async (_, { token }) => {
    const found = await database().invite.findFirst({
      where: { tokenHash: tokenHash(token), ...stillOpen(new Date()) },
      select: { email: true, role: true, invitedBy: { select: { name: true } } },
    })
    if (!found) return err(refusal('linkSpent'))
    const shop = await database().shop.findFirstOrThrow({ select: { name: true } })
    return ok({ email: found.email, role: found.role, invitedBy: found.invitedBy.name, shop: shop.name })
  },
})

/** Someone who was removed comes back as who they were, with their boards, and a new password. */
async function admit(
  tx: Transaction,
  who: { email: string; role: z.infer<typeof role>; name: string; passwordHash: string },
): Promise<string | null> {
  const fresh = { ...who, calendarToken: randomToken() }
  const before = await tx.member.findUnique({ where: { email: who.email }, select: { id: true } })
  if (!before) return (await tx.member.create({ data: fresh })).id
  const { count } = await tx.member.updateMany({
    where: { id: before.id, removedAt: { not: null } },
    data: { ...fresh, removedAt: null, sessionVersion: { increment: 1 } },
  })
  return count === 1 ? before.id : null
}

/** Uses the link up and makes the member, together; of several at once exactly one succeeds. */
export const acceptInvite = action({
  audience: 'anyone',
  input: z.object({ token, name: personName, password: newPassword }),
  run: async (_, input) => {
    const spent = refusal('linkSpent')
    const link = { tokenHash: tokenHash(input.token) }
    const found = await database().invite.findFirst({ where: { ...link, ...stillOpen(new Date()) } })
    if (!found) return err(spent)
    const fault = passwordFault(input.password, { email: found.email, name: input.name })
    if (fault) return err(refusal('badInput', { fields: { password: fault } }))
    const passwordHash = await hashPassword(input.password)
    return transact(
      async (tx) => {
        const now = new Date()
        const used = await tx.invite.updateMany({
          where: { ...link, ...stillOpen(now) },
          data: { usedAt: now },
        })
        if (used.count !== 1) return err(spent)
        const { email, role } = found
        const memberId = await admit(tx, { email, role, name: input.name, passwordHash })
        if (!memberId) return err(refusal('alreadyExists', { about: 'Sign in with your password.' }))
        await announce(tx, 'members')
        return ok({ memberId, email })
      },
      { Member_email_key: spent },
    )
  },
})
