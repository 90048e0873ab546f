/**
 * Whose board it is and what others may do with it. Owners share a board on one of three terms; owner or admin
 * change it; any member may record a safety check on it, since a shop lives on that. Who may hold it: holds.ts.
 * Pure. Tests: tests/shop/sharing.test.ts
 */
import type { Actor } from './actor'
import type { Terms } from './holds'

export const TERMS = ['free', 'ask', 'mine'] as const satisfies readonly Terms[]

export const TERMS_WORDS: Readonly<Record<Terms, { readonly label: string; readonly help: string }>> = {
  free: { label: 'Free to all', help: 'Any member may hold it for a build.' },
  ask: { label: 'Ask first', help: 'A hold becomes a request that the owner answers.' },
  mine: { label: 'Mine', help: 'Kept for the owner’s own builds; others see it and cannot hold it.' },
}

/** Whether the actor may change what belongs to `ownerId`: measures, marks, terms, place, being in the pool. */
export const mayChange = (actor: Pick<Actor, 'memberId' | 'role'>, ownerId: string): boolean =>
  actor.memberId === ownerId || actor.role === 'admin'

/** The same as a condition of a write, so that the check and the write are one. */
export const ownedBy = (actor: Pick<Actor, 'memberId' | 'role'>): { ownerId?: string } =>
  actor.role === 'admin' ? {} : { ownerId: actor.memberId }
