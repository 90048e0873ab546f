import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Board, Defect } from '#lib/core/board/board'
import { cuttingRecord, defectsOnPiece, type PlannedCutting, warpShare } from '#lib/shop/cutting'

const knot: Defect = {
  id: 'd',
  kind: 'knot',
  face: 'A',
  xUm: 480_000,
  yUm: 10_000,
  widthUm: 40_000,
  heightUm: 30_000,
}
const board: Pick<Board, 'lengthUm' | 'widthUm' | 'warp' | 'defects'> = {
  lengthUm: 1_000_000,
  widthUm: 200_000,
  warp: { cupUm: 4_000, bowUm: 8_000, crookUm: 2_000, twistUm: 6_000 },
  defects: [knot],
}
const planned: PlannedCutting = {
  boardId: 'b',
  parts: [{ partId: 'leg', needId: 'leg', xUm: 0, yUm: 0, lengthUm: 496_000, widthUm: 200_000 }],
  offcuts: [{ xUm: 499_200, yUm: 0, lengthUm: 500_800, widthUm: 200_000 }],
}

describe('the share of a piece', () => {
  // Rise of an arc over a chord c on radius R is about c^2/8R (plane geometry): half the chord, a quarter of the rise.
  test('half the length: a quarter of bow and crook, half the twist, all of the cup', () => {
    expect(warpShare(board, { lengthUm: 500_000, widthUm: 200_000 })).toEqual({
      cupUm: 4_000,
      bowUm: 2_000,
      crookUm: 500,
      twistUm: 3_000,
    })
  })

  test('a defect that the cut goes through is cut off and shifted', () => {
    expect(defectsOnPiece([knot], planned.offcuts[0])).toEqual([
      { kind: 'knot', face: 'A', xUm: 0, yUm: 10_000, widthUm: 20_800, heightUm: 30_000 },
    ])
    expect(defectsOnPiece([knot], { xUm: 0, yUm: 0, lengthUm: 480_000, widthUm: 200_000 })).toEqual([])
  })

  test('whatever is cut, no damage lies off its piece, and two halves hold all of it', () => {
    const um = (max: number) => fc.integer({ min: 1, max })
    fc.assert(
      fc.property(um(999_999), um(900_000), um(150_000), um(100_000), um(50_000), (at, x, y, w, h) => {
        const d: Defect = { ...knot, xUm: x, yUm: y, widthUm: w, heightUm: h }
        const halves = [
          { xUm: 0, yUm: 0, lengthUm: at, widthUm: 200_000 },
          { xUm: at, yUm: 0, lengthUm: 1_000_000 - at, widthUm: 200_000 },
        ]
        const shares = halves.flatMap((half) => {
          const here = defectsOnPiece([d], half)
          for (const s of here) {
            expect(s.xUm).toBeGreaterThanOrEqual(0)
            expect(s.xUm + s.widthUm).toBeLessThanOrEqual(half.lengthUm)
          }
          return here
        })
        const onBoard = Math.min(x + w, 1_000_000) - x
        expect(shares.reduce((sum, s) => sum + s.widthUm, 0)).toBe(onBoard)
      }),
    )
  })
})

describe('what came out', () => {
  const fieldsOf = (really: Parameters<typeof cuttingRecord>[2]) => {
    const r = cuttingRecord(board, planned, really)
    return r.ok ? r.value : Object.keys(r.error)
  }

  test('as planned', () => {
    const r = fieldsOf({})
    expect(r).toMatchObject({
      parts: [{ partId: 'leg' }],
      offcuts: [{ lengthUm: 500_800, from: { xUm: 499_200 } }],
    })
  })

  test('a larger offcut than planned is moved in, and takes the damage that it then holds', () => {
    const r = fieldsOf({ made: [], offcuts: [{ planned: 0, lengthUm: 900_000, widthUm: 200_000 }] })
    expect(r).toMatchObject({
      parts: [],
      offcuts: [{ from: { xUm: 100_000 }, defects: [{ xUm: 380_000, widthUm: 40_000 }] }],
    })
  })

  test('a rest that was not planned has no damage mapped', () => {
    expect(fieldsOf({ offcuts: [{ planned: null, lengthUm: 100_000, widthUm: 50_000 }] })).toMatchObject({
      offcuts: [{ from: null, defects: [] }],
    })
  })

  test('more than the board had, longer than it, too small to keep', () => {
    const size = { planned: 0, lengthUm: 500_000, widthUm: 200_000 }
    expect(fieldsOf({ offcuts: [size, { ...size, planned: null }] })).toEqual(['offcuts'])
    expect(fieldsOf({ offcuts: [{ ...size, lengthUm: 1_000_001 }] })).toEqual(['offcuts.0.lengthUm'])
    expect(fieldsOf({ offcuts: [{ ...size, widthUm: 1 }] })).toEqual(['offcuts.0.widthUm'])
    expect(fieldsOf({ made: ['seat'] })).toEqual(['made'])
  })
})
