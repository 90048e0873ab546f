import { expect, it } from 'vitest'
import { loadLpSolver } from '#lib/engine/lp-solver'

// Dantzig's textbook example (Linear Programming and Extensions, 1963): max 3x + 5y, x <= 4, 2y <= 12, 3x + 2y <= 18:
// 36 at (2, 6), dual prices 0, 3/2, 1.
const model = {
  rows: [
    { sense: '<=' as const, rhs: 4 },
    { sense: '<=' as const, rhs: 12 },
    { sense: '<=' as const, rhs: 18 },
  ],
  columns: [
    { cost: -3, rows: [0, 2], coefs: [1, 3] },
    { cost: -5, rows: [1, 2], coefs: [2, 2] },
  ],
}

it('solves a textbook program with its dual prices', async () => {
  const lp = await loadLpSolver()
  const answer = lp.solve(model)
  expect(answer.status).toBe('optimal')
  expect(answer.objective).toBeCloseTo(-36, 9)
  expect([...answer.x].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([2, 6])
  expect([...answer.duals].map((v) => Math.abs(Math.round(v * 1e9) / 1e9))).toEqual([0, 1.5, 1])
})

it('solves an integer program, and says when there is no answer', async () => {
  const lp = await loadLpSolver()
  const half = {
    rows: [{ sense: '>=' as const, rhs: 1 }],
    columns: [{ cost: 1, rows: [0], coefs: [2], integer: true }],
  }
  expect(lp.solve(half).objective).toBe(1)
  const never = {
    rows: [
      { sense: '>=' as const, rhs: 3 },
      { sense: '<=' as const, rhs: 1 },
    ],
    columns: [{ cost: 1, rows: [0, 1], coefs: [1, 1] }],
  }
  expect(lp.solve(never).status).toBe('infeasible')
  expect(lp.solve({ rows: [], columns: [] }).status).toBe('infeasible')
})
