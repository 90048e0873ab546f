/**
 * A layout as it is drawn and read at the saw: each part with a letter and its maker's name, each cut with its number,
 * what its stop or fence is set to and what it frees. Whole micrometres, on the board itself.
 * In: a plan's question and answer, names of parts. Out: BoardSheet. Tests: tests/shop/board-sheet.test.ts
 */
import { type CutOrder, cutOrder, type SawCut } from '#lib/core/cutting/cut-order'
import { planedTogether } from '#lib/core/cutting/planed-together'
import type { CutNode } from '#lib/core/cutting/problem'
import type { PieceRect } from './cutting'
import type { PlanInput, PlannedBoard } from './plan-input'
import type { PlanResult } from './plan-result'

export interface SheetPart extends PieceRect {
  /** a, b, c …, aa, ab … */
  readonly letter: string
  readonly partId: string
  readonly name: string
  /** Shorter: what parts of its sort are called. */
  readonly kind: string
  /** Its show side is cut from the board's face B. */
  readonly isTurnedOver: boolean
}

export interface SheetRest extends PieceRect {
  readonly kind: 'offcut' | 'waste'
}

export interface SheetCut extends SawCut {
  /** What the two sides are: «a», «offcut», «waste», «cut 3». */
  readonly gives: readonly string[]
}

export interface BoardSheet {
  readonly board: PlannedBoard
  readonly usable: PieceRect
  readonly parts: readonly SheetPart[]
  readonly rests: readonly SheetRest[]
  readonly cuts: readonly SheetCut[]
  /** Letters of parts that stay one piece until they are planed, since one by one they are too short. */
  readonly together: readonly (readonly string[])[]
}

const ALPHABET = 26

/** @example letterOf(0) //=> 'a' @example letterOf(27) //=> 'ab' */
export function letterOf(index: number): string {
  const last = String.fromCharCode(97 + (index % ALPHABET))
  return index < ALPHABET ? last : letterOf(Math.floor(index / ALPHABET) - 1) + last
}

/** Nodes in the order in which `cutOrder` numbers cuts and `leavesOf` lists leaves: parents first, first child first. */
function* inOrder(node: CutNode): Generator<CutNode> {
  yield node
  if (node.kind !== 'cut') return
  yield* inOrder(node.first)
  if (node.second) yield* inOrder(node.second)
}

type CutOf = Extract<CutNode, { kind: 'cut' }>

function givesOf(node: CutOf, nameOf: ReadonlyMap<CutNode, string>): string[] {
  return [node.first, ...(node.second ? [node.second] : [])].map((child) => nameOf.get(child) ?? child.kind)
}

function sheetCuts(
  tree: CutNode,
  order: CutOrder,
  nameOf: ReadonlyMap<CutNode, string>,
  at: { xUm: number; yUm: number },
): SheetCut[] {
  const nodes = [...inOrder(tree)].filter((n): n is CutOf => n.kind === 'cut')
  return order.cuts.map((cut, i) => ({
    ...cut,
    piece: { ...cut.piece, xUm: cut.piece.xUm + at.xUm, yUm: cut.piece.yUm + at.yUm },
    lineUm: cut.lineUm + (cut.kind === 'crosscut' ? at.xUm : at.yUm),
    gives: givesOf(nodes[i], nameOf),
  }))
}

/**
 * @param index of the layout in the plan
 * @param partName a part's name by its id
 */
export function boardSheet(
  input: PlanInput,
  result: PlanResult,
  index: number,
  partName: (partId: string) => string | undefined,
): BoardSheet {
  const { board, tree } = result.plan.layouts[index]
  const usable = input.pool.usable[board]
  const parts: SheetPart[] = []
  const rests: SheetRest[] = []
  const nameOf = new Map<CutNode, string>()
  let cuts = 0
  for (const node of inOrder(tree)) {
    const rect = {
      xUm: node.xUm + usable.xUm,
      yUm: node.yUm + usable.yUm,
      lengthUm: node.lengthUm,
      widthUm: node.widthUm,
      ...(node.leanUm ? { leanUm: node.leanUm } : {}),
    }
    if (node.kind === 'cut') nameOf.set(node, `cut ${++cuts}`)
    else if (node.kind === 'blank') {
      const letter = letterOf(parts.length)
      const partId = result.partIds[index][parts.length]
      const { name: kind } = input.needs[node.blank]
      const name = partName(partId) ?? kind
      const isTurnedOver = input.pool.orientations[board][node.blank] === 'bUp'
      parts.push({ ...rect, letter, partId, name, kind, isTurnedOver })
      nameOf.set(node, letter)
    } else {
      rests.push({ ...rect, kind: node.kind })
      nameOf.set(node, node.kind)
    }
  }
  const cutList = sheetCuts(tree, cutOrder(tree, input.shop.limits), nameOf, usable)
  const together = planedTogether(input.pool.problem, tree).map((piece) =>
    [...inOrder(piece)].flatMap((node) => (node.kind === 'blank' ? [nameOf.get(node) ?? ''] : [])),
  )
  return { board: input.boards[board], usable, parts, rests, cuts: cutList, together }
}
