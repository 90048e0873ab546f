import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { member } from '../arrange'
import type { AuthorisationCases } from './case'

/** Someone else's row, and a check that nothing of it came out. */
async function someoneElse() {
  const other = await member('member', 'Someone Private')
  const row = () => database().member.findUniqueOrThrow({ where: { id: other.memberId } })
  const { email, calendarToken } = await row()
  const check = (value: unknown) => {
    for (const secret of [other.memberId, email, calendarToken])
      expect(JSON.stringify(value)).not.toContain(secret)
  }
  return { state: row, check }
}

const onlyMine = (input: unknown = {}) => ({ ownOnly: async () => ({ input, ...(await someoneElse()) }) })

export const cases: AuthorisationCases = {
  'sign-in.signIn': { open: 'gives nothing without the password, and its tries are counted' },
  'shop.isStarted': { open: 'tells only whether there is a member' },
  'shop.startShop': { open: 'does nothing once there is a member' },
  'invites.peekInvite': { open: 'shows what the link’s holder was invited to; the token is the right' },
  'invites.acceptInvite': { open: 'the token is the right, once' },
  'calendar.calendarFeed': { open: 'the token is the right, until it is renewed' },
  'account.mySettings': onlyMine(),
  'account.changeMySettings': onlyMine({ name: 'Stranger', units: null }),
  'account.changePassword': onlyMine({ current: 'wrong password', password: 'three damp planks' }),
  'account.signOutEverywhere': onlyMine(),
  'account.myCalendarLink': onlyMine(),
  'account.newCalendarLink': onlyMine(),
}
