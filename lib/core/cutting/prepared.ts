/**
 * A cutting problem made ready for searching: the kerf is folded away, alike boards are counted together.
 *
 * Kerf k is exact: parts (w, h) in a board (W, H) with kerf k are parts (w+k, h+k) in a board (W+k, H+k) without.
 * A part placed at x covers wood from x to x+w, so a zone from a to b blocks it when x < b and x+w+k > a+k.
 * Zones may thus turn inside out (start after end) where the kerf can swallow them: the same test stays right.
 * In: a checked CutProblem. Out: typed arrays by blank, board classes. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { CutProblem, MachineLimits } from './problem'

/** A part at (x, y) of shifted size (w, h) is blocked when x < x1, x + w > x0, y < y1, y + h > y0. */
export interface Zone {
  readonly x0: number
  readonly x1: number
  readonly y0: number
  readonly y1: number
  /** 1 for each blank that it blocks; null: all. */
  readonly mask: Uint8Array | null
}

/** Boards that are alike for every purpose. */
export interface BoardClass {
  readonly index: number
  /** Shifted size. */
  readonly w: number
  readonly h: number
  readonly cost: number
  /** May be Infinity. */
  readonly count: number
  readonly zones: readonly Zone[]
  /** 1 for each blank that may come from it; null: all. */
  readonly allowed: Uint8Array | null
  readonly members: readonly { readonly board: number; readonly count: number }[]
}

export interface Prepared {
  readonly problem: CutProblem
  readonly kerf: number
  readonly n: number
  /** Shifted sizes as given (not turned). */
  readonly w: Float64Array
  readonly h: Float64Array
  readonly free: Uint8Array
  readonly weight: Float64Array
  /** Shifted area. */
  readonly area: Float64Array
  /** How many could be of use: the demand, or as many as the boards' area holds. */
  readonly demand: Int32Array
  readonly classes: readonly BoardClass[]
  readonly minPieceL: number
  readonly minPieceW: number
  readonly maxRip: number
  readonly maxCrosscut: number
  readonly stages: number
  /** Stage of a whole board: alternations x 2 + last direction (see nextStage). */
  readonly rootStage: number
}

function allowedMasks(problem: CutProblem): (Uint8Array | null)[] {
  const n = problem.blanks.length
  const masks: (Uint8Array | null)[] = problem.boards.map(() => null)
  if (problem.blanks.every((b) => b.boards === undefined)) return masks
  const all = problem.boards.map(() => new Uint8Array(n))
  problem.blanks.forEach((b, i) => {
    if (b.boards === undefined) for (const m of all) m[i] = 1
    else for (const k of b.boards) all[k][i] = 1
  })
  return all.map((m) => (m.every((v) => v === 1) ? null : m))
}

function zonesOf(problem: CutProblem): Zone[][] {
  const k = problem.kerfUm
  const zones: Zone[][] = problem.boards.map(() => [])
  for (const z of problem.zones) {
    if (z.lengthUm === 0 || z.widthUm === 0) continue
    let mask: Uint8Array | null = null
    if (z.blocks !== 'all') {
      mask = new Uint8Array(problem.blanks.length)
      for (const i of z.blocks) mask[i] = 1
      if (z.blocks.length === 0) continue
    }
    zones[z.board].push({
      x0: z.xUm + k,
      x1: z.xUm + z.lengthUm,
      y0: z.yUm + k,
      y1: z.yUm + z.widthUm,
      mask,
    })
  }
  return zones
}

type OpenClass = Omit<BoardClass, 'count' | 'members'> & {
  count: number
  members: { board: number; count: number }[]
}

function classesOf(problem: CutProblem): BoardClass[] {
  const masks = allowedMasks(problem)
  const zones = zonesOf(problem)
  const byKey = new Map<string, OpenClass>()
  const classes: OpenClass[] = []
  const add = (board: number, count: number, own: readonly Zone[]): void => {
    const b = problem.boards[board]
    const cost = problem.objective === 'minBoards' ? 1 : b.cost
    const mask = masks[board]
    const key = own.length > 0 ? `#${board}` : `${b.lengthUm},${b.widthUm},${cost},${mask?.join('') ?? ''}`
    let cls = byKey.get(key)
    if (cls === undefined) {
      const shifted = { w: b.lengthUm + problem.kerfUm, h: b.widthUm + problem.kerfUm }
      cls = { index: classes.length, ...shifted, cost, count: 0, zones: own, allowed: mask, members: [] }
      byKey.set(key, cls)
      classes.push(cls)
    }
    cls.count += count
    cls.members.push({ board, count })
  }
  problem.boards.forEach((b, i) => {
    const count = b.count === null ? Number.POSITIVE_INFINITY : (b.count ?? 1)
    if (count < 1) return
    if (zones[i].length > 0) {
      add(i, 1, zones[i])
      if (count > 1) add(i, count - 1, [])
    } else add(i, count, [])
  })
  return classes
}

/** One stage is used up where the first must be of one kind. */
function rootStage({ stages, firstCut }: MachineLimits): number {
  if (stages === null || stages === 0 || firstCut === undefined) return 0
  return firstCut === 'crosscut' ? 2 : 3
}

/** @param problem checked already by `checkProblem` */
export function prepare(problem: CutProblem): Prepared {
  const n = problem.blanks.length
  const k = problem.kerfUm
  const w = Float64Array.from(problem.blanks, (b) => b.lengthUm + k)
  const h = Float64Array.from(problem.blanks, (b) => b.widthUm + k)
  const area = w.map((v, i) => v * h[i])
  const classes = classesOf(problem)
  const demand = new Int32Array(n)
  problem.blanks.forEach((b, i) => {
    let most = 0
    for (const c of classes) {
      if (c.allowed !== null && c.allowed[i] === 0) continue
      most += c.count * Math.floor((c.w * c.h) / area[i])
    }
    demand[i] = Math.min(b.demand ?? Number.POSITIVE_INFINITY, most, 2_000_000)
  })
  const { limits } = problem
  return {
    problem,
    kerf: k,
    n,
    w,
    h,
    free: Uint8Array.from(problem.blanks, (b) => (b.grain === 'free' && b.lengthUm !== b.widthUm ? 1 : 0)),
    weight: Float64Array.from(problem.blanks, (b) => b.weight),
    area,
    demand,
    classes,
    minPieceL: limits.minPieceLengthUm + k,
    minPieceW: limits.minPieceWidthUm + k,
    maxRip: (limits.maxRipWidthUm ?? Number.POSITIVE_INFINITY) + k,
    maxCrosscut: (limits.maxCrosscutWidthUm ?? Number.POSITIVE_INFINITY) + k,
    stages: limits.stages ?? Number.POSITIVE_INFINITY,
    rootStage: rootStage(limits),
  }
}
