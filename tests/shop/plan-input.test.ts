import { describe, expect, test } from 'vitest'
import { planForms } from '#lib/core/cutting/plan-forms'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { designById } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import { cutShop } from '#lib/shop/machines'
import {
  boardsToPlanOn,
  canonicalJson,
  changesSince,
  isStale,
  type OrderOfCuts,
  orderOf,
  planInput,
  questionText,
  type StockBoard,
} from '#lib/shop/plan-input'

const stock: StockBoard = {
  id: 'b1',
  number: 1,
  ownerId: 'olga',
  ownerName: 'Olga',
  terms: 'free',
  version: 1,
  place: '',
  isOffcut: false,
  heldByBuildId: null,
  lengthUm: 2_000_000,
  widthUm: 150_000,
  thicknessUm: 45_000,
  species: 'whiteOak',
  warp: { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 },
  defects: [],
  finish: 'bare',
  metal: 'cleared',
  lead: 'notNeeded',
  treated: false,
}
const shop = cutShop(
  { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 },
  [],
)
const model = (() => {
  const built = designById('counterSeat')?.build({ abreast: 1 })
  if (!built?.ok) throw new Error('the design cannot be built')
  return built.value as Model
})()
const usable = (...boards: StockBoard[]) => boardsToPlanOn('ada', 'build', boards)
const input = (boards: StockBoard[], made: string[] = []) =>
  planInput(model, usable(...boards), new Set(made), shop)

describe('the order of cuts', () => {
  test('is part of the question, and is read from it again', () => {
    const asked = (order?: OrderOfCuts) => planInput(model, usable(stock), new Set(), shop, { order })
    const order = { firstCut: 'crosscut', stages: 2 } as const
    expect(asked(order).pool.problem.limits).toMatchObject(order)
    expect(orderOf(asked(order).shop)).toEqual(order)
    expect(orderOf(asked().shop)).toBeUndefined()
    expect(questionText(asked(order))).not.toBe(questionText(asked()))
    const plan = planForms(asked(order).pool.problem, { seed: 1, budget: { maxSteps: 3_000 } })
    expect(plan.layouts.length).toBeGreaterThan(0)
    expect(verifyCutPlan(asked(order).pool.problem, plan)).toEqual([])
  })
})

describe('which boards', () => {
  test('none that is kept or held elsewhere; held here is dearer to leave, asked for is dearer to take', () => {
    const boards = usable(
      stock,
      { ...stock, id: 'mine', ownerId: 'ada', terms: 'mine' },
      { ...stock, id: 'kept', terms: 'mine' },
      { ...stock, id: 'ask', terms: 'ask' },
      { ...stock, id: 'here', terms: 'ask', heldByBuildId: 'build' },
      { ...stock, id: 'there', heldByBuildId: 'other' },
    )
    expect(boards.map((b) => [b.id, b.needsYes, b.reluctance])).toEqual([
      ['b1', false, 1],
      ['mine', false, 1],
      ['ask', true, 1.5],
      ['here', false, 0.5],
    ])
  })
})

describe('the question', () => {
  test('parts made are not asked for again', () => {
    const [leg] = input([stock]).needs
    const again = input([stock], [leg.partIds[0]])
    expect(again.needs.flatMap((n) => n.partIds)).not.toContain(leg.partIds[0])
    expect(
      input(
        [stock],
        model.parts.map((p) => p.id),
      ).needs,
    ).toEqual([])
  })

  test('one text for one question, whatever the order and whoever holds the board', () => {
    const other = { ...stock, id: 'b2', number: 2 }
    const text = questionText(input([stock, other]))
    expect(questionText(input([other, { ...stock, heldByBuildId: 'build' }]))).toBe(text)
    expect(questionText(input([{ ...stock, version: 2 }, other]))).not.toBe(text)
    expect(questionText(input([stock]))).not.toBe(text)
  })

  test('JSON in order', () => {
    expect(canonicalJson({ b: [1, { d: null, c: 'x' }], a: undefined })).toBe('{"b":[1,{"c":"x","d":null}]}')
  })
})

test('what has changed: the design, boards that are waited for, boards that came', () => {
  const before = input([stock])
  const none = { isDesignChanged: false, boards: [], newBoards: 0 }
  const waiting = new Set(['b1'])
  expect(changesSince(before, input([stock]), waiting)).toEqual(none)
  expect(changesSince(before, input([{ ...stock, version: 2 }]), waiting).boards).toEqual([
    { number: 1, why: 'changed' },
  ])
  expect(changesSince(before, input([]), waiting).boards).toEqual([{ number: 1, why: 'notForUse' }])
  expect(changesSince(before, input([]), new Set())).toEqual(none)
  expect(changesSince(before, input([stock, { ...stock, id: 'b2' }]), waiting)).toEqual({
    ...none,
    newBoards: 1,
  })
  const other = { ...before, design: { ...before.design, parameters: { rake: 9 } } }
  expect(isStale(changesSince(before, other, waiting))).toBe(true)
  expect(isStale({ ...none, newBoards: 3 })).toBe(false)
})
