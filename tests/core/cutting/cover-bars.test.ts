import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BarProblem } from '#lib/core/cutting/bar-problem'
import { coverBars } from '#lib/core/cutting/cover-bars'
import { patternsWithin } from '#lib/core/cutting/pattern-program'
import { loadLpSolver } from '#lib/engine/lp-solver'

/** Prices in proportion to length: no bar pays, whatever is in it. */
function lengthPrices(problem: BarProblem) {
  const rate = Math.min(...problem.classes.map((c) => c.cost / c.length))
  return { parts: Float64Array.from(problem.sizes, (s) => s * rate), counts: problem.classes.map(() => 0) }
}

const shops = fc
  .record({
    length: fc.integer({ min: 15, max: 40 }),
    parts: fc.uniqueArray(
      fc.record({ size: fc.integer({ min: 3, max: 20 }), demand: fc.integer({ min: 1, max: 3 }) }),
      {
        minLength: 1,
        maxLength: 6,
        selector: (p) => p.size,
      },
    ),
    bars: fc.integer({ min: 1, max: 6 }),
  })
  .filter((s) => s.parts.every((p) => p.size <= s.length))

describe('covering with listed patterns', () => {
  it('finds a plan where the integer program does, and else says that there is none', async () => {
    const lp = await loadLpSolver()
    const judged = { found: 0, none: 0, unknown: 0 }
    fc.assert(
      fc.property(shops, ({ length, parts, bars }) => {
        const sorted = [...parts].sort((a, b) => b.size - a.size)
        const problem: BarProblem = {
          sizes: Int32Array.from(sorted, (p) => p.size),
          demand: Int32Array.from(sorted, (p) => p.demand),
          classes: [{ length, cost: 1, count: Number.POSITIVE_INFINITY }],
        }
        const prices = lengthPrices(problem)
        const bound = sorted.reduce((sum, p) => sum + (p.size * p.demand) / length, 0)
        const gap = bars - bound
        if (gap < 0) return
        const { columns } = patternsWithin(problem, prices, gap, 1e6)
        const truth = lp.solve({
          rows: Array.from(problem.demand, (d) => ({ sense: '>=' as const, rhs: d })),
          columns: columns.map((c) => ({ cost: 1, rows: [...c.items], coefs: [...c.counts], integer: true })),
        })
        const isPossible = truth.status === 'optimal' && truth.objective <= bars + 1e-6
        const cover = coverBars(problem, columns, prices, gap, 1e6)
        expect(cover.status).toBe(isPossible ? 'found' : 'none')
        judged[cover.status]++
        if (!isPossible) return
        expect(cover.columns.length).toBeLessThanOrEqual(bars)
        const made = new Int32Array(sorted.length)
        for (const c of cover.columns) {
          let used = 0
          c.items.forEach((t, k) => {
            made[t] += c.counts[k]
            used += c.counts[k] * sorted[t].size
          })
          expect(used).toBeLessThanOrEqual(length)
        }
        expect(sorted.every((p, t) => made[t] >= p.demand)).toBe(true)
      }),
      { numRuns: 250, seed: 4 },
    )
    expect(judged.found).toBeGreaterThan(20)
    expect(judged.none).toBeGreaterThan(5)
  })

  it('takes no more bars of a kind than there are', () => {
    const problem: BarProblem = {
      sizes: Int32Array.from([6]),
      demand: Int32Array.from([2]),
      classes: [{ length: 10, cost: 1, count: 1 }],
    }
    const columns = [{ cls: 0, cost: 1, items: Int32Array.of(0), counts: Int32Array.of(1) }]
    const prices = { parts: Float64Array.of(0), counts: [0] }
    expect(coverBars(problem, columns, prices, 5, 100).status).toBe('none')
  })

  it('says that it does not know where the nodes did not do', () => {
    const problem: BarProblem = {
      sizes: Int32Array.from([6, 5]),
      demand: Int32Array.from([2, 2]),
      classes: [{ length: 10, cost: 1, count: 9 }],
    }
    const columns = [0, 1].map((t) => ({
      cls: 0,
      cost: 1,
      items: Int32Array.of(t),
      counts: Int32Array.of(1),
    }))
    expect(coverBars(problem, columns, lengthPrices(problem), 9, 1).status).toBe('unknown')
  })
})
