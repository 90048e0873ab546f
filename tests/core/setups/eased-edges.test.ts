/** Tapers, eased edges and engraving as steps: settings by hand, and what the independent check says to wrong ones. */
import { describe, expect, it } from 'vitest'
import type { Operation, Part } from '#lib/core/design/model'
import { engravingSeconds } from '#lib/core/setups/engraving-steps'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { part } from './small-work'

/** One board that is one blank for one part. */
function inputFor(one: Part): SetupInput {
  const { lengthMm, widthMm, thicknessMm } = one.blank
  const spot = { xUm: 0, yUm: 0, lengthUm: lengthMm * 1000, widthUm: widthMm * 1000 }
  const { lengthUm, widthUm } = spot
  return {
    model: { parts: [one] },
    layouts: [{ board: 0, copies: 1, tree: { kind: 'blank', ...spot, blank: 0, turned: false } }],
    boards: [{ id: 'b', name: 'Board', lengthUm, widthUm, thicknessUm: thicknessMm * 1000 }],
    blanks: [{ id: 'leg', name: 'leg' }],
    needs: [{ blank: 0, partIds: [one.id] }],
    shop: DEFAULT_SETUP_SHOP,
  }
}
const plannedFor = (
  operations: readonly Operation[],
  size: readonly [number, number, number] = [450, 45, 45],
) => {
  const input = inputFor(part('leg', ...size, operations))
  const plan = planSetups(input)
  expect(verifySetups(input, plan)).toEqual([])
  return { input, plan }
}
const taper = (face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB', depthMm = 10): Operation => ({
  kind: 'taper',
  id: `taper-${face}`,
  face,
  end: 'endA',
  lengthMm: 300,
  depthMm,
})

describe('tapers', () => {
  it('of two neighbouring faces share one setting of the jig: 45 to 35 mm, 1.909° (atan 10/300)', () => {
    const { plan } = plannedFor([taper('edgeA'), taper('faceA')])
    const [setup, ...more] = plan.setups.filter(({ kind }) => kind === 'taper')
    expect(more).toEqual([])
    expect(setup.cuts).toHaveLength(2)
    expect(setup.settings).toMatchObject({ guide: 'taperJig', jigWideMm: 45, jigSlimMm: 35, bladeTiltRad: 0 })
    expect(((setup.settings.jigRad ?? 0) * 180) / Math.PI).toBeCloseTo(1.9092, 4)
    expect(setup.title).toBe('Taper 1.9°: jig from 45 mm to 35 mm')
  })

  it('of all four faces need a second one: the faces opposite bear on a slope, 42 to 25 mm if they begin 210 mm up', () => {
    const four = [taper('edgeA'), taper('faceA'), taper('edgeB'), taper('faceB')]
    const jigs = plannedFor(four).plan.setups.filter(({ kind }) => kind === 'taper')
    expect(jigs.map(({ settings: s }) => [s.jigWideMm, s.jigSlimMm])).toEqual([
      [45, 35],
      [45, 25],
    ])
    const shorter = plannedFor([taper('edgeA'), { ...taper('edgeB'), lengthMm: 210 } as Operation])
    const [, second] = shorter.plan.setups.filter(({ kind }) => kind === 'taper')
    // 210 mm up, the first taper has taken 10 × (1 − 210/300) = 3 mm.
    expect(second.settings.jigWideMm).toBeCloseTo(42, 9)
    expect(second.settings.jigSlimMm).toBeCloseTo(25, 9)
  })

  it('come after notches and holes, before edges are eased, and say when the saw cannot reach', () => {
    const notch: Operation = {
      kind: 'notch',
      id: 'n',
      face: 'faceA',
      alongMm: 380,
      widthMm: 20,
      depthMm: 10,
      skewRad: 0,
    }
    const round: Operation = { kind: 'roundOver', id: 'r', between: ['faceA', 'edgeA'], radiusMm: 3 }
    const { plan } = plannedFor([round, taper('edgeA'), notch])
    expect(plan.setups.flatMap(({ cuts }) => cuts.map(({ kind }) => kind))).toEqual([
      'notch',
      'taper',
      'roundOver',
    ])
    const thick = plannedFor([taper('edgeA')], [450, 100, 90]).plan
    expect(thick.warnings.map(({ code }) => code)).toContain('bladeTooLow')
  })
})

describe('chamfers and engraving', () => {
  it('a chamfer of 4 mm: the 45° bit 4 mm high, three passes (half of it at most, the last 0.5 mm)', () => {
    const { plan } = plannedFor([{ kind: 'chamfer', id: 'c', between: ['faceA', 'endB'], widthMm: 4 }])
    const [setup] = plan.setups
    expect(setup.settings).toMatchObject({ bit: 'chamfer 45°', bitMm: 4, depthMm: 4, passDepthMm: 2 })
    expect(setup.cuts[0].passes).toBe(3)
    expect(setup.cuts[0].note).not.toContain('block plane')
    const sloping = plannedFor([
      taper('edgeA', 40),
      { kind: 'chamfer', id: 'c', between: ['edgeA', 'endA'], widthMm: 4 },
    ])
    expect(sloping.plan.setups.at(-1)?.cuts[0].note).toContain('block plane')
  })

  // rows × (w/v + 2v/a), constant acceleration at both ends of a line: 100 × 50 mm at 0.1 mm, 300 mm/s, 3000 mm/s².
  it('a field of 100 × 50 mm takes 266.67 s a pass, 1 mm of depth three of them', () => {
    const shop = { lineMm: 0.1, speedMmPerS: 300, accelMmPerS2: 3000, passDepthMm: 0.4 }
    expect(engravingSeconds({ lengthMm: 100, widthMm: 50 }, shop)).toBeCloseTo(266.67, 2)
    const field: Operation = {
      kind: 'engravedField',
      id: 'name',
      face: 'faceA',
      alongMm: 200,
      acrossMm: -4,
      lengthMm: 100,
      widthMm: 25,
      depthMm: 1,
    }
    const { plan } = plannedFor([field])
    const [setup] = plan.setups
    expect(setup.station).toBe('laserEngraver')
    expect(setup.cuts[0].passes).toBe(3)
    expect(setup.cuts[0].seconds).toBeCloseTo(12 + 3 * 133.33, 1)
    expect(setup.cuts[0].note).toContain('4 mm off the middle line towards edge A')
    expect(setup.cautions.join(' ')).toContain('treated wood')
  })
})
