/**
 * Solves K x = f for a symmetric positive-definite K kept by its profile: row i from its first nonzero to the
 * diagonal. Method: L D L^T by rows inside the profile (Jennings 1966; George and Liu, «Computer Solution of Large
 * Sparse Positive Definite Systems», 1981, ch. 4), after scaling to a unit diagonal; one step of iterative refinement;
 * condition by Hager's 1-norm estimator (Hager 1984, Higham 1988). Cost: n b^2 to factor, 2 n b a solve, b the mean
 * width. A pivot that all but vanishes is reported with the shape of the motion that nothing resists.
 * Tests: tests/core/statics/linear-solver.test.ts, against a dense library and by residual
 */

/** Symmetric, by rows of the lower triangle from the first column that may be nonzero. */
export interface ProfileMatrix {
  readonly size: number
  /** First column of each row. */
  readonly first: Int32Array
  /** Where row i's entry of column j lies: `offset[i] + j`. */
  readonly offset: Int32Array
  readonly values: Float64Array
}

export interface Factor {
  /** With one step of refinement, unless `isRough`. */
  solve(right: Float64Array, isRough?: boolean): Float64Array
  /** Estimate of the 1-norm condition number of the scaled matrix. */
  condition(): number
}

export type FactorOutcome =
  | { readonly ok: true; readonly factor: Factor }
  /** Entry by entry, the motion that meets no resistance. */
  | { readonly ok: false; readonly motion: Float64Array }

/** What the frame solver asks of an equation solver. */
export interface LinearSolver {
  factor(matrix: ProfileMatrix): FactorOutcome
}

/** A pivot of the scaled matrix (diagonal 1) below this is none. */
export const LEAST_PIVOT = 1e-12

/** @param first first column of each row @example emptyProfile(Int32Array.of(0, 0, 1)).values.length //=> 5 */
export function emptyProfile(first: Int32Array): ProfileMatrix {
  const offset = new Int32Array(first.length)
  let stored = 0
  for (let i = 0; i < first.length; i++) {
    if (!(first[i] >= 0 && first[i] <= i)) throw new RangeError(`row ${i} cannot begin at ${first[i]}`)
    offset[i] = stored - first[i]
    stored += i - first[i] + 1
  }
  return { size: first.length, first, offset, values: new Float64Array(stored) }
}

export const entry = (m: ProfileMatrix, i: number, j: number): number => {
  const [row, column] = i >= j ? [i, j] : [j, i]
  return column < m.first[row] ? 0 : m.values[m.offset[row] + column]
}

/** y = M x. */
export function multiply(m: ProfileMatrix, x: Float64Array): Float64Array {
  const y = new Float64Array(m.size)
  for (let i = 0; i < m.size; i++) {
    const at = m.offset[i]
    let sum = m.values[at + i] * x[i]
    for (let j = m.first[i]; j < i; j++) {
      const value = m.values[at + j]
      sum += value * x[j]
      y[j] += value * x[i]
    }
    y[i] += sum
  }
  return y
}

/** Scales to a unit diagonal; -1 in the scale marks a row without stiffness of its own. */
function scaled(m: ProfileMatrix): { readonly values: Float64Array; readonly scale: Float64Array } {
  const scale = new Float64Array(m.size)
  for (let i = 0; i < m.size; i++) {
    const diagonal = m.values[m.offset[i] + i]
    scale[i] = diagonal > 0 ? 1 / Math.sqrt(diagonal) : -1
  }
  const values = new Float64Array(m.values.length)
  for (let i = 0; i < m.size; i++) {
    const at = m.offset[i]
    for (let j = m.first[i]; j <= i; j++) values[at + j] = m.values[at + j] * scale[i] * scale[j]
  }
  return { values, scale }
}

/** Sum of n products. Four sums at once, since each addition waits for the one before. */
function dot(a: Float64Array, at: number, b: Float64Array, bt: number, n: number): number {
  let s0 = 0
  let s1 = 0
  let s2 = 0
  let s3 = 0
  let k = 0
  for (; k + 3 < n; k += 4) {
    s0 += a[at + k] * b[bt + k]
    s1 += a[at + k + 1] * b[bt + k + 1]
    s2 += a[at + k + 2] * b[bt + k + 2]
    s3 += a[at + k + 3] * b[bt + k + 3]
  }
  for (; k < n; k++) s0 += a[at + k] * b[bt + k]
  return s0 + s1 + (s2 + s3)
}

/** L below the diagonal and D on it, in place; the row whose pivot vanishes, or -1. */
function factorInPlace({ size, first, offset }: ProfileMatrix, a: Float64Array): number {
  for (let i = 0; i < size; i++) {
    const at = offset[i]
    const from = first[i]
    for (let j = from; j < i; j++) {
      const atJ = offset[j]
      const k = Math.max(from, first[j])
      a[at + j] -= dot(a, at + k, a, atJ + k, j - k)
    }
    let pivot = a[at + i]
    for (let j = from; j < i; j++) {
      const over = a[at + j]
      const share = over / a[offset[j] + j]
      pivot -= over * share
      a[at + j] = share
    }
    if (!(pivot > LEAST_PIVOT)) return i
    a[at + i] = pivot
  }
  return -1
}

function backward({ first, offset }: ProfileMatrix, a: Float64Array, x: Float64Array, last: number): void {
  for (let i = last; i > 0; i--) {
    const at = offset[i]
    const value = x[i]
    for (let j = first[i]; j < i; j++) x[j] -= a[at + j] * value
  }
}

function solveFactored(m: ProfileMatrix, a: Float64Array, x: Float64Array): void {
  // Nothing happens before the first load.
  let start = 0
  while (start < m.size && x[start] === 0) start++
  for (let i = start + 1; i < m.size; i++) {
    const from = Math.max(start, m.first[i])
    if (from < i) x[i] -= dot(a, m.offset[i] + from, x, from, i - from)
  }
  for (let i = 0; i < m.size; i++) x[i] /= a[m.offset[i] + i]
  backward(m, a, x, m.size - 1)
}

/** Hager's estimate of the 1-norm of the inverse, by a few solves. */
function inverseNorm(size: number, solve: (x: Float64Array) => void): number {
  let x = new Float64Array(size).fill(1 / size)
  let best = 0
  for (let round = 0; round < 5; round++) {
    const y = x.slice()
    solve(y)
    const norm = y.reduce((sum, value) => sum + Math.abs(value), 0)
    if (norm <= best) break
    best = norm
    const z = y.map((value) => (value >= 0 ? 1 : -1))
    solve(z)
    let at = 0
    for (let i = 1; i < size; i++) if (Math.abs(z[i]) > Math.abs(z[at])) at = i
    if (Math.abs(z[at]) <= z.reduce((sum, value, i) => sum + value * x[i], 0)) break
    x = new Float64Array(size)
    x[at] = 1
  }
  return best
}

function oneNorm(m: ProfileMatrix, values: Float64Array): number {
  const sums = new Float64Array(m.size)
  for (let i = 0; i < m.size; i++) {
    for (let j = m.first[i]; j <= i; j++) {
      const size = Math.abs(values[m.offset[i] + j])
      sums[i] += size
      if (i !== j) sums[j] += size
    }
  }
  return sums.reduce((most, value) => Math.max(most, value), 0)
}

function solveRefined(
  m: ProfileMatrix,
  a: Float64Array,
  scale: Float64Array,
  right: Float64Array,
  isRough = false,
): Float64Array {
  const step = (f: Float64Array): Float64Array => {
    const x = new Float64Array(f.length)
    for (let i = 0; i < x.length; i++) x[i] = f[i] * scale[i]
    solveFactored(m, a, x)
    for (let i = 0; i < x.length; i++) x[i] *= scale[i]
    return x
  }
  const x = step(right)
  if (isRough) return x
  const left = multiply(m, x)
  for (let i = 0; i < x.length; i++) left[i] = right[i] - left[i]
  const correction = step(left)
  for (let i = 0; i < x.length; i++) x[i] += correction[i]
  return x
}

/** Unit motion of one row, or the shape that the leading block of the factor leaves unresisted. */
function looseMotion(m: ProfileMatrix, a: Float64Array, scale: Float64Array, row: number): Float64Array {
  const x = new Float64Array(m.size)
  x[row] = 1
  backward(m, a, x, row)
  return x.map((value, i) => value * Math.abs(scale[i]))
}

function factorProfile(m: ProfileMatrix): FactorOutcome {
  const { values, scale } = scaled(m)
  const without = scale.indexOf(-1)
  if (without >= 0) {
    const motion = new Float64Array(m.size)
    motion[without] = 1
    return { ok: false, motion }
  }
  const norm = oneNorm(m, values)
  const loose = factorInPlace(m, values)
  if (loose >= 0) return { ok: false, motion: looseMotion(m, values, scale, loose) }
  return {
    ok: true,
    factor: {
      solve: (right, isRough) => solveRefined(m, values, scale, right, isRough),
      condition: () => norm * inverseNorm(m.size, (x) => solveFactored(m, values, x)),
    },
  }
}

/** The solver that ships: L D L^T inside the profile. */
export const profileSolver: LinearSolver = { factor: factorProfile }
