/**
 * Cut plans told in figures, level by level of what a plan is judged by, and two plans side by side: which boards each
 * of them cuts, and what comes out of them. In: questions and answers of plans. Out: numbers, board by board.
 * Whole micrometres; areas in square metres. Tests: tests/shop/plan-compare.test.ts
 */
import { countSettings } from '#lib/core/cutting/cut-order'
import { offcutWorth, restsOf } from '#lib/core/cutting/offcuts'
import { planedByHand } from '#lib/core/cutting/planed-together'
import type { PlanInput } from './plan-input'
import type { PlanResult } from './plan-result'
import { costGap, partsShort, partsWanted, type WoodShares, woodShares } from './plan-words'
import { partOfStave } from './staves'

export interface Planned {
  readonly input: PlanInput
  readonly result: PlanResult
}

/** In the order in which plans are judged. */
export interface PlanFigures {
  readonly wanted: number
  readonly made: number
  /** Short parts that no piece long enough for the planer holds. */
  readonly byHand: number
  readonly boards: number
  readonly woodM2: number
  /** What using the boards up counts for: their volume in cm3, by where they are from. */
  readonly cost: number
  /** Share by which the cost could at best be lower; 0: proven best. */
  readonly gap: number
  readonly shares: WoodShares
  readonly offcuts: number
  readonly largestOffcutM2: number
  /** One large rest counts more than the same area in slivers. */
  readonly offcutWorth: number
  /** Stops, fences and sled angles that differ. */
  readonly settings: number
  readonly panels: number
}

const M2 = 1e12

/** @example planFigures(planned).settings //=> 14 */
export function planFigures({ input, result }: Planned): PlanFigures {
  const { plan } = result
  const rests = plan.layouts.flatMap(({ tree }) => restsOf(tree).offcuts)
  const areas = rests.map((o) => (o.lengthUm * o.widthUm) / M2)
  const wanted = partsWanted(input)
  const boards = plan.layouts.map((l) => input.boards[l.board])
  const staved = result.partIds.flat().filter((id) => id !== partOfStave(id))
  return {
    wanted,
    made: wanted - partsShort(plan),
    byHand: plan.layouts.reduce((n, l) => n + planedByHand(input.pool.problem, l.tree), 0),
    boards: boards.length,
    woodM2: boards.reduce((sum, b) => sum + b.lengthUm * b.widthUm, 0) / M2,
    cost: plan.cost,
    gap: costGap(plan),
    shares: woodShares(plan, input),
    offcuts: rests.length,
    largestOffcutM2: Math.max(0, ...areas),
    offcutWorth: rests.reduce((sum, o) => sum + offcutWorth(o.lengthUm, o.widthUm), 0),
    settings: countSettings(
      plan.layouts.map((l) => l.tree),
      input.shop.limits,
    ),
    panels: new Set(staved.map(partOfStave)).size,
  }
}

/** A board as two plans have it. */
export interface ComparedBoard {
  readonly boardId: string
  readonly number: number
  /** Index of the layout; null: this plan leaves the board alone. */
  readonly a: number | null
  readonly b: number | null
  /** Cut alike by both. */
  readonly isSame: boolean
}

const layoutOf = ({ input, result }: Planned, boardId: string): number | null => {
  const index = result.plan.layouts.findIndex((l) => input.pool.boardIds[l.board] === boardId)
  return index < 0 ? null : index
}

const textOf = ({ result }: Planned, index: number | null): string =>
  index === null ? '' : JSON.stringify([result.plan.layouts[index].tree, result.partIds[index]])

/**
 * Every board that either plan cuts: those that are cut otherwise first, by number.
 * @example comparedBoards(first, second).filter((b) => !b.isSame).length //=> 2
 */
export function comparedBoards(a: Planned, b: Planned): readonly ComparedBoard[] {
  const numbers = new Map(
    [a, b].flatMap(({ input, result }) =>
      result.plan.layouts.map(
        ({ board }) => [input.pool.boardIds[board], input.boards[board].number] as const,
      ),
    ),
  )
  return [...numbers]
    .map(([boardId, number]) => {
      const [inA, inB] = [layoutOf(a, boardId), layoutOf(b, boardId)]
      return { boardId, number, a: inA, b: inB, isSame: textOf(a, inA) === textOf(b, inB) }
    })
    .sort((x, y) => Number(x.isSame) - Number(y.isSame) || x.number - y.number)
}

/** Parts that one plan makes and the other does not, by name of the need. */
export function onlyMadeBy(one: Planned, other: Planned): readonly string[] {
  const made = new Set(other.result.partIds.flat().map(partOfStave))
  return [...new Set(one.result.partIds.flat().map(partOfStave))].filter((id) => !made.has(id))
}
