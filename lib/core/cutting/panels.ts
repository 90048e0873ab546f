/**
 * Panels glued up from staves: which widths of staves make a panel's width, chosen from what the boards offer.
 *
 * n staves of widths w make a panel of the sum of w, less what jointing takes from the two edges of each of the n - 1
 * joints. Ways offered: the panel whole; n equal staves for every n that the range of widths allows; and strips as wide
 * as the boards give them, the boards whose wood is cheapest first, the last strip ripped to what is still wanted.
 * In: a stave rule and the boards, whole micrometres. Out: widths of the staves of one panel, widest first.
 * Not guaranteed: that no other set of widths would use less wood. Tests: tests/core/cutting/panels.test.ts
 */
import type { CutBoard, StaveRule } from './problem'

/** Narrowest of equal staves, rounded up to this, so that a fence can be set to it. */
const STEP_UM = 500

/**
 * Width that staves make once their joints are planed straight.
 * @example panelWidthUm([60_000, 60_000, 60_000], 500) //=> 178_000
 */
export function panelWidthUm(widthsUm: readonly number[], jointUm: number): number {
  return widthsUm.reduce((sum, w) => sum + w, 0) - 2 * jointUm * Math.max(0, widthsUm.length - 1)
}

/** Width that n staves must have together. */
const wantedUm = (rule: StaveRule, n: number): number => rule.panelUm + 2 * rule.jointUm * (n - 1)

/**
 * n staves alike, or null where the range of widths does not allow it.
 * @example equalStaves(rule300, 3) //=> [101_000, 101_000, 101_000]
 */
export function equalStaves(rule: StaveRule, n: number): readonly number[] | null {
  if (n < 2 || n > rule.maxStaves) return null
  const exact = Math.ceil(wantedUm(rule, n) / n)
  const rounded = Math.ceil(exact / STEP_UM) * STEP_UM
  const width = rounded <= rule.maxWidthUm ? rounded : exact
  return width >= rule.minWidthUm && width <= rule.maxWidthUm ? new Array<number>(n).fill(width) : null
}

/** Every way of equal staves, the fewest joints first. */
export function equalWays(rule: StaveRule): readonly (readonly number[])[] {
  const ways: (readonly number[])[] = []
  for (let n = 2; n <= rule.maxStaves; n++) {
    const way = equalStaves(rule, n)
    if (way !== null) ways.push(way)
  }
  return ways
}

/** A strip that a board can give, and what its wood costs a square micrometre. */
export interface Strip {
  readonly widthUm: number
  readonly price: number
  readonly board: number
}

/**
 * Strips of the widest kind that a board gives without waste across it: the board's width in as few equal strips as
 * the range allows, as many times as the length holds.
 */
export function stripsOfBoard(
  board: Pick<CutBoard, 'lengthUm' | 'widthUm' | 'cost'>,
  index: number,
  lengthUm: number,
  rule: StaveRule,
  kerfUm: number,
): readonly Strip[] {
  const times = Math.floor((board.lengthUm + kerfUm) / (lengthUm + kerfUm))
  const across = Math.max(1, Math.ceil((board.widthUm + kerfUm) / (rule.maxWidthUm + kerfUm)))
  const widthUm = Math.min(rule.maxWidthUm, Math.floor((board.widthUm - (across - 1) * kerfUm) / across))
  if (times < 1 || widthUm < rule.minWidthUm) return []
  const price = board.cost / (board.lengthUm * board.widthUm)
  return new Array<Strip>(times * across).fill({ widthUm, price, board: index })
}

/**
 * The last strips of a way ripped to what is still wanted: never under the narrowest stave.
 * @returns null where the strips do not make the panel
 */
function trimmed(rule: StaveRule, strips: readonly number[]): readonly number[] | null {
  const n = strips.length
  if (n < 2 || n > rule.maxStaves) return null
  let overUm = panelWidthUm(strips, rule.jointUm) - rule.panelUm
  if (overUm < 0) return null
  const widths = [...strips].sort((a, b) => b - a)
  for (let i = n - 1; i >= 0 && overUm > 0; i--) {
    const take = Math.min(overUm, widths[i] - rule.minWidthUm)
    widths[i] -= take
    overUm -= take
  }
  return widths.sort((a, b) => b - a)
}

/**
 * Staves for `count` panels from strips as the boards give them: cheapest wood first, each panel closed as soon as it
 * is wide enough.
 * @returns widths a panel, or null where the strips do not reach
 * @example waysFromStrips(rule, strips, 1) //=> [[98_000, 98_000, 110_500]]
 */
export function waysFromStrips(
  rule: StaveRule,
  strips: readonly Strip[],
  count: number,
): readonly (readonly number[])[] | null {
  const order = [...strips].sort((a, b) => a.price - b.price || b.widthUm - a.widthUm || a.board - b.board)
  const ways: (readonly number[])[] = []
  let open: number[] = []
  for (const { widthUm } of order) {
    open.push(widthUm)
    if (panelWidthUm(open, rule.jointUm) < rule.panelUm && open.length < rule.maxStaves) continue
    const way = trimmed(rule, open)
    if (way === null) return null
    ways.push(way)
    if (ways.length === count) return ways
    open = []
  }
  return null
}
