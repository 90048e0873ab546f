/**
 * A general-purpose peer for lengths: the textbook model of cutting stock (Kantorovich 1960: how many of each part from
 * each bar, and which bars are used), handed as it is to the LP/MIP library that the engine has for its bounds. Asked is
 * for a plan with as many bars as the engine's, so that what is compared is the time to the same quality.
 * In: a length-only problem with one kind of bar. Out: seconds of processor time; null where it is too large to try.
 */
import type { LpColumn, LpSolver } from '#lib/core/cutting/lp'
import type { CutProblem } from '#lib/core/cutting/problem'

/** Variables of the model, at most. */
const MOST_VARIABLES = 4_000

export interface MipRun {
  readonly isFound: boolean
  readonly seconds: number
}

/**
 * @param bars that the plan may take
 * @param seconds when to give up
 */
export function solveByMip(problem: CutProblem, bars: number, lp: LpSolver, seconds: number): MipRun | null {
  const { boards, blanks, kerfUm } = problem
  const types = blanks.length
  if (boards.length !== 1 || types * bars > MOST_VARIABLES) return null
  const length = boards[0].lengthUm + kerfUm
  const columns: LpColumn[] = []
  for (let bar = 0; bar < bars; bar++) {
    blanks.forEach((b, i) => {
      const size = b.lengthUm + kerfUm
      const upper = Math.min(b.demand ?? 0, Math.floor(length / size))
      columns.push({ cost: 0, rows: [i, types + bar], coefs: [1, size / length], upper, integer: true })
    })
    columns.push({ cost: 1, rows: [types + bar], coefs: [-1], upper: 1, integer: true })
  }
  const rows = [
    ...blanks.map((b) => ({ sense: '=' as const, rhs: b.demand ?? 0 })),
    ...Array.from({ length: bars }, () => ({ sense: '<=' as const, rhs: 0 })),
  ]
  const from = process.cpuUsage().user
  const answer = lp.solve({ rows, columns }, { seconds })
  const isFound = answer.status === 'optimal' || answer.status === 'feasible'
  return { isFound, seconds: (process.cpuUsage().user - from) / 1e6 }
}
