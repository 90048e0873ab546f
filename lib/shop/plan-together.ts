/**
 * Several builds planned on one pool: which boards each of them may use, what its parts weigh, and what planning
 * together saves against planning one build after another.
 *
 * Rules: a build uses only boards that its own maker may hold, at that maker's terms; a board held for a build is for
 * that build alone. Asking changes nothing for anyone: holds are made by each maker for their own build. A board is
 * priced at the kindest terms among the builds that may use it. Priority multiplies what a part is worth, so that parts
 * of a build that comes first are made before others where not all can be.
 * In: questions of single builds. Out: one question, and figures. Tests: tests/shop/plan-together.test.ts
 */
import type { BlankNeed } from '#lib/core/board/demand'
import { cutProblemFrom } from '#lib/core/cutting/from-pool'
import { leavesOf } from '#lib/core/cutting/offcuts'
import type { Groups } from '#lib/core/cutting/plan-together'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'
import type { PlanInput, PlannedBoard } from './plan-input'
import type { PlanResult } from './plan-result'

export const PRIORITIES = ['first', 'even', 'last'] as const
export type Priority = (typeof PRIORITIES)[number]
/** What a part is worth in a plan of several builds. */
export const PRIORITY_WEIGHTS: Readonly<Record<Priority, number>> = { first: 3, even: 1, last: 1 / 3 }

export interface BuildTogether {
  readonly buildId: string
  readonly name: string
  readonly makerId: string
  readonly makerName: string
  readonly priority: Priority
}

export interface TogetherInput extends PlanInput {
  readonly builds: readonly BuildTogether[]
  /** By need: index of its build. */
  readonly buildOf: readonly number[]
}

export interface OneBuild {
  readonly build: BuildTogether
  /** The build's own question, on the boards that its maker may use. */
  readonly input: PlanInput
  /** Boards that the build may use, those included that none of its parts fits. */
  readonly boards: readonly PlannedBoard[]
}

const own = (build: number, id: string): string => `${build + 1}:${id}`

/** Index of the build that a part's id in a plan together is of, and the part's own id. */
export function partOfBuild(id: string): { readonly build: number; readonly partId: string } {
  const at = id.indexOf(':')
  return { build: Number(id.slice(0, at)) - 1, partId: id.slice(at + 1) }
}

function needsOf({ input }: OneBuild, build: number, from: number): BlankNeed[] {
  return input.needs.map((need) => ({
    ...need,
    id: own(build, need.id),
    partIds: need.partIds.map((id) => own(build, id)),
    ...(need.stave ? { stave: { ...need.stave, of: need.stave.of + from } } : {}),
  }))
}

/** Every board that some build may use, at the kindest terms. */
function boardsOf(builds: readonly OneBuild[]): PlannedBoard[] {
  const byId = new Map<string, PlannedBoard>()
  for (const board of builds.flatMap((b) => b.boards)) {
    const known = byId.get(board.id)
    if (!known || (board.reluctance ?? 1) < (known.reluctance ?? 1)) byId.set(board.id, board)
  }
  return [...byId.values()].sort((a, b) => a.number - b.number)
}

const weightOf = (priority: Priority): number => PRIORITY_WEIGHTS[priority]

/**
 * @param builds the one that asks first
 * @throws RangeError for fewer than two builds
 */
export function togetherInput(builds: readonly OneBuild[]): TogetherInput {
  if (builds.length < 2) throw new RangeError(`builds: ${builds.length}`)
  const needs: BlankNeed[] = []
  const buildOf: number[] = []
  builds.forEach((one, k) => {
    const more = needsOf(one, k, needs.length)
    needs.push(...more)
    buildOf.push(...more.map(() => k))
  })
  const boards = boardsOf(builds)
  const { shop, design, partsMade } = builds[0].input
  const pool = cutProblemFrom(boards, needs, shop)
  const mayUse = builds.map((one) => new Set(one.boards.map((b) => b.id)))
  const problem: CutProblem = {
    ...pool.problem,
    blanks: pool.problem.blanks.map((blank, i) => ({
      ...blank,
      weight: blank.weight * weightOf(builds[buildOf[i]].build.priority),
      boards: (blank.boards ?? []).filter((b) => mayUse[buildOf[i]].has(pool.boardIds[b])),
    })),
  }
  const byId = new Map(boards.map((b) => [b.id, b]))
  return {
    schema: 1,
    ...{ design, needs, partsMade, shop },
    boards: pool.boardIds.map((id) => byId.get(id) as PlannedBoard),
    pool: { ...pool, problem },
    builds: builds.map((b) => b.build),
    buildOf,
  }
}

/** Builds in the order in which they would choose for themselves: by priority, then as they were named. */
export function groupsOf(input: TogetherInput): Groups {
  const order = input.builds.map((_, i) => i)
  order.sort((a, b) => weightOf(input.builds[b].priority) - weightOf(input.builds[a].priority) || a - b)
  return { of: input.buildOf, order }
}

/** The answer: the plan together, and what each build came to by itself, one after another. */
export interface TogetherResult extends PlanResult {
  /** By build; absent while only a first plan is there. */
  readonly alone?: readonly AloneFigures[]
}

export interface AloneFigures {
  readonly made: number
  readonly wanted: number
  readonly boards: number
  readonly areaUm2: number
  readonly cost: number
}

/** What one build comes to in a plan. Boards and cost of a board that several builds share count for the first. */
function figuresOf(input: TogetherInput, plan: CutPlan, build: number): AloneFigures {
  const needs = input.needs.flatMap((need, i) => (input.buildOf[i] === build ? [{ need, i }] : []))
  const wanted = needs.reduce((sum, { need }) => sum + need.count, 0)
  const missing = plan.shortages.filter((s) => input.buildOf[s.blank] === build)
  const mine = plan.layouts.filter(({ tree }) => {
    const first = leavesOf(tree).find((leaf) => leaf.kind === 'blank')
    return first?.kind === 'blank' && input.buildOf[first.blank] === build
  })
  const boards = mine.map((l) => input.pool.problem.boards[l.board])
  const full = mine.map((l) => input.boards[l.board])
  return {
    wanted,
    made: wanted - missing.reduce((sum, s) => sum + s.missing, 0),
    boards: mine.length,
    areaUm2: full.reduce((sum, b) => sum + b.lengthUm * b.widthUm, 0),
    cost: boards.reduce((sum, b) => sum + b.cost, 0),
  }
}

/** @param plans by build, from plans made one after another */
export const aloneFigures = (input: TogetherInput, plans: readonly CutPlan[]): AloneFigures[] =>
  plans.map((plan, build) => figuresOf(input, plan, build))

export const togetherFigures = (input: TogetherInput, plan: CutPlan): AloneFigures[] =>
  input.builds.map((_, build) => figuresOf(input, plan, build))

const sumOf = (all: readonly AloneFigures[]): AloneFigures =>
  all.reduce(
    (sum, f) => ({
      made: sum.made + f.made,
      wanted: sum.wanted + f.wanted,
      boards: sum.boards + f.boards,
      areaUm2: sum.areaUm2 + f.areaUm2,
      cost: sum.cost + f.cost,
    }),
    { made: 0, wanted: 0, boards: 0, areaUm2: 0, cost: 0 },
  )

/** What planning together brings: more parts, fewer boards, less wood. Negative: it takes more, to make more. */
export interface Saving {
  readonly parts: number
  readonly boards: number
  readonly areaUm2: number
  readonly cost: number
}

/** @example savingOf(input, result)?.boards //=> 1 */
export function savingOf(input: TogetherInput, result: TogetherResult): Saving | null {
  if (!result.alone) return null
  const [alone, both] = [sumOf(result.alone), sumOf(togetherFigures(input, result.plan))]
  return {
    parts: both.made - alone.made,
    boards: alone.boards - both.boards,
    areaUm2: alone.areaUm2 - both.areaUm2,
    cost: alone.cost - both.cost,
  }
}

/** Boards by what they give: for one build alone, or for several. */
export interface BoardShare {
  readonly boardId: string
  /** Index of the layout. */
  readonly layout: number
  /** Builds that get parts of it, the one with most parts first. */
  readonly builds: readonly number[]
}

export function boardShares(input: TogetherInput, result: PlanResult): readonly BoardShare[] {
  return result.plan.layouts.map(({ board }, layout) => {
    const counts = new Map<number, number>()
    for (const id of result.partIds[layout]) {
      const { build } = partOfBuild(id)
      counts.set(build, (counts.get(build) ?? 0) + 1)
    }
    const builds = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([build]) => build)
    return { boardId: input.pool.boardIds[board], layout, builds }
  })
}
