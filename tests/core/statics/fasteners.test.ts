import { describe, expect, it } from 'vitest'
import { shankMm } from '#lib/core/design/screws'
import {
  headPullThroughN,
  lateralK,
  leadHoles,
  nailWithdrawalN,
  screwEndGrainWithdrawalN,
  screwHold,
  screwLateralN,
  screwShare,
  screwWithdrawalN,
} from '#lib/core/statics/fasteners'

const N_PER_LBF = 4.44822

// Wood Handbook FPL-GTR-190 (2010) eq. 8-10, value by value: published-cases.test.ts.
describe('screws in withdrawal', () => {
  it('end grain holds three quarters (Wood Handbook, from memory; read there for lag screws)', () => {
    const thread = { g12: 0.63, shankMm: 4.166, threadMm: 25.4 }
    expect(screwEndGrainWithdrawalN(thread) / screwWithdrawalN(thread)).toBe(0.75)
  })

  // NDS allows 2850 G^2 D a threaded inch (read), for ten years: short loads may bear 1.6 times that.
  it('what is allowed here is of the order of the timber code for short loads', () => {
    const setting = {
      shankMm: 4.166,
      headMm: 30,
      threadMm: 25.4,
      gripMm: 40,
      isInEndGrain: false,
      g12: 0.5,
      kind: 'hardwood' as const,
      acrossMPa: 7,
      factor: 2,
    }
    const code = 1.6 * 2850 * 0.5 ** 2 * 0.164 * N_PER_LBF
    const ratio = screwHold(setting).pullN / code
    expect(ratio).toBeGreaterThan(0.8)
    expect(ratio).toBeLessThan(1.5)
  })

  it('refuses what is no screw', () => {
    expect(() => screwWithdrawalN({ g12: 0, shankMm: 4, threadMm: 20 })).toThrow(RangeError)
    expect(() => screwWithdrawalN({ g12: 0.5, shankMm: -4, threadMm: 20 })).toThrow(RangeError)
  })
})

describe('sizes', () => {
  // ANSI/ASME B18.6.1: D = 0.060 + 0.013 n.
  it.each([
    [10, 0.19],
    [12, 0.216],
  ])('No. %d: %d in', (number, inches) => {
    expect(Math.abs(shankMm(number) / 25.4 - inches)).toBeLessThan(0.0005)
  })

  // Wood Handbook ch. 8: lead hole 90 % of the root in hardwood, root two thirds of the shank.
  it('No. 8 in softwood: lead hole under 2 mm', () => {
    expect(leadHoles({ shankMm: shankMm(8), kind: 'softwood' }).threadMm).toBeLessThan(2)
  })
})

describe('screws loaded across', () => {
  it('K by kind and density', () => {
    expect([lateralK(0.4, 'hardwood'), lateralK(0.5, 'hardwood'), lateralK(0.63, 'hardwood')]).toEqual([
      23.17, 31.99, 44.13,
    ])
    expect([lateralK(0.35, 'softwood'), lateralK(0.45, 'softwood'), lateralK(0.5, 'softwood')]).toEqual([
      23.17, 29.79, 36.4,
    ])
    expect(lateralK(0.2, 'unknown')).toBeLessThan(23.17)
  })

  it('half of the grip holds half', () => {
    const k = 40
    const full = screwLateralN({ k, shankMm: 4, gripMm: 28 })
    expect(screwLateralN({ k, shankMm: 4, gripMm: 14 })).toBeCloseTo(full / 2, 9)
    expect(screwLateralN({ k, shankMm: 4, gripMm: 60 })).toBe(full)
  })
})

describe('nails', () => {
  it('a nail holds less than a screw of its size', () => {
    const thread = { g12: 0.5, shankMm: 4, threadMm: 30 }
    expect(nailWithdrawalN(thread)).toBeLessThan(screwWithdrawalN(thread) / 2)
  })
})

describe('heads and both ways at once', () => {
  it('a thin soft board lets the head through before the thread draws', () => {
    const setting = {
      shankMm: 4.166,
      headMm: 8.33,
      threadMm: 25,
      gripMm: 25,
      isInEndGrain: false,
      g12: 0.63,
      kind: 'hardwood' as const,
      factor: 2,
    }
    expect(screwHold({ ...setting, acrossMPa: 2 }).pullBy).toBe('head')
    expect(screwHold({ ...setting, acrossMPa: 60 }).pullBy).toBe('thread')
    expect(screwHold({ ...setting, acrossMPa: 60, isInEndGrain: true }).pullBy).toBe('end grain')
    expect(headPullThroughN({ headMm: 4, shankMm: 4, acrossMPa: 7 })).toBe(0)
  })

  // EN 1995-1-1 eq. 8.28 (from memory): (pull / pull capacity)^2 + (across / across capacity)^2 <= 1.
  it('pull and side load add by squares; a screw that is pressed is not pulled', () => {
    const hold = { pullN: 1000, acrossN: 500, pullBy: 'thread', pullVariation: 0.2 } as const
    expect(screwShare({ pullN: 600, acrossN: 400 }, hold)).toBeCloseTo(1, 9)
    expect(screwShare({ pullN: -600, acrossN: 400 }, hold)).toBeCloseTo(0.8, 9)
  })
})
