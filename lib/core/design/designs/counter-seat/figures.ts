/** The numbers and the dimensions that a maker reads off a counter seat. mm, rad, kg. */

import type { Vec3 } from '#lib/core/geometry/vec3'
import { placesAbreast } from '../../fit/fit-lines'
import type { Dimension, Figure, Joint, Part } from '../../model'
import {
  angleFigure as angle,
  countFigure as count,
  kgFigure as kg,
  linear,
  mmFigure as mm,
  near,
} from '../../read-off'
import type { Layout } from './layout'

const lengthOf = (parts: readonly Part[], kind: string): number =>
  parts.find((part) => part.kind === kind)?.blank.lengthMm ?? 0

/** @param parts and @param joints of one seat, which weighs `seatKg` */
export function figuresOf(
  l: Layout,
  parts: readonly Part[],
  joints: readonly Joint[],
  seatKg: number,
): Figure[] {
  const { v } = l
  const screws = joints.reduce((sum, joint) => sum + joint.screws.length, 0)
  return [
    count('seats', 'Seats made', v.abreast),
    count('seatsThatFit', 'Seats that the counter takes at 24 in each', placesAbreast(v.counterLength)),
    mm('seatHeight', 'Seat height, floor to top of seat', l.seatTopMm),
    mm('kneeClearance', 'Clearance, underside of counter to top of seat', v.kneeClearance),
    angle('rake', 'Rake', v.rakeRad),
    mm('legLength', 'Leg along either edge, from cut to cut', l.legLengthMm),
    mm('legLongPoint', 'Leg, long point to long point', l.legBlankMm),
    angle('endMitre', 'End cuts of legs and supports, from square', v.rakeRad),
    mm('footOffset', 'Each foot outside its top', l.footOffsetMm),
    mm('footSpread', 'Feet, outside to outside, front to back', l.footSpreadMm),
    mm('topSupportLength', 'Top support, long point to long point', lengthOf(parts, 'top support')),
    mm('lowerSupportLength', 'Lower support, long point to long point', lengthOf(parts, 'lower support')),
    mm('railLength', 'Rails', lengthOf(parts, 'rail')),
    ...(v.joint === 'letIn'
      ? [
          mm('notchWidthAlongLeg', 'Notch, measured along the leg', l.notchAlongLegMm),
          mm('notchWidth', 'Notch, square to its shoulders', v.supportWidth),
          mm('notchDepth', 'Notch depth', l.notchDepthMm),
          mm('legLeftAtNotch', 'Leg left beside a notch', v.legThickness - l.notchDepthMm),
        ]
      : []),
    mm('boardWidth', 'Each seat board, width', l.boardWidthMm),
    mm('overallWidth', 'One seat, left to right', v.seatWidth),
    mm('overallDepth', 'One seat over all, front to back', v.seatDepth + l.frontReachMm + l.backReachMm),
    ...(v.footRest === 'rail'
      ? [mm('footRestToSeat', 'Footrest to top of seat', l.seatTopMm - v.footRestHeight)]
      : []),
    ...(v.back === 'low'
      ? [
          mm('backTop', 'Top of the back, from the floor', l.backTopMm),
          mm('postLength', 'Back posts, length', l.backTopMm - l.postLowMm),
          mm('backrestLength', 'Backrest, length', lengthOf(parts, 'backrest')),
          mm('seatNotch', 'Notches in the first seat board, depth', v.overhang + v.legWidth),
        ]
      : []),
    mm('pitch', 'Seats, middle to middle', l.pitchMm),
    kg('weight', 'Weight of one seat', seatKg),
    kg('weightAll', 'Weight of all seats', seatKg * v.abreast),
    count('partsPerSeat', 'Parts in one seat', parts.length),
    count('parts', 'Parts in all', parts.length * v.abreast),
    count('screws', 'Screws in all', screws * v.abreast),
  ]
}

function frontDimensions(l: Layout): Dimension[] {
  const { v } = l
  const right = v.seatWidth - l.legFaceMm
  const underMm = v.counterHeight - v.counterThickness
  return [
    near(linear('seatWidth', 'front', 'across', 'above', [0, 0, l.seatTopMm], [v.seatWidth, 0, l.seatTopMm])),
    linear('railLength', 'front', 'across', 'below', [l.legFaceMm, 0, 0], [right, 0, 0]),
    linear(
      'legThickness',
      'front',
      'across',
      'below',
      [l.legFaceMm, 0, 0],
      [l.legFaceMm + v.legThickness, 0, 0],
    ),
    ...(v.footRest === 'rail'
      ? [
          linear(
            'footRestHeight',
            'front',
            'up',
            'left',
            [l.legFaceMm, 0, 0],
            [l.legFaceMm, 0, v.footRestHeight],
          ),
        ]
      : []),
    linear('seatHeight', 'front', 'up', 'left', [0, 0, 0], [0, 0, l.seatTopMm]),
    linear('counterHeight', 'front', 'up', 'left', [0, 0, 0], [0, 0, v.counterHeight]),
    linear('kneeClearance', 'front', 'up', 'right', [v.seatWidth, 0, l.seatTopMm], [v.seatWidth, 0, underMm]),
    linear(
      'counterThickness',
      'front',
      'up',
      'right',
      [v.seatWidth, 0, underMm],
      [v.seatWidth, 0, v.counterHeight],
    ),
    linear(
      'seatBoard',
      'front',
      'up',
      'right',
      [v.seatWidth, 0, l.undersideMm],
      [v.seatWidth, 0, l.seatTopMm],
    ),
  ]
}

function sideDimensions(l: Layout): Dimension[] {
  const { v } = l
  const footMm = l.edgeAtMm(0)
  const backFootMm = v.seatDepth - footMm
  const lowTopMm = l.lowerSupportMm + v.supportWidth
  /** From the lower inner edge of a rail to its highest. */
  const railUpMm = v.supportWidth * l.cos + v.supportThickness * l.sin
  const front = (z: number): Vec3 => [0, l.edgeAtMm(z), z]
  const back = (z: number): Vec3 => [0, v.seatDepth - l.edgeAtMm(z), z]
  const top = l.undersideMm
  return [
    near(linear('seatDepth', 'side', 'across', 'above', [0, 0, l.seatTopMm], [0, v.seatDepth, l.seatTopMm])),
    near(linear('topDepth', 'side', 'across', 'above', front(top), back(top))),
    linear('footSpread', 'side', 'across', 'below', front(0), [0, backFootMm, 0]),
    linear('foot', 'side', 'across', 'below', front(0), [0, footMm + v.legWidth / l.cos, 0]),
    linear('lowerSupportLow', 'side', 'up', 'left', front(0), front(l.lowerSupportMm)),
    linear('lowerSupport', 'side', 'up', 'left', front(l.lowerSupportMm), front(lowTopMm)),
    linear('topSupport', 'side', 'up', 'left', front(l.topSupportMm), front(top)),
    linear('frontRail', 'side', 'up', 'left', front(0), front(l.frontRailMm + railUpMm)),
    ...(v.back === 'low'
      ? [linear('backTop', 'side', 'up', 'left', front(0), [0, l.postFrontMm, l.backTopMm])]
      : []),
    linear('seatHeight', 'side', 'up', 'left', front(0), [0, 0, l.seatTopMm]),
    near(
      linear(
        v.footRest === 'rail' ? 'footRestHeight' : 'backRail',
        'side',
        'up',
        'right',
        back(0),
        back(l.backRailMm + railUpMm),
      ),
    ),
    near(linear('underside', 'side', 'up', 'right', back(0), back(top))),
    {
      kind: 'angle',
      id: 'rake',
      view: 'side',
      apex: front(0),
      from: [0, footMm, 1],
      to: [0, footMm + l.sin, l.cos],
    },
  ]
}

function topDimensions(l: Layout): Dimension[] {
  const { v } = l
  const z = l.seatTopMm
  const inner = l.legFaceMm + v.legThickness
  return [
    linear('seatWidth', 'top', 'across', 'below', [0, 0, z], [v.seatWidth, 0, z]),
    linear('between', 'top', 'across', 'below', [inner, 0, z], [v.seatWidth - inner, 0, z]),
    linear('overhang', 'top', 'across', 'below', [0, 0, z], [l.legFaceMm, 0, z]),
    linear('seatDepth', 'top', 'up', 'left', [0, 0, z], [0, v.seatDepth, z]),
    linear('boardWidth', 'top', 'up', 'left', [0, 0, z], [0, l.boardWidthMm, z]),
    ...(v.seatBoards > 1 && v.seatGap > 0
      ? [
          linear(
            'seatGap',
            'top',
            'up',
            'right',
            [v.seatWidth, l.boardWidthMm, z],
            [v.seatWidth, l.boardWidthMm + v.seatGap, z],
          ),
        ]
      : []),
    linear(
      'tuckUnder',
      'top',
      'up',
      'right',
      [v.seatWidth, v.seatDepth - v.tuckUnder, z],
      [v.seatWidth, v.seatDepth, z],
    ),
  ]
}

/** In the coordinates of a seat that stands at x = 0. */
export const dimensionsOf = (l: Layout): Dimension[] => [
  ...frontDimensions(l),
  ...sideDimensions(l),
  ...topDimensions(l),
]
