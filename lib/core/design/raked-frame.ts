/**
 * A flat frame of two legs that lean apart and the supports between them, in any plane through a level line: upright
 * for a trestle, leaning for a stool with legs splayed two ways. mm, rad, world coordinates.
 * In the frame's plane: u level, w up the slope, both unit; `inner` looks square to it. Legs and supports lie behind
 * the inner plane (a support may lie before it). Level ends are planes of the world, so they become compound cuts in
 * a leaning frame. Tests: tests/core/design/raked-frame.test.ts
 */
import { frameFromYZ, toLocal } from '#lib/core/geometry/frame'
import { add, cross, dot, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { EdgeBevel, Part } from './model'
import { cutAlong, type PartName, placedPart, TO, withOperations } from './placed-part'

export interface FramePlane {
  /** On the floor, midway between the feet, on the inner faces of the legs. */
  readonly origin: Vec3
  readonly u: Vec3
  readonly w: Vec3
  readonly inner: Vec3
  /** Heights are along z; one of them is `1 / rise` along w. */
  readonly rise: number
}

/** @param tiltRad how far the frame leans; its tops lean towards `inner` */
export function framePlane(origin: Vec3, u: Vec3, level: Vec3, tiltRad: number): FramePlane {
  const [sin, cos] = [Math.sin(tiltRad), Math.cos(tiltRad)]
  const w = add(scale(level, sin), scale(TO.up, cos))
  return { origin, u, w, inner: add(scale(level, cos), scale(TO.up, -sin)), rise: cos }
}

export interface LegShape {
  /** Outer edges of the two legs at the top, level. */
  readonly topSpanMm: number
  /** Level underside of what they carry. */
  readonly heightMm: number
  /** Lean of each leg within the plane. */
  readonly rakeRad: number
  readonly widthMm: number
  readonly thicknessMm: number
}

/** In the plane: x along u from the middle, y along w from the floor. */
const inPlane = (p: FramePlane, x: number, y: number): Vec3 =>
  add(p.origin, add(scale(p.u, x), scale(p.w, y)))

/** Outer edge of a leg at a distance up the slope, from the middle. */
export const edgeAt = (p: FramePlane, leg: LegShape, wMm: number): number =>
  leg.topSpanMm / 2 + (leg.heightMm / p.rise - wMm) * Math.tan(leg.rakeRad)

/** One leg; `side` -1 stands at the low end of u. Its face A is the frame's inner face. */
export function rakedLeg(p: FramePlane, leg: LegShape, side: -1 | 1, name: PartName): Part {
  const [sin, cos] = [Math.sin(leg.rakeRad), Math.cos(leg.rakeRad)]
  const axis = add(scale(p.u, -side * sin), scale(p.w, cos))
  const y = cross(p.inner, axis)
  const foot = inPlane(p, side * edgeAt(p, leg, 0), 0)
  // From the outer edge inwards, along +y or -y.
  const inwards = dot(y, p.u) * side < 0 ? 1 : -1
  const edge = inwards === 1 ? foot : sub(foot, scale(y, leg.widthMm))
  // Room for both level ends: across the width within the plane, across the thickness by the frame's lean.
  const tilt = Math.acos(p.rise)
  const spareMm = leg.widthMm * Math.tan(leg.rakeRad) + (leg.thicknessMm * Math.tan(tilt)) / cos
  const along = leg.heightMm / p.rise / cos
  // The inner plane holds the highest point of a top and the lowest of a foot that leans in.
  const lowMm = (leg.thicknessMm * Math.tan(tilt)) / cos
  const origin = add(sub(edge, scale(p.inner, leg.thicknessMm)), scale(axis, -lowMm))
  const frame = frameFromYZ(origin, y, p.inner)
  const blank = { lengthMm: along + spareMm, widthMm: leg.widthMm, thicknessMm: leg.thicknessMm }
  return placedPart(name, blank, frame, [
    cutAlong(frame, 'endA', [0, 0, 0], TO.down),
    cutAlong(frame, 'endB', [0, 0, leg.heightMm], TO.up),
  ])
}

export interface SupportShape {
  readonly widthMm: number
  readonly thicknessMm: number
  /** Height of its lower edge, along z, on the inner plane; or of its upper edge if `isTop`. */
  readonly heightMm: number
  readonly isTop: boolean
  /** How far it lies before the inner plane: 0 let in flush, its thickness if it lies on the legs. */
  readonly proudMm: number
}

/** A level support between the legs, its ends flush with their outer edges; its upper edge level if it carries. */
export function rakedSupport(p: FramePlane, leg: LegShape, s: SupportShape, name: PartName): Part {
  const tilt = Math.acos(p.rise)
  // A level upper edge: the higher of its two arrises is the one further in.
  const highMm = (s.heightMm + s.proudMm * Math.sin(tilt)) / p.rise
  const lowMm = s.isTop ? highMm - s.widthMm : s.heightMm / p.rise
  const reach = edgeAt(p, leg, lowMm)
  const x = cross(p.w, p.inner)
  const way = dot(x, p.u) > 0 ? 1 : -1
  const back = add(inPlane(p, -way * reach, lowMm), scale(p.inner, s.proudMm - s.thicknessMm))
  const frame = frameFromYZ(back, p.w, p.inner)
  const blank = { lengthMm: 2 * reach, widthMm: s.widthMm, thicknessMm: s.thicknessMm }
  const outward = (side: number): Vec3 =>
    unit(add(scale(p.u, side * Math.cos(leg.rakeRad)), scale(p.w, Math.sin(leg.rakeRad))))
  const at = (side: number): Vec3 => inPlane(p, side * reach, lowMm)
  const part = placedPart(name, blank, frame, [
    cutAlong(frame, 'endA', at(-way), outward(-way)),
    cutAlong(frame, 'endB', at(way), outward(way)),
  ])
  return s.isTop && tilt > 1e-9 ? withOperations(part, [levelEdge(part, s.heightMm)]) : part
}

/** Edge B bevelled so that it lies level at a height. */
function levelEdge({ frame }: Part, heightMm: number): EdgeBevel {
  const normal: Vec3 = [dot(frame.x, TO.up), dot(frame.y, TO.up), dot(frame.z, TO.up)]
  const point = toLocal(frame, [frame.origin[0], frame.origin[1], heightMm])
  return {
    kind: 'edgeBevel',
    id: 'bevel-edgeB',
    edge: 'edgeB',
    point,
    normal,
    bevelRad: Math.asin(normal[2]),
  }
}
