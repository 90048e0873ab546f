/**
 * What becomes of a board that has been cut: the parts that came out, and the offcuts that go back to the pool with
 * their share of the damage and of the warp. What was really cut may differ from the plan: a part failed, an offcut
 * came out smaller or not at all, another rest is worth keeping.
 * In: a board, a layout of its plan, what its maker says came out. Out: parts and offcuts as rows, or sentences.
 * Whole micrometres, in the board's own coordinates. Tests: tests/shop/cutting.test.ts
 */
import type { Board, Defect, Warp } from '#lib/core/board/board'
import { BOARD_LIMITS } from '#lib/core/board/validate'
import { leavesOf, restsOf } from '#lib/core/cutting/offcuts'
import type { CutNode } from '#lib/core/cutting/problem'
import { pieceAreaUm2 } from '#lib/core/cutting/rows'
import { formatMm } from '#lib/core/units/inches'
import { err, ok, type Result } from '#lib/core/units/result'
import type { PlanInput } from './plan-input'
import type { PlanResult } from './plan-result'

export interface PieceRect {
  readonly xUm: number
  readonly yUm: number
  readonly lengthUm: number
  readonly widthUm: number
  /** How its left and its right end lean, where they do; the rectangle is the one around it. */
  readonly leanUm?: readonly [number, number]
}

export interface PlannedPart extends PieceRect {
  readonly partId: string
  readonly needId: string
}

/** A layout of a plan, on the board itself. */
export interface PlannedCutting {
  readonly boardId: string
  readonly parts: readonly PlannedPart[]
  /** Largest first. */
  readonly offcuts: readonly PieceRect[]
}

/** The layout that cuts a board; null where the plan does not cut it. */
export function plannedCutting(input: PlanInput, result: PlanResult, boardId: string): PlannedCutting | null {
  const index = result.plan.layouts.findIndex((l) => input.pool.boardIds[l.board] === boardId)
  if (index < 0) return null
  const { board, tree } = result.plan.layouts[index]
  const usable = input.pool.usable[board]
  const onBoard = (r: PieceRect): PieceRect => ({
    xUm: r.xUm + usable.xUm,
    yUm: r.yUm + usable.yUm,
    lengthUm: r.lengthUm,
    widthUm: r.widthUm,
    ...(r.leanUm ? { leanUm: r.leanUm } : {}),
  })
  const blanks = leavesOf(tree).flatMap((leaf) => (leaf.kind === 'blank' ? [leaf] : []))
  return {
    boardId,
    parts: blanks.map((leaf, i) => ({
      ...onBoard(leaf),
      partId: result.partIds[index][i],
      needId: input.needs[leaf.blank].id,
    })),
    offcuts: restsOf(tree).offcuts.map(onBoard),
  }
}

/** A rest that was kept. `planned`: index of the planned offcut that it is; null: another one. */
export interface KeptOffcut {
  readonly planned: number | null
  readonly lengthUm: number
  readonly widthUm: number
}

/** What the maker says came out; absent lists: as planned. */
export interface ReallyCut {
  readonly made?: readonly string[]
  readonly offcuts?: readonly KeptOffcut[]
}

export interface NewOffcut {
  readonly lengthUm: number
  readonly widthUm: number
  readonly warp: Warp
  readonly defects: readonly Omit<Defect, 'id'>[]
  /** Where it lay on the board; null where nobody knows, so that its damage has to be mapped anew. */
  readonly from: PieceRect | null
}

export interface CuttingRecord {
  readonly parts: readonly PlannedPart[]
  readonly offcuts: readonly NewOffcut[]
}

/** What is kept of a board that was cut: its tree and what came out of each blank leaf, in cutting order. */
export interface CutLayout {
  readonly tree: CutNode
  /** Null: the piece failed. */
  readonly partIds: readonly (string | null)[]
  readonly offcuts: readonly NewOffcut[]
}

type BoardShape = Pick<Board, 'lengthUm' | 'widthUm' | 'warp' | 'defects'>

/**
 * A piece's share of its board's warp: rises of arcs go with the square of the chord, the lift of a twisted corner
 * with length times width (plane geometry). Rounded up.
 * @example warpShare({ ...board2m, warp: { ...flat, bowUm: 8_000 } }, { lengthUm: 1_000_000, widthUm: 90_000 }).bowUm //=> 2_000
 */
export function warpShare(
  board: Pick<Board, 'lengthUm' | 'widthUm' | 'warp'>,
  piece: { lengthUm: number; widthUm: number },
): Warp {
  const along = Math.min(1, piece.lengthUm / board.lengthUm)
  const across = Math.min(1, piece.widthUm / board.widthUm)
  const up = (um: number) => Math.ceil(um - 1e-6)
  return {
    cupUm: up(board.warp.cupUm * across ** 2),
    bowUm: up(board.warp.bowUm * along ** 2),
    crookUm: up(board.warp.crookUm * along ** 2),
    twistUm: up(board.warp.twistUm * along * across),
  }
}

/** The damage that lies on a piece, in the piece's own coordinates; what sticks out is cut off. */
export function defectsOnPiece(defects: readonly Defect[], piece: PieceRect): Omit<Defect, 'id'>[] {
  return defects.flatMap(({ id: _, ...d }) => {
    const x0 = Math.max(d.xUm, piece.xUm)
    const x1 = Math.min(d.xUm + d.widthUm, piece.xUm + piece.lengthUm)
    const y0 = Math.max(d.yUm, piece.yUm)
    const y1 = Math.min(d.yUm + d.heightUm, piece.yUm + piece.widthUm)
    if (x0 >= x1 || y0 >= y1) return []
    return [{ ...d, xUm: x0 - piece.xUm, yUm: y0 - piece.yUm, widthUm: x1 - x0, heightUm: y1 - y0 }]
  })
}

/** Where a kept offcut lay: the corner of the planned one, moved in where it is larger than planned. */
function rectOf(board: BoardShape, planned: PieceRect, kept: KeptOffcut): PieceRect {
  return {
    xUm: Math.max(0, Math.min(planned.xUm, board.lengthUm - kept.lengthUm)),
    yUm: Math.max(0, Math.min(planned.yUm, board.widthUm - kept.widthUm)),
    lengthUm: kept.lengthUm,
    widthUm: kept.widthUm,
  }
}

function newOffcut(board: BoardShape, planned: readonly PieceRect[], kept: KeptOffcut): NewOffcut {
  const from = kept.planned === null ? null : rectOf(board, planned[kept.planned], kept)
  return {
    lengthUm: kept.lengthUm,
    widthUm: kept.widthUm,
    warp: warpShare(board, kept),
    defects: from ? defectsOnPiece(board.defects, from) : [],
    from,
  }
}

type Fields = Record<string, string>

function checkSize(fields: Fields, name: string, valueUm: number, boardUm: number, leastUm: number): void {
  if (valueUm > boardUm) fields[name] = `The board was only ${formatMm(boardUm)} mm.`
  else if (valueUm < leastUm) fields[name] = `An offcut is at least ${formatMm(leastUm)} mm here.`
}

function checkOffcuts(board: BoardShape, planned: PlannedCutting, offcuts: readonly KeptOffcut[]): Fields {
  const fields: Fields = {}
  const seen = new Set<number>()
  offcuts.forEach((o, i) => {
    const at = `offcuts.${i}`
    checkSize(fields, `${at}.lengthUm`, o.lengthUm, board.lengthUm, BOARD_LIMITS.lengthUm.min)
    checkSize(fields, `${at}.widthUm`, o.widthUm, board.widthUm, BOARD_LIMITS.widthUm.min)
    if (o.planned === null) return
    if (!planned.offcuts[o.planned] || seen.has(o.planned))
      fields[`${at}.planned`] = 'The plan has no such offcut.'
    seen.add(o.planned)
  })
  return fields
}

const areaOf = (pieces: readonly Parameters<typeof pieceAreaUm2>[0][]) =>
  pieces.reduce((sum, p) => sum + pieceAreaUm2(p), 0)

/**
 * What goes into the books.
 * @returns sentences by field path, as `offcuts.0.lengthUm`, where it cannot have come out so
 */
export function cuttingRecord(
  board: BoardShape,
  planned: PlannedCutting,
  really: ReallyCut,
): Result<CuttingRecord, Fields> {
  const made = new Set(really.made ?? planned.parts.map((p) => p.partId))
  const kept = really.offcuts ?? planned.offcuts.map((o, i) => ({ ...o, planned: i }))
  const fields = checkOffcuts(board, planned, kept)
  const parts = planned.parts.filter((p) => made.has(p.partId))
  if (parts.length < made.size) fields.made = 'The plan cuts no such part from this board.'
  const isTooMuch = areaOf(parts) + areaOf(kept) > board.lengthUm * board.widthUm
  if (isTooMuch && Object.keys(fields).length === 0)
    fields.offcuts = 'Parts and offcuts together are more than the board had.'
  if (Object.keys(fields).length > 0) return err(fields)
  return ok({ parts, offcuts: kept.map((o) => newOffcut(board, planned.offcuts, o)) })
}
