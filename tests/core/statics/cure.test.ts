import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { designById, designs } from '#lib/core/design/designs/registry'
import { curesFor } from '#lib/core/statics/cure'
import { checkStrength } from '#lib/core/statics/strength'

const VALUES = { species: 'redOak', rake: 0, overhang: 70, seatDepth: 420, joint: 'onFace' }

function checkOf(values: Record<string, number | string>, id: string) {
  const built = counterSeat.build(values)
  if (!built.ok) throw new Error(built.error[0].message)
  const report = checkStrength(built.value)
  if (!report.ok) throw new Error(report.error)
  return report.value.checks.find((check) => check.id === id)!
}

describe('cures', () => {
  it('finds changes that make a failing check pass, each just enough', () => {
    const failing = checkOf(VALUES, 'tipping/edge')
    expect(failing.passes).toBe(false)
    const { cures, status } = curesFor(counterSeat, VALUES, failing)
    expect(status).toBe('done')
    expect(cures.map(({ parameter }) => parameter)).toContain('overhang')
    for (const cure of cures) {
      expect(checkOf({ ...VALUES, [cure.parameter]: cure.to }, 'tipping/edge').passes).toBe(true)
      if (typeof cure.to !== 'number') continue
      const unit = counterSeat.parameters.find(({ id }) => id === cure.parameter)!.unit
      const less = cure.to - Math.sign(cure.to - Number(cure.from)) * (unit === 'mm' ? 1 : 0.5)
      expect(checkOf({ ...VALUES, [cure.parameter]: less }, 'tipping/edge').passes).toBe(false)
    }
    for (let i = 1; i < cures.length; i++) {
      const rank = (k: number) => [cures[k].newlyFailing.length, cures[k].stillFailing, cures[k].size]
      const k = rank(i).findIndex((value, j) => value !== rank(i - 1)[j])
      if (k >= 0) expect(rank(i)[k]).toBeGreaterThan(rank(i - 1)[k])
    }
  }, 60_000)

  it('offers only what the design may be cured with, the way it says, in whole numbers, and no monsters', () => {
    let judged = 0
    for (const id of ['counterSeat', 'splayedStool', 'stepStool', 'trestleTable']) {
      const design = designById(id)!
      const values = { species: 'ponderosaPine' }
      const built = design.build(values)
      const report = built.ok ? checkStrength(built.value) : undefined
      if (!report?.ok) continue
      const failing = report.value.checks.find(({ passes }) => !passes)
      if (failing === undefined) continue
      for (const { parameter, from, to } of curesFor(design, values, failing, {}, { maxSteps: 50 }).cures) {
        judged++
        const way = design.cures?.[parameter]
        const spec = design.parameters.find(({ id }) => id === parameter)!
        expect(way, `${design.id} ${parameter}`).toBeDefined()
        if (typeof to !== 'number' || typeof from !== 'number') continue
        if (way !== 'either') expect(to > from).toBe(way === 'more')
        if (spec.unit === 'mm') expect(Number.isInteger(to)).toBe(true)
        expect(to).toBeLessThanOrEqual(Math.max(1.6 * from, from + 15))
      }
    }
    expect(judged).toBeGreaterThan(3)
  }, 60_000)

  it('never what the user needs: counters, seats, heights, lengths, woods, looks', () => {
    const needed =
      /^(counter|abreast|knee|floor|tuck|height|length|width|depth|seatWidth|seatDepth|pot|room|mountHeight|bottomHeight|species|finish|back|footRest$)/
    for (const { id, cures, parameters } of designs) {
      expect(cures, id).toBeDefined()
      for (const parameter of Object.keys(cures ?? {})) {
        expect(parameters.map((spec) => spec.id)).toContain(parameter)
        expect(parameter).not.toMatch(needed)
      }
    }
  })

  it('a design that does not say is cured by sizes, never by what it is for', () => {
    const { cures: _, ...silent } = counterSeat
    const offered = curesFor(silent, VALUES, checkOf(VALUES, 'tipping/edge')).cures.map(
      ({ parameter }) => parameter,
    )
    expect(offered).toContain('overhang')
    for (const id of ['seatWidth', 'seatDepth', 'abreast', 'species', 'counterHeight'])
      expect(offered).not.toContain(id)
  }, 60_000)

  it('a check that passes needs none; a budget that ends is said', () => {
    const good = checkOf({ species: 'redOak' }, 'tipping/edge')
    expect(curesFor(counterSeat, { species: 'redOak' }, good)).toMatchObject({ cures: [], tried: 0 })
    const failing = checkOf(VALUES, 'tipping/edge')
    expect(curesFor(counterSeat, VALUES, failing, {}, { maxSteps: 3 })).toMatchObject({
      status: 'outOfBudget',
      tried: 3,
    })
    const stopped = curesFor(counterSeat, VALUES, failing, {}, { maxSteps: 99, shouldStop: () => true })
    expect(stopped.status).toBe('cancelled')
  })
})
