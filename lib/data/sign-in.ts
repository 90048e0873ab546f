import 'server-only'
import { z } from 'zod'
import { verifyPassword } from '#lib/auth/password'
import { err, ok } from '#lib/core/units/result'
import { MAX_PASSWORD_LENGTH } from '#lib/shop/members'
import { refusal } from '#lib/shop/refusal'
import { action } from './action'
import { database } from './client'
import { countTry, forgiveTries } from './internal/sign-in-attempts'
import { transact } from './transaction'

/**
 * Checks e-mail and password. Wrong e-mail, wrong password and removed member give one answer after about one time.
 * `address` is where the try came from, as the server saw it.
 */
export const signIn = action({
  audience: 'anyone',
  input: z.object({
    email: z.string().trim().toLowerCase().min(1, 'Type your e-mail.').max(254),
    password: z.string().min(1, 'Type your password.').max(MAX_PASSWORD_LENGTH),
    address: z.string().min(1).max(100),
  }),
  run: async (_, { email, password, address }) => {
    const keys = [
      { kind: 'email', of: email },
      { kind: 'address', of: address },
    ] as const
    const counted = await transact(async (tx) => {
      const rows = await countTry(tx, keys, new Date())
      return rows ? ok(rows) : err(refusal('tooManyTries'))
    })
    if (!counted.ok) return counted
    const member = await database().member.findFirst({
      where: { email, removedAt: null },
      select: { id: true, name: true, passwordHash: true, sessionVersion: true },
    })
    const isRight = await verifyPassword(member?.passwordHash, password)
    if (!member || !isRight) return err(refusal('signInFailed'))
    await transact(async (tx) => ok(await forgiveTries(tx, counted.value, keys[0])))
    return ok({ memberId: member.id, name: member.name, sessionVersion: member.sessionVersion })
  },
})
