/**
 * Keeps the books of what was cut in step with the numbers that a build is made to: pieces that the chosen variant
 * does not ask for any more are set aside, and taken up again when it does. Cuts of their own that were ticked off on
 * pieces set aside are no longer ticked, so that no later piece inherits them. Rules: lib/shop/parts-made.ts.
 * Called under the lock of the build. Tests: tests/data/choose-variant.test.ts
 */
import 'server-only'
import type { Model, ParameterValues, Part } from '#lib/core/design/model'
import { type MadePart, partOfTick, standingOf } from '#lib/shop/parts-made'
import { partOfStave } from '#lib/shop/staves'
import type { Transaction } from '../transaction'
import { modelOf } from './plan-source'

interface Row {
  readonly id: string
  readonly partId: string
  readonly isSetAside: boolean
  readonly isWorked: boolean
  readonly design: { readonly designId: string; readonly parameters: ParameterValues }
}

/** The newest first. */
const madeRows = (tx: Transaction, buildId: string) => tx.$queryRaw<Row[]>`
  select m."id", m."partId", m."setAsideAt" is not null as "isSetAside", m."isWorked",
    p."input" -> 'design' as design
  from "PartMade" m join "BoardCut" c on c."id" = m."boardCutId" join "CutPlan" p on p."id" = c."planId"
  where m."buildId" = ${buildId}::uuid order by c."cutAt" desc, m."id"`

/** Parts by id of each design that pieces were cut for, built once. */
async function partsAsPlanned(tx: Transaction, rows: readonly Row[]): Promise<(row: Row) => Part | null> {
  const models = new Map<string, ReadonlyMap<string, Part>>()
  for (const { design } of rows) {
    const key = JSON.stringify(design)
    if (models.has(key)) continue
    const model = await modelOf(design.designId, design.parameters, tx)
    models.set(key, new Map(model.ok ? model.value.parts.map((part) => [part.id, part]) : []))
  }
  return ({ design, partId }) => models.get(JSON.stringify(design))?.get(partOfStave(partId)) ?? null
}

/** Parts with cuts of their own ticked off, and the ticks. */
async function ticksByPart(tx: Transaction, buildId: string): Promise<ReadonlyMap<string, string[]>> {
  const ticks = await tx.setupTick.findMany({ where: { plan: { buildId } }, select: { id: true, key: true } })
  const byPart = new Map<string, string[]>()
  for (const { id, key } of ticks) byPart.set(partOfTick(key), [...(byPart.get(partOfTick(key)) ?? []), id])
  return byPart
}

export interface Settled {
  readonly setAside: number
  readonly takenUp: number
}

/** The model that a build is made to; null while there is none that can be built. */
async function chosenModel(tx: Transaction, buildId: string): Promise<Model | null> {
  const chosen = await tx.variant.findFirst({
    where: { buildId, chosen: true },
    select: { designId: true, parameters: true },
  })
  const model = chosen && (await modelOf(chosen.designId, chosen.parameters, tx))
  return model?.ok ? model.value : null
}

export async function settleParts(tx: Transaction, buildId: string, now = new Date()): Promise<Settled> {
  const rows = await madeRows(tx, buildId)
  if (rows.length === 0) return { setAside: 0, takenUp: 0 }
  const model = await chosenModel(tx, buildId)
  if (!model) return { setAside: 0, takenUp: 0 }
  const ticks = await ticksByPart(tx, buildId)
  const was = await partsAsPlanned(tx, rows)
  const made: MadePart[] = rows.map((row) => ({
    id: row.id,
    partId: row.partId,
    isSetAside: row.isSetAside,
    isWorked: row.isSetAside ? row.isWorked : ticks.has(partOfStave(row.partId)),
    was: was(row),
  }))
  const { aside, again } = standingOf(made, model)
  for (const piece of made.filter((m) => aside.includes(m.id))) {
    await tx.partMade.update({
      where: { id: piece.id },
      data: { setAsideAt: now, isWorked: piece.isWorked },
    })
    await tx.setupTick.deleteMany({ where: { id: { in: ticks.get(partOfStave(piece.partId)) ?? [] } } })
  }
  await tx.partMade.updateMany({ where: { id: { in: [...again] } }, data: { setAsideAt: null } })
  return { setAside: aside.length, takenUp: again.length }
}
