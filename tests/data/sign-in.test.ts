import { beforeAll, describe, expect, test } from 'vitest'
import { hashPassword } from '#lib/auth/password'
import { changePassword, signOutEverywhere } from '#lib/data/account'
import { database } from '#lib/data/client'
import { liveMember } from '#lib/data/internal/live-member'
import { removeMember } from '#lib/data/members'
import { signIn } from '#lib/data/sign-in'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'

const RIGHT = 'three damp planks'
let passwordHash: string

async function withPassword(role: 'admin' | 'member' = 'member'): Promise<Actor & { email: string }> {
  const actor = await member(role)
  const { email } = await database().member.update({ where: { id: actor.memberId }, data: { passwordHash } })
  return { ...actor, email }
}
let last = 0
const freshAddress = () => `10.1.0.${last++}`
const attempt = (email: string, password: string, address = freshAddress()) =>
  signIn(null, { email, password, address })

beforeAll(async () => {
  await shop()
  passwordHash = await hashPassword(RIGHT)
})

describe('signing in', () => {
  test('with the right password, however the e-mail is cased', async () => {
    const who = await withPassword()
    const result = await attempt(` ${who.email.toUpperCase()} `, RIGHT)
    expect(result).toMatchObject({ ok: true, value: { memberId: who.memberId, sessionVersion: 1 } })
  })

  test('wrong password, unknown e-mail and removed member are told apart by nothing', async () => {
    const who = await withPassword()
    const gone = await withPassword()
    await database().member.update({ where: { id: gone.memberId }, data: { removedAt: new Date() } })
    const answers = [
      await attempt(who.email, 'three dry planks'),
      await attempt('nobody@example.org', RIGHT),
      await attempt(gone.email, RIGHT),
    ]
    for (const answer of answers) expect(answer).toEqual({ ok: false, error: { code: 'signInFailed' } })
  })

  test('a quarter of an hour of failures: eight an e-mail, known or not, then the right password is refused too', async () => {
    const who = await withPassword()
    for (const email of [who.email, 'unknown@example.org']) {
      for (let i = 0; i < 8; i++)
        expect(await attempt(email, `wrong ${i}`)).toMatchObject({ error: { code: 'signInFailed' } })
      expect(await attempt(email, RIGHT)).toEqual({ ok: false, error: { code: 'tooManyTries' } })
    }
    await database().signInAttempt.updateMany({ data: { at: new Date(Date.now() - 16 * 60_000) } })
    expect((await attempt(who.email, RIGHT)).ok).toBe(true)
  })

  test('60 wrong tries at once at one e-mail: exactly eight passwords are looked at', async () => {
    const who = await withPassword()
    const results = await Promise.all(Array.from({ length: 60 }, (_, i) => attempt(who.email, `wrong ${i}`)))
    const codes = results.map((r) => (r.ok ? 'ok' : r.error.code))
    expect(codes.filter((c) => c === 'signInFailed')).toHaveLength(8)
    expect(codes.filter((c) => c === 'tooManyTries')).toHaveLength(52)
  })

  test('60 tries at once from one address at 60 e-mails: exactly forty', async () => {
    const tries = Array.from({ length: 60 }, (_, i) => attempt(`a${i}@example.org`, RIGHT, '10.9.9.9'))
    const codes = (await Promise.all(tries)).map((r) => (r.ok ? 'ok' : r.error.code))
    expect(codes.filter((c) => c === 'signInFailed')).toHaveLength(40)
    expect(codes.filter((c) => c === 'tooManyTries')).toHaveLength(20)
  })

  test('a right password forgives the e-mail, but not the address', async () => {
    const who = await withPassword()
    for (let i = 0; i < 7; i++) await attempt(who.email, 'wrong', '10.8.8.8')
    expect((await attempt(who.email, RIGHT, '10.8.8.8')).ok).toBe(true)
    const left = await database().signInAttempt.findMany({
      where: { key: { in: [`email:${who.email}`, 'address:10.8.8.8'] } },
    })
    expect(left.map((row) => row.key)).toEqual(Array(7).fill('address:10.8.8.8'))
  })
})

describe('sessions', () => {
  const standing = async (a: Actor, version: number) => (await liveMember(a.memberId, version)) !== null

  test('end when the password changes, which needs the current one', async () => {
    const who = await withPassword()
    const wrong = await changePassword(who, { current: 'wrong', password: 'a very new password' })
    expect(wrong).toMatchObject({ error: { code: 'wrongPassword', fields: { current: expect.any(String) } } })
    const common = await changePassword(who, { current: RIGHT, password: 'password123' })
    expect(common).toMatchObject({ error: { code: 'badInput', fields: { password: expect.any(String) } } })
    expect(await standing(who, 1)).toBe(true)
    const changed = await changePassword(who, { current: RIGHT, password: 'a very new password' })
    expect(changed).toEqual({ ok: true, value: { email: who.email } })
    expect([await standing(who, 1), await standing(who, 2)]).toEqual([false, true])
    expect((await attempt(who.email, RIGHT)).ok).toBe(false)
    expect((await attempt(who.email, 'a very new password')).ok).toBe(true)
  })

  test('tries at the current password are counted', async () => {
    const who = await withPassword()
    const guesses = Array.from({ length: 20 }, (_, i) =>
      changePassword(who, { current: `wrong ${i}`, password: 'a very new password' }),
    )
    const codes = (await Promise.all(guesses)).map((r) => (r.ok ? 'ok' : r.error.code))
    expect(codes.filter((c) => c === 'wrongPassword')).toHaveLength(8)
    expect(codes.filter((c) => c === 'tooManyTries')).toHaveLength(12)
  })

  test('end when the member is removed, and when they sign out everywhere', async () => {
    const [who, other] = [await withPassword(), await withPassword()]
    await signOutEverywhere(who, {})
    expect([await standing(who, 1), await standing(who, 2)]).toEqual([false, true])
    const admin = await member('admin')
    expect((await removeMember(admin, { memberId: other.memberId })).ok).toBe(true)
    expect([await standing(other, 1), await standing(other, 2)]).toEqual([false, false])
  })
})
