/**
 * Whether a piece tips over. N, mm. Tipping is about a line through two neighbouring feet; with levers inwards
 * from it, a load P at xP, own weight W at xG and a push F outwards at height h give the factor (P xP + W xG) / (F h),
 * or W xG / (P |xP| + F h) where the load stands outside the line. Forces: EN 1022:2018 (600 N, 60 mm inside the edge,
 * 20 N outwards: read; rearward force with a back: from memory), ISO 7174-1:1988 (50 mm: read). A rigid piece on a
 * level floor; a piece that flexes visibly has to be tested. Tests: tests/core/statics/stability.test.ts
 */
import { convexHull, type Polygon2, sidesOf, type Vec2 } from '#lib/core/geometry/polygon2'
import type { Sourced } from './sources'

export interface TippingCase {
  readonly id: string
  readonly name: string
  /** Down, on the surface. */
  readonly loadN: number
  /** How far inside the edge it stands. */
  readonly insetMm: number
  /** Outwards, at the height of the surface. */
  readonly pushN: number
  readonly source: Sourced
  /** What it means if it tips; absent: someone could be hurt. */
  readonly weight?: 'condition' | 'comfort'
  /** Stands with its back to a wall, which stops it there. */
  readonly hasWall?: boolean
}

const EN_1022: Sourced = { source: 'EN 1022:2018, forward and sideways', tag: 'read' }

export const SEAT_TIPPING: readonly TippingCase[] = [
  { id: 'edge', name: 'Sitting on the edge', loadN: 600, insetMm: 60, pushN: 20, source: EN_1022 },
  {
    id: 'edge50',
    name: 'Sitting nearer to the edge',
    loadN: 600,
    insetMm: 50,
    pushN: 20,
    source: { source: 'ISO 7174-1:1988, load 50 mm from the edge; the 20 N of EN 1022', tag: 'read' },
  },
]

export const TABLE_TIPPING: readonly TippingCase[] = [
  {
    id: 'edge',
    name: 'Leaning on the edge',
    loadN: 200,
    insetMm: 50,
    pushN: 20,
    source: { source: 'EN 1730 vertical load at the edge of a table', tag: 'memory' },
  },
  {
    id: 'empty',
    name: 'Bumped at the top, empty',
    loadN: 0,
    insetMm: 0,
    pushN: 50,
    source: {
      source:
        'a bump of 50 N: common practice. EN 1730 loads a table and eases a push that tips it, so this is advice',
      tag: 'practice',
    },
    weight: 'comfort',
  },
]

/** Shelves higher than this can hurt whoever pulls them over (common practice of tip-over rules: about 600 mm). */
export const LOW_SHELF_MM = 600

/** @param heightMm of the highest shelf */
export const shelfTipping = (heightMm: number): readonly TippingCase[] => [
  {
    id: 'edge',
    name: 'Leaning on the edge of the top',
    loadN: 200,
    insetMm: 50,
    pushN: 0,
    source: {
      source: 'EN 16122:2012 11.2, empty, a vertical force 50 mm inside the edge of the top; 200 N assumed',
      tag: 'assumed',
    },
    hasWall: true,
  },
  {
    id: 'empty',
    name: 'Empty, pulled at the top',
    loadN: 0,
    insetMm: 0,
    pushN: 50,
    source: { source: 'a pull of 50 N', tag: 'practice' },
    weight: heightMm > LOW_SHELF_MM ? 'condition' : 'comfort',
    hasWall: true,
  },
]

/** Levers of one tipping line, inwards positive. */
export interface Levers {
  readonly loadMm: number
  readonly weightMm: number
  readonly heightMm: number
}

/**
 * How many times the forces it stands.
 * @returns Infinity if nothing pushes it over
 * @example tippingFactorOf({ loadN: 600, pushN: 20, weightN: 49.05 }, { loadMm: 85, weightMm: 200, heightMm: 650 }).toFixed(3) //=> '4.678'
 */
export function tippingFactorOf(
  forces: { readonly loadN: number; readonly pushN: number; readonly weightN: number },
  at: Levers,
): number {
  const push = forces.pushN * at.heightMm
  const load = forces.loadN * at.loadMm
  const own = forces.weightN * at.weightMm
  const holds = Math.max(0, load) + Math.max(0, own)
  const tips = push + Math.max(0, -load) + Math.max(0, -own)
  if (tips === 0) return Number.POSITIVE_INFINITY
  return holds / tips
}

/** Push at which it tips, N. @example pushAtTippingN({ loadN: 600, weightN: 49.05 }, { loadMm: 85, weightMm: 200, heightMm: 650 }).toFixed(2) //=> '93.55' */
export const pushAtTippingN = (
  forces: { readonly loadN: number; readonly weightN: number },
  at: Levers,
): number => (forces.loadN * at.loadMm + forces.weightN * at.weightMm) / at.heightMm

/**
 * How far the tipping line must move outwards, or inwards if below 0, for the factor to be 1.
 * @example outsetToPassMm({ loadN: 600, pushN: 20, weightN: 49.05 }, { loadMm: -30, weightMm: 170, heightMm: 650 }).toFixed(1) //=> '34.9'
 */
export const outsetToPassMm = (
  forces: { readonly loadN: number; readonly pushN: number; readonly weightN: number },
  at: Levers,
): number =>
  (forces.pushN * at.heightMm - forces.loadN * at.loadMm - forces.weightN * at.weightMm) /
  (forces.loadN + forces.weightN)

/**
 * The lean of the legs at which it would just pass, if their feet move out and their tops stay.
 * @example rakeToPassRad({ rakeRad: 0, legHeightMm: 620, outsetMm: 76.13 }).toFixed(4) //=> '0.1222'
 */
export const rakeToPassRad = (leg: {
  readonly rakeRad: number
  readonly legHeightMm: number
  readonly outsetMm: number
}): number => Math.atan(Math.tan(leg.rakeRad) + leg.outsetMm / leg.legHeightMm)

/** Foot outside its top: h tan a. @example footOutsetMm(620, (7 * Math.PI) / 180).toFixed(2) //=> '76.13' */
export const footOutsetMm = (legHeightMm: number, rakeRad: number): number => legHeightMm * Math.tan(rakeRad)

/** Tilt at which an empty piece falls over. @example tiltAngleRad(200, 450).toFixed(4) //=> '0.4182' */
export const tiltAngleRad = (leverMm: number, heightMm: number): number => Math.atan(leverMm / heightMm)

/**
 * Rearward force of EN 1022 on a seat with a back, N, by the height of the loaded seat (from memory).
 * @example rearwardForceN(420).toFixed(1) //=> '165.7'
 */
export const rearwardForceN = (seatHeightMm: number): number =>
  seatHeightMm < 720 ? 0.2857 * (1000 - seatHeightMm) : 80

export interface StandingPiece {
  /** Points at which it touches the floor, in plan. */
  readonly feet: readonly Vec2[]
  /** Centre of gravity in plan and its height. */
  readonly centre: readonly [number, number, number]
  readonly weightN: number
  /** Outline of the surface that is loaded, in plan; any points whose hull it is. */
  readonly surface: readonly Vec2[]
  readonly surfaceHeightMm: number
}

export interface TippingLine {
  readonly from: Vec2
  readonly to: Vec2
  /** Direction in which it falls, unit. */
  readonly towards: Vec2
  readonly levers: Levers
  /** Where the load stands. */
  readonly loadAt: Vec2
  readonly factor: number
  /** How far the feet of this line must move out to pass. */
  readonly outsetMm: number
}

export interface Tipping {
  readonly case: TippingCase
  readonly worst: TippingLine
  readonly lines: readonly TippingLine[]
  /** Factor by direction of the push, for drawing; rad from x. */
  readonly around: readonly { readonly angleRad: number; readonly factor: number }[]
}

/** A line whose normal points further than this to the back falls towards the wall. */
const TOWARDS_WALL = 0.7

/** Support polygon: the hull of the feet; undefined if they lie on one line. */
export function supportPolygon(feet: readonly Vec2[]): Polygon2 | undefined {
  const hull = convexHull(feet)
  return hull.length < 3 ? undefined : hull
}

/** The outermost place in a direction at which the load may stand, inside the edge on all sides. */
function loadPlace(surface: Polygon2, insetMm: number, towards: Vec2): Vec2 {
  const sides = sidesOf(surface)
  const inside = surface.map((corner, i): Vec2 => {
    const before = sides[(i + sides.length - 1) % sides.length]
    const after = sides[i]
    // The corner of the outline moved in by the inset: where both moved sides cross.
    const [a, b, c, d] = [before.normal[0], before.normal[1], after.normal[0], after.normal[1]]
    const det = a * d - b * c
    if (Math.abs(det) < 1e-9) return [corner[0] - insetMm * a, corner[1] - insetMm * b]
    const [p, q] = [before.offset - insetMm, after.offset - insetMm]
    return [(p * d - b * q) / det, (a * q - p * c) / det]
  })
  // A surface narrower than twice the inset is loaded at its middle.
  const kept = inside.filter((p) =>
    sides.every(({ normal, offset }) => normal[0] * p[0] + normal[1] * p[1] <= offset - insetMm + 1e-6),
  )
  const middle: Vec2 = [
    surface.reduce((sum, p) => sum + p[0], 0) / surface.length,
    surface.reduce((sum, p) => sum + p[1], 0) / surface.length,
  ]
  const places = kept.length > 0 ? kept : [middle]
  const out = (p: Vec2): number => p[0] * towards[0] + p[1] * towards[1]
  const most = Math.max(...places.map(out))
  const outermost = places.filter((p) => out(p) > most - 1e-6)
  return [
    outermost.reduce((sum, p) => sum + p[0], 0) / outermost.length,
    outermost.reduce((sum, p) => sum + p[1], 0) / outermost.length,
  ]
}

/**
 * Factor in every direction, worst first, for one case.
 * @param loadAt where the load stands, if at one place only: a footrest
 * @returns undefined if the feet span no area: it cannot stand by itself
 */
export function tippingOf(
  piece: StandingPiece,
  one: TippingCase,
  loadAt?: { readonly point: Vec2; readonly heightMm: number },
): Tipping | undefined {
  const support = supportPolygon(piece.feet)
  const surface = convexHull(piece.surface)
  if (support === undefined || surface.length < 3) return undefined
  const heightMm = loadAt?.heightMm ?? piece.surfaceHeightMm
  const all = sidesOf(support).map(({ normal, offset }, i): TippingLine => {
    const at = loadAt?.point ?? loadPlace(surface, one.insetMm, normal)
    const inwards = (p: readonly number[]): number => offset - normal[0] * p[0] - normal[1] * p[1]
    const levers = { loadMm: inwards(at), weightMm: inwards(piece.centre), heightMm }
    const forces = { loadN: one.loadN, pushN: one.pushN, weightN: piece.weightN }
    return {
      from: support[i],
      to: support[(i + 1) % support.length],
      towards: normal,
      levers,
      loadAt: at,
      factor: tippingFactorOf(forces, levers),
      outsetMm: outsetToPassMm(forces, levers),
    }
  })
  // EN 16122:2012 11.1 (read): what is meant to stand against a wall is not tested towards it.
  const lines = one.hasWall === true ? all.filter(({ towards }) => towards[1] < TOWARDS_WALL) : all
  const worst = lines.reduce((a, b) => (b.factor < a.factor ? b : a))
  return { case: one, worst, lines, around: around(lines, one, piece.weightN) }
}

/** A push at an angle to a line's own direction tips about it with that share of itself. */
function around(lines: readonly TippingLine[], one: TippingCase, weightN: number): Tipping['around'] {
  return Array.from({ length: 72 }, (_, i) => {
    const angleRad = (i * Math.PI) / 36
    const factor = lines.reduce((least, { towards, levers }) => {
      const share = towards[0] * Math.cos(angleRad) + towards[1] * Math.sin(angleRad)
      if (share <= 1e-9) return least
      const forces = { loadN: one.loadN, pushN: one.pushN * share, weightN }
      return Math.min(least, tippingFactorOf(forces, levers))
    }, Number.POSITIVE_INFINITY)
    return { angleRad, factor }
  })
}
