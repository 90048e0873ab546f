/** What the queue worker tidies every few seconds: expired holds, plans left alone, old sign-in attempts. */
import 'server-only'
import { ok } from '#lib/core/units/result'
import { database } from '../client'
import { transact } from '../transaction'
import { lapseAll } from './hold-life'
import { reviveStalePlans } from './plan-life'

const KEEP_ATTEMPTS_MS = 24 * 3_600_000

export interface Swept {
  readonly lapsedHolds: number
  readonly revivedPlans: number
  readonly interruptedPlans: number
}

export async function sweep(now = new Date()): Promise<Swept> {
  const lapsed = await transact(async (tx) => ok(await lapseAll(tx, now)))
  const plans = await reviveStalePlans(now)
  await database().signInAttempt.deleteMany({
    where: { at: { lt: new Date(now.getTime() - KEEP_ATTEMPTS_MS) } },
  })
  return {
    lapsedHolds: lapsed.ok ? lapsed.value : 0,
    revivedPlans: plans.queued,
    interruptedPlans: plans.interrupted,
  }
}
