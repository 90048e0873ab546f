/**
 * How thick a piece of a warped board is once both its faces are flat and parallel.
 *
 * A piece is cut to rough size before it is flattened, so only its own share of the board's warp is lost: cup and
 * bow are arcs, whose rise goes with the square of the chord ((w'/w)^2, (l'/l)^2); twist is a saddle z = k x y, whose
 * corner lift goes with length times width. An arc costs its rise once, not once a face. A twist costs all of its
 * lift when it rests on three corners and half when it is shimmed to the best-fit plane. Shares are added:
 * conservative, since the worst of each seldom meet.
 * Method: common practice and plane geometry. Whole micrometres; losses are rounded up.
 * Tests: tests/core/board/flattening.test.ts
 */
import type { RoughAllowances } from './allowances'
import type { Board } from './board'

export type WarpedBoard = Pick<Board, 'lengthUm' | 'widthUm' | 'thicknessUm' | 'warp'>

export interface PieceSize {
  readonly lengthUm: number
  readonly widthUm: number
}

/** Where the thickness goes; each rounded up to a whole micrometre. */
export interface FlatteningLoss {
  readonly cupUm: number
  readonly bowUm: number
  readonly twistUm: number
  readonly facesUm: number
}

type FaceAllowances = Pick<RoughAllowances, 'skimPerFaceUm' | 'sandPerFaceUm' | 'isTwistShimmed'>

/** A share of the board that the piece takes, never above 1: a piece is no larger than its board. */
const share = (pieceUm: number, boardUm: number): number => Math.min(1, pieceUm / boardUm)

/** Rounds up, but not for the noise of the division. */
const ceilUm = (valueUm: number): number => Math.max(0, Math.ceil(valueUm - 1e-6))

/**
 * What flattening a piece of this rough size takes from the thickness.
 * @throws RangeError if the board or the piece has no size
 */
export function flatteningLoss(
  board: WarpedBoard,
  piece: PieceSize,
  allowances: FaceAllowances,
): FlatteningLoss {
  const sizes = [board.lengthUm, board.widthUm, piece.lengthUm, piece.widthUm]
  if (!sizes.every((sizeUm) => sizeUm > 0)) throw new RangeError(`not sizes: ${sizes.join(', ')}`)
  const along = share(piece.lengthUm, board.lengthUm)
  const across = share(piece.widthUm, board.widthUm)
  const twistShare = allowances.isTwistShimmed ? 0.5 : 1
  return {
    cupUm: ceilUm(board.warp.cupUm * across ** 2),
    bowUm: ceilUm(board.warp.bowUm * along ** 2),
    twistUm: ceilUm(board.warp.twistUm * along * across * twistShare),
    facesUm: 2 * (allowances.skimPerFaceUm + allowances.sandPerFaceUm),
  }
}

/**
 * Thickness left when a piece of this rough size is flat, planed and sanded; below 0 where nothing is left.
 * @example flatThicknessUm({ ...flatBoard, thicknessUm: 25_000 }, piece, DEFAULT_ALLOWANCES) //=> 23_400
 */
export function flatThicknessUm(board: WarpedBoard, piece: PieceSize, allowances: FaceAllowances): number {
  const loss = flatteningLoss(board, piece, allowances)
  return board.thicknessUm - loss.cupUm - loss.bowUm - loss.twistUm - loss.facesUm
}

/**
 * Width that a straight edge costs a piece of this length: its share of the board's crook.
 * @example crookLossUm({ ...board, lengthUm: 2_000_000, warp: { ...flat, crookUm: 8_000 } }, 1_000_000) //=> 2_000
 */
export const crookLossUm = (board: Pick<Board, 'lengthUm' | 'warp'>, pieceLengthUm: number): number =>
  ceilUm(board.warp.crookUm * share(pieceLengthUm, board.lengthUm) ** 2)

/**
 * Radius of an arc from its chord and its rise: R = ((w/2)^2 + c^2) / 2c.
 * @throws RangeError unless both are above 0
 * @example arcRadiusMm(200, 3) //=> 1668.1666666666667
 */
export function arcRadiusMm(chordMm: number, riseMm: number): number {
  if (!(chordMm > 0 && riseMm > 0)) throw new RangeError(`no arc: chord ${chordMm}, rise ${riseMm}`)
  return ((chordMm / 2) ** 2 + riseMm ** 2) / (2 * riseMm)
}
