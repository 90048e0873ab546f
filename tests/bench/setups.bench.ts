/** Set-ups of counter seats cut from random pools: settings against the bound and piece by piece. Prints; fails on nothing. */
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { blankNeedsFromModel } from '#lib/core/board/demand'
import { cutProblemFrom, type PoolBoard } from '#lib/core/cutting/from-pool'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { setupInputFrom } from '#lib/core/setups/from-cut-plan'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { seededRng } from '#lib/core/units/rng'

export const name = 'set-ups: fewest settings'

const FLAT = { cupUm: 300, bowUm: 900, crookUm: 0, twistUm: 0 }
const LIMITS = { minPieceLengthUm: 150_000, minPieceWidthUm: 19_000, stages: null }

function pool(seed: number, count: number): readonly PoolBoard[] {
  const rng = seededRng(seed)
  return Array.from({ length: count }, (_, i) => ({
    id: `b${i}`,
    lengthUm: 600_000 + rng.below(1_400) * 1_000,
    widthUm: 60_000 + rng.below(160) * 1_000,
    thicknessUm: i % 2 === 0 ? 45_000 : 25_000,
    species: 'white-ash',
    warp: FLAT,
    defects: [],
    finish: 'bare' as const,
    metal: 'cleared' as const,
    lead: 'notNeeded' as const,
    treated: false,
  }))
}

function job(seed: number, abreast: number): SetupInput {
  const built = counterSeat.build({ abreast, counterLength: 700 * abreast })
  if (!built.ok) throw new Error(built.error[0].message)
  const needs = blankNeedsFromModel(built.value, DEFAULT_ALLOWANCES)
  const boards = pool(seed, 14 * abreast)
  const shop = { kerfUm: 3_200, limits: LIMITS, offcut: { minLengthUm: 300_000, minWidthUm: 40_000 } }
  const problem = cutProblemFrom(boards, needs, { ...shop, allowances: DEFAULT_ALLOWANCES })
  const plan = planCuts(problem.problem, { seed, budget: { maxSteps: 10_000 } })
  const from = { model: built.value, needs, boards, pool: problem, layouts: plan.layouts }
  return setupInputFrom({ ...from, allowances: DEFAULT_ALLOWANCES, shop: DEFAULT_SETUP_SHOP })
}

export async function run(print: (line: string) => void): Promise<void> {
  const POOLS = 10
  for (const abreast of [1, 2, 4]) {
    const jobs = Array.from({ length: POOLS }, (_, i) => job(i + 1, abreast))
    planSetups(jobs[0])
    const times: number[] = []
    const plans = jobs.map((input) => {
      const t0 = performance.now()
      const plan = planSetups(input)
      times.push(performance.now() - t0)
      return plan
    })
    const sum = (of: (plan: (typeof plans)[number]) => number): number => plans.reduce((s, p) => s + of(p), 0)
    const cuts = sum((p) => p.setups.reduce((s, setup) => s + setup.cuts.length, 0))
    const proven = plans.filter((p) => p.status === 'optimal').length
    const median = times.sort((a, b) => a - b)[POOLS >> 1]
    print(
      `${abreast} abreast, ${POOLS} pools: ${cuts} cuts, settings ${sum((p) => p.settings)}, bound ${sum((p) => p.settingsBound)}, ` +
        `piece by piece ${sum((p) => p.settingsPieceByPiece)}, proven ${proven} of ${POOLS}, median ${median.toFixed(0)} ms, worst ${times[POOLS - 1].toFixed(0)} ms`,
    )
  }
}
