/**
 * Drawing marks on a board's face: a mark out of two corners, moved, resized, kept on its board, on a whole step.
 * In and out: whole micrometres, as in board.ts. A result always lies on the board and is at least one step large
 * (a board is never smaller than that). Cost: constant.
 * Not judged here: kinds and faces. Tests: tests/core/board/mark-edit.test.ts
 */
import type { Board, DefectKind } from './board'

export interface MarkBox {
  readonly xUm: number
  readonly yUm: number
  readonly widthUm: number
  readonly heightUm: number
}

type Side = Pick<Board, 'lengthUm' | 'widthUm'>

/** Smallest mark, and what drawn marks snap to unless a caller has another step, as 1/16 in: 1 mm. */
export const MARK_STEP_UM = 1_000

/** What a tap places: about what such damage measures in furniture (common practice). Along the grain, then across. */
export const USUAL_MARK_UM: Readonly<Record<DefectKind, readonly [alongUm: number, acrossUm: number]>> = {
  hole: [10_000, 10_000],
  nailHole: [6_000, 6_000],
  knot: [28_000, 20_000],
  crack: [100_000, 4_000],
  rot: [60_000, 40_000],
  wane: [150_000, 12_000],
  stain: [60_000, 40_000],
  metal: [6_000, 6_000],
}

const within = (value: number, least: number, most: number) => Math.max(least, Math.min(most, value))

/** Nearest whole step, in whole micrometres, but the side's very end stays reachable. */
const onStep = (valueUm: number, sideUm: number, stepUm: number): number =>
  valueUm >= sideUm - stepUm / 2 ? sideUm : Math.round(Math.round(valueUm / stepUm) * stepUm)

interface Span {
  readonly fromUm: number
  readonly sizeUm: number
}

/** One axis of a box between two places, on the side and on whole steps. */
function spanBetween(aUm: number, bUm: number, sideUm: number, stepUm: number): Span {
  const [low, high] = [Math.min(aUm, bUm), Math.max(aUm, bUm)].map((v) =>
    onStep(within(v, 0, sideUm), sideUm, stepUm),
  )
  const sizeUm = Math.min(sideUm, Math.max(Math.ceil(stepUm), high - low))
  return { fromUm: within(low, 0, sideUm - sizeUm), sizeUm }
}

const boxOf = (along: Span, across: Span): MarkBox => ({
  xUm: along.fromUm,
  yUm: across.fromUm,
  widthUm: along.sizeUm,
  heightUm: across.sizeUm,
})

/**
 * The box between two corners, as a finger drew it.
 * @example markBetween({ xUm: 100_400, yUm: 20_000 }, { xUm: 90_000, yUm: 30_000 }, board)
 * //=> { xUm: 90_000, yUm: 20_000, widthUm: 10_000, heightUm: 10_000 }
 */
export const markBetween = (
  a: { readonly xUm: number; readonly yUm: number },
  b: { readonly xUm: number; readonly yUm: number },
  board: Side,
  stepUm: number = MARK_STEP_UM,
): MarkBox =>
  boxOf(spanBetween(a.xUm, b.xUm, board.lengthUm, stepUm), spanBetween(a.yUm, b.yUm, board.widthUm, stepUm))

/** A mark of its usual size about a place, shoved onto the board where it would stick out. */
export function markAt(
  kind: DefectKind,
  at: { readonly xUm: number; readonly yUm: number },
  board: Side,
  stepUm: number = MARK_STEP_UM,
): MarkBox {
  const [alongUm, acrossUm] = USUAL_MARK_UM[kind]
  const widthUm = Math.min(alongUm, board.lengthUm)
  const heightUm = Math.min(acrossUm, board.widthUm)
  return moveMark(
    { xUm: at.xUm - widthUm / 2, yUm: at.yUm - heightUm / 2, widthUm, heightUm },
    0,
    0,
    board,
    stepUm,
  )
}

/** Moved as far as the board goes; its size stays. @example moveMark(box, -1e9, 0, board).xUm //=> 0 */
export function moveMark(
  box: MarkBox,
  dxUm: number,
  dyUm: number,
  board: Side,
  stepUm: number = MARK_STEP_UM,
): MarkBox {
  const placed = (fromUm: number, sizeUm: number, sideUm: number) => {
    const most = Math.max(0, sideUm - sizeUm)
    return within(onStep(fromUm, most, stepUm), 0, most)
  }
  return {
    ...box,
    xUm: placed(box.xUm + dxUm, box.widthUm, board.lengthUm),
    yUm: placed(box.yUm + dyUm, box.heightUm, board.widthUm),
  }
}

export const MARK_CORNERS = ['nearStart', 'nearEnd', 'farStart', 'farEnd'] as const
/** `start` and `end` along the grain, `near` and `far` across it. */
export type MarkCorner = (typeof MARK_CORNERS)[number]

/** One corner pulled by so much; the opposite one stays. Pulled past it, the box turns over. */
export function resizeMark(
  box: MarkBox,
  corner: MarkCorner,
  dxUm: number,
  dyUm: number,
  board: Side,
  stepUm: number = MARK_STEP_UM,
): MarkBox {
  const [left, right] = [box.xUm, box.xUm + box.widthUm]
  const [top, bottom] = [box.yUm, box.yUm + box.heightUm]
  const isEnd = corner === 'nearEnd' || corner === 'farEnd'
  const isFar = corner === 'farStart' || corner === 'farEnd'
  return markBetween(
    { xUm: isEnd ? left : right, yUm: isFar ? top : bottom },
    { xUm: (isEnd ? right : left) + dxUm, yUm: (isFar ? bottom : top) + dyUm },
    board,
    stepUm,
  )
}
