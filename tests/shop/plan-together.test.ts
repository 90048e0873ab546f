import { describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { cutShop } from '#lib/shop/machines'
import { boardsToPlanOn, planInput, type StockBoard } from '#lib/shop/plan-input'
import {
  type AloneFigures,
  boardShares,
  groupsOf,
  type OneBuild,
  type Priority,
  partOfBuild,
  savingOf,
  type TogetherInput,
  type TogetherResult,
  togetherInput,
} from '#lib/shop/plan-together'

const SHOP = cutShop(
  { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 },
  [],
)
const stock = (number: number, over: Partial<StockBoard> = {}): StockBoard => ({
  ...{ id: `b${number}`, number, ownerId: 'olga', ownerName: 'Olga', terms: 'free', version: 1, place: '' },
  ...{ isOffcut: false, heldByBuildId: null, lengthUm: 2_000_000, widthUm: 200_000, thicknessUm: 45_000 },
  species: 'whiteOak',
  warp: { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 },
  ...{ defects: [], finish: 'bare', metal: 'cleared', lead: 'notNeeded', treated: false },
  ...over,
})
const built = designById('bench')?.build({})
if (!built?.ok) throw new Error('no bench')
const model = built.value

const oneBuild = (
  buildId: string,
  makerId: string,
  boards: readonly StockBoard[],
  priority: Priority = 'even',
): OneBuild => {
  const usable = boardsToPlanOn(makerId, buildId, boards)
  return {
    build: { buildId, name: buildId, makerId, makerName: makerId, priority },
    input: planInput(model, usable, new Set(), SHOP, { gluedUp: ['upright'] }),
    boards: usable,
  }
}

describe('one question of several builds', () => {
  const boards = [
    stock(1),
    stock(2, { ownerId: 'ada', ownerName: 'Ada', terms: 'mine' }),
    stock(3, { ownerId: 'ada', ownerName: 'Ada', terms: 'ask' }),
    stock(4, { heldByBuildId: 'hers' }),
    stock(5, { heldByBuildId: 'elsewhere' }),
  ]
  const builds = [oneBuild('hers', 'ada', boards, 'last'), oneBuild('his', 'ben', boards, 'first')]
  const input = togetherInput(builds)

  test('parts keep their own ids behind the number of their build', () => {
    expect(input.needs).toHaveLength(2 * builds[0].input.needs.length)
    expect(partOfBuild(input.needs[0].partIds[0])).toEqual({
      build: 0,
      partId: builds[0].input.needs[0].partIds[0],
    })
    expect(new Set(input.needs.flatMap((n) => n.partIds)).size).toBe(2 * model.parts.length)
  })
  test('staves belong to the panel of their own build', () => {
    input.needs.forEach((need, i) => {
      if (need.stave) expect(input.buildOf[need.stave.of]).toBe(input.buildOf[i])
    })
    expect(input.needs.filter((n) => n.stave)).toHaveLength(2)
  })
  test('each build has the boards of its own maker; held ones are for their build alone', () => {
    const usedBy = (build: number) =>
      new Set(
        input.pool.problem.blanks.flatMap((b, i) =>
          input.buildOf[i] === build ? (b.boards ?? []).map((k) => input.pool.boardIds[k]) : [],
        ),
      )
    expect([...usedBy(0)].sort()).toEqual(['b1', 'b2', 'b3', 'b4'])
    expect([...usedBy(1)].sort()).toEqual(['b1', 'b3'])
  })
  test('a board is priced at the kindest terms: not to be asked for by its owner', () => {
    expect(input.boards.find((b) => b.id === 'b3')?.reluctance).toBe(1)
  })
  test('priority: what a part is worth, and who chooses first', () => {
    const weights = input.pool.problem.blanks.flatMap((b, i) =>
      b.stave ? [] : [[input.buildOf[i], b.weight] as const],
    )
    for (const [build, weight] of weights) expect(weight).toBe(build === 0 ? 1 / 3 : 3)
    expect(groupsOf(input).order).toEqual([1, 0])
  })
  test('one build alone is not together', () => {
    expect(() => togetherInput(builds.slice(0, 1))).toThrow(RangeError)
  })
})

describe('what it saves, by hand', () => {
  const leaf = (blank: number) => ({
    ...{ kind: 'blank' as const, xUm: 0, yUm: 0, lengthUm: 9, widthUm: 9, blank, turned: false },
  })
  const input = {
    builds: [{}, {}],
    buildOf: [0, 1],
    needs: [{ count: 2 }, { count: 1 }],
    boards: [{ lengthUm: 1_000, widthUm: 100 }],
    pool: { boardIds: ['b1'], problem: { boards: [{ cost: 7 }] } },
  } as unknown as TogetherInput
  const alone: AloneFigures[] = [
    { made: 2, wanted: 2, boards: 1, areaUm2: 90_000, cost: 6 },
    { made: 0, wanted: 1, boards: 1, areaUm2: 50_000, cost: 4 },
  ]
  const cut = { kind: 'cut', first: leaf(0), second: { kind: 'cut', first: leaf(0), second: leaf(1) } }
  const result = {
    plan: { layouts: [{ board: 0, copies: 1, tree: cut }], shortages: [] },
    partIds: [['1:leg-1', '1:leg-2', '2:leg-1']],
  } as unknown as TogetherResult

  test('one part more, one board less, 40,000 um2 and 3 points of wood less', () => {
    expect(savingOf(input, { ...result, alone })).toEqual({ parts: 1, boards: 1, areaUm2: 40_000, cost: 3 })
    expect(savingOf(input, result)).toBeNull()
  })
  test('a board that both share, the one with more parts first', () => {
    expect(boardShares(input, result)).toEqual([{ boardId: 'b1', layout: 0, builds: [0, 1] }])
  })
})
