/**
 * Which cuts the shop's machines can make, in shifted sizes (see prepared.ts): a piece must be large enough to hold,
 * a crosscut no longer than the sled takes, and at a rip one side of the blade within the fence's reach.
 * In: Prepared, the piece before its cut. Tests: tests/core/cutting/saw.test.ts (through verifyCutPlan)
 */
import type { Prepared } from './prepared'

export function canCrosscut(prep: Prepared, w: number, h: number): boolean {
  return w >= prep.minPieceL && h >= prep.minPieceW && h <= prep.maxCrosscut
}

/** A rip that leaves `first` of height h: one side of the blade must suit the fence. */
export function canRip(prep: Prepared, w: number, h: number, first: number): boolean {
  if (w < prep.minPieceL || h < prep.minPieceW) return false
  return first <= prep.maxRip || (h - first > prep.kerf && h - first <= prep.maxRip)
}

/** Whether no cut is ever refused: any order and number of cuts, any piece. */
export function hasNoLimits(prep: Prepared): boolean {
  if (prep.minPieceL > prep.kerf + 1 || prep.minPieceW > prep.kerf + 1) return false
  return !Number.isFinite(prep.maxRip) && !Number.isFinite(prep.maxCrosscut) && !Number.isFinite(prep.stages)
}
