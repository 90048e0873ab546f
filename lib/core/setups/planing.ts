/**
 * Where in a cut tree wood is planed: on the smallest piece that a planer may take, since a short piece loses less to
 * flattening; and before it becomes too short, since a planer throws short pieces. A piece that holds a blank which is
 * itself too short or too narrow is planed as a whole, before it is cut.
 * In: pieces (micrometres), limits (mm). Out: ids of the pieces to plane. Cost: linear in the tree.
 * Tests: tests/core/setups/planing.test.ts.
 */
import type { Piece } from './pieces'
import { blanksUnder } from './pieces'
import type { PlanerLimits } from './setup-shop'

export function fitsPlaner(piece: Piece, planer: PlanerLimits): boolean {
  const { lengthUm, widthUm } = piece.node
  return (
    lengthUm >= planer.minLengthMm * 1000 &&
    widthUm >= planer.minWidthMm * 1000 &&
    widthUm <= planer.maxWidthMm * 1000
  )
}

/** The pieces to plane below and at this one, or undefined if it must be planed further up. */
function planedWithin(piece: Piece, planer: PlanerLimits): readonly Piece[] | undefined {
  if (blanksUnder(piece).length === 0) return []
  const below = piece.children.map((child) => planedWithin(child, planer))
  const isSettled = piece.node.kind === 'cut' && below.every((pieces) => pieces !== undefined)
  if (isSettled) return below.flat() as readonly Piece[]
  return fitsPlaner(piece, planer) ? [piece] : undefined
}

/**
 * The pieces to plane, one on the way to every blank. Where no piece fits, the blanks themselves: by hand.
 * @example planedPieces(board of 1200 mm cut into four of 290 mm, limits).map((p) => p.id) //=> [the board]
 */
export function planedPieces(root: Piece, planer: PlanerLimits): readonly Piece[] {
  return planedWithin(root, planer) ?? bestEffort(root, planer)
}

/** Some blank fits nowhere: plane what can be planed, and name the rest one by one. */
function bestEffort(piece: Piece, planer: PlanerLimits): readonly Piece[] {
  if (piece.node.kind !== 'cut') return piece.node.kind === 'blank' ? [piece] : []
  return piece.children.flatMap((child) => planedWithin(child, planer) ?? bestEffort(child, planer))
}
