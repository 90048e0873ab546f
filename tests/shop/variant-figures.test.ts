import { describe, expect, test } from 'vitest'
import { designById, designs } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import { board } from '#lib/core/design/placed-part'
import { planSetups } from '#lib/core/setups/plan-setups'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { money } from '#lib/core/units/money'
import { cutShop, setupShop } from '#lib/shop/machines'
import {
  boardForEach,
  overallSizeMm,
  pieceFigures,
  type VariantShop,
  variantFigures,
  workFigures,
} from '#lib/shop/variant-figures'

const ALLOWANCES = { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 }
const shop: VariantShop = {
  cut: cutShop(ALLOWANCES, []),
  setups: setupShop([]),
  prices: { currency: 'EUR', softwoodPerM3Minor: 60_000, hardwoodPerM3Minor: 200_000 },
}

function modelOf(id: string, over: Record<string, number | string> = {}): Model {
  const built = designById(id)!.build(over)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}

describe.each(designs.map((d) => d.id))('%s', (id) => {
  const model = modelOf(id)
  const figures = variantFigures(model, shop)

  test('weighs what its own figures say', () => {
    const said =
      model.figures.find((f) => f.id === 'weightAll') ?? model.figures.find((f) => f.id === 'weight')
    expect(figures.weightKg).toBeCloseTo(said!.value, 6)
  })

  test('the finished wood is less than the rough wood, which is the blanks with their allowances', () => {
    expect(figures.woodM3).toBeGreaterThan(0.3 * figures.roughM3)
    expect(figures.woodM3).toBeLessThan(figures.roughM3)
    const byHand = model.parts.reduce((sum, { blank }) => {
      // 2 mm on length, 3 mm on width, (0.5 + 0.3) mm on each face: the shop's allowances above.
      return sum + (blank.lengthMm + 2) * (blank.widthMm + 3) * (blank.thicknessMm + 1.6)
    }, 0)
    // Blanks are snapped to the micrometre, once; those with slanted ends are a little longer.
    expect((figures.roughM3 * 1e9) / byHand).toBeGreaterThan(0.999_99)
    expect((figures.roughM3 * 1e9) / byHand).toBeLessThan(1.01)
  })

  test('its work passes the check of set-ups that shares no code with their planning', () => {
    const input = boardForEach(model, shop)
    const plan = planSetups(input)
    const known = new Set(['tooWideForFence', 'tooWideForSled'])
    expect(plan.partsWithoutPiece).toEqual([])
    expect(verifySetups(input, plan).filter((f) => !known.has(f.kind))).toEqual([])
  })
})

test('the box around two boards, by hand', () => {
  const look = { finish: 'clear', species: 'any' }
  const name = { kind: 'board', grain: 'x', face: 'up' } as const
  const parts = [
    board(look, { ...name, id: 'a', name: 'a' }, [
      [0, 600],
      [0, 90],
      [0, 20],
    ]),
    board(look, { ...name, id: 'b', name: 'b' }, [
      [-50, 100],
      [80, 200],
      [20, 45],
    ]),
  ]
  expect(overallSizeMm(parts).map((mm) => Number(mm.toFixed(6)))).toEqual([650, 200, 45])
})

test('the width of one counter seat is the one that its design reckons', () => {
  const model = modelOf('counterSeat', { abreast: 1 })
  const of = (id: string) => model.figures.find((f) => f.id === id)!.value
  const { sizeMm } = pieceFigures(model, shop)
  expect(sizeMm[0]).toBeCloseTo(of('overallWidth'), 2)
  expect(sizeMm[1]).toBeCloseTo(of('overallDepth'), 2)
  expect(sizeMm[2]).toBeCloseTo(of('seatHeight'), 2)
})

describe('what the wood would cost new', () => {
  const cost = (over: Record<string, string>, prices: Partial<VariantShop['prices']> = {}) =>
    pieceFigures(modelOf('sideTable', over), { ...shop, prices: { ...shop.prices, ...prices } }).woodCost

  test('volume times price: 600 € a m3 for softwood and for any wood, 2000 € for hardwood', () => {
    const { roughM3 } = pieceFigures(modelOf('sideTable', { species: 'softwood' }), shop)
    expect(cost({ species: 'softwood' })!.minor / 100).toBeCloseTo(600 * roughM3, 1)
    expect(cost({ species: 'any' })).toEqual(cost({ species: 'softwood' }))
    expect(cost({ species: 'whiteOak' })!.minor / 100).toBeCloseTo(2000 * roughM3, 1)
    expect(cost({ species: 'ponderosaPine' })).toEqual(cost({ species: 'softwood' }))
  })

  test('no price, no sum; in the shop’s currency', () => {
    expect(cost({ species: 'beech' }, { hardwoodPerM3Minor: null })).toBeNull()
    expect(cost({ species: 'beech' }, { currency: 'JPY', hardwoodPerM3Minor: 0 })).toEqual(money(0, 'JPY'))
  })
})

test('more of the same parts: more hours, no more settings that differ', () => {
  const [one, three] = [1, 3].map((abreast) =>
    workFigures(modelOf('counterSeat', { abreast, counterLength: 3000 }), shop),
  )
  expect(three.settings).toBe(one.settings)
  expect(three.cuttingSeconds).toBeCloseTo(3 * one.cuttingSeconds, 6)
  expect(three.settingSeconds).toBeLessThan(1.5 * one.settingSeconds)
})
