import 'server-only'
import { z } from 'zod'
import { hashPassword, verifyPassword } from '#lib/auth/password'
import { err, ok } from '#lib/core/units/result'
import { MAX_PASSWORD_LENGTH, passwordFault } from '#lib/shop/members'
import { refusal } from '#lib/shop/refusal'
import { action, nothing, query } from './action'
import { database } from './client'
import { newPassword, personName, units } from './internal/fields'
import { countTry, forgiveTries } from './internal/sign-in-attempts'
import { randomToken } from './internal/tokens'
import { announce, transact } from './transaction'

/** Who I am and how I like to see lengths and times: my own units, or the shop's. */
export const mySettings = query({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const member = await database().member.findFirst({
      where: { id: actor.memberId, removedAt: null },
      select: { id: true, name: true, email: true, role: true, units: true },
    })
    if (!member) return err(refusal('notSignedIn'))
    const shop = await database().shop.findFirstOrThrow()
    const { id, units: own, ...me } = member
    return ok({
      memberId: id,
      ...me,
      ownUnits: own,
      units: own ?? shop.units,
      timeZone: shop.timeZone,
      currency: shop.currency,
      shopName: shop.name,
    })
  },
})

/** Null units: as the shop has them. */
export const changeMySettings = action({
  audience: 'member',
  input: z.object({ name: personName, units: units.nullable() }),
  run: (actor, data) =>
    transact(async (tx) => {
      const { count } = await tx.member.updateMany({ where: { id: actor.memberId, removedAt: null }, data })
      if (count !== 1) return err(refusal('notSignedIn'))
      await announce(tx, `member:${actor.memberId}`)
      return ok(null)
    }),
})

/** Needs the current password, counted like signing in. All sessions end; the caller signs in anew. */
export const changePassword = action({
  audience: 'member',
  input: z.object({
    current: z.string().min(1, 'Type your current password.').max(MAX_PASSWORD_LENGTH),
    password: newPassword,
  }),
  run: async (actor, { current, password }) => {
    const key = { kind: 'member', of: actor.memberId } as const
    const counted = await transact(async (tx) => {
      const rows = await countTry(tx, [key], new Date())
      return rows ? ok(rows) : err(refusal('tooManyTries'))
    })
    if (!counted.ok) return counted
    const member = await database().member.findFirst({ where: { id: actor.memberId, removedAt: null } })
    if (!member) return err(refusal('notSignedIn'))
    if (!(await verifyPassword(member.passwordHash, current)))
      return err(refusal('wrongPassword', { fields: { current: 'That is not your current password.' } }))
    const fault = passwordFault(password, member)
    if (fault) return err(refusal('badInput', { fields: { password: fault } }))
    const passwordHash = await hashPassword(password)
    return transact(async (tx) => {
      await forgiveTries(tx, counted.value, key)
      const { count } = await tx.member.updateMany({
        where: { id: member.id, sessionVersion: member.sessionVersion, removedAt: null },
        data: { passwordHash, sessionVersion: { increment: 1 } },
      })
      return count === 1 ? ok({ email: member.email }) : err(refusal('changedMeanwhile'))
    })
  },
})

/** Ends every session of mine, this one too. */
export const signOutEverywhere = action({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    await database().member.updateMany({
      where: { id: actor.memberId },
      data: { sessionVersion: { increment: 1 } },
    })
    return ok(null)
  },
})

/** The secret in my calendar's address. Who has it can read my bookings and nothing else. */
export const myCalendarLink = query({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const member = await database().member.findFirst({
      where: { id: actor.memberId, removedAt: null },
      select: { calendarToken: true },
    })
    return member ? ok({ token: member.calendarToken }) : err(refusal('notSignedIn'))
  },
})

/** A new secret; the old address stops working at once. */
export const newCalendarLink = action({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const token = randomToken()
    const { count } = await database().member.updateMany({
      where: { id: actor.memberId, removedAt: null },
      data: { calendarToken: token },
    })
    return count === 1 ? ok({ token }) : err(refusal('notSignedIn'))
  },
})
