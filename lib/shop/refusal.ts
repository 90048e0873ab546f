/**
 * Why the shop says no: a closed list of codes, each with its HTTP status and one sentence for the person.
 * `fields` holds a sentence for each form field at fault; `about` names what stands in the way.
 */
export const REFUSALS = {
  notSignedIn: [401, 'Sign in first.'],
  notAllowed: [403, 'That is not yours to do.'],
  notFound: [404, 'That is not there (any more).'],
  badInput: [422, 'Some of what you typed needs another look.'],
  changedMeanwhile: [
    409,
    'Someone changed this while you had it open. What you typed is kept: look at the new state and save again.',
  ],
  alreadyExists: [409, 'That is already there.'],
  signInFailed: [401, 'E-mail and password do not go together.'],
  tooManyTries: [429, 'Too many tries. Wait a few minutes and try again.'],
  wrongPassword: [403, 'That is not your current password.'],
  linkSpent: [410, 'This link has been used, withdrawn or has run out. Ask for a new one.'],
  alreadyStarted: [409, 'This shop has been started already. Sign in.'],
  keepsStations: [409, 'They keep stations: give those another keeper first.'],
  lastAdmin: [409, 'A shop needs at least one admin: make someone else one first.'],
  boardsHeld: [409, 'Some of these boards are held by someone else.'],
  boardsChanged: [409, 'Some of these boards have been changed meanwhile.'],
  othersWait: [409, 'Someone else is waiting for this board.'],
  boardNotInPool: [409, 'A board has left the pool.'],
  boardGated: [409, 'A board has not passed its safety gates.'],
  boardNotHeld: [409, 'Hold the board for this build first.'],
  slotTaken: [409, 'That time is taken.'],
  outsideHours: [422, 'The station is not open at that time.'],
  notInducted: [403, 'You need an induction on this station first. Ask its keeper.'],
  alreadyDecided: [409, 'That has been decided already.'],
  buildClosed: [409, 'This build is finished or given up.'],
  recipeFaulty: [422, 'The design does not make sense yet. Look at the fields that are marked.'],
  notCopied: [409, 'This design cannot be copied.'],
  designRefused: [422, 'The design cannot be built as it stands.'],
  variantChosen: [409, 'This is the variant that the build is made to. Choose another one first.'],
  tooMany: [409, 'There are too many already.'],
  nothingToCut: [409, 'Every part of this build has been cut.'],
  planBusy: [409, 'A cut plan for this build is being worked out already.'],
  planStale: [409, 'The design or the boards have changed since this plan was made. Plan again.'],
  alreadyCut: [409, 'That board has been cut already.'],
  busy: [503, 'The shop is busy just now. Nothing was changed; try again.'],
} as const satisfies Record<string, readonly [status: number, sentence: string]>

export type RefusalCode = keyof typeof REFUSALS

export interface Refusal {
  readonly code: RefusalCode
  /** Sentence by field path, `defects.0.x`. */
  readonly fields?: Readonly<Record<string, string>>
  /** More than the code's own sentence says: which board, by whom, until when. */
  readonly about?: string
}

export const refusal = (code: RefusalCode, more: Omit<Refusal, 'code'> = {}): Refusal => ({ code, ...more })

/** @example refusalStatus({ code: 'slotTaken' }) //=> 409 */
export const refusalStatus = (r: Refusal): number => REFUSALS[r.code][0]

/** @example refusalSentence({ code: 'notFound' }) //=> 'That is not there (any more).' */
export const refusalSentence = (r: Refusal): string =>
  r.about ? `${REFUSALS[r.code][1]} ${r.about}` : REFUSALS[r.code][1]
