/**
 * Planing: on the way from a board to a blank its thickness comes to what the part wants, in passes that the planer
 * takes, each after its piece is cut and before it is cut on. Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { CutNode } from '#lib/core/cutting/problem'
import type { Part } from '#lib/core/design/model'
import type { SetupCut } from '../setup-plan'
import { type Check, type Found, near, THIN_MM } from './check'
import { type Leaf, parentOf, type TreeCuts, type Walked } from './trees'

/** Boards and pieces on the way from a board to one of its pieces, both included. */
function line(pieceId: string): readonly string[] {
  const above = parentOf(pieceId)
  return above === '' ? [pieceId] : [...line(above), pieceId]
}

/** What flattening takes: an arc's rise goes with the square of its chord, half of a twist's lift with both sides. */
function flatteningMm(check: Check, leaf: Leaf, piece: CutNode): number {
  const { warp, lengthUm, widthUm } = check.input.boards[leaf.boardIndex]
  if (warp === undefined) return 0
  const [l, w] = [Math.min(1, piece.lengthUm / lengthUm), Math.min(1, piece.widthUm / widthUm)]
  return (warp.bowUm * l * l + warp.cupUm * w * w + (warp.twistUm / 2) * l * w) / 1000
}

function checkPlanerLimits(check: Check, cut: SetupCut, piece: CutNode): void {
  const { planer } = check.input.shop
  const key = `plane:${cut.pieceId}`
  check.limit(piece.lengthUm / 1000 < planer.minLengthMm, 'tooShortToPlane', key)
  check.limit(piece.widthUm / 1000 < planer.minWidthMm, 'tooNarrowToPlane', key)
  check.limit(piece.widthUm / 1000 > planer.maxWidthMm, 'tooWideToPlane', key)
  check.limit((cut.leavesMm ?? 0) < planer.minThicknessMm, 'tooThinToPlane', key)
}

/** One visit to the planer: enough passes, what it leaves, after its piece is cut and before it is cut on. */
function checkPlanerCut(
  check: Check,
  found: Found,
  piece: CutNode,
  fromMm: number,
  lossMm: number,
  tree: TreeCuts,
): number {
  const { cut, setup } = found
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const toMm = cut.leavesMm ?? fromMm
  check.expect(
    (fromMm - toMm) / cut.passes <= check.input.shop.planer.maxPassMm + 1e-6,
    'limit',
    cut.key,
    'a pass is too deep',
  )
  ok(setup.station === 'planer', 'not made on the planer')
  checkPlanerLimits(check, cut, piece)
  if (cut.kind === 'plane')
    ok(near(setup.settings.thicknessMm, toMm), 'the planer is not set to what it leaves')
  if (cut.kind === 'flatten') ok(near(fromMm - toMm, lossMm, 0.01), 'flattening takes another amount')
  check.before(tree.get(parentOf(cut.pieceId)), found, 'its piece does not exist yet')
  check.before(found, tree.get(cut.pieceId), 'its piece is cut up already')
  return toMm
}

/** The planing on the way from the board to one blank. */
export function checkPlaning(
  check: Check,
  walked: Walked,
  leaf: Leaf,
  part: Part,
  tree: TreeCuts,
  firstOfPart: Found | undefined,
): void {
  const board = check.input.boards[leaf.boardIndex]
  const wantedMm = part.blank.thicknessMm + (check.input.sandingMm ?? 0)
  let thicknessMm = board.thicknessUm / 1000
  for (const pieceId of line(leaf.pieceId)) {
    const node =
      pieceId === leaf.pieceId ? leaf.node : walked.cuts.find((cut) => cut.pieceId === pieceId)?.node
    if (node === undefined) continue
    const lossMm = flatteningMm(check, leaf, node)
    const planed = check.all.filter(
      ({ cut }) => cut.pieceId === pieceId && (cut.kind === 'plane' || cut.kind === 'flatten'),
    )
    for (const found of planed) {
      thicknessMm = checkPlanerCut(check, found, node, thicknessMm, lossMm, tree)
      check.before(found, firstOfPart, 'the part is worked on already')
    }
  }
  const isThin = check.plan.warnings.some(
    (w) => w.code === 'boardTooThin' && line(leaf.pieceId).some((id) => w.key === `plane:${id}`),
  )
  check.expect(
    isThin || thicknessMm <= wantedMm + THIN_MM,
    'missing',
    part.id,
    `stays ${thicknessMm} mm thick, wants ${wantedMm}`,
  )
  check.expect(
    isThin || thicknessMm >= part.blank.thicknessMm - THIN_MM,
    'setting',
    part.id,
    'planed too thin',
  )
}
