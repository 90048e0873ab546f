import { describe, expect, it } from 'vitest'
import {
  abreastLine,
  legsSuited,
  noticesOfFit,
  placesAbreast,
  reachLine,
  type SeatSizes,
  seatLines,
  tableLines,
  wayInLines,
} from '#lib/core/design/fit/fit-lines'

const seat = (seatMm: number, more: Partial<SeatSizes> = {}): SeatSizes => ({
  seatMm,
  feetOn: 'the floor',
  depthMm: 380,
  widthMm: 400,
  parameters: { height: 'height', depth: 'depth', width: 'width' },
  ...more,
})
const any = { shoesMm: 25 }

describe('seats', () => {
  it('of 430 to 460 mm suit most adults; one of 350 or 550 mm hardly any', () => {
    const [height] = seatLines(seat(440), any)
    expect(height.level).toBe('good')
    expect(height.lowMm).toBeGreaterThanOrEqual(400)
    expect(height.highMm).toBeLessThanOrEqual(480)
    expect(legsSuited(440, 25)).toBeGreaterThan(0.7)
    expect(seatLines(seat(350), any)[0]).toMatchObject({ level: 'caution' })
    expect(seatLines(seat(550), any)[0]).toMatchObject({ level: 'caution', parameter: 'height' })
  })

  it('for one measured person are judged by that knee: 380 and 25 of shoe want 345 to 445 mm', () => {
    const [height] = seatLines(seat(460), { shoesMm: 25, poplitealMm: 380 })
    expect([height.lowMm, height.highMm]).toEqual([345, 445])
    expect(height.level).toBe('note')
  })

  it('leave 50 mm before a small woman’s knee (435 mm, from memory: 381 to 386), and room for a man’s hips', () => {
    const [, depth, width] = seatLines(seat(440), any)
    expect(depth.highMm).toBeGreaterThanOrEqual(380)
    expect(depth.highMm).toBeLessThanOrEqual(386)
    expect(depth.share).toBeGreaterThan(0.95)
    expect(width.lowMm).toBe(360)
    const deep = seatLines(seat(440, { depthMm: 480 }), any)[1]
    expect(deep.level).toBe('caution')
    expect(deep.share).toBeLessThan(0.25)
  })
})

describe('tables over seats', () => {
  const parameters = { room: 'apron', height: 'height' }
  it('a table of 740 mm with a 450 mm chair suits elbows; an apron 550 mm above the floor pinches thighs', () => {
    const lines = tableLines({ seatMm: 450, topMm: 740, undersideMm: 710, parameters })
    expect(lines.map(({ level }) => level)).toEqual(['good', 'good'])
    // Nine tenths of adults have thighs up to 178 mm thick (men 160 ± 15, women 155 ± 17), and 10 mm.
    expect(lines[0].lowMm).toBe(190)
    const low = tableLines({ seatMm: 450, topMm: 740, undersideMm: 550, parameters })
    expect(low[0]).toMatchObject({ level: 'caution', valueMm: 100 })
  })
})

describe('a row of people', () => {
  // 96 in / 24 in = 4, though 2438 mm / 610 mm = 3.997.
  it('counts places at 609.6 mm exactly', () => {
    expect(placesAbreast(2438.4)).toBe(4)
    expect(placesAbreast(2438)).toBe(3)
    expect(placesAbreast(609.6)).toBe(1)
    expect(abreastLine(1219.2, 'length')).toMatchObject({ valueMm: 609.6, level: 'good' })
    expect(abreastLine(1100, 'abreast', 2)).toMatchObject({ valueMm: 550, level: 'note' })
  })
})

describe('reach and the way in', () => {
  it('a shelf at 1780 mm is within reach of nearly all, one at 2200 mm of few', () => {
    expect(reachLine('Shelf', 1780, 0, 'mountHeight').level).toBe('good')
    expect(reachLine('Shelf', 2200, 0, 'mountHeight')).toMatchObject({
      level: 'caution',
      parameter: 'mountHeight',
    })
  })

  it('says how it passes, and what to do if it does not', () => {
    const door = { widthMm: 750, heightMm: 1970 }
    expect(wayInLines([400, 350, 650], door, 850).map(({ words }) => words)).toEqual([
      'as it stands',
      'as it stands',
    ])
    const [stuck] = noticesOfFit(wayInLines([1800, 900, 800], door, 850))
    expect(stuck).toMatchObject({ level: 'caution', parameter: 'doorWidth' })
    expect(stuck.message).toContain('in the room')
  })
})
