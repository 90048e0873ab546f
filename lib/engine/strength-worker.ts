/**
 * The worker that answers a page's questions about strength (strength-run.ts), one at a time, by the messages of
 * browser-worker.ts. Started by strength-client.ts.
 */
import type { AskMessage, WorkerMessage } from './browser-worker'
import { answerAsk, type StrengthAnswer, type StrengthAsk } from './strength-run'

const TELL_EVERY_MS = 100

const send = (message: WorkerMessage<StrengthAnswer>) => globalThis.postMessage(message)

globalThis.onmessage = ({ data: { runId, ask } }: MessageEvent<AskMessage<StrengthAsk>>) => {
  let told = 0
  const tell = (done: number, of?: number) => {
    const now = performance.now()
    if (now - told < TELL_EVERY_MS) return
    told = now
    send({ kind: 'progress', runId, done, ...(of === undefined ? {} : { of }) })
  }
  try {
    const answer = answerAsk(ask, tell)
    send(
      answer.ok
        ? { kind: 'done', runId, answer: answer.value }
        : { kind: 'refused', runId, sentence: answer.error },
    )
  } catch (error) {
    send({ kind: 'failed', runId, message: error instanceof Error ? error.message : String(error) })
  }
}
