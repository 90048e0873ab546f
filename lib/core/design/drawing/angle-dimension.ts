/**
 * An angle dimension: an arc between two arms, arrows from outside where it is narrow, its text beside it.
 * mm, view coordinates; ISO 129-1. Tests: tests/core/design/drawing/dimension-layout.test.ts
 */

import type { Vec2 } from '#lib/core/geometry/polygon2'
import { type PlacedDimensions, textWidth } from './dimension-layout'
import type { Bounds2, DrawnArrow, DrawnLine, DrawnText } from './drawing'

export interface FlatAngle {
  readonly id: string
  readonly apex: Vec2
  readonly from: Vec2
  readonly to: Vec2
}

/** How far from the apex, and how much further than need be from the arm, in text heights. Best first. */
interface Spot {
  readonly radius: number
  readonly extra: number
}
const RADII = [3.5, 4, 4.5, 5, 3, 2.5, 2, 1.5, 5.5, 6, 7, 8]
const SPOTS: readonly Spot[] = [0, 1, 2, 3, 4].flatMap((extra) => RADII.map((radius) => ({ radius, extra })))

/** Angles flatter than this, in rad, are not drawn. */
const LEAST_RAD = 0.001

/** Signed turn from one arm to the other, the short way, and the direction of the first. */
function armsOf({ apex, from, to }: FlatAngle): { start: number; turn: number } {
  const start = Math.atan2(from[1] - apex[1], from[0] - apex[0])
  const end = Math.atan2(to[1] - apex[1], to[0] - apex[0])
  const turn = Math.atan2(Math.sin(end - start), Math.cos(end - start))
  return { start, turn }
}

/** @example angleText((8 * Math.PI) / 180) //=> '8°' */
export const angleText = (rad: number): string => `${Number(((Math.abs(rad) * 180) / Math.PI).toFixed(1))}°`

/**
 * Places an angle, its text outside the first arm.
 * @param h text height
 * @param isFree whether a box holds nothing that is drawn
 */
export function placeAngle(angle: FlatAngle, h: number, isFree: (box: Bounds2) => boolean): PlacedDimensions {
  const { start, turn } = armsOf(angle)
  if (Math.abs(turn) < LEAST_RAD) return { lines: [], arrows: [], texts: [] }
  const way = turn > 0 ? 1 : -1
  const text = angleText(turn)
  const width = textWidth(text, h)
  const on = (rad: number, radius: number): Vec2 => [
    angle.apex[0] + radius * Math.cos(rad),
    angle.apex[1] + radius * Math.sin(rad),
  ]
  const textFor = ({ radius, extra }: Spot): Vec2 => {
    const [x, y] = on(start, radius)
    // Square to the arm, out of the angle, past the tail of its arrow.
    const [dx, dy] = [Math.sin(start) * way, -Math.cos(start) * way]
    const away = Math.abs(dx) * (width / 2 + 1.6 * h) + Math.abs(dy) * 2.2 * h + extra
    return [x + dx * away, y + dy * away]
  }
  const isClear = (spot: Spot): boolean => {
    const [x, y] = textFor(spot)
    const [armX] = on(start, spot.radius)
    // Close to its arm nothing may come between; further out its tail leads to it.
    const tip = spot.extra === 0 ? armX + (Math.sign(x - armX) || 1) * 0.05 * h : x
    return isFree({
      min: [Math.min(tip, x - width / 2), y - 0.6 * h],
      max: [Math.max(tip, x + width / 2), y + 0.6 * h],
    })
  }
  const spot = SPOTS.map((one) => ({ radius: one.radius * h, extra: one.extra * h })).find(isClear) ?? {
    radius: SPOTS[0].radius * h,
    extra: 0,
  }
  const { radius, extra } = spot
  const arrowRad = (0.75 * h) / radius
  const narrow = Math.abs(turn) < 3.2 * arrowRad
  const over = narrow ? 2 * arrowRad : 0
  const arc = (from: number, to: number): Vec2[] =>
    Array.from({ length: 17 }, (_, i) => on(from + ((to - from) * i) / 16, radius))
  const tail = over + extra / radius
  const lines: DrawnLine[] = [
    { kind: 'dimension', points: [angle.apex, on(start, radius + 0.6 * h)] },
    { kind: 'dimension', points: arc(start - way * tail, start + turn + way * over) },
  ]
  const arrow = (rad: number, pointing: number): DrawnArrow => {
    const back = rad - pointing * arrowRad
    return { points: [on(rad, radius), on(back, radius + 0.25 * h), on(back, radius - 0.25 * h)] }
  }
  const outwards = narrow ? -1 : 1
  const label: DrawnText = {
    text,
    at: textFor(spot),
    heightMm: h,
    widthMm: width,
    angleRad: 0,
    kind: 'dimension',
    dimensionId: angle.id,
  }
  return {
    lines,
    arrows: [arrow(start, -way * outwards), arrow(start + turn, way * outwards)],
    texts: [label],
  }
}
