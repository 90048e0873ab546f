import { describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { askFrom, askQuery, judgedForWords, readAsk, USUAL_ASK, woodAsked } from '#lib/shop/strength-ask'

describe('what a piece is judged for', () => {
  test('goes through an address and comes back; what is not said is as usual', () => {
    const typed = { level: 'public', grade: 'knotty', dry: '30,5', damp: '72 %' }
    expect(askFrom(new URLSearchParams(askQuery(typed)))).toEqual(typed)
    expect(askFrom(new URLSearchParams('grade=clear'))).toEqual({ ...USUAL_ASK, grade: 'clear' })
  })

  test('is read as options', () => {
    expect(readAsk(USUAL_ASK)).toEqual({
      ok: true,
      value: {
        level: 'home',
        grade: 'sound',
        dry: { tempC: 21, humidity: 0.35 },
        damp: { tempC: 21, humidity: 0.65 },
      },
    })
  })

  test.each([
    ['a grade that there is not', { ...USUAL_ASK, grade: '__proto__' }, 'grade'],
    ['a use that there is not', { ...USUAL_ASK, level: 'circus' }, 'level'],
    ['no air', { ...USUAL_ASK, dry: '' }, 'dry'],
    ['a year turned round', { ...USUAL_ASK, damp: '20' }, 'damp'],
  ])('%s is refused beside its field', (_, typed, field) => {
    const read = readAsk(typed)
    expect(read.ok ? [] : Object.keys(read.error)).toEqual([field])
  })

  test('the wood by the name that the design gives it', () => {
    const { parameters } = counterSeat
    expect(woodAsked(parameters, { species: 'redOak' })).toMatchObject({
      id: 'redOak',
      name: 'Northern red oak',
    })
    expect(woodAsked(parameters, {}).name).toBe('any sound wood')
    expect(woodAsked([], { species: 'ipe' })).toEqual({ id: 'ipe', name: 'ipe', choices: [] })
  })

  test('in words for paper', () => {
    expect(judgedForWords('White oak', { ...USUAL_ASK, damp: '70 %' }).map(([, value]) => value)).toEqual([
      'White oak',
      'at home (EN 12520)',
      expect.stringMatching(/^sound: knots/),
      '35 %',
      '70 %',
    ])
  })
})
