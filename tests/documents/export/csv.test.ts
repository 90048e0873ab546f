// RFC 4180 (October 2005), read back by a reader written from its grammar. Formulas: OWASP, CSV Injection.
import { describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import { csvText, cutListCsv, hardwareCsv } from '#lib/documents/export/csv'

/** Records and fields of section 2 of the RFC. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]]
  let field = ''
  let isQuoted = false
  for (let i = 0; i < text.length; i++) {
    const sign = text[i]
    if (isQuoted && sign === '"' && text[i + 1] === '"') {
      field += '"'
      i++
    } else if (sign === '"') isQuoted = !isQuoted
    else if (!isQuoted && (sign === ',' || text.startsWith('\r\n', i))) {
      rows[rows.length - 1].push(field)
      field = ''
      if (sign === ',') continue
      i++
      rows.push([])
    } else field += sign
  }
  return rows.slice(0, -1)
}

const models = designs.map(({ id, build }): [string, Model] => {
  const built = build({})
  if (!built.ok) throw new Error(id)
  return [id, built.value]
})

describe('a table as CSV', () => {
  it('keeps commas, quotes and line breaks', () => {
    const row = ['a,b', 'say "x"', 'two\r\nlines', '']
    expect(readCsv(csvText(['1', '2', '3', '4'], [row]))).toEqual([['1', '2', '3', '4'], row])
  })

  it('never lets a name be a formula; numbers stay numbers', () => {
    const text = csvText(
      ['name', 'n'],
      [
        ['=1+1', -8],
        ['@SUM(A1)', 0],
        ['+1', 1],
        ['-1', 2],
        ['\tx', 3],
      ],
    )
    for (const [name, n] of readCsv(text).slice(1)) {
      expect(name).toMatch(/^'/)
      expect(Number(n)).not.toBeNaN()
    }
  })
})

describe.each(models)('the cut list of %s', (_, model) => {
  const [header, ...rows] = readCsv(cutListCsv(model))
  const at = (row: readonly string[], name: string): string => row[header.indexOf(name)]

  it('has every part once, with the size of its blank', () => {
    expect(rows.reduce((sum, row) => sum + Number(at(row, 'count')), 0)).toBe(model.parts.length)
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([header.length]))
    const area = rows.reduce(
      (sum, row) =>
        sum + Number(at(row, 'count')) * Number(at(row, 'length_mm')) * Number(at(row, 'width_mm')),
      0,
    )
    const wanted = model.parts.reduce((sum, { blank }) => sum + blank.lengthMm * blank.widthMm, 0)
    expect(area).toBeCloseTo(wanted, -2)
    const names = rows.flatMap((row) => at(row, 'names').split('; '))
    expect(names.sort()).toEqual(model.parts.map(({ name }) => name).sort())
  })

  it('tells the hardware, size and count', () => {
    const [, ...lines] = readCsv(hardwareCsv(model))
    expect(lines.reduce((sum, [, , count]) => sum + Number(count), 0)).toBe(
      model.joints.reduce((sum, { screws }) => sum + screws.length, 0),
    )
  })
})

describe('the legs of a seat raked at 8°', () => {
  it('have both ends turned by 8°, the blade upright', () => {
    const [header, ...rows] = readCsv(cutListCsv(models.find(([id]) => id === 'counterSeat')![1]))
    const leg = rows.find(([name]) => name.startsWith('Leg, hand a'))!
    expect(
      ['end_a_turn_deg', 'end_a_tilt_deg', 'end_b_turn_deg'].map((name) => leg[header.indexOf(name)]),
    ).toEqual(['8', '0', '8'])
  })
})
