import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Knapsack } from '#lib/core/cutting/knapsack'

/** Best value within a length by trying every choice. */
function tryAll(
  sizes: readonly number[],
  copies: readonly number[],
  values: readonly number[],
  room: number,
): number {
  if (sizes.length === 0) return 0
  let best = 0
  for (let n = 0; n <= copies[0] && n * sizes[0] <= room; n++) {
    const rest = tryAll(sizes.slice(1), copies.slice(1), values.slice(1), room - n * sizes[0])
    best = Math.max(best, n * values[0] + rest)
  }
  return best
}

/** Every choice of copies within a length. */
function everyChoice(
  parts: readonly { readonly size: number; readonly copies: number }[],
  room: number,
): number[][] {
  if (parts.length === 0) return [[]]
  const [{ size, copies }] = parts
  const out: number[][] = []
  for (let n = 0; n <= copies && n * size <= room; n++) {
    for (const rest of everyChoice(parts.slice(1), room - n * size)) out.push([n, ...rest])
  }
  return out
}

const row = fc.array(
  fc.record({
    size: fc.integer({ min: 1, max: 15 }),
    copies: fc.nat(3),
    value: fc.integer({ min: 0, max: 20 }),
  }),
  { minLength: 1, maxLength: 6 },
)

describe('pricing', () => {
  it('finds the most valuable choice, the table exact or coarse', () => {
    fc.assert(
      fc.property(row, fc.integer({ min: 1, max: 40 }), (parts, room) => {
        const sizes = parts.map((p) => p.size)
        const copies = parts.map((p) => p.copies)
        const values = parts.map((p) => p.value)
        const truth = tryAll(sizes, copies, values, room)
        for (const cells of [512, 3]) {
          const sack = new Knapsack(Int32Array.from(sizes), room, cells)
          sack.load(values, copies)
          const { value, bound, items, counts } = sack.bestWithin(room)
          expect(value).toBeCloseTo(truth, 9)
          expect(bound).toBeGreaterThanOrEqual(truth - 1e-9)
          let used = 0
          items.forEach((i, k) => {
            used += sizes[i] * counts[k]
            expect(counts[k]).toBeLessThanOrEqual(copies[i])
          })
          expect(used).toBeLessThanOrEqual(room)
        }
      }),
      { numRuns: 60, seed: 5 },
    )
  })

  it('goes through every choice above a floor once', () => {
    let judged = 0
    fc.assert(
      fc.property(row, fc.integer({ min: 1, max: 40 }), fc.nat(40), (parts, room, floor) => {
        const worth = parts.filter((p) => p.value > 0)
        const all = everyChoice(worth, room).filter((c) => c.some((n) => n > 0))
        const wanted = all
          .filter((c) => c.reduce((sum, n, i) => sum + n * worth[i].value, 0) >= floor)
          .map((c) => c.join())
        const sack = new Knapsack(
          Int32Array.from(worth, (p) => p.size),
          room,
          5,
        )
        sack.load(
          worth.map((p) => p.value),
          worth.map((p) => p.copies),
        )
        const got: string[] = []
        const isWhole = sack.eachWithin(room, floor, 1e6, (items, counts, value, rest) => {
          const choice = worth.map(() => 0)
          items.forEach((i, k) => {
            choice[i] = counts[k]
          })
          expect(choice.reduce((sum, n, i) => sum + n * worth[i].size, 0)).toBe(room - rest)
          expect(choice.reduce((sum, n, i) => sum + n * worth[i].value, 0)).toBeCloseTo(value, 9)
          got.push(choice.join())
          return floor
        })
        expect(isWhole).toBe(true)
        expect(got.sort()).toEqual(wanted.sort())
        judged += got.length
      }),
      { numRuns: 100, seed: 6 },
    )
    expect(judged).toBeGreaterThan(100)
  })

  it('says so where the nodes did not do', () => {
    const sack = new Knapsack(Int32Array.from([2, 3, 5]), 30)
    sack.load([2, 3, 5], [9, 9, 9])
    expect(sack.eachWithin(30, 0, 5, () => 0)).toBe(false)
  })
})
