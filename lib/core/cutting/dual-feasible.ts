/**
 * How many identical boards parts need at least, from dual feasible functions: every length and every width is
 * replaced by a share of the board such that shares of parts that fit side by side never add up to more than 1; then
 * the sum over all parts of length share x width share is a bound. It sees what the area does not: that two parts
 * longer than half the board never lie end to end, however small the rest.
 * Functions: Fekete and Schepers, Mathematical Programming 91 (2001) 11-31; Lueker 1983 (rounding to 1/k).
 * In: Prepared, one class of boards. Out: a count. Cost: functions squared x kinds. Tests: plate-bound.test.ts
 */
import type { BoardClass, Prepared } from './prepared'

type Shares = (x: number) => number

const MOST_K = 8
const MOST_THRESHOLDS = 20
/** So that a share that is whole but for rounding is seen as whole. */
const TINY = 1e-9

/** Each maps a part's share of the board to a new one. */
function functionsFor(shares: readonly number[]): Shares[] {
  const all: Shares[] = [(x) => x]
  for (let k = 1; k <= MOST_K; k++) {
    all.push((x) => {
      const v = (k + 1) * x
      return Math.abs(v - Math.round(v)) < TINY ? x : Math.floor(v) / k
    })
  }
  const marks = [...new Set(shares.flatMap((s) => [s, 1 - s]))].filter((s) => s > TINY && s <= 0.5)
  const stride = Math.max(1, Math.ceil(marks.length / MOST_THRESHOLDS))
  const chosen = marks.sort((a, b) => a - b).filter((_, k) => k % stride === 0 || k === marks.length - 1)
  for (const e of chosen) {
    all.push((x) => (x > 1 - e + TINY ? 1 : x >= e - TINY ? x : 0))
    const n = Math.floor(1 / e + TINY)
    all.push((x) => {
      if (x > 0.5 + TINY) return 1 - Math.floor((1 - x) / e + TINY) / n
      return x >= e - TINY ? 1 / n : 0
    })
  }
  return all
}

/** @returns boards of this class that all parts need at least */
export function dualFeasibleCount(prep: Prepared, cls: BoardClass): number {
  const kinds: number[] = []
  for (let i = 0; i < prep.n; i++) if (prep.demand[i] > 0) kinds.push(i)
  const sides = kinds.map((i) => [prep.w[i] / cls.w, prep.h[i] / cls.h, prep.h[i] / cls.w, prep.w[i] / cls.h])
  const along = functionsFor(sides.flatMap((s, k) => (prep.free[kinds[k]] === 1 ? [s[0], s[2]] : [s[0]])))
  const across = functionsFor(sides.flatMap((s, k) => (prep.free[kinds[k]] === 1 ? [s[1], s[3]] : [s[1]])))
  const table = (fs: readonly Shares[], at: number): Float64Array[] =>
    fs.map((f) => Float64Array.from(sides, (s) => f(Math.min(1, s[at]))))
  const [a0, a1] = [table(along, 0), table(along, 2)]
  const [b0, b1] = [table(across, 1), table(across, 3)]
  let best = 0
  for (let f = 0; f < along.length; f++) {
    for (let g = 0; g < across.length; g++) {
      let sum = 0
      for (let k = 0; k < kinds.length; k++) {
        let share = a0[f][k] * b0[g][k]
        if (prep.free[kinds[k]] === 1) share = leastShare(share, a1[f][k] * b1[g][k], sides[k])
        sum += share * prep.demand[kinds[k]]
      }
      best = Math.max(best, sum)
    }
  }
  return Math.ceil(best - 1e-6)
}

/** Of the two ways to lay a part, those that fit. */
function leastShare(own: number, turned: number, s: readonly number[]): number {
  const fitsOwn = s[0] <= 1 && s[1] <= 1
  const fitsTurned = s[2] <= 1 && s[3] <= 1
  if (fitsOwn && fitsTurned) return Math.min(own, turned)
  return fitsOwn ? own : turned
}
