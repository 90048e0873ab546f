/**
 * The page's side of a worker that answers one question at a time. A busy worker reads no message, so a cancel ends
 * it, and the next question gets a new one; a worker that failed is thrown away likewise. Questions wait in line.
 * Tests: tests/engine/browser-worker.test.ts
 */
export interface AskMessage<Ask> {
  readonly runId: number
  readonly ask: Ask
}

export type WorkerMessage<Answer> =
  | { readonly kind: 'progress'; readonly runId: number; readonly done: number; readonly of?: number }
  | { readonly kind: 'done'; readonly runId: number; readonly answer: Answer }
  /** The question has no answer: a sentence for the maker. */
  | { readonly kind: 'refused'; readonly runId: number; readonly sentence: string }
  /** A bug. */
  | { readonly kind: 'failed'; readonly runId: number; readonly message: string }

export type Outcome<Answer> =
  | { readonly kind: 'done'; readonly answer: Answer }
  | { readonly kind: 'refused'; readonly sentence: string }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'cancelled' }

/** What is used of a Worker. */
export interface WorkerLike {
  postMessage(message: unknown): void
  terminate(): unknown
  onmessage: ((event: { readonly data: never }) => void) | null
  onerror: ((event: { readonly message?: string }) => void) | null
}

export interface Run<Answer> {
  /** Never rejects. */
  readonly outcome: Promise<Outcome<Answer>>
  readonly cancel: () => void
}

interface Job<Ask, Answer> {
  readonly message: AskMessage<Ask>
  readonly onProgress?: (done: number, of?: number) => void
  readonly settle: (outcome: Outcome<Answer>) => void
}

export class BrowserWorker<Ask, Answer> {
  readonly #make: () => WorkerLike
  #worker: WorkerLike | undefined
  #going: Job<Ask, Answer> | undefined
  #line: Job<Ask, Answer>[] = []
  #runs = 0

  constructor(make: () => WorkerLike) {
    this.#make = make
  }

  ask(ask: Ask, onProgress?: (done: number, of?: number) => void): Run<Answer> {
    const runId = ++this.#runs
    let settle: (outcome: Outcome<Answer>) => void = () => undefined
    const outcome = new Promise<Outcome<Answer>>((resolve) => {
      settle = resolve
    })
    this.#line.push({ message: { runId, ask }, settle, ...(onProgress ? { onProgress } : {}) })
    this.#next()
    return { outcome, cancel: () => this.#cancel(runId) }
  }

  /** Ends the worker and every question. */
  close(): void {
    const left = [...(this.#going ? [this.#going] : []), ...this.#line]
    this.#line = []
    this.#discard()
    for (const job of left) job.settle({ kind: 'cancelled' })
  }

  #discard(): void {
    this.#worker?.terminate()
    this.#worker = undefined
    this.#going = undefined
  }

  #cancel(runId: number): void {
    if (this.#going?.message.runId === runId) {
      const { settle } = this.#going
      this.#discard()
      settle({ kind: 'cancelled' })
      this.#next()
      return
    }
    const waiting = this.#line.find(({ message }) => message.runId === runId)
    this.#line = this.#line.filter((job) => job !== waiting)
    waiting?.settle({ kind: 'cancelled' })
  }

  #next(): void {
    if (this.#going) return
    const job = this.#line.shift()
    if (!job) return
    this.#going = job
    try {
      this.#worker ??= this.#start()
      this.#worker.postMessage(job.message)
    } catch (error) {
      this.#finish({ kind: 'failed', message: error instanceof Error ? error.message : String(error) })
    }
  }

  #start(): WorkerLike {
    const worker = this.#make()
    worker.onmessage = ({ data }) => {
      if (worker === this.#worker) this.#hear(data)
    }
    worker.onerror = ({ message }) => {
      if (worker === this.#worker)
        this.#finish({ kind: 'failed', message: message ?? 'the worker fell over' })
    }
    return worker
  }

  #hear(message: WorkerMessage<Answer>): void {
    if (message.runId !== this.#going?.message.runId) return
    switch (message.kind) {
      case 'progress':
        this.#going.onProgress?.(message.done, message.of)
        break
      case 'done':
        this.#finish({ kind: 'done', answer: message.answer })
        break
      case 'refused':
        this.#finish({ kind: 'refused', sentence: message.sentence })
        break
      case 'failed':
        this.#finish({ kind: 'failed', message: message.message })
        break
    }
  }

  #finish(outcome: Outcome<Answer>): void {
    const job = this.#going
    this.#going = undefined
    if (outcome.kind === 'failed') this.#discard()
    job?.settle(outcome)
    this.#next()
  }
}
