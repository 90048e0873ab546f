import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { board, build, member } from '../arrange'
import type { AuthorisationCases } from './case'

/** A build of someone's that holds one board and has asked another owner for a second. */
async function heldAndAsked() {
  const maker = await member('member', 'Maker')
  const owner = await member('member', 'Owner')
  const [free, ask] = [await board(owner), await board(owner, { terms: 'ask' })]
  const { id: buildId } = await build(maker)
  const row = { buildId, memberId: maker.memberId, expiresAt: new Date(Date.now() + 1e7) }
  const live = await database().hold.create({ data: { ...row, boardId: free.id, status: 'live' } })
  const asked = await database().hold.create({ data: { ...row, boardId: ask.id, status: 'requested' } })
  const state = () => database().hold.findMany({ where: { buildId }, orderBy: { id: 'asc' } })
  return { buildId, free, live, asked, state }
}

const sawNothing = (value: unknown) => expect(value).toEqual([])

export const cases: AuthorisationCases = {
  'holds.hold': {
    refused: async () => {
      const { id: buildId } = await build(await member())
      const free = await board(await member())
      return {
        input: { buildId, boards: [{ boardId: free.id, version: free.version }] },
        state: () => database().hold.findMany({ where: { buildId } }),
      }
    },
  },
  'holds.release': {
    refused: async () => {
      const { live, state } = await heldAndAsked()
      return { input: { holdId: live.id }, state }
    },
  },
  'holds.extend': {
    refused: async () => {
      const { live, state } = await heldAndAsked()
      return { input: { holdId: live.id }, state }
    },
  },
  'holds.decide': {
    refused: async () => {
      const { asked, state } = await heldAndAsked()
      return { input: { holdId: asked.id, yes: true }, state }
    },
  },
  'holds.requestsToMe': {
    ownOnly: async () => ({ input: {}, state: (await heldAndAsked()).state, check: sawNothing }),
  },
  'holds.myHolds': {
    ownOnly: async () => ({ input: {}, state: (await heldAndAsked()).state, check: sawNothing }),
  },
}
