/**
 * How far from failure a joint is under the forces that pass through it, and what in it carries them. N, mm, MPa.
 * Two ways, never added up since glue is far stiffer than metal: the glue alone, or what is left when it has let
 * go: notch shoulders in bearing, screws, and wood that may shear off beyond a notch. The joint is as good as the better
 * way. Screws share sideways load by the elastic group (V/n + T r / sum r^2) and pull by levers about the pressed
 * edge. Shoulders take what runs square to the notch, and twist, if they fit tightly; in even and triangular bearing.
 * Tests: tests/core/statics/joint-capacity.test.ts
 */
import type { Polygon2, Vec2 } from '#lib/core/geometry/polygon2'
import { VARIATION } from '#lib/core/wood/strength'
import type { PatchProperties } from './contact-area'
import { LATERAL_VARIATION, type ScrewHold, screwShare } from './fasteners'
import { type GlueSide, glueUse, type PatchForces } from './glue'

export interface PlacedScrew {
  readonly id: string
  /** In the patch's axes, from its centre. */
  readonly at: Vec2
  readonly hold: ScrewHold
}

/** A notch that lets one part into the other. */
export interface Shoulders {
  /** Direction of the channel in the patch's plane, rad from the patch's x axis. */
  readonly channelRad: number
  /** Length of each shoulder along the channel, and its depth. */
  readonly lengthMm: number
  readonly depthMm: number
  /** What the weaker of the two pieces bears there, MPa. */
  readonly bearingMPa: number
  /** Wood beyond the shoulder on either side (against and along the square direction), its width and shear, MPa. */
  readonly beyondMm: readonly [number, number]
  readonly widthMm: number
  readonly shearMPa: number
}

export interface JointMake {
  /** In the patch's axes, its centre at the origin. */
  readonly polygon: Polygon2
  /** Of the polygon, if known already. */
  readonly patch?: PatchProperties
  readonly isGlued: boolean
  readonly sides: readonly [GlueSide, GlueSide]
  readonly screws: readonly PlacedScrew[]
  readonly shoulders?: Shoulders
}

export type CarrierKind = 'glue' | 'screws' | 'shoulders' | 'woodBeyond'

/** One thing in a joint and how hard it is used. */
export interface Carrier {
  readonly kind: CarrierKind
  /** Demand over capacity. */
  readonly share: number
  readonly demand: number
  readonly capacity: number
  readonly unit: 'N' | 'MPa'
  /** In words: what is loaded and how. */
  readonly how: string
  readonly variation: number
  /** Factor on its 5th percentile. */
  readonly factor: number
}

export interface JointUse {
  /** Of the better way. Infinity: nothing holds. */
  readonly share: number
  readonly way: 'glue' | 'mechanical'
  readonly governing: Carrier | undefined
  /** Of either way: for comparison, and for when the glue has let go. */
  readonly glue: readonly Carrier[]
  readonly mechanical: readonly Carrier[]
}

function glueCarrier(make: JointMake, f: PatchForces): Carrier {
  const use = glueUse(make.polygon, make.sides, f, make.patch)
  const pullShare = use.pullMPa / use.pullCapacityMPa
  const isPull = pullShare ** 2 > use.share ** 2 / 2
  const where = use.isEndGrain ? 'on end grain, which counts as next to nothing' : 'long grain to long grain'
  const how =
    use.isTwist && !isPull
      ? 'twisted, its grains crossing'
      : `${isPull ? 'pulled open' : 'in shear'} at its edge`
  const capacity = isPull ? use.pullCapacityMPa : use.shearCapacityMPa
  return {
    kind: 'glue',
    share: use.share,
    demand: capacity * use.share,
    capacity,
    unit: 'MPa',
    how: `glue ${where}, ${how}`,
    variation: isPull ? VARIATION.tensionAcross : VARIATION.shear,
    factor: make.sides[0].wood.factor,
  }
}

/** Pull on each screw from a pull and a moment: levers about the edge that is pressed. */
function screwPulls({ polygon, screws }: JointMake, f: PatchForces): number[] {
  const direct = Math.max(0, f.pullN) / screws.length
  const moment = Math.hypot(f.mxNmm, f.myNmm)
  if (moment === 0) return screws.map(() => direct)
  // A moment about x pulls where y is above 0, one about y where x is below.
  const towards: Vec2 = [-f.myNmm / moment, f.mxNmm / moment]
  const reach = (p: Vec2): number => towards[0] * p[0] + towards[1] * p[1]
  const edge = Math.min(...polygon.map(reach))
  // A screw right at the pressed edge has no lever; it is given a hair's.
  const levers = screws.map(({ at }) => Math.max(0.5, reach(at) - edge))
  const squares = levers.reduce((sum, lever) => sum + lever * lever, 0)
  // Pressure on the whole patch takes its share of a moment before any screw does.
  const relief = Math.max(0, -f.pullN) * -edge
  const left = Math.max(0, moment - relief)
  return levers.map((lever) => direct + (left * lever) / squares)
}

/** Sideways load on each screw of a group, N. */
function screwShears({ screws }: JointMake, xN: number, yN: number, torqueNmm: number): number[] {
  const middle: Vec2 = [
    screws.reduce((sum, { at }) => sum + at[0], 0) / screws.length,
    screws.reduce((sum, { at }) => sum + at[1], 0) / screws.length,
  ]
  // Moved from the patch's centre to the screws' own.
  const torque = torqueNmm - (middle[0] * yN - middle[1] * xN)
  const arms = screws.map(({ at }) => [at[0] - middle[0], at[1] - middle[1]] as const)
  const polar = arms.reduce((sum, [x, y]) => sum + x * x + y * y, 0)
  return arms.map(([x, y]) => {
    const turn = polar > 1e-9 ? torque / polar : 0
    return Math.hypot(xN / screws.length - turn * y, yN / screws.length + turn * x)
  })
}

/** Whether one screw alone would have to resist a twist, which it cannot. */
const twistsFreely = (make: JointMake, torqueNmm: number, shearN: number): boolean =>
  make.screws.length === 1 && Math.abs(torqueNmm) > 2 * Math.max(1, shearN)

function screwCarrier(make: JointMake, f: PatchForces, xN: number, yN: number, torqueNmm: number): Carrier {
  const pulls = screwPulls(make, f)
  const shears = screwShears(make, xN, yN, torqueNmm)
  const shares = make.screws.map(({ hold }, i) => screwShare({ pullN: pulls[i], acrossN: shears[i] }, hold))
  const worst = shares.indexOf(Math.max(...shares))
  const { hold } = make.screws[worst]
  const isPull = pulls[worst] / hold.pullN > shears[worst] / hold.acrossN
  const capacity = isPull ? hold.pullN : hold.acrossN
  const by = { thread: 'its thread', head: 'its head', 'end grain': 'its thread in end grain' }[hold.pullBy]
  return {
    kind: 'screws',
    share: shares[worst],
    demand: capacity * shares[worst],
    capacity,
    unit: 'N',
    how: isPull ? `a screw pulled along its axis, held by ${by}` : 'a screw loaded across its axis',
    variation: isPull ? hold.pullVariation : LATERAL_VARIATION,
    factor: isPull && hold.pullBy !== 'head' ? make.sides[0].wood.factor : 1,
  }
}

interface InNotch {
  readonly alongN: number
  readonly squareN: number
}

function inNotch({ channelRad }: Shoulders, f: PatchForces): InNotch {
  const [c, s] = [Math.cos(channelRad), Math.sin(channelRad)]
  return { alongN: f.xN * c + f.yN * s, squareN: -f.xN * s + f.yN * c }
}

function shoulderCarriers(shoulders: Shoulders, f: PatchForces, factor: number): Carrier[] {
  const { lengthMm, depthMm, bearingMPa, beyondMm, widthMm, shearMPa } = shoulders
  const { squareN } = inNotch(shoulders, f)
  const faceMm2 = lengthMm * depthMm
  const stress = Math.abs(squareN) / faceMm2 + (6 * Math.abs(f.torqueNmm)) / (faceMm2 * lengthMm)
  // What presses on either shoulder: the push, and one force of the couple.
  const pressN = Math.abs(squareN) + (1.5 * Math.abs(f.torqueNmm)) / lengthMm
  const beyond = squareN < 0 ? beyondMm[0] : beyondMm[1]
  const sheared = shearMPa * widthMm * Math.max(1, beyond)
  return [
    {
      kind: 'shoulders',
      share: stress / bearingMPa,
      demand: stress,
      capacity: bearingMPa,
      unit: 'MPa',
      how: 'the shoulders of the notch bearing on the part let in',
      variation: VARIATION.compressionAcross,
      factor: 1,
    },
    {
      kind: 'woodBeyond',
      share: pressN / sheared,
      demand: pressN,
      capacity: sheared,
      unit: 'N',
      how: `the wood beyond the notch shearing off along the grain, ${Math.round(beyond)} mm of it`,
      variation: VARIATION.shear,
      factor,
    },
  ]
}

const NOTHING: Carrier = {
  kind: 'screws',
  share: Number.POSITIVE_INFINITY,
  demand: Number.POSITIVE_INFINITY,
  capacity: 0,
  unit: 'N',
  how: 'nothing holds it once the glue has let go',
  variation: 0,
  factor: 1,
}

/** Whether a joint only presses, so that it needs nothing to hold it: within a hundredth. */
function onlyPresses(make: JointMake, f: PatchForces): boolean {
  const sideways = Math.hypot(f.xN, f.yN)
  const size = Math.max(...make.polygon.map((p) => Math.hypot(...p)))
  const turning = Math.hypot(f.mxNmm, f.myNmm, f.torqueNmm)
  return f.pullN < 0 && sideways <= 0.01 * -f.pullN && turning <= 0.1 * -f.pullN * size
}

function mechanicalCarriers(make: JointMake, f: PatchForces): Carrier[] {
  const { shoulders, screws } = make
  const factor = make.sides[0].wood.factor
  const held = shoulders === undefined ? [] : shoulderCarriers(shoulders, f, factor)
  const along = shoulders === undefined ? undefined : inNotch(shoulders, f).alongN
  if (screws.length === 0) {
    const isHeld = f.pullN <= 0 && along !== undefined && Math.abs(along) < 0.01 * Math.hypot(f.xN, f.yN)
    return isHeld ? held : onlyPresses(make, f) ? [] : [...held, NOTHING]
  }
  const c = shoulders === undefined ? 1 : Math.cos(shoulders.channelRad)
  const s = shoulders === undefined ? 0 : Math.sin(shoulders.channelRad)
  const [xN, yN, torque] = along === undefined ? [f.xN, f.yN, f.torqueNmm] : [along * c, along * s, 0]
  if (along === undefined && twistsFreely(make, torque, Math.hypot(xN, yN)))
    return [screwCarrier(make, f, xN, yN, 0), { ...NOTHING, how: 'one screw alone does not stop it turning' }]
  return [...held, screwCarrier(make, f, xN, yN, torque)]
}

const worstOf = (carriers: readonly Carrier[]): Carrier | undefined =>
  carriers.reduce<Carrier | undefined>(
    (worst, one) => (worst === undefined || one.share > worst.share ? one : worst),
    undefined,
  )

/** Demand over capacity of a joint, both ways, and which carries. */
export function jointUse(make: JointMake, f: PatchForces): JointUse {
  const glue = make.isGlued ? [glueCarrier(make, f)] : []
  const mechanical = mechanicalCarriers(make, f)
  const [byGlue, byRest] = [worstOf(glue), worstOf(mechanical)]
  const restShare = byRest?.share ?? 0
  const isGlue = byGlue !== undefined && byGlue.share <= restShare
  return {
    share: isGlue ? byGlue.share : restShare,
    way: isGlue ? 'glue' : 'mechanical',
    governing: isGlue ? byGlue : byRest,
    glue,
    mechanical,
  }
}
