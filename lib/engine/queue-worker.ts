/**
 * The queue worker: a plain Node process beside the web server that works out cut plans and tidies up. Any number of
 * them may run against one PostgreSQL. A plan's run beats every second, keeps its best verified plan as it goes, and
 * stops within a second of a cancel. SIGTERM hands unfinished plans back; kill -9 leaves them to the sweep of the
 * next worker. Environment: DATABASE_URL, FELLOWBENCH_SOLVER_THREADS, FELLOWBENCH_SOLVER_THREAD (file, for tests).
 * Tests: tests/data/queue-worker.test.ts
 */
import { randomUUID } from 'node:crypto'
import os from 'node:os'
import { Logger, run as runQueue } from 'graphile-worker'
import pg from 'pg'
import { z } from 'zod'
import type { CutPlan } from '#lib/core/cutting/problem'
import {
  beat,
  claimPlan,
  endPlan,
  handBack,
  keepElapsed,
  keepProgress,
  type PlanRun,
} from '#lib/data/internal/plan-life'
import { sweep } from '#lib/data/internal/sweep'
import { isBetterPlan } from '#lib/shop/plan-result'
import { groupsOf } from '#lib/shop/plan-together'
import { type SolveOutcome, ThreadPool } from './thread-pool'

const BEAT_MS = 1_000
const KEEP_MS = 250
/** How often the time is told while nothing better is found. */
const TELL_TIME_MS = 1_000
const SWEEP_MS = 10_000

const threads = Number(process.env.FELLOWBENCH_SOLVER_THREADS) || Math.max(1, os.availableParallelism() - 1)
const pool = new ThreadPool({
  size: threads,
  file: process.env.FELLOWBENCH_SOLVER_THREAD ?? new URL('./solver-thread.mjs', import.meta.url),
})

let isStopping = false
const report = (what: string, error: unknown, reference = randomUUID().slice(0, 8)): string => {
  console.error(`[queue ${reference}] ${what}`, error)
  return reference
}

/** Writes the newest of what it is told, one write at a time and not oftener than every KEEP_MS. */
class Keeper {
  #plan: CutPlan | null
  #elapsedMs = 0
  #isDirty = false
  #toldMs = 0
  #writing: Promise<void> = Promise.resolve()
  readonly #timer: NodeJS.Timeout

  constructor(readonly run: PlanRun) {
    this.#plan = run.kept
    this.#timer = setInterval(() => this.#write(), KEEP_MS)
  }

  better(plan: CutPlan, elapsedMs: number): void {
    if (this.#plan && !isBetterPlan(plan, this.#plan)) return
    this.#plan = plan
    this.#elapsedMs = elapsedMs
    this.#isDirty = true
  }

  time(elapsedMs: number): void {
    this.#elapsedMs = elapsedMs
  }

  #write(): void {
    const isTimeToTell = this.#elapsedMs - this.#toldMs >= TELL_TIME_MS
    if (!this.#plan || !(this.#isDirty || isTimeToTell)) return
    const [plan, elapsedMs, isDirty] = [this.#plan, this.#elapsedMs, this.#isDirty]
    this.#isDirty = false
    this.#toldMs = elapsedMs
    this.#writing = this.#writing
      .then(async () => {
        if (isDirty) await keepProgress(this.run, plan, elapsedMs)
        else await keepElapsed(this.run, plan, elapsedMs)
      })
      .catch((error) => void report(`keeping the progress of plan ${this.run.planId}`, error))
  }

  /** Nothing is written after this. */
  async stop(): Promise<void> {
    clearInterval(this.#timer)
    await this.#writing
  }

  /** Writes what is still unwritten, then stops. */
  async flush(): Promise<void> {
    this.#write()
    await this.stop()
  }
}

/** Beats until told to stop; calls back once when the run has to end. */
function keepAlive(run: PlanRun, onEnd: (why: 'cancelAsked' | 'overtaken') => void): () => void {
  let isAsking = false
  const timer = setInterval(async () => {
    if (isAsking) return
    isAsking = true
    try {
      const answer = await beat(run)
      if (answer !== 'goOn') onEnd(answer)
    } catch (error) {
      report(`the heartbeat of plan ${run.planId}`, error)
    }
    isAsking = false
  }, BEAT_MS)
  return () => clearInterval(timer)
}

async function end(run: PlanRun, outcome: SolveOutcome, wasCancelAsked: boolean): Promise<void> {
  if (outcome.kind === 'failed') {
    const reference = report(`plan ${run.planId} failed:`, outcome.message)
    await endPlan(run, { status: 'failed', failure: `Reference ${reference}.` })
  } else if (isStopping && !wasCancelAsked) await handBack(run)
  else if (outcome.kind === 'cancelled') await endPlan(run, { status: 'cancelled' })
  else {
    const { plan, alone, elapsedMs } = outcome
    const status = wasCancelAsked ? 'cancelled' : 'done'
    await endPlan(run, { status, plan, alone, elapsedMs: run.elapsedMs + elapsedMs })
  }
}

async function workOut(planId: string): Promise<void> {
  // Fails the job, so that the queue keeps it for the next worker.
  if (isStopping) throw new Error('the worker is being stopped')
  const run = await claimPlan(planId)
  if (!run) return
  const keeper = new Keeper(run)
  let wasCancelAsked = false
  let wasOvertaken = false
  const solving = pool.run({
    problem: run.input.pool.problem,
    groups: 'builds' in run.input ? groupsOf(run.input) : undefined,
    seed: run.seed,
    milliseconds: run.milliseconds,
    onBetter: (plan, ms) => keeper.better(plan, run.elapsedMs + ms),
    onProgress: (ms) => keeper.time(run.elapsedMs + ms),
  })
  going.add(solving.cancel)
  const stopBeating = keepAlive(run, (why) => {
    wasCancelAsked ||= why === 'cancelAsked'
    wasOvertaken ||= why === 'overtaken'
    solving.cancel()
  })
  try {
    const outcome = await solving.outcome
    if (wasOvertaken) return
    await keeper.flush()
    await end(run, outcome, wasCancelAsked)
  } finally {
    stopBeating()
    await keeper.stop()
    going.delete(solving.cancel)
  }
}
const going = new Set<() => void>()

async function tidy(): Promise<void> {
  try {
    await sweep()
  } catch (error) {
    report('the sweep', error)
  }
}

const planPayload = z.object({ planId: z.uuid() })

const quiet = new Logger(() => (level, message) => {
  if (level === 'error' || level === 'warning') console.error(`[queue] ${message}`)
})

async function main(): Promise<void> {
  const connectionString = process.env.DATABASE_URL
  if (!connectionString) throw new Error('DATABASE_URL is not set')
  const pgPool = new pg.Pool({ connectionString, max: threads + 3 })
  pgPool.on('error', (error) => void report('a connection of the queue', error))
  pgPool.on('connect', (client) => {
    client.on('error', (error) => void report('a connection of the queue', error))
  })
  await tidy()
  const runner = await runQueue({
    pgPool,
    concurrency: threads,
    noHandleSignals: true,
    logger: quiet,
    taskList: {
      planCuts: (payload) => workOut(planPayload.parse(payload).planId),
      sweep: tidy,
    },
  })
  const sweeping = setInterval(tidy, SWEEP_MS)
  const stop = async () => {
    if (isStopping) return
    isStopping = true
    clearInterval(sweeping)
    for (const cancel of going) cancel()
    await runner.stop().catch((error) => void report('stopping', error))
    await pool.close()
    await pgPool.end()
    process.exit(0)
  }
  for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP'] as const) process.on(signal, stop)
  if (process.send) process.send('ready')
}

main().catch((error) => {
  report('the queue worker cannot start', error)
  process.exit(1)
})
