import 'server-only'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import type { SetupPlan } from '#lib/core/setups/setup-plan'
import { Kept } from '#lib/core/units/kept'

/** Enough for a proof on builds of a few dozen parts, and done in a moment. */
const MOST_STATES = 5_000
const kept = new Kept<SetupPlan>(30)

/** The set-ups of a build, for its page and for paper: worked out once, not at every tick at the bench. */
export const plannedSetups = (input: SetupInput): SetupPlan =>
  kept.orElse(JSON.stringify(input), () => planSetups({ ...input, maxStates: MOST_STATES }))
