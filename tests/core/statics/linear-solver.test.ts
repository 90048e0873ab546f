import fc from 'fast-check'
import { CholeskyDecomposition, Matrix } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import {
  emptyProfile,
  entry,
  multiply,
  type ProfileMatrix,
  profileSolver,
} from '#lib/core/statics/linear-solver'
import { orderNodes } from '#lib/core/statics/order-nodes'
import { seededRng } from '#lib/core/units/rng'

/** A random symmetric positive-definite matrix with a ragged profile. */
function randomMatrix(size: number, seed: number): ProfileMatrix {
  const rng = seededRng(seed)
  const first = Int32Array.from({ length: size }, (_, i) => Math.max(0, i - rng.below(12)))
  const m = emptyProfile(first)
  const sums = new Float64Array(size)
  for (let i = 0; i < size; i++)
    for (let j = first[i]; j < i; j++) {
      const value = 2 * rng.next() - 1
      m.values[m.offset[i] + j] = value
      sums[i] += Math.abs(value)
      sums[j] += Math.abs(value)
    }
  for (let i = 0; i < size; i++) m.values[m.offset[i] + i] = (sums[i] + 0.1 + rng.next()) * 1
  // Uneven scale, as millimetres beside radians give.
  const scale = Array.from({ length: size }, () => 10 ** (6 * rng.next() - 3))
  for (let i = 0; i < size; i++)
    for (let j = first[i]; j <= i; j++) m.values[m.offset[i] + j] *= scale[i] * scale[j]
  return m
}

const dense = (m: ProfileMatrix) =>
  new Matrix(
    Array.from({ length: m.size }, (_, i) => Array.from({ length: m.size }, (_, j) => entry(m, i, j))),
  )

describe('profile solver', () => {
  it('agrees with a dense Cholesky from a library (ml-matrix)', () => {
    let judged = 0
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer(), (size, seed) => {
        const m = randomMatrix(size, seed)
        const right = Float64Array.from({ length: size }, (_, i) => Math.sin(i + 1))
        const outcome = profileSolver.factor(m)
        if (!outcome.ok) throw new Error('refused a positive-definite matrix')
        const x = outcome.factor.solve(right)
        const want = new CholeskyDecomposition(dense(m)).solve(Matrix.columnVector([...right])).to1DArray()
        const most = Math.max(...want.map(Math.abs))
        want.forEach((value, i) => {
          expect(Math.abs(x[i] - value)).toBeLessThan(1e-7 * most)
        })
        judged++
      }),
      { numRuns: 100 },
    )
    expect(judged).toBe(100)
  })

  it('multiplies as the dense matrix does', () => {
    const m = randomMatrix(30, 5)
    const x = Float64Array.from({ length: 30 }, (_, i) => i - 7)
    const want = dense(m)
      .mmul(Matrix.columnVector([...x]))
      .to1DArray()
    multiply(m, x).forEach((value, i) => {
      expect(value).toBeCloseTo(want[i], 6)
    })
  })

  it('estimates the condition within a factor of ten of the true one', () => {
    for (const seed of [1, 2, 3, 4]) {
      const m = randomMatrix(25, seed)
      const a = dense(m)
      const scale = a.diagonal().map((d) => 1 / Math.sqrt(d))
      const scaled = new Matrix(
        a.to2DArray().map((row, i) => row.map((value, j) => value * (scale[i] * scale[j]))),
      )
      const identity = Matrix.eye(25)
      const inverse = new CholeskyDecomposition(scaled).solve(identity)
      const norm = (k: Matrix) =>
        Math.max(
          ...k
            .transpose()
            .to2DArray()
            .map((column) => column.reduce((s, v) => s + Math.abs(v), 0)),
        )
      const truth = norm(scaled) * norm(inverse)
      const outcome = profileSolver.factor(m)
      const estimate = outcome.ok ? outcome.factor.condition() : Number.NaN
      expect(estimate).toBeLessThan(truth * 1.000001)
      expect(estimate).toBeGreaterThan(truth / 10)
    }
  })

  it('names the loose motion of a singular matrix', () => {
    // Two masses and one spring between them: both can move together.
    const m = emptyProfile(Int32Array.of(0, 0))
    m.values.set([1, -1, 1])
    const outcome = profileSolver.factor(m)
    expect(outcome.ok).toBe(false)
    if (!outcome.ok) expect(outcome.motion[0]).toBeCloseTo(outcome.motion[1], 9)
  })
})

describe('order of nodes', () => {
  it('is a permutation, and a long chain stays narrow however it is named', () => {
    const rng = seededRng(3)
    const names = Array.from({ length: 60 }, (_, i) => i)
    for (let i = 59; i > 0; i--) {
      const j = rng.below(i + 1)
      ;[names[i], names[j]] = [names[j], names[i]]
    }
    const neighbours: number[][] = names.map(() => [])
    for (let i = 0; i + 1 < 60; i++) {
      neighbours[names[i]].push(names[i + 1])
      neighbours[names[i + 1]].push(names[i])
    }
    const order = orderNodes(neighbours)
    expect([...order].sort((a, b) => a - b)).toEqual(names.slice().sort((a, b) => a - b))
    const place = new Map(order.map((node, i) => [node, i]))
    const widest = Math.max(
      ...neighbours.flatMap((list, node) =>
        list.map((other) => Math.abs(place.get(node)! - place.get(other)!)),
      ),
    )
    expect(widest).toBe(1)
  })
})
