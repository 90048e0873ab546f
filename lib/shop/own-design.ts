/**
 * Members' own designs: what they are called in a variant, and who may see and change one. A variant names the version
 * that it is made to, so that editing a design changes no build. Pure. Tests: tests/shop/own-design.test.ts
 */
import type { Actor } from './actor'

export interface OwnVersion {
  readonly designId: string
  readonly number: number
}

const NAME = /^own:([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})@([1-9]\d{0,8})$/

/** @example ownDesignName({ designId: 'a1', number: 3 }) //=> 'own:a1@3' */
export const ownDesignName = ({ designId, number }: OwnVersion): string => `own:${designId}@${number}`

/** The version that a variant's design names; undefined for a shipped design. */
export function ownVersionOf(designId: string): OwnVersion | undefined {
  const found = NAME.exec(designId)
  return found === null ? undefined : { designId: found[1], number: Number(found[2]) }
}

export type DesignSharing = 'mine' | 'shop'

interface Owned {
  readonly ownerId: string
  readonly sharing: DesignSharing
}

/** Whether a design is offered to a member: one's own, and those that are shared with the shop. */
export const maySee = (actor: Pick<Actor, 'memberId'>, design: Owned): boolean =>
  design.ownerId === actor.memberId || design.sharing === 'shop'

/** Its owner's to change; an admin's too, once it is shared. */
export const mayChangeDesign = (actor: Pick<Actor, 'memberId' | 'role'>, design: Owned): boolean =>
  design.ownerId === actor.memberId || (actor.role === 'admin' && design.sharing === 'shop')
