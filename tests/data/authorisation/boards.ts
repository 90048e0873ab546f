import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { board, member } from '../arrange'
import type { AuthorisationCases } from './case'

/** A board of someone's, and all that hangs on it. */
async function someonesBoard(over: object = {}) {
  const row = await board(await member('member', 'Owner'), over)
  const state = () =>
    database().board.findUniqueOrThrow({ where: { id: row.id }, include: { defects: true, events: true } })
  return { row, seen: { boardId: row.id, version: row.version }, state }
}

async function someonesTeardown() {
  const { memberId } = await member('member', 'Owner')
  const { id: teardownId } = await database().teardown.create({ data: { memberId, name: 'Pine bed' } })
  const state = () =>
    database().teardown.findUniqueOrThrow({ where: { id: teardownId }, include: { boards: true } })
  return { teardownId, state }
}

const FACTS = {
  lengthUm: 500_000,
  widthUm: 80_000,
  thicknessUm: 18_000,
  species: 'beech',
  finish: 'bare',
  terms: 'free',
}

export const cases: AuthorisationCases = {
  'teardowns.startTeardown': {
    ownOnly: async () => ({
      input: { name: 'Mine' },
      state: (await someonesTeardown()).state,
      check: (value) => expect(value).toEqual({ id: expect.any(String) }),
    }),
  },
  'teardowns.changeTeardown': {
    refused: async () => {
      const { teardownId, state } = await someonesTeardown()
      return { input: { teardownId, name: 'Taken over' }, state }
    },
  },
  'teardowns.logBoards': {
    refused: async () => {
      const { teardownId, state } = await someonesTeardown()
      return { input: { ...FACTS, teardownId }, state }
    },
  },
  'boards.changeBoard': {
    refused: async () => {
      const { seen, state } = await someonesBoard()
      return { input: { ...FACTS, ...seen }, state }
    },
  },
  'boards.setDefects': {
    refused: async () => {
      const { seen, state } = await someonesBoard()
      const hole = { kind: 'hole', face: 'A', xUm: 0, yUm: 0, widthUm: 10_000, heightUm: 10_000 }
      return { input: { ...seen, defects: [hole] }, state }
    },
  },
  'boards.reopenGate': {
    refused: async () => {
      const { seen, state } = await someonesBoard({ metal: 'cleared' })
      return { input: { ...seen, gate: 'metal' }, state }
    },
  },
  'boards.removeBoard': {
    refused: async () => {
      const { seen, state } = await someonesBoard()
      return { input: { ...seen, reason: 'I want it' }, state }
    },
  },
  'boards.putBoardBack': {
    refused: async () => {
      const { seen, state } = await someonesBoard({ status: 'removed' })
      return { input: seen, state }
    },
  },
}
