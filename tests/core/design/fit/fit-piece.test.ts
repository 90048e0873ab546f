/** The fit of whole pieces to their place: tables, niches, walls, doors; and what drawings show of a clash. */
import { beforeAll, describe, expect, it } from 'vitest'
import { bench } from '#lib/core/design/designs/bench/bench'
import { bookcase } from '#lib/core/design/designs/bookcase/bookcase'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { designs } from '#lib/core/design/designs/registry'
import { splayedStool } from '#lib/core/design/designs/splayed-stool/splayed-stool'
import { stepStool } from '#lib/core/design/designs/step-stool/step-stool'
import { trestleTable } from '#lib/core/design/designs/trestle-table/trestle-table'
import { wallShelf } from '#lib/core/design/designs/wall-shelf/wall-shelf'
import { drawView, modelViews } from '#lib/core/design/drawing/draw-model'
import type { Model, ParameterValues } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { figureOf, modelOf } from '../ask-design'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const stops = (model: Model): string[] =>
  model.notices.filter(({ level }) => level === 'stop').map(({ parameter }) => parameter ?? '')
const lineOf = (model: Model, id: string) => model.fit?.find((line) => line.id === id)

describe.each(designs.map((design) => [design.id, design] as const))('%s', (_, design) => {
  it('as it stands clashes with nothing, says its way in, and where each size is measured', () => {
    const model = modelOf(design)
    expect(model.clashes).toBeUndefined()
    const ids = model.fit?.map(({ id }) => id) ?? []
    expect(ids.slice(-2)).toEqual(['door', 'turn'])
    expect(new Set(ids).size).toBe(ids.length)
    for (const { measured, source, parameter } of model.fit ?? []) {
      expect(measured.length).toBeGreaterThan(10)
      expect(source).toBeTruthy()
      expect(design.parameters.some(({ id }) => id === parameter)).toBe(true)
    }
    for (const { message } of model.notices) expect(message).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('does not pass a door too narrow for it either way, and says so', () => {
    const model = modelOf(design, { doorWidth: 400, doorHeight: 1500, turnWidth: 500 })
    const { words, level } = lineOf(model, 'door')!
    expect(words === 'does not pass').toBe(level === 'caution')
    expect(model.notices.some(({ parameter }) => parameter === 'doorWidth')).toBe(level === 'caution')
  })
})

describe('a seat pushed under a table', () => {
  it('goes under where its top is low enough, else it is marked in the way', () => {
    const under: ParameterValues = {
      standsAt: 'table',
      tableHeight: 740,
      tableThickness: 100,
      tuckUnder: 200,
    }
    expect(stops(modelOf(bench, under))).toEqual([])
    const high = modelOf(bench, { ...under, tableHeight: 500 })
    expect(stops(high)).toContain('tableHeight')
    expect(high.clashes?.every(({ placeId }) => placeId === 'counter')).toBe(true)
    expect(stops(modelOf(bench, { ...under, tableHeight: 500, tuckUnder: 0 }))).toEqual([])
    expect(lineOf(modelOf(splayedStool, under), 'thighRoom')).toBeDefined()
    expect(lineOf(modelOf(splayedStool), 'thighRoom')).toBeUndefined()
  })

  it('a clash is hatched on the drawings: lines of its own kind, within what is in the way', () => {
    const model = modelOf(bench, { standsAt: 'table', tableHeight: 500, tableThickness: 100, tuckUnder: 200 })
    const [side] = modelViews(kernel, model).filter(({ view }) => view === 'side')
    const marks = drawView(model, side, { textMm: 12 }).lines.filter(({ kind }) => kind === 'clash')
    expect(marks.length).toBeGreaterThan(8)
    for (const [y, z] of marks.flatMap(({ points }) => points)) {
      expect(y).toBeGreaterThan(320 - 200 - 1e-6)
      expect(y).toBeLessThan(320 + 1e-6)
      expect(z).toBeGreaterThan(400 - 1e-6)
    }
    const fine = drawView({ ...model, clashes: undefined }, side, { textMm: 12 })
    expect(fine.lines.some(({ kind }) => kind === 'clash')).toBe(false)
  })
})

describe('a bookcase in a niche', () => {
  const niche: ParameterValues = { standsAt: 'niche', nicheWidth: 900, nicheHeight: 2300 }
  it('stands into the skirting unless it is kept off the wall by as much', () => {
    expect(stops(modelOf(bookcase, { ...niche, standsAt: 'wall', offWall: 0 }))).toContain('offWall')
    expect(stops(modelOf(bookcase, { ...niche, standsAt: 'wall', offWall: 15 }))).toEqual([])
    expect(stops(modelOf(bookcase, { standsAt: 'wall', skirtingHeight: 0 }))).toEqual([])
  })

  it('must be narrower than the niche between its skirtings, and lower than what is overhead', () => {
    const model = modelOf(bookcase, { ...niche, offWall: 15 })
    const { valueMm } = lineOf(model, 'play')!
    const width = Number(model.parameters.width)
    expect(valueMm).toBe(900 - 30 - width)
    expect(stops(modelOf(bookcase, { ...niche, offWall: 15, nicheWidth: width + 20 }))).toContain(
      'nicheWidth',
    )
    expect(stops(modelOf(bookcase, { ...niche, offWall: 15, nicheHeight: 800 }))).toContain('nicheHeight')
  })
})

describe('shelves, steps, tables and counters', () => {
  it('a shelf longer than its wall stands into what is beside it', () => {
    const model = modelOf(wallShelf, { wallWidth: 700 })
    expect(stops(model)).toContain('wallWidth')
    expect(stops(modelOf(wallShelf, { wallWidth: 2400 }))).toEqual([])
  })

  it('a step lifts the reach of a small woman by its height (1790 mm of grip, from memory)', () => {
    const model = modelOf(stepStool)
    const reach = lineOf(model, 'reach')?.valueMm ?? 0
    expect(Math.abs(reach - figureOf(model, 'height') - 1790)).toBeLessThan(5)
  })

  it('a table is judged with its chairs, unless it is stood at', () => {
    expect(lineOf(modelOf(trestleTable), 'elbows')?.level).toBe('good')
    expect(lineOf(modelOf(trestleTable, { height: 950, chairHeight: 450 }), 'elbows')).toBeUndefined()
  })

  it('a counter seat is judged from its footrest, and for whom it is made', () => {
    const model = modelOf(counterSeat)
    const line = lineOf(model, 'seatHeight')!
    expect(line.measured).toContain('the footrest')
    const small = modelOf(counterSeat, { sitter: 'own', popliteal: 330 })
    expect(lineOf(small, 'seatHeight')!.highMm).toBe(330 + 25 + 40)
    expect(small.notices.some(({ parameter }) => parameter === 'footRestHeight')).toBe(true)
  })
})
