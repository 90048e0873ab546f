/**
 * Published instances, copied by number. Sizes, demands and optima from the publication named beside each.
 */
import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { answerFor, type PublishedInstance, problemFromPublished } from '#lib/core/cutting/published'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const solve = (instance: PublishedInstance, maxSteps = 200_000) => {
  const problem = problemFromPublished(instance)
  const plan = planCuts(problem, { seed: 1, budget: { maxSteps } })
  expect(verifyCutPlan(problem, plan)).toEqual([])
  return answerFor(instance, plan, 0)
}
type Row = readonly number[]
const unlimited = (rows: readonly Row[]) =>
  rows.map(([w, h, value]) => ({ w, h, value, demand: null, rotate: false }))
const limited = (rows: readonly Row[]) =>
  rows.map(([w, h, demand, value]) => ({ w, h, demand, value, rotate: false }))
const bars = (rows: readonly Row[]) => rows.map(([w, demand]) => ({ w, demand }))

// Chvatal, Linear Programming (1983), chapter 13: raws of 200 (100 in half units), 453 needed.
const chvatal: PublishedInstance = {
  name: 'chvatal',
  dim: 1,
  objective: 'min_bins',
  stock: [{ w: 200, count: null }],
  items: bars([
    [90, 97],
    [72, 610],
    [62, 395],
    [28, 211],
  ]),
}
// The paper machine example of the cutting-stock literature: 5600 mm rolls, 308 patterns, 73 rolls, waste 0.401 %.
const paperMill: PublishedInstance = {
  name: 'paper mill',
  dim: 1,
  objective: 'min_bins',
  stock: [{ w: 5600, count: null }],
  items: bars([
    [1380, 22],
    [1520, 25],
    [1560, 12],
    [1710, 14],
    [1820, 18],
    [1880, 18],
    [1930, 20],
    [2000, 10],
    [2050, 12],
    [2100, 14],
    [2140, 16],
    [2150, 18],
    [2200, 20],
  ]),
}
// Herz, IBM J. Research and Development 16 (1972) 462-469: unlimited copies, 12,348.
const herz: PublishedInstance = {
  name: 'H',
  dim: 2,
  objective: 'max_value',
  stock: [{ w: 127, h: 98, count: 1 }],
  items: unlimited([
    [21, 13, 273],
    [36, 17, 612],
    [54, 20, 1080],
    [24, 27, 648],
    [18, 65, 1170],
  ]),
}
// Beasley, J. Operational Research Society 36 (1985) 297-306, gcut1: 56,460.
const gcut1: PublishedInstance = {
  name: 'gcut1',
  dim: 2,
  objective: 'max_value',
  stock: [{ w: 250, h: 250, count: 1 }],
  items: unlimited(
    [
      [167, 184],
      [114, 118],
      [167, 152],
      [83, 140],
      [70, 86],
      [143, 166],
      [120, 160],
      [66, 148],
      [87, 141],
      [69, 165],
    ].map(([w, h]) => [w, h, w * h]),
  ),
}
// Afsharian, Niknejad, Waescher, OR Spectrum 36 (2014) 971-999, a 75 x 75 plate with two defects. Optimum 3,701 (5,100
// without defects), by an exact dynamic program written apart from this project.
const flawed: PublishedInstance = {
  name: 'C12M5R8N4_D2',
  dim: 2,
  objective: 'max_value',
  stock: [{ w: 75, h: 75, count: 1 }],
  items: unlimited(
    [
      [34, 29],
      [34, 46],
      [29, 27],
      [42, 23],
      [49, 54],
    ].map(([w, h]) => [w, h, w * h]),
  ),
  defects: [
    { stock: 0, x: 21, y: 21, w: 8, h: 8 },
    { stock: 0, x: 30, y: 29, w: 9, h: 11 },
  ],
}
// Instances "2" and "OF2" as collected by Furini, Malaguti, Thomopulos, INFORMS J. Computing 28 (2016) 736-751.
const two: PublishedInstance = {
  name: '2',
  dim: 2,
  objective: 'max_value',
  stock: [{ w: 40, h: 70, count: 1 }],
  items: limited([
    [21, 22, 1, 582],
    [31, 13, 1, 403],
    [9, 35, 3, 315],
    [9, 24, 3, 216],
    [30, 7, 2, 210],
    [11, 13, 3, 143],
    [10, 14, 1, 140],
    [14, 8, 3, 110],
    [12, 8, 3, 94],
    [13, 7, 3, 90],
  ]),
}
const of2: PublishedInstance = {
  name: 'OF2',
  dim: 2,
  objective: 'max_value',
  stock: [{ w: 70, h: 40, count: 1 }],
  items: limited([
    [22, 18, 2, 396],
    [40, 10, 1, 400],
    [13, 27, 3, 351],
    [23, 18, 2, 414],
    [29, 8, 4, 232],
    [16, 4, 1, 64],
    [47, 9, 1, 423],
    [19, 19, 4, 361],
    [13, 16, 2, 208],
    [36, 16, 4, 576],
  ]),
}
// Macedo, Alves, Valerio de Carvalho, Computers & OR 37 (2010) 991-1001, furniture order A1: 3 plates.
const furniture: PublishedInstance = {
  name: 'A1',
  dim: 2,
  objective: 'min_bins',
  stock: [{ w: 2750, h: 1220, count: null }],
  items: limited([
    [1680, 420, 6],
    [463, 386, 18],
  ]),
}

describe('published optima', () => {
  it.each([
    [chvatal, 453],
    [paperMill, 73],
    [herz, 12_348],
    [gcut1, 56_460],
    [flawed, 3_701],
    [furniture, 3],
  ] as const)('are reached and proven: %o', (instance, optimum) => {
    const { value, bound, status } = solve(instance)
    expect({ value, bound, status }).toEqual({ value: optimum, bound: optimum, status: 'optimal' })
  })

  it.each([
    [two, 2_892],
    [of2, 2_690],
  ] as const)('are reached: %o', (instance, optimum) => {
    expect(solve(instance).value).toBe(optimum)
  })

  it('carry over exactly when every size gives up one kerf', () => {
    // Parts (w, h) in a board (W, H) with kerf k are parts (w + k, h + k) in (W + k, H + k) without.
    const k = 3
    const less = <T extends { w: number; h?: number }>(r: T): T => ({
      ...r,
      w: r.w - k,
      ...(r.h === undefined ? {} : { h: r.h - k }),
    })
    for (const [instance, optimum] of [
      [paperMill, 73],
      [herz, 12_348],
      [gcut1, 56_460],
    ] as const) {
      const stock = instance.stock.map(less)
      const { value, status } = solve({ ...instance, kerf: k, stock, items: instance.items.map(less) })
      expect({ value, status }).toEqual({ value: optimum, status: 'optimal' })
    }
  })

  it('wastes what the paper mill example wastes', () => {
    const problem = problemFromPublished(paperMill)
    const plan = planCuts(problem, { seed: 1, budget: { maxSteps: 100_000 } })
    expect(100 * (1 - plan.yield)).toBeCloseTo(0.401, 3)
  })
})

it('refuses an objective that it does not know', () => {
  expect(() => problemFromPublished({ ...herz, objective: 'fastest' as never })).toThrow(/fastest/)
})
