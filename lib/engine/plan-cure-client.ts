/** A page's way to ask which number of a design would cure a shortage: the worker loads designs and engine. */
import type { CureQuestion, ParameterCures } from '#lib/shop/parameter-cure'
import { BrowserWorker, type WorkerLike } from './browser-worker'

export interface PlanCureAsk {
  readonly designId: string
  readonly question: CureQuestion
}

export const planCureDesk = (): BrowserWorker<PlanCureAsk, ParameterCures> =>
  new BrowserWorker(
    () => new Worker(new URL('./plan-cure-worker.ts', import.meta.url), { type: 'module' }) as WorkerLike,
  )
