import { describe, expect, test } from 'vitest'
import { formatInches } from '#lib/core/units/inches'
import { readBoard } from '../../app/boards/typed-board'
import { readWanted, wantedHref, wantedText } from '../../app/pool/wanted'

const typed = {
  units: 'mm',
  length: '1613',
  width: '140,5',
  thickness: '22',
  species: 'beech',
  finish: 'paintNew',
  terms: 'ask',
}

describe('a board as typed', () => {
  test('read into what is stored', () =>
    expect(readBoard(typed)).toMatchObject({
      ok: true,
      value: {
        lengthUm: 1_613_000,
        widthUm: 140_500,
        thicknessUm: 22_000,
        cupUm: 0,
        finish: 'paint',
        isFinishNew: true,
        treated: false,
        place: '',
      },
    }))

  test('a sentence a field at fault', () => {
    const read = readBoard({ ...typed, length: '', width: 'wide', twist: '-1', species: '', terms: 'x' })
    expect(read).toMatchObject({ ok: false, error: { code: 'badInput' } })
    if (!read.ok)
      expect(Object.keys(read.error.fields ?? {}).sort()).toEqual([
        'length',
        'species',
        'terms',
        'twist',
        'width',
      ])
  })

  test('no units, no guess', () => expect(readBoard({ ...typed, units: 'cubits' }).ok).toBe(false))

  test('shown in inches to the nearest fraction, an untouched size keeps its exact value; a touched one does not', () => {
    const lengthUm = 1_612_345
    const shown = formatInches(lengthUm, { denominator: 16 }).replace('"', '')
    const form = {
      ...typed,
      units: 'in',
      width: '5 1/2',
      thickness: '7/8',
      shown: JSON.stringify({ length: lengthUm, width: 1 }),
    }
    expect(readBoard({ ...form, length: shown })).toMatchObject({ value: { lengthUm, widthUm: 139_700 } })
    expect(readBoard({ ...form, length: '63' })).toMatchObject({ value: { lengthUm: 1_600_200 } })
  })

  test.each(['not json', '[]', '{"length":"x"}', 'null'])('what is shown as %s is left out', (shown) =>
    expect(readBoard({ ...typed, shown }).ok).toBe(true),
  )
})

describe('what the address of the pool asks for', () => {
  test('lengths in the units of the person, ticks, class of wood', () =>
    expect(readWanted({ length: '36', species: 'hardwood', free: 'yes' }, 'in')).toMatchObject({
      fields: {},
      input: { minLengthUm: 914_400, species: 'hardwood', freeNow: true, state: 'inPool', page: 1 },
    }))

  test('a field that cannot be read has its sentence, the others stay in force', () => {
    const { fields, input } = readWanted({ length: 'long', width: '90', number: '-', species: 'gold' }, 'mm')
    expect(Object.keys(fields).sort()).toEqual(['length', 'number', 'species'])
    expect(input).toMatchObject({ minWidthUm: 90_000, minLengthUm: undefined, species: undefined })
  })

  test.each(['0', '-1', 'x', '1e9'])('page %s is page 1', (page) =>
    expect(readWanted({ page }, 'mm').input.page).toBe(1),
  )

  test('the address of another page keeps what is asked for; another owner begins at page 1', () => {
    const now = wantedText({ length: ['900', '1'], page: '3', nonsense: 'x', free: 'yes' })
    expect(wantedHref(now, { page: '4' })).toBe('/pool?length=900&free=yes&page=4')
    expect(wantedHref(now, { owner: 'me' })).toBe('/pool?length=900&free=yes&owner=me')
    expect(wantedHref({}, {})).toBe('/pool')
  })
})
