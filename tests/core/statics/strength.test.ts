import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { designById, designs } from '#lib/core/design/designs/registry'
import type { Model, ParameterValues } from '#lib/core/design/model'
import type { StrengthCheck } from '#lib/core/statics/checks'
import { say3 } from '#lib/core/statics/checks'
import { longTermMm } from '#lib/core/statics/load-cases'
import { CAUTION } from '#lib/core/statics/sources'
import { checkStrength, type StrengthOptions, studyStrength } from '#lib/core/statics/strength'
import { longBench, modelOf, plank } from './models'

function report(model: Model, options: StrengthOptions = {}) {
  const made = checkStrength(model, options)
  if (!made.ok) throw new Error(made.error)
  return made.value
}
function seat(values: ParameterValues = {}): Model {
  const built = counterSeat.build({ species: 'redOak', ...values })
  if (!built.ok) throw new Error(built.error[0].message)
  return built.value
}
const of = (checks: readonly StrengthCheck[], id: string): StrengthCheck =>
  checks.find((check) => check.id === id)!

describe('against beams done by hand', () => {
  // Standard beam tables: 5 w L^4 / 384 E I, doubled for a load that stays (Wood Handbook ch. 5 and 9, from memory).
  it('a shelf of 800 mm sags as a beam does, between simple and built-in ends', () => {
    const shelf = report(plank(800, 18))
    const e = 1.82e6 * 0.00689476
    const i = (250 * 18 ** 3) / 12
    const w = 0.001 * 250 + 250 * 18 * 705.6e-9 * 9.81
    const span = 830
    const simple = longTermMm((5 * w * span ** 4) / (384 * e * i))
    const sag = of(shelf.checks, 'sag/board')
    expect(sag.demand).toBeLessThan(simple * 1.05)
    expect(sag.demand).toBeGreaterThan((simple / 5) * 0.95)
    // Bending is at most w L^2 / 8, at least w L^2 / 24.
    const bending = of(shelf.checks, 'bending/board')
    expect(bending.demand).toBeLessThan(((w * span ** 2) / 8 / (250 * 18 ** 2 * (1 / 6))) * 1.15)
    expect(bending.demand).toBeGreaterThan((w * span ** 2) / 24 / (250 * 18 ** 2 * (1 / 6)))
  })

  it('creep: 1.2 mm at first is 2.4 mm in the end', () => {
    expect(longTermMm(1.2)).toBe(2.4)
  })

  it('a thicker shelf sags less, a longer one more', () => {
    const sag = (spanMm: number, thicknessMm: number) =>
      of(report(plank(spanMm, thicknessMm)).checks, 'sag/board').demand
    expect(sag(800, 25)).toBeLessThan(sag(800, 18))
    expect(sag(1100, 18)).toBeGreaterThan(2 * sag(800, 18))
  })
})

describe('the report', () => {
  it('shows failing checks first, safety before comfort, least margin first', () => {
    const { checks } = report(seat())
    const rank = (c: StrengthCheck) => [Number(c.passes), c.weight === 'safety' ? 0 : 1, c.margin] as const
    for (let i = 1; i < checks.length; i++) {
      const [a, b] = [rank(checks[i - 1]), rank(checks[i])]
      const k = a.findIndex((value, j) => value !== b[j])
      if (k >= 0) expect(a[k]).toBeLessThanOrEqual(b[k])
    }
  })

  it('every check says margin = capacity / demand, where, under what load, from what source', () => {
    for (const check of report(seat()).checks) {
      if (check.demand > 0 && check.margin < 999 && check.margin > 0)
        expect(check.capacity / check.demand).toBeCloseTo(check.margin, 6)
      expect(check.passes).toBe(check.margin >= 1)
      expect(check.sources.length).toBeGreaterThan(0)
      expect(check.loadCase).not.toBe('')
      expect(check.sentence).toMatch(/\.$/)
      expect(check.sentence).not.toMatch(/NaN|Infinity|undefined|seat 1/)
    }
  })

  it('carries the caution, the wood and the grade, and what was eased', () => {
    const made = report(seat())
    expect(made.caution).toBe(CAUTION)
    expect(made.notes.join(' ')).toMatch(/Northern red oak, sound/)
    expect(made.notes.join(' ')).toMatch(/just short of tipping/)
    expect(made.residual).toBeLessThan(1e-9)
    expect(made.condition).toBeGreaterThan(1)
  })

  it('is the same every time', () => {
    expect(JSON.stringify(report(seat()))).toBe(JSON.stringify(report(seat())))
  })

  it('judges every shipped design, with no number that is none', () => {
    for (const design of designs) {
      const built = design.build({})
      if (!built.ok) throw new Error(design.id)
      const isNone = (value: unknown): boolean =>
        typeof value === 'object' && value !== null ? Object.values(value).some(isNone) : Number.isNaN(value)
      expect(isNone(report(built.value))).toBe(false)
      for (const check of report(built.value).checks) expect(JSON.stringify(check)).not.toMatch(/null/)
    }
  })

  it('tells a seat from its shape when the model does not say', () => {
    const { use: _, ...bare } = seat()
    const made = report(bare)
    expect(made.notes.join(' ')).toMatch(/Taken for a seat/)
    const [first] = made.checks
    expect(first.margin).toBeCloseTo(report(modelOf(bare.parts, bare.joints)).checks[0].margin, 9)
  })
})

describe('what a maker changes', () => {
  const worst = (values: ParameterValues, id: string, options: StrengthOptions = {}) =>
    of(report(seat(values), options).checks, id).margin

  it('better wood, better grade and a smaller factor hold more', () => {
    const id = 'bending/seat1-rail-back'
    expect(worst({ species: 'redOak' }, id)).toBeGreaterThan(worst({ species: 'easternWhitePine' }, id))
    expect(worst({ species: 'easternWhitePine' }, id)).toBeGreaterThan(worst({ species: 'any' }, id))
    expect(worst({}, id, { grade: 'clear' })).toBeGreaterThan(worst({}, id, { grade: 'knotty' }))
    expect(worst({}, id, { factor: 3 })).toBeCloseTo((worst({}, id) * 2) / 3, 6)
  })

  it('says how the legs on the side that tips lean, and how they would for it to just pass', () => {
    const stool = designById('splayedStool')!.build({ species: 'redOak', rake: 10, splay: 10 })
    if (!stool.ok) throw new Error('stool')
    const [{ lean, worst }] = report(stool.value).tipping!.cases
    // The design's own number, and h tan a for the way that the feet may move in.
    expect((lean!.nowRad * 180) / Math.PI).toBeCloseTo(10, 1)
    expect(worst.outsetMm).toBeLessThan(0)
    expect(lean!.toPassRad).toBeLessThan(lean!.nowRad)
    const legMm = worst.outsetMm / (Math.tan(lean!.toPassRad) - Math.tan(lean!.nowRad))
    expect(legMm).toBeGreaterThan(300)
    expect(legMm).toBeLessThan(700)
  })

  it('more rake stands firmer front to back; less overhang firmer sideways', () => {
    const forwards = (rake: number) => {
      const edge = report(seat({ rake })).tipping!.cases[0]
      return edge.lines.find(({ towards }) => towards[1] < -0.9)!.factor
    }
    expect(forwards(12)).toBeGreaterThan(forwards(6))
    expect(worst({ overhang: 10 }, 'tipping/edge')).toBeGreaterThan(worst({ overhang: 25 }, 'tipping/edge'))
  })

  it('the design’s own hand sum of tipping agrees', () => {
    const made = report(seat({ rake: 0, overhang: 60 }))
    const stop = seat({ rake: 0, overhang: 60 }).notices.find(({ source }) => source?.includes('EN 1022'))
    expect(stop).toBeDefined()
    const said = Number(/stands ([\d.]+) times/.exec(stop!.message)![1])
    expect(Math.abs(of(made.checks, 'tipping/edge').margin - said)).toBeLessThan(0.02 * said + 0.01)
  })

  it('on a slippery floor raked legs spread, and the supports feel it', () => {
    const lowest = (options: StrengthOptions) => {
      const study = studyStrength(seat({ rake: 12, floorDepth: 700 }), options)
      if (!study.ok) throw new Error(study.error)
      const { result } = study.value.results.find(({ loadCase }) => loadCase.id === 'seat')!
      const states = [...result.feet.values()].map(({ state }) => state)
      return { mm: Math.min(...[...result.nodes.values()].map((d) => d[2])), states }
    }
    const [held, slick] = [lowest({}), lowest({ friction: 0.05 })]
    expect(slick.states).toContain('slips')
    expect(held.states).not.toContain('slips')
    expect(slick.mm).toBeLessThan(held.mm)
  })

  it('a bench of forty parts is judged whole', () => {
    const bench = longBench()
    expect(bench.parts).toHaveLength(40)
    const made = report(bench)
    expect(new Set(made.checks.filter(({ kind }) => kind === 'bending').map(({ id }) => id)).size).toBe(40)
  })
})

describe('numbers as read', () => {
  it.each([
    [0.65592, '0.656'],
    [12.345, '12.3'],
    [1234.5, '1235'],
    [0, '0'],
    [0.0042, '0.004'],
  ])('%d is said %s', (value, said) => expect(say3(value)).toBe(said))
})
