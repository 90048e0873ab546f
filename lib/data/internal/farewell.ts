import 'server-only'
import { announce, type Transaction } from '../transaction'
import { announceHolds, lockBoards } from './hold-life'
import { writeLedger } from './ledger'

const OPEN = ['live', 'requested'] as const

/** Lets go of all that a member holds or has asked for; the ledger names who let it go. @returns how many */
async function releaseHoldsOfMember(tx: Transaction, memberId: string, byId: string): Promise<number> {
  const where = { memberId, status: { in: [...OPEN] } }
  const open = await tx.hold.findMany({
    where,
    select: { boardId: true, board: { select: { ownerId: true } } },
  })
  await lockBoards(tx, [...new Set(open.map((h) => h.boardId))])
  const ended = await tx.hold.updateManyAndReturn({
    where,
    data: { status: 'released', endedAt: new Date() },
    select: { id: true, boardId: true, buildId: true },
  })
  await writeLedger(
    tx,
    ended.map((h) => ({
      boardId: h.boardId,
      buildId: h.buildId,
      memberId: byId,
      kind: 'released' as const,
      detail: { holdId: h.id, because: 'memberRemoved' },
    })),
  )
  const ownerOf = new Map(open.map((h) => [h.boardId, h.board.ownerId]))
  await announceHolds(
    tx,
    ended.map((h) => ({ ...h, memberIds: [ownerOf.get(h.boardId) ?? memberId] })),
  )
  return ended.length
}

/** Bookings of a member that have not ended, given up. @returns how many */
async function cancelBookingsOfMember(tx: Transaction, memberId: string, byId: string): Promise<number> {
  const now = new Date()
  const ended = await tx.booking.updateManyAndReturn({
    where: { memberId, status: { in: ['requested', 'approved'] }, endAt: { gt: now } },
    data: { status: 'cancelled', decidedById: byId, decidedAt: now, decisionNote: 'No longer a member.' },
    select: { stationId: true },
  })
  for (const stationId of new Set(ended.map((b) => b.stationId))) await announce(tx, `station:${stationId}`)
  return ended.length
}

/** What a member leaves behind, put in order in the transaction that removes them. */
export async function settleAffairs(tx: Transaction, memberId: string, byId: string) {
  const now = new Date()
  const holds = await releaseHoldsOfMember(tx, memberId, byId)
  const bookings = await cancelBookingsOfMember(tx, memberId, byId)
  await tx.induction.updateMany({ where: { memberId, revokedAt: null }, data: { revokedAt: now } })
  // Links that they made, and a link for themselves, which would let them in again.
  const { email } = await tx.member.findUniqueOrThrow({ where: { id: memberId }, select: { email: true } })
  await tx.invite.updateMany({
    where: { OR: [{ invitedById: memberId }, { email }], usedAt: null, revokedAt: null },
    data: { revokedAt: now },
  })
  return { holds, bookings }
}
