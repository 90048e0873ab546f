import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  checkText,
  choiceText,
  decimalText,
  lengthText,
  nameText,
  noteText,
  optionalLengthText,
  optionalWholeNumberText,
  readTyped,
  wholeNumberText,
} from '#lib/shop/fields'

const sentence = (schema: z.ZodType, text: unknown) => {
  const read = schema.safeParse(text)
  if (read.success) throw new Error(`taken: ${JSON.stringify(read.data)}`)
  return read.error.issues.map((issue) => issue.message)
}

const lengthMm = lengthText({ units: 'mm', what: 'length', minUm: 20_000, maxUm: 12_000_000 })
const lengthIn = lengthText({ units: 'in', what: 'length', minUm: 20_000, maxUm: 12_000_000 })

describe('a length', () => {
  // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
  test.each([
    ['1613', 1_613_000],
    [' 1613,5 ', 1_613_500],
    ['63 7/16', 1_611_313],
    [`5' 3-7/16"`, 1_611_313],
    ['161.3 cm', 1_613_000],
  ])('%s, shown in millimetres, is %i um', (text, valueUm) => expect(lengthMm.parse(text)).toBe(valueUm))

  test('a bare number is in the units that the form was shown in', () => {
    expect(lengthIn.parse('12')).toBe(304_800)
    expect(lengthIn.parse('305 mm')).toBe(305_000)
  })

  test.each([
    ['', 'Enter the length.'],
    [undefined, 'Enter the length.'],
    ['abc', 'This is not a length. Write it like 1613, 161.3 cm, 63 7/16 or 5\' 3-7/16".'],
    ['-3', 'A length cannot be negative.'],
    ['12', 'The length is 12 mm; the least is 20 mm.'],
    ['13 m', 'The length is 13000 mm; the most is 12000 mm.'],
  ])('%s: one sentence', (text, said) => expect(sentence(lengthMm, text)).toEqual([said]))

  test('the sentence speaks in the units of the form', () =>
    expect(sentence(lengthIn, '1/2')).toEqual(['The length is 1/2"; the least is 25/32".']))

  test('may be left out where it is optional, but not be wrong', () => {
    const cup = optionalLengthText({ units: 'mm', what: 'cup' })
    expect(cup.parse(' ')).toBeNull()
    expect(cup.parse(undefined)).toBeNull()
    expect(cup.parse('3')).toBe(3000)
    expect(sentence(cup, 'much')).toHaveLength(1)
  })
})

describe('numbers', () => {
  const count = wholeNumberText({ what: 'number of boards', min: 1, max: 20 })
  test('a whole number', () => expect(count.parse(' 20 ')).toBe(20))
  test.each([
    ['', 'Enter the number of boards.'],
    ['2.5', 'Write the number of boards as a whole number, like 1.'],
    ['four', 'Write the number of boards as a whole number, like 1.'],
    ['0', 'The number of boards is from 1 to 20.'],
    ['21', 'The number of boards is from 1 to 20.'],
    ['999999999999999999', 'Write the number of boards as a whole number, like 1.'],
  ])('%s: one sentence', (text, said) => expect(sentence(count, text)).toEqual([said]))
  test('left out', () =>
    expect(optionalWholeNumberText({ what: 'number', min: 1, max: 9 }).parse('')).toBeNull())
  const rake = decimalText({ what: 'rake', min: 0, max: 30 })
  test.each([
    ['7.5', 7.5],
    ['7,5°', 7.5],
    ['.5', 0.5],
    ['12', 12],
  ])('%s as a decimal', (text, value) => expect(rake.parse(text)).toBe(value))
  test.each(['1e3', 'NaN', 'Infinity', '0x10', '--1', '31'])('%s is refused', (text) =>
    expect(sentence(rake, text)).toHaveLength(1),
  )
})

describe('words', () => {
  test('a name is trimmed and must be there', () => {
    expect(nameText('name').parse('  Pine bed ')).toBe('Pine bed')
    expect(sentence(nameText('name'), '   ')).toEqual(['Enter the name.'])
    expect(sentence(nameText('name', 5), 'Pine bed')).toEqual(['Keep the name to 5 characters.'])
  })
  test('a note may be empty or absent', () => {
    expect(noteText('notes').parse(undefined)).toBe('')
    expect(sentence(noteText('notes', 3), 'long')).toEqual(['Keep the notes to 3 characters.'])
  })
  test('a box', () => {
    expect([checkText.parse('on'), checkText.parse(undefined), checkText.parse('false')]).toEqual([
      true,
      false,
      false,
    ])
  })
  test('one of a few', () =>
    expect(sentence(choiceText(['A', 'B'], 'Choose a face.'), 'C')).toEqual(['Choose a face.']))
})

test('a form: every field at fault has its sentence, the others none', () => {
  const form = z.object({
    length: lengthMm,
    alike: wholeNumberText({ what: 'number', min: 1, max: 20 }),
    note: noteText('note'),
  })
  expect(readTyped(form, { length: 'x', note: 'fine' })).toMatchObject({
    ok: false,
    error: { code: 'badInput', fields: { length: expect.any(String), alike: 'Enter the number.' } },
  })
  expect(readTyped(form, { length: '900', alike: '2', more: 'ignored' })).toEqual({
    ok: true,
    value: { length: 900_000, alike: 2, note: '' },
  })
})
