/**
 * What one screw or nail holds. N, mm, MPa. Screws: Wood Handbook FPL-GTR-190 (2010) ch. 8, ultimate withdrawal from
 * side grain 108.25 G^2 D L (15 700 in lb and in, read), from end grain three quarters of it with erratic splitting
 * (from memory), lateral K D^2 at the proportional limit (Table 8-4, from memory). Nails: 54.12 G^(5/2) D L. Head:
 * crushing under it, with the bearing-area factor of short bearings (NDS, from memory). Combined: quadratic
 * (EN 1995-1-1 eq. 8.28, from memory). A load that comes and goes loosens a screw: not covered.
 * Tests: tests/core/statics/fasteners.test.ts
 */

import type { WoodKind } from '#lib/core/wood/species'
import { fifthPercentile, VARIATION } from '#lib/core/wood/strength'

/** 15 700 psi. */
export const SCREW_WITHDRAWAL_MPA = 108.25
/** 7850 psi. */
export const NAIL_WITHDRAWAL_MPA = 54.12
export const END_GRAIN_SHARE = 0.75
/** Of a lateral load on a screw in end grain (NDS, from memory). */
export const END_GRAIN_LATERAL_SHARE = 0.67
/** Root over shank, and thread over length, of a wood screw. */
export const ROOT_SHARE = 2 / 3
export const THREAD_SHARE = 2 / 3

/** Withdrawal goes with the square of density. */
export const WITHDRAWAL_VARIATION = 2 * VARIATION.density
/** From end grain: erratic (assumed). */
export const END_GRAIN_VARIATION = 0.35
export const LATERAL_VARIATION = 0.2

interface Thread {
  readonly g12: number
  readonly shankMm: number
  readonly threadMm: number
}

function checkThread({ g12, shankMm, threadMm }: Thread): void {
  if (!(g12 > 0.05 && g12 < 1.5)) throw new RangeError(`not a specific gravity of wood: ${g12}`)
  if (!(shankMm > 0 && threadMm >= 0)) throw new RangeError(`not a screw: ${shankMm} × ${threadMm} mm`)
}

/**
 * Pull that draws a screw out of side grain, on average. WH eq. 8-10.
 * @example screwWithdrawalN({ g12: 0.63, shankMm: 4.166, threadMm: 25.4 }) //=> 4546.3…
 */
export function screwWithdrawalN(thread: Thread): number {
  checkThread(thread)
  return SCREW_WITHDRAWAL_MPA * thread.g12 ** 2 * thread.shankMm * thread.threadMm
}

/** The same from end grain. @example screwEndGrainWithdrawalN({ g12: 0.63, shankMm: 4.166, threadMm: 25.4 }) //=> 3409.7… */
export const screwEndGrainWithdrawalN = (thread: Thread): number => END_GRAIN_SHARE * screwWithdrawalN(thread)

/** Pull that draws a plain-shank nail out of side grain, on average. WH eq. 8-1. */
export function nailWithdrawalN(thread: Thread): number {
  checkThread(thread)
  return NAIL_WITHDRAWAL_MPA * thread.g12 ** 2.5 * thread.shankMm * thread.threadMm
}

/** WH Table 8-4: up to which specific gravity which K, MPa. */
const LATERAL_K: Readonly<Record<'hardwood' | 'softwood', readonly (readonly [number, number])[]>> = {
  hardwood: [
    [0.47, 23.17],
    [0.56, 31.99],
    [0.74, 44.13],
  ],
  softwood: [
    [0.42, 23.17],
    [0.47, 29.79],
    [0.52, 36.4],
  ],
}

/** K of WH eq. 8-13 for a wood, MPa; lighter wood than the table has takes K in proportion. */
export function lateralK(g12: number, kind: WoodKind): number {
  const rows = LATERAL_K[kind === 'hardwood' ? 'hardwood' : 'softwood']
  const least = kind === 'hardwood' ? 0.33 : 0.29
  if (g12 < least) return (rows[0][1] * g12) / least
  return (rows.find(([most]) => g12 <= most) ?? rows[rows.length - 1])[1]
}

/** Grip for the whole of the lateral load, in shanks (WH, from memory). */
export const FULL_GRIP_SHANKS = 7

/**
 * Load across a screw at the proportional limit. WH eq. 8-13, less in proportion for less than seven shanks of grip.
 * @example screwLateralN({ k: 44.13, shankMm: 4.166, gripMm: 40 }) //=> 765.9…
 */
export function screwLateralN(screw: {
  readonly k: number
  readonly shankMm: number
  readonly gripMm: number
}): number {
  const share = Math.min(1, screw.gripMm / (FULL_GRIP_SHANKS * screw.shankMm))
  return screw.k * screw.shankMm ** 2 * Math.max(0, share)
}

/** Bearings shorter than 6 in along the grain: (l + 3/8 in) / l. NDS bearing-area factor, from memory. */
const shortBearing = (lengthMm: number): number => (lengthMm + 9.525) / lengthMm

/**
 * Pull at which a head sinks into the wood beneath it.
 * @param head.acrossMPa what the wood bears across the grain
 * @example headPullThroughN({ headMm: 8.33, shankMm: 4.166, acrossMPa: 7 }).toFixed(0) //=> '613'
 */
export function headPullThroughN(head: {
  readonly headMm: number
  readonly shankMm: number
  readonly acrossMPa: number
}): number {
  const areaMm2 = (Math.PI / 4) * (head.headMm ** 2 - head.shankMm ** 2)
  return head.acrossMPa * Math.max(0, areaMm2) * shortBearing(head.headMm)
}

/**
 * Lead hole for the thread and hole for the shank. WH ch. 8: 70 % of the root in softwood, 90 % in hardwood, and seven
 * eighths of the shank when pulled along its axis.
 * @example leadHoles({ shankMm: 4.1656, kind: 'hardwood' }).threadMm.toFixed(2) //=> '2.50'
 */
export function leadHoles(screw: { readonly shankMm: number; readonly kind: WoodKind }): {
  readonly threadMm: number
  readonly shankMm: number
} {
  const share = screw.kind === 'softwood' ? 0.7 : 0.9
  return { threadMm: share * ROOT_SHARE * screw.shankMm, shankMm: 0.875 * screw.shankMm }
}

/** Distances in shanks for screws in bored holes, from EN 1995-1-1 Table 8.2 (from memory): furniture rarely has room. */
export const SPACING_SHANKS = { alongGrain: 5, acrossGrain: 4, end: 7, edge: 3 } as const

export interface ScrewUse {
  /** Pull along the axis, N; below 0 it is pressed and counts as none. */
  readonly pullN: number
  readonly acrossN: number
}
export interface ScrewHold {
  readonly pullN: number
  readonly acrossN: number
  /** What gives first when it is pulled. */
  readonly pullBy: 'thread' | 'end grain' | 'head'
  readonly pullVariation: number
}

/** Share of a screw's strength in use: root of the sum of squares. @example screwShare({ pullN: 300, acrossN: 400 }, { pullN: 1000, acrossN: 1000, pullBy: 'thread', pullVariation: 0.2 }) //=> 0.5 */
export const screwShare = (use: ScrewUse, hold: ScrewHold): number =>
  Math.hypot(Math.max(0, use.pullN) / hold.pullN, use.acrossN / hold.acrossN)

export interface ScrewSetting {
  readonly shankMm: number
  readonly headMm: number
  /** Thread in the second piece, and all of the screw in it. */
  readonly threadMm: number
  readonly gripMm: number
  readonly isInEndGrain: boolean
  /** Wood that the thread grips. */
  readonly g12: number
  readonly kind: WoodKind
  /** What the wood under the head bears across its grain, MPa. */
  readonly acrossMPa: number
  /** On the 5th percentile of withdrawal. */
  readonly factor: number
}

/**
 * What one screw may be asked to hold: 5th percentile of withdrawal over the factor, or of the head's bearing, and
 * 5th percentile of the lateral proportional limit with no further factor, since that lies far below breaking.
 */
export function screwHold(s: ScrewSetting): ScrewHold {
  const thread = { g12: s.g12, shankMm: s.shankMm, threadMm: s.threadMm }
  const variation = s.isInEndGrain ? END_GRAIN_VARIATION : WITHDRAWAL_VARIATION
  const meanN = s.isInEndGrain ? screwEndGrainWithdrawalN(thread) : screwWithdrawalN(thread)
  const drawnN = fifthPercentile(meanN, variation) / s.factor
  const headN = headPullThroughN(s)
  const lateralN = screwLateralN({ k: lateralK(s.g12, s.kind), shankMm: s.shankMm, gripMm: s.gripMm })
  const share = s.isInEndGrain ? END_GRAIN_LATERAL_SHARE : 1
  return {
    pullN: Math.min(drawnN, headN),
    acrossN: fifthPercentile(share * lateralN, LATERAL_VARIATION),
    pullBy: headN < drawnN ? 'head' : s.isInEndGrain ? 'end grain' : 'thread',
    pullVariation: headN < drawnN ? VARIATION.compressionAcross : variation,
  }
}
