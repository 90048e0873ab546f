/**
 * The thread that works out a strength report and sets it as a PDF, one at a time, by the messages of
 * lib/engine/browser-worker.ts. Started by report-desk.ts. Tests: tests/documents/strength/report-thread.test.ts
 */
import { parentPort } from 'node:worker_threads'
import { err, ok, type Result } from '#lib/core/units/result'
import type { AskMessage, WorkerMessage } from '#lib/engine/browser-worker'
import { answerAsk } from '#lib/engine/strength-run'
import { writePdf } from '../pdf/write-pdf'
import { strengthReport } from './report-content'
import type { ReportAsk } from './report-desk'

const SEED = 1
const DRAWS = 2000

if (!parentPort) throw new Error('report-thread runs as a worker thread')
const port = parentPort
const send = (message: WorkerMessage<Uint8Array>) => port.postMessage(message)

async function reportFor({ judgedFor, facts, ...asked }: ReportAsk): Promise<Result<Uint8Array, string>> {
  const study = answerAsk({ kind: 'study', ...asked })
  if (!study.ok) return study
  const compare = answerAsk({ kind: 'compare', ...asked })
  const scatter = answerAsk({ kind: 'scatter', ...asked, seed: SEED, draws: DRAWS })
  if (study.value.kind !== 'study' || !compare.ok || compare.value.kind !== 'compare')
    return err('It cannot be judged.')
  const content = strengthReport(
    {
      ...study.value.sheet,
      comparison: compare.value.comparison,
      judgedFor,
      ...(scatter.ok && scatter.value.kind === 'scatter' ? { scatter: scatter.value.report } : {}),
    },
    facts,
  )
  return ok(await writePdf(content))
}

port.on('message', async ({ runId, ask }: AskMessage<ReportAsk>) => {
  try {
    const made = await reportFor(ask)
    send(
      made.ok
        ? { kind: 'done', runId, answer: made.value }
        : { kind: 'refused', runId, sentence: made.error },
    )
  } catch (error) {
    send({ kind: 'failed', runId, message: error instanceof Error ? error.message : String(error) })
  }
})
