/**
 * The worker that looks for a number of the design whose change would let every part come out of the pool
 * (lib/shop/parameter-cure.ts), by the messages of browser-worker.ts. Started by plan-cure-client.ts.
 */
import { unlimited } from '#lib/core/units/budget'
import { type ParameterCures, parameterCures } from '#lib/shop/parameter-cure'
import { browserDesign } from './browser-design'
import type { AskMessage, WorkerMessage } from './browser-worker'
import type { PlanCureAsk } from './plan-cure-client'

const send = (message: WorkerMessage<ParameterCures>) => globalThis.postMessage(message)

globalThis.onmessage = async ({ data: { runId, ask } }: MessageEvent<AskMessage<PlanCureAsk>>) => {
  try {
    const design = await browserDesign(ask.designId)
    if (!design) {
      send({ kind: 'refused', runId, sentence: 'The design is not in this shop any more.' })
      return
    }
    const answer = parameterCures(design, ask.question, unlimited, (done) =>
      send({ kind: 'progress', runId, done }),
    )
    send({ kind: 'done', runId, answer })
  } catch (error) {
    send({ kind: 'failed', runId, message: error instanceof Error ? error.message : String(error) })
  }
}
