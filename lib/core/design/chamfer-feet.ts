/**
 * Feet with their edges taken off, so that a leg which is pushed over the floor does not splinter. mm. In: the parts of
 * a piece and which kinds stand on the floor. Out: the same parts, each with a chamfer along all four edges of the end
 * that it stands on. Tests: tests/core/design/chamfer-feet.test.ts
 */
import type { Chamfer, DesignRefusal, Part } from './model'
import { sayValue } from './parameters'
import { withOperations } from './placed-part'
import { mmParameter } from './shared-parameters'

const SIDES = ['edgeA', 'edgeB', 'faceA', 'faceB'] as const
/** From either side a chamfer takes at most this share of the foot. */
const MOST_OF_FOOT = 0.2
/** Less than this is what sandpaper takes off. */
const SHARP_MM = 0.1

const ROUNDING_MM = 1e-9

/** @param defaultMm nought: sharp, unless the maker says otherwise */
export const footChamferParameter = (group: string, defaultMm = 0) =>
  mmParameter(
    'footChamfer',
    'Chamfered feet',
    group,
    [defaultMm, 0, 8, 0.5],
    'Taken off the edges of each foot, from the end and the side alike, so that it does not splinter when it is pushed over the floor; at nought they stay sharp.',
  )

const footOf = ({ frame }: Part): 'endA' | 'endB' => (frame.x[2] > 0 ? 'endA' : 'endB')

/** @param kinds of the parts that stand on the floor, upright or nearly */
export function chamferFeet(parts: readonly Part[], kinds: readonly string[], widthMm: number): Part[] {
  if (widthMm < SHARP_MM) return [...parts]
  return parts.map((part) => {
    if (!kinds.includes(part.kind)) return part
    const foot = footOf(part)
    return withOperations(
      part,
      SIDES.map((side): Chamfer => ({ kind: 'chamfer', id: `foot-${side}`, between: [foot, side], widthMm })),
    )
  })
}

/**
 * Refuses a chamfer that would leave little to stand on.
 * @param footMm the smaller size of the foot's section
 */
export function refuseFootChamfer(widthMm: number, footMm: number): DesignRefusal | undefined {
  const mostMm = MOST_OF_FOOT * footMm
  return widthMm > mostMm + ROUNDING_MM
    ? {
        parameter: 'footChamfer',
        message: `${sayValue(widthMm, 'mm')} off each edge of a foot ${sayValue(footMm, 'mm')} thick leaves little to stand on; take at most ${sayValue(mostMm, 'mm')}.`,
      }
    : undefined
}
