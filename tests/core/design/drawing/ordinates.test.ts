import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { placeOrdinates, spread } from '#lib/core/design/drawing/ordinates'

describe('places that are too close are spread', () => {
  it('by hand', () => {
    expect(spread([0, 1, 10], 4)).toEqual([-1.5, 2.5, 10])
    expect(spread([5, 5, 5], 2)).toEqual([3, 5, 7])
    expect(spread([], 2)).toEqual([])
  })

  it('stay in order, far enough apart, and move as little as may be', () => {
    let judged = 0
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 12 }), (list) => {
        const wanted = [...list].sort((a, b) => a - b)
        const got = spread(wanted, 3)
        got.forEach((at, i) => {
          if (i > 0) expect(at - got[i - 1]).toBeGreaterThanOrEqual(3 - 1e-9)
        })
        const cost = (places: readonly number[]): number =>
          places.reduce((sum, at, i) => sum + (at - wanted[i]) ** 2, 0)
        // Least squares: no single place can be moved without cost, unless it comes too close to another.
        got.forEach((_, i) => {
          for (const by of [-0.1, 0.1]) {
            const other = got.map((at, j) => (j === i ? at + by : at))
            const isAllowed = other.every((at, j) => j === 0 || at - other[j - 1] >= 3 - 1e-9)
            if (isAllowed) expect(cost(other)).toBeGreaterThanOrEqual(cost(got) - 1e-9)
          }
        })
        judged++
      }),
    )
    expect(judged).toBeGreaterThan(50)
  })
})

describe('running dimensions', () => {
  const row = (ordinates: { id: string; at: number; text: string }[]) =>
    placeOrdinates({ id: 'row', side: 'below', zero: 0, ordinates, edge: 0, beyond: 0 }, 2)

  it('begin at a zero with a ring and no arrow; a place that is asked for twice stands once', () => {
    const { texts, arrows } = row([
      { id: 'a', at: 50, text: '50' },
      { id: 'b', at: 50, text: '50' },
      { id: 'c', at: 90, text: '90' },
    ])
    expect(texts.map(({ text }) => text)).toEqual(['0', '50', '90'])
    expect(arrows.map(({ points: [tip] }) => tip[0])).toEqual([50, 90])
  })

  it('are nothing where there is only zero', () => {
    expect(row([]).texts).toEqual([])
  })
})
