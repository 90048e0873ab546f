/** A page's way to ask what variants come to: the worker loads the designs and the statics, so that no page has to. */
import { BrowserWorker, type WorkerLike } from './browser-worker'
import type { VariantAnswer, VariantAsk } from './variant-run'

export const variantDesk = (): BrowserWorker<VariantAsk, VariantAnswer> =>
  new BrowserWorker(
    () => new Worker(new URL('./variant-worker.ts', import.meta.url), { type: 'module' }) as WorkerLike,
  )
