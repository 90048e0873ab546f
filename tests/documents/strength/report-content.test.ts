// Read back with pdfjs-dist, an independent reader.
import { describe, expect, test } from 'vitest'
import { say3 } from '#lib/core/statics/checks'
import { CAUTION } from '#lib/core/statics/sources'
import { writePdf } from '#lib/documents/pdf/write-pdf'
import { strengthReport } from '#lib/documents/strength/report-content'
import { readPdf } from '../pdf/read-pdf'
import { FACTS, printed } from './printed'

const CASES = [
  ['counterSeat', { species: 'redOak' }],
  ['bookcase', { species: 'beech' }],
  ['sideTable', {}],
  ['wallShelf', { species: 'beech' }],
] as const

const squeezed = (text: string): string => text.replace(/\s+/g, '')

describe.each(CASES)('the printed report of %s', (designId, parameters) => {
  const given = printed(designId, parameters)
  const sheets = writePdf(strengthReport(given, FACTS)).then(readPdf)

  test('carries the whole caution on every sheet', async () => {
    for (const { texts } of await sheets) expect(squeezed(texts.join(' '))).toContain(squeezed(CAUTION))
  })

  test('numbers its sheets, and is no longer than it must be', async () => {
    const all = await sheets
    expect(all.length).toBeGreaterThanOrEqual(3)
    expect(all.length).toBeLessThanOrEqual(8)
    all.forEach(({ texts }, i) => {
      expect(texts.join(' ')).toContain(`${i + 1} of ${all.length}`)
    })
  })

  test('keeps inside the frame of the sheet', async () => {
    for (const { widthMm, heightMm, textsAt, paths } of await sheets)
      for (const [x, y] of [...textsAt, ...paths.flatMap(({ points }) => points)]) {
        expect(x).toBeGreaterThanOrEqual(20 - 0.01)
        expect(x).toBeLessThanOrEqual(widthMm - 10 + 0.01)
        expect(y).toBeGreaterThanOrEqual(10 - 0.01)
        expect(y).toBeLessThanOrEqual(heightMm - 10 + 0.01)
      }
  })

  test('says the governing check with its numbers, every note, and where numbers are from', async () => {
    const text = squeezed((await sheets).flatMap(({ texts }) => texts).join(' '))
    const [first] = given.report.checks
    expect(text).toContain(squeezed(first.title))
    expect(text).toContain(squeezed(`${say3(first.demand)} ${first.unit === 'times' ? '' : first.unit}`))
    for (const heading of ['Checks', 'Wood movement', 'Good to know', 'Sources'])
      expect(text).toContain(squeezed(heading))
    expect(text.includes('Tipping')).toBe(given.report.tipping !== undefined)
    for (const note of given.report.notes) expect(text).toContain(squeezed(note).slice(0, 40))
    expect(text).toContain('(frommemory,notreadagain)')
    expect(text).not.toMatch(/NaN|undefined|Infinity|null/)
  })

  test('draws the piece and its feet', async () => {
    const strokes = (await sheets).flatMap(({ paths }) => paths.filter(({ painted }) => painted === 'stroke'))
    expect(strokes.length).toBeGreaterThan(given.parts.length)
  })
})

test('a wood left open prints every wood; ways to join are printed where there are two', () => {
  const texts = (designId: string, parameters: Record<string, string>) =>
    JSON.stringify(strengthReport(printed(designId, parameters), FACTS))
  const open = texts('counterSeat', {})
  expect(open).toContain('Woods that would do')
  expect(open).toContain('American beech')
  expect(open).toContain('Once the glue has let go')
  const named = texts('sideTable', { species: 'redOak' })
  expect(named).not.toContain('Woods that would do')
  expect(named).not.toContain('Once the glue has let go')
})

test('to who reads inches nothing but a quoted standard is said in mm, N, MPa or kg', () => {
  const report = strengthReport(printed('counterSeat', { species: 'redOak' }), { ...FACTS, units: 'in' })
  const [section] = report.sections
  if (section.kind !== 'text') throw new Error('no text')
  const quoted = section.blocks.findIndex((block) => block.kind === 'heading' && block.text === 'Sources')
  const own = JSON.stringify(section.blocks.slice(0, quoted))
  expect(own).toMatch(/ psi/)
  expect(own).toMatch(/ lbf/)
  expect(own).not.toMatch(/\d (mm|N|MPa|kg)\b/)
  expect(JSON.stringify(section.blocks.slice(quoted))).toMatch(/\d N\b/)
})
