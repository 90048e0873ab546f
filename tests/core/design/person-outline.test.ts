import { describe, expect, test } from 'vitest'
import { type Limb, STATURES, seatedOutline, standingOutline } from '#lib/core/design/person-outline'

const topOf = (limbs: readonly Limb[]) =>
  Math.max(...limbs.flatMap((l) => [l.from[1] + l.fromRadiusMm, l.to[1] + l.toRadiusMm]))
const lowOf = (limbs: readonly Limb[]) =>
  Math.min(...limbs.flatMap((l) => [l.from[1] - l.fromRadiusMm, l.to[1] - l.toRadiusMm]))
const ends = (limbs: readonly Limb[]) => limbs.flatMap((l) => [l.from, l.to])

describe('someone who stands', () => {
  test.each(STATURES)('$name is as tall as said and stands on the floor', ({ statureMm }) => {
    const limbs = standingOutline(statureMm)
    expect(topOf(limbs)).toBeCloseTo(statureMm, 6)
    expect(lowOf(limbs)).toBeCloseTo(0, 6)
  })

  // Drillis and Contini 1966 (from memory): knee 0.285, elbow 0.630, wrist 0.485 of stature.
  test('joints lie at their share of stature', () => {
    const heights = ends(standingOutline(1000)).map(([, v]) => v)
    for (const share of [285, 630, 485, 530]) expect(heights).toContain(share)
  })

  test('left and right are mirror images', () => {
    const spots = ends(standingOutline(1700)).map(([u, v]) => `${Math.abs(u)} ${v} ${Math.sign(u)}`)
    for (const spot of spots) {
      const mirrored = spot.endsWith(' -1') ? spot.replace(/ -1$/, ' 1') : spot.replace(/ 1$/, ' -1')
      expect(spots).toContain(mirrored)
    }
  })

  test('shoulders are 0.259 of stature apart, outside to outside', () => {
    const shoulder = standingOutline(1000)
      .flatMap((l) => [
        { at: l.from, r: l.fromRadiusMm },
        { at: l.to, r: l.toRadiusMm },
      ])
      .filter(({ at }) => at[1] > 780 && at[1] < 818)
    expect(2 * Math.max(...shoulder.map(({ at, r }) => at[0] + r))).toBeCloseTo(259 + 2 * (27 - 24), 6)
  })
})

describe('someone who sits', () => {
  test('sits on the seat, not in it', () => {
    const [thigh] = seatedOutline(1755, 650)
    expect(thigh.to[1] - thigh.toRadiusMm).toBeCloseTo(650, 6)
  })

  // Sitting height over stature: about 0.52 (0.470 from hip to crown, Drillis and Contini, and the thigh below it).
  test('the crown is about half a stature over the seat', () => {
    const share = (topOf(seatedOutline(1755, 650)) - 650) / 1755
    expect(share).toBeGreaterThan(0.5)
    expect(share).toBeLessThan(0.54)
  })

  test.each([200, 450, 650, 800])(
    'on a seat at %d mm the shank keeps its length, no foot under the floor',
    (seat) => {
      const limbs = seatedOutline(1755, seat)
      const { from, to } = limbs[1]
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(0.246 * 1755, 6)
      expect(lowOf(limbs)).toBeGreaterThanOrEqual(-1e-9)
    },
  )

  test('refuses what is no stature', () => {
    expect(() => standingOutline(0)).toThrow(RangeError)
    expect(() => seatedOutline(Number.NaN, 400)).toThrow(RangeError)
  })
})
