import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leavesOf, restsOf } from '#lib/core/cutting/offcuts'
import type { CutBlank, CutNode, CutProblem, MachineLimits } from '#lib/core/cutting/problem'
import { kerfAlongUm, leastPitchUm, mayCutRow, rowOf, rowTree, savedByRow } from '#lib/core/cutting/rows'
import { verifyCutPlan } from '#lib/core/cutting/verify'

const LIMITS: MachineLimits = { minPieceLengthUm: 1, minPieceWidthUm: 1, stages: null }

/** 100 wide, leaning 20 (rake of 11.3 degrees): near edge 400, so 420 around it. */
const parallelogram = {
  lengthUm: 420_000,
  widthUm: 100_000,
  ends: { nearUm: 400_000, leanAUm: 20_000, leanBUm: 20_000 },
}
/** Long edge 440, short edge 400, each end leaning 20 in. */
const trapezium = {
  lengthUm: 440_000,
  widthUm: 100_000,
  ends: { nearUm: 440_000, leanAUm: 20_000, leanBUm: -20_000 },
}

/** A plan of one board cut into one row. */
function planOfRow(
  blank: Pick<CutBlank, 'lengthUm' | 'widthUm' | 'ends'>,
  count: number,
  kerfUm: number,
  overUm = 0,
) {
  const row = rowOf(blank, count, kerfUm)
  const board = { lengthUm: row.lengthUm + overUm, widthUm: blank.widthUm }
  const tree = rowTree(row, { xUm: 0, yUm: 0, ...board }, kerfUm, 0)
  const problem: CutProblem = {
    kerfUm,
    boards: [{ id: 'b', ...board, cost: 1 }],
    blanks: [{ id: 'p', ...blank, demand: count, grain: 'along', weight: 1 }],
    zones: [],
    limits: LIMITS,
    offcut: { minLengthUm: 1_000_000, minWidthUm: 1_000_000 },
    objective: 'parts',
  }
  const plan = {
    status: 'feasible' as const,
    layouts: [{ board: 0, copies: 1, tree }],
    weightMade: count,
    weightBound: count,
    cost: 1,
    costBound: 0,
    yield: restsOf(tree).blankAreaUm2 / (board.lengthUm * board.widthUm),
    shortages: [],
    steps: 0,
  }
  return { row, problem, plan, tree }
}

describe('the kerf along the grain', () => {
  it('is kerf / cos of the lean: a 3-4-5 triangle by hand', () => {
    // tan = 75/100, cos = 100/125 = 0.8: 3 mm / 0.8 = 3.75 mm.
    expect(kerfAlongUm(3_000, 100_000, 75_000)).toBe(3_750)
    expect(kerfAlongUm(3_000, 100_000, -75_000)).toBe(3_750)
    expect(kerfAlongUm(3_000, 100_000, 0)).toBe(3_000)
  })
  it('is the least whole number that leaves the saw its width', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 6_000 }),
        fc.integer({ min: 10_000, max: 900_000 }),
        fc.integer({ min: 1, max: 600_000 }),
        (kerf, width, lean) => {
          const along = BigInt(kerfAlongUm(kerf, width, lean))
          const [k, w, l] = [kerf, width, lean].map(BigInt)
          const square = (a: bigint) => a * a * w * w
          expect(square(along) >= k * k * (w * w + l * l)).toBe(true)
          expect(square(along - 1n) < k * k * (w * w + l * l)).toBe(true)
        },
      ),
    )
  })
})

describe('a row of nested parts', () => {
  it('parallelograms: mid-lengths, one slant, kerfs along the grain (sum by hand)', () => {
    // kerf 3 mm, lean 20 on 100: cos = 100/101.98; 3 x 1.0198 = 3.0594, rounded up to 3.060.
    const { lengthUm } = rowOf(parallelogram, 4, 3_000)
    expect(lengthUm).toBe(4 * 400_000 + 20_000 + 3 * 3_060)
    // One by one: 4 x 420 + 3 x 3 = 1689; nested 1629.18: 59.82 saved.
    expect(savedByRow(parallelogram, 4, 3_000)).toBe(59_820)
  })
  it('trapezia alternate: turned half round, the short edge of one lies beside the long edge of the next', () => {
    const { lengthUm, places } = rowOf(trapezium, 3, 3_000)
    // Near edges 440 + 400 + 440, each kerf 3.060: the outer parts' long edges lie near.
    expect(lengthUm).toBe(440_000 + 400_000 + 440_000 + 2 * 3_060)
    expect(places.map((p) => p.nearToUm - p.nearFromUm)).toEqual([440_000, 400_000, 440_000])
    expect(places.map((p) => p.farToUm - p.farFromUm)).toEqual([400_000, 440_000, 400_000])
  })
  it('one leaning end: pairs share it, and their square ends meet the next pair', () => {
    const blank = {
      lengthUm: 420_000,
      widthUm: 100_000,
      ends: { nearUm: 420_000, leanAUm: 0, leanBUm: -20_000 },
    }
    // Near edges 420, 400, 420, 400; kerfs 3.060, 3, 3.060.
    expect(rowOf(blank, 4, 3_000).lengthUm).toBe(2 * 420_000 + 2 * 400_000 + 2 * 3_060 + 3_000)
  })
  it('square parts: what stands over comes off first', () => {
    const { tree, problem, plan } = planOfRow({ lengthUm: 120_000, widthUm: 60_000 }, 2, 3_000, 57_000)
    expect(tree.lengthUm).toBe(300_000)
    expect(tree).toMatchObject({ kind: 'cut', atUm: 243_000, second: { kind: 'waste', lengthUm: 54_000 } })
    expect(verifyCutPlan(problem, plan)).toEqual([])
  })
  it('the least pitch is never more than a row gives, and the checker accepts every row', () => {
    let judged = 0
    fc.assert(
      fc.property(
        fc.integer({ min: 20_000, max: 300_000 }),
        fc.integer({ min: 100_000, max: 900_000 }),
        fc.integer({ min: -90_000, max: 90_000 }),
        fc.integer({ min: -90_000, max: 90_000 }),
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: 0, max: 5_000 }),
        fc.integer({ min: 0, max: 60_000 }),
        (widthUm, nearUm, leanAUm, leanBUm, count, kerfUm, overUm) => {
          fc.pre(nearUm + leanBUm - leanAUm > 0)
          const ends = { nearUm, leanAUm, leanBUm }
          const lengthUm = rowOf({ lengthUm: 1, widthUm, ends }, 1, 0).lengthUm
          const blank = { lengthUm, widthUm, ends }
          const { row, problem, plan, tree } = planOfRow(blank, count, kerfUm, overUm)
          expect(verifyCutPlan(problem, plan)).toEqual([])
          const rests = restsOf(tree)
          const sum = rests.blankAreaUm2 + rests.wasteAreaUm2 + rests.kerfAreaUm2
          expect(sum).toBeCloseTo(tree.lengthUm * tree.widthUm, 3)
          expect(count * leastPitchUm(blank) + (count - 1) * kerfUm).toBeLessThanOrEqual(row.lengthUm)
          judged++
        },
      ),
      { numRuns: 400 },
    )
    expect(judged).toBeGreaterThan(200)
  })
  it('is refused where the last cut would hold too short a piece, and on saws of few stages', () => {
    const row = rowOf({ lengthUm: 60_000, widthUm: 50_000 }, 4, 3_000)
    expect(mayCutRow(row, 50_000, { ...LIMITS, minPieceLengthUm: 150_000 })).toBe(false)
    expect(mayCutRow(row, 50_000, { ...LIMITS, minPieceLengthUm: 123_000 })).toBe(true)
    expect(mayCutRow(row, 50_000, { ...LIMITS, stages: 2 })).toBe(false)
  })
})

describe('harm done to a row is found', () => {
  const harm = (of: (cut: Extract<CutNode, { kind: 'cut' }>) => CutNode) => {
    const { problem, plan, tree } = planOfRow(parallelogram, 3, 3_000)
    const harmed = of(tree as Extract<CutNode, { kind: 'cut' }>)
    return verifyCutPlan(problem, { ...plan, layouts: [{ board: 0, copies: 1, tree: harmed }] }).map(
      (f) => f.kind,
    )
  }
  it('a kerf that is too narrow square to the cut', () => {
    const { problem, plan } = planOfRow(parallelogram, 3, 3_000)
    expect(verifyCutPlan({ ...problem, kerfUm: 3_002 }, plan).map((f) => f.kind)).toContain('kerf')
    expect(verifyCutPlan({ ...problem, kerfUm: 2_990 }, plan).map((f) => f.kind)).toContain('kerf')
  })
  it('a cut that leans another way', () => {
    expect(harm((cut) => ({ ...cut, slantUm: -20_000 }))).toContain('overlap')
  })
  it('a cut that has forgotten its lean', () => {
    expect(harm(({ slantUm: _, ...cut }) => cut)).toContain('overlap')
  })
  it('a part that does not lie in its piece', () => {
    const { problem, plan } = planOfRow(parallelogram, 3, 3_000)
    const longer = { ...parallelogram.ends, nearUm: 400_001 }
    const blanks = [{ ...problem.blanks[0], lengthUm: 420_001, ends: longer }]
    expect(verifyCutPlan({ ...problem, blanks }, plan).map((f) => f.kind)).toContain('ends')
  })
  it('a part that leans the other way', () => {
    const { problem, plan } = planOfRow(parallelogram, 3, 3_000)
    const blanks = [{ ...problem.blanks[0], ends: { nearUm: 400_000, leanAUm: -20_000, leanBUm: -20_000 } }]
    expect(verifyCutPlan({ ...problem, blanks }, plan).map((f) => f.kind)).toContain('ends')
  })
  it('names every part once', () => {
    expect(leavesOf(planOfRow(trapezium, 5, 3_000).tree).filter((l) => l.kind === 'blank')).toHaveLength(5)
  })
})
