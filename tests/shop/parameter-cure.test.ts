import { expect, test } from 'vitest'
import { planForms } from '#lib/core/cutting/plan-forms'
import { designById } from '#lib/core/design/designs/registry'
import { unlimited } from '#lib/core/units/budget'
import { cutShop } from '#lib/shop/machines'
import { parameterCures } from '#lib/shop/parameter-cure'
import { type PlannedBoard, planInput } from '#lib/shop/plan-input'

const SHOP = cutShop(
  { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 },
  [],
)
const board = (number: number, lengthUm: number, widthUm: number, thicknessUm: number): PlannedBoard => ({
  ...{ id: `b${number}`, number, label: `${number}`, ownerId: 'olga', ownerName: 'Olga', terms: 'free' },
  ...{ version: 1, place: '', origin: 'salvage', reluctance: 1, needsYes: false, isHeldHere: false },
  ...{ lengthUm, widthUm, thicknessUm, species: 'whiteOak' },
  warp: { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 },
  ...{ defects: [], finish: 'bare', metal: 'cleared', lead: 'notNeeded', treated: false },
})
const design = designById('plantStand')
if (!design) throw new Error('no plant stand')
const parameters = Object.fromEntries(design.parameters.map((p) => [p.id, p.default]))
const question = (boards: readonly PlannedBoard[]) => ({
  ...{ parameters, boards, partsMade: [], gluedUp: [], shop: SHOP },
})

const missing = (values: typeof parameters, boards: readonly PlannedBoard[]) => {
  const model = design.build(values)
  if (!model.ok) throw new Error('cannot be built')
  const input = planInput(model.value, boards, new Set(), SHOP)
  return planForms(input.pool.problem, { seed: 1, budget: { maxSteps: 2_000 } }).shortages
}

test('rails that are 4 mm too long for the boards: the width is made just so much less that they fit', () => {
  // Rails of 342 mm are 344 in the rough; boards of 360 less 20 of trim hold 340.
  const boards = [
    ...[1, 2, 3, 4].map((n) => board(n, 360_000, 60_000, 26_000)),
    ...[5, 6, 7, 8].map((n) => board(n, 480_000, 50_000, 36_000)),
  ]
  const short = missing(parameters, boards)
  expect(short).toHaveLength(1)
  const found = parameterCures(design, question(boards), unlimited)
  expect(found.cures.length).toBeGreaterThan(0)
  for (const cure of found.cures) {
    expect(missing({ ...parameters, [cure.parameter]: cure.to }, boards)).toEqual([])
    const spec = design.parameters.find((p) => p.id === cure.parameter)
    const back = cure.to + Math.sign(cure.from - cure.to) * Math.max(1, spec?.step ?? 0)
    // One step less of a change does not do.
    if (back !== cure.from) expect(missing({ ...parameters, [cure.parameter]: back }, boards)).not.toEqual([])
  }
  expect(found.cures.map((c) => c.size)).toEqual(found.cures.map((c) => c.size).sort((a, b) => a - b))
})

test('no boards at all: no number helps', () => {
  expect(parameterCures(design, question([]), unlimited)).toMatchObject({ cures: [], isStopped: false })
})

test('a budget of tries is kept, and a stop is heard', () => {
  const boards = [board(1, 360_000, 60_000, 26_000)]
  expect(parameterCures(design, question(boards), { maxSteps: 3 })).toMatchObject({
    tried: 3,
    isStopped: true,
  })
  const stopped = parameterCures(design, question(boards), { ...unlimited, shouldStop: () => true })
  expect(stopped).toMatchObject({ tried: 0, isStopped: true })
})
