/** What is drying: glue, filler, coats of a build. Its maker and admins note and clear it; all may see it. Tests: tests/data/waits.test.ts */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import {
  MAX_LABEL_LENGTH,
  MAX_WAIT_HOURS,
  MIN_WAIT_HOURS,
  readyAt,
  WAIT_KINDS,
  WAIT_PRACTICE,
  waitState,
} from '#lib/shop/waits'
import { action, id, query } from './action'
import { database } from './client'
import { changeableOpenBuild } from './internal/changeable-build'
import { announce, type Transaction, transact } from './transaction'

const MINUTE_MS = 60_000
const MOST_OPEN = 100
const tooFew = 'At least a quarter of an hour.'
const tooMany = `At most ${MAX_WAIT_HOURS / 24} days: ${MAX_WAIT_HOURS} hours.`
const hours = z.number('How many hours?').min(MIN_WAIT_HOURS, tooFew).max(MAX_WAIT_HOURS, tooMany)
const agoMinutes = z
  .int('Whole minutes.')
  .min(0, 'It cannot begin later than now.')
  .max(7 * 24 * 60, 'At most a week ago.')

async function tellOf(tx: Transaction, buildId: string, makerId: string): Promise<void> {
  for (const topic of ['builds', `build:${buildId}`, `member:${makerId}`]) await announce(tx, topic)
}

export const start = action({
  audience: 'member',
  input: z.object({
    buildId: id,
    kind: z.enum(WAIT_KINDS, 'Say what it is.'),
    /** Which glue-up, which coat; left out: what it is. */
    label: z.string().trim().max(MAX_LABEL_LENGTH, `Keep it to ${MAX_LABEL_LENGTH} characters.`).default(''),
    hours,
    agoMinutes: agoMinutes.default(0),
  }),
  run: (actor, input) =>
    transact(async (tx) => {
      const { buildId, kind } = input
      const build = await changeableOpenBuild(tx, actor, buildId)
      if (!build.ok) return build
      const open = await tx.wait.count({ where: { buildId, clearedAt: null } })
      if (open >= MOST_OPEN) return err(refusal('badInput', { about: 'Clear what is dry first.' }))
      const startedAt = new Date(Date.now() - input.agoMinutes * MINUTE_MS)
      const wait = await tx.wait.create({
        data: {
          buildId,
          kind,
          memberId: actor.memberId,
          label: input.label || WAIT_PRACTICE[kind].label,
          startedAt,
          readyAt: readyAt(startedAt, input.hours),
        },
        select: { id: true, readyAt: true },
      })
      await tellOf(tx, buildId, build.value.memberId)
      return ok({ waitId: wait.id, readyAt: wait.readyAt })
    }),
})

async function openWait(tx: Transaction, waitId: string) {
  return tx.wait.findUnique({ where: { id: waitId }, select: { buildId: true, readyAt: true } })
}

/** Someone has looked: it is dry, or it does not matter any more. */
export const clear = action({
  audience: 'member',
  input: z.object({ waitId: id }),
  run: (actor, { waitId }) =>
    transact(async (tx) => {
      const wait = await openWait(tx, waitId)
      if (!wait) return err(refusal('notFound'))
      const build = await changeableOpenBuild(tx, actor, wait.buildId)
      if (!build.ok) return build
      const cleared = await tx.wait.updateMany({
        where: { id: waitId, clearedAt: null },
        data: { clearedAt: new Date() },
      })
      if (cleared.count === 0) return err(refusal('alreadyDecided'))
      await tellOf(tx, wait.buildId, build.value.memberId)
      return ok(null)
    }),
})

/** Still tacky: more hours, from now or from when it was to be ready, whichever is later. */
export const lengthen = action({
  audience: 'member',
  input: z.object({ waitId: id, hours }),
  run: (actor, input) =>
    transact(async (tx) => {
      const wait = await openWait(tx, input.waitId)
      if (!wait) return err(refusal('notFound'))
      const build = await changeableOpenBuild(tx, actor, wait.buildId)
      if (!build.ok) return build
      const from = new Date(Math.max(Date.now(), wait.readyAt.getTime()))
      const longer = await tx.wait.updateMany({
        where: { id: input.waitId, clearedAt: null, readyAt: wait.readyAt },
        data: { readyAt: readyAt(from, input.hours) },
      })
      if (longer.count === 0) return err(refusal('changedMeanwhile'))
      await tellOf(tx, wait.buildId, build.value.memberId)
      return ok({ readyAt: readyAt(from, input.hours) })
    }),
})

/** What is not cleared yet, the first to be ready first. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }) => {
    const now = new Date()
    const rows = await database().wait.findMany({
      where: { buildId, clearedAt: null },
      select: {
        id: true,
        kind: true,
        label: true,
        startedAt: true,
        readyAt: true,
        clearedAt: true,
        member: { select: { name: true } },
      },
      orderBy: [{ readyAt: 'asc' }, { id: 'asc' }],
      take: MOST_OPEN,
    })
    return ok(
      rows.map(({ member, clearedAt, ...w }) => ({
        ...w,
        memberName: member.name,
        state: waitState({ ...w, clearedAt }, now),
      })),
    )
  },
})
