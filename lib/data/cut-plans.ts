/**
 * Cut plans: asked for by the maker of a build, worked out by the queue worker (lib/engine/queue-worker.ts), read by
 * every member. Nothing is solved here: a plan is queued together with its job in one transaction.
 * Rules: lib/shop/plan-input.ts. Life of a plan: internal/plan-life.ts. Tests: tests/data/cut-plans.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { changesSince, orderOf, type PlanChanges, type PlanInput } from '#lib/shop/plan-input'
import type { PlanProgress, PlanResult } from '#lib/shop/plan-result'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { mayBeGluedUp } from '#lib/shop/staves'
import { action, id, query } from './action'
import { database } from './client'
import { Prisma } from './generated/client'
import { insertPlan, MAX_SECONDS, PLAN_CLASHES } from './internal/insert-plan'
import { ownOpenBuild } from './internal/own-build'
import { type PlanSource, planSource } from './internal/plan-source'
import { announce, transact } from './transaction'

/** Reads in one transaction, so that boards, holds and parts made are of one moment. */
const readSource = (actor: Actor, buildId: string) =>
  transact(async (tx): Promise<Result<PlanSource, Refusal>> => {
    const build = await ownOpenBuild(tx, actor, buildId)
    return build.ok ? planSource(tx, buildId, actor.memberId) : build
  })

/** Asks for a cut plan of the build's chosen design, for the parts that are not made yet. */
export const ask = action({
  audience: 'member',
  input: z.object({
    buildId: id,
    seconds: z
      .int('Say the time in whole seconds.')
      .min(1, 'Give it at least a second.')
      .max(MAX_SECONDS, `Give it at most ${MAX_SECONDS} seconds.`),
    /** Kinds of parts that may be glued up from staves. */
    gluedUp: z.array(z.string().max(200)).max(100).optional(),
    /** Absent: cuts in any order. */
    order: z
      .object({
        firstCut: z.enum(['crosscut', 'rip']),
        stages: z.union([z.literal(2), z.literal(3)]),
      })
      .optional(),
  }),
  run: async (actor, { buildId, seconds, gluedUp, order }) => {
    const source = await readSource(actor, buildId)
    if (!source.ok) return source
    const input = source.value.question(source.value.partsMade, gluedUp, order)
    if (input.needs.length === 0) return err(refusal('nothingToCut'))
    return transact(
      (tx) => insertPlan(tx, actor, { buildId, seconds, source: source.value, input }),
      PLAN_CLASHES,
    )
  },
})

/** A kind of part that is wide enough to be glued up from staves. */
export interface GlueableNeed {
  readonly id: string
  readonly name: string
  readonly count: number
  readonly widthUm: number
  /** As it was asked for last; before the first plan, as the design says. */
  readonly isChosen: boolean
}

/** What may be glued up of what is still to be made; none where the design cannot be built just now. */
export const glueable = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }): Promise<Result<GlueableNeed[], Refusal>> => {
    const build = await database().build.findUnique({ where: { id: buildId }, select: { memberId: true } })
    if (!build) return err(refusal('notFound'))
    const source = await transact((tx) => planSource(tx, buildId, build.memberId))
    if (!source.ok) return ok([])
    const last = await newestPlan(buildId)
    const chosen = last && new Set((last.input as unknown as PlanInput).gluedUp ?? [])
    const { model, partsMade, question } = source.value
    const suggested = new Set(model.parts.filter((p) => p.mayBeGluedUp).map((p) => p.id))
    const needs = question(partsMade).needs.filter((n) => n.stavesMade === undefined && mayBeGluedUp(n))
    return ok(
      needs.map(({ id: needId, name, count, finishedWidthUm, partIds }) => ({
        id: needId,
        name,
        count,
        widthUm: finishedWidthUm,
        isChosen: chosen ? chosen.has(needId) : partIds.every((p) => suggested.has(p)),
      })),
    )
  },
})

/** Stops a plan that is being worked out; the best found so far is kept. */
export const cancel = action({
  audience: 'member',
  input: z.object({ planId: id }),
  run: (actor, { planId }) =>
    transact(async (tx) => {
      const plan = await tx.cutPlan.findUnique({
        where: { id: planId },
        select: { buildId: true, build: { select: { memberId: true } } },
      })
      if (!plan) return err(refusal('notFound'))
      if (plan.build.memberId !== actor.memberId && actor.role !== 'admin') return err(refusal('notAllowed'))
      const now = new Date()
      const waiting = await tx.cutPlan.updateMany({
        where: { id: planId, status: 'queued' },
        data: { status: 'cancelled', cancelAskedAt: now, finishedAt: now },
      })
      const running = await tx.cutPlan.updateMany({
        where: { id: planId, status: 'running' },
        data: { cancelAskedAt: now },
      })
      if (waiting.count + running.count === 0) return err(refusal('alreadyDecided'))
      await announce(tx, `plan:${planId}`)
      await announce(tx, `build:${plan.buildId}`)
      return ok({ status: waiting.count > 0 ? ('cancelled' as const) : ('stopping' as const) })
    }),
})

/** How a board that a plan cuts stands now. */
export interface PlannedBoardState {
  readonly boardId: string
  readonly isInPool: boolean
  readonly isMetalCleared: boolean
  readonly version: number
  readonly hold: {
    readonly id: string
    readonly status: 'live' | 'requested'
    readonly isHere: boolean
    readonly buildName: string
    readonly memberName: string
    readonly expiresAt: Date
  } | null
  readonly cut: { readonly at: Date; readonly memberName: string; readonly planId: string } | null
}

export interface CutPlanView {
  readonly id: string
  readonly buildId: string
  readonly buildName: string
  readonly isMaker: boolean
  readonly makerName: string
  readonly status: 'queued' | 'running' | 'done' | 'failed' | 'cancelled' | 'interrupted'
  readonly isCancelAsked: boolean
  readonly seconds: number
  readonly attempt: number
  readonly failure: string | null
  readonly createdAt: Date
  readonly finishedAt: Date | null
  readonly progress: PlanProgress | null
  readonly input: PlanInput
  readonly result: PlanResult | null
  readonly boards: readonly PlannedBoardState[]
  /** Null where the design of the build cannot be built just now. */
  readonly changes: PlanChanges | null
}

async function boardStates(boardIds: readonly string[], buildId: string): Promise<PlannedBoardState[]> {
  const rows = await database().board.findMany({
    where: { id: { in: [...boardIds] } },
    select: {
      id: true,
      status: true,
      metal: true,
      version: true,
      cut: { select: { cutAt: true, planId: true, member: { select: { name: true } } } },
      holds: {
        where: { status: { in: ['live', 'requested'] }, expiresAt: { gt: new Date() } },
        select: {
          id: true,
          status: true,
          buildId: true,
          expiresAt: true,
          build: { select: { name: true } },
          member: { select: { name: true } },
        },
      },
    },
  })
  return rows.map((row) => {
    const hold =
      row.holds.find((h) => h.status === 'live') ?? row.holds.find((h) => h.buildId === buildId) ?? null
    return {
      boardId: row.id,
      isInPool: row.status === 'inPool',
      isMetalCleared: row.metal === 'cleared',
      version: row.version,
      hold: hold && {
        id: hold.id,
        status: hold.status as 'live' | 'requested',
        isHere: hold.buildId === buildId,
        buildName: hold.build.name,
        memberName: hold.member.name,
        expiresAt: hold.expiresAt,
      },
      cut: row.cut && { at: row.cut.cutAt, memberName: row.cut.member.name, planId: row.cut.planId },
    }
  })
}

/** Ids of the boards that a plan cuts. */
const boardsCutBy = (result: PlanResult | null, input: PlanInput): string[] =>
  result ? result.plan.layouts.map((l) => input.pool.boardIds[l.board]) : []

async function changesOf(
  buildId: string,
  makerId: string,
  input: PlanInput,
  states: readonly PlannedBoardState[],
): Promise<PlanChanges | null> {
  const source = await transact((tx) => planSource(tx, buildId, makerId))
  if (!source.ok) return null
  const waiting = new Set(states.filter((s) => !s.cut).map((s) => s.boardId))
  const again = source.value.question(new Set(input.partsMade), input.gluedUp, orderOf(input.shop))
  return changesSince(input, again, waiting)
}

const isUnfinished = (status: string) => status === 'queued' || status === 'running'

const WITH_BUILD = {
  build: { select: { name: true, memberId: true, member: { select: { name: true } } } },
} as const

const newestPlan = (buildId: string, where: Prisma.CutPlanWhereInput = {}) =>
  database().cutPlan.findFirst({
    where: { ...where, buildId, isTogether: false },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    include: WITH_BUILD,
  })
type PlanRow = NonNullable<Awaited<ReturnType<typeof newestPlan>>>

async function planView(plan: PlanRow, actor: Actor): Promise<CutPlanView> {
  const { buildId } = plan
  const input = plan.input as unknown as PlanInput
  const result = plan.result as unknown as PlanResult | null
  const boards = await boardStates(boardsCutBy(result, input), buildId)
  return {
    id: plan.id,
    buildId,
    buildName: plan.build.name,
    isMaker: plan.build.memberId === actor.memberId,
    makerName: plan.build.member.name,
    status: plan.status,
    isCancelAsked: plan.cancelAskedAt !== null,
    seconds: plan.seconds,
    attempt: plan.attempt,
    failure: plan.failure,
    createdAt: plan.createdAt,
    finishedAt: plan.finishedAt,
    progress: plan.progress as unknown as PlanProgress | null,
    input,
    result,
    boards,
    changes: isUnfinished(plan.status) ? null : await changesOf(buildId, plan.build.memberId, input, boards),
  }
}

const WITH_RESULT = { NOT: { result: { equals: Prisma.AnyNull } } }

export interface LatestPlans {
  readonly newest: CutPlanView
  readonly former: CutPlanView | null
  /** How many plans of the build found something. */
  readonly found: number
}

/**
 * The newest plan of a build, with how its boards stand now; null before the first one is asked for. Where the newest
 * one ended with nothing found, `former` is the newest one that found something.
 */
export const latest = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }): Promise<Result<LatestPlans | null, Refusal>> => {
    const plan = await newestPlan(buildId)
    if (!plan) return ok(null)
    const newest = await planView(plan, actor)
    const found = await database().cutPlan.count({
      where: { buildId, isTogether: false, ...WITH_RESULT },
    })
    if (newest.result) return ok({ newest, former: null, found })
    const former = await newestPlan(buildId, WITH_RESULT)
    return ok({ newest, former: former && (await planView(former, actor)), found })
  },
})

/** A plan of a build that found something, in short. */
export interface PlanInHistory {
  readonly id: string
  readonly createdAt: Date
  readonly status: CutPlanView['status']
  readonly seconds: number
  readonly made: number
  readonly wanted: number
  readonly boards: number
  readonly cost: number
}

const MOST_REMEMBERED = 30

interface HistoryRow extends Omit<PlanInHistory, 'made'> {
  readonly missing: number
}

/** The newest plans of a build that found something, the newest first. */
export const history = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }): Promise<Result<PlanInHistory[], Refusal>> => {
    const rows = await database().$queryRaw<HistoryRow[]>`
      select "id", "createdAt", "status"::text as status, "seconds",
        jsonb_array_length("result" -> 'plan' -> 'layouts')::int as boards,
        ("result" -> 'plan' ->> 'cost')::float8 as cost,
        (select coalesce(sum(("n" ->> 'count')::int), 0)::int
          from jsonb_array_elements("input" -> 'needs') n) as wanted,
        (select coalesce(sum(("s" ->> 'missing')::int), 0)::int
          from jsonb_array_elements("result" -> 'plan' -> 'shortages') s) as missing
      from "CutPlan" where "buildId" = ${buildId}::uuid and not "isTogether" and "result" is not null
        and jsonb_typeof("result") = 'object'
      order by "createdAt" desc, "id" limit ${MOST_REMEMBERED}`
    return ok(rows.map(({ missing, ...row }) => ({ ...row, made: row.wanted - missing })))
  },
})

/** A question and its answer, to be laid beside another one. */
export interface PlanToCompare {
  readonly id: string
  readonly createdAt: Date
  readonly input: PlanInput
  readonly result: PlanResult
}

/** Two plans of one build, in the order in which they were asked for. */
export const pair = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id, planIds: z.tuple([id, id]) }),
  run: async (
    _actor,
    { buildId, planIds },
  ): Promise<Result<readonly [PlanToCompare, PlanToCompare], Refusal>> => {
    const rows = await database().cutPlan.findMany({
      where: { id: { in: planIds }, buildId, isTogether: false, ...WITH_RESULT },
      select: { id: true, createdAt: true, input: true, result: true },
    })
    const found = planIds.flatMap((planId) => rows.find((row) => row.id === planId) ?? [])
    if (found.length < 2) return err(refusal('notFound'))
    const [a, b] = found.map((row) => ({
      ...row,
      input: row.input as unknown as PlanInput,
      result: row.result as unknown as PlanResult,
    }))
    return ok([a, b] as const)
  },
})
