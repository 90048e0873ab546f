/**
 * The rectangle of a board that may be planned on, and where it lies on the board.
 * In: a board and allowances, whole micrometres. Out: the rectangle's corner in the board's own coordinates and
 * its size; 0 or less where nothing is left. End trim is skipped for an offcut, whose ends were cut in the shop.
 * Crook: a straight strip in a crooked board loses the whole rise of the arc, since the first cut may be a rip of
 * full length; it is taken half from each edge. A defect measured from the curved edge may lie off by half the
 * rise, so zones grow by that. Conservative: crosscutting first would lose less. Common practice.
 * Tests: tests/core/board/usable.test.ts
 */
import type { RoughAllowances } from './allowances'
import type { Board } from './board'
import type { Zone } from './free-placements'

export type UsableRectangle = Zone

type TrimAllowances = Pick<RoughAllowances, 'endTrimUm' | 'edgeTrimUm'>

/**
 * @example usableRectangle(board2mBy200, DEFAULT_ALLOWANCES)
 * //=> { xUm: 10_000, yUm: 0, lengthUm: 1_980_000, widthUm: 200_000 }
 */
export function usableRectangle(
  board: Pick<Board, 'lengthUm' | 'widthUm' | 'warp'>,
  allowances: TrimAllowances,
  options: { readonly areEndsClean?: boolean } = {},
): UsableRectangle {
  const endUm = options.areEndsClean ? 0 : allowances.endTrimUm
  const edgeUm = allowances.edgeTrimUm + Math.ceil(board.warp.crookUm / 2)
  return {
    xUm: endUm,
    yUm: edgeUm,
    lengthUm: board.lengthUm - 2 * endUm,
    widthUm: board.widthUm - 2 * edgeUm,
  }
}

/**
 * A zone of the board as seen from its usable rectangle, grown by what the crook may have shifted it;
 * null where it lies outside.
 */
export function zoneInUsable(zone: Zone, usable: UsableRectangle, board: Pick<Board, 'warp'>): Zone | null {
  const shiftUm = Math.ceil(board.warp.crookUm / 2)
  const x0 = Math.max(0, zone.xUm - usable.xUm)
  const x1 = Math.min(usable.lengthUm, zone.xUm + zone.lengthUm - usable.xUm)
  const y0 = Math.max(0, zone.yUm - shiftUm - usable.yUm)
  const y1 = Math.min(usable.widthUm, zone.yUm + zone.widthUm + shiftUm - usable.yUm)
  return x0 < x1 && y0 < y1 ? { xUm: x0, yUm: y0, lengthUm: x1 - x0, widthUm: y1 - y0 } : null
}
