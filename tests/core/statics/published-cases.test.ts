/**
 * Frames, sections, fasteners, glue and tipping against standard beam tables, Kleinlogel's portals, the Wood Handbook
 * (FPL-GTR-190, 2010; WH below), EN 1022 and hand statics. «Memory»: the number was recalled and not read again.
 */

import { shankMm } from '#lib/core/design/screws'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import {
  leadHoles,
  NAIL_WITHDRAWAL_MPA,
  SCREW_WITHDRAWAL_MPA,
  screwLateralN,
  screwWithdrawalN,
} from '#lib/core/statics/fasteners'
import { lapTorsionMPa } from '#lib/core/statics/glue'
import { longTermMm } from '#lib/core/statics/load-cases'
import { eulerLoadN, rectangleSection, shearStressMPa } from '#lib/core/statics/section'
import {
  footOutsetMm,
  pushAtTippingN,
  rearwardForceN,
  SEAT_TIPPING,
  tiltAngleRad,
  tippingFactorOf,
  tippingOf,
} from '#lib/core/statics/stability'
import { judgePublishedCases, type PublishedCase } from '../published-cases'
import { ALL, aFrame, beamOf, cantilever, PIN, portal, ROLLER, SQUARE38, solved, unstretched } from './frames'

const MPA_PER_PSI = 0.00689476
const N_PER_LBF = 4.44822
const rad = (degrees: number) => (degrees * Math.PI) / 180

const MIDDLE = { id: 'p', nodeLoads: [{ node: 'm', forceN: [0, 0, -1000] as const }] }
const spread = (nPerMm: number) => ({
  id: 'w',
  memberLoads: ['1', '2'].map((id) => ({
    kind: 'uniform' as const,
    member: id,
    forcePerMm: [0, 0, -nPerMm] as const,
  })),
})

/** Sag of the middle of a beam along x, mm. */
function sagMm(beam: Parameters<typeof beamOf>, load: typeof MIDDLE | ReturnType<typeof spread>): number {
  const [result] = solved({ ...beamOf(...beam), cases: [load] })
  return -(result.nodes.get('m')?.[2] ?? Number.NaN)
}

function cantileverMm(): number {
  const [result] = solved(cantilever(200, SQUARE38, 300))
  return -(result.nodes.get('tip')?.[2] ?? Number.NaN)
}

const BAR = rectangleSection(45, 20)
/** Against the simple beam of the same span and load. */
const builtIn = (load: Parameters<typeof sagMm>[1]): number =>
  sagMm([400, BAR, 12_000, [ALL, ALL]], load) / sagMm([400, BAR, 12_000, [PIN, ROLLER]], load)

const portalOf = (caseIndex: number) => (areaTimes: number) =>
  solved(portal(false, {}, undefined, areaTimes))[caseIndex]

const aFrames = (
  [
    ['statics-10', 1000, 43.744, 501.91],
    ['statics-11', 600, 26.247, 301.146],
  ] as const
).flatMap(([id, loadN, thrustN, legN]): PublishedCase[] => [
  {
    id: `${id}h`,
    is: `hand statics, A-frame at 5 degrees under ${loadN} N: thrust, N`,
    ...{ expected: thrustN, within: 0.01 },
    got: () => solved(aFrame(loadN, rad(5)))[0].reactions.get('left')?.[0] ?? Number.NaN,
  },
  {
    id: `${id}n`,
    is: `hand statics, A-frame at 5 degrees under ${loadN} N: leg, N`,
    ...{ expected: legN, within: 0.01 },
    got: () => -(solved(aFrame(loadN, rad(5)))[0].members.get('legLeft')?.to[0] ?? Number.NaN),
  },
])

const statics: PublishedCase[] = [
  {
    id: 'statics-01',
    is: 'beam tables, 5wL4/384EI: shelf 800 × 250 × 18 under 150 N, mm',
    ...{ expected: 0.6559, within: 0.005 },
    got: () => sagMm([800, rectangleSection(18, 250), 12_548.5, [PIN, ROLLER]], spread(150 / 800)),
  },
  {
    id: 'statics-02',
    is: 'beam tables, PL3/48EI: 400 mm of 20 × 45 under 1000 N, mm',
    ...{ expected: 0.6996, within: 0.002 },
    got: () => sagMm([400, BAR, 12_548.5, [PIN, ROLLER]], MIDDLE),
  },
  {
    id: 'statics-04',
    is: 'beam tables, PL3/3EI: cantilever 200 mm of 38 × 38 under 300 N, mm',
    ...{ expected: 0.3837, within: 0.002 },
    got: cantileverMm,
  },
  {
    id: 'statics-05',
    is: 'beam tables, built in at both ends over simple, load in the middle',
    ...{ expected: 0.25, within: 1e-9 },
    got: () => builtIn(MIDDLE),
  },
  {
    id: 'statics-06',
    is: 'the same, spread load',
    ...{ expected: 0.2, within: 1e-9 },
    got: () => builtIn(spread(1)),
  },
  {
    id: 'statics-08',
    is: 'half the depth leaves a quarter of the section modulus',
    ...{ expected: 0.25, within: 1e-9 },
    got: () => rectangleSection(38, 20).syMm3 / rectangleSection(38, 40).syMm3,
  },
  ...aFrames,
  {
    id: 'statics-13',
    is: 'Ph3/6EIc + Ph2L/12EIb: portal on pinned feet pushed by 100 N, mm',
    ...{ expected: 2.0043, within: 0.001 },
    got: () => unstretched((area) => portalOf(0)(area).nodes.get('kneeLeft')?.[0] ?? Number.NaN),
  },
  {
    id: 'statics-16',
    is: 'Ph/2 (memory): its knee, N mm',
    ...{ expected: 30_000, within: 0.1 },
    got: () => Math.abs(portalOf(0)(1).members.get('legLeft')?.to[5] ?? Number.NaN),
  },
  {
    id: 'statics-17',
    is: 'Ph/L: its vertical couple, N',
    ...{ expected: 150, within: 0.01 },
    got: () => portalOf(0)(1).reactions.get('footRight')?.[2] ?? Number.NaN,
  },
  {
    id: 'statics-19',
    is: 'Kleinlogel, 3PL/8h(2k+3) (memory): portal under 1000 N in the middle, thrust, N',
    ...{ expected: 27.128, within: 0.02 },
    got: () => unstretched((area) => portalOf(1)(area).reactions.get('footLeft')?.[0] ?? Number.NaN),
  },
  {
    id: 'statics-21',
    is: 'Euler: 600 mm of 38 × 38, E 12 000, N',
    ...{ expected: 57_165, within: 30 },
    got: () => eulerLoadN({ eMPa: 12_000, iMm4: 173_761.33, lengthMm: 600, k: 1 }),
  },
  {
    id: 'statics-22',
    is: 'shear 3V/2A: 500 N on 900 mm2, MPa',
    ...{ expected: 0.8333, within: 0.001 },
    got: () => shearStressMPa(500, 900),
  },
  {
    id: 'statics-23',
    is: 'elastic polar method Tr/J: glued lap of 38 × 38 twisted by 30 N m, MPa',
    ...{ expected: 2.3196, within: 0.002 },
    got: () => lapTorsionMPa(38, 38, 30_000),
  },
  {
    id: 'statics-25',
    is: 'WH ch. 5 and 9 (memory): 1.2 mm of sag after years of load, mm',
    ...{ expected: 2.4, within: 1e-9 },
    got: () => longTermMm(1.2),
  },
]

/** WH eq. 8-10, p = 15 700 G2DL in lbf and inches. */
const withdrawalLbf = (g12: number, shankIn: number, threadIn: number): number =>
  screwWithdrawalN({ g12, shankMm: shankIn * 25.4, threadMm: threadIn * 25.4 }) / N_PER_LBF

const screws: PublishedCase[] = [
  {
    id: 'screw-01',
    is: '15 700 psi, in MPa',
    ...{ expected: 15_700 * MPA_PER_PSI, within: 0.01 },
    got: () => SCREW_WITHDRAWAL_MPA,
  },
  ...(
    [
      ['screw-02', 0.63, 0.164, 1, 1021.9],
      ['screw-03', 0.63, 0.138, 0.75, 644.9],
      ['screw-04', 0.42, 0.164, 1, 454.2],
      ['screw-05', 0.55, 0.19, 1.25, 1127.9],
      ['screw-06', 0.35, 0.164, 1, 315.4],
    ] as const
  ).map(([id, g12, shankIn, threadIn, expected]) => ({
    id,
    is: `WH eq. 8-10, G ${g12}, ${shankIn} by ${threadIn} in, lbf`,
    ...{ expected, within: 1 },
    got: () => withdrawalLbf(g12, shankIn, threadIn),
  })),
  ...(
    [
      ['screw-07', 0.63, 4.166, 25.4, 4546.3],
      ['screw-08', 0.4, 4.166, 30, 2164.7],
      ['screw-09', 0.68, 4.826, 25, 6039.1],
    ] as const
  ).map(([id, g12, shank, threadMm, expected]) => ({
    id,
    is: `WH eq. 8-10, G ${g12}, ${shank} by ${threadMm} mm, N`,
    ...{ expected, within: 2 },
    got: () => screwWithdrawalN({ g12, shankMm: shank, threadMm }),
  })),
  {
    id: 'screw-13',
    is: 'ASME B18.6.1 (memory), shank of No. 6, in',
    ...{ expected: 0.138, within: 0.0005 },
    got: () => shankMm(6) / 25.4,
  },
  {
    id: 'screw-14',
    is: 'ASME B18.6.1, shank of No. 8, in',
    ...{ expected: 0.164, within: 0.0005 },
    got: () => shankMm(8) / 25.4,
  },
  {
    id: 'screw-17',
    is: 'WH ch. 8, lead hole of No. 8 in hardwood, nine tenths of the root, in',
    ...{ expected: 0.0984, within: 0.001 },
    got: () => leadHoles({ shankMm: shankMm(8), kind: 'hardwood' }).threadMm / 25.4,
  },
  {
    id: 'screw-19',
    is: 'WH eq. 8-13 and Table 8-4 (memory), No. 8 across in dense hardwood, lbf',
    ...{ expected: 172.1, within: 0.5 },
    got: () => screwLateralN({ k: 6400 * MPA_PER_PSI, shankMm: 0.164 * 25.4, gripMm: 40 }) / N_PER_LBF,
  },
  {
    id: 'screw-20',
    is: 'the same in metric, N',
    ...{ expected: 765.9, within: 2 },
    got: () => screwLateralN({ k: 44.13, shankMm: 4.166, gripMm: 40 }),
  },
  {
    id: 'nail-03',
    is: 'WH eq. 8-1, 7850 psi, in MPa',
    ...{ expected: 7850 * MPA_PER_PSI, within: 0.01 },
    got: () => NAIL_WITHDRAWAL_MPA,
  },
]

const EN_1022 = { loadN: 600, pushN: 20, weightN: 49.05 }

/** Nearest side of the ground that feet on a circle of 200 mm span, from its middle, mm. */
function tripodLeverMm(): number {
  const feet = [90, 210, 330].map((a): Vec2 => [200 * Math.cos(rad(a)), 200 * Math.sin(rad(a))])
  const standing = { feet, centre: [0, 0, 400], weightN: 40, surface: feet, surfaceHeightMm: 600 } as const
  const lines = tippingOf(standing, SEAT_TIPPING[0])?.lines ?? []
  return Math.min(...lines.map(({ levers }) => levers.weightMm))
}

const stability: PublishedCase[] = [
  {
    id: 'stability-02',
    is: 'moments about the feet with the forces of EN 1022, load inside them',
    ...{ expected: 4.678, within: 0.01 },
    got: () => tippingFactorOf(EN_1022, { loadMm: 85, weightMm: 200, heightMm: 650 }),
  },
  {
    id: 'stability-03',
    is: 'the same, load outside them',
    ...{ expected: 0.269, within: 0.01 },
    got: () => tippingFactorOf(EN_1022, { loadMm: -30, weightMm: 170, heightMm: 650 }),
  },
  {
    id: 'stability-04',
    is: 'push at which the first tips, N',
    ...{ expected: 93.55, within: 0.1 },
    got: () => pushAtTippingN(EN_1022, { loadMm: 85, weightMm: 200, heightMm: 650 }),
  },
  ...(
    [
      ['stability-06', 420, 165.7],
      ['stability-08', 650, 100],
      ['stability-09', 720, 80],
      ['stability-10', 760, 80],
    ] as const
  ).map(([id, heightMm, expected]) => ({
    id,
    is: `EN 1022 (memory), push backwards on a seat at ${heightMm} mm, N`,
    ...{ expected, within: 0.1 },
    got: () => rearwardForceN(heightMm),
  })),
  {
    id: 'stability-12',
    is: 'h tan a: foot of a leg of 620 mm at 7 degrees, mm',
    ...{ expected: 76.13, within: 0.02 },
    got: () => footOutsetMm(620, rad(7)),
  },
  {
    id: 'stability-13',
    is: 'feet of legs 300 mm apart at the top, 610 high, 5 degrees, mm',
    ...{ expected: 406.74, within: 0.05 },
    got: () => 300 + 2 * footOutsetMm(610, rad(5)),
  },
  {
    id: 'stability-14',
    is: 'arctan of 200 over 450, degrees',
    ...{ expected: 23.96, within: 0.02 },
    got: () => (tiltAngleRad(200, 450) * 180) / Math.PI,
  },
  {
    id: 'stability-15',
    is: 'three feet on a circle of 200 mm, nearest side, mm',
    ...{ expected: 100, within: 0.01 },
    got: tripodLeverMm,
  },
]

judgePublishedCases(
  {
    statics: [1, 2, 4, 5, 6, 8, 10, 11, 13, 16, 17, 19, 21, 22, 23, 25],
    screw: [1, 2, 3, 4, 5, 6, 7, 8, 9, 13, 14, 17, 19, 20],
    nail: [3],
    stability: [2, 3, 4, 6, 8, 9, 10, 12, 13, 14, 15],
  },
  [...statics, ...screws, ...stability],
)
