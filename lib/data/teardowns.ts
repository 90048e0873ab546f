/**
 * Teardowns: a worn-out piece taken apart, and the boards that came out of it. Logging boards is one transaction:
 * alike ones get a number each and an entry in the ledger each, or none does.
 * Rules: lib/shop/sharing.ts, lib/shop/boards.ts. Tests: tests/data/teardowns.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { type Lead, leadWhenTakenIn, METALS, type Metal } from '#lib/shop/boards'
import { refusal } from '#lib/shop/refusal'
import { mayChange } from '#lib/shop/sharing'
import { action, id, query } from './action'
import { database } from './client'
import { BOARD_BRIEF, boardBrief } from './internal/board-brief'
import { type BoardFacts, boardFacts, measuresRefusal, unitsInput } from './internal/board-input'
import { type StockEntry, writeLedger } from './internal/ledger'
import { ownTeardown } from './internal/own-teardown'
import { announce, transact } from './transaction'

const PAGE_SIZE = 40
const MOST_ALIKE = 20
const MOST_SHOWN = 500

const donor = z.object({
  name: z
    .string()
    .trim()
    .min(1, 'Say what the piece was, like «Pine bed, broken slats».')
    .max(120, 'Keep it to 120 characters.'),
  foundAt: z.string().trim().max(120, 'Keep it to 120 characters.').default(''),
  notes: z.string().trim().max(2000, 'Keep the notes to 2000 characters.').default(''),
})

/** All teardowns of the shop, the newest first. */
export const teardowns = query({
  audience: 'member',
  shared: true,
  input: z.object({ page: z.int().min(1).max(10_000).default(1) }),
  run: async (_actor, { page }) => {
    const [total, rows] = await Promise.all([
      database().teardown.count(),
      database().teardown.findMany({
        select: {
          id: true,
          name: true,
          foundAt: true,
          createdAt: true,
          memberId: true,
          member: { select: { name: true } },
          _count: { select: { boards: true } },
        },
        orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
        skip: (page - 1) * PAGE_SIZE,
        take: PAGE_SIZE,
      }),
    ])
    const list = rows.map(({ member, _count, ...t }) => ({
      ...t,
      memberName: member.name,
      boards: _count.boards,
    }))
    return ok({ list, total, pages: Math.max(1, Math.ceil(total / PAGE_SIZE)) })
  },
})

/** One teardown and its boards, the last logged first. */
export const teardown = query({
  audience: 'member',
  shared: true,
  input: z.object({ teardownId: id }),
  run: async (actor, { teardownId }) => {
    const row = await database().teardown.findUnique({
      where: { id: teardownId },
      select: {
        id: true,
        name: true,
        foundAt: true,
        notes: true,
        createdAt: true,
        memberId: true,
        member: { select: { name: true } },
        _count: { select: { boards: true } },
        boards: { select: BOARD_BRIEF, orderBy: { number: 'desc' }, take: MOST_SHOWN },
      },
    })
    if (!row) return err(refusal('notFound'))
    const { member, boards, _count, ...rest } = row
    const now = new Date()
    return ok({
      ...rest,
      memberName: member.name,
      mayChange: mayChange(actor, row.memberId),
      count: _count.boards,
      boards: boards.map((b) => boardBrief(b, now)),
    })
  },
})

/** Begins a teardown of one's own. */
export const startTeardown = action({
  audience: 'member',
  input: donor,
  run: (actor, data) =>
    transact(async (tx) => {
      const row = await tx.teardown.create({
        data: { ...data, memberId: actor.memberId },
        select: { id: true },
      })
      return ok(row)
    }),
})

/** What the piece was, where it was found, notes. Who began it, or an admin. */
export const changeTeardown = action({
  audience: 'member',
  input: donor.extend({ teardownId: id }),
  run: (actor, { teardownId, ...data }) =>
    transact(async (tx) => {
      const own = actor.role === 'admin' ? {} : { memberId: actor.memberId }
      const { count } = await tx.teardown.updateMany({ where: { id: teardownId, ...own }, data })
      if (count === 1) return ok(null)
      const isThere = (await tx.teardown.count({ where: { id: teardownId } })) > 0
      return err(refusal(isThere ? 'notAllowed' : 'notFound'))
    }),
})

/** What the ledger keeps of a board that is taken in: all that was said of it, and a check that was made already. */
function takenIn(
  boardId: string,
  memberId: string,
  from: { readonly teardownId: string; readonly name: string },
  board: Omit<BoardFacts, 'isFinishNew'> & { metal: Metal; lead: Lead },
): StockEntry[] {
  const who = { boardId, memberId }
  const { metal } = board
  const taken = {
    ...who,
    kind: 'takenIn',
    detail: { teardownId: from.teardownId, teardown: from.name, board },
  } as const
  if (metal === 'unchecked') return [taken]
  return [taken, { ...who, kind: 'gate', detail: { gate: 'metal', was: 'unchecked', is: metal } }]
}

/** Logs 1 to 20 alike boards. They belong to the one who began the teardown. @returns their numbers, to be chalked on */
export const logBoards = action({
  audience: 'member',
  input: boardFacts.extend({
    teardownId: id,
    metal: z.enum(METALS, 'Say whether it was checked for metal.').default('unchecked'),
    alike: z
      .int('Say how many, as a whole number.')
      .min(1, 'Log at least one board.')
      .max(MOST_ALIKE, `Log at most ${MOST_ALIKE} alike boards at a time.`)
      .default(1),
    units: unitsInput,
  }),
  run: (actor, { teardownId, alike, units, isFinishNew, ...facts }) =>
    transact(async (tx) => {
      const from = await ownTeardown(tx, actor, teardownId)
      if (!from.ok) return from
      const wrong = measuresRefusal(facts, units)
      if (wrong) return err(wrong)
      const data = {
        ...facts,
        teardownId,
        ownerId: from.value.memberId,
        lead: leadWhenTakenIn(facts.finish, isFinishNew),
      }
      const boards = await tx.board.createManyAndReturn({
        data: Array.from({ length: alike }, () => data),
        select: { id: true, number: true },
      })
      boards.sort((a, b) => a.number - b.number)
      await writeLedger(
        tx,
        boards.flatMap((b) => takenIn(b.id, actor.memberId, { teardownId, name: from.value.name }, data)),
      )
      await announce(tx, 'pool')
      await announce(tx, `teardown:${teardownId}`)
      return ok({ boards })
    }),
})
