import 'server-only'
import { designById } from '#lib/core/design/designs/registry'
import { type Difference, differences } from '#lib/core/design/recipe/differences'
import type { Actor } from '#lib/shop/actor'
import { maySee, ownDesignName, ownVersionOf } from '#lib/shop/own-design'
import { database } from '../client'
import type { Transaction } from '../transaction'
import { recipeOf } from './designs'

/** Own designs that are offered to a member. */
export const offeredTo = ({ memberId }: Actor) => ({
  removedAt: null,
  OR: [{ ownerId: memberId }, { sharing: 'shop' as const }],
})

/** Own designs that a member may change, as a condition of the write. */
export const changeableBy = ({ memberId, role }: Actor) => ({
  removedAt: null,
  OR: [{ ownerId: memberId }, ...(role === 'admin' ? [{ sharing: 'shop' as const }] : [])],
})

/** Whether a member may begin something with a design: a shipped one, or one that is offered. */
export async function mayUseDesign(tx: Transaction, actor: Actor, designId: string): Promise<boolean> {
  const version = ownVersionOf(designId)
  if (version === undefined) return designById(designId) !== undefined
  const row = await tx.ownDesign.findFirst({
    where: { id: version.designId, ...offeredTo(actor) },
    select: { id: true },
  })
  return row !== null
}

export interface NewerVersion {
  readonly designId: string
  readonly number: number
  readonly memberName: string
  readonly at: Date
  readonly note: string
  readonly differences: readonly Difference[]
}

/** The last version of the design that a variant is made to, if it is later than the variant's and offered. */
export async function newerVersion(actor: Actor, designId: string): Promise<NewerVersion | null> {
  const version = ownVersionOf(designId)
  if (version === undefined) return null
  const last = await database().ownDesignVersion.findFirst({
    where: { designId: version.designId, number: { gt: version.number } },
    orderBy: { number: 'desc' },
    select: {
      number: true,
      at: true,
      note: true,
      member: { select: { name: true } },
      design: { select: { ownerId: true, sharing: true, removedAt: true } },
    },
  })
  if (!last || last.design.removedAt || !maySee(actor, last.design)) return null
  const name = ownDesignName({ designId: version.designId, number: last.number })
  const [before, after] = [await recipeOf(designId), await recipeOf(name)]
  const { number, at, note, member } = last
  return {
    designId: name,
    number,
    at,
    note,
    memberName: member.name,
    differences: before && after ? differences(before, after) : [],
  }
}
