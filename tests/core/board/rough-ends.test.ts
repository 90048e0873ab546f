import { describe, expect, it } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { blankNeedsFromModel } from '#lib/core/board/demand'
import { roughShape } from '#lib/core/board/rough-ends'
import { rowOf } from '#lib/core/cutting/rows'
import { designs } from '#lib/core/design/designs/registry'
import type { EndCut, Part } from '#lib/core/design/model'

const RAD = Math.PI / 180

/** A part 100 wide whose ends turn from square by these angles; its longest extent is `lengthMm`. */
function part(lengthMm: number, mitreADeg: number, mitreBDeg: number, bevelDeg = 0): Part {
  const turn = (deg: number) => Math.tan(deg * RAD) * 100
  const cut = (end: 'endA' | 'endB', deg: number): EndCut => {
    const sign = end === 'endA' ? -1 : 1
    const [c, s, t] = [Math.cos(deg * RAD), Math.sin(deg * RAD), Math.sin(bevelDeg * RAD)]
    // Lean of the end over the width is -100 tan(mitre); the end touches the blank's end at its outer corner.
    const lean = -turn(deg)
    const nearX = end === 'endA' ? Math.max(0, -lean) : Math.min(lengthMm, lengthMm - lean)
    return {
      kind: 'endCut',
      id: end,
      end,
      point: [nearX, 0, 0],
      normal: [sign * c, sign * s, t],
      mitreRad: deg * RAD,
      bevelRad: bevelDeg * RAD,
    }
  }
  return {
    id: 'p',
    name: 'leg',
    kind: 'leg',
    blank: { lengthMm, widthMm: 100, thicknessMm: 20 },
    operations: [cut('endA', mitreADeg), cut('endB', mitreBDeg)],
    faces: { endA: 'hidden', endB: 'hidden', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
    frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  }
}
const NONE = { lengthUm: 0, widthUm: 0 }
/** tan = 0.2: 20 mm over a width of 100. */
const FIFTH = Math.atan(0.2) / RAD

describe('the rough shape of leaning ends', () => {
  it('parallelogram: equal mitres lean alike; 420 around, 400 along either edge (by hand)', () => {
    expect(roughShape(part(420, -FIFTH, -FIFTH), NONE)).toEqual({
      lengthUm: 420_000,
      ends: { nearUm: 400_000, leanAUm: 20_000, leanBUm: 20_000 },
    })
  })
  it('trapezium: mitres of unlike sign; long edge 440, short edge 400', () => {
    const { nearUm, leanAUm, leanBUm } = roughShape(part(440, -FIFTH, FIFTH), NONE)?.ends ?? {
      nearUm: 0,
      leanAUm: 0,
      leanBUm: 0,
    }
    expect([nearUm, nearUm + leanBUm - leanAUm]).toEqual([440_000, 400_000])
  })
  it('allowances: 2 mm on the length, 3 mm on the width lengthen the slant by 0.6 (3 x 0.2)', () => {
    const shape = roughShape(part(420, -FIFTH, -FIFTH), DEFAULT_ALLOWANCES)
    // The blank stays 420 + 2; its slant is 20.6, so 401.4 is left along the edges: 1.4 of the 2 mm.
    expect(shape).toEqual({ lengthUm: 422_000, ends: { nearUm: 401_400, leanAUm: 20_600, leanBUm: 20_600 } })
  })
  it('at 45 degrees the blank grows: 1 mm of allowance is always left', () => {
    const shape = roughShape(part(500, 45, 45), DEFAULT_ALLOWANCES)
    // Mid-length 400 + 1; slant 103.
    expect(shape?.lengthUm).toBe(401_000 + 103_000)
  })
  it('square ends, and ends under a tilted blade, have none', () => {
    expect(roughShape(part(420, 0, 0), DEFAULT_ALLOWANCES)).toBeNull()
    expect(roughShape(part(420, -FIFTH, -FIFTH, 6), DEFAULT_ALLOWANCES)).toBeNull()
  })
  it('every finished part of every design lies within its rough shape', () => {
    let judged = 0
    for (const design of designs) {
      const model = design.build(Object.fromEntries(design.parameters.map((p) => [p.id, p.default])))
      if (!model.ok) throw new Error(design.id)
      const byId = new Map(model.value.parts.map((p) => [p.id, p]))
      for (const need of blankNeedsFromModel(model.value, DEFAULT_ALLOWANCES)) {
        if (need.ends === undefined) continue
        const { nearUm, leanAUm, leanBUm } = need.ends
        const finished = roughShape(byId.get(need.partIds[0]) as Part, NONE)
        if (finished === null) throw new Error(need.id)
        // Same slopes; mid-length longer by 1 to 2 mm, so that either end keeps half of that.
        const mid = nearUm + (leanBUm - leanAUm) / 2
        const finishedMid = finished.ends.nearUm + (finished.ends.leanBUm - finished.ends.leanAUm) / 2
        expect(mid - finishedMid).toBeGreaterThanOrEqual(999)
        expect(mid - finishedMid).toBeLessThanOrEqual(2_001)
        expect(leanAUm / need.roughWidthUm).toBeCloseTo(finished.ends.leanAUm / need.finishedWidthUm, 4)
        expect(
          rowOf({ lengthUm: need.roughLengthUm, widthUm: need.roughWidthUm, ends: need.ends }, 1, 0).lengthUm,
        ).toBeLessThanOrEqual(need.roughLengthUm)
        judged++
      }
    }
    expect(judged).toBeGreaterThan(8)
  })
})
