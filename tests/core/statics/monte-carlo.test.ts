import { describe, expect, it } from 'vitest'
import type { StrengthCheck } from '#lib/core/statics/checks'
import { scatterOf } from '#lib/core/statics/monte-carlo'

const check = (id: string, margin: number, variation = 0.16): StrengthCheck => ({
  id,
  kind: 'bending',
  weight: 'safety',
  title: id,
  demand: 1,
  capacity: margin,
  unit: 'MPa',
  margin,
  passes: margin >= 1,
  loadCase: 'test',
  where: { partIds: [], at: [0, 0, 0] },
  sources: [],
  sentence: '',
  chance: { key: id, variation, meanOverCapacity: 2 / (1 - 1.645 * variation) },
})

describe('scatter', () => {
  it('is the same for the same seed, another for another', () => {
    const a = scatterOf([check('a', 1)], { seed: 7, draws: 500 })
    expect(scatterOf([check('a', 1)], { seed: 7, draws: 500 })).toEqual(a)
    expect(scatterOf([check('a', 1)], { seed: 8, draws: 500 }).checks[0].low).not.toBe(a.checks[0].low)
  })

  // The capacity is the 5th percentile over 2: with a steady load the 5th percentile of the true margin is 2 × 1.
  it('gives back the 5th percentile that the capacity was made from', () => {
    const { checks } = scatterOf([check('a', 1)], { seed: 1, draws: 50_000, loadVariation: 0 })
    // Lognormal against normal: the tail differs by a few per cent.
    expect(Math.abs(checks[0].low / 2 - 1)).toBeLessThan(0.06)
    expect(Math.abs(checks[0].middle / (2 / 0.7368) - 1)).toBeLessThan(0.02)
    expect(checks[0].fails).toBeLessThan(0.0005)
  })

  it('a weaker check fails more often and is the weakest more often', () => {
    const { checks, weakest, anyFails } = scatterOf([check('strong', 0.9), check('weak', 0.4)], {
      seed: 3,
      draws: 4000,
    })
    expect(checks[0].checkId).toBe('weak')
    expect(checks[0].fails).toBeGreaterThan(0.3)
    expect(weakest[0].checkId).toBe('weak')
    expect(anyFails).toBeGreaterThanOrEqual(checks[0].fails)
    expect(weakest.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
  })

  it('checks of one piece of wood share their luck', () => {
    const twin = { ...check('b', 0.5), chance: check('a', 0.5).chance! }
    const shared = scatterOf([check('a', 0.5), twin], { seed: 2, draws: 5000, loadVariation: 0 })
    const apart = scatterOf([check('a', 0.5), check('b', 0.5)], { seed: 2, draws: 5000, loadVariation: 0 })
    expect(shared.anyFails).toBeCloseTo(shared.checks[0].fails, 9)
    expect(apart.anyFails).toBeGreaterThan(shared.anyFails)
  })

  it('joints that come out softer or stiffer widen the range', () => {
    const plain = scatterOf([check('a', 1)], { seed: 4, draws: 4000 }).checks[0]
    const wide = scatterOf([check('a', 1)], {
      seed: 4,
      draws: 4000,
      soft: [check('a', 1.5)],
      stiff: [check('a', 0.7)],
    }).checks[0]
    expect(wide.high - wide.low).toBeGreaterThan(plain.high - plain.low)
  })

  it('tells its progress and stops when asked, keeping what it has', () => {
    const told: number[] = []
    let asked = 0
    const stopped = scatterOf([check('a', 1)], {
      seed: 1,
      draws: 10_000,
      onProgress: (done) => told.push(done),
      budget: { maxSteps: Number.POSITIVE_INFINITY, shouldStop: () => ++asked > 4 },
    })
    expect(stopped.status).toBe('cancelled')
    expect(stopped.draws).toBe(200)
    expect(stopped.checks).toHaveLength(1)
    expect(told).toEqual([...told].sort((a, b) => a - b))
    expect(scatterOf([check('a', 1)], { seed: 1, draws: 100, budget: { maxSteps: 30 } })).toMatchObject({
      status: 'outOfBudget',
      draws: 30,
    })
  })

  it('refuses numbers that are none', () => {
    for (const draws of [0, 1.5, Number.NaN])
      expect(() => scatterOf([], { seed: 1, draws })).toThrow(RangeError)
  })
})
