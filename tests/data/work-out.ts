// Works out a cut plan in the test's own process, step-limited, as the queue worker does in its threads.
import { planForms } from '#lib/core/cutting/plan-forms'
import { ask } from '#lib/data/cut-plans'
import { claimPlan, endPlan } from '#lib/data/internal/plan-life'
import type { Actor } from '#lib/shop/actor'

export async function askForPlan(maker: Actor, buildId: string, gluedUp?: string[]): Promise<string> {
  const asked = await ask(maker, { buildId, seconds: 5, ...(gluedUp ? { gluedUp } : {}) })
  if (!asked.ok) throw new Error(JSON.stringify(asked.error))
  return asked.value.planId
}

export async function workOut(planId: string): Promise<void> {
  const run = await claimPlan(planId)
  if (!run) throw new Error('not to be claimed')
  const plan = planForms(run.input.pool.problem, { seed: run.seed, budget: { maxSteps: 3_000 } })
  if (!(await endPlan(run, { status: 'done', plan, elapsedMs: 5 }))) throw new Error('overtaken')
}

/** @returns the id of a plan that is done */
export async function plannedFor(maker: Actor, buildId: string, gluedUp?: string[]): Promise<string> {
  const planId = await askForPlan(maker, buildId, gluedUp)
  await workOut(planId)
  return planId
}
