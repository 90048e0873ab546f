import { describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { type FinishPlan, type FinishRegion, usualCoating, usualPlan } from '#lib/core/finish/finish-plan'
import { COAT_KINDS, M2_PER_L_OF_SQFT_PER_GAL, productOf } from '#lib/core/finish/products'
import { finishNeed, hoursFor, litresFor } from '#lib/core/finish/quantities'
import { boards, FLAT_MM2, UPRIGHT_MM2 } from './boards'

const region = (id: string, more: Partial<FinishRegion>): FinishRegion => ({
  id,
  name: id,
  kinds: [],
  faces: [],
  roles: [],
  coating: usualCoating('paint', '#ffffff'),
  ...more,
})
const need = (plan: FinishPlan, glued = false) => finishNeed(boards(glued), plan)
const COVERED = 300 * 30

describe('areas by hand', () => {
  test('together: both boards less where they touch', () => {
    const plan: FinishPlan = { when: 'together', regions: [region('all', {})] }
    const { regions, bareMm2, maskingMm } = need(plan)
    expect(regions[0].areaMm2).toBeCloseTo(FLAT_MM2 + UPRIGHT_MM2 - 2 * COVERED, 4)
    expect(regions[0].coveredMm2).toBeCloseTo(2 * COVERED, 4)
    expect(bareMm2).toBe(0)
    expect(maskingMm).toBe(0)
  })

  test('apart and only screwed: all of it', () => {
    const plan: FinishPlan = { when: 'apart', regions: [region('all', {})] }
    expect(need(plan).regions[0].areaMm2).toBeCloseTo(FLAT_MM2 + UPRIGHT_MM2, 4)
  })

  test('apart and glued: glue faces left out, their borders masked on both boards', () => {
    const plan: FinishPlan = { when: 'apart', regions: [region('all', {})] }
    const { regions, maskingMm } = need(plan, true)
    expect(regions[0].areaMm2).toBeCloseTo(FLAT_MM2 + UPRIGHT_MM2 - 2 * COVERED, 4)
    expect(maskingMm).toBeCloseTo(2 * 660, 4)
  })

  test('two finishes on two boards: a line round where they touch', () => {
    const oil = region('oil', { kinds: ['board'], coating: usualCoating('oil') })
    const { regions, maskingMm } = need({ when: 'together', regions: [oil, region('rest', {})] })
    expect(maskingMm).toBeCloseTo(660, 4)
    expect(regions.find((r) => r.region.id === 'oil')!.areaMm2).toBeCloseTo(FLAT_MM2 - COVERED, 4)
  })

  test('a top of another colour: a line along its four edges', () => {
    const top = region('top', {
      kinds: ['board'],
      faces: ['faceA'],
      coating: usualCoating('paint', '#000000'),
    })
    const rest = region('rest', { kinds: ['board'] })
    const alone = { ...boards(), parts: boards().parts.slice(0, 1), joints: [] }
    const { regions, maskingMm } = finishNeed(alone, { when: 'together', regions: [top, rest] })
    expect(maskingMm).toBeCloseTo(2 * (400 + 100), 4)
    expect(regions.map((r) => r.areaMm2).sort((a, b) => a - b)).toEqual([
      expect.closeTo(40_000, 4),
      expect.closeTo(FLAT_MM2 - 40_000, 4),
    ])
  })

  test('what no region takes stays bare', () => {
    const plan: FinishPlan = { when: 'together', regions: [region('rails', { kinds: ['rail'] })] }
    expect(need(plan).bareMm2).toBeCloseTo(FLAT_MM2 - COVERED, 4)
  })
})

describe('product', () => {
  // 1 sq ft a US gallon: 0.092903 m2 over 3.785412 l.
  test('feet and gallons', () => expect(M2_PER_L_OF_SQFT_PER_GAL).toBeCloseTo(0.092_903 / 3.785_412, 5))
  // Makers' sheets: paint 350 to 400 sq ft a gallon, stain 200 to 600, varnish 400 to 500.
  test.each([
    ['paint', 350, 400],
    ['stain', 200, 600],
    ['varnish', 400, 500],
  ] as const)('%s goes as far as its makers say', (kind, low, high) => {
    const sqftPerGal = productOf(kind).spreadM2PerL / M2_PER_L_OF_SQFT_PER_GAL
    expect(sqftPerGal).toBeGreaterThanOrEqual(low)
    expect(sqftPerGal).toBeLessThanOrEqual(high)
  })
  // A gallon of 400 sq ft on 400 sq ft: one gallon, and a tenth that stays in the brush.
  test('a gallon for what a gallon covers', () => {
    const areaMm2 = 400 * 92_903
    const litres = litresFor(areaMm2, {
      ...usualCoating('paint'),
      coats: 1,
      spreadM2PerL: 400 * M2_PER_L_OF_SQFT_PER_GAL,
    })
    expect(litres).toBeCloseTo(3.7854 * 1.1, 3)
  })
  test('nothing for what stays bare', () => {
    expect(litresFor(1e6, { ...usualCoating('bare'), coats: 3 })).toBe(0)
    expect(hoursFor({ ...usualCoating('bare'), coats: 3, recoatHours: 4 })).toBe(0)
  })
  test('three coats at six hours: eighteen hours', () => expect(hoursFor(usualCoating('varnish'))).toBe(18))
})

describe('the order', () => {
  test('stain before paint before wax', () => {
    const regions = (['wax', 'paint', 'stain'] as const).map((kind, i) =>
      region(kind, {
        coating: usualCoating(kind),
        faces: (['faceA', 'edgeA', 'endA'] as const).slice(i, i + 1),
      }),
    )
    expect(need({ when: 'together', regions }).regions.map((r) => r.region.id)).toEqual([
      'stain',
      'paint',
      'wax',
    ])
  })
  test('undersides before what is seen', () => {
    const top = region('top', { faces: ['faceA'], kinds: ['board'] })
    const under = region('under', { faces: ['faceB'], kinds: ['board'] })
    expect(need({ when: 'together', regions: [top, under] }).regions.map((r) => r.region.id)).toEqual([
      'under',
      'top',
    ])
  })
})

describe.each(designs)('$name', (design) => {
  test.each(['clear', 'paint'])(
    'the usual plan, %s: regions and what stays bare make up all that can be reached',
    (finish) => {
      const built = design.build({ finish })
      if (!built.ok) throw new Error('must build')
      const plan = usualPlan(built.value)
      const { regions, bareMm2 } = finishNeed(built.value, plan)
      const bare = finishNeed(built.value, { when: 'together', regions: [] })
      expect(bareMm2 + regions.reduce((sum, r) => sum + r.areaMm2, 0)).toBeCloseTo(bare.bareMm2, 2)
      expect(regions.length).toBeGreaterThan(0)
      for (const r of regions) expect(r.litres).toBeGreaterThan(0)
    },
  )
})

test('every kind of finish has a product', () =>
  expect(COAT_KINDS.map((kind) => productOf(kind).kind)).toEqual([...COAT_KINDS]))
