/**
 * A worker's side of browser-worker.ts: answers one question at a time, tells how far it is at most ten times a
 * second, and turns what goes wrong into a message.
 */
import type { Result } from '#lib/core/units/result'
import type { AskMessage, WorkerMessage } from './browser-worker'

const TELL_EVERY_MS = 100

type Answering<Ask, Answer> = (
  ask: Ask,
  tell: (done: number, of?: number) => void,
) => Result<Answer, string> | Promise<Result<Answer, string>>

/** Called once, when the worker starts. */
export function answerMessages<Ask, Answer>(answer: Answering<Ask, Answer>): void {
  const send = (message: WorkerMessage<Answer>) => globalThis.postMessage(message)
  globalThis.onmessage = async ({ data: { runId, ask } }: MessageEvent<AskMessage<Ask>>) => {
    let told = 0
    const tell = (done: number, of?: number) => {
      const now = performance.now()
      if (now - told < TELL_EVERY_MS) return
      told = now
      send({ kind: 'progress', runId, done, ...(of === undefined ? {} : { of }) })
    }
    try {
      const found = await answer(ask, tell)
      send(
        found.ok
          ? { kind: 'done', runId, answer: found.value }
          : { kind: 'refused', runId, sentence: found.error },
      )
    } catch (error) {
      send({ kind: 'failed', runId, message: error instanceof Error ? error.message : String(error) })
    }
  }
}
