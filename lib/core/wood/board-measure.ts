/**
 * How lumber is counted and sold: cubic metres, board feet, and what a nominal size really measures.
 * A board foot is 1 in x 12 in x 12 in = 144 in3 of rough lumber; stock under 1 in counts as 1 in (common practice).
 * Dressed softwood sizes: American Softwood Lumber Standard PS 20, dry. Dressed hardwood thickness (S2S): hardwood
 * grading rules (6/4 from memory). Used to put a price on what was saved. Tests: tests/core/wood/board-measure.test.ts
 */
import { UM_PER_INCH } from '#lib/core/units/length'

/** 144 cubic inches of 0.0254 m: 0.002359737 m3. */
export const M3_PER_BOARD_FOOT = 144 * 0.0254 ** 3

interface SizeUm {
  readonly lengthUm: number
  readonly widthUm: number
  readonly thicknessUm: number
}

/** @example volumeM3({ lengthUm: 1_000_000, widthUm: 100_000, thicknessUm: 20_000 }) //=> 0.002 */
export const volumeM3 = (size: SizeUm): number => (size.lengthUm * size.widthUm * size.thicknessUm) / 1e18

/**
 * Board feet from inches, inches and feet. Thickness under 1 in counts as 1 in.
 * @example boardFeet({ thicknessIn: 1.25, widthIn: 7.5, lengthFt: 12 }) //=> 9.375
 */
export const boardFeet = (size: {
  readonly thicknessIn: number
  readonly widthIn: number
  readonly lengthFt: number
}): number => (Math.max(1, size.thicknessIn) * size.widthIn * size.lengthFt) / 12

/** @example boardFeetOf({ lengthUm: 2_438_400, widthUm: 203_200, thicknessUm: 25_400 }) //=> 5.333… */
export const boardFeetOf = (size: SizeUm): number =>
  boardFeet({
    thicknessIn: size.thicknessUm / UM_PER_INCH,
    widthIn: size.widthUm / UM_PER_INCH,
    lengthFt: size.lengthUm / (12 * UM_PER_INCH),
  })

/** Nominal to dressed dry, in inches. */
const SOFTWOOD_THICKNESS_IN: Readonly<Record<string, number>> = { '1': 0.75, '5/4': 1, '6/4': 1.25, '2': 1.5 }
const SOFTWOOD_WIDTH_IN: Readonly<Record<string, number>> = {
  '2': 1.5,
  '3': 2.5,
  '4': 3.5,
  '5': 4.5,
  '6': 5.5,
  '8': 7.25,
  '10': 9.25,
  '12': 11.25,
}

/** Rough quarters to surfaced on two sides, in inches. */
export const HARDWOOD_S2S_IN: Readonly<Record<'4/4' | '5/4' | '6/4' | '8/4', number>> = {
  '4/4': 13 / 16,
  '5/4': 17 / 16,
  '6/4': 21 / 16,
  '8/4': 1.75,
}

/**
 * What a dressed softwood board measures when dry, in inches; null for a size that is not in the table.
 * @example dressedSoftwoodIn('2x4') //=> { thicknessIn: 1.5, widthIn: 3.5 }
 */
export function dressedSoftwoodIn(
  nominal: string,
): { readonly thicknessIn: number; readonly widthIn: number } | null {
  const [thickness = '', width = ''] = nominal
    .toLowerCase()
    .split(/[x×]/)
    .map((side) => side.trim())
  const thicknessIn = SOFTWOOD_THICKNESS_IN[thickness]
  const widthIn = SOFTWOOD_WIDTH_IN[width]
  return thicknessIn === undefined || widthIn === undefined ? null : { thicknessIn, widthIn }
}
