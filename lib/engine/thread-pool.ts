/**
 * A small pool of solver threads. A thread works on one run at a time and is kept for the next; one that failed,
 * stopped answering a cancel, or died is thrown away. Runs beyond the pool's size wait in line.
 * In: a cutting problem, a seed, a time. Out: better plans as they come, and one outcome that never throws.
 * Tests: tests/engine/thread-pool.test.ts
 */
import { randomUUID } from 'node:crypto'
import { Worker } from 'node:worker_threads'
import type { Groups } from '#lib/core/cutting/plan-together'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { type FromThread, STOP, type StartMessage } from './protocol'

export interface SolveRequest {
  readonly problem: CutProblem
  /** Builds that are planned together. */
  readonly groups?: Groups
  readonly seed: number
  readonly milliseconds: number
  readonly maxSteps?: number
  readonly onProgress?: (elapsedMs: number) => void
  readonly onBetter?: (plan: CutPlan, elapsedMs: number) => void
}

export type SolveOutcome =
  | {
      readonly kind: 'done'
      readonly plan: CutPlan
      readonly alone?: readonly CutPlan[]
      readonly isCancelled: boolean
      readonly elapsedMs: number
    }
  /** Cancelled before any plan was found, or the pool was closed. */
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'failed'; readonly message: string }

export interface SolveRun {
  readonly outcome: Promise<SolveOutcome>
  /** Heard within the search; a thread that does not hear it is ended. */
  readonly cancel: () => void
}

interface Job {
  readonly start: StartMessage
  readonly request: SolveRequest
  readonly settle: (outcome: SolveOutcome) => void
  isSettled: boolean
  isCancelled: boolean
  thread?: Thread
  watchdog?: NodeJS.Timeout
}

interface Thread {
  readonly worker: Worker
  job: Job | null
}

export interface ThreadPoolOptions {
  readonly size: number
  /** The bundled solver-thread. */
  readonly file: URL | string
  /** How long a thread may take to hear a cancel or the clock before it is ended. */
  readonly patienceMs?: number
}

const PATIENCE_MS = 5_000

export class ThreadPool {
  readonly #options: ThreadPoolOptions
  readonly #threads = new Set<Thread>()
  readonly #waiting: Job[] = []
  #isClosed = false

  constructor(options: ThreadPoolOptions) {
    if (!Number.isInteger(options.size) || options.size < 1) throw new RangeError(`size: ${options.size}`)
    this.#options = options
  }

  /** Threads that live, working or idle. */
  get threads(): number {
    return this.#threads.size
  }

  run(request: SolveRequest): SolveRun {
    let settle: (outcome: SolveOutcome) => void = () => {}
    const outcome = new Promise<SolveOutcome>((resolve) => {
      settle = resolve
    })
    const { problem, groups, seed, milliseconds, maxSteps } = request
    const stop = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT)
    const runId = randomUUID()
    const start = { kind: 'start' as const, runId, problem, groups, seed, milliseconds, maxSteps, stop }
    const job: Job = { start, request, settle, isSettled: false, isCancelled: false }
    this.#waiting.push(job)
    this.#next()
    return { outcome, cancel: () => this.#cancel(job) }
  }

  /** Ends every thread. Runs that were going are cancelled; what they had found was told by `onBetter`. */
  async close(): Promise<void> {
    this.#isClosed = true
    for (const job of this.#waiting.splice(0)) this.#settle(job, { kind: 'cancelled' })
    const threads = [...this.#threads]
    for (const t of threads) if (t.job) this.#settle(t.job, { kind: 'cancelled' })
    await Promise.all(threads.map((t) => this.#discard(t)))
  }

  #settle(job: Job, outcome: SolveOutcome): void {
    if (job.isSettled) return
    job.isSettled = true
    clearTimeout(job.watchdog)
    job.settle(outcome)
  }

  #next(): void {
    if (this.#isClosed) {
      for (const job of this.#waiting.splice(0)) this.#settle(job, { kind: 'cancelled' })
      return
    }
    if (this.#waiting.length === 0) return
    const idle = [...this.#threads].find((t) => t.job === null)
    const thread = idle ?? (this.#threads.size < this.#options.size ? this.#spawn() : undefined)
    const job = thread && this.#waiting.shift()
    if (!thread || !job) return
    thread.job = job
    job.thread = thread
    thread.worker.ref()
    thread.worker.postMessage(job.start)
    this.#watch(job, thread, job.start.milliseconds + 2 * this.#patienceMs, 'did not stop at its time')
    this.#next()
  }

  #spawn(): Thread {
    const worker = new Worker(this.#options.file, { name: 'solver' })
    const thread: Thread = { worker, job: null }
    this.#threads.add(thread)
    worker.on('message', (message: FromThread) => this.#hear(thread, message))
    worker.on('error', (error) => this.#lose(thread, String(error)))
    worker.on('exit', (code) => this.#lose(thread, `the solver thread ended with ${code}`))
    return thread
  }

  #hear(thread: Thread, message: FromThread): void {
    const { job } = thread
    if (message.kind === 'ready' || !job || job.start.runId !== message.runId) return
    if (message.kind === 'progress') job.request.onProgress?.(message.elapsedMs)
    else if (message.kind === 'better') job.request.onBetter?.(message.plan, message.elapsedMs)
    else if (message.kind === 'failed') this.#lose(thread, message.message)
    else {
      thread.job = null
      thread.worker.unref()
      this.#settle(job, message)
      this.#next()
    }
  }

  /** A thread that failed may be broken in ways that nobody sees: it is not used again. */
  #lose(thread: Thread, why: string): void {
    if (!this.#threads.has(thread)) return
    const { job } = thread
    void this.#discard(thread)
    if (job) this.#settle(job, job.isCancelled ? { kind: 'cancelled' } : { kind: 'failed', message: why })
    this.#next()
  }

  async #discard(thread: Thread): Promise<void> {
    this.#threads.delete(thread)
    thread.job = null
    await thread.worker.terminate()
  }

  #cancel(job: Job): void {
    if (job.isSettled || job.isCancelled) return
    job.isCancelled = true
    Atomics.store(new Int32Array(job.start.stop), 0, STOP)
    const at = this.#waiting.indexOf(job)
    if (at >= 0) {
      this.#waiting.splice(at, 1)
      this.#settle(job, { kind: 'cancelled' })
      return
    }
    const { thread } = job
    if (thread) this.#watch(job, thread, this.#patienceMs, 'did not hear the cancel')
  }

  get #patienceMs(): number {
    return this.#options.patienceMs ?? PATIENCE_MS
  }

  /** Ends a thread that still works on the job after so long. */
  #watch(job: Job, thread: Thread, afterMs: number, why: string): void {
    clearTimeout(job.watchdog)
    job.watchdog = setTimeout(() => {
      if (!job.isSettled) this.#lose(thread, `the solver thread ${why}`)
    }, afterMs)
    job.watchdog.unref()
  }
}
