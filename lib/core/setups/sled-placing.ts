/**
 * How a part lies on the crosscut sled, and where the sled's fence and its stop then stand.
 *
 * A part lies with one long face down and one long face against the sled's fence. Seen from above with the fence
 * nearest to the worker: u runs along the fence to the right, v away from the fence, the blade cuts along v.
 * Everything is worked out by vectors in the part's own frame (see design/model.ts); mm and rad.
 * Limits: end planes must cross the grain; a notch is cut with an upright blade.
 * Tests: tests/core/setups/sled-placing.test.ts.
 */
import type { Blank, EndCut, FaceName, Notch, Part, Vec3 } from '#lib/core/design/model'

type LongFace = 'edgeA' | 'edgeB' | 'faceA' | 'faceB'
type End = 'endA' | 'endB'

export interface SledPlacing {
  readonly faceDown: LongFace
  readonly onFence: LongFace
  /** The end that touches the stop, and the side of the blade where the stop stands. */
  readonly atStop: End
  readonly stopSide: 'left' | 'right'
  readonly sledAngleRad: number
  readonly bladeTiltRad: number
  readonly stopMm: number
  /** The stop touches a point that lies on the sled's fence. */
  readonly tipOnFence: boolean
}

const OUTWARD: Readonly<Record<FaceName, Vec3>> = {
  endA: [-1, 0, 0],
  endB: [1, 0, 0],
  edgeA: [0, -1, 0],
  edgeB: [0, 1, 0],
  faceA: [0, 0, 1],
  faceB: [0, 0, -1],
}
const OPPOSITE: Readonly<Record<LongFace, LongFace>> = {
  edgeA: 'edgeB',
  edgeB: 'edgeA',
  faceA: 'faceB',
  faceB: 'faceA',
}
const SAME_MM = 1e-6
const SAME_RAD = 1e-9

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
const negate = (a: Vec3): Vec3 => [-a[0], -a[1], -a[2]]

interface Lie {
  readonly faceDown: LongFace
  readonly onFence: LongFace
  readonly u: Vec3
  readonly v: Vec3
  readonly up: Vec3
}

function lie(faceDown: LongFace, onFence: LongFace): Lie {
  const u = cross(OUTWARD[onFence], OUTWARD[faceDown])
  return { faceDown, onFence, u, v: negate(OUTWARD[onFence]), up: negate(OUTWARD[faceDown]) }
}

const sides = (face: LongFace): readonly [LongFace, LongFace] =>
  face === 'faceA' || face === 'faceB' ? ['edgeA', 'edgeB'] : ['faceA', 'faceB']

/** y and z of the arris where two long faces meet. */
function arris(blank: Blank, a: LongFace, b: LongFace): readonly [number, number] {
  const has = (face: LongFace): boolean => a === face || b === face
  return [has('edgeB') ? blank.widthMm : 0, has('faceA') ? blank.thicknessMm : 0]
}

interface EndPlane {
  readonly point: Vec3
  readonly normal: Vec3
}

export function endPlane(part: Part, end: End): EndPlane {
  const cut = part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end)
  const x = end === 'endA' ? 0 : part.blank.lengthMm
  return cut ?? { point: [x, 0, 0], normal: OUTWARD[end] }
}

/** x at which a plane crosses the line of all points with this y and z. */
function crossing(plane: EndPlane, [y, z]: readonly [number, number]): number {
  const { point, normal } = plane
  if (Math.abs(normal[0]) < 1e-9) throw new RangeError('an end cut runs along the grain')
  return point[0] - (normal[1] * (y - point[1]) + normal[2] * (z - point[2])) / normal[0]
}

/** How far an end reaches out, in x, on the whole piece and on the side that lies on the fence. */
function reach(part: Part, end: End, onFence: LongFace): { readonly x: number; readonly isOnFence: boolean } {
  const plane = endPlane(part, end)
  const outermost = end === 'endA' ? Math.min : Math.max
  const at = (a: LongFace): number[] => sides(a).map((b) => crossing(plane, arris(part.blank, a, b)))
  const x = outermost(...at(onFence), ...at(OPPOSITE[onFence]))
  return { x, isOnFence: Math.abs(outermost(...at(onFence)) - x) < SAME_MM }
}

const leftEnd = (place: Lie): End => (place.u[0] > 0 ? 'endA' : 'endB')
const otherEnd = (end: End): End => (end === 'endA' ? 'endB' : 'endA')

function placingOfEndCut(part: Part, cut: EndCut, place: Lie): SledPlacing {
  const atStop = otherEnd(cut.end)
  const stop = reach(part, atStop, place.onFence)
  const blade = crossing(cut, arris(part.blank, place.faceDown, place.onFence))
  const [nu, nv, nUp] = [dot(cut.normal, place.u), dot(cut.normal, place.v), dot(cut.normal, place.up)]
  const stopSide = atStop === leftEnd(place) ? 'left' : 'right'
  const toWaste = stopSide === 'left' ? 1 : -1
  return {
    faceDown: place.faceDown,
    onFence: place.onFence,
    atStop,
    stopSide,
    sledAngleRad: Math.atan(-nv / nu) + 0,
    bladeTiltRad: Math.atan2(nUp, Math.hypot(nu, nv)) * toWaste + 0,
    stopMm: Math.abs(blade - stop.x),
    tipOnFence: stop.isOnFence,
  }
}

/**
 * All ways to lay a part for one of its end cuts with the stop to the left of the blade: either wide face down.
 * The tilt is positive where the blade's top leans to the left.
 */
export function endCutPlacings(part: Part, cut: EndCut): readonly SledPlacing[] {
  const lies = (['faceB', 'faceA'] as const).flatMap((down) => sides(down).map((side) => lie(down, side)))
  return lies.filter((place) => leftEnd(place) !== cut.end).map((place) => placingOfEndCut(part, cut, place))
}

/**
 * The way to make an end cut after the other end is cut: blade leaning to the side that it can, the stop touching
 * a point on the fence, the longest stop distance.
 * @example endCutPlacing(raked leg, its upper end, 'left').stopMm //=> 612.33
 */
export function endCutPlacing(part: Part, cut: EndCut, tiltsTo: 'left' | 'right'): SledPlacing {
  const lean = tiltsTo === 'left' ? 1 : -1
  const rank = (p: SledPlacing): number =>
    (p.bladeTiltRad * lean < -SAME_RAD ? 4 : 0) + (p.tipOnFence ? 0 : 2) + (p.faceDown === 'faceB' ? 0 : 1)
  const all = endCutPlacings(part, cut)
  return all.reduce((best, p) => (rank(p) < rank(best) ? p : best))
}

/** The way to make an end cut by eye or to a mark, at the sled angle that is wanted if the part can be so turned. */
export function firstEndPlacing(
  part: Part,
  cut: EndCut,
  wanted: SledPlacing,
  tiltsTo: 'left' | 'right',
): SledPlacing {
  const same = endCutPlacings(part, cut).find(
    (p) =>
      Math.abs(p.sledAngleRad - wanted.sledAngleRad) < 1e-6 &&
      Math.abs(p.bladeTiltRad - wanted.bladeTiltRad) < 1e-6,
  )
  return same ?? endCutPlacing(part, cut, tiltsTo)
}

export interface NotchPlacing extends SledPlacing {
  /** Distance between the stop's places for the first and the last pass, for a blade of the width given. */
  readonly travelMm: number
}

/** Axis of the channel: square across the grain, turned right-hand about the face's outward normal. */
function notchAxis(notch: Notch): Vec3 {
  const normal = OUTWARD[notch.face]
  const square: Vec3 = notch.face === 'faceA' || notch.face === 'faceB' ? [0, 1, 0] : [0, 0, 1]
  const turned = cross(normal, square)
  const [c, s] = [Math.cos(notch.skewRad), Math.sin(notch.skewRad)]
  return [c * square[0] + s * turned[0], c * square[1] + s * turned[1], c * square[2] + s * turned[2]]
}

function placingsOfNotch(part: Part, notch: Notch, bladeMm: number, place: Lie): readonly NotchPlacing[] {
  const axis = notchAxis(notch)
  const sledAngleRad = Math.atan(dot(axis, place.u) / dot(axis, place.v)) + 0
  const isWideFace = notch.face === 'faceA' || notch.face === 'faceB'
  const acrossMm = isWideFace ? part.blank.widthMm : part.blank.thicknessMm
  const along = place.u[0] * notch.alongMm - (acrossMm / 2) * Math.tan(sledAngleRad)
  const halfMm = notch.widthMm / 2 / Math.cos(sledAngleRad)
  return (['left', 'right'] as const).map((stopSide) => {
    const atStop = stopSide === 'left' ? leftEnd(place) : otherEnd(leftEnd(place))
    const stop = reach(part, atStop, place.onFence)
    const stopAt = place.u[0] * stop.x
    return {
      faceDown: place.faceDown,
      onFence: place.onFence,
      atStop,
      stopSide,
      sledAngleRad,
      bladeTiltRad: 0,
      stopMm: stopSide === 'left' ? along - halfMm - stopAt : stopAt - along - halfMm,
      tipOnFence: stop.isOnFence,
      travelMm: Math.max(0, notch.widthMm - bladeMm) / Math.cos(sledAngleRad),
    }
  })
}

/**
 * The way to cut a notch: its face down, the stop not too near to the blade, at the end and on the side where it
 * touches a point on the fence, and then as near as may be. A notch that opens at an end is measured from the other.
 * @throws RangeError if no end of the part lies outside the notch
 */
export function notchPlacing(part: Part, notch: Notch, bladeMm: number, minStopMm: number): NotchPlacing {
  const all = sides(notch.face)
    .flatMap((side) => placingsOfNotch(part, notch, bladeMm, lie(notch.face, side)))
    .filter((p) => p.stopMm > -SAME_MM)
  if (all.length === 0) throw new RangeError(`notch ${notch.id} leaves no end to set a stop against`)
  const rank = (p: NotchPlacing): number => (p.stopMm < minStopMm ? 2 : 0) + (p.tipOnFence ? 0 : 1)
  const better = (a: NotchPlacing, b: NotchPlacing): boolean => {
    if (rank(a) !== rank(b)) return rank(a) < rank(b)
    if (Math.abs(a.stopMm - b.stopMm) > SAME_MM) return a.stopMm < b.stopMm
    return a.stopSide === 'left' && b.stopSide === 'right'
  }
  return all.reduce((best, p) => (better(p, best) ? p : best))
}
