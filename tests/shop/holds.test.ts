import { describe, expect, test } from 'vitest'
import { decideHolds, type HoldCandidate, holdExpiry, holdTerms } from '#lib/shop/holds'

const say = (at: Date) => at.toISOString().slice(0, 10)
const free: HoldCandidate = {
  boardId: 'b1',
  number: 14,
  ownerId: 'olga',
  ownerName: 'Olga',
  terms: 'free',
  isInPool: true,
  version: 1,
  seenVersion: 1,
  liveHold: null,
  isRequested: false,
}
const elsewhere = {
  buildId: 'other',
  buildName: 'Window bench',
  memberName: 'Mira',
  expiresAt: new Date('2030-05-03T12:00:00Z'),
}
const steps = (...all: HoldCandidate[]) => {
  const r = decideHolds('ada', 'build', all, say)
  return r.ok ? r.value.map((s) => s.kind) : r.error.code
}

test('own and free boards at once, shared on request by asking, kept ones never', () => {
  expect(holdTerms('ada', free)).toBe('atOnce')
  expect(holdTerms('ada', { ownerId: 'ada', terms: 'mine' })).toBe('atOnce')
  expect(holdTerms('ada', { ownerId: 'olga', terms: 'ask' })).toBe('ask')
  expect(holdTerms('ada', { ownerId: 'olga', terms: 'mine' })).toBe('never')
})

describe('what is done with each board', () => {
  test('hold, ask, keep, raise', () => {
    expect(steps(free)).toEqual(['hold'])
    expect(steps({ ...free, terms: 'ask' })).toEqual(['ask'])
    expect(steps({ ...free, terms: 'ask', isRequested: true })).toEqual(['keep'])
    expect(steps({ ...free, isRequested: true })).toEqual(['raise'])
    expect(steps({ ...free, liveHold: { ...elsewhere, buildId: 'build' } })).toEqual(['keep'])
  })

  test('one board in the way stops them all; the gravest reason names the refusal, each board has its sentence', () => {
    expect(steps(free, { ...free, boardId: 'b2', version: 2 })).toBe('boardsChanged')
    const held = { ...free, boardId: 'b2', liveHold: elsewhere }
    expect(steps(free, held)).toBe('boardsHeld')
    expect(steps(held, { ...free, boardId: 'b3', version: 2 })).toBe('boardsChanged')
    expect(steps(held, { ...free, boardId: 'b3', isInPool: false })).toBe('boardNotInPool')
    const r = decideHolds('ada', 'build', [free, held], say)
    expect(r.ok ? {} : r.error.fields).toEqual({
      b2: 'Board 14 is held by Mira for «Window bench» until 2030-05-03.',
    })
  })
})

test('a hold lasts its hours', () => {
  expect(holdExpiry(new Date(0), 72).getTime()).toBe(259_200_000)
})
