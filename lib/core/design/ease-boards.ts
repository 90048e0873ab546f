/**
 * Edges of boards rounded where hands and legs touch them: round face A, but not where two boards lie edge to edge.
 * mm. In: the parts of a piece and which kinds are eased along which sides. Out: the same parts with their round-overs;
 * a rule refuses a radius that the thinnest of them cannot take. Tests: tests/core/design/ease-boards.test.ts
 */
import { toWorld } from '#lib/core/geometry/frame'
import { length, sub, type Vec3 } from '#lib/core/geometry/vec3'
import type { DesignRefusal, Part, RoundOver } from './model'
import { sayValue } from './parameters'
import { withOperations } from './placed-part'
import { mmParameter } from './shared-parameters'

export type EasedSide = 'endA' | 'endB' | 'edgeA' | 'edgeB'
/** Part kinds, and the sides of face A along which each is eased. */
export type EasedKinds = Readonly<Record<string, readonly EasedSide[]>>

export const ALL_ROUND: readonly EasedSide[] = ['endA', 'endB', 'edgeA', 'edgeB']
/** A rounded edge takes at most this share of the wood's thickness. */
const MOST_OF_THICKNESS = 0.5
/** A smaller radius is what sandpaper takes off a sharp edge. */
const SHARP_MM = 0.1
/** Boards nearer than this, in mm, lie edge to edge. */
const TOUCH_MM = 0.5

/** @param range default, least, most and step of the radius, mm */
export const edgeRadiusParameter = (
  group: string,
  what: string,
  range: readonly [number, number, number, number] = [3, 0, 12, 0.5],
) =>
  mmParameter(
    'edgeRadius',
    'Rounded edges',
    group,
    range,
    `Radius to which the upper edges of ${what} are rounded; at nought they stay sharp.`,
  )

/** Middle of one side of a board, in world coordinates. */
function middleOf({ blank, frame }: Part, side: EasedSide): Vec3 {
  const { lengthMm, widthMm, thicknessMm } = blank
  const x = side === 'endA' ? 0 : side === 'endB' ? lengthMm : lengthMm / 2
  const y = side === 'edgeA' ? 0 : side === 'edgeB' ? widthMm : widthMm / 2
  return toWorld(frame, [x, y, thicknessMm / 2])
}

const roundOver = (side: EasedSide, radiusMm: number): RoundOver => ({
  kind: 'roundOver',
  id: `round-${side}`,
  between: ['faceA', side],
  radiusMm,
})

/** Sides of a part along which it is eased; none for most. */
export type SidesOfPart = (part: Part) => readonly EasedSide[]

/** The parts with their edges eased. A radius below 0.1 mm leaves all as they are. */
export function easeBoards(
  parts: readonly Part[],
  kinds: EasedKinds | SidesOfPart,
  radiusMm: number,
): Part[] {
  if (radiusMm < SHARP_MM) return [...parts]
  const sides: SidesOfPart = typeof kinds === 'function' ? kinds : (part) => kinds[part.kind] ?? []
  const eased = parts.filter((part) => sides(part).length > 0)
  const touches = (part: Part, side: EasedSide): boolean => {
    const at = middleOf(part, side)
    return eased.some(
      (other) => other !== part && ALL_ROUND.some((own) => length(sub(middleOf(other, own), at)) < TOUCH_MM),
    )
  }
  return parts.map((part) => {
    const free = sides(part).filter((side) => !touches(part, side))
    return free.length === 0
      ? part
      : withOperations(
          part,
          free.map((side) => roundOver(side, radiusMm)),
        )
  })
}

/** Refuses a radius for which the eased boards are too thin or too narrow. */
export function refuseRadius(
  parts: readonly Part[],
  kinds: EasedKinds,
  radiusMm: number,
): DesignRefusal | undefined {
  for (const { kind, blank } of parts) {
    if (kinds[kind] === undefined) continue
    const mostMm = MOST_OF_THICKNESS * Math.min(blank.thicknessMm, blank.widthMm / 2)
    if (radiusMm > mostMm)
      return {
        parameter: 'edgeRadius',
        message: `A radius of ${sayValue(radiusMm, 'mm')} is too much for a ${kind} ${sayValue(blank.thicknessMm, 'mm')} thick and ${sayValue(blank.widthMm, 'mm')} wide; take at most ${sayValue(mostMm, 'mm')}.`,
      }
  }
  return undefined
}
