/** Random and written-out cutting problems for the tests of this folder. Sizes in mm unless named. */
import fc from 'fast-check'
import type { CutBlank, CutBoard, CutProblem } from '#lib/core/cutting/problem'

export const MM = 1000

export const board = (lengthMm: number, widthMm: number, more: Partial<CutBoard> = {}): CutBoard => ({
  id: `b${lengthMm}x${widthMm}`,
  lengthUm: Math.round(lengthMm * MM),
  widthUm: Math.round(widthMm * MM),
  cost: lengthMm * widthMm,
  ...more,
})

export const blank = (
  lengthMm: number,
  widthMm: number,
  demand: number | null,
  more: Partial<CutBlank> = {},
): CutBlank => ({
  id: `p${lengthMm}x${widthMm}`,
  lengthUm: Math.round(lengthMm * MM),
  widthUm: Math.round(widthMm * MM),
  demand,
  grain: 'along',
  weight: 1,
  ...more,
})

export const shop = (
  boards: readonly CutBoard[],
  blanks: readonly CutBlank[],
  more: Partial<CutProblem> = {},
): CutProblem => ({
  kerfUm: 3200,
  boards,
  blanks,
  zones: [],
  limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
  offcut: { minLengthUm: 150 * MM, minWidthUm: 40 * MM },
  objective: 'parts',
  ...more,
})

/** The problem seen from the other end of every board, and from its other edge. */
export function mirrored(p: CutProblem, axis: 'x' | 'y'): CutProblem {
  return {
    ...p,
    zones: p.zones.map((z) => {
      const b = p.boards[z.board]
      return axis === 'x'
        ? { ...z, xUm: Math.max(0, b.lengthUm - z.xUm - z.lengthUm) }
        : { ...z, yUm: Math.max(0, b.widthUm - z.yUm - z.widthUm) }
    }),
  }
}

const limitsArb = fc.record(
  {
    maxRipWidthUm: fc.integer({ min: 4, max: 40 }),
    maxCrosscutWidthUm: fc.integer({ min: 6, max: 40 }),
    minPieceLengthUm: fc.integer({ min: 0, max: 6 }),
    minPieceWidthUm: fc.integer({ min: 0, max: 4 }),
    stages: fc.option(fc.integer({ min: 0, max: 4 })),
  },
  { requiredKeys: ['minPieceLengthUm', 'minPieceWidthUm', 'stages'] },
)

/** Small shops in whole micrometres, every feature of the problem used now and then. */
export const shopArb: fc.Arbitrary<CutProblem> = fc
  .record({
    kerfUm: fc.integer({ min: 0, max: 3 }),
    boards: fc.array(
      fc.record({
        lengthUm: fc.integer({ min: 5, max: 40 }),
        widthUm: fc.integer({ min: 4, max: 30 }),
        cost: fc.integer({ min: 0, max: 50 }),
        count: fc.constantFrom(1, 1, 1, 2, 3),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    blanks: fc.array(
      fc.record({
        lengthUm: fc.integer({ min: 2, max: 25 }),
        widthUm: fc.integer({ min: 2, max: 20 }),
        demand: fc.option(fc.integer({ min: 0, max: 4 }), { freq: 12 }),
        grain: fc.constantFrom('along' as const, 'free' as const),
        weight: fc.constantFrom(1, 1, 1, 2, 5, 0.5),
        pick: fc.option(fc.array(fc.nat(4), { minLength: 1, maxLength: 3 }), { freq: 3 }),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    zones: fc.array(
      fc.record({
        board: fc.nat(4),
        xUm: fc.integer({ min: 0, max: 45 }),
        yUm: fc.integer({ min: 0, max: 32 }),
        lengthUm: fc.integer({ min: 0, max: 12 }),
        widthUm: fc.integer({ min: 0, max: 12 }),
        all: fc.boolean(),
        some: fc.array(fc.nat(5), { maxLength: 3 }),
      }),
      { maxLength: 4 },
    ),
    limits: fc.oneof(
      { weight: 2, arbitrary: fc.constant({ minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null }) },
      { weight: 1, arbitrary: limitsArb },
    ),
    offcut: fc.record({ minLengthUm: fc.nat(6), minWidthUm: fc.nat(6) }),
    objective: fc.constantFrom(
      'parts' as const,
      'maxValue' as const,
      'minCost' as const,
      'minBoards' as const,
    ),
  })
  .map((s) => ({
    ...s,
    boards: s.boards.map((b, i) => ({ ...b, id: `b${i}` })),
    blanks: s.blanks.map(({ pick, ...b }, i) => ({
      ...b,
      id: `p${i}`,
      ...(pick === null ? {} : { boards: [...new Set(pick.map((k) => k % s.boards.length))] }),
    })),
    zones: s.zones.map(({ all, some, ...z }) => ({
      ...z,
      board: z.board % s.boards.length,
      blocks: all ? ('all' as const) : [...new Set(some.map((k) => k % s.blanks.length))],
    })),
  }))
