import { expect, test } from 'vitest'
import { cutShop, setupShop } from '#lib/shop/machines'

const shop = { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 }
const none = {
  kerfUm: null,
  maxRipWidthUm: null,
  maxCrosscutWidthUm: null,
  minPieceLengthUm: null,
  minPieceWidthUm: null,
  maxPassUm: null,
}

test('without figures of its own a shop has a full-kerf blade of 1/8 in, 3.2 mm (common practice)', () => {
  expect(cutShop(shop, []).kerfUm).toBe(3_200)
  expect(setupShop([]).tableSaw.kerfMm).toBe(3.2)
})

test("the first table saw's figures go into the cutting and into the set-ups alike", () => {
  const stations = [
    { ...none, kind: 'planer' as const, maxPassUm: 800 },
    { ...none, kind: 'tableSaw' as const, kerfUm: 2_400, maxRipWidthUm: 400_000, minPieceLengthUm: 200_000 },
    { ...none, kind: 'tableSaw' as const, kerfUm: 9_000 },
  ]
  expect(cutShop(shop, stations)).toMatchObject({
    kerfUm: 2_400,
    limits: { maxRipWidthUm: 400_000, minPieceLengthUm: 200_000 },
    allowances: { lengthUm: 2_000, skimPerFaceUm: 500 },
  })
  // A pass moves the piece by no more than the blade's width, or a ridge is left.
  expect(setupShop(stations)).toMatchObject({
    tableSaw: { kerfMm: 2.4, notchStepMm: 2.4, maxRipMm: 400, minHoldMm: 200 },
    planer: { maxPassMm: 0.8 },
  })
})
