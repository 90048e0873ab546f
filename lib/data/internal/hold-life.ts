/**
 * What several actions and the sweep share about holds. Boards are locked in the order of their ids, before any of
 * their holds is touched, so that two transactions never wait for each other.
 * Tests: tests/data/holds.test.ts
 */
import 'server-only'
import { announce, type Transaction } from '../transaction'
import { writeLedger } from './ledger'

/** Locks boards against every other change; foreign keys may still point at them. @returns ids that exist */
export async function lockBoards(tx: Transaction, boardIds: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    select "id" from "Board" where "id" = any(${[...boardIds]}::uuid[]) order by "id" for no key update`
  return rows.map((r) => r.id)
}

/** As `lockBoards`, leaving out what someone else is just changing. */
async function lockFreeBoards(tx: Transaction, boardIds: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    select "id" from "Board" where "id" = any(${[...boardIds]}::uuid[]) order by "id" for no key update skip locked`
  return rows.map((r) => r.id)
}

const OPEN = ['live', 'requested'] as const

export interface EndedHold {
  readonly id: string
  readonly boardId: string
  readonly buildId: string
  readonly memberId: string
}

/** Tells the pages that show a board, its build and its owner. */
export async function announceHolds(
  tx: Transaction,
  changes: readonly { boardId: string; buildId: string; memberIds?: readonly string[] }[],
): Promise<void> {
  const topics = new Set(['pool'])
  for (const c of changes) {
    topics.add(`board:${c.boardId}`)
    topics.add(`build:${c.buildId}`)
    for (const memberId of c.memberIds ?? []) topics.add(`member:${memberId}`)
  }
  if (changes.length > 0) for (const topic of topics) await announce(tx, topic)
}

/** Ends the expired holds of boards that the caller has locked. */
export async function lapseExpired(
  tx: Transaction,
  boardIds: readonly string[],
  now: Date,
): Promise<EndedHold[]> {
  const where = { boardId: { in: [...boardIds] }, status: { in: [...OPEN] }, expiresAt: { lte: now } }
  const expired = await tx.hold.findMany({
    where,
    select: {
      id: true,
      boardId: true,
      buildId: true,
      memberId: true,
      status: true,
      board: { select: { ownerId: true } },
    },
  })
  if (expired.length === 0) return []
  const ids = expired.map((h) => h.id)
  await tx.hold.updateMany({ where: { ...where, id: { in: ids } }, data: { status: 'lapsed', endedAt: now } })
  await writeLedger(
    tx,
    expired.map((h) => ({
      boardId: h.boardId,
      buildId: h.buildId,
      kind: 'lapsed' as const,
      detail: { holdId: h.id, was: h.status },
    })),
  )
  await announceHolds(
    tx,
    expired.map((h) => ({ ...h, memberIds: [h.memberId, h.board.ownerId] })),
  )
  return expired
}

/** The sweep's turn: every expired hold whose board nobody is changing just now. @returns how many lapsed */
export async function lapseAll(tx: Transaction, now: Date): Promise<number> {
  const due = await tx.hold.findMany({
    where: { status: { in: [...OPEN] }, expiresAt: { lte: now } },
    select: { boardId: true },
    take: 1000,
  })
  if (due.length === 0) return 0
  const locked = await lockFreeBoards(tx, [...new Set(due.map((h) => h.boardId))])
  return (await lapseExpired(tx, locked, now)).length
}

/** Lets go of everything that a build holds or has asked for: when it is finished or given up. @returns how many */
export async function releaseHoldsOfBuild(
  tx: Transaction,
  buildId: string,
  memberId: string,
): Promise<number> {
  const now = new Date()
  const open = await tx.hold.findMany({
    where: { buildId, status: { in: [...OPEN] } },
    select: { id: true, boardId: true, board: { select: { ownerId: true } } },
  })
  if (open.length === 0) return 0
  await lockBoards(tx, [...new Set(open.map((h) => h.boardId))])
  const ended = await tx.hold.updateManyAndReturn({
    where: { id: { in: open.map((h) => h.id) }, status: { in: [...OPEN] } },
    data: { status: 'released', endedAt: now },
    select: { id: true, boardId: true },
  })
  await writeLedger(
    tx,
    ended.map((h) => ({
      boardId: h.boardId,
      memberId,
      buildId,
      kind: 'released' as const,
      detail: { holdId: h.id },
    })),
  )
  const ownerOf = new Map(open.map((h) => [h.boardId, h.board.ownerId]))
  await announceHolds(
    tx,
    ended.map((h) => ({ boardId: h.boardId, buildId, memberIds: [ownerOf.get(h.boardId)!] })),
  )
  return ended.length
}
