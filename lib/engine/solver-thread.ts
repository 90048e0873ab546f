/**
 * A worker thread that plans cuttings, one run at a time. Every plan passes verifyCutPlan, which shares no code with
 * the engine, before it is sent; a plan that does not is a bug and fails the run.
 * Stops at the clock or when the stop flag is set; a step budget makes runs repeatable.
 * Tests: tests/engine/thread-pool.test.ts
 */
import { parentPort } from 'node:worker_threads'
import type { LpSolver } from '#lib/core/cutting/lp'
import { planForms } from '#lib/core/cutting/plan-forms'
import { planTogether } from '#lib/core/cutting/plan-together'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { cureOf } from '#lib/core/cutting/shortage'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { loadLpSolver } from './lp-solver'
import { type FromThread, GO_ON, type StartMessage, type ToThread } from './protocol'

const PROGRESS_EVERY_MS = 250
/** Time for the board that would cure a shortage, beyond the search's own. */
const CURE_MS = 1_500

if (!parentPort) throw new Error('solver-thread runs as a worker thread')
const port = parentPort
const send = (message: FromThread) => port.postMessage(message)

function assertSound(problem: CutProblem, plan: CutPlan): CutPlan {
  const [fault] = verifyCutPlan(problem, plan)
  if (fault) throw new Error(`a plan that cannot be cut: ${fault.kind}, ${fault.text}`)
  return plan
}

/** The engine looks for no cure once it was stopped; after the clock, unlike after a cancel, it is still wanted. */
function withCure(problem: CutProblem, plan: CutPlan, isCancelled: () => boolean): CutPlan {
  if (plan.cure || plan.shortages.length === 0 || isCancelled()) return plan
  const until = performance.now() + CURE_MS
  const shouldStop = () => isCancelled() || performance.now() > until
  const cure = cureOf(problem, plan, shouldStop)
  return cure ? { ...plan, cure } : plan
}

/** Sharpens the bounds; without it they hold too, only weaker. */
const solver: Promise<LpSolver | undefined> = loadLpSolver().catch(() => undefined)

function run(start: StartMessage, lp: LpSolver | undefined): void {
  const { runId, problem } = start
  const began = performance.now()
  const elapsedMs = () => Math.round(performance.now() - began)
  const flag = new Int32Array(start.stop)
  const isCancelled = () => Atomics.load(flag, 0) !== GO_ON
  let told = began
  const shouldStop = () => {
    const now = performance.now()
    if (now - told >= PROGRESS_EVERY_MS) {
      told = now
      send({ kind: 'progress', runId, elapsedMs: elapsedMs() })
    }
    return isCancelled() || now - began >= start.milliseconds
  }
  const options = {
    seed: start.seed,
    lp,
    budget: {
      maxSteps: start.maxSteps ?? Number.POSITIVE_INFINITY,
      shouldStop,
      nowMs: () => performance.now() - began,
    },
    onBetter: (better: CutPlan) =>
      send({ kind: 'better', runId, elapsedMs: elapsedMs(), plan: assertSound(problem, better) }),
    milliseconds: start.milliseconds,
  }
  const { plan, alone } = start.groups
    ? planTogether(problem, start.groups, options)
    : { plan: planForms(problem, options), alone: undefined }
  const whole = assertSound(problem, withCure(problem, plan, isCancelled))
  send({ kind: 'done', runId, elapsedMs: elapsedMs(), plan: whole, alone, isCancelled: isCancelled() })
}

port.on('message', async (message: ToThread) => {
  try {
    run(message, await solver)
  } catch (error) {
    const text = error instanceof Error ? `${error.message}\n${error.stack}` : String(error)
    send({ kind: 'failed', runId: message.runId, message: text })
  }
})
send({ kind: 'ready' })
