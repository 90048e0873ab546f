/**
 * Where everything on one counter seat lies, and why some sets of parameters make no seat. mm, rad; one seat
 * stands at x 0..seatWidth, y 0..seatDepth, its feet on z = 0. Plane geometry of a leg raked in one plane:
 * length h / cos a, foot offset h tan a, ends and notch shoulders at a, notch w / cos a along the leg.
 * Tests: tests/core/design/counter-seat.test.ts
 */
import { refuseFootChamfer } from '../../chamfer-feet'
import { refuseField } from '../../engraved-field'
import type { DesignRefusal } from '../../model'
import { sayValue } from '../../parameters'
import { LEAST_COVER_MM, shankMm } from '../../screws'
import type { CounterSeatValues } from './parameters'

/** Lowest seat that this design makes sense for: a low chair. */
const LEAST_SEAT_HEIGHT_MM = 350
/** Wood below the lower notch, along which the leg's foot could split off. */
const LEAST_BELOW_NOTCH_MM = 20
const LEAST_BETWEEN_LEGS_MM = 40
const LEAST_BETWEEN_FRAMES_MM = 120
const LEAST_BOARD_MM = 40
const LEAST_BEARING_MM = 20
/** How far below the top supports the posts of a back reach down along the legs. */
const POST_BELOW_MM = 90
/** Between a rail under the seat and the top supports. */
const RAIL_CLEAR_MM = 2
/** A notch leaves at least this share of the leg (common practice). */
const LEAST_LEFT_SHARE = 1 / 3

export interface Layout {
  readonly v: CounterSeatValues
  readonly sin: number
  readonly cos: number
  readonly tan: number
  readonly seatTopMm: number
  /** Underside of the seat boards: where the legs end. */
  readonly undersideMm: number
  /** Front edge of the front legs at a height; the back is its mirror image. */
  readonly edgeAtMm: (zMm: number) => number
  readonly legLengthMm: number
  readonly legBlankMm: number
  /** Each foot outside its own top. */
  readonly footOffsetMm: number
  readonly footSpreadMm: number
  /** Outer edges of the leg tops, front to back. */
  readonly topDepthMm: number
  /** Lower edges of the top and the lower supports. */
  readonly topSupportMm: number
  readonly lowerSupportMm: number
  /** Height at which the lower inner edge of each rail lies on the legs. */
  readonly frontRailMm: number
  /** Towards the counter, where the feet are: the footrest, or the rail up under the seat. */
  readonly backRailMm: number
  /** Outer face of the left legs. */
  readonly legFaceMm: number
  /** The face of a left support that lies against the legs. */
  readonly supportBackMm: number
  /** Wood of one frame, left to right. */
  readonly frameThicknessMm: number
  readonly notchDepthMm: number
  /** Top of the lower supports, where a footrest rail lies above them. */
  readonly lowerTopMm: number
  /** The posts of a back: their lower end, front and back face, and the top of the back. */
  readonly postLowMm: number
  readonly postFrontMm: number
  readonly postBackMm: number
  readonly backTopMm: number
  readonly notchAlongLegMm: number
  /** Furthest out from the seat's front edge, and from its back edge, that feet or rails stand; 0 if within. */
  readonly frontReachMm: number
  readonly backReachMm: number
  readonly boardWidthMm: number
  readonly pitchMm: number
  readonly shankMm: number
}

export function layOut(v: CounterSeatValues): Layout {
  const [sin, cos, tan] = [Math.sin(v.rakeRad), Math.cos(v.rakeRad), Math.tan(v.rakeRad)]
  const seatTopMm = v.counterHeight - v.counterThickness - v.kneeClearance
  const undersideMm = seatTopMm - v.seatBoardThickness
  const topDepthMm = v.seatDepth - 2 * v.overhang
  const railUpMm = v.supportWidth * cos + v.supportThickness * sin
  const lowerTopMm = v.footRestHeight - railUpMm
  const topSupportMm = undersideMm - v.supportWidth
  const backRailMm = v.footRest === 'rail' ? lowerTopMm : topSupportMm - RAIL_CLEAR_MM - railUpMm
  // Midway between the supports, where it shortens the free length of the legs most.
  const frontRailMm = (lowerTopMm + topSupportMm - v.supportWidth * cos) / 2
  const edgeAtMm = (zMm: number): number => v.overhang - (undersideMm - zMm) * tan
  const reachMm = (railMm: number): number =>
    Math.max(0, -edgeAtMm(0), v.supportThickness * cos - edgeAtMm(railMm))
  const isLetIn = v.joint === 'letIn'
  const isInner = v.supportFace === 'inner'
  const proudMm = isLetIn ? 0 : v.supportThickness
  const legFaceMm = v.overhang + (isInner ? 0 : proudMm)
  const notchDepthMm = isLetIn ? v.supportThickness : 0
  return {
    v,
    sin,
    cos,
    tan,
    seatTopMm,
    undersideMm,
    edgeAtMm,
    legLengthMm: undersideMm / cos,
    legBlankMm: undersideMm / cos + v.legWidth * tan,
    footOffsetMm: undersideMm * tan,
    footSpreadMm: topDepthMm + 2 * undersideMm * tan,
    topDepthMm,
    topSupportMm,
    lowerSupportMm: lowerTopMm - v.supportWidth,
    lowerTopMm,
    postLowMm: topSupportMm - POST_BELOW_MM,
    postFrontMm: v.overhang,
    postBackMm: v.overhang + v.legWidth,
    backTopMm: seatTopMm + v.backHeight,
    frontRailMm,
    backRailMm,
    frontReachMm: reachMm(frontRailMm),
    backReachMm: reachMm(backRailMm),
    legFaceMm,
    supportBackMm: isInner ? legFaceMm + v.legThickness - notchDepthMm : legFaceMm + notchDepthMm,
    frameThicknessMm: v.legThickness + proudMm,
    notchDepthMm,
    notchAlongLegMm: v.supportWidth / cos,
    boardWidthMm: (v.seatDepth - (v.seatBoards - 1) * v.seatGap) / v.seatBoards,
    pitchMm: v.counterLength / v.abreast,
    shankMm: shankMm(v.screwNumber),
  }
}

const say = (valueMm: number): string => sayValue(valueMm, 'mm')

type Rule = (l: Layout) => DesignRefusal | readonly DesignRefusal[] | undefined

const refuse = (parameter: string, message: string): DesignRefusal => ({ parameter, message })

const placeRules: readonly Rule[] = [
  (l) =>
    l.seatTopMm < LEAST_SEAT_HEIGHT_MM
      ? refuse(
          'kneeClearance',
          `The seat would be ${say(l.seatTopMm)} high: a counter whose underside is at ${say(l.v.counterHeight - l.v.counterThickness)} less this clearance. It needs at least ${LEAST_SEAT_HEIGHT_MM} mm.`,
        )
      : undefined,
  (l) =>
    l.pitchMm < l.v.seatWidth
      ? refuse(
          'abreast',
          `${l.v.abreast} seats have ${say(l.pitchMm)} each along this counter; one is ${say(l.v.seatWidth)} wide.`,
        )
      : undefined,
  (l) =>
    l.footSpreadMm > l.v.floorDepth
      ? refuse(
          'rake',
          `The feet would stand ${say(l.footSpreadMm)} apart, front to back; the place allows ${say(l.v.floorDepth)}.`,
        )
      : undefined,
  (l) => {
    const underMm = l.backReachMm + l.v.tuckUnder
    return underMm > l.v.kneeDepth
      ? refuse(
          'tuckUnder',
          `The seat would reach ${say(underMm)} in under the counter; there are ${say(l.v.kneeDepth)}.`,
        )
      : undefined
  },
]

const frameRules: readonly Rule[] = [
  (l) => {
    const clearMm = l.topDepthMm - (2 * l.v.legWidth) / l.cos
    return clearMm < LEAST_BETWEEN_LEGS_MM
      ? refuse(
          l.topDepthMm - 2 * l.v.legWidth < LEAST_BETWEEN_LEGS_MM ? 'legWidth' : 'rake',
          `The tops of the two legs of a frame would ${clearMm < 0 ? 'cross' : `come within ${say(clearMm)} of each other`}; the frame is ${say(l.topDepthMm)} deep there and needs ${LEAST_BETWEEN_LEGS_MM} mm between them.`,
        )
      : undefined
  },
  (l) =>
    l.v.seatWidth - 2 * l.v.overhang - 2 * l.frameThicknessMm < LEAST_BETWEEN_FRAMES_MM
      ? refuse(
          'seatWidth',
          `Between the two leg frames ${say(l.v.seatWidth - 2 * l.v.overhang - 2 * l.frameThicknessMm)} would be left; they need ${LEAST_BETWEEN_FRAMES_MM} mm.`,
        )
      : undefined,
  (l) =>
    l.notchDepthMm > l.v.legThickness * (1 - LEAST_LEFT_SHARE) + 1e-9
      ? refuse(
          'supportThickness',
          `The notches would leave ${say(l.v.legThickness - l.notchDepthMm)} of a leg ${say(l.v.legThickness)} thick, less than a third. Let in at most ${say(l.v.legThickness * (1 - LEAST_LEFT_SHARE))}.`,
        )
      : undefined,
  (l) =>
    l.lowerSupportMm < LEAST_BELOW_NOTCH_MM
      ? refuse(
          'footRestHeight',
          `The lower support would end ${say(l.lowerSupportMm)} above the floor, and the notch would run out of the foot of the leg. The footrest must be at least ${say(l.v.footRestHeight - l.lowerSupportMm + LEAST_BELOW_NOTCH_MM)} high.`,
        )
      : undefined,
  (l) => {
    const railMm = l.v.supportWidth * l.cos + l.v.supportThickness * l.sin + RAIL_CLEAR_MM
    return l.v.footRest === 'none' && l.lowerTopMm + railMm > l.topSupportMm
      ? refuse(
          'footRestHeight',
          `Between the supports there is no room left for the rail under the seat; the footrest height can be at most ${say(l.topSupportMm + l.v.footRestHeight - l.lowerTopMm - railMm)}.`,
        )
      : undefined
  },
  (l) => {
    const highestMm = l.topSupportMm + l.v.supportThickness * l.sin
    return l.lowerTopMm + l.v.supportWidth * l.cos > l.topSupportMm
      ? refuse(
          'footRestHeight',
          `The footrest rail would run into the top support: the upper and the lower notch have no leg left between them. The footrest can be at most ${say(highestMm)} high.`,
        )
      : undefined
  },
]

const footRule: Rule = ({ v }) => refuseFootChamfer(v.footChamfer, Math.min(v.legWidth, v.legThickness))

const backRules: readonly Rule[] = [
  (l) =>
    l.v.joint === 'onFace' && l.v.supportFace === 'inner'
      ? refuse(
          'back',
          'The posts of a back stand against the inner faces of the legs, where these supports lie. Let the supports in, or put them on the outer faces.',
        )
      : undefined,
  (l) =>
    l.postLowMm < l.lowerTopMm + 10
      ? refuse(
          'back',
          `The posts of a back reach ${POST_BELOW_MM} mm down below the top supports, onto the lower ones; a lower footrest or a higher seat would do.`,
        )
      : undefined,
  (l) => {
    const outMm = l.v.overhang + l.v.legWidth
    return outMm > 0.7 * l.boardWidthMm
      ? refuse(
          'back',
          `Notches for the posts would go ${say(outMm)} into a first seat board ${say(l.boardWidthMm)} wide; fewer boards, less overhang or narrower legs would do.`,
        )
      : undefined
  },
  (l) =>
    l.v.backWidth > l.v.backHeight - 20
      ? refuse(
          'backWidth',
          `The backrest would come down to the seat: at most ${say(l.v.backHeight - 20)} wide leaves room above it.`,
        )
      : undefined,
  ({ v, legFaceMm }) => {
    // Between the posts, which stand against the inner faces of the legs.
    const lengthMm = v.seatWidth - 2 * (legFaceMm + v.legThickness + v.supportThickness)
    return refuseField(v, { lengthMm, widthMm: v.backWidth, thicknessMm: v.supportThickness }, 'the backrest')
  },
]

const seatRules: readonly Rule[] = [
  (l) =>
    l.boardWidthMm < LEAST_BOARD_MM
      ? refuse(
          'seatBoards',
          `Each seat board would be ${say(l.boardWidthMm)} wide; it needs at least ${LEAST_BOARD_MM} mm.`,
        )
      : undefined,
  (l) =>
    l.v.seatBoards > 1 && l.boardWidthMm - l.v.overhang < LEAST_BEARING_MM
      ? refuse(
          'overhang',
          `The first seat board is ${say(l.boardWidthMm)} wide and would bear on ${say(Math.max(0, l.boardWidthMm - l.v.overhang))} of its support; it needs ${LEAST_BEARING_MM} mm.`,
        )
      : undefined,
]

const screwRules: readonly Rule[] = [
  (l) => {
    const { screwLength, supportThickness, legThickness } = l.v
    const woodMm = supportThickness + legThickness - l.notchDepthMm
    return screwLength > woodMm - LEAST_COVER_MM
      ? refuse(
          'screwLength',
          `A ${say(screwLength)} screw would come out of the leg: support and leg are ${say(woodMm)} thick together. Take at most ${say(woodMm - LEAST_COVER_MM)}.`,
        )
      : undefined
  },
  (l) => {
    const { seatScrewLength, seatBoardThickness, supportWidth, supportThickness, legWidth } = l.v
    const mostMm = Math.min(seatBoardThickness + supportWidth, supportThickness + legWidth) - LEAST_COVER_MM
    return seatScrewLength > mostMm
      ? refuse(
          'seatScrewLength',
          `A ${say(seatScrewLength)} screw would come out of the support or the leg that it goes into. Take at most ${say(mostMm)}.`,
        )
      : undefined
  },
  (l) =>
    l.v.supportThickness < 3 * l.shankMm
      ? refuse(
          'screwSize',
          `A screw with a ${l.shankMm.toFixed(1)} mm shank would split the edge of a support ${say(l.v.supportThickness)} thick; the wood must be three shanks thick.`,
        )
      : undefined,
]

/** Every rule that these parameters break, in the order in which a maker would meet them. */
export const refusalsOf = (layout: Layout): DesignRefusal[] =>
  [
    ...placeRules,
    ...frameRules,
    footRule,
    ...seatRules,
    ...(layout.v.back === 'low' ? backRules : []),
    ...screwRules,
  ].flatMap((rule) => rule(layout) ?? [])
