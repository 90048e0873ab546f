import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  changesBetween,
  DEFECT_WORDS,
  FINISHES,
  LEADS,
  leadAfterFinish,
  leadSteps,
  leadWhenTakenIn,
  type MarkLike,
  METALS,
  marksBetween,
  marksOff,
  metalSteps,
} from '#lib/shop/boards'
import { mayChange, ownedBy } from '#lib/shop/sharing'

describe('the lead gate', () => {
  // EPA 40 CFR 745 and HUD (from memory): paint on what was made before 1978 counts as lead paint until it is tested.
  test('a finish of unknown age is never taken in as needing no test', () => {
    for (const finish of FINISHES)
      expect(leadWhenTakenIn(finish, false)).toBe(finish === 'bare' ? 'notNeeded' : 'untested')
  })

  test('found stays found whatever is said of the finish; only a test ends it', () => {
    for (const was of FINISHES)
      for (const finish of FINISHES)
        for (const isNew of [true, false])
          expect(leadAfterFinish({ finish: was, lead: 'found' }, finish, isNew)).toBe('found')
    expect(leadSteps('found', 'bare')).toEqual(['free'])
  })

  test('stripping is not testing: untested wood stays untested', () =>
    expect(leadAfterFinish({ finish: 'paint', lead: 'untested' }, 'bare', true)).toBe('untested'))

  test('another coat of unknown age over a tested one needs a new test; the same coat does not', () => {
    expect(leadAfterFinish({ finish: 'clear', lead: 'free' }, 'paint', false)).toBe('untested')
    expect(leadAfterFinish({ finish: 'paint', lead: 'free' }, 'paint', false)).toBe('free')
  })

  test('never open for a coat of unknown age without a test', () => {
    for (const was of FINISHES)
      for (const finish of FINISHES)
        for (const lead of LEADS) {
          if (finish === 'bare') continue
          if (leadAfterFinish({ finish: was, lead }, finish, false) === 'notNeeded')
            throw new Error(`${was} ${lead}`)
        }
  })

  test('nobody records «no test needed» for a coat', () => {
    for (const lead of LEADS)
      for (const finish of FINISHES)
        if (finish !== 'bare') expect(leadSteps(lead, finish)).not.toContain('notNeeded')
  })
})

test('no step of a gate leads back to unchecked or untested: that is the owner’s', () => {
  for (const metal of METALS) expect(metalSteps(metal)).not.toContain('unchecked')
  for (const lead of LEADS)
    for (const finish of FINISHES) expect(leadSteps(lead, finish)).not.toContain('untested')
})

test('what differs, field by field', () => {
  expect(changesBetween({ place: 'A', lengthUm: 1 }, { place: 'B', lengthUm: 1 })).toEqual({
    place: { was: 'A', is: 'B' },
  })
})

const mark = fc.record({
  kind: fc.constantFrom('hole', 'knot'),
  face: fc.constantFrom('A', 'B', 'through'),
  xUm: fc.integer({ min: 0, max: 3 }),
  yUm: fc.constant(0),
  widthUm: fc.constant(5),
  heightUm: fc.constant(5),
}) as fc.Arbitrary<MarkLike>

test('before, less what went, with what came, is after: as often as each mark stands there', () => {
  const bag = (marks: readonly MarkLike[]) => marks.map((m) => JSON.stringify(m)).sort()
  let judged = 0
  fc.assert(
    fc.property(fc.array(mark, { maxLength: 8 }), fc.array(mark, { maxLength: 8 }), (before, after) => {
      const { gone, come } = marksBetween(before, after)
      const kept = bag(before)
      for (const g of bag(gone)) {
        expect(kept).toContain(g)
        kept.splice(kept.indexOf(g), 1)
      }
      expect([...kept, ...bag(come)].sort()).toEqual(bag(after))
      for (const c of bag(come)) expect(bag(gone)).not.toContain(c)
      judged++
    }),
    { seed: 7 },
  )
  expect(judged).toBeGreaterThan(50)
})

test('marks that a smaller board would lose are said beside the side that is too short', () => {
  const at = (xUm: number, yUm: number): MarkLike => ({
    kind: 'hole',
    face: 'A',
    xUm,
    yUm,
    widthUm: 10,
    heightUm: 10,
  })
  expect(marksOff([at(90, 0), at(95, 5)], { lengthUm: 100, widthUm: 10 }).map((c) => c.field)).toEqual([
    'length',
    'width',
  ])
  expect(marksOff([at(90, 0)], { lengthUm: 100, widthUm: 10 })).toEqual([])
})

test('every kind of defect has a letter of its own', () => {
  const letters = Object.values(DEFECT_WORDS).map((w) => w.letter)
  expect(new Set(letters).size).toBe(letters.length)
})

test('owner and admin change a board, others do not; as a condition of the write', () => {
  expect(mayChange({ memberId: 'a', role: 'member' }, 'a')).toBe(true)
  expect(mayChange({ memberId: 'b', role: 'keeper' }, 'a')).toBe(false)
  expect(mayChange({ memberId: 'b', role: 'admin' }, 'a')).toBe(true)
  expect(ownedBy({ memberId: 'b', role: 'keeper' })).toEqual({ ownerId: 'b' })
  expect(ownedBy({ memberId: 'b', role: 'admin' })).toEqual({})
})
