/**
 * A thread of Node that answers as a page's worker does (browser-worker.ts), so that one desk serves both: questions
 * in line, a cancel ends the thread. An idle thread keeps no process alive. Tests: tests/engine/node-worker.test.ts
 */
import { Worker } from 'node:worker_threads'
import { BrowserWorker, type WorkerLike, type WorkerMessage } from './browser-worker'

function threadAt(file: string): WorkerLike {
  const thread = new Worker(/* turbopackIgnore: true */ file)
  const like: WorkerLike = {
    postMessage: (message) => {
      thread.ref()
      thread.postMessage(message)
    },
    terminate: () => thread.terminate(),
    onmessage: null,
    onerror: null,
  }
  thread.on('message', (data: WorkerMessage<unknown>) => {
    if (data.kind !== 'progress') thread.unref()
    like.onmessage?.({ data: data as never })
  })
  thread.on('error', (error) => like.onerror?.({ message: String(error) }))
  // Ended by itself in the middle of a question; one that was told to end is asked nothing any more.
  thread.on('exit', (code) => like.onerror?.({ message: `the thread ended with ${code}` }))
  thread.unref()
  return like
}

/** Asks a bundled program of ours that runs as a thread. @param file its path */
export const nodeDesk = <Ask, Answer>(file: string): BrowserWorker<Ask, Answer> =>
  new BrowserWorker(() => threadAt(file))
