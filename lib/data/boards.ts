/**
 * One board: its facts, changing them, the marks on its faces, its safety gates, leaving the pool and coming back.
 * Every change names the version that was seen and is in the ledger with what was before.
 * Rules: lib/shop/boards.ts, lib/shop/sharing.ts, lib/core/board/validate.ts. Tests: tests/data/boards.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { BOARD_LIMITS, validateBoard } from '#lib/core/board/validate'
import { err, ok } from '#lib/core/units/result'
import {
  changesBetween,
  LEADS,
  leadAfterFinish,
  leadSteps,
  METALS,
  marksBetween,
  marksOff,
  metalSteps,
} from '#lib/shop/boards'
import { heldSentence } from '#lib/shop/holds'
import { refusal } from '#lib/shop/refusal'
import { mayChange } from '#lib/shop/sharing'
import { action, id, query } from './action'
import { database } from './client'
import { BOARD_BRIEF, boardBrief } from './internal/board-brief'
import {
  type BoardNow,
  boardUnderLock,
  liveHoldOn,
  ownBoardUnderLock,
  tellOfBoard,
  writeBoard,
} from './internal/board-change'
import {
  boardFacts,
  complaintsRefusal,
  draftOf,
  type Mark,
  markInput,
  measuresRefusal,
  unitsInput,
} from './internal/board-input'
import { sayInstant, shopRow } from './internal/shop-row'
import { type Transaction, transact } from './transaction'

const seenVersion = z.int().min(1)
const MARKS_OFF = { defect_on_board: refusal('changedMeanwhile') }

/** All of a board that its page shows. */
export const board = query({
  audience: 'member',
  shared: true,
  input: z.object({ boardId: id }),
  run: async (actor, { boardId }) => {
    const row = await database().board.findUnique({
      where: { id: boardId },
      select: {
        ...BOARD_BRIEF,
        cupUm: true,
        bowUm: true,
        crookUm: true,
        twistUm: true,
        notes: true,
        createdAt: true,
        teardown: { select: { id: true, name: true } },
        offcuts: {
          select: { id: true, number: true, status: true, lengthUm: true, widthUm: true, thicknessUm: true },
          orderBy: { number: 'asc' },
        },
        cut: {
          select: {
            cutAt: true,
            buildId: true,
            build: { select: { name: true } },
            member: { select: { name: true } },
          },
        },
        _count: {
          select: { holds: { where: { status: 'requested', expiresAt: { gt: new Date() } } } },
        },
      },
    })
    if (!row) return err(refusal('notFound'))
    const { teardown, offcuts, cut, _count, cupUm, bowUm, crookUm, twistUm, notes, createdAt, ...brief } = row
    return ok({
      ...boardBrief(brief, new Date()),
      warp: { cupUm, bowUm, crookUm, twistUm },
      notes,
      createdAt,
      teardown,
      parents: await parentsOf(boardId),
      offcuts,
      cut: cut && {
        at: cut.cutAt,
        buildId: cut.buildId,
        buildName: cut.build.name,
        memberName: cut.member.name,
      },
      requests: _count.holds,
      mayChange: mayChange(actor, row.ownerId),
    })
  },
})

/** The boards that this one was cut from, the first one first. */
const parentsOf = (boardId: string) => database().$queryRaw<{ id: string; number: number }[]>`
  with recursive line("id", "number", "parentId", "depth") as (
    select "id", "number", "parentId", 0 from "Board" where "id" = ${boardId}::uuid
    union all
    select b."id", b."number", b."parentId", line."depth" + 1
    from line join "Board" b on b."id" = line."parentId" where line."depth" < 50
  )
  select "id", "number" from line where "depth" > 0 order by "depth" desc`

/** By whom and until when; for a board that may not change its size or leave the pool just now. */
async function heldBy(tx: Transaction, now: BoardNow) {
  const live = liveHoldOn(now)
  if (!live) return null
  const { timeZone } = await shopRow(tx)
  const held = {
    buildId: live.buildId,
    buildName: live.build.name,
    memberName: live.member.name,
    expiresAt: live.expiresAt,
  }
  return heldSentence(now.number, held, sayInstant(timeZone))
}

const SIZE = ['lengthUm', 'widthUm', 'thicknessUm', 'species'] as const

/**
 * Measures, warp, species, finish, terms, place, notes. Size and species of a board that is held stay until it is let
 * go: a plan stands on them.
 */
export const changeBoard = action({
  audience: 'member',
  input: boardFacts.extend({ boardId: id, version: seenVersion, units: unitsInput }),
  run: (actor, { boardId, version, units, isFinishNew, ...facts }) =>
    transact(async (tx) => {
      const seen = await ownBoardUnderLock(tx, actor, { boardId, version })
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      const wrong = measuresRefusal(facts, units) ?? complaintsRefusal(marksOff(now.defects, facts))
      if (wrong) return err(wrong)
      const after = { ...facts, lead: leadAfterFinish(now, facts.finish, isFinishNew) }
      const fields = changesBetween(pick(now, after), after)
      if (Object.keys(fields).length === 0) return ok({ version })
      const held = SIZE.some((name) => name in fields) ? await heldBy(tx, now) : null
      if (held)
        return err(refusal('boardsHeld', { about: `${held} Its size and species stay until it is let go.` }))
      const written = await writeBoard(tx, actor, now, after, 'owner')
      if (!written.ok) return written
      await tellOfBoard(tx, actor, now, [{ kind: 'changed', detail: { fields } }])
      return ok({ version: version + 1 })
    }, MARKS_OFF),
})

/** The same fields of the board as it stands. */
const pick = <T extends object>(now: BoardNow, like: T) =>
  Object.fromEntries(Object.keys(like).map((name) => [name, now[name as keyof BoardNow]])) as {
    [K in keyof T]: T[K]
  }

/**
 * The marks on the faces, all of them at once: what is not named is gone. A new mark of metal shuts the metal gate.
 */
export const setDefects = action({
  audience: 'member',
  input: z.object({
    boardId: id,
    version: seenVersion,
    units: unitsInput,
    defects: z.array(markInput).max(BOARD_LIMITS.defects, `Mark at most ${BOARD_LIMITS.defects} defects.`),
  }),
  run: (actor, { boardId, version, units, defects }) =>
    transact(async (tx) => {
      const seen = await ownBoardUnderLock(tx, actor, { boardId, version })
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      const complaints = validateBoard(draftOf(now, withIds(defects)), { unit: units })
      const wrong = complaintsRefusal(complaints.filter((c) => c.field.startsWith('defects')))
      if (wrong) return err(wrong)
      const { gone, come } = marksBetween<Mark>(now.defects.map(markOnly), defects)
      if (gone.length + come.length === 0) return ok({ version, metal: now.metal })
      const metal = come.some((d) => d.kind === 'metal') ? ('found' as const) : now.metal
      const written = await writeBoard(tx, actor, now, { metal }, 'owner')
      if (!written.ok) return written
      await replaceMarks(tx, boardId, defects)
      await tellOfBoard(tx, actor, now, [
        { kind: 'changed', detail: { marks: { gone, come } } },
        ...(metal === now.metal
          ? []
          : [
              {
                kind: 'gate' as const,
                detail: { gate: 'metal', was: now.metal, is: metal, note: 'marked on a face' },
              },
            ]),
      ])
      return ok({ version: version + 1, metal })
    }, MARKS_OFF),
})

const withIds = (marks: readonly Mark[]) => marks.map((mark, i) => ({ ...mark, id: String(i) }))
const markOnly = ({ kind, face, xUm, yUm, widthUm, heightUm }: Mark): Mark => ({
  kind,
  face,
  xUm,
  yUm,
  widthUm,
  heightUm,
})

async function replaceMarks(tx: Transaction, boardId: string, marks: readonly Mark[]): Promise<void> {
  await tx.defect.deleteMany({ where: { boardId } })
  await tx.defect.createMany({ data: marks.map((mark) => ({ ...mark, boardId })) })
}

const note = z.string().trim().max(300, 'Keep the note to 300 characters.').default('')

/**
 * What a check for metal found. Any member may have looked, at any board of the pool: the ledger says who.
 * A board is not cleared while metal is marked on it, unless its metal is out and the marks become nail holes.
 */
export const recordMetal = action({
  audience: 'member',
  shared: true,
  input: z.object({
    boardId: id,
    was: z.enum(METALS),
    is: z.enum(METALS),
    metalMarksAre: z.enum(['metal', 'nailHole']).default('metal'),
    note,
  }),
  run: (actor, { boardId, was, is, metalMarksAre, note }) =>
    transact(async (tx) => {
      const seen = await boardUnderLock(tx, boardId)
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      if (now.metal !== was) return err(refusal('changedMeanwhile'))
      if (!metalSteps(was).includes(is)) return err(refusal('alreadyDecided'))
      const marks = now.defects.filter((d) => d.kind === 'metal')
      if (is === 'cleared' && marks.length > 0 && metalMarksAre === 'metal')
        return err(refusal('boardGated', { about: metalMarkedSentence(marks.length) }))
      const written = await writeBoard(tx, actor, now, { metal: is }, 'anyMember')
      if (!written.ok) return written
      const isTurned = is === 'cleared' && marks.length > 0
      if (isTurned)
        await tx.defect.updateMany({ where: { boardId, kind: 'metal' }, data: { kind: 'nailHole' } })
      const gone = marks.map(markOnly)
      await tellOfBoard(tx, actor, now, [
        { kind: 'gate', detail: { gate: 'metal', was, is, note } },
        ...(isTurned
          ? [
              {
                kind: 'changed' as const,
                detail: { marks: { gone, come: gone.map((m) => ({ ...m, kind: 'nailHole' })) } },
              },
            ]
          : []),
      ])
      return ok({ metal: is })
    }),
})

const metalMarkedSentence = (count: number) =>
  `Metal is marked on it in ${count === 1 ? 'one place' : `${count} places`}: take it out, then say that the ${
    count === 1 ? 'mark is a nail hole' : 'marks are nail holes'
  } now.`

/** What a lead test of the finish showed. Any member may have tested: the ledger says who. */
export const recordLead = action({
  audience: 'member',
  shared: true,
  input: z.object({ boardId: id, was: z.enum(LEADS), is: z.enum(LEADS), note }),
  run: (actor, { boardId, was, is, note }) =>
    transact(async (tx) => {
      const seen = await boardUnderLock(tx, boardId)
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      if (now.lead !== was) return err(refusal('changedMeanwhile'))
      if (!leadSteps(was, now.finish).includes(is)) return err(refusal('alreadyDecided'))
      const written = await writeBoard(tx, actor, now, { lead: is }, 'anyMember')
      if (!written.ok) return written
      await tellOfBoard(tx, actor, now, [{ kind: 'gate', detail: { gate: 'lead', was, is, note } }])
      return ok({ lead: is })
    }),
})

/** Takes a check back: the board has to be checked again. Owner or admin. */
export const reopenGate = action({
  audience: 'member',
  input: z.object({ boardId: id, version: seenVersion, gate: z.enum(['metal', 'lead']), note }),
  run: (actor, { boardId, version, gate, note }) =>
    transact(async (tx) => {
      const seen = await ownBoardUnderLock(tx, actor, { boardId, version })
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      const is = gate === 'metal' ? ('unchecked' as const) : ('untested' as const)
      if (now[gate] === is) return err(refusal('alreadyDecided'))
      const written = await writeBoard(tx, actor, now, { [gate]: is }, 'owner')
      if (!written.ok) return written
      await tellOfBoard(tx, actor, now, [{ kind: 'gate', detail: { gate, was: now[gate], is, note } }])
      return ok(null)
    }),
})

/** Takes a board out of the pool: logged twice, thrown away, used elsewhere. Not while it is held. */
export const removeBoard = action({
  audience: 'member',
  input: z.object({
    boardId: id,
    version: seenVersion,
    reason: z
      .string()
      .trim()
      .min(1, 'Say why, in a word or two: it stays in its history.')
      .max(300, 'Keep the reason to 300 characters.'),
  }),
  run: (actor, { boardId, version, reason }) =>
    transact(async (tx) => {
      const seen = await ownBoardUnderLock(tx, actor, { boardId, version })
      if (!seen.ok) return seen
      const now = seen.value
      if (now.status !== 'inPool') return err(refusal('boardNotInPool'))
      const held = await heldBy(tx, now)
      if (held) return err(refusal('boardsHeld', { about: held }))
      const written = await writeBoard(tx, actor, now, { status: 'removed' }, 'owner')
      if (!written.ok) return written
      await endRequests(tx, actor.memberId, boardId)
      await tellOfBoard(tx, actor, now, [{ kind: 'removed', detail: { reason } }])
      return ok(null)
    }),
})

/** Requests for a board that is gone are answered: no. */
async function endRequests(tx: Transaction, actorId: string, boardId: string): Promise<void> {
  const at = new Date()
  const ended = await tx.hold.updateManyAndReturn({
    where: { boardId, status: 'requested' },
    data: { status: 'declined', decidedById: actorId, decidedAt: at, endedAt: at },
    select: { id: true, buildId: true },
  })
  for (const h of ended)
    await tx.stockEvent.create({
      data: { boardId, memberId: actorId, buildId: h.buildId, kind: 'declined', detail: { holdId: h.id } },
    })
}

/** Puts a removed board back. A board that was cut stays cut. */
export const putBoardBack = action({
  audience: 'member',
  input: z.object({ boardId: id, version: seenVersion }),
  run: (actor, { boardId, version }) =>
    transact(async (tx) => {
      const seen = await ownBoardUnderLock(tx, actor, { boardId, version })
      if (!seen.ok) return seen
      if (seen.value.status === 'cut') return err(refusal('alreadyCut'))
      if (seen.value.status !== 'removed') return err(refusal('alreadyDecided'))
      const written = await writeBoard(tx, actor, seen.value, { status: 'inPool' }, 'owner')
      if (!written.ok) return written
      await tellOfBoard(tx, actor, seen.value, [{ kind: 'putBack', detail: {} }])
      return ok(null)
    }),
})
