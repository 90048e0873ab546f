/**
 * From a cut plan, and from boards cut under earlier plans of the same build, to what the planning of set-ups reads.
 * Each piece is named by the part that it becomes: a piece that failed becomes none.
 * In: trees with the part of each blank leaf, boards, the model, the shop's machines. Out: SetupInput.
 * Tests: tests/shop/setup-work.test.ts
 */
import type { Warp } from '#lib/core/board/board'
import type { BoardLayout, CutNode } from '#lib/core/cutting/problem'
import type { Model } from '#lib/core/design/model'
import type { SetupBlank, SetupBoard, SetupInput, SetupNeed } from '#lib/core/setups/setup-input'
import type { SetupShop } from '#lib/core/setups/setup-shop'
import { partOfTick } from './parts-made'
import { partOfStave, STAVE_RULE } from './staves'

/** A board and what is cut from it. */
export interface WorkBoard {
  readonly id: string
  readonly number: number
  readonly lengthUm: number
  readonly widthUm: number
  readonly thicknessUm: number
  readonly warp: Warp
  readonly tree: CutNode
  /** By blank leaf in cutting order. */
  readonly partIds: readonly (string | null)[]
  readonly isCut: boolean
}

/** The same tree, each blank leaf with a number of its own from `next()`. */
function renumbered(node: CutNode, next: () => number): CutNode {
  if (node.kind === 'blank') return { ...node, blank: next() }
  if (node.kind !== 'cut') return node
  const first = renumbered(node.first, next)
  return node.second === undefined
    ? { ...node, first }
    : { ...node, first, second: renumbered(node.second, next) }
}

function setupBoard(b: WorkBoard): SetupBoard {
  return {
    id: b.id,
    name: `board ${b.number}`,
    lengthUm: b.lengthUm,
    widthUm: b.widthUm,
    thicknessUm: b.thicknessUm,
    warp: b.warp,
    endTrimUm: Math.round((b.lengthUm - b.tree.lengthUm) / 2),
  }
}

/**
 * @param sandPerFaceUm left on each face for sanding
 * @example setupInput(model, boards, 300, DEFAULT_SETUP_SHOP).layouts.length //=> boards.length
 */
export function setupInput(
  model: Model,
  boards: readonly WorkBoard[],
  sandPerFaceUm: number,
  shop: SetupShop,
): SetupInput {
  const blanks: SetupBlank[] = []
  const needs: SetupNeed[] = []
  const layouts: BoardLayout[] = boards.map((b, board) => {
    let leaf = 0
    const tree = renumbered(b.tree, () => {
      const piece = b.partIds[leaf++] ?? null
      const partId = piece === null ? null : partOfStave(piece)
      const blank = blanks.length
      blanks.push({ id: `${b.id}:${leaf}`, name: 'failed piece' })
      needs.push({ blank, partIds: partId === null ? [] : [partId] })
      return blank
    })
    return { board, copies: 1, tree }
  })
  return {
    model: { parts: model.parts },
    layouts,
    boards: boards.map(setupBoard),
    blanks,
    needs,
    shop,
    sandingMm: (2 * sandPerFaceUm) / 1000,
    jointMm: STAVE_RULE.jointUm / 1000,
  }
}

/** Ids that ticks of earlier plans may still speak of: boards that were cut, and the parts that came out. */
export const settledIds = (
  boards: readonly Pick<WorkBoard, 'id' | 'partIds' | 'isCut'>[],
): ReadonlySet<string> =>
  new Set(
    boards.flatMap((b) => (b.isCut ? [b.id, ...b.partIds.filter((p) => p !== null).map(partOfStave)] : [])),
  )

/**
 * Whether a cut that was ticked off under an earlier plan is the same cut now. A key is `what:board/path` or
 * `what:part:operation`; a board that is not cut yet may be cut otherwise now.
 * @example isSettled('cut:b1/12', new Set(['b1'])) //=> true
 */
export const isSettled = (key: string, settled: ReadonlySet<string>): boolean => settled.has(partOfTick(key))
