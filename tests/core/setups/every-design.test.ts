/** The set-ups of every design in the registry, made out of a pool of ordinary boards. */
import { describe, expect, test } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { blankNeedsFromModel } from '#lib/core/board/demand'
import { cutProblemFrom, type PoolBoard } from '#lib/core/cutting/from-pool'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { designById, designs } from '#lib/core/design/designs/registry'
import type { Design, ParameterValues } from '#lib/core/design/model'
import { setupInputFrom } from '#lib/core/setups/from-cut-plan'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupSettings } from '#lib/core/setups/setup-plan'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'

/** Sound boards, enough of each thickness for any design, a few millimetres over the parts' own. */
function pool(thicknessesMm: readonly number[]): readonly PoolBoard[] {
  return thicknessesMm.flatMap((thicknessMm, t) =>
    Array.from({ length: 14 }, (_, i) => ({
      id: `b${t}-${i}`,
      label: `B${t}-${i}`,
      lengthUm: 2_400_000,
      widthUm: 210_000,
      thicknessUm: Math.round(thicknessMm * 1000) + 3_000,
      species: 'redOak',
      warp: { cupUm: 200, bowUm: 500, crookUm: 0, twistUm: 0 },
      defects: [],
      finish: 'bare' as const,
      metal: 'cleared' as const,
      lead: 'notNeeded' as const,
      treated: false,
    })),
  )
}

function inputFor(design: Design, values: ParameterValues = {}) {
  const built = design.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  const model = built.value
  const needs = blankNeedsFromModel(model, DEFAULT_ALLOWANCES)
  const boards = pool([...new Set(model.parts.map((part) => part.blank.thicknessMm))])
  const cutPool = cutProblemFrom(boards, needs, {
    kerfUm: 3_200,
    limits: { minPieceLengthUm: 100_000, minPieceWidthUm: 19_000, stages: null },
    offcut: { minLengthUm: 300_000, minWidthUm: 40_000 },
    allowances: DEFAULT_ALLOWANCES,
  })
  const plan = planCuts(cutPool.problem, { seed: 1, budget: { maxSteps: 3_000 } })
  const from = { model, needs, boards, pool: cutPool, layouts: plan.layouts }
  return {
    model,
    input: setupInputFrom({ ...from, allowances: DEFAULT_ALLOWANCES, shop: DEFAULT_SETUP_SHOP }),
  }
}

/** As they stand, and with edges chamfered and fields engraved. */
const CASES: readonly { id: string; design: Design; values: ParameterValues }[] = [
  ...designs.map((design) => ({ id: design.id, design, values: {} })),
  ...[
    { id: 'counterSeat', values: { back: 'low', seatBoards: 3, field: 'backrest', footChamfer: 3 } },
    { id: 'splayedStool', values: { footChamfer: 4 } },
    { id: 'crate', values: { field: 'both' } },
  ].map(({ id, values }) => ({ id: `${id}, eased and engraved`, design: designById(id)!, values })),
]

describe.each(CASES)('$id', ({ design, values }) => {
  const { model, input } = inputFor(design, values)
  const plan = planSetups(input)

  test('every part is cut, every operation made, and the independent check passes', () => {
    expect(plan.partsWithoutPiece).toEqual([])
    expect(verifySetups(input, plan)).toEqual([])
    const made = new Set(
      plan.setups.flatMap((setup) =>
        setup.cuts.flatMap((cut) => (cut.operationIds ?? []).map((id) => `${cut.pieceId} ${id}`)),
      ),
    )
    for (const part of model.parts)
      for (const op of part.operations) expect(made.has(`${part.id} ${op.id}`)).toBe(true)
  })

  test('alike cuts share a set-up', () => {
    expect(plan.settings).toBeLessThan(plan.settingsPieceByPiece)
    expect(plan.settings).toBeGreaterThanOrEqual(plan.settingsBound)
  })
})

test('a bevelled edge with its fence, tilt or guide wrong is found', () => {
  const stool = designs.find(({ id }) => id === 'splayedStool')!
  const { input } = inputFor(stool)
  const plan = planSetups(input)
  const bevels = plan.setups.filter((setup) => setup.kind === 'edgeBevel')
  expect(bevels.length).toBeGreaterThan(0)
  const faultsWith = (settings: Partial<SetupSettings>) =>
    verifySetups(input, {
      ...plan,
      setups: plan.setups.map((setup) =>
        setup === bevels[0] ? { ...setup, settings: { ...setup.settings, ...settings } } : setup,
      ),
    }).map(({ kind, message }) => `${kind}: ${message}`)
  const { fenceMm = 0, bladeTiltRad = 0 } = bevels[0].settings
  expect(bladeTiltRad).toBeCloseTo((8 * Math.PI) / 180, 9)
  // The narrower face: width less thickness × tan 8°.
  expect(fenceMm).toBeCloseTo(60 - 30 * Math.tan((8 * Math.PI) / 180), 2)
  expect(faultsWith({})).toEqual([])
  expect(faultsWith({ fenceMm: 60 })).toContain('setting: the fence is not at the narrower face')
  expect(faultsWith({ bladeTiltRad: -bladeTiltRad })).toContain(
    'setting: the blade does not lean to this side',
  )
  expect(faultsWith({ bladeTiltRad: bladeTiltRad + 0.01 })).toContain(
    'setting: blade tilt does not make this bevel',
  )
  expect(faultsWith({ guide: 'sled' })).toContain('setting: not along the fence')
})
