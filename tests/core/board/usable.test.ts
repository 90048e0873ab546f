import { describe, expect, it } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { usableRectangle, zoneInUsable } from '#lib/core/board/usable'
import { FLAT, soundBoard } from './boards'

describe('usableRectangle', () => {
  it('trims both ends, but not those of an offcut', () => {
    expect(usableRectangle(soundBoard(), DEFAULT_ALLOWANCES)).toEqual({
      xUm: 10_000,
      yUm: 0,
      lengthUm: 1_980_000,
      widthUm: 200_000,
    })
    const offcut = usableRectangle(soundBoard(), DEFAULT_ALLOWANCES, { areEndsClean: true })
    expect(offcut).toMatchObject({ xUm: 0, lengthUm: 2_000_000 })
  })

  it('loses the crook from the width', () => {
    const board = soundBoard({ warp: { ...FLAT, crookUm: 8_000 } })
    expect(usableRectangle(board, DEFAULT_ALLOWANCES)).toMatchObject({ yUm: 4_000, widthUm: 192_000 })
  })

  it('holds a straight strip of a board bent along an arc, with every defect inside its grown zone', () => {
    // Independent: the board's edges as a parabola of rise c over the length, in the frame of its chord.
    const crookUm = 8_000
    for (const bulge of [1, -1]) {
      const board = soundBoard({ warp: { ...FLAT, crookUm } })
      const usable = usableRectangle(board, DEFAULT_ALLOWANCES)
      const edge = (xUm: number) => {
        const t = (2 * xUm) / board.lengthUm - 1
        return bulge > 0 ? crookUm * (1 - t * t) : crookUm * t * t
      }
      // The strip from the highest point of the lower edge up to the lowest of the upper one.
      const strip = { from: crookUm, to: board.widthUm }
      expect(strip.to - strip.from).toBe(usable.widthUm)
      for (let xUm = 0; xUm <= board.lengthUm; xUm += 100_000) {
        const spot = { xUm, yUm: 90_000, lengthUm: 1_000, widthUm: 4_000 }
        const inStripUm = edge(xUm) + spot.yUm - strip.from
        const zone = zoneInUsable({ ...spot, xUm: 500_000 }, usable, board)
        expect(zone?.yUm).toBeLessThanOrEqual(inStripUm)
        expect((zone?.yUm ?? 0) + (zone?.widthUm ?? 0)).toBeGreaterThanOrEqual(inStripUm + spot.widthUm)
      }
    }
  })

  it('clips zones to what is left', () => {
    const usable = usableRectangle(soundBoard(), DEFAULT_ALLOWANCES)
    const zone = { xUm: -5_000, yUm: 190_000, lengthUm: 35_000, widthUm: 30_000 }
    expect(zoneInUsable(zone, usable, soundBoard())).toEqual({
      xUm: 0,
      yUm: 190_000,
      lengthUm: 20_000,
      widthUm: 10_000,
    })
    expect(zoneInUsable({ ...zone, lengthUm: 15_000 }, usable, soundBoard())).toBeNull()
  })
})
