// Read back with pdfjs-dist, an independent reader. Paper: ISO 216 (A4 210 × 297), ANSI Letter 8.5 × 11 in.
import { describe, expect, test } from 'vitest'
import type { Drawing } from '#lib/core/design/drawing/drawing'
import type { PdfContent, TextBlock } from '#lib/documents/pdf/content'
import { settable } from '#lib/documents/pdf/fonts'
import { writePdf } from '#lib/documents/pdf/write-pdf'
import { drawingArea } from '#lib/documents/sheet/paper'
import { readPdf } from './read-pdf'

const titleBlock = {
  design: 'Counter seat on raked legs',
  build: 'Seats for the kitchen',
  shop: 'Mill Lane',
  date: '6 May 2026',
}
const content = (blocks: readonly TextBlock[], over: Partial<PdfContent> = {}): PdfContent => ({
  title: 'Packet',
  paper: 'a4',
  titleBlock,
  madeAt: new Date('2026-05-06T09:00:00Z'),
  sections: [{ kind: 'text', title: 'Cut list', blocks }],
  ...over,
})
const read = async (blocks: readonly TextBlock[], over: Partial<PdfContent> = {}) =>
  readPdf(await writePdf(content(blocks, over)))
const joined = (texts: readonly string[]): string => texts.join(' ')

const square: Drawing = {
  view: 'front',
  title: 'Square',
  bounds: { min: [0, 0], max: [500, 500] },
  lines: [
    {
      kind: 'visible',
      points: [
        [0, 0],
        [500, 0],
      ],
    },
    {
      kind: 'hidden',
      points: [
        [0, 250],
        [500, 250],
      ],
    },
  ],
  arrows: [],
  texts: [
    {
      text: '500',
      at: [250, 20],
      heightMm: 35,
      widthMm: 65,
      angleRad: 0,
      kind: 'dimension',
      dimensionId: 'w',
    },
  ],
}

describe('a document', () => {
  test('is set in embedded type, signs and accents as typed', async () => {
    const [sheet] = await read([
      { kind: 'heading', text: 'Legs at 8°' },
      { kind: 'paragraph', text: '38 × 45 mm, 63 7/16", ½, Łódź, Ünal, Θεός, Ижевск' },
    ])
    const text = joined(sheet.texts).replace(/\s+/g, '')
    for (const word of ['Legsat8°', '38×45mm', '637/16"', '½', 'Łódź', 'Ünal', 'Θεός', 'Ижевск'])
      expect(text).toContain(word)
    expect(Buffer.from(await writePdf(content([]))).includes('Helvetica')).toBe(false)
  })

  test('writes out what its type lacks', () => {
    expect(settable('15⅜ in')).toBe('15 3/8 in')
    expect(settable('a\u0000b\tc 椅')).toBe('ab c ?')
  })

  test('is the same bytes for the same content and instant', async () => {
    const one = await writePdf(content([{ kind: 'paragraph', text: 'Same' }]))
    const two = await writePdf(content([{ kind: 'paragraph', text: 'Same' }]))
    const later = await writePdf(
      content([{ kind: 'paragraph', text: 'Same' }], { madeAt: new Date('2026-05-07T09:00:00Z') }),
    )
    expect(Buffer.compare(one, two)).toBe(0)
    expect(Buffer.compare(one, later)).not.toBe(0)
  })

  test.each([
    ['a4', 210, 297],
    ['letter', 8.5 * 25.4, 11 * 25.4],
  ] as const)('%s has its size', async (paper, widthMm, heightMm) => {
    const [sheet] = await read([], { paper })
    expect(sheet.widthMm).toBeCloseTo(widthMm, 3)
    expect(sheet.heightMm).toBeCloseTo(heightMm, 3)
  })

  test('has a title block with the number of sheets on each', async () => {
    const sheets = await read([
      { kind: 'paragraph', text: 'One' },
      { kind: 'newSheet' },
      { kind: 'paragraph', text: 'Two' },
    ])
    expect(sheets).toHaveLength(2)
    sheets.forEach(({ texts }, i) => {
      const all = joined(texts)
      for (const word of Object.values(titleBlock)) expect(all).toContain(word)
      expect(all).toContain(`${i + 1} of 2`)
    })
  })

  test('a table breaks between rows and repeats its head; no row is lost', async () => {
    const rows = Array.from({ length: 130 }, (_, i) => [
      `part ${i + 1}`,
      `${i + 1}`,
      'a note that is long enough to be broken over two lines of its column',
    ])
    const sheets = await read([
      {
        kind: 'table',
        columns: [
          { head: 'Part', share: 2 },
          { head: 'Count', share: 1, align: 'right' },
          { head: 'Note', share: 2 },
        ],
        rows,
      },
    ])
    expect(sheets.length).toBeGreaterThan(3)
    for (const { texts } of sheets) expect(texts).toContain('Note')
    const all = sheets.flatMap(({ texts }) => texts)
    for (const [name] of rows) expect(all.filter((text) => text === name)).toHaveLength(1)
  })

  test('a word longer than its column and a row longer than a sheet are broken', async () => {
    const sheets = await read([
      {
        kind: 'table',
        columns: [
          { head: 'Word', share: 1 },
          { head: 'Rest', share: 9 },
        ],
        rows: [['x'.repeat(2000), 'end']],
      },
    ])
    expect(sheets.length).toBeGreaterThan(1)
    const letters = sheets.flatMap(({ texts }) => texts.filter((text) => /^x+$/.test(text))).join('')
    expect(letters).toHaveLength(2000)
  })

  test('nothing is set outside the frame or over the title block', async () => {
    const long = Array.from({ length: 60 }, () => 'Read the manual of the machine first. '.repeat(4))
    const sheets = await read([
      { kind: 'list', items: long },
      { kind: 'caution', level: 'stop', text: long.join(' ') },
      {
        kind: 'facts',
        items: [
          ['Length', '612.3 mm'],
          ['Rake', '8°'],
          ['Weight', '4.2 kg'],
        ],
      },
    ])
    const { x0, x1, y0, y1 } = drawingArea({ paper: 'a4' })
    // Labels and values of the title block: design, build, shop; sheet, date, number.
    for (const { textsAt } of sheets) expect(textsAt.filter(([, y]) => y < y0).length).toBe(12)
    for (const { paths } of sheets)
      for (const [x, y] of paths.flatMap(({ points }) => points)) {
        expect(x).toBeGreaterThan(x0 - 4)
        expect(x).toBeLessThan(x1 + 4)
        expect(y).toBeLessThan(y1 + 4)
      }
    expect(joined(sheets.flatMap(({ texts }) => texts)).match(/Stop/g)).toHaveLength(1)
  })

  test('a drawing is to scale, its lines after ISO 128-2: thick 0.35, thin 0.18', async () => {
    const [sheet] = await read([{ kind: 'figure', drawing: square, scale: 0.2, caption: '1:5' }])
    const level = sheet.paths.filter(
      ({ points: [a, b], painted }) => painted === 'stroke' && Math.abs(Math.abs(b[0] - a[0]) - 100) < 0.001,
    )
    expect(level.map(({ widthMm }) => Number(widthMm.toFixed(3)))).toEqual([0.18, 0.35])
  })

  test('a plate lies where it is put, to scale', async () => {
    const [sheet] = await readPdf(
      await writePdf(
        content([], {
          sections: [
            {
              kind: 'plate',
              plate: {
                paper: 'a4',
                turned: true,
                title: 'Front',
                scale: '1:10',
                projection: 'firstAngle',
                drawings: [{ drawing: square, scale: 0.1, at: [100, 80] }],
              },
            },
          ],
        }),
      ),
    )
    expect([sheet.widthMm, sheet.heightMm].map((n) => Math.round(n))).toEqual([297, 210])
    const edge = sheet.paths.find(({ points: [a] }) => Math.hypot(a[0] - 100, a[1] - 80) < 0.001)
    expect(edge?.points[1][0]).toBeCloseTo(150, 3)
    expect(joined(sheet.texts)).toContain('First-angle')
  })

  test('a document without sections is a bad call', async () => {
    await expect(writePdf(content([], { sections: [] }))).rejects.toThrow(RangeError)
  })
})
