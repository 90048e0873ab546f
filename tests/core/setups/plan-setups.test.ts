import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { BoardLayout, CutNode } from '#lib/core/cutting/problem'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import type { SetupPlan } from '#lib/core/setups/setup-plan'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { seededRng } from '#lib/core/units/rng'
import { part, randomInput } from './small-work'

/** Four blanks of `lengthUm` side by side out of a board 100 mm wide, by crosscuts one after the other. */
function fourAbreast(lengthUm: number): CutNode {
  const blank = (i: number): CutNode => ({
    kind: 'blank',
    xUm: i * (lengthUm + 3_200),
    yUm: 0,
    lengthUm,
    widthUm: 100_000,
    blank: 0,
    turned: false,
  })
  const rest = (i: number): CutNode => {
    if (i === 3) return blank(3)
    const left = 4 * lengthUm + 3 * 3_200 - i * (lengthUm + 3_200)
    return {
      kind: 'cut',
      xUm: i * (lengthUm + 3_200),
      yUm: 0,
      lengthUm: left,
      widthUm: 100_000,
      cut: 'crosscut',
      atUm: lengthUm,
      first: blank(i),
      second: rest(i + 1),
    }
  }
  return rest(0)
}

function fourParts(lengthUm: number, thicknessUm: number): SetupInput {
  const parts = ['a', 'b', 'c', 'd'].map((id) => part(id, lengthUm / 1000, 97, 19))
  const layouts: BoardLayout[] = [{ board: 0, copies: 1, tree: fourAbreast(lengthUm) }]
  return {
    model: { parts },
    layouts,
    boards: [{ id: 'b1', name: 'B1', lengthUm: 4 * lengthUm + 9_600, widthUm: 100_000, thicknessUm }],
    blanks: [{ id: 'shelf', name: 'Shelf' }],
    needs: [{ blank: 0, partIds: parts.map((p) => p.id) }],
    shop: DEFAULT_SETUP_SHOP,
  }
}

const titles = (plan: SetupPlan): readonly string[] => plan.setups.map((setup) => setup.title)

test('four shelves: three crosscuts at one stop, one fence for all widths', () => {
  const plan = planSetups(fourParts(400_000, 19_000))
  expect(titles(plan)).toEqual(['Crosscut: sled square, stop at 400 mm', 'Rip: fence at 97 mm'])
  expect(plan.setups.map((setup) => setup.cuts.length)).toEqual([3, 4])
  expect(plan).toMatchObject({ status: 'optimal', settings: 2, settingsBound: 2 })
  expect(plan.settingsPieceByPiece).toBeGreaterThan(2)
})

test('pieces long enough are planed after they are cut, in the passes that the thickness asks for', () => {
  const plan = planSetups(fourParts(400_000, 25_400))
  const planing = plan.setups.find((setup) => setup.kind === 'plane')!
  expect(planing.cuts.map((cut) => cut.pieceName)).toEqual(['Part a', 'Part b', 'Part c', 'Part d'])
  // ceil((25.4 - 19) / 1.5) = 5
  expect(planing.cuts.map((cut) => cut.passes)).toEqual([5, 5, 5, 5])
  expect(planing.settings.thicknessMm).toBe(19)
})

test('pieces too short for the planer are planed as one board, before they are cut', () => {
  const plan = planSetups(fourParts(250_000, 25_400))
  expect(plan.setups[0]).toMatchObject({ kind: 'plane', cuts: [{ pieceId: 'b1' }] })
  expect(plan.warnings.map((warning) => warning.code)).toContain('planedWhole')
})

test('a board too thin for its part stops the plan', () => {
  const { warnings } = planSetups(fourParts(400_000, 18_000))
  expect(warnings.filter((warning) => warning.level === 'stop').map((warning) => warning.code)).toContain(
    'boardTooThin',
  )
})

test('a part without a piece is named and none of its cuts are planned', () => {
  const input = fourParts(400_000, 19_000)
  const plan = planSetups({ ...input, model: { parts: [...input.model.parts, part('e', 300, 50, 19)] } })
  expect(plan.partsWithoutPiece).toEqual(['e'])
  expect(plan.warnings).toContainEqual(expect.objectContaining({ code: 'noPiece', key: 'e' }))
})

test('no work at all is an empty plan', () => {
  const plan = planSetups({ ...fourParts(400_000, 19_000), layouts: [], model: { parts: [] } })
  expect(plan).toMatchObject({ setups: [], stations: [], settings: 0, settingSeconds: 0, status: 'optimal' })
})

test('indexes out of range are refused', () => {
  const input = fourParts(400_000, 19_000)
  expect(() => planSetups({ ...input, boards: [] })).toThrow(/no board 0/)
  expect(() => planSetups({ ...input, blanks: [] })).toThrow(/no blank 0/)
})

test('keys are the same when the same work is planned again, whatever the machines', () => {
  const input = fourParts(400_000, 25_400)
  const keys = (plan: SetupPlan): readonly string[] =>
    plan.setups.flatMap((s) => s.cuts.map((c) => c.key)).toSorted()
  const slow = { ...input.shop, planer: { ...input.shop.planer, maxPassMm: 0.8 } }
  expect(keys(planSetups({ ...input, shop: slow }))).toEqual(keys(planSetups(input)))
})

test('every set-up says what to try, what to check it with and what to mind', () => {
  const { setups } = planSetups(randomInput(seededRng(3)))
  for (const setup of setups) {
    expect(setup.testCut).not.toBe('')
    expect(setup.checkWith).not.toBe('')
    expect(setup.cautions.join(' ')).toMatch(/manual/)
    if (setup.station === 'tableSaw') expect(setup.cautions.join(' ')).toMatch(/[Mm]etal cleared/)
  }
})

describe('random jobs', () => {
  test('pass the independent check, and meet their own bound', () => {
    let cuts = 0
    let holdsNotch = 0
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const input = randomInput(seededRng(seed))
        const plan = planSetups(input)
        expect(verifySetups(input, plan)).toEqual([])
        expect(plan.settingsBound).toBeLessThanOrEqual(plan.settings)
        cuts += plan.setups.reduce((sum, setup) => sum + setup.cuts.length, 0)
        holdsNotch += plan.setups.some((setup) => setup.kind === 'notch') ? 1 : 0
      }),
      { numRuns: 150, seed: 11 },
    )
    expect(cuts).toBeGreaterThan(1_000)
    expect(holdsNotch).toBeGreaterThan(15)
  })

  test('the same job gives the same plan', () => {
    const plans = [1, 2].map(() => planSetups(randomInput(seededRng(99))))
    expect(plans[0]).toEqual(plans[1])
  })
})
