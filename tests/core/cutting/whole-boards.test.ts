import { describe, expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import { prepare } from '#lib/core/cutting/prepared'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { blockOf, wholeBlocks } from '#lib/core/cutting/whole-blocks'
import { plantedShop } from '../../bench/planted-shops'
import { blank, board, shop } from './shops'

const blocksOf = (p: Parameters<typeof prepare>[0], most = 10_000) => {
  const prep = prepare(p)
  const fits = (w: number, h: number): boolean => prep.classes.some((c) => w <= c.w && h <= c.h)
  const limits = { most, mostTries: 1e6, fits, shouldStop: () => false }
  return { prep, blocks: wholeBlocks(prep, prep.demand, limits) }
}

describe('blocks without waste', () => {
  it('are found at every level, and each only once', () => {
    // Two of 300 x 100 and one of 603.2 x 50, kerf 3.2: side by side they are 603.2 long, so all three make a block.
    const p = shop([board(603.2, 153.2)], [blank(300, 100, 2), blank(603.2, 50, 1)])
    const { prep, blocks } = blocksOf(p)
    expect(blocks.isComplete).toBe(true)
    // One of each, the pair side by side (one above the other does not fit the board), all three.
    expect(blocks.count).toBe(4)
    const [, full] = blocks.byLength.get(prep.classes[0].w)?.filter((b) => b.parts.length > 1) ?? []
    expect(full.parts).toEqual([0, 0, 1])
    expect(blockOf(prep, full)?.h).toBe(prep.classes[0].h)
  })
  it('stop at a limit and say so', () => {
    const p = shop([board(900, 900)], [blank(30, 30, 20)])
    expect(blocksOf(p, 50).blocks.isComplete).toBe(false)
  })
})

describe('boards that were sawn up without waste', () => {
  it.each([
    [1, 5, 20, false],
    [2, 5, 20, true],
    [3, 5, 60, false],
    [4, 5, 60, true],
    [5, 20, 100, true],
  ] as const)(
    'are put together again: seed %d, %d boards, %d parts, defects %s',
    (seed, boards, parts, defects) => {
      const p = plantedShop(seed, boards, parts, { kerfMm: 3, defects })
      const plan = planCuts(p, { seed: 1, budget: { maxSteps: 300_000 } })
      expect(verifyCutPlan(p, plan)).toEqual([])
      expect(plan.shortages).toEqual([])
    },
  )
})
