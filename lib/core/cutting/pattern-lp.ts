/**
 * The linear program over cutting patterns, solved by column generation (Gilmore and Gomory 1961, 1963): which
 * patterns, how often, at least cost, when a pattern may be used a fraction of a time. A revised simplex with a dense
 * basis inverse; new patterns are priced in from outside.
 * In: demands, counts of boards, columns. Out: value, duals, x. Cost: rows squared a pivot.
 * Numbers are doubles: a bound is taken from the duals by `safeBound`, not from the value.
 * Tests: tests/core/cutting/one-dimension.test.ts
 */

/** A pattern: how often it makes each part type, on which board class. */
export interface Column {
  readonly cls: number
  readonly cost: number
  readonly items: Int32Array
  readonly counts: Int32Array
}

const EPS = 1e-9

/** Rows: each part type (made at least as often as demanded), then each limited board class (used at most). */
export class PatternLp {
  readonly rows: number
  readonly types: number
  /** Dual prices: of parts, at least 0; of board counts, at most 0. */
  readonly duals: Float64Array
  pivots = 0
  private readonly inverse: Float64Array
  private readonly x: Float64Array
  /** Column in each basis row: index into `columns`; -1 - row: artificial or slack of that row. */
  private readonly basis: Int32Array
  private readonly alpha: Float64Array
  private readonly columns: Column[] = []
  private readonly limitRow: Int32Array
  private readonly artificialCost: number

  /**
   * @param demand of each part type, above 0
   * @param counts of each board class; Infinity: no row
   * @param isByLength a place for a type does for the next one too (types longest first)
   */
  constructor(
    demand: ArrayLike<number>,
    counts: readonly number[],
    artificialCost: number,
    private readonly isByLength = true,
  ) {
    this.types = demand.length
    this.limitRow = new Int32Array(counts.length).fill(-1)
    let rows = demand.length
    counts.forEach((c, k) => {
      if (Number.isFinite(c)) this.limitRow[k] = rows++
    })
    this.rows = rows
    this.artificialCost = artificialCost
    this.inverse = new Float64Array(rows * rows)
    this.x = new Float64Array(rows)
    this.basis = new Int32Array(rows)
    this.alpha = new Float64Array(rows)
    this.duals = new Float64Array(rows)
    for (let i = 0; i < rows; i++) {
      this.inverse[i * rows + i] = 1
      this.basis[i] = -1 - i
      this.x[i] = i < this.types ? demand[i] : 0
      this.duals[i] = i < this.types ? artificialCost : 0
    }
    counts.forEach((c, k) => {
      if (this.limitRow[k] >= 0) this.x[this.limitRow[k]] = c
    })
  }

  /** What the pattern would save at today's prices; above 0: worth taking in. */
  saving(c: Column): number {
    let value = -c.cost
    for (let k = 0; k < c.items.length; k++) value += c.counts[k] * this.duals[c.items[k]]
    const row = this.limitRow[c.cls]
    return row < 0 ? value : value + this.duals[row]
  }

  /** Dual of a class's count, 0 where it has none. */
  limitDual(cls: number): number {
    const row = this.limitRow[cls]
    return row < 0 ? 0 : this.duals[row]
  }

  value(): number {
    let v = 0
    for (let i = 0; i < this.rows; i++) v += this.x[i] * this.costOf(this.basis[i])
    return v
  }

  /** Demand that no pattern covers yet. */
  uncovered(): number {
    let v = 0
    for (let i = 0; i < this.rows; i++) {
      const b = this.basis[i]
      if (b < 0 && b > SURPLUS && -1 - b < this.types) v += this.x[i]
    }
    return v
  }

  private costOf(b: number): number {
    if (b >= 0) return this.columns[b].cost
    return b > SURPLUS && -1 - b < this.types ? this.artificialCost : 0
  }

  /** Brings a pattern into the basis. @returns false where it cannot improve */
  enter(c: Column): boolean {
    const gain = this.saving(c)
    if (gain <= EPS) return false
    const { rows, inverse, alpha } = this
    for (let i = 0; i < rows; i++) {
      let v = 0
      const base = i * rows
      for (let k = 0; k < c.items.length; k++) v += inverse[base + c.items[k]] * c.counts[k]
      if (this.limitRow[c.cls] >= 0) v += inverse[base + this.limitRow[c.cls]]
      alpha[i] = v
    }
    const at = this.columns.length
    if (!this.pivot(gain, at)) return false
    this.columns.push(c)
    return true
  }

  /**
   * Lets into the basis what needs no pricing: the surplus of a part type whose dual has turned negative, the slack of
   * a board count, or a place for one type given to the next shorter one, whose dual has grown above its own. The last
   * keeps the duals in the order of length (dual-optimal inequalities: Valerio de Carvalho 2005), which saves most of
   * the rounds of pricing, where types come longest first.
   */
  enterFree(): boolean {
    const { rows, duals } = this
    let worst = EPS
    let at = -1
    let kind = 0
    for (let i = 0; i < this.types; i++) {
      if (-duals[i] > worst) [worst, at, kind] = [-duals[i], i, 0]
      if (!this.isByLength || i === 0) continue
      if (duals[i] - duals[i - 1] > worst) [worst, at, kind] = [duals[i] - duals[i - 1], i, 1]
    }
    for (let i = this.types; i < rows; i++) if (duals[i] > worst) [worst, at, kind] = [duals[i], i, 2]
    if (at < 0) return false
    const { inverse, alpha } = this
    for (let i = 0; i < rows; i++) {
      const v = inverse[i * rows + at]
      alpha[i] = kind === 0 ? -v : kind === 2 ? v : v - inverse[i * rows + at - 1]
    }
    return this.pivot(worst, SURPLUS - at - (kind === 1 ? rows : 0))
  }

  private pivot(gain: number, entering: number): boolean {
    const { rows, inverse, alpha, x, duals } = this
    let leave = -1
    let best = Number.POSITIVE_INFINITY
    for (let i = 0; i < rows; i++) {
      if (alpha[i] <= 1e-8) continue
      const ratio = x[i] / alpha[i]
      if (ratio < best - 1e-12 || (ratio < best + 1e-12 && alpha[i] > alpha[leave])) {
        best = ratio
        leave = i
      }
    }
    if (leave < 0) return false
    const p = alpha[leave]
    const lrow = leave * rows
    const scale = gain / p
    for (let j = 0; j < rows; j++) {
      const v = inverse[lrow + j]
      if (v === 0) continue
      duals[j] -= scale * v
      inverse[lrow + j] = v / p
    }
    const step = Math.max(0, x[leave] / p)
    for (let i = 0; i < rows; i++) {
      if (i === leave) continue
      const f = alpha[i]
      if (f === 0) continue
      x[i] = Math.max(0, x[i] - f * step)
      const base = i * rows
      for (let j = 0; j < rows; j++) inverse[base + j] -= f * inverse[lrow + j]
    }
    x[leave] = step
    this.basis[leave] = entering
    this.pivots++
    return true
  }

  /** Patterns of the present solution with how often each is used. */
  solution(): { readonly column: Column; readonly x: number }[] {
    const out: { column: Column; x: number }[] = []
    for (let i = 0; i < this.rows; i++) {
      if (this.basis[i] >= 0 && this.x[i] > 1e-9) {
        out.push({ column: this.columns[this.basis[i]], x: this.x[i] })
      }
    }
    return out
  }
}

/** Basis codes below this are surplus columns: they cost nothing. */
const SURPLUS = -1_000_000
