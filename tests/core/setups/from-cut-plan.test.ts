import { describe, expect, test } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { blankNeedsFromModel } from '#lib/core/board/demand'
import { cutProblemFrom, type PoolBoard } from '#lib/core/cutting/from-pool'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { designById } from '#lib/core/design/designs/registry'
import { setupInputFrom } from '#lib/core/setups/from-cut-plan'
import { planSetups } from '#lib/core/setups/plan-setups'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { seededRng } from '#lib/core/units/rng'

/** Boards of a few odd sizes, thick ones for legs and thin ones for the rest. */
function pool(seed: number): readonly PoolBoard[] {
  const rng = seededRng(seed)
  return Array.from({ length: 24 }, (_, i) => ({
    id: `b${i}`,
    label: `B${i}`,
    lengthUm: 700_000 + rng.below(1_300) * 1_000,
    widthUm: 90_000 + rng.below(130) * 1_000,
    thicknessUm: i % 2 === 0 ? 45_000 : 25_000,
    species: 'white-ash',
    warp: { cupUm: 500, bowUm: 1_500, crookUm: 0, twistUm: 0 },
    defects: [],
    finish: 'bare' as const,
    metal: 'cleared' as const,
    lead: 'notNeeded' as const,
    treated: false,
  }))
}

function inputFor(seed: number) {
  const design = designById('counterSeat')!
  const built = design.build(Object.fromEntries(design.parameters.map((p) => [p.id, p.default])))
  if (!built.ok) throw new Error('the default seat cannot be built')
  const needs = blankNeedsFromModel(built.value, DEFAULT_ALLOWANCES)
  const boards = pool(seed)
  const cutPool = cutProblemFrom(boards, needs, {
    kerfUm: 3_200,
    limits: { minPieceLengthUm: 150_000, minPieceWidthUm: 19_000, stages: null },
    offcut: { minLengthUm: 300_000, minWidthUm: 40_000 },
    allowances: DEFAULT_ALLOWANCES,
  })
  const plan = planCuts(cutPool.problem, { seed, budget: { maxSteps: 5_000 } })
  const from = { model: built.value, needs, boards, pool: cutPool, layouts: plan.layouts }
  return {
    made: plan.weightMade,
    input: setupInputFrom({ ...from, allowances: DEFAULT_ALLOWANCES, shop: DEFAULT_SETUP_SHOP }),
  }
}

describe.each([1, 2, 3])('counter seats out of pool %d', (seed) => {
  const { made, input } = inputFor(seed)
  const plan = planSetups(input)

  test('pass the independent check', () => {
    expect(made).toBeGreaterThan(0)
    expect(verifySetups(input, plan)).toEqual([])
  })

  test('are proven to need the fewest settings, far fewer than piece by piece', () => {
    expect(plan.status).toBe('optimal')
    expect(plan.settings).toBe(plan.settingsBound)
    expect(plan.settings).toBeLessThan(plan.settingsPieceByPiece / 2)
  })

  test('cut all raked ends of the legs with the sled at the rake', () => {
    const legs = plan.setups.flatMap((setup) =>
      setup.cuts.filter((c) => c.kind === 'endCut' && c.pieceId.includes('leg')).map(() => setup),
    )
    expect(legs.length).toBeGreaterThan(0)
    const rake = input.model.parts
      .flatMap((p) => p.operations)
      .find((op) => op.kind === 'notch' && op.skewRad !== 0)
    for (const setup of legs) {
      expect(Math.abs(setup.settings.sledAngleRad ?? 0)).toBeCloseTo(
        Math.abs(rake?.kind === 'notch' ? rake.skewRad : 9),
        9,
      )
    }
  })
})

test('a board that is not in the pool is refused', () => {
  const { input } = inputFor(1)
  expect(input.boards.length).toBeGreaterThan(0)
  const wrong = {
    problem: { boards: [{ id: 'nobody', lengthUm: 1, widthUm: 1, cost: 1 }] },
    boardIds: ['nobody'],
  }
  expect(() =>
    setupInputFrom({
      model: input.model,
      needs: [],
      boards: [],
      pool: wrong as never,
      layouts: [],
      allowances: DEFAULT_ALLOWANCES,
      shop: DEFAULT_SETUP_SHOP,
    }),
  ).toThrow(/nobody/)
})
