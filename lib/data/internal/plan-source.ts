/**
 * Reads all that a cut plan's question is made of, and makes the question. Nothing is solved here.
 * Tests: tests/data/cut-plans.test.ts
 */
import 'server-only'
import { createHash } from 'node:crypto'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { err, ok, type Result } from '#lib/core/units/result'
import { cutShop, type StationFigures } from '#lib/shop/machines'
import {
  boardsToPlanOn,
  type OrderOfCuts,
  type PlanInput,
  type PlannedBoard,
  planInput,
  questionText,
} from '#lib/shop/plan-input'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { stavesMade } from '#lib/shop/staves'
import type { Transaction } from '../transaction'
import { findDesign } from './designs'
import { shopRow } from './shop-row'
import { STOCK_BOARD, stockBoard } from './stock-board'

const STATION_FIGURES = {
  kind: true,
  kerfUm: true,
  maxRipWidthUm: true,
  maxCrosscutWidthUm: true,
  minPieceLengthUm: true,
  minPieceWidthUm: true,
  maxPassUm: true,
} as const

/** Figures of the stations in use, the oldest first. */
export const stationFigures = (tx: Transaction): Promise<StationFigures[]> =>
  tx.station.findMany({
    where: { retiredAt: null },
    select: STATION_FIGURES,
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  })

/** The model of a variant, or what the design says against its parameters. */
export async function modelOf(
  designId: string,
  parameters: unknown,
  tx?: Transaction,
): Promise<Result<Model, Refusal>> {
  const design = await findDesign(designId, tx)
  if (!design) return err(refusal('designRefused', { about: 'The design is not in this shop any more.' }))
  const model = design.build(parameters as ParameterValues)
  if (model.ok) return ok(model.value)
  return err(refusal('designRefused', { about: model.error.map((e) => e.message).join(' ') }))
}

export interface PlanSource {
  readonly variant: { readonly id: string; readonly version: number }
  readonly model: Model
  /** Boards that the maker may plan on. */
  readonly boards: readonly PlannedBoard[]
  /** The question for the parts that are not in `partsMade`. `gluedUp`: needs that may be made of staves. */
  readonly question: (
    partsMade: ReadonlySet<string>,
    gluedUp?: readonly string[],
    order?: OrderOfCuts,
  ) => PlanInput
  readonly partsMade: ReadonlySet<string>
}

/** @param memberId the maker of the build, on whose behalf boards are looked at */
export async function planSource(
  tx: Transaction,
  buildId: string,
  memberId: string,
): Promise<Result<PlanSource, Refusal>> {
  const now = new Date()
  const [variant, boards, made, shop, stations] = [
    await tx.variant.findFirst({
      where: { buildId, chosen: true },
      select: { id: true, version: true, designId: true, parameters: true },
    }),
    await tx.board.findMany({ where: { status: 'inPool' }, select: STOCK_BOARD, orderBy: { number: 'asc' } }),
    await tx.partMade.findMany({
      where: { buildId, setAsideAt: null },
      select: { partId: true, widthUm: true },
    }),
    await shopRow(tx),
    await stationFigures(tx),
  ]
  if (!variant) return err(refusal('designRefused', { about: 'Choose a design for this build first.' }))
  const model = await modelOf(variant.designId, variant.parameters, tx)
  if (!model.ok) return model
  const usable = boardsToPlanOn(
    memberId,
    buildId,
    boards.map((b) => stockBoard(b, now)),
  )
  const machines = cutShop(shop, stations)
  return ok({
    variant: { id: variant.id, version: variant.version },
    model: model.value,
    boards: usable,
    partsMade: new Set(made.map((m) => m.partId)),
    question: (partsMade, gluedUp, order) =>
      planInput(model.value, usable, partsMade, machines, {
        gluedUp,
        order,
        staves: stavesMade(made.filter((m) => partsMade.has(m.partId))),
      }),
  })
}

/** SHA-256 of the question: two plans with one hash answer the same. */
export const questionHash = (input: PlanInput): string =>
  createHash('sha256').update(questionText(input)).digest('hex')
