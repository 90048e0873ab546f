/**
 * Leaning ends of a part at its rough size: what nesting head to tail needs to know. Only ends cut with the blade
 * upright lean in the plane of the board; a part with a bevelled end has none.
 *
 * The ends are those of the model's end cuts, carried on over the width's allowance; the length's allowance is added
 * along the grain, half at each end. What the width's allowance lengthens a slant by is taken out of the length's,
 * down to half of it (common practice: a clean-up cut of a millimetre); beyond that the blank grows.
 * In: part (mm), allowances. Out: whole micrometres, or null for square ends. Tests: tests/core/board/rough-ends.test.ts
 */
import type { EndCut, Part } from '#lib/core/design/model'
import { umFromMm } from '#lib/core/units/length'
import type { RoughAllowances } from './allowances'

/** See BlankEnds of the cutting problem: lean is how much further along the far edge stands. */
export interface RoughEnds {
  readonly nearUm: number
  readonly leanAUm: number
  readonly leanBUm: number
}

export interface RoughShape {
  readonly lengthUm: number
  readonly ends: RoughEnds
}

const UPRIGHT = 1e-9

/** Where an end stands along the grain at a width, and how much further for each mm of width. */
function endLine(part: Part, end: 'endA' | 'endB'): { readonly at: (yMm: number) => number } | null {
  const cut = part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end)
  if (cut === undefined) return { at: () => (end === 'endA' ? 0 : part.blank.lengthMm) }
  const { point, normal } = cut
  if (Math.abs(normal[2]) > UPRIGHT || Math.abs(normal[0]) < UPRIGHT) return null
  return { at: (yMm) => point[0] - (normal[1] / normal[0]) * (yMm - point[1]) }
}

/**
 * @returns null where both ends are square, or one cannot be cut with the blade upright
 * @example roughShape(leg raked 8 degrees, DEFAULT_ALLOWANCES)?.ends //=> { nearUm: 584_326, leanAUm: -6_746, leanBUm: -6_746 }
 */
export function roughShape(
  part: Part,
  allowances: Pick<RoughAllowances, 'lengthUm' | 'widthUm'>,
): RoughShape | null {
  const [a, b] = [endLine(part, 'endA'), endLine(part, 'endB')]
  if (a === null || b === null) return null
  const { widthMm, lengthMm } = part.blank
  const roughWidthMm = (umFromMm(widthMm) + allowances.widthUm) / 1000
  const lean = (line: { at: (y: number) => number }) => umFromMm(line.at(roughWidthMm) - line.at(0))
  const [leanAUm, leanBUm] = [lean(a), lean(b)]
  if (leanAUm === 0 && leanBUm === 0) return null
  const midUm = Math.ceil((b.at(widthMm / 2) - a.at(widthMm / 2)) * 1000 - 1e-6)
  const slantUm = (Math.abs(leanAUm) + Math.abs(leanBUm)) / 2
  const roomUm = umFromMm(lengthMm) + allowances.lengthUm - slantUm
  const roughMidUm = Math.max(
    midUm + Math.ceil(allowances.lengthUm / 2),
    Math.min(midUm + allowances.lengthUm, roomUm),
  )
  // Rounded down to half a micrometre so that both edges come out whole.
  const nearUm = Math.floor(roughMidUm - (leanBUm - leanAUm) / 2)
  const ends = { nearUm, leanAUm, leanBUm }
  const aroundUm = Math.max(nearUm, nearUm + leanBUm) - Math.min(0, leanAUm)
  return { lengthUm: Math.max(umFromMm(lengthMm) + allowances.lengthUm, aroundUm), ends }
}
