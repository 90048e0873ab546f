/**
 * Several builds planned on one pool. Any member may ask this for a build of their own together with any open builds
 * of the shop: those of others are only read, as every member may read them. Nothing is held or changed by it; each
 * maker holds boards for their own build (lib/data/holds.ts). Worked out by the queue like any other plan.
 * Rules: lib/shop/plan-together.ts. Tests: tests/data/plans-together.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok, type Result } from '#lib/core/units/result'
import type { PlanProgress } from '#lib/shop/plan-result'
import {
  type OneBuild,
  PRIORITIES,
  type Priority,
  type TogetherInput,
  type TogetherResult,
  togetherInput,
} from '#lib/shop/plan-together'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { insertPlan, MAX_SECONDS, PLAN_CLASHES } from './internal/insert-plan'
import { type PlanSource, planSource } from './internal/plan-source'
import { type Transaction, transact } from './transaction'

const MOST_BUILDS = 10

export interface BuildToJoin {
  readonly id: string
  readonly name: string
  readonly makerName: string
  readonly isMine: boolean
}

/** Open builds of the shop with a design, other than this one, my own first. */
export const candidates = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }): Promise<Result<BuildToJoin[], Refusal>> => {
    const rows = await database().build.findMany({
      where: {
        id: { not: buildId },
        finishedAt: null,
        abandonedAt: null,
        variants: { some: { chosen: true } },
      },
      select: { id: true, name: true, memberId: true, member: { select: { name: true } } },
      orderBy: [{ updatedAt: 'desc' }, { id: 'asc' }],
      take: 100,
    })
    const builds = rows.map(({ member, memberId, ...row }) => ({
      ...row,
      makerName: member.name,
      isMine: memberId === actor.memberId,
    }))
    return ok(builds.sort((a, b) => Number(b.isMine) - Number(a.isMine)))
  },
})

const priority = z.enum(PRIORITIES, 'Say which build comes first.')

interface Wanted {
  readonly buildId: string
  readonly priority: Priority
}

/** One build as it stands, on the boards that its maker may use. */
async function oneBuild(
  tx: Transaction,
  { buildId, priority: rank }: Wanted,
): Promise<Result<{ one: OneBuild; source: PlanSource }, Refusal>> {
  const build = await tx.build.findFirst({
    where: { id: buildId, finishedAt: null, abandonedAt: null },
    select: { name: true, memberId: true, member: { select: { name: true } } },
  })
  if (!build) return err(refusal('buildClosed'))
  const source = await planSource(tx, buildId, build.memberId)
  if (!source.ok) return source
  const input = source.value.question(source.value.partsMade)
  const { name, memberId: makerId, member } = build
  return ok({
    source: source.value,
    one: {
      build: { buildId, name, makerId, makerName: member.name, priority: rank },
      input,
      boards: source.value.boards,
    },
  })
}

/** Asks for a plan of a build of one's own together with others. */
export const ask = action({
  audience: 'member',
  input: z.object({
    buildId: id,
    priority: priority.default('even'),
    others: z
      .array(z.object({ buildId: id, priority: priority.default('even') }))
      .min(1, 'Choose at least one other build.')
      .max(MOST_BUILDS - 1, `At most ${MOST_BUILDS} builds together.`),
    seconds: z
      .int('Say the time in whole seconds.')
      .min(1, 'Give it at least a second.')
      .max(MAX_SECONDS, `Give it at most ${MAX_SECONDS} seconds.`),
  }),
  run: async (actor, { buildId, priority: rank, others, seconds }) => {
    const mine = await database().build.count({ where: { id: buildId, memberId: actor.memberId } })
    if (mine === 0) return err(refusal('notAllowed'))
    const wanted = [
      { buildId, priority: rank },
      ...new Map(others.filter((o) => o.buildId !== buildId).map((o) => [o.buildId, o])).values(),
    ]
    if (wanted.length < 2)
      return err(refusal('badInput', { fields: { others: 'Choose at least one other build.' } }))
    const read = await transact(async (tx) => {
      const found: { one: OneBuild; source: PlanSource }[] = []
      for (const each of wanted) {
        const build = await oneBuild(tx, each)
        if (!build.ok) return build
        found.push(build.value)
      }
      return ok(found)
    })
    if (!read.ok) return read
    const input = togetherInput(read.value.map((f) => f.one))
    if (input.needs.length === 0) return err(refusal('nothingToCut'))
    const { source } = read.value[0]
    return transact(
      (tx) => insertPlan(tx, actor, { buildId, seconds, source, input, isTogether: true }),
      PLAN_CLASHES,
    )
  },
})

export interface TogetherView {
  readonly id: string
  readonly status: 'queued' | 'running' | 'done' | 'failed' | 'cancelled' | 'interrupted'
  readonly isCancelAsked: boolean
  readonly seconds: number
  readonly createdAt: Date
  readonly failure: string | null
  readonly progress: PlanProgress | null
  readonly input: TogetherInput
  readonly result: TogetherResult | null
  /** How the boards of the plan stand now: the build that holds them, and the version to hold. */
  readonly boards: readonly {
    readonly boardId: string
    readonly version: number
    readonly isInPool: boolean
    readonly heldByBuildId: string | null
  }[]
}

async function boardStates(
  input: TogetherInput,
  result: TogetherResult | null,
): Promise<TogetherView['boards']> {
  const ids = result ? result.plan.layouts.map((l) => input.pool.boardIds[l.board]) : []
  const rows = await database().board.findMany({
    where: { id: { in: ids } },
    select: {
      id: true,
      version: true,
      status: true,
      holds: {
        where: { status: { in: ['live', 'requested'] }, expiresAt: { gt: new Date() } },
        select: { buildId: true, status: true },
      },
    },
  })
  return rows.map(({ id: boardId, version, status, holds }) => ({
    boardId,
    version,
    isInPool: status === 'inPool',
    heldByBuildId: (holds.find((h) => h.status === 'live') ?? holds[0])?.buildId ?? null,
  }))
}

/** The newest plan of several builds that was asked for from this one; null before there is one. */
export const latest = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }): Promise<Result<TogetherView | null, Refusal>> => {
    const plan = await database().cutPlan.findFirst({
      where: { buildId, isTogether: true },
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      select: {
        id: true,
        status: true,
        cancelAskedAt: true,
        seconds: true,
        createdAt: true,
        failure: true,
        progress: true,
        input: true,
        result: true,
      },
    })
    if (!plan) return ok(null)
    const input = plan.input as unknown as TogetherInput
    const result = plan.result as unknown as TogetherResult | null
    const { cancelAskedAt, progress, ...rest } = plan
    return ok({
      ...rest,
      isCancelAsked: cancelAskedAt !== null,
      progress: progress as unknown as PlanProgress | null,
      input,
      result,
      boards: await boardStates(input, result),
    })
  },
})
