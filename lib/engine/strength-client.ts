/** A page's way to ask about strength: the worker loads the designs and the statics, so that no page has to. */
import { BrowserWorker, type WorkerLike } from './browser-worker'
import type { StrengthAnswer, StrengthAsk } from './strength-run'

export const strengthDesk = (): BrowserWorker<StrengthAsk, StrengthAnswer> =>
  new BrowserWorker(
    () => new Worker(new URL('./strength-worker.ts', import.meta.url), { type: 'module' }) as WorkerLike,
  )
