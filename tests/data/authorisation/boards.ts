import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { board, build, member } from '../arrange'
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

/** Twenty screws of someone's that are theirs alone, ten of them taken for their build. */
async function someonesScrews() {
  const owner = await member('member', 'Owner')
  const { id: buildId } = await build(owner)
  const { id: lotId } = await database().hardwareLot.create({
    data: { ownerId: owner.memberId, kind: 'screw', size: 'No. 8 × 32 mm', count: 20, terms: 'mine' },
  })
  const taken = { lotId, buildId, memberId: owner.memberId, kind: 'taken', change: -10 } as const
  await database().hardwareEvent.create({ data: taken })
  const state = async () => {
    const lot = await database().hardwareLot.findUniqueOrThrow({ where: { id: lotId } })
    return { ...lot, events: await database().hardwareEvent.count({ where: { lotId } }) }
  }
  return { lotId, buildId, state }
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
  'hardware.logHardware': {
    refused: async () => {
      const { teardownId, state } = await someonesTeardown()
      return { input: { teardownId, kind: 'screw', size: 'No. 8 × 32 mm', count: 4 }, state }
    },
  },
  'hardware.take': {
    refused: async () => {
      const { lotId, state } = await someonesScrews()
      return { input: { lotId, count: 1 }, state }
    },
  },
  'hardware.putBack': {
    refused: async () => {
      const { lotId, buildId, state } = await someonesScrews()
      return { input: { lotId, buildId, count: 1 }, state }
    },
  },
  'hardware.changeLot': {
    refused: async () => {
      const { lotId, state } = await someonesScrews()
      return { input: { lotId, count: 3, terms: 'free' }, state }
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
