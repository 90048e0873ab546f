import { describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { money } from '#lib/core/units/money'
import type { VariantSum } from '#lib/engine/variant-run'
import { shownRow } from '#lib/shop/compare-variants'
import { type Column, numberRows, sumRows } from '../../app/builds/[id]/variants/comparison-rows'

const SUM: VariantSum = {
  figures: {
    sizeMm: [1009.6, 473.44, 596.4],
    weightKg: 10,
    woodM3: 0.0167,
    roughM3: 0.0198,
    boardM2: 0.75,
    parts: 28,
    kinds: 6,
    screws: 80,
    joints: 44,
    woodCost: money(1287, 'EUR'),
    settings: 24,
    settingSeconds: 7_200,
    cuttingSeconds: 9_360,
  },
  strength: { level: 'good', verdict: 'It holds', margin: 1.479, check: 'Tipping', words: '' },
}
const more = (over: Partial<VariantSum['figures']>, margin = 1.479): VariantSum => ({
  figures: { ...SUM.figures, ...over },
  strength: { ...(SUM.strength as object), margin } as VariantSum['strength'],
})
const specs = designById('counterSeat')!.parameters
const column = (sum: Column['sum'], parameters = {}): Column => ({
  name: 'x',
  specs,
  parameters,
  sum,
  pool: '',
})
const shown = (sums: readonly Column['sum'][], units: 'mm' | 'in' = 'mm') =>
  new Map(
    sumRows(
      sums.map((s) => column(s)),
      units,
      'EUR',
    ).map((row) => [row.id, shownRow(row)]),
  )
const texts = (rows: ReturnType<typeof shown>, id: string) => rows.get(id)!.cells.map((c) => c.text)
const deltas = (rows: ReturnType<typeof shown>, id: string) =>
  rows.get(id)!.cells.map((c) => c.against?.text ?? null)

describe('what a variant comes to, in words', () => {
  test('metric', () => {
    const rows = shown([SUM])
    expect(
      ['strength', 'width', 'depth', 'weight', 'hours', 'area', 'wood', 'cost'].map(
        (id) => texts(rows, id)[0],
      ),
    ).toEqual(['1.47×', '1009.6 mm', '473.4 mm', '10 kg', '4.6 h', '0.75 m²', '19.8 l', '€12.87'])
  })

  test('inches, pounds and board feet', () => {
    const rows = shown([SUM], 'in')
    expect(texts(rows, 'weight')).toEqual(['22 lb'])
    // 0.0198 m3 over 0.002359737 m3 a board foot.
    expect(texts(rows, 'wood')).toEqual(['8.39 bd ft'])
    expect(texts(rows, 'width')[0]).toMatch(/^39 3\/4/)
  })
})

test('a difference is that of what is shown, and a margin is rounded down', () => {
  const rows = shown([SUM, more({ weightKg: 10.32 }, 1.249), more({ weightKg: 9.5 }, 25)])
  expect(texts(rows, 'strength')).toEqual(['1.47×', '1.24×', 'over 20×'])
  expect(deltas(rows, 'strength').slice(0, 2)).toEqual([null, '0.23× less'])
  expect(deltas(rows, 'weight')).toEqual([null, '0.32 kg more', '0.5 kg less'])
})

test('no price, no strength, no piece, not worked out yet: said as such', () => {
  const rows = shown([
    more({ woodCost: null }),
    { ...SUM, strength: 'No load is known for it.' },
    'It would tip.',
    null,
  ])
  expect(texts(rows, 'cost')).toEqual(['No price yet', '€12.87', 'Makes no piece', null])
  expect(texts(rows, 'strength')).toEqual(['1.47×', 'Cannot be judged', 'Makes no piece', null])
  expect(texts(rows, 'check')[1]).toBe('No load is known for it.')
})

test('numbers of the design: only what differs is marked', () => {
  const rows = numberRows([column(SUM), column(SUM, { rake: 12, species: 'whiteOak' })], 'mm').map(shownRow)
  expect(
    rows.filter((r) => r.differs).map((r) => [r.label, r.cells[1].text, r.cells[1].against?.text]),
  ).toEqual([
    ['Rake', '12°', '4° more'],
    ['Wood', 'White oak', 'other'],
  ])
})
