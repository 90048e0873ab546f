import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { changeMySettings, mySettings, newCalendarLink } from '#lib/data/account'
import { calendarFeed } from '#lib/data/calendar'
import { database } from '#lib/data/client'
import { acceptInvite, invite, listInvites, passwordLink, peekInvite, revokeInvite } from '#lib/data/invites'
import { changeRole, listMembers, people, removeMember } from '#lib/data/members'
import { changeShop, shopSettings } from '#lib/data/shop'
import { signIn } from '#lib/data/sign-in'
import type { Actor } from '#lib/shop/actor'
import { board, build, member, shop, station } from './arrange'

const PASSWORD = 'three damp planks'
let admin: Actor

beforeAll(async () => {
  await shop()
})
beforeEach(async () => {
  await database().member.updateMany({ data: { role: 'member' } })
  admin = await member('admin', 'Ada')
})

let last = 0
const freshEmail = () => `guest${last++}@example.org`
async function linkFor(email: string, role = 'member') {
  const made = await invite(admin, { email, role })
  if (!made.ok) throw new Error(made.error.code)
  return made.value
}
const accept = (token: string, name = 'Guest') => acceptInvite(null, { token, name, password: PASSWORD })

describe('invites', () => {
  test('a link works once, for its e-mail and role; only its hash is kept', async () => {
    const email = freshEmail()
    const { token, inviteId } = await linkFor(email, 'keeper')
    expect(Buffer.from(token, 'base64url')).toHaveLength(32)
    const row = await database().invite.findUniqueOrThrow({ where: { id: inviteId } })
    expect(JSON.stringify(row)).not.toContain(token)
    expect(await peekInvite(null, { token })).toMatchObject({
      value: { email, role: 'keeper', invitedBy: 'Ada' },
    })
    expect((await accept(token)).ok).toBe(true)
    expect(await accept(token)).toMatchObject({ error: { code: 'linkSpent' } })
    expect(await peekInvite(null, { token })).toMatchObject({ error: { code: 'linkSpent' } })
    expect((await signIn(null, { email, password: PASSWORD, address: '10.2.0.1' })).ok).toBe(true)
  })

  test('20 acceptances at once: exactly one, none throws', async () => {
    const email = freshEmail()
    const { token } = await linkFor(email)
    const results = await Promise.all(Array.from({ length: 20 }, () => accept(token)))
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    for (const r of results) if (!r.ok) expect(r.error.code).toBe('linkSpent')
    expect(await database().member.count({ where: { email } })).toBe(1)
  })

  test('withdrawn, run out, replaced or made up: spent', async () => {
    const withdrawn = await linkFor(freshEmail())
    expect((await revokeInvite(admin, { inviteId: withdrawn.inviteId })).ok).toBe(true)
    expect(await revokeInvite(admin, { inviteId: withdrawn.inviteId })).toMatchObject({
      error: { code: 'linkSpent' },
    })
    const old = await linkFor(freshEmail())
    await database().invite.update({
      where: { id: old.inviteId },
      data: { expiresAt: new Date(Date.now() - 1) },
    })
    const email = freshEmail()
    const replaced = await linkFor(email)
    const current = await linkFor(email)
    for (const token of [withdrawn.token, old.token, replaced.token, 'made-up'])
      expect(await accept(token)).toMatchObject({ error: { code: 'linkSpent' } })
    const listed = await listInvites(admin, {})
    expect(listed.ok && listed.value.map((i) => i.id)).toEqual([current.inviteId])
    expect(JSON.stringify(listed)).not.toMatch(/token/i)
  })

  test('lasts seven days; not for who is a member; a bad password leaves it unused', async () => {
    const email = freshEmail()
    const { token, expiresAt } = await linkFor(email)
    expect(Math.abs(expiresAt.getTime() - Date.now() - 7 * 86_400_000)).toBeLessThan(60_000)
    expect(await acceptInvite(null, { token, name: 'Guest', password: 'password123' })).toMatchObject({
      error: { code: 'badInput', fields: { password: expect.any(String) } },
    })
    expect((await accept(token)).ok).toBe(true)
    expect(await invite(admin, { email, role: 'member' })).toMatchObject({
      error: { code: 'alreadyExists', fields: { email: expect.any(String) } },
    })
  })

  test('many invitations of one e-mail at once leave one link that works', async () => {
    const email = freshEmail()
    const made = await Promise.all(Array.from({ length: 8 }, () => invite(admin, { email, role: 'member' })))
    for (const r of made) if (!r.ok) expect(r.error.code).toBe('alreadyExists')
    expect(await database().invite.count({ where: { email, usedAt: null, revokedAt: null } })).toBe(1)
  })

  test('who was removed comes back as who they were, with another calendar link and no old session', async () => {
    const email = freshEmail()
    const joined = await accept((await linkFor(email)).token, 'Guest')
    if (!joined.ok) throw new Error()
    const { memberId } = joined.value
    const before = await database().member.findUniqueOrThrow({ where: { id: memberId } })
    await removeMember(admin, { memberId })
    const again = await accept((await linkFor(email, 'keeper')).token, 'Guest again')
    expect(again).toMatchObject({ ok: true, value: { memberId } })
    const after = await database().member.findUniqueOrThrow({ where: { id: memberId } })
    expect(after).toMatchObject({ name: 'Guest again', role: 'keeper', removedAt: null })
    expect(after.sessionVersion).toBeGreaterThan(before.sessionVersion)
    expect(after.calendarToken).not.toBe(before.calendarToken)
  })

  test('an admin who is removed meanwhile invites nobody, and their open links stop', async () => {
    const other = await member('admin')
    const link = await invite(other, { email: freshEmail(), role: 'admin' })
    if (!link.ok) throw new Error()
    await removeMember(admin, { memberId: other.memberId })
    expect(await accept(link.value.token)).toMatchObject({ error: { code: 'linkSpent' } })
    expect(await invite(other, { email: freshEmail(), role: 'admin' })).toMatchObject({
      error: { code: 'notAllowed' },
    })
  })
})

describe('a forgotten password', () => {
  test('a link sets a new one, once; name, role and calendar stay, sessions end', async () => {
    const who = await member('keeper', 'Kim')
    const before = await database().member.findUniqueOrThrow({ where: { id: who.memberId } })
    const link = await passwordLink(admin, { memberId: who.memberId })
    if (!link.ok) throw new Error()
    expect(await peekInvite(null, { token: link.value.token })).toMatchObject({ value: { isMember: true } })
    expect(await acceptInvite(null, { token: link.value.token, password: PASSWORD })).toMatchObject({
      value: { memberId: who.memberId },
    })
    expect(await accept(link.value.token)).toMatchObject({ error: { code: 'linkSpent' } })
    const after = await database().member.findUniqueOrThrow({ where: { id: who.memberId } })
    expect(after).toMatchObject({ name: 'Kim', role: 'keeper', calendarToken: before.calendarToken })
    expect(after.sessionVersion).toBe(before.sessionVersion + 1)
    expect((await signIn(null, { email: before.email, password: PASSWORD, address: '10.2.0.2' })).ok).toBe(
      true,
    )
  })

  test('a link for someone who is removed meanwhile lets nobody in', async () => {
    const who = await member()
    const link = await passwordLink(admin, { memberId: who.memberId })
    if (!link.ok) throw new Error()
    await removeMember(admin, { memberId: who.memberId })
    expect(await accept(link.value.token)).toMatchObject({ error: { code: 'linkSpent' } })
    expect(await passwordLink(admin, { memberId: who.memberId })).toMatchObject({
      error: { code: 'notFound' },
    })
  })

  test('someone new must say their name', async () => {
    const { token } = await linkFor(freshEmail())
    expect(await acceptInvite(null, { token, password: PASSWORD })).toMatchObject({
      error: { fields: { name: 'Type a name.' } },
    })
    expect((await accept(token)).ok).toBe(true)
  })
})

describe('the last admin', () => {
  const admins = () => database().member.count({ where: { role: 'admin', removedAt: null } })

  test('cannot be removed or demoted', async () => {
    expect(await removeMember(admin, { memberId: admin.memberId })).toMatchObject({
      error: { code: 'lastAdmin' },
    })
    expect(await changeRole(admin, { memberId: admin.memberId, role: 'keeper' })).toMatchObject({
      error: { code: 'lastAdmin' },
    })
  })

  test('two who remove, demote or leave at the same moment leave one', async () => {
    for (let round = 0; round < 6; round++) {
      await database().member.updateMany({ data: { role: 'member' } })
      const [a, b] = [await member('admin'), await member('admin')]
      const of = (x: Actor) => ({ memberId: x.memberId })
      const race = [
        () => [removeMember(a, of(b)), removeMember(b, of(a))],
        () => [removeMember(a, of(a)), removeMember(b, of(b))],
        () => [changeRole(a, { ...of(b), role: 'member' }), removeMember(b, of(a))],
      ][round % 3]
      const results = await Promise.all(race())
      expect(results.filter((r) => r.ok)).toHaveLength(1)
      for (const r of results)
        if (!r.ok) expect(['lastAdmin', 'notAllowed', 'notFound']).toContain(r.error.code)
      expect(await admins()).toBe(1)
    }
  })
})

describe('removing a member', () => {
  test('releases holds into the ledger, cancels what is to come, passes stations on, keeps boards', async () => {
    const [gone, owner] = [await member('keeper', 'Gone'), await member('member', 'Owner')]
    const [own, held] = [await board(gone), await board(owner)]
    const bench = await build(gone)
    const later = new Date(Date.now() + 86_400_000)
    const hold = { buildId: bench.id, memberId: gone.memberId, boardId: held.id, expiresAt: later }
    await database().hold.create({ data: { ...hold, status: 'live' } })
    const [kept, elsewhere] = [await station(gone), await station(admin)]
    const book = (startAt: Date, status: 'requested' | 'approved') =>
      database().booking.create({
        data: {
          stationId: elsewhere.id,
          memberId: gone.memberId,
          startAt,
          endAt: new Date(startAt.getTime() + 3_600_000),
          status,
        },
      })
    const past = await book(new Date(Date.now() - 86_400_000), 'approved')
    const [asked, approved] = [
      await book(later, 'requested'),
      await book(new Date(later.getTime() + 7e6), 'approved'),
    ]
    await database().induction.create({
      data: { stationId: elsewhere.id, memberId: gone.memberId, givenById: admin.memberId },
    })

    const result = await removeMember(admin, { memberId: gone.memberId })
    expect(result).toEqual({ ok: true, value: { holds: 1, bookings: 2, stations: [kept.name] } })

    expect(await database().hold.findFirst({ where: { boardId: held.id } })).toMatchObject({
      status: 'released',
    })
    expect(await database().stockEvent.findMany({ where: { boardId: held.id } })).toMatchObject([
      { kind: 'released', memberId: admin.memberId, buildId: bench.id },
    ])
    const statusOf = async (b: { id: string }) =>
      (await database().booking.findUniqueOrThrow({ where: { id: b.id } })).status
    expect([await statusOf(past), await statusOf(asked), await statusOf(approved)]).toEqual([
      'approved',
      'cancelled',
      'cancelled',
    ])
    expect(await database().station.findUnique({ where: { id: kept.id } })).toMatchObject({
      keeperId: admin.memberId,
    })
    expect(await database().board.findUnique({ where: { id: own.id } })).toMatchObject({
      ownerId: gone.memberId,
    })
    expect(await database().induction.count({ where: { memberId: gone.memberId, revokedAt: null } })).toBe(0)
    expect(await removeMember(admin, { memberId: gone.memberId })).toMatchObject({
      error: { code: 'notFound' },
    })
  })

  test('a keeper is not demoted while stations are theirs', async () => {
    const keeper = await member('keeper')
    const own = await station(keeper)
    expect(await changeRole(admin, { memberId: keeper.memberId, role: 'member' })).toMatchObject({
      error: { code: 'keepsStations', about: `It is ${own.name}.` },
    })
    expect((await changeRole(admin, { memberId: keeper.memberId, role: 'admin' })).ok).toBe(true)
  })
})

describe('settings', () => {
  test('mine: own units or the shop’s', async () => {
    const who = await member()
    await shop({ units: 'in' })
    expect(await mySettings(who, {})).toMatchObject({
      value: { units: 'in', ownUnits: null, timeZone: 'Europe/Berlin' },
    })
    expect((await changeMySettings(who, { name: 'New name', units: 'mm' })).ok).toBe(true)
    expect(await mySettings(who, {})).toMatchObject({
      value: { units: 'mm', ownUnits: 'mm', name: 'New name' },
    })
    expect(await changeMySettings(who, { name: ' ', units: null })).toMatchObject({
      error: { code: 'badInput', fields: { name: 'Type a name.' } },
    })
  })

  test('the shop’s, by an admin, within bounds', async () => {
    const settings = await shopSettings(admin, {})
    if (!settings.ok) throw new Error()
    expect((await changeShop(admin, { ...settings.value, holdHours: 48 })).ok).toBe(true)
    expect(await shopSettings(await member(), {})).toMatchObject({ value: { holdHours: 48 } })
    expect(await changeShop(admin, { ...settings.value, holdHours: 0, skimUm: -1 })).toMatchObject({
      error: { code: 'badInput', fields: { holdHours: expect.any(String), skimUm: expect.any(String) } },
    })
  })

  test('a new calendar link stops the old one, and so does removal', async () => {
    const who = await member()
    const { calendarToken: old } = await database().member.findUniqueOrThrow({ where: { id: who.memberId } })
    expect((await calendarFeed(null, { token: old })).ok).toBe(true)
    const renewed = await newCalendarLink(who, {})
    if (!renewed.ok) throw new Error()
    expect(await calendarFeed(null, { token: old })).toMatchObject({ error: { code: 'notFound' } })
    expect((await calendarFeed(null, { token: renewed.value.token })).ok).toBe(true)
    await removeMember(admin, { memberId: who.memberId })
    expect(await calendarFeed(null, { token: renewed.value.token })).toMatchObject({
      error: { code: 'notFound' },
    })
  })

  test('lists hold nothing secret', async () => {
    for (const list of [await listMembers(admin, {}), await people(admin, {})]) {
      expect(list.ok && list.value.length).toBeGreaterThan(0)
      expect(JSON.stringify(list)).not.toMatch(/passwordHash|calendarToken|sessionVersion/)
    }
    expect(JSON.stringify(await people(admin, {}))).not.toContain('@')
  })
})
