/**
 * The life of a cut plan: queued, claimed by one worker run, kept alive by heartbeats, ended. A run is named by its
 * token; a run that was overtaken writes nothing, since every write asks for its token. The best verified result
 * is kept from the first one on, so that a stop, a crash or a second attempt loses nothing.
 * Used by the queue worker. Tests: tests/data/plan-life.test.ts, tests/data/queue-worker.test.ts
 */
import 'server-only'
import { randomUUID } from 'node:crypto'
import type { CutPlan } from '#lib/core/cutting/problem'
import type { PlanInput } from '#lib/shop/plan-input'
import { bestOfPlans, type PlanProgress, type PlanResult, partsOfPlan } from '#lib/shop/plan-result'
import { aloneFigures, type TogetherInput } from '#lib/shop/plan-together'
import { partsShort, partsWanted } from '#lib/shop/plan-words'
import { database } from '../client'
import type { Prisma } from '../generated/client'
import { announce, type Transaction } from '../transaction'

/** A running plan with an older heartbeat is taken to be left alone. */
export const STALE_AFTER_MS = 15_000
export const MAX_ATTEMPTS = 3

export interface PlanRun {
  readonly planId: string
  readonly buildId: string
  readonly token: string
  readonly input: PlanInput | TogetherInput
  readonly seed: number
  /** What is left of the time asked for. */
  readonly milliseconds: number
  readonly elapsedMs: number
  readonly kept: CutPlan | null
}

const asJson = (value: unknown) => value as Prisma.InputJsonValue

/** Queues the working out of a plan, in the transaction that wants it. A plan has one job at a time. */
export async function queuePlan(tx: Transaction, planId: string): Promise<void> {
  await tx.$executeRaw`
    select graphile_worker.add_job('planCuts', json_build_object('planId', ${planId}::text),
      job_key => ${`plan:${planId}`}, max_attempts => 3)`
}

async function tell(tx: Transaction, planId: string, buildId?: string): Promise<void> {
  await announce(tx, `plan:${planId}`)
  if (buildId) await announce(tx, `build:${buildId}`)
}

/** What a run may still write to: its own plan, while it is its own. */
const ofRun = (run: PlanRun) => ({ id: run.planId, status: 'running' as const, runToken: run.token })

/**
 * Takes a plan for one run: a queued one, or one whose run has fallen silent. Null where another run has it, it is
 * over, or it was tried too often.
 */
export async function claimPlan(planId: string, now = new Date()): Promise<PlanRun | null> {
  const token = randomUUID()
  const silent = new Date(now.getTime() - STALE_AFTER_MS)
  return database().$transaction(async (tx) => {
    const claimed = await tx.cutPlan.updateMany({
      where: {
        id: planId,
        attempt: { lt: MAX_ATTEMPTS },
        OR: [{ status: 'queued' }, { status: 'running', heartbeatAt: { lt: silent } }],
      },
      data: { status: 'running', runToken: token, heartbeatAt: now, attempt: { increment: 1 } },
    })
    if (claimed.count === 0) return null
    const plan = await tx.cutPlan.findUniqueOrThrow({ where: { id: planId } })
    if (!plan.startedAt) await tx.cutPlan.update({ where: { id: planId }, data: { startedAt: now } })
    await tell(tx, planId, plan.buildId)
    const elapsedMs = (plan.progress as PlanProgress | null)?.elapsedMs ?? 0
    return {
      planId,
      buildId: plan.buildId,
      token,
      input: plan.input as unknown as PlanInput,
      seed: plan.seed,
      milliseconds: Math.max(1_000, plan.seconds * 1000 - elapsedMs),
      elapsedMs,
      kept: (plan.result as unknown as PlanResult | null)?.plan ?? null,
    }
  })
}

/** Says that the run is alive. `overtaken`: it is another's plan now, or over. */
export async function beat(run: PlanRun): Promise<'goOn' | 'cancelAsked' | 'overtaken'> {
  const [row] = await database().cutPlan.updateManyAndReturn({
    where: ofRun(run),
    data: { heartbeatAt: new Date() },
    select: { cancelAskedAt: true },
  })
  if (!row) return 'overtaken'
  return row.cancelAskedAt ? 'cancelAsked' : 'goOn'
}

/** @param elapsedMs over all attempts */
export function progressOf(plan: CutPlan, elapsedMs: number, wanted: number): PlanProgress {
  const { steps, weightMade, weightBound, cost, costBound } = plan
  const boards = plan.layouts.reduce((sum, l) => sum + l.copies, 0)
  const parts = wanted - partsShort(plan)
  return { elapsedMs, steps, weightMade, weightBound, cost, costBound, boards, parts }
}

const resultOf = (plan: CutPlan, input: PlanInput): PlanResult => ({
  plan,
  partIds: partsOfPlan(plan, input),
})

/** Keeps a better plan and how far the search is. @returns whether the run may still write */
export async function keepProgress(run: PlanRun, plan: CutPlan, elapsedMs: number): Promise<boolean> {
  const best = bestOfPlans(plan, run.kept)
  return database().$transaction(async (tx) => {
    const kept = await tx.cutPlan.updateMany({
      where: ofRun(run),
      data: {
        progress: asJson(progressOf(best, elapsedMs, partsWanted(run.input))),
        result: asJson(resultOf(best, run.input)),
        heartbeatAt: new Date(),
      },
    })
    if (kept.count === 1) await tell(tx, run.planId)
    return kept.count === 1
  })
}

/** Only the time: nothing better was found. */
export async function keepElapsed(run: PlanRun, plan: CutPlan, elapsedMs: number): Promise<void> {
  await database().$transaction(async (tx) => {
    const kept = await tx.cutPlan.updateMany({
      where: ofRun(run),
      data: { progress: asJson(progressOf(bestOfPlans(plan, run.kept), elapsedMs, partsWanted(run.input))) },
    })
    if (kept.count === 1) await tell(tx, run.planId)
  })
}

export type PlanEnding =
  | {
      readonly status: 'done' | 'cancelled'
      readonly plan: CutPlan
      readonly elapsedMs: number
      /** By build, of a plan of several. */
      readonly alone?: readonly CutPlan[]
    }
  | { readonly status: 'cancelled' }
  /** @see failure what the maker and the admin are told; nothing internal */
  | { readonly status: 'failed'; readonly failure: string }

const aloneOf = (run: PlanRun, plans: readonly CutPlan[] | undefined) =>
  plans && 'builds' in run.input ? { alone: aloneFigures(run.input, plans) } : {}

/** Ends the run. What was found before stays, whatever the ending. @returns whether the run could still write */
export async function endPlan(run: PlanRun, ending: PlanEnding): Promise<boolean> {
  const best = 'plan' in ending ? bestOfPlans(ending.plan, run.kept) : null
  const found =
    best && 'plan' in ending
      ? {
          result: asJson({ ...resultOf(best, run.input), ...aloneOf(run, ending.alone) }),
          progress: asJson(progressOf(best, ending.elapsedMs, partsWanted(run.input))),
        }
      : {}
  return database().$transaction(async (tx) => {
    const ended = await tx.cutPlan.updateMany({
      where: ofRun(run),
      data: {
        status: ending.status,
        finishedAt: new Date(),
        runToken: null,
        ...found,
        ...('failure' in ending ? { failure: ending.failure } : {}),
      },
    })
    if (ended.count === 1) await tell(tx, run.planId, run.buildId)
    return ended.count === 1
  })
}

/** The worker is being stopped in good order: another one goes on with it. */
export async function handBack(run: PlanRun): Promise<void> {
  await database().$transaction(async (tx) => {
    const back = await tx.cutPlan.updateMany({
      where: ofRun(run),
      data: { status: 'queued', runToken: null, heartbeatAt: null, attempt: { decrement: 1 } },
    })
    if (back.count === 0) return
    await queuePlan(tx, run.planId)
    await tell(tx, run.planId, run.buildId)
  })
}

type StalePlan = { id: string; buildId: string; attempt: number; isCancelled: boolean }

async function reviveSilent(
  tx: Transaction,
  now: Date,
  silent: Date,
): Promise<{ queued: number; interrupted: number }> {
  const stale = await tx.$queryRaw<StalePlan[]>`
    select "id", "buildId", "attempt", "cancelAskedAt" is not null as "isCancelled" from "CutPlan"
    where "status" = 'running' and "heartbeatAt" < ${silent} order by "id" for update skip locked`
  let queued = 0
  for (const plan of stale) {
    const isOver = plan.attempt >= MAX_ATTEMPTS
    const status = plan.isCancelled ? 'cancelled' : isOver ? 'interrupted' : 'queued'
    const data = { status, runToken: null, ...(status === 'queued' ? {} : { finishedAt: now }) } as const
    await tx.cutPlan.update({ where: { id: plan.id }, data })
    if (status === 'queued') queued++
    if (status === 'queued') await queuePlan(tx, plan.id)
    await tell(tx, plan.id, plan.buildId)
  }
  return { queued, interrupted: stale.length - queued }
}

/** A worker that was killed between taking a job and claiming its plan keeps the job locked for hours. */
async function requeueForgotten(tx: Transaction, silent: Date): Promise<void> {
  const forgotten = await tx.$queryRaw<{ id: string }[]>`
    select p."id" from "CutPlan" p where p."status" = 'queued' and p."createdAt" < ${silent} and not exists (
      select 1 from graphile_worker.jobs j where j.key = 'plan:' || p."id" and j.attempts < j.max_attempts
        and (j.locked_at is null or j.locked_at > ${silent}))
    order by p."id" for update of p skip locked`
  for (const plan of forgotten) await queuePlan(tx, plan.id)
}

/**
 * Finds plans whose run has fallen silent (a worker was killed): they are queued again, or after the last attempt
 * reported as interrupted, with the best plan kept. Queued plans whose job is lost get a new one.
 */
export async function reviveStalePlans(now = new Date()): Promise<{ queued: number; interrupted: number }> {
  const silent = new Date(now.getTime() - STALE_AFTER_MS)
  return database().$transaction(async (tx) => {
    const revived = await reviveSilent(tx, now, silent)
    await requeueForgotten(tx, silent)
    return revived
  })
}
