/**
 * What a glued patch bears, by the grains that meet in it. mm, N, N mm, MPa. The wood beside the glue is the weak part:
 * each piece bears shear along its grain well, across it (rolling) a fifth, between by Hankinson's curve; stress by the
 * elastic polar method, greatest at the rim. Where grains cross, twist is judged as tests of crossed boards are: nominal
 * stress against their torsional strength, plus even shear as a share of its own (EN 16351; Flaig and Blaß 2013). Pull
 * adds by squares (assumed). End grain: a tenth of long grain (assumed; a quarter at best, Wood Handbook ch. 10). Glue:
 * EN 204 D2 dry, 10 MPa (from memory). Bare, flat, clamped wood; over old finish no bond. Tests: tests/core/statics/glue.test.ts
 */
import type { Polygon2, Vec2 } from '#lib/core/geometry/polygon2'
import { type Allowables, hankinson } from '#lib/core/wood/strength'
import { type PatchProperties, patchProperties } from './contact-area'

export const END_GRAIN_GLUE_SHARE = 0.1
/** EN 204, classes D1 to D4, dry. */
export const ADHESIVE_MPA = 10

/**
 * Greatest shear stress of a rectangular patch under a torque: T r / J, J = b h (b^2 + h^2) / 12.
 * @example lapTorsionMPa(38, 38, 30_000) //=> 2.3196…
 */
export function lapTorsionMPa(bMm: number, hMm: number, torqueNmm: number): number {
  const polar = (bMm * hMm * (bMm ** 2 + hMm ** 2)) / 12
  return (torqueNmm * Math.hypot(bMm, hMm)) / 2 / polar
}

/** One of the two pieces at a patch. */
export interface GlueSide {
  readonly wood: Allowables
  readonly grain: 'long' | 'end'
  /** Direction of its grain in the patch's plane, rad from the patch's x axis. Of no account for end grain. */
  readonly grainRad: number
}

/** Shear that one side bears in a direction, MPa. */
export function sideShearMPa(side: GlueSide, directionRad: number): number {
  if (side.grain === 'end') return END_GRAIN_GLUE_SHARE * side.wood.shearMPa
  return hankinson(side.wood.shearMPa, side.wood.rollingShearMPa, directionRad - side.grainRad)
}

const sidePullMPa = (side: GlueSide): number =>
  side.grain === 'end' ? END_GRAIN_GLUE_SHARE * side.wood.shearMPa : side.wood.tensionAcrossMPa

/** Force and moment through a patch at its centre, in the patch's axes; z is the normal, a pull is positive. */
export interface PatchForces {
  readonly xN: number
  readonly yN: number
  readonly pullN: number
  readonly mxNmm: number
  readonly myNmm: number
  readonly torqueNmm: number
}

/** Grains that meet at this angle or more cross. */
const CROSSED_RAD = Math.PI / 3

/** Whether the grains of two long-grain sides cross, as layers of cross-laminated timber do. */
export function isCrossed([a, b]: readonly [GlueSide, GlueSide]): boolean {
  if (a.grain === 'end' || b.grain === 'end') return false
  const turn = Math.abs(a.grainRad - b.grainRad) % Math.PI
  return Math.min(turn, Math.PI - turn) >= CROSSED_RAD - 1e-9
}

/**
 * Stress of a twisted patch as tests of crossed boards reckon it, at the middle of its longer side: T (b / 2) / J.
 * @example nominalTorsionMPa(rectangle(-19, -19, 19, 19), 30_000).toFixed(3) //=> '1.640'
 */
export function nominalTorsionMPa(
  polygon: Polygon2,
  torqueNmm: number,
  p: PatchProperties = patchProperties(polygon),
): number {
  const extent = (axis: 0 | 1): number => {
    const along = polygon.map((corner) => corner[axis])
    return Math.max(...along) - Math.min(...along)
  }
  return (Math.abs(torqueNmm) * Math.max(extent(0), extent(1))) / 2 / p.polarMm4
}

export interface GlueUse {
  /** Demand over capacity at the worst place of its rim. */
  readonly share: number
  /** Shear and pull there, and what the weaker side bears of each, MPa. */
  readonly shearMPa: number
  readonly shearCapacityMPa: number
  readonly pullMPa: number
  readonly pullCapacityMPa: number
  readonly at: Vec2
  readonly isEndGrain: boolean
  /** Judged as crossed boards, and twist is most of it: `shearMPa` is then nominal. */
  readonly isTwist: boolean
}

/** Places on the rim of a patch, x and y in turn: corners and quarters of the sides, since strength goes by direction. */
function rimOf(polygon: Polygon2): Float64Array {
  const rim = new Float64Array(8 * polygon.length)
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length]
    for (let k = 0; k < 4; k++) {
      rim[8 * i + 2 * k] = a[0] + (k / 4) * (b[0] - a[0])
      rim[8 * i + 2 * k + 1] = a[1] + (k / 4) * (b[1] - a[1])
    }
  })
  return rim
}

/** A patch is asked about once a load case: its rim is worked out once. */
const rims = new WeakMap<Polygon2, Float64Array>()
function knownRim(polygon: Polygon2): Float64Array {
  const known = rims.get(polygon) ?? rimOf(polygon)
  rims.set(polygon, known)
  return known
}

type Sides = readonly [GlueSide, GlueSide]
type Shear = Pick<GlueUse, 'shearMPa' | 'shearCapacityMPa' | 'isTwist'> & { readonly share: number }

/** What the weaker side, or the glue, bears of shear in a direction, MPa. */
const shearCapacity = (sides: Sides, tx: number, ty: number): number => {
  const direction = Math.atan2(ty, tx)
  return Math.min(
    ADHESIVE_MPA / sides[0].wood.factor,
    sideShearMPa(sides[0], direction),
    sideShearMPa(sides[1], direction),
  )
}

/** Shear in a direction against what is borne of it. */
function directShear(sides: Sides, tx: number, ty: number): Shear {
  const shearMPa = Math.hypot(tx, ty)
  const shearCapacityMPa = shearCapacity(sides, tx, ty)
  return { shearMPa, shearCapacityMPa, share: shearMPa / shearCapacityMPa, isTwist: false }
}

/** The whole of a patch where grains cross: shares of twist and of even shear added. */
function crossedShear(polygon: Polygon2, sides: Sides, f: PatchForces, p: PatchProperties): Shear {
  const even = directShear(sides, f.xN / p.areaMm2, f.yN / p.areaMm2)
  const twistMPa = nominalTorsionMPa(polygon, f.torqueNmm, p)
  const most = Math.min(sides[0].wood.crossedTorsionMPa, sides[1].wood.crossedTorsionMPa)
  const share = even.share + twistMPa / most
  const isTwist = twistMPa / most > even.share
  return isTwist ? { share, shearMPa: twistMPa, shearCapacityMPa: most, isTwist } : { ...even, share }
}

/** Stress at the worst place of a glued patch against what its weaker side bears. */
export function glueUse(
  polygon: Polygon2,
  sides: Sides,
  f: PatchForces,
  p: PatchProperties = patchProperties(polygon),
): GlueUse {
  const spread = p.ixxMm4 * p.iyyMm4 - p.ixyMm4 ** 2
  const isEndGrain = sides[0].grain === 'end' || sides[1].grain === 'end'
  const pullCapacityMPa = Math.min(sidePullMPa(sides[0]), sidePullMPa(sides[1]))
  const crossed = isCrossed(sides) ? crossedShear(polygon, sides, f, p) : undefined
  const evenX = f.xN / p.areaMm2
  const evenY = f.yN / p.areaMm2
  const evenPull = f.pullN / p.areaMm2
  const twist = f.torqueNmm / p.polarMm4
  // A moment about x pulls where y is above 0, one about y where x is below.
  const bendY = (f.mxNmm * p.iyyMm4 + f.myNmm * p.ixyMm4) / spread
  const bendX = (f.myNmm * p.ixxMm4 + f.mxNmm * p.ixyMm4) / spread
  const rim = knownRim(polygon)
  // The shares alone in the loop, which runs for every joint and load case; the worst place in full afterwards.
  let [worst, most] = [0, -1]
  for (let i = 0; i < rim.length; i += 2) {
    const x = rim[i] - p.centre[0]
    const y = rim[i + 1] - p.centre[1]
    const tx = evenX - twist * y
    const ty = evenY + twist * x
    const pull = Math.max(0, evenPull + bendY * y - bendX * x) / pullCapacityMPa
    const shear = crossed?.share ?? Math.sqrt(tx * tx + ty * ty) / shearCapacity(sides, tx, ty)
    const square = shear * shear + pull * pull
    if (square > most) [most, worst] = [square, i]
  }
  const [x, y] = [rim[worst] - p.centre[0], rim[worst + 1] - p.centre[1]]
  return {
    ...(crossed ?? directShear(sides, evenX - twist * y, evenY + twist * x)),
    share: Math.sqrt(most),
    pullMPa: Math.max(0, evenPull + bendY * y - bendX * x),
    pullCapacityMPa,
    at: [rim[worst], rim[worst + 1]],
    isEndGrain,
  }
}
