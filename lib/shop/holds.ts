/**
 * Holds: who may reserve which board for a build, all of them or none.
 * In: what is known of each board under lock (expired holds gone already) and who asks. Out: what to do with each
 * board, or a refusal with one sentence a board. Own boards and free ones are held at once; a board that its owner
 * shares on request is asked for; a board that its owner keeps is not held by others.
 * Pure; instants are shown through `say`. Tests: tests/shop/holds.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'
import { type Refusal, type RefusalCode, refusal } from './refusal'

export type Terms = 'free' | 'ask' | 'mine'

export interface LiveHold {
  readonly buildId: string
  readonly buildName: string
  readonly memberName: string
  readonly expiresAt: Date
}

/** A board that someone wants to hold. */
export interface HoldCandidate {
  readonly boardId: string
  /** Chalked on it. */
  readonly number: number
  readonly ownerId: string
  readonly ownerName: string
  readonly terms: Terms
  readonly isInPool: boolean
  readonly version: number
  /** The version that the one who asks has seen. */
  readonly seenVersion: number
  readonly liveHold: LiveHold | null
  /** What this build has asked for already. */
  readonly isRequested: boolean
}

export interface HoldStep {
  readonly boardId: string
  /** hold: live at once · ask: a request to the owner · raise: a request that needs no yes any more · keep: it stands. */
  readonly kind: 'hold' | 'ask' | 'raise' | 'keep'
}

interface Hurdle {
  readonly code: RefusalCode
  readonly sentence: string
}

/** Graver first: what the refusal as a whole is called. */
const GRAVITY: readonly RefusalCode[] = ['notAllowed', 'boardNotInPool', 'boardsChanged', 'boardsHeld']

/** Whether a member holds this board at once, has to ask, or may not have it. */
export function holdTerms(
  memberId: string,
  board: { readonly ownerId: string; readonly terms: Terms },
): 'atOnce' | 'ask' | 'never' {
  if (board.ownerId === memberId || board.terms === 'free') return 'atOnce'
  return board.terms === 'ask' ? 'ask' : 'never'
}

/** «Board 14 is held by Mira for «Window bench» until Tue 3 May, 14:00.» */
export function heldSentence(number: number, held: LiveHold, say: (at: Date) => string): string {
  return `Board ${number} is held by ${held.memberName} for «${held.buildName}» until ${say(held.expiresAt)}.`
}

function hurdle(
  memberId: string,
  buildId: string,
  c: HoldCandidate,
  say: (at: Date) => string,
): Hurdle | null {
  if (holdTerms(memberId, c) === 'never')
    return { code: 'notAllowed', sentence: `Board ${c.number} is kept by ${c.ownerName} for own use.` }
  if (!c.isInPool)
    return { code: 'boardNotInPool', sentence: `Board ${c.number} is not in the pool any more.` }
  if (c.liveHold && c.liveHold.buildId !== buildId)
    return { code: 'boardsHeld', sentence: heldSentence(c.number, c.liveHold, say) }
  if (c.version !== c.seenVersion)
    return { code: 'boardsChanged', sentence: `Board ${c.number} has been changed since you looked.` }
  return null
}

function step(memberId: string, c: HoldCandidate): HoldStep['kind'] {
  if (c.liveHold) return 'keep'
  const isAsk = holdTerms(memberId, c) === 'ask'
  if (c.isRequested) return isAsk ? 'keep' : 'raise'
  return isAsk ? 'ask' : 'hold'
}

/**
 * All boards or none.
 * @param say an instant as the shop reads it
 * @example decideHolds('m1', 'b1', [freeBoard], say) //=> { ok: true, value: [{ boardId: '…', kind: 'hold' }] }
 */
export function decideHolds(
  memberId: string,
  buildId: string,
  candidates: readonly HoldCandidate[],
  say: (at: Date) => string,
): Result<HoldStep[], Refusal> {
  const fields: Record<string, string> = {}
  const codes = new Set<RefusalCode>()
  for (const c of candidates) {
    const found = hurdle(memberId, buildId, c, say)
    if (!found) continue
    fields[c.boardId] = found.sentence
    codes.add(found.code)
  }
  const code = GRAVITY.find((g) => codes.has(g))
  if (code) return err(refusal(code, { fields, about: Object.values(fields).join(' ') }))
  return ok(candidates.map((c) => ({ boardId: c.boardId, kind: step(memberId, c) })))
}

const MS_PER_HOUR = 3_600_000

/** When a hold taken or extended now lapses. @example holdExpiry(new Date(0), 72).getTime() //=> 259_200_000 */
export const holdExpiry = (now: Date, holdHours: number): Date =>
  new Date(now.getTime() + holdHours * MS_PER_HOUR)
