/**
 * What the cutting engine needs from a linear-programming library. Core imports no package: the caller hands one
 * in (lib/engine/lp-solver.ts), and every bound works without one too, if more weakly.
 */

/** min cost·x  subject to  A x >= or = or <= rhs, lower <= x <= upper. Columns are sparse. */
export interface LpModel {
  readonly rows: readonly { readonly sense: '>=' | '<=' | '='; readonly rhs: number }[]
  readonly columns: readonly LpColumn[]
}

export interface LpColumn {
  readonly cost: number
  readonly rows: ArrayLike<number>
  readonly coefs: ArrayLike<number>
  readonly lower?: number
  /** Absent: no limit. */
  readonly upper?: number
  readonly integer?: boolean
}

export interface LpAnswer {
  readonly status: 'optimal' | 'feasible' | 'infeasible' | 'unbounded' | 'failed'
  readonly objective: number
  readonly x: Float64Array
  /** One dual price a row; for a minimum, >= rows have duals >= 0. Empty for an integer model. */
  readonly duals: Float64Array
  /** Best bound of an integer model; the objective of a continuous one. */
  readonly bound: number
}

export interface LpSolver {
  /**
   * @param options most nodes of an integer program's search tree, which repeat, and most seconds, which do not;
   * absent: no limit
   */
  solve(model: LpModel, options?: { readonly seconds?: number; readonly nodes?: number }): LpAnswer
}
