/**
 * The cutting of a board goes into the books, in one transaction: the board leaves the pool, its hold is used, the
 * parts are made, the offcuts come back as boards of the same owner with their parentage, and the ledger tells it all.
 * Rules: lib/shop/cutting.ts. Tests: tests/data/cutting.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { gateRefusals, gateSentence } from '#lib/core/board/gates'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import {
  type CutLayout,
  type CuttingRecord,
  cuttingRecord,
  type NewOffcut,
  type PlannedCutting,
  plannedCutting,
} from '#lib/shop/cutting'
import type { PlanInput, StockBoard } from '#lib/shop/plan-input'
import type { PlanResult } from '#lib/shop/plan-result'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { partOfStave, partsFinished } from '#lib/shop/staves'
import { action, id, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { announceHolds, lapseExpired, lockBoards } from './internal/hold-life'
import { writeLedger } from './internal/ledger'
import { ownOpenBuild } from './internal/own-build'
import { settleParts } from './internal/settle-parts'
import { STOCK_BOARD, stockBoard } from './internal/stock-board'
import { type Transaction, transact } from './transaction'

const MAX_TEXT = 500
const CLASHES = {
  BoardCut_boardId_key: refusal('alreadyCut'),
  part_made_one_that_fits: refusal('planStale', {
    about: 'A part of this board has been cut from another one already.',
  }),
}

const sizeUm = z
  .int('Say the size in numbers.')
  .min(1, 'Say a size above zero.')
  .max(12_000_000, 'No board is so large.')
const text = z.string().trim().max(MAX_TEXT, `At most ${MAX_TEXT} letters.`)

interface Cutting {
  readonly actor: Actor
  readonly buildId: string
  readonly planId: string
  readonly board: StockBoard
  readonly record: CuttingRecord
  /** Of the whole plan, all boards. */
  readonly plannedParts: readonly string[]
  readonly layout: Prisma.InputJsonValue
  readonly place: string
  readonly note: string
  readonly now: Date
}

/** The board under lock, if it is there to be cut. */
async function boardToCut(
  tx: Transaction,
  boardId: string,
  buildId: string,
  now: Date,
): Promise<Result<StockBoard, Refusal>> {
  const [locked] = await lockBoards(tx, [boardId])
  if (!locked) return err(refusal('notFound'))
  await lapseExpired(tx, [boardId], now)
  const row = await tx.board.findUniqueOrThrow({
    where: { id: boardId },
    select: { ...STOCK_BOARD, status: true },
  })
  if (row.status === 'cut') return err(refusal('alreadyCut'))
  if (row.status !== 'inPool') return err(refusal('boardNotInPool'))
  const board = stockBoard(row, now)
  if (board.heldByBuildId !== buildId) return err(refusal('boardNotHeld'))
  const [gate] = gateRefusals(board, 'cut')
  return gate ? err(refusal('boardGated', { about: gateSentence(gate) })) : ok(board)
}

async function takeFromPool(tx: Transaction, c: Cutting): Promise<Result<null, Refusal>> {
  const taken = await tx.board.updateMany({
    where: { id: c.board.id, status: 'inPool', metal: 'cleared', version: c.board.version },
    data: { status: 'cut', version: { increment: 1 } },
  })
  const used = await tx.hold.updateMany({
    where: { boardId: c.board.id, buildId: c.buildId, status: 'live' },
    data: { status: 'used', endedAt: c.now },
  })
  if (taken.count !== 1 || used.count !== 1) return err(refusal('boardsChanged'))
  // Whoever else has asked for it waits no longer.
  const others = await tx.hold.updateManyAndReturn({
    where: { boardId: c.board.id, status: 'requested' },
    data: { status: 'lapsed', endedAt: c.now },
    select: { id: true, boardId: true, buildId: true, memberId: true },
  })
  await writeLedger(
    tx,
    others.map((h) => ({
      boardId: h.boardId,
      buildId: h.buildId,
      kind: 'lapsed' as const,
      detail: { holdId: h.id, why: 'cut' },
    })),
  )
  await announceHolds(
    tx,
    others.map((h) => ({ ...h, memberIds: [h.memberId] })),
  )
  return ok(null)
}

async function writeParts(tx: Transaction, c: Cutting): Promise<void> {
  const { buildId, planId, board } = c
  const cut = await tx.boardCut.create({
    data: {
      boardId: board.id,
      buildId,
      planId,
      memberId: c.actor.memberId,
      layout: c.layout,
      note: c.note,
      cutAt: c.now,
    },
    select: { id: true },
  })
  const before = await tx.partMade.findMany({
    where: { buildId, setAsideAt: null },
    select: { partId: true },
  })
  const finished = partsFinished(
    c.plannedParts,
    c.record.parts.map((p) => p.partId),
    new Set(before.map((p) => p.partId)),
  )
  const whole = (partId: string) => {
    const [stave] = c.record.parts.filter((p) => partOfStave(p.partId) === partId)
    return { ...stave, partId }
  }
  await tx.partMade.createMany({
    data: [...c.record.parts, ...finished.map(whole)].map((p) => ({
      buildId,
      boardCutId: cut.id,
      partId: p.partId,
      lengthUm: p.lengthUm,
      widthUm: p.widthUm,
      thicknessUm: board.thicknessUm,
    })),
  })
}

const UNMAPPED = 'Its damage has not been mapped: look it over before planning on it.'

async function writeOffcut(tx: Transaction, c: Cutting, offcut: NewOffcut) {
  const { board } = c
  const { ownerId, thicknessUm, species, terms, finish, metal, lead, treated } = board
  return tx.board.create({
    data: {
      ...{ ownerId, thicknessUm, species, terms, finish, metal, lead, treated },
      parentId: board.id,
      lengthUm: offcut.lengthUm,
      widthUm: offcut.widthUm,
      ...offcut.warp,
      place: c.place || board.place,
      notes: offcut.from ? '' : UNMAPPED,
      defects: { create: [...offcut.defects] },
    },
    select: { id: true, number: true, lengthUm: true, widthUm: true },
  })
}
type OffcutRow = Awaited<ReturnType<typeof writeOffcut>>

async function tell(tx: Transaction, c: Cutting, offcuts: readonly OffcutRow[]): Promise<void> {
  const { board, buildId, actor } = c
  const by = { memberId: actor.memberId, buildId }
  const parts = c.record.parts.map((p) => p.partId)
  await writeLedger(tx, [
    {
      ...by,
      boardId: board.id,
      kind: 'cut',
      detail: { planId: c.planId, parts, offcuts: offcuts.map((o) => o.number) },
    },
    ...offcuts.map(({ id: boardId, lengthUm, widthUm }) => ({
      ...by,
      boardId,
      kind: 'offcut' as const,
      detail: { parentId: board.id, parentNumber: board.number, lengthUm, widthUm },
    })),
  ])
  const memberIds = [board.ownerId]
  await announceHolds(tx, [
    { boardId: board.id, buildId, memberIds },
    ...offcuts.map((o) => ({ boardId: o.id, buildId, memberIds })),
  ])
}

/** What came out of each blank leaf, in cutting order; null: it failed. */
function cutLeaves(planned: PlannedCutting, record: CuttingRecord): (string | null)[] {
  const came = new Set(record.parts.map((p) => p.partId))
  return planned.parts.map((p) => (came.has(p.partId) ? p.partId : null))
}

const isUnfinished = (status: string) => status === 'queued' || status === 'running'

/** The plan's layout of the board, its tree as it stands in the books. */
async function plannedLayout(tx: Transaction, planId: string, boardId: string) {
  const plan = await tx.cutPlan.findUnique({
    where: { id: planId },
    select: { buildId: true, status: true, isTogether: true, input: true, result: true },
  })
  // Parts are recorded under their own build's plan.
  if (!plan || plan.isTogether) return err(refusal('notFound'))
  if (isUnfinished(plan.status)) return err(refusal('planBusy'))
  const input = plan.input as unknown as PlanInput
  const result = plan.result as unknown as PlanResult | null
  const planned = result && plannedCutting(input, result, boardId)
  if (!result || !planned) return err(refusal('notFound'))
  const layout = result.plan.layouts.find((l) => input.pool.boardIds[l.board] === boardId)!
  return ok({ planned, tree: layout.tree, plannedParts: result.partIds.flat() })
}

/** Records that a board has been cut, as planned unless said otherwise. A second click is told alreadyCut. */
export const recordCut = action({
  audience: 'member',
  input: z.object({
    planId: id,
    boardId: id,
    /** Parts that came out; absent: all. */
    made: z.array(z.string().max(100)).max(1000).optional(),
    /** Rests that were kept; absent: as planned. */
    offcuts: z
      .array(z.object({ planned: z.int().min(0).max(1000).nullable(), lengthUm: sizeUm, widthUm: sizeUm }))
      .max(100, 'At most 100 offcuts of one board.')
      .optional(),
    place: text.default(''),
    note: text.default(''),
  }),
  run: (actor, { planId, boardId, made, offcuts, place, note }) =>
    transact(async (tx) => {
      const plan = await tx.cutPlan.findUnique({ where: { id: planId }, select: { buildId: true } })
      if (!plan) return err(refusal('notFound'))
      const build = await ownOpenBuild(tx, actor, plan.buildId)
      if (!build.ok) return build
      const layout = await plannedLayout(tx, planId, boardId)
      if (!layout.ok) return layout
      const now = new Date()
      const board = await boardToCut(tx, boardId, plan.buildId, now)
      if (!board.ok) return board
      const { planned, tree, plannedParts } = layout.value
      const record = cuttingRecord(board.value, planned, { made, offcuts })
      if (!record.ok) return err(refusal('badInput', { fields: record.error }))
      const cutting: Cutting = {
        ...{
          actor,
          buildId: plan.buildId,
          planId,
          board: board.value,
          record: record.value,
          plannedParts,
          place,
          note,
          now,
        },
        layout: {
          tree,
          partIds: cutLeaves(planned, record.value),
          offcuts: record.value.offcuts,
        } satisfies CutLayout as unknown as Prisma.InputJsonValue,
      }
      const taken = await takeFromPool(tx, cutting)
      if (!taken.ok) return taken
      await writeParts(tx, cutting)
      // The numbers may have changed since the plan: what does not fit them is not taken for what does.
      const { setAside } = await settleParts(tx, plan.buildId, now)
      const rows: OffcutRow[] = []
      for (const offcut of record.value.offcuts) rows.push(await writeOffcut(tx, cutting, offcut))
      await tell(tx, cutting, rows)
      return ok({
        parts: record.value.parts.length,
        setAside,
        offcuts: rows.map(({ id, number }) => ({ id, number })),
      })
    }, CLASHES),
})

/** What has been cut for a build so far, the newest first. */
export const cutsOfBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }) => {
    const rows = await database().boardCut.findMany({
      where: { buildId },
      orderBy: { cutAt: 'desc' },
      select: {
        id: true,
        planId: true,
        cutAt: true,
        note: true,
        member: { select: { name: true } },
        board: { select: { id: true, number: true, offcuts: { select: { id: true, number: true } } } },
        parts: { select: { partId: true, setAsideAt: true } },
      },
    })
    return ok(
      rows.map(({ member, board, parts, ...cut }) => ({
        ...cut,
        memberName: member.name,
        boardId: board.id,
        boardNumber: board.number,
        offcuts: board.offcuts,
        partIds: parts.map((p) => p.partId),
        setAside: parts.filter((p) => p.setAsideAt !== null).length,
      })),
    )
  },
})
