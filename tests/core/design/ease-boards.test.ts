/** Edges of boards: which are rounded, and what the piece weighs afterwards. */
import { describe, expect, it } from 'vitest'
import { bench } from '#lib/core/design/designs/bench/bench'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { sideTable } from '#lib/core/design/designs/side-table/side-table'
import { splayedStool } from '#lib/core/design/designs/splayed-stool/splayed-stool'
import type { Model } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const rounds = (model: Model, id: string): string[] =>
  partOf(model, id).operations.flatMap((op) => (op.kind === 'roundOver' ? [op.between[1]] : []))

describe('rounded edges', () => {
  it('go round every seat board where there are gaps, round the whole seat where the boards touch', () => {
    const open = modelOf(bench, { seatBoards: 3, seatGap: 4, edgeRadius: 4 })
    for (const i of [1, 2, 3]) expect(rounds(open, `seat-${i}`)).toHaveLength(4)
    const shut = modelOf(bench, { seatBoards: 3, seatGap: 0, edgeRadius: 4 })
    expect(rounds(shut, 'seat-1')).toEqual(['endA', 'endB', 'edgeA'])
    expect(rounds(shut, 'seat-2')).toEqual(['endA', 'endB'])
    expect(rounds(shut, 'seat-3')).toEqual(['endA', 'endB', 'edgeB'])
  })

  it('at nought leave the wood alone; at 4 mm take r²(1 − π/4) off each edge, corners counted once', () => {
    const sharp = partOf(modelOf(bench, { edgeRadius: 0 }), 'seat-1')
    expect(sharp.operations.every((op) => op.kind === 'hole')).toBe(true)
    const eased = partOf(modelOf(bench, { edgeRadius: 4 }), 'seat-1')
    const { lengthMm, widthMm } = eased.blank
    const taken = massProperties(sharp).volumeMm3 - massProperties(eased).volumeMm3
    const along = 16 * (1 - Math.PI / 4) * 2 * (lengthMm + widthMm)
    // In each of four corners the two rounds share wood: the square less both sections, some r³ / 12.
    expect(taken).toBeLessThan(along)
    expect(taken).toBeGreaterThan(along - 4 * 64 * 0.12)
  })

  it('are refused by name on boards too thin for them, in every design that has them', () => {
    expect(refusedFor(bench, { seatThickness: 15, edgeRadius: 8 })).toEqual(['edgeRadius'])
    expect(refusedFor(splayedStool, { seatThickness: 15, edgeRadius: 8 })).toContain('edgeRadius')
    expect(refusedFor(counterSeat, { seatBoardThickness: 15, edgeRadius: 8 })).toContain('edgeRadius')
    expect(rounds(modelOf(counterSeat, { edgeRadius: 3 }), 'seat1-board-1')).toHaveLength(4)
  })
})

describe('tapered legs of the side table', () => {
  it('weigh a wedge less each: length × taper × thickness / 2, eight of them (oak 705.6 kg/m³)', () => {
    const [plain, slim] = [0, 24].map((legTaper) => modelOf(sideTable, { species: 'redOak', legTaper }))
    const fromMm = figureOf(slim, 'taperFrom')
    expect(fromMm).toBe(500 - 20 - 75 - 15)
    expect(figureOf(slim, 'footWidth')).toBe(85 - 24)
    const wedges = 8 * ((fromMm * 24 * 19) / 2)
    expect(figureOf(plain, 'weight') - figureOf(slim, 'weight')).toBeCloseTo(wedges * 705.6e-9, 9)
  })

  it('keep 20 mm of each board at the floor, or are refused', () => {
    expect(refusedFor(sideTable, { legTaper: 46 })).toEqual([])
    expect(refusedFor(sideTable, { legTaper: 47 })).toEqual(['legTaper'])
  })
})
