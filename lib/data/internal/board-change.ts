/**
 * What every change of a board goes through: lock, look, decide, write with version and owner in one `where`, ledger,
 * announcement. Holds lock the same rows in the same way (hold-life.ts), so a board is never changed under a hold
 * that is just being taken.
 * Tests: tests/data/boards.test.ts
 */
import 'server-only'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { mayChange, ownedBy } from '#lib/shop/sharing'
import type { Prisma } from '../generated/client'
import { announce, type Transaction } from '../transaction'
import { announceHolds, lapseExpired, lockBoards } from './hold-life'
import { type StockEntry, writeLedger } from './ledger'

const MARKS = {
  select: { id: true, kind: true, face: true, xUm: true, yUm: true, widthUm: true, heightUm: true },
  orderBy: [{ xUm: 'asc' }, { yUm: 'asc' }, { id: 'asc' }],
} satisfies Prisma.Board$defectsArgs

const AS_IT_STANDS = {
  id: true,
  number: true,
  ownerId: true,
  status: true,
  version: true,
  lengthUm: true,
  widthUm: true,
  thicknessUm: true,
  species: true,
  terms: true,
  finish: true,
  metal: true,
  lead: true,
  treated: true,
  cupUm: true,
  bowUm: true,
  crookUm: true,
  twistUm: true,
  place: true,
  notes: true,
  defects: MARKS,
  holds: {
    where: { status: { in: ['live', 'requested'] } },
    select: {
      status: true,
      buildId: true,
      memberId: true,
      expiresAt: true,
      member: { select: { name: true } },
      build: { select: { name: true } },
    },
  },
} satisfies Prisma.BoardSelect

export type BoardNow = Prisma.BoardGetPayload<{ select: typeof AS_IT_STANDS }>

/** The board, locked, with expired holds gone. */
export async function boardUnderLock(tx: Transaction, boardId: string): Promise<Result<BoardNow, Refusal>> {
  const [locked] = await lockBoards(tx, [boardId])
  if (!locked) return err(refusal('notFound'))
  await lapseExpired(tx, [boardId], new Date())
  return ok(await tx.board.findUniqueOrThrow({ where: { id: boardId }, select: AS_IT_STANDS }))
}

/** The same for its owner or an admin, as they saw it: another version is refused, as is a board out of the pool. */
export async function ownBoardUnderLock(
  tx: Transaction,
  actor: Actor,
  wanted: { readonly boardId: string; readonly version: number },
): Promise<Result<BoardNow, Refusal>> {
  const board = await boardUnderLock(tx, wanted.boardId)
  if (!board.ok) return board
  if (!mayChange(actor, board.value.ownerId)) return err(refusal('notAllowed'))
  if (board.value.version !== wanted.version) return err(refusal('changedMeanwhile'))
  return board
}

export const liveHoldOn = (board: BoardNow) => board.holds.find((h) => h.status === 'live')

/** Writes the change of a board as it was seen. A version that has moved on, or another's board, changes nothing. */
export async function writeBoard(
  tx: Transaction,
  actor: Actor,
  board: BoardNow,
  data: Prisma.BoardUncheckedUpdateManyInput,
  by: 'owner' | 'anyMember',
): Promise<Result<null, Refusal>> {
  const own = by === 'owner' ? ownedBy(actor) : {}
  const { count } = await tx.board.updateMany({
    where: { id: board.id, version: board.version, status: board.status, ...own },
    data: { ...data, version: { increment: 1 } },
  })
  return count === 1 ? ok(null) : err(refusal('changedMeanwhile'))
}

/** The ledger's entries and everyone who looks: the pool, the board, its owner, builds that hold or asked for it. */
export async function tellOfBoard(
  tx: Transaction,
  actor: Actor,
  board: BoardNow,
  entries: readonly Pick<StockEntry, 'kind' | 'detail'>[],
): Promise<void> {
  await writeLedger(
    tx,
    entries.map((e) => ({ ...e, boardId: board.id, memberId: actor.memberId })),
  )
  for (const topic of ['pool', `board:${board.id}`, `member:${board.ownerId}`]) await announce(tx, topic)
  await announceHolds(
    tx,
    board.holds.map((h) => ({ boardId: board.id, buildId: h.buildId, memberIds: [h.memberId] })),
  )
}
