import { describe, expect, test } from 'vitest'
import { refusal } from '#lib/shop/refusal'
import { boardAtField, readRecord } from '../../app/builds/[id]/cutting/record-fields'

const base = {
  planId: 'p',
  boardId: 'b',
  units: 'mm',
  place: 'Rack',
  note: '',
  'part.leg-1': 'on',
  'part.leg-2': 'on',
}
const row = (n: string, l: string, w: string) => ({
  [`keep.${n}`]: 'on',
  [`offcuts.${n}.lengthUm`]: l,
  [`offcuts.${n}.widthUm`]: w,
})
const read = (typed: Record<string, string>) => {
  const r = readRecord({ ...base, ...typed })
  return r.ok ? r.value.input.offcuts : r.error.fields
}

describe('the form that records a cutting', () => {
  test('parts that are ticked, rests that are kept', () => {
    const r = readRecord({ ...base, ...row('1', '500', '60.5'), 'offcuts.0.lengthUm': 'not kept' })
    expect(r).toMatchObject({
      ok: true,
      value: {
        input: { made: ['leg-1', 'leg-2'], offcuts: [{ planned: 1, lengthUm: 500_000, widthUm: 60_500 }] },
        rows: ['1'],
      },
    })
  })

  test('a size that was not touched is the planned one, though inches on a screen are rounded', () => {
    const typed = { units: 'in', 'was.0.lengthUm': '560400', 'was.0.widthUm': '67000' }
    expect(read({ ...typed, ...row('0', '22 1/16', '2 5/8') })).toEqual([
      { planned: 0, lengthUm: 560_400, widthUm: 67_000 },
    ])
    // 22 1/8 in is 561.975 mm: an inch is 25.4 mm (1959 agreement).
    expect(read({ ...typed, ...row('0', '22 1/8', '2 5/8') })).toEqual([
      { planned: 0, lengthUm: 561_975, widthUm: 67_000 },
    ])
  })

  test('another rest; what cannot be read is said beside its field', () => {
    expect(read(row('other', '200', '50'))).toEqual([{ planned: null, lengthUm: 200_000, widthUm: 50_000 }])
    const fields = read(row('0', 'abc', '')) as Record<string, string>
    expect(Object.keys(fields)).toEqual(['offcuts.0.lengthUm', 'offcuts.0.widthUm'])
  })

  test("the refusal's rows are the form's rows", () => {
    const r = refusal('badInput', { fields: { 'offcuts.1.widthUm': 'Too wide.', made: 'No.' } })
    expect(boardAtField(r, ['0', 'other']).fields).toEqual({
      'offcuts.other.widthUm': 'Too wide.',
      made: 'No.',
    })
  })
})
