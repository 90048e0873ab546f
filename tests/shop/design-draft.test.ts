import { describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { DRAFT_KEY, draftQuery, draftTexts, readDraft } from '#lib/shop/design-draft'
import { readParameterTexts } from '#lib/shop/typed-parameters'

const specs = counterSeat.parameters
const through = (query: string) => readDraft(specs, new URLSearchParams(query).getAll(DRAFT_KEY))

describe('numbers that a link offers', () => {
  test('come back as they went in', () => {
    const values = { supportWidth: 76, rake: 8.5, joint: 'onFace', abreast: 3 }
    expect(through(draftQuery(values))).toEqual(values)
  })

  test.each([
    ['a number that the design does not know', 'try=wheels:4'],
    ['one beyond its range', 'try=rake:80'],
    ['text where a number belongs', 'try=rake:steep'],
    ['no number at all', 'try=rake:'],
    ['no name', 'try=:8'],
    ['half a seat', 'try=abreast:1.5'],
    ['a choice that is none', 'try=joint:welded'],
    ['infinity', 'try=rake:Infinity'],
    ['something else', 'other=rake:8'],
    ['the name of an object’s own parts', 'try=__proto__:8&try=constructor:8'],
  ])('drops %s', (_, query) => expect(through(query)).toEqual({}))

  test('one is read as well as many, none as none, and of two the last', () => {
    expect(readDraft(specs, 'rake:9')).toEqual({ rake: 9 })
    expect(readDraft(specs, undefined)).toEqual({})
    expect(through('try=rake:9&try=rake:10')).toEqual({ rake: 10 })
  })

  test.each(['mm', 'in'] as const)('typed into the fields they are the same numbers, in %s', (units) => {
    const values = { supportWidth: 76, rake: 8.5, joint: 'onFace', screwLength: 30 }
    const read = readParameterTexts(specs, draftTexts(specs, values, units), {}, units)
    expect(read.faults).toEqual({})
    expect(read.values).toMatchObject(values)
  })
})
