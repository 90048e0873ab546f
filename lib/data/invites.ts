import 'server-only'
import { z } from 'zod'
import { hashPassword } from '#lib/auth/password'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor, Role } from '#lib/shop/actor'
import { passwordFault } from '#lib/shop/members'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import { email, newPassword, personName, role, token } from './internal/fields'
import { holdMember } from './internal/member-lock'
import { randomToken, tokenHash } from './internal/tokens'
import { announce, type Transaction, transact } from './transaction'

const LINK_DAYS = 7
const DAY_MS = 24 * 3_600_000

const stillOpen = (now: Date) => ({ usedAt: null, revokedAt: null, expiresAt: { gt: now } })

/** A link that stops every earlier one for the same e-mail. Only its hash is kept: it is shown once. */
async function makeLink(tx: Transaction, actor: Actor, who: { email: string; role: Role }) {
  const secret = randomToken()
  const now = new Date()
  const expiresAt = new Date(now.getTime() + LINK_DAYS * DAY_MS)
  await tx.invite.updateMany({
    where: { email: who.email, usedAt: null, revokedAt: null },
    data: { revokedAt: now },
  })
  const data = { ...who, tokenHash: tokenHash(secret), expiresAt, invitedById: actor.memberId }
  const { id } = await tx.invite.create({ data, select: { id: true } })
  await announce(tx, 'members')
  return { inviteId: id, token: secret, expiresAt }
}

const there = (sentence: string) => refusal('alreadyExists', { fields: { email: sentence } })
const CLASHES = { invite_one_open_per_email: there('Someone else is making a link for them just now.') }

/** A one-time link to join, for an e-mail of who is no member. */
export const invite = action({
  audience: 'admin',
  input: z.object({ email, role }),
  run: (actor, input) =>
    transact(async (tx) => {
      if (!(await holdMember(tx, actor.memberId, ['admin']))) return err(refusal('notAllowed'))
      if (await tx.member.count({ where: { email: input.email, removedAt: null } }))
        return err(there('They are a member already.'))
      return ok(await makeLink(tx, actor, input))
    }, CLASHES),
})

/** A one-time link for a member who has forgotten the password. */
export const passwordLink = action({
  audience: 'admin',
  input: z.object({ memberId: id }),
  run: (actor, { memberId }) =>
    transact(async (tx) => {
      if (!(await holdMember(tx, actor.memberId, ['admin']))) return err(refusal('notAllowed'))
      const member = await tx.member.findFirst({
        where: { id: memberId, removedAt: null },
        select: { email: true, role: true },
      })
      return member ? ok(await makeLink(tx, actor, member)) : err(refusal('notFound'))
    }, CLASHES),
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
    const isMember = (await database().member.count({ where: { email: found.email, removedAt: null } })) > 0
    return ok({
      email: found.email,
      role: found.role,
      invitedBy: found.invitedBy.name,
      shop: shop.name,
      isMember,
    })
  },
})

/**
 * Someone new comes in; someone who was removed comes back as who they were, with their boards; a member only gets
 * the new password. Sessions from before end.
 */
async function admit(
  tx: Transaction,
  who: { email: string; role: Role; name: string | undefined; passwordHash: string },
): Promise<Result<string, Refusal>> {
  const before = await tx.member.findUnique({
    where: { email: who.email },
    select: { id: true, removedAt: true },
  })
  const { name, passwordHash } = who
  if (before && !before.removedAt) {
    await tx.member.update({
      where: { id: before.id },
      data: { passwordHash, sessionVersion: { increment: 1 } },
    })
    return ok(before.id)
  }
  if (!name) return err(refusal('badInput', { fields: { name: 'Type a name.' } }))
  const fresh = { ...who, name, calendarToken: randomToken() }
  if (!before) return ok((await tx.member.create({ data: fresh })).id)
  await tx.member.update({
    where: { id: before.id },
    data: { ...fresh, removedAt: null, sessionVersion: { increment: 1 } },
  })
  return ok(before.id)
}

/** Uses the link up and makes the member or sets the password, together; of several at once exactly one succeeds. */
export const acceptInvite = action({
  audience: 'anyone',
  input: z.object({ token, name: personName.optional(), password: newPassword }),
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
        const admitted = await admit(tx, { email, role, name: input.name, passwordHash })
        if (!admitted.ok) return admitted
        await announce(tx, 'members')
        return ok({ memberId: admitted.value, email })
      },
      { Member_email_key: spent },
    )
  },
})
