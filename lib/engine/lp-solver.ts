/**
 * The LP and MIP solver that the cutting engine's bounds use: HiGHS (Huangfu and Hall 2018) compiled to WebAssembly.
 * Core knows only the `LpSolver` interface; this file alone imports the package. The load is asynchronous, solving is
 * synchronous: run it in a worker. In a page, pass `locateFile` so that highs.wasm is found.
 * Tests: tests/engine/lp-solver.test.ts
 */
import loadHighs from 'highs'
import type { LpAnswer, LpModel, LpSolver } from '#lib/core/cutting/lp'

type Highs = Awaited<ReturnType<typeof loadHighs>>

const term = (coef: number, column: number): string => `${coef < 0 ? '-' : '+'} ${Math.abs(coef)} x${column}`

/** The model as CPLEX LP text, broken into short lines (the format's readers limit them). */
function textOf(model: LpModel): string {
  const rows: string[][] = model.rows.map(() => [])
  const cost: string[] = []
  const bounds: string[] = []
  const integers: string[] = []
  model.columns.forEach((c, j) => {
    if (c.cost !== 0) cost.push(term(c.cost, j))
    for (let k = 0; k < c.rows.length; k++) if (c.coefs[k] !== 0) rows[c.rows[k]].push(term(c.coefs[k], j))
    bounds.push(`${c.lower ?? 0} <= x${j} <= ${c.upper ?? '+inf'}`)
    if (c.integer === true) integers.push(`x${j}`)
  })
  if (cost.length === 0) cost.push('0 x0')
  const lines = ['Minimize', 'obj:', ...cost, 'Subject To']
  model.rows.forEach((r, i) => {
    // An empty row would not parse: 0 x0 keeps its place.
    lines.push(`r${i}:`, ...(rows[i].length > 0 ? rows[i] : ['0 x0']), `${r.sense} ${r.rhs}`)
  })
  lines.push('Bounds', ...bounds)
  if (integers.length > 0) lines.push('General', ...integers)
  lines.push('End')
  return lines.join('\n')
}

const STATUS: Record<string, LpAnswer['status']> = {
  Optimal: 'optimal',
  Infeasible: 'infeasible',
  Unbounded: 'unbounded',
  'Time limit reached': 'feasible',
  'Solution limit reached': 'feasible',
  'Iteration limit reached': 'feasible',
}

const failed = (status: LpAnswer['status']): LpAnswer => ({
  status,
  objective: Number.NaN,
  x: new Float64Array(0),
  duals: new Float64Array(0),
  bound: Number.NEGATIVE_INFINITY,
})

/** Whole numbers that meet every row: what is left of a search cut short may be anything. */
function isSound(model: LpModel, x: Float64Array): boolean {
  const sums = new Float64Array(model.rows.length)
  for (let j = 0; j < x.length; j++) {
    const c = model.columns[j]
    if (c.integer === true && Math.abs(x[j] - Math.round(x[j])) > 1e-6) return false
    for (let k = 0; k < c.rows.length; k++) sums[c.rows[k]] += c.coefs[k] * x[j]
  }
  return model.rows.every(({ sense, rhs }, i) => {
    const slack = 1e-6 * Math.max(1, Math.abs(rhs))
    return (sense === '<=' || sums[i] >= rhs - slack) && (sense === '>=' || sums[i] <= rhs + slack)
  })
}

interface Effort {
  readonly seconds?: number
  readonly nodes?: number
}

function solve(highs: Highs, model: LpModel, effort: Effort = {}): LpAnswer {
  if (model.columns.length === 0) return failed('infeasible')
  const isInteger = model.columns.some((c) => c.integer === true)
  let solution: ReturnType<Highs['solve']>
  try {
    solution = highs.solve(textOf(model), {
      ...(effort.seconds === undefined ? {} : { time_limit: effort.seconds }),
      ...(effort.nodes === undefined ? {} : { mip_max_nodes: effort.nodes }),
      ...(isInteger ? { mip_rel_gap: 0, mip_abs_gap: 1e-9 } : {}),
    })
  } catch {
    return failed('failed')
  }
  const status = STATUS[solution.Status] ?? 'failed'
  if (status !== 'optimal' && status !== 'feasible') return failed(status)
  const x = new Float64Array(model.columns.length)
  for (let j = 0; j < x.length; j++) {
    const column = solution.Columns[`x${j}`]
    x[j] = column !== undefined && 'Primal' in column ? column.Primal : Number.NaN
  }
  if (x.some(Number.isNaN)) return failed('failed')
  if (status === 'feasible' && !isSound(model, x)) return failed('failed')
  const duals = new Float64Array(isInteger ? 0 : model.rows.length)
  solution.Rows.forEach((row) => {
    if (!('Name' in row) || !('Dual' in row)) return
    const at = Number(String(row.Name).slice(1))
    if (at < duals.length) duals[at] = Number(row.Dual)
  })
  return {
    status,
    objective: solution.ObjectiveValue,
    x,
    duals,
    bound: status === 'optimal' ? solution.ObjectiveValue : Number.NEGATIVE_INFINITY,
  }
}

/**
 * Loads the solver. Load it once and use it for many models.
 * @param locateFile where highs.wasm lies, in a page; absent: beside the package
 */
export async function loadLpSolver(locateFile?: (file: string) => string): Promise<LpSolver> {
  const highs = await loadHighs(locateFile === undefined ? {} : { locateFile })
  return { solve: (model, options) => solve(highs, model, options) }
}
