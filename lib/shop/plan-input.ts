/**
 * The question that a cut plan answers: which boards a member may plan on, what is still to be made, and the cutting
 * problem that follows. Stored with the plan, so that its answer can be read and checked later.
 * In: a model, boards with their owners' terms and holds, parts made already, the shop's machines.
 * Out: PlanInput, plain data. Whole micrometres. Tests: tests/shop/plan-input.test.ts
 */
import type { Board } from '#lib/core/board/board'
import { type BlankNeed, blankNeedsFromModel } from '#lib/core/board/demand'
import {
  type CutShop,
  cutProblemFrom,
  type PoolBoard,
  type PoolCutProblem,
} from '#lib/core/cutting/from-pool'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { holdTerms, type Terms } from './holds'
import { needsWithStaves, type StavesMade } from './staves'

/** A board as the shop knows it. */
export interface StockBoard extends Board {
  readonly number: number
  readonly ownerId: string
  readonly ownerName: string
  readonly terms: Terms
  readonly version: number
  readonly place: string
  readonly isOffcut: boolean
  /** The build that holds it now, if any. */
  readonly heldByBuildId: string | null
}

/** A board as a plan names it. */
export interface PlannedBoard extends PoolBoard {
  readonly number: number
  readonly ownerId: string
  readonly ownerName: string
  readonly terms: Terms
  readonly version: number
  readonly place: string
  /** Its owner has to say yes before it can be held. */
  readonly needsYes: boolean
  readonly isHeldHere: boolean
}

export interface PlannedDesign {
  readonly designId: string
  readonly designVersion: number
  readonly parameters: ParameterValues
}

export interface PlanInput {
  readonly schema: 1
  readonly design: PlannedDesign
  readonly needs: readonly BlankNeed[]
  /** Parts, and staves of parts, cut before this plan was asked for. */
  readonly partsMade: readonly string[]
  /** Ids of needs that may be glued up from staves. Absent: none. */
  readonly gluedUp?: readonly string[]
  /** Boards of the problem, in its order. */
  readonly boards: readonly PlannedBoard[]
  readonly pool: PoolCutProblem
  readonly shop: CutShop
}

/** A plan rather leaves a board that someone must be asked for, and rather takes one that the build holds. */
export const RELUCTANCE = { ask: 1.5, held: 0.5, free: 1 } as const

/** Boards that the member may plan on: own ones, free ones, and those that may be asked for; none held elsewhere. */
export function boardsToPlanOn(
  memberId: string,
  buildId: string,
  boards: readonly StockBoard[],
): PlannedBoard[] {
  return boards.flatMap(({ heldByBuildId, isOffcut, ...board }) => {
    const terms = holdTerms(memberId, board)
    if (terms === 'never' || (heldByBuildId !== null && heldByBuildId !== buildId)) return []
    const isHeldHere = heldByBuildId === buildId
    const needsYes = terms === 'ask' && !isHeldHere
    const reluctance = isHeldHere ? RELUCTANCE.held : needsYes ? RELUCTANCE.ask : RELUCTANCE.free
    const origin = isOffcut ? ('offcut' as const) : ('salvage' as const)
    return [{ ...board, label: String(board.number), origin, reluctance, needsYes, isHeldHere }]
  })
}

/** Cuts in so many turns, beginning with one kind: 2 from `crosscut` are "to length, then to width". */
export type OrderOfCuts = { readonly firstCut: 'crosscut' | 'rip'; readonly stages: 2 | 3 }

/** The order that a question was asked with; absent: any. */
export function orderOf({ limits }: CutShop): OrderOfCuts | undefined {
  const { firstCut, stages } = limits
  return firstCut !== undefined && (stages === 2 || stages === 3) ? { firstCut, stages } : undefined
}

export interface PlanWishes {
  readonly gluedUp?: readonly string[]
  /** Absent: any. */
  readonly order?: OrderOfCuts
  /** Widths of the staves among `partsMade`. */
  readonly staves?: StavesMade
}

/**
 * Boards that no part can use are left out of the stored input; why is said in `pool.unmakeable`.
 * @example planInput(model, boards, new Set(), shop).needs.map((n) => n.id) //=> ['leg', 'seat']
 */
export function planInput(
  model: Model,
  boards: readonly PlannedBoard[],
  partsMade: ReadonlySet<string>,
  machines: CutShop,
  wishes: PlanWishes = {},
): PlanInput {
  const shop = wishes.order ? { ...machines, limits: { ...machines.limits, ...wishes.order } } : machines
  const parts = model.parts.filter((p) => !partsMade.has(p.id))
  const gluedUp = [...(wishes.gluedUp ?? [])].sort()
  const begun = new Map([...(wishes.staves ?? [])].filter(([id]) => !partsMade.has(id)))
  const plain = blankNeedsFromModel({ parts }, shop.allowances)
  const needs = needsWithStaves(plain, new Set(gluedUp), begun)
  const pool = cutProblemFrom(boards, needs, shop)
  const byId = new Map(boards.map((b) => [b.id, b]))
  return {
    schema: 1,
    design: {
      designId: model.designId,
      designVersion: model.designVersion,
      parameters: model.parameters,
    },
    needs,
    partsMade: [...partsMade].sort(),
    ...(gluedUp.length > 0 ? { gluedUp } : {}),
    boards: pool.boardIds.map((id) => byId.get(id)!),
    pool,
    shop,
  }
}

/** JSON with its keys in order, so that alike inputs are alike texts. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value) ?? 'null'
  const entries = Object.entries(value).filter(([, v]) => v !== undefined)
  entries.sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${entries.map(([k, v]) => `${JSON.stringify(k)}:${canonicalJson(v)}`).join(',')}}`
}

/**
 * Text of the question: two inputs with one text ask the same. A hold alone changes no question: it only makes a
 * board dearer or cheaper, so reluctance and what follows from it are left out.
 */
export function questionText(input: PlanInput): string {
  const boards = input.boards
    .map(({ id, version }) => ({ id, version }))
    .sort((a, b) => (a.id < b.id ? -1 : 1))
  const { design, needs, shop } = input
  return canonicalJson({ design, needs, shop, boards })
}

/** What has changed since a plan was made, for those boards that it cuts and has not cut yet. */
export interface PlanChanges {
  readonly isDesignChanged: boolean
  readonly boards: readonly { readonly number: number; readonly why: 'changed' | 'notForUse' }[]
  /** Boards that would do and were not there. */
  readonly newBoards: number
}

/**
 * @param now the question as it would be asked now, for the parts that the plan was asked for
 * @param waiting boards that the plan cuts and that are not cut yet
 */
export function changesSince(plan: PlanInput, now: PlanInput, waiting: ReadonlySet<string>): PlanChanges {
  const asked = (input: PlanInput) => canonicalJson([input.design, input.needs, input.shop])
  const current = new Map(now.boards.map((b) => [b.id, b]))
  const known = new Set(plan.boards.map((b) => b.id))
  return {
    isDesignChanged: asked(plan) !== asked(now),
    boards: plan.boards.flatMap((b) => {
      const there = current.get(b.id)
      if (!waiting.has(b.id) || there?.version === b.version) return []
      return [{ number: b.number, why: there ? ('changed' as const) : ('notForUse' as const) }]
    }),
    newBoards: now.boards.filter((b) => !known.has(b.id)).length,
  }
}

/** Whether the plan can no longer be followed as it stands. */
export const isStale = (changes: PlanChanges): boolean => changes.isDesignChanged || changes.boards.length > 0
