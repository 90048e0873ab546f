import { describe, expect, test } from 'vitest'
import { planForms } from '#lib/core/cutting/plan-forms'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { designById } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import { planSetups } from '#lib/core/setups/plan-setups'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { boardSheet } from '#lib/shop/board-sheet'
import { cuttingRecord, plannedCutting } from '#lib/shop/cutting'
import { cutShop } from '#lib/shop/machines'
import { boardsToPlanOn, type PlanInput, planInput, type StockBoard } from '#lib/shop/plan-input'
import { type PlanResult, partsOfPlan } from '#lib/shop/plan-result'
import { setupInput, type WorkBoard } from '#lib/shop/setup-work'
import {
  mayBeGluedUp,
  needsWithStaves,
  partOfStave,
  partsFinished,
  restOfPanelUm,
  staveId,
  staveNumber,
  stavesMade,
} from '#lib/shop/staves'

const SHOP = cutShop(
  { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 },
  [],
)
const stock = (number: number, lengthUm: number, widthUm: number, thicknessUm: number): StockBoard => ({
  ...{ id: `b${number}`, number, ownerId: 'olga', ownerName: 'Olga', terms: 'free', version: 1, place: '' },
  ...{ isOffcut: false, heldByBuildId: null, lengthUm, widthUm, thicknessUm, species: 'whiteOak' },
  warp: { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 },
  ...{ defects: [], finish: 'bare', metal: 'cleared', lead: 'notNeeded', treated: false },
})
const modelOf = (designId: string, parameters = {}): Model => {
  const built = designById(designId)?.build(parameters)
  if (!built?.ok) throw new Error(designId)
  return built.value
}

function solved(model: Model, boards: StockBoard[], gluedUp: string[], made: string[] = []) {
  const input = planInput(model, boardsToPlanOn('ada', 'build', boards), new Set(made), SHOP, { gluedUp })
  const plan = planForms(input.pool.problem, { seed: 1, budget: { maxSteps: 30_000 } })
  expect(verifyCutPlan(input.pool.problem, plan)).toEqual([])
  const result: PlanResult = { plan, partIds: partsOfPlan(plan, input) }
  return { input, plan, result }
}

function workBoards(input: PlanInput, result: PlanResult): WorkBoard[] {
  return result.plan.layouts.map(({ board, tree }, i) => {
    const { id, number, lengthUm, widthUm, thicknessUm, warp } = input.boards[board]
    return {
      id,
      number,
      lengthUm,
      widthUm,
      thicknessUm,
      warp,
      tree,
      partIds: result.partIds[i],
      isCut: false,
    }
  })
}

function setUps(model: Model, input: PlanInput, result: PlanResult) {
  const work = setupInput(model, workBoards(input, result), 300, DEFAULT_SETUP_SHOP)
  const plan = planSetups(work)
  expect(verifySetups(work, plan)).toEqual([])
  return plan
}

test('names of staves', () => {
  expect(staveId('top-1', 3)).toBe('top-1~3')
  expect(partOfStave('top-1~3')).toBe('top-1')
  expect(partOfStave('top-1')).toBe('top-1')
  expect([staveNumber('top-1~3'), staveNumber('top-1')]).toEqual([3, null])
})

describe('a panel that was begun', () => {
  test('what is wanted still: 303 of width, two staves of 102 cut, each loses a joint of 1: 101', () => {
    expect(restOfPanelUm(303_000, [102_000, 102_000])).toBe(101_000)
    expect(102 + 102 + 101 - 2 * 2 * 0.5).toBe(303)
  })
  test('is a need of its own, and may be glued up in any case', () => {
    const model = modelOf('bench')
    const [upright] = planInput(model, [], new Set(), SHOP).needs
    const [id] = upright.partIds
    const needs = needsWithStaves([upright], new Set(), new Map([[id, [60_000]]]))
    expect(needs.map((n) => [n.count, n.stave?.of])).toEqual([
      [upright.count - 1, undefined],
      [1, undefined],
      [0, 1],
    ])
    expect(needs[1]).toMatchObject({
      partIds: [id],
      stavesMade: 1,
      roughWidthUm: upright.roughWidthUm - 59_000,
    })
  })
  test('only staves of wide parts', () => {
    expect(mayBeGluedUp({ roughWidthUm: 78_999 })).toBe(false)
    expect(mayBeGluedUp({ roughWidthUm: 79_000 })).toBe(true)
  })
  test('a part is made with its last stave', () => {
    const planned = ['top~1', 'top~2', 'rail']
    expect(partsFinished(planned, ['top~1', 'rail'], new Set())).toEqual([])
    expect(partsFinished(planned, ['top~2'], new Set(['top~1']))).toEqual(['top'])
    expect([
      ...stavesMade([
        { partId: 'top~1', widthUm: 7 },
        { partId: 'rail', widthUm: 9 },
      ]),
    ]).toEqual([['top', [7]]])
  })
})

describe('uprights of a bench, 148 mm wide in the rough, out of boards of 80 mm', () => {
  const model = modelOf('bench')
  const uprights = model.parts.filter((p) => p.kind === 'upright').map((p) => p.id)
  const others = model.parts.filter((p) => p.kind !== 'upright').map((p) => p.id)
  const boards = Array.from({ length: 8 }, (_, i) => stock(i + 1, 470_000, 80_000, 34_000))

  test('none without glue', () => {
    const { plan } = solved(model, boards, [], others)
    expect(plan.weightMade).toBe(0)
  })
  test('all four of two staves, named, recorded, jointed and glued', () => {
    const { input, plan, result } = solved(model, boards, ['upright'], others)
    expect(plan.weightMade).toBe(4)
    const ids = result.partIds.flat()
    expect(ids).toHaveLength(8)
    expect([...new Set(ids.map(partOfStave))].sort()).toEqual([...uprights].sort())
    const board = input.pool.boardIds[plan.layouts[0].board]
    const planned = plannedCutting(input, result, board)
    if (!planned) throw new Error('not planned')
    expect(cuttingRecord(input.boards[0], planned, {}).ok).toBe(true)
    const setups = setUps(
      { ...model, parts: model.parts.filter((p) => uprights.includes(p.id)) },
      input,
      result,
    )
    const keys = setups.setups.flatMap((s) => s.cuts.map((c) => c.key))
    expect(keys.filter((k) => k.startsWith('joint:'))).toHaveLength(8)
    expect(keys.filter((k) => k.startsWith('glue:'))).toHaveLength(4)
  })
})

describe('legs of a counter seat, raked 8 degrees', () => {
  const model = modelOf('counterSeat', { abreast: 1 })
  const legs = new Set(model.parts.filter((p) => p.kind.startsWith('leg')).map((p) => p.id))
  const others = model.parts.filter((p) => !legs.has(p.id)).map((p) => p.id)

  test('nest: two hands of two come out of two boards that would hold one each by themselves', () => {
    // Each leg 591.4 in the rough, wide 48: leaning 48 tan 8 = 6.746. Two nested save that, less what the kerf grows.
    const [need] = planInput(model, [], new Set(others), SHOP).needs
    const nearUm = need.ends?.nearUm ?? 0
    const kerfAlong = Math.ceil(SHOP.kerfUm / Math.cos(Math.atan(6_746 / need.roughWidthUm)))
    const lengthUm = 2 * nearUm + 6_746 + kerfAlong + 20_000
    const { input, plan, result } = solved(
      model,
      [stock(1, lengthUm, 48_000, 45_000), stock(2, lengthUm, 48_000, 45_000)],
      [],
      others,
    )
    expect(plan.weightMade).toBe(4)
    const sheet = boardSheet(input, result, 0, () => 'leg')
    expect(sheet.cuts).toHaveLength(1)
    expect(Math.abs(sheet.cuts[0].slantUm ?? 0)).toBe(6_746)
    expect(sheet.parts.map((p) => p.leanUm !== undefined)).toEqual([true, true])
    const planned = plannedCutting(input, result, input.boards[0].id)
    expect(planned && cuttingRecord(input.boards[0], planned, {}).ok).toBe(true)
    const setups = setUps({ ...model, parts: model.parts.filter((p) => legs.has(p.id)) }, input, result)
    const slanted = setups.setups.filter(
      (s) => s.kind === 'crosscut' && Math.abs(s.settings.sledAngleRad ?? 0) > 0.01,
    )
    expect(slanted.length).toBeGreaterThan(0)
    for (const s of slanted)
      expect(Math.abs(s.settings.sledAngleRad ?? 0) * (180 / Math.PI)).toBeCloseTo(8, 1)
  })
})
