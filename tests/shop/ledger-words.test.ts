import { describe, expect, test } from 'vitest'
import { eventWords, type LedgerEvent, STOCK_EVENT_KINDS } from '#lib/shop/ledger-words'

const say = { length: (um: number) => `${um / 1000} mm`, instant: () => 'Tue 3 May, 14:00' }
const words = (event: Partial<LedgerEvent>) =>
  eventWords({ kind: 'changed', memberName: 'Mira', buildName: null, detail: {}, ...event }, say)

describe('sentences', () => {
  test.each([
    [{ kind: 'takenIn', detail: { teardown: 'Pine bed' } }, 'Mira took it in from «Pine bed».'],
    [{ kind: 'removed', detail: { reason: 'logged twice' } }, 'Mira took it out of the pool: logged twice.'],
    [{ kind: 'putBack' }, 'Mira put it back into the pool.'],
    [{ kind: 'gate', detail: { gate: 'metal', is: 'cleared' } }, 'Mira checked it for metal: cleared.'],
    [
      { kind: 'gate', detail: { gate: 'lead', is: 'found', note: 'two swabs' } },
      'Mira found lead in its finish: two swabs.',
    ],
    [
      { kind: 'held', buildName: 'Stool', detail: { until: '2026-05-03T12:00:00Z' } },
      'Mira held it for «Stool» until Tue 3 May, 14:00.',
    ],
    [
      { kind: 'released', buildName: 'Stool', detail: { was: 'requested' } },
      'Mira took the request back for «Stool».',
    ],
    [
      { kind: 'lapsed', memberName: null, buildName: 'Stool', detail: { was: 'live' } },
      'The hold for «Stool» ran out.',
    ],
    [{ kind: 'offcut', detail: { parentNumber: 12 } }, 'Mira put it into the pool as an offcut of board 12.'],
  ] as const)('%o', (event, sentence) => expect(words(event as Partial<LedgerEvent>).sentence).toBe(sentence))

  test('every kind has its own sentence, also with no detail, no member and no build', () => {
    const said = STOCK_EVENT_KINDS.map((kind) => words({ kind, memberName: null, detail: null }).sentence)
    expect(new Set(said).size).toBe(STOCK_EVENT_KINDS.length)
    for (const s of said) expect(s).toMatch(/^The .+[a-z]\.$/)
  })

  test('a detail of another shape is never shown as code', () => {
    for (const kind of STOCK_EVENT_KINDS)
      for (const detail of [[], 'x', 7, { until: 'soon', reason: 3, fields: [1], marks: 'none', gate: {} }])
        expect(JSON.stringify(words({ kind, detail }))).not.toMatch(/undefined|NaN|Invalid|\[object|null/)
  })
})

test('what changed: one line a figure, in words and in the units of the person', () => {
  const fields = {
    lengthUm: { was: 900_000, is: 880_000 },
    species: { was: 'whiteOak', is: 'beech' },
    terms: { was: 'free', is: 'mine' },
    treated: { was: false, is: true },
    place: { was: '', is: 'Rack 2' },
  }
  expect(words({ detail: { fields } }).lines).toEqual([
    'Length: 900 mm → 880 mm',
    'Species: White oak → American beech',
    'Terms: Free to all → Mine',
    'Preservative: not treated → treated',
    'Place: not said → Rack 2',
  ])
})

test('marks that came and went', () => {
  const mark = { kind: 'knot', face: 'A', xUm: 100_000, yUm: 20_000, widthUm: 30_000, heightUm: 22_000 }
  expect(words({ detail: { marks: { gone: [mark], come: [{ ...mark, kind: 'nailHole' }] } } })).toEqual({
    sentence: 'Mira changed the marks on it.',
    lines: [
      'Gone: knot, 30 mm by 22 mm, at 100 mm along and 20 mm across',
      'New: nail hole, 30 mm by 22 mm, at 100 mm along and 20 mm across',
    ],
  })
})
