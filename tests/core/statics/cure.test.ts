import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
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
      const spec = counterSeat.parameters.find(({ id }) => id === cure.parameter)!
      const less = cure.to - Math.sign(cure.to - Number(cure.from)) * (spec.step ?? 1)
      expect(checkOf({ ...VALUES, [cure.parameter]: less }, 'tipping/edge').passes).toBe(false)
    }
    for (let i = 1; i < cures.length; i++) {
      const rank = (k: number) => [Number(cures[k].newlyFailing.length > 0), cures[k].size]
      expect(rank(i) >= rank(i - 1)).toBe(true)
    }
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
