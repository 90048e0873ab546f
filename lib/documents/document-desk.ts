/**
 * Orders documents from the document thread: one thread a process, begun with the first order, orders in turn. A
 * thread that fails, dies or takes too long is thrown away and the order rejected; the next begins another.
 * Tests: tests/documents/document-desk.test.ts
 */
import path from 'node:path'
import { Worker } from 'node:worker_threads'
import type { FromDocumentThread, ToDocumentThread } from './document-thread'
import type { DocumentOrder, MadeDocument } from './order'

const MOST_MS = 60_000
/** Orders that may wait: beyond, the shop is told to try again. */
const MOST_WAITING = 20

interface Job {
  readonly order: DocumentOrder
  readonly settle: (made: MadeDocument) => void
  readonly fail: (error: Error) => void
}

const threadFile = (): string =>
  process.env.FELLOWBENCH_DOCUMENT_THREAD ?? path.join(process.cwd(), 'build', 'document-thread.mjs')

export class DocumentDesk {
  private readonly waiting: Job[] = []
  private worker: Worker | undefined
  private job: Job | undefined
  private runId = 0
  private clock: NodeJS.Timeout | undefined

  constructor(private readonly file: string = threadFile()) {}

  /**
   * @param signal gives the order up: one that is being made ends its thread
   * @throws Error if the thread failed; the signal's reason if it was given up; a refusal is an answer
   */
  make(order: DocumentOrder, signal?: AbortSignal): Promise<MadeDocument> {
    if (signal?.aborted) return Promise.reject(signal.reason)
    if (this.waiting.length >= MOST_WAITING)
      return Promise.resolve({
        status: 'refused',
        message: 'Many documents are being made just now. Try again in a minute.',
      })
    return new Promise((settle, fail) => {
      const job = { order, settle, fail }
      signal?.addEventListener('abort', () => this.giveUp(job, signal.reason), { once: true })
      this.waiting.push(job)
      this.next()
    })
  }

  private giveUp(job: Job, reason: Error): void {
    const at = this.waiting.indexOf(job)
    if (at >= 0) this.waiting.splice(at, 1)
    job.fail(reason)
    if (job === this.job) this.lose(this.worker, 'was given up')
  }

  async close(): Promise<void> {
    await this.worker?.terminate()
  }

  private next(): void {
    const job = this.job === undefined ? this.waiting.shift() : undefined
    if (job === undefined) return
    this.job = job
    this.worker ??= this.begin()
    this.worker.ref()
    this.clock = setTimeout(() => this.lose(this.worker, 'took too long'), MOST_MS)
    this.worker.postMessage({ runId: ++this.runId, order: job.order } satisfies ToDocumentThread)
  }

  private begin(): Worker {
    const worker = new Worker(/* turbopackIgnore: true */ this.file, { name: 'documents' })
    worker.on('message', (message: FromDocumentThread) => this.hear(worker, message))
    worker.on('error', (error) => this.lose(worker, String(error)))
    worker.on('exit', (code) => this.lose(worker, `ended with ${code}`))
    return worker
  }

  private hear(worker: Worker, message: FromDocumentThread): void {
    if (worker !== this.worker || message.runId !== this.runId || this.job === undefined) return
    if (message.kind === 'failed') {
      this.lose(worker, message.message)
      return
    }
    const { job } = this
    this.rest()
    worker.unref()
    job.settle(message.made)
    this.next()
  }

  private rest(): void {
    clearTimeout(this.clock)
    this.job = undefined
  }

  private lose(worker: Worker | undefined, why: string): void {
    if (worker === undefined || worker !== this.worker) return
    this.worker = undefined
    const { job } = this
    this.rest()
    void worker.terminate()
    job?.fail(new Error(`the document thread ${why}`))
    this.next()
  }
}

let desk: DocumentDesk | undefined

/** Makes a document off this thread. */
export function orderDocument(order: DocumentOrder, signal?: AbortSignal): Promise<MadeDocument> {
  desk ??= new DocumentDesk()
  return desk.make(order, signal)
}
