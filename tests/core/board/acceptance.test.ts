import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  ACCEPTANCE,
  blockingDefects,
  blocksEveryPart,
  defectZone,
  isAccepted,
  MARGINS_UM,
} from '#lib/core/board/acceptance'
import { DEFECT_KINDS, type DefectKind } from '#lib/core/board/board'
import { freePlacements, type Zone } from '#lib/core/board/free-placements'
import type { FaceRole } from '#lib/core/design/model'
import { defect, soundBoard } from './boards'

const need = (faceA: FaceRole, faceB: FaceRole, finishedWidthUm = 60_000) => ({
  faces: { endA: 'hidden', endB: 'hidden', edgeA: 'show', edgeB: 'show', faceA, faceB } as const,
  finishedWidthUm,
})

const on = (kind: DefectKind, face: 'A' | 'B' | 'through', sizeUm = 4_000) =>
  defect({ kind, face, widthUm: sizeUm, heightUm: sizeUm })

describe('acceptance', () => {
  // Common practice of furniture repair; one row a kind: show, paint, hidden at 4 mm.
  it.each<[DefectKind, boolean, boolean, boolean]>([
    ['nailHole', false, true, true],
    ['hole', false, true, true],
    ['knot', false, true, true],
    ['stain', false, true, true],
    ['crack', false, false, false],
    ['rot', false, false, false],
    ['wane', false, false, false],
    ['metal', false, false, false],
  ])('%s: show %s, paint %s, hidden %s', (kind, show, paint, hidden) => {
    const verdicts = (['show', 'paint', 'hidden'] as const).map((role) =>
      isAccepted(on(kind, 'A'), need(role, role), 'aUp'),
    )
    expect(verdicts).toEqual([show, paint, hidden])
    expect(blocksEveryPart(kind)).toBe(!hidden)
  })

  it('has a verdict and a margin for every kind', () => {
    expect(Object.keys(ACCEPTANCE).sort()).toEqual([...DEFECT_KINDS].sort())
    expect(Object.keys(MARGINS_UM).sort()).toEqual([...DEFECT_KINDS].sort())
  })

  it('fills a hole of 6 mm under paint, no larger; hides one of 20 mm', () => {
    const wide = (role: FaceRole) => need(role, role, 200_000)
    expect(isAccepted(on('hole', 'A', 6_000), wide('paint'), 'aUp')).toBe(true)
    expect(isAccepted(on('hole', 'A', 6_001), wide('paint'), 'aUp')).toBe(false)
    expect(isAccepted(on('hole', 'A', 20_000), wide('hidden'), 'aUp')).toBe(true)
    expect(isAccepted(on('hole', 'A', 20_001), wide('hidden'), 'aUp')).toBe(false)
  })

  it('lets a knot or hole take a quarter of the width, no more', () => {
    expect(isAccepted(on('knot', 'A', 15_000), need('paint', 'paint'), 'aUp')).toBe(true)
    expect(isAccepted(on('knot', 'A', 15_001), need('paint', 'paint'), 'aUp')).toBe(false)
  })

  it('judges a defect by the face that comes to lie on it', () => {
    const leg = need('show', 'hidden')
    expect(isAccepted(on('nailHole', 'A'), leg, 'aUp')).toBe(false)
    expect(isAccepted(on('nailHole', 'A'), leg, 'bUp')).toBe(true)
    expect(isAccepted(on('nailHole', 'B'), leg, 'aUp')).toBe(true)
    expect(isAccepted(on('nailHole', 'B'), leg, 'bUp')).toBe(false)
    for (const up of ['aUp', 'bUp'] as const)
      expect(isAccepted(on('nailHole', 'through'), leg, up)).toBe(false)
  })

  it('turning board and part over together changes nothing', () => {
    let judged = 0
    const roles = fc.constantFrom<FaceRole>('show', 'paint', 'hidden')
    const face = fc.constantFrom('A' as const, 'B' as const, 'through' as const)
    fc.assert(
      fc.property(
        roles,
        roles,
        face,
        fc.constantFrom(...DEFECT_KINDS),
        fc.integer({ min: 1, max: 30_000 }),
        (a, b, side, kind, sizeUm) => {
          const turned = side === 'A' ? 'B' : side === 'B' ? 'A' : 'through'
          const wanted = isAccepted(on(kind, side, sizeUm), need(a, b), 'aUp')
          expect(isAccepted(on(kind, turned, sizeUm), need(a, b), 'bUp')).toBe(wanted)
          expect(isAccepted(on(kind, turned, sizeUm), need(b, a), 'aUp')).toBe(wanted)
          judged++
        },
      ),
    )
    expect(judged).toBeGreaterThan(0)
  })

  it('keeps 25 mm along the grain clear of a crack', () => {
    const crack = { ...on('crack', 'A'), xUm: 50_000, yUm: 40_000, widthUm: 100_000, heightUm: 2_000 }
    expect(defectZone(crack)).toEqual({ xUm: 25_000, yUm: 37_000, lengthUm: 150_000, widthUm: 8_000 })
  })

  it('names what blocks', () => {
    const board = soundBoard({ defects: [on('nailHole', 'A'), { ...on('crack', 'B'), id: 'crack' }] })
    expect(blockingDefects(board, need('paint', 'paint'), 'aUp').map(({ id }) => id)).toEqual(['crack'])
  })
})

describe('freePlacements', () => {
  const overlaps = (x: number, y: number, piece: { lengthUm: number; widthUm: number }, zone: Zone) =>
    x < zone.xUm + zone.lengthUm &&
    x + piece.lengthUm > zone.xUm &&
    y < zone.yUm + zone.widthUm &&
    y + piece.widthUm > zone.yUm

  it('counts what trying every place counts', () => {
    let judged = 0
    const zone = fc.record({
      xUm: fc.integer({ min: 0, max: 11 }),
      yUm: fc.integer({ min: 0, max: 7 }),
      lengthUm: fc.integer({ min: 1, max: 5 }),
      widthUm: fc.integer({ min: 1, max: 5 }),
    })
    const piece = fc.record({
      lengthUm: fc.integer({ min: 1, max: 13 }),
      widthUm: fc.integer({ min: 1, max: 9 }),
    })
    fc.assert(
      fc.property(piece, fc.array(zone, { maxLength: 6 }), (size, zones) => {
        const board = { lengthUm: 12, widthUm: 8 }
        let places = 0
        for (let x = 0; x + size.lengthUm <= board.lengthUm; x++)
          for (let y = 0; y + size.widthUm <= board.widthUm; y++)
            if (!zones.some((each) => overlaps(x, y, size, each))) places++
        expect(freePlacements(board, size, zones)).toBe(places)
        judged++
      }),
      { numRuns: 500 },
    )
    expect(judged).toBeGreaterThan(0)
  })

  it('fits exactly, and not by a micrometre less', () => {
    const board = { lengthUm: 1_000_000, widthUm: 100_000 }
    expect(freePlacements(board, board, [])).toBe(1)
    expect(freePlacements(board, { lengthUm: 1_000_001, widthUm: 1 }, [])).toBe(0)
    const zone = { xUm: 400_000, yUm: 0, lengthUm: 100_000, widthUm: 1 }
    expect(freePlacements(board, { lengthUm: 500_000, widthUm: 100_000 }, [zone])).toBe(1)
  })
})
