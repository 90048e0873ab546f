/**
 * Holds: boards reserved for a build. Taking several is one transaction, all or none; boards are locked in the order
 * of their ids and expired holds lapse first, so that of any number of members exactly one gets a board and the
 * others are told by whom it is held. Every step is in the ledger.
 * Rules: lib/shop/holds.ts. Tests: tests/data/holds.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok, type Result } from '#lib/core/units/result'
import {
  decideHolds,
  type HoldCandidate,
  type HoldStep,
  heldSentence,
  holdExpiry,
  type LiveHold,
} from '#lib/shop/holds'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import { announceHolds, lapseExpired, lockBoards } from './internal/hold-life'
import { type StockEventKind, writeLedger } from './internal/ledger'
import { ownOpenBuild } from './internal/own-build'
import { sayInstant, shopRow } from './internal/shop-row'
import { type Transaction, transact } from './transaction'

const MAX_BOARDS = 200
const CLASHES = {
  hold_one_live_per_board: refusal('boardsHeld'),
  hold_one_open_per_build: refusal('boardsHeld'),
}

const LIVE_HOLD = {
  select: {
    buildId: true,
    expiresAt: true,
    member: { select: { name: true } },
    build: { select: { name: true } },
  },
} as const

const OPEN_HOLDS = {
  where: { status: { in: ['live' as const, 'requested' as const] } },
  select: { ...LIVE_HOLD.select, status: true },
}

const liveHold = (h: {
  buildId: string
  expiresAt: Date
  member: { name: string }
  build: { name: string }
}): LiveHold => ({
  buildId: h.buildId,
  buildName: h.build.name,
  memberName: h.member.name,
  expiresAt: h.expiresAt,
})

async function candidatesOf(
  tx: Transaction,
  buildId: string,
  wanted: readonly { boardId: string; version: number }[],
): Promise<HoldCandidate[]> {
  const boards = await tx.board.findMany({
    where: { id: { in: wanted.map((w) => w.boardId) } },
    select: {
      id: true,
      number: true,
      ownerId: true,
      terms: true,
      status: true,
      version: true,
      owner: { select: { name: true } },
      holds: OPEN_HOLDS,
    },
    orderBy: { number: 'asc' },
  })
  const seen = new Map(wanted.map((w) => [w.boardId, w.version]))
  return boards.map((b) => {
    const live = b.holds.find((h) => h.status === 'live')
    return {
      boardId: b.id,
      number: b.number,
      ownerId: b.ownerId,
      ownerName: b.owner.name,
      terms: b.terms,
      isInPool: b.status === 'inPool',
      version: b.version,
      seenVersion: seen.get(b.id)!,
      liveHold: live ? liveHold(live) : null,
      isRequested: b.holds.some((h) => h.status === 'requested' && h.buildId === buildId),
    }
  })
}

const EVENT: Record<Exclude<HoldStep['kind'], 'keep'>, StockEventKind> = {
  hold: 'held',
  raise: 'held',
  ask: 'holdAsked',
}

async function writeHold(
  tx: Transaction,
  step: HoldStep,
  hold: { buildId: string; memberId: string; expiresAt: Date },
): Promise<void> {
  const { boardId, kind } = step
  if (kind === 'keep') return
  if (kind === 'raise') {
    await tx.hold.updateMany({
      where: { boardId, buildId: hold.buildId, status: 'requested' },
      data: { status: 'live', expiresAt: hold.expiresAt },
    })
  } else {
    await tx.hold.create({ data: { ...hold, boardId, status: kind === 'ask' ? 'requested' : 'live' } })
  }
  const detail = { until: hold.expiresAt.toISOString() }
  await writeLedger(tx, [
    { boardId, memberId: hold.memberId, buildId: hold.buildId, kind: EVENT[kind], detail },
  ])
}

const wanted = z
  .array(z.object({ boardId: id, version: z.int().min(1) }))
  .min(1, 'Choose at least one board.')
  .max(MAX_BOARDS, `Hold at most ${MAX_BOARDS} boards at a time.`)

/** Reserves boards for a build: all of them or none. Boards shared on request become requests to their owners. */
export const hold = action({
  audience: 'member',
  input: z.object({ buildId: id, boards: wanted }),
  run: (actor, { buildId, boards }) =>
    transact(async (tx) => {
      const build = await ownOpenBuild(tx, actor, buildId)
      if (!build.ok) return build
      const boardIds = [...new Set(boards.map((b) => b.boardId))]
      const locked = await lockBoards(tx, boardIds)
      if (locked.length < boardIds.length) return err(refusal('notFound'))
      const now = new Date()
      await lapseExpired(tx, boardIds, now)
      const shop = await shopRow(tx)
      const candidates = await candidatesOf(tx, buildId, boards)
      const steps = decideHolds(actor.memberId, buildId, candidates, sayInstant(shop.timeZone))
      if (!steps.ok) return steps
      const expiresAt = holdExpiry(now, shop.holdHours)
      for (const step of steps.value)
        await writeHold(tx, step, { buildId, memberId: actor.memberId, expiresAt })
      const ownerOf = new Map(candidates.map((c) => [c.boardId, c.ownerId]))
      const changed = steps.value.filter((s) => s.kind !== 'keep')
      await announceHolds(
        tx,
        changed.map((s) => ({ boardId: s.boardId, buildId, memberIds: [ownerOf.get(s.boardId)!] })),
      )
      const count = (...kinds: HoldStep['kind'][]) => steps.value.filter((s) => kinds.includes(s.kind)).length
      return ok({ held: count('hold', 'raise'), asked: count('ask'), kept: count('keep'), expiresAt })
    }, CLASHES),
})

const HOLD_UNDER_LOCK = {
  id: true,
  boardId: true,
  buildId: true,
  memberId: true,
  status: true,
  board: { select: { number: true, ownerId: true, terms: true } },
  build: { select: { memberId: true } },
} as const

/** Locks the board of a hold, lets expired holds lapse and reads the hold as it now stands. */
async function holdUnderLock(tx: Transaction, holdId: string, now: Date) {
  const at = await tx.hold.findUnique({ where: { id: holdId }, select: { boardId: true } })
  if (!at) return null
  await lockBoards(tx, [at.boardId])
  await lapseExpired(tx, [at.boardId], now)
  return tx.hold.findUniqueOrThrow({ where: { id: holdId }, select: HOLD_UNDER_LOCK })
}
type HoldUnderLock = NonNullable<Awaited<ReturnType<typeof holdUnderLock>>>

async function tell(
  tx: Transaction,
  held: HoldUnderLock,
  memberId: string,
  kind: StockEventKind,
  detail: Record<string, string> = {},
): Promise<void> {
  const { boardId, buildId } = held
  await writeLedger(tx, [{ boardId, memberId, buildId, kind, detail: { holdId: held.id, ...detail } }])
  await announceHolds(tx, [{ boardId, buildId, memberIds: [held.board.ownerId, held.memberId] }])
}

/** Lets go of a board, or takes a request back. The maker of the build does; an admin may. */
export const release = action({
  audience: 'member',
  input: z.object({ holdId: id }),
  run: (actor, { holdId }) =>
    transact(async (tx) => {
      const now = new Date()
      const held = await holdUnderLock(tx, holdId, now)
      if (!held) return err(refusal('notFound'))
      if (held.build.memberId !== actor.memberId && actor.role !== 'admin') return err(refusal('notAllowed'))
      const ended = await tx.hold.updateMany({
        where: { id: holdId, status: { in: ['live', 'requested'] } },
        data: { status: 'released', endedAt: now },
      })
      if (ended.count === 0) return err(refusal('alreadyDecided'))
      await tell(tx, held, actor.memberId, 'released', { was: held.status })
      return ok({ boardId: held.boardId })
    }),
})

/** Lengthens a live hold to a full term from now, unless someone else has asked for the board. */
export const extend = action({
  audience: 'member',
  input: z.object({ holdId: id }),
  run: (actor, { holdId }) =>
    transact(async (tx) => {
      const now = new Date()
      const held = await holdUnderLock(tx, holdId, now)
      if (!held) return err(refusal('notFound'))
      if (held.build.memberId !== actor.memberId) return err(refusal('notAllowed'))
      const waiting = await tx.hold.findFirst({
        where: { boardId: held.boardId, status: 'requested', buildId: { not: held.buildId } },
        select: { member: { select: { name: true } } },
      })
      if (waiting) return err(refusal('othersWait', { about: `${waiting.member.name} has asked for it.` }))
      const expiresAt = holdExpiry(now, (await shopRow(tx)).holdHours)
      const extended = await tx.hold.updateMany({
        where: { id: holdId, status: 'live' },
        data: { expiresAt },
      })
      if (extended.count === 0) return err(refusal('boardNotHeld'))
      await tell(tx, held, actor.memberId, 'extended', { until: expiresAt.toISOString() })
      return ok({ expiresAt })
    }),
})

async function grant(tx: Transaction, held: HoldUnderLock, actorId: string, now: Date) {
  const shop = await shopRow(tx)
  const other = await tx.hold.findFirst({ where: { boardId: held.boardId, status: 'live' }, ...LIVE_HOLD })
  if (other) {
    const about = heldSentence(held.board.number, liveHold(other), sayInstant(shop.timeZone))
    return err(refusal('boardsHeld', { about }))
  }
  const expiresAt = holdExpiry(now, shop.holdHours)
  await tx.hold.updateMany({
    where: { id: held.id, status: 'requested' },
    data: { status: 'live', decidedById: actorId, decidedAt: now, expiresAt },
  })
  await tell(tx, held, actorId, 'held', { until: expiresAt.toISOString(), granted: 'yes' })
  return ok({ status: 'live' as const })
}

async function decline(tx: Transaction, held: HoldUnderLock, actorId: string, now: Date) {
  await tx.hold.updateMany({
    where: { id: held.id, status: 'requested' },
    data: { status: 'declined', decidedById: actorId, decidedAt: now, endedAt: now },
  })
  await tell(tx, held, actorId, 'declined')
  return ok({ status: 'declined' as const })
}

/** The owner's yes or no to a request, in one tap. A yes comes too late once another hold is live. */
export const decide = action({
  audience: 'member',
  input: z.object({ holdId: id, yes: z.boolean() }),
  run: (actor, { holdId, yes }) =>
    transact(async (tx): Promise<Result<{ status: 'live' | 'declined' }, Refusal>> => {
      const now = new Date()
      const held = await holdUnderLock(tx, holdId, now)
      if (!held) return err(refusal('notFound'))
      if (held.board.ownerId !== actor.memberId) return err(refusal('notAllowed'))
      if (held.status !== 'requested') return err(refusal('alreadyDecided'))
      return yes ? grant(tx, held, actor.memberId, now) : decline(tx, held, actor.memberId, now)
    }, CLASHES),
})

const BOARD_IN_BRIEF = {
  select: {
    id: true,
    number: true,
    species: true,
    lengthUm: true,
    widthUm: true,
    thicknessUm: true,
    terms: true,
    ownerId: true,
    place: true,
    owner: { select: { name: true } },
  },
} as const

const HOLD_ROW = {
  id: true,
  status: true,
  createdAt: true,
  expiresAt: true,
  buildId: true,
  build: { select: { name: true } },
  member: { select: { name: true } },
  board: BOARD_IN_BRIEF,
} as const

interface HoldRow {
  id: string
  status: string
  createdAt: Date
  expiresAt: Date
  buildId: string
  build: { name: string }
  member: { name: string }
  board: {
    id: string
    number: number
    species: string
    lengthUm: number
    widthUm: number
    thicknessUm: number
    place: string
    ownerId: string
    owner: { name: string }
  }
}

function plainHold(h: HoldRow) {
  const { owner, ...board } = h.board
  return {
    id: h.id,
    status: h.status as 'live' | 'requested',
    askedAt: h.createdAt,
    expiresAt: h.expiresAt,
    buildId: h.buildId,
    buildName: h.build.name,
    memberName: h.member.name,
    board: { ...board, ownerName: owner.name },
  }
}
export type HoldView = ReturnType<typeof plainHold>

const stillOpen = () => ({
  status: { in: ['live' as const, 'requested' as const] },
  expiresAt: { gt: new Date() },
})

/** What a build holds and has asked for. */
export const holdsOfBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }) => {
    const rows = await database().hold.findMany({
      where: { buildId, ...stillOpen() },
      select: HOLD_ROW,
      orderBy: { board: { number: 'asc' } },
    })
    return ok(rows.map(plainHold))
  },
})

/** Requests for the actor's own boards that wait for a yes or a no. */
export const requestsToMe = query({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const rows = await database().hold.findMany({
      where: { status: 'requested', expiresAt: { gt: new Date() }, board: { ownerId: actor.memberId } },
      select: HOLD_ROW,
      orderBy: { createdAt: 'asc' },
    })
    return ok(rows.map(plainHold))
  },
})

/** What the actor's builds hold and have asked for, the first to lapse first. */
export const myHolds = query({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const rows = await database().hold.findMany({
      where: { memberId: actor.memberId, ...stillOpen() },
      select: HOLD_ROW,
      orderBy: { expiresAt: 'asc' },
    })
    return ok(rows.map(plainHold))
  },
})
