import { describe, expect, it } from 'vitest'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import {
  outsetToPassMm,
  rakeToPassRad,
  SEAT_TIPPING,
  type StandingPiece,
  supportPolygon,
  tippingFactorOf,
  tippingOf,
} from '#lib/core/statics/stability'

const deg = (rad: number) => (rad * 180) / Math.PI

describe('moments about the line of feet', () => {
  it('moved out by what it says, it just passes', () => {
    for (const loadMm of [-30, -5, 3, 20]) {
      const forces = { loadN: 600, pushN: 20, weightN: 49.05 }
      const at = { loadMm, weightMm: 170, heightMm: 650 }
      const out = outsetToPassMm(forces, at)
      const moved = { ...at, loadMm: at.loadMm + out, weightMm: at.weightMm + out }
      expect(tippingFactorOf(forces, moved)).toBeCloseTo(1, 9)
    }
  })
})

describe('geometry', () => {
  it('leg of 620 mm at 7 degrees: foot 76.13 mm out, and back', () => {
    expect(deg(rakeToPassRad({ rakeRad: 0, legHeightMm: 620, outsetMm: 76.13 }))).toBeCloseTo(7, 3)
  })
})

describe('a seat on four feet', () => {
  const square = (half: number): Vec2[] => [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ]
  const stool = (feet: number, seat: number): StandingPiece => ({
    feet: square(feet),
    centre: [0, 0, 400],
    weightN: 49.05,
    surface: square(seat),
    surfaceHeightMm: 650,
  })

  it('the worked example: feet 200, seat 175, inset 60 gives 85 mm of lever and 4.68', () => {
    const tipping = tippingOf(stool(200, 175), SEAT_TIPPING[0])!
    expect(tipping.worst.levers.loadMm).toBeCloseTo(85, 9)
    expect(tipping.worst.factor).toBeCloseTo(4.678, 2)
    expect(tipping.lines).toHaveLength(4)
  })

  it('a push along a line of feet needs more than one square to it', () => {
    const { around, worst } = tippingOf(stool(200, 175), SEAT_TIPPING[0])!
    const least = Math.min(...around.map(({ factor }) => factor))
    expect(least).toBeCloseTo(worst.factor, 9)
    expect(around[9].factor).toBeCloseTo(worst.factor * Math.SQRT2, 6)
  })

  it('turning it changes nothing', () => {
    const turn = (p: Vec2): Vec2 => [
      p[0] * Math.cos(0.4) - p[1] * Math.sin(0.4),
      p[0] * Math.sin(0.4) + p[1] * Math.cos(0.4),
    ]
    const still = stool(190, 200)
    const turned = { ...still, feet: still.feet.map(turn), surface: still.surface.map(turn) }
    expect(tippingOf(turned, SEAT_TIPPING[0])!.worst.factor).toBeCloseTo(
      tippingOf(still, SEAT_TIPPING[0])!.worst.factor,
      6,
    )
  })

  it('an overhanging seat fails, and says how far its feet should stand out', () => {
    const { worst } = tippingOf(stool(120, 200), SEAT_TIPPING[0])!
    expect(worst.factor).toBeLessThan(1)
    expect(
      tippingOf(stool(120 + worst.outsetMm + 0.01, 200), SEAT_TIPPING[0])!.worst.factor,
    ).toBeGreaterThanOrEqual(1)
  })

  it('a footrest load stands where the footrest is', () => {
    const at = { point: [0, -150] as Vec2, heightMm: 178 }
    const tipping = tippingOf(stool(160, 175), { ...SEAT_TIPPING[0], pushN: 0 }, at)!
    expect(tipping.worst.factor).toBe(Number.POSITIVE_INFINITY)
    const outside = tippingOf(stool(140, 175), { ...SEAT_TIPPING[0], pushN: 0 }, at)!
    expect(outside.worst.factor).toBeCloseTo((49.05 * 140) / (600 * 10), 6)
  })

  it('two feet, or three in a row, hold nothing up', () => {
    expect(
      supportPolygon([
        [0, 0],
        [10, 0],
      ]),
    ).toBeUndefined()
    expect(
      tippingOf(
        {
          ...stool(200, 175),
          feet: [
            [0, 0],
            [5, 0],
            [10, 0],
          ],
        },
        SEAT_TIPPING[0],
      ),
    ).toBeUndefined()
  })
})
