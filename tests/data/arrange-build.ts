// Builds as the app makes them, and a cut plan of one as the queue worker makes it, in this process.
import { planForms } from '#lib/core/cutting/plan-forms'
import type { Result } from '#lib/core/units/result'
import { start } from '#lib/data/builds'
import { ask } from '#lib/data/cut-plans'
import { claimPlan, endPlan } from '#lib/data/internal/plan-life'
import type { Actor } from '#lib/shop/actor'

export function must<T, E>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`)
  return result.value
}

export const started = async (maker: Actor, name = 'Seats for the kitchen') =>
  must(await start(maker, { name, designId: 'counterSeat' })).buildId

/** Asks for a plan and works it out, a few hundred steps and no clock. */
export async function planned(maker: Actor, buildId: string, maxSteps = 300) {
  const { planId } = must(await ask(maker, { buildId, seconds: 1 }))
  const run = await claimPlan(planId)
  if (!run) throw new Error('the plan is gone')
  const plan = planForms(run.input.pool.problem, { seed: 1, budget: { maxSteps } })
  await endPlan(run, { status: 'done', plan, elapsedMs: 1 })
  return { planId, plan, input: run.input }
}
