/**
 * The outline of a person, to see the size of a piece by: limbs as tapered strokes in a flat picture, u across (or
 * forwards, seated) and v up from the floor. mm. Lengths and heights of joints are shares of stature after Drillis
 * and Contini, Body Segment Parameters (1966), from memory as reprinted in textbooks of biomechanics; breadths are
 * drawn by eye. A picture for scale, not a fit. Tests: tests/core/design/person-outline.test.ts
 */
import { bodySizeMm, type Sex } from './body-sizes'

export type Spot = readonly [u: number, v: number]

/** A stroke from one round end to another. */
export interface Limb {
  readonly from: Spot
  readonly to: Spot
  readonly fromRadiusMm: number
  readonly toRadiusMm: number
}

/** Shares of stature. Heights are from the floor, standing. */
export const SEGMENTS = {
  chin: 0.87,
  shoulder: 0.818,
  elbow: 0.63,
  hip: 0.53,
  wrist: 0.485,
  fingertip: 0.377,
  knee: 0.285,
  ankle: 0.039,
  shoulderBreadth: 0.259,
  hipBreadth: 0.191,
  footLength: 0.152,
} as const

export interface Stature {
  readonly id: string
  /** «tall man». */
  readonly name: string
  readonly statureMm: number
}

const stature = (id: string, name: string, sex: Sex, percentile: number): Stature => ({
  id,
  name,
  statureMm: Math.round(bodySizeMm('stature', sex, percentile)),
})

/** Standing height without shoes, from the table of body-sizes.ts. */
export const STATURES: readonly Stature[] = [
  stature('woman5', 'small woman (1 in 20 is smaller)', 'women', 0.05),
  stature('woman50', 'middling woman', 'women', 0.5),
  stature('man50', 'middling man', 'men', 0.5),
  stature('man95', 'tall man (1 in 20 is taller)', 'men', 0.95),
]

type Stroke = readonly [fromU: number, fromV: number, fromR: number, toU: number, toV: number, toR: number]

const limbsOf = (strokes: readonly Stroke[], statureMm: number): Limb[] =>
  strokes.map((stroke) => {
    const [u, v, r, toU, toV, toR] = stroke.map((share) => share * statureMm)
    return { from: [u, v], fromRadiusMm: r, to: [toU, toV], toRadiusMm: toR }
  })

const S = SEGMENTS
const HEAD_R = 0.046
const [SHOULDER_U, HIP_U] = [S.shoulderBreadth / 2 - 0.024, S.hipBreadth / 2 - 0.046]

/** One half of a person who stands, seen from the front; the other is its mirror image. */
const HALF: readonly Stroke[] = [
  [SHOULDER_U - 0.032, 0.772, 0.044, HIP_U, 0.56, 0.048],
  [SHOULDER_U - 0.07, 0.8, 0.026, SHOULDER_U, S.shoulder - 0.026, 0.026],
  [SHOULDER_U, S.shoulder - 0.027, 0.027, 0.142, S.elbow, 0.02],
  [0.142, S.elbow, 0.02, 0.156, S.wrist, 0.014],
  [0.156, S.wrist, 0.014, 0.16, S.fingertip + 0.013, 0.013],
  [HIP_U, S.hip, 0.05, 0.05, S.knee, 0.031],
  [0.05, S.knee, 0.031, 0.052, S.ankle + 0.01, 0.019],
  [0.052, 0.017, 0.017, 0.07, 0.015, 0.015],
]
const MIDDLE: readonly Stroke[] = [
  [0, S.chin + HEAD_R, 0.042, 0, 1 - HEAD_R, HEAD_R],
  [0, S.shoulder, 0.03, 0, S.chin + 0.02, 0.028],
  [0, 0.765, 0.06, 0, 0.57, 0.06],
]

/**
 * Someone who stands, from the front, feet on v = 0.
 * @example standingOutline(1755).length //=> 19
 * @throws RangeError for a stature that is no length
 */
export function standingOutline(statureMm: number): Limb[] {
  if (!(statureMm > 0)) throw new RangeError(`stature ${statureMm}`)
  const mirrored = HALF.map(([u, v, r, toU, toV, toR]): Stroke => [-u, v, r, -toU, toV, toR])
  return limbsOf([...MIDDLE, ...HALF, ...mirrored], statureMm)
}

/** Half the thickness of the thigh at the hip, and at the knee. */
const [THIGH_R, KNEE_R] = [0.046, 0.033]

/**
 * Someone who sits, from the side, facing +u, the hip at u = 0. Shanks hang straight down; where the seat is too low
 * for them, the feet are put forward.
 * @param seatMm the top of the seat over the floor
 * @throws RangeError for a stature that is no length or a seat under the floor
 */
export function seatedOutline(statureMm: number, seatMm: number): Limb[] {
  if (!(statureMm > 0 && seatMm >= 0)) throw new RangeError(`stature ${statureMm}, seat ${seatMm}`)
  const seat = seatMm / statureMm
  const hipV = seat + THIGH_R
  const kneeV = seat + KNEE_R
  const kneeU = S.hip - S.knee
  const shank = S.knee - S.ankle
  const drop = Math.min(shank, Math.max(0, kneeV - S.ankle))
  const [ankleU, ankleV] = [kneeU + Math.sqrt(shank ** 2 - drop ** 2), kneeV - drop]
  const shoulderV = hipV + (S.shoulder - S.hip)
  const elbowV = shoulderV - (S.shoulder - S.elbow)
  const headV = hipV + (S.chin - S.hip)
  const strokes: readonly Stroke[] = [
    [0, hipV, THIGH_R + 0.004, kneeU, kneeV, KNEE_R],
    [kneeU, kneeV, KNEE_R, ankleU, ankleV, 0.021],
    [
      ankleU - 0.03,
      ankleV - S.ankle + 0.018,
      0.018,
      ankleU + S.footLength - 0.055,
      ankleV - S.ankle + 0.014,
      0.014,
    ],
    [ankleU, ankleV, 0.021, ankleU, ankleV - S.ankle + 0.02, 0.02],
    [0, hipV + 0.01, 0.056, -0.012, shoulderV - 0.05, 0.058],
    [-0.012, shoulderV - 0.05, 0.055, -0.002, shoulderV - 0.03, 0.034],
    [-0.004, shoulderV - 0.02, 0.028, 0.006, headV + 0.02, 0.028],
    [0.016, headV + HEAD_R, 0.044, 0.006, headV + 0.13 - 0.052, 0.052],
    [-0.008, shoulderV - 0.03, 0.028, 0.012, elbowV, 0.022],
    [0.012, elbowV, 0.022, 0.012 + (S.elbow - S.wrist), elbowV + 0.012, 0.015],
    [
      0.012 + (S.elbow - S.wrist),
      elbowV + 0.012,
      0.015,
      0.012 + (S.elbow - S.fingertip),
      elbowV + 0.016,
      0.012,
    ],
  ]
  return limbsOf(strokes, statureMm)
}
