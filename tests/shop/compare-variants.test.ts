import { describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import type { Model, ParameterSpec } from '#lib/core/design/model'
import { changedParts, parameterRows, shownRow } from '#lib/shop/compare-variants'

const mm = (value: number) => `${Math.round(value)} mm`

describe('a row', () => {
  test('differs where it reads differently, by how much from the first', () => {
    const row = shownRow({ id: 'h', label: 'Height', cells: [600, 640, 580, 600], say: mm })
    expect(row.differs).toBe(true)
    expect(row.cells.map((c) => c.against?.text ?? null)).toEqual([null, '40 mm more', '20 mm less', null])
    expect(row.cells.map((c) => c.against?.way ?? null)).toEqual([null, 'more', 'less', null])
  })

  test('what reads alike is alike', () => {
    const row = shownRow({ id: 'h', label: 'Height', cells: [600, 600.2], say: mm })
    expect(row).toMatchObject({ differs: false, cells: [{ against: null }, { against: null }] })
  })

  test('what is not known yet neither differs nor is alike', () => {
    const row = shownRow({ id: 'h', label: 'Height', cells: [600, null], say: mm })
    expect(row).toMatchObject({ differs: false, cells: [{ text: '600 mm' }, { text: null, against: null }] })
  })

  test('words are other words', () => {
    const row = shownRow({ id: 'w', label: 'Wood', cells: ['beech', 'oak'], say: String })
    expect(row.cells[1].against).toEqual({ way: 'other', text: 'other' })
    expect(row.differs).toBe(true)
  })

  test('one variant alone differs from nothing', () => {
    expect(shownRow({ id: 'h', label: 'Height', cells: [600], say: mm }).differs).toBe(false)
  })
})

const say = (spec: ParameterSpec, value: number | string) => `${value}${spec.unit === 'deg' ? '°' : ''}`

test('parameters of two designs: each row once, empty where a design has none', () => {
  const columns = ['counterSeat', 'plantStand'].map((id) => ({
    specs: designById(id)!.parameters,
    parameters: {},
  }))
  const rows = parameterRows(columns, say)
  const ids = rows.map((r) => r.id)
  expect(new Set(ids).size).toBe(ids.length)
  expect(new Set(ids)).toEqual(new Set(columns.flatMap((c) => c.specs.map((s) => s.id))))
  expect(rows.find((r) => r.id === 'rake')?.cells[1]).toBeNull()
})

test('a parameter that was left out is its default', () => {
  const { parameters: specs } = designById('counterSeat')!
  const rows = parameterRows(
    [
      { specs, parameters: { rake: 10 } },
      { specs, parameters: {} },
    ],
    say,
  )
  const rake = specs.find((s) => s.id === 'rake')!
  expect(rows.find((r) => r.id === 'rake')?.cells).toEqual([10, rake.default])
})

function seat(over: Record<string, number | string> = {}): Model {
  const built = designById('counterSeat')!.build({ abreast: 1, ...over })
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}

describe('parts that change', () => {
  test('none with the same numbers', () => expect(changedParts(seat(), seat())).toEqual([]))

  test('a higher counter: longer legs, four of them, and nothing of the seat boards', () => {
    const changes = changedParts(seat(), seat({ counterHeight: 960 }))
    const legs = changes.filter((c) => c.kind.startsWith('leg'))
    expect(legs.reduce((sum, c) => sum + c.count, 0)).toBe(4)
    for (const c of legs) expect(c.afterUm![0]).toBeGreaterThan(c.beforeUm![0])
    expect(changes.some((c) => c.kind === 'seat board')).toBe(false)
  })

  test('other screws: the same sizes, other cuts', () => {
    const changes = changedParts(seat(), seat({ screwSize: 'no10' }))
    expect(changes.length).toBeGreaterThan(0)
    expect(new Set(changes.map((c) => c.how))).toEqual(new Set(['cuts']))
  })

  test('one seat more: its fourteen parts are new; one less: gone', () => {
    const [one, two] = [seat({ counterLength: 1300 }), seat({ counterLength: 1300, abreast: 2 })]
    const count = (list: ReturnType<typeof changedParts>, how: string) =>
      list.filter((c) => c.how === how).reduce((sum, c) => sum + c.count, 0)
    expect(count(changedParts(one, two), 'new')).toBe(14)
    expect(count(changedParts(two, one), 'gone')).toBe(14)
  })
})
