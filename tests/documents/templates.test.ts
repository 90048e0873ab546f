// Templates read back from the PDF with pdfjs-dist, in mm of the sheet, against the model's formulas.
import { beforeAll, describe, expect, it } from 'vitest'
import type { Hole, Model, Notch } from '#lib/core/design/model'
import { samePartsOf } from '#lib/core/design/same-parts'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { makeDocument } from '#lib/documents/make-document'
import { tileStarts } from '#lib/documents/templates'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { shippedModel } from '../core/design/ask-design'
import { type ReadSheet, readPdf } from './pdf/read-pdf'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

async function sheetsOf(model: Model, paper: 'a4' | 'letter' = 'a4'): Promise<ReadSheet[]> {
  const made = await makeDocument(
    {
      kind: 'templates',
      model,
      paper,
      units: 'mm',
      titleBlock: { design: 'D', build: 'B', shop: 'S', date: '2026-05-06' },
      madeAt: new Date('2026-05-06T09:00:00Z'),
    },
    kernel,
  )
  if (made.status !== 'made') throw new Error(made.message)
  return readPdf(made.bytes)
}

type Line = readonly [readonly [number, number], readonly [number, number]]

/** Thin lines of a sheet: of templates, bars and crosses. */
const linesOf = ({ paths }: ReadSheet): Line[] =>
  paths
    .filter(
      ({ painted, widthMm, points }) =>
        painted === 'stroke' && Math.abs(widthMm - 0.18) < 0.001 && points.length === 2,
    )
    .map(({ points }) => [points[0], points[1]])
const lengthOf = ([a, b]: Line): number => Math.hypot(b[0] - a[0], b[1] - a[1])
const isLevel = ([a, b]: Line): boolean => Math.abs(a[1] - b[1]) < 1e-3

/** Distance of a point from a line. */
const distance = ([a, b]: Line, p: readonly [number, number]): number =>
  Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / lengthOf([a, b])

describe.each([
  ['counterSeat', 'a4'],
  ['counterSeat', 'letter'],
  ['trestleTable', 'a4'],
] as const)('templates of %s on %s', (id, paper) => {
  it('have a bar of 100 mm and one of 4 in on every sheet, and say what to do with it', async () => {
    const sheets = await sheetsOf(shippedModel(id), paper)
    expect(sheets.length).toBeGreaterThan(2)
    for (const sheet of sheets) {
      const level = linesOf(sheet).filter(isLevel).map(lengthOf)
      for (const wanted of [100, 4 * 25.4])
        expect(Math.min(...level.map((mm) => Math.abs(mm - wanted)))).toBeLessThan(0.01)
      const text = sheet.texts.join(' ').replace(/\s+/g, ' ')
      expect(text).toContain('«actual size» or 100 %')
      expect(text).toContain('1:1')
    }
  })
})

describe('a template at full size', () => {
  it.each([4, 8, 12])(
    'has the notches and ends of a leg raked %s° where the formulas have them',
    async (rake) => {
      const model = shippedModel('counterSeat', { rake })
      const [sheet] = await sheetsOf(model)
      const a = (rake * Math.PI) / 180
      const { part } = samePartsOf(model.parts)[0]
      expect(part.kind).toBe('leg, hand a')
      const notches = part.operations.filter((op): op is Notch => op.kind === 'notch')
      // The lower notch lies with end A on the first template: three lines at the rake across the leg.
      const across = part.blank.widthMm / Math.cos(a)
      const lines = linesOf(sheet).filter(
        (line) => !isLevel(line) && Math.abs(lengthOf(line) - across) < 0.01,
      )
      const top = Math.max(...lines.flatMap(([p, q]) => [p[1], q[1]]))
      const first = lines.filter((line) => Math.abs(Math.max(line[0][1], line[1][1]) - top) < 0.01)
      first.sort((p, q) => p[0][0] - q[0][0])
      // The template of the other end may stand beside it.
      expect(first.length).toBeGreaterThanOrEqual(3)
      const [end, near, far] = first
      for (const line of [end, near, far]) {
        const [p, q] = line[0][1] > line[1][1] ? line : [line[1], line[0]]
        expect(Math.atan2(Math.abs(q[0] - p[0]), p[1] - q[1])).toBeCloseTo(a, 5)
      }
      const lower = notches.reduce((one, other) => (one.alongMm < other.alongMm ? one : other))
      expect(distance(near, far[0])).toBeCloseTo(lower.widthMm, 2)
      // From the end to the near shoulder, square to both: the middle of the notch is given on the middle line.
      const middleOfEnd = (part.blank.widthMm / 2) * Math.tan(a)
      const wanted = (lower.alongMm - middleOfEnd) * Math.cos(a) - lower.widthMm / 2
      expect(Math.abs(distance(end, near[0]) - wanted)).toBeLessThan(0.01)
    },
  )

  it('has each hole of a pattern at its place and of its size', async () => {
    const model = shippedModel('counterSeat')
    const sheets = await sheetsOf(model)
    const circles = sheets.flatMap(({ paths }) =>
      paths
        .filter(({ points }) => points.length === 49)
        .map(({ points }) => {
          const xs = points.map(([x]) => x)
          const ys = points.map(([, y]) => y)
          return {
            x: (Math.min(...xs) + Math.max(...xs)) / 2,
            y: (Math.min(...ys) + Math.max(...ys)) / 2,
            d: Math.max(...xs) - Math.min(...xs),
          }
        }),
    )
    const rail = samePartsOf(model.parts).find(({ part: { kind } }) => kind === 'rail')!.part
    const holes = rail.operations.filter((op): op is Hole => op.kind === 'hole')
    const pairs = holes.flatMap((one, i) => holes.slice(i + 1).map((other) => [one, other] as const))
    let judged = 0
    for (const [one, other] of pairs) {
      const [dx, dy] = [other.point[0] - one.point[0], other.point[1] - one.point[1]]
      if (Math.hypot(dx, dy) > 60) continue
      const found = circles.some((p) =>
        circles.some(
          (q) =>
            Math.abs(q.x - p.x - dx) < 0.01 &&
            Math.abs(q.y - p.y - dy) < 0.01 &&
            Math.abs(p.d - one.diameterMm) < 0.01,
        ),
      )
      expect(found, `${dx} ${dy}`).toBe(true)
      judged++
    }
    expect(judged).toBeGreaterThan(1)
  })

  it('larger than a sheet is tiled: laid cross over cross the tiles give the whole again', async () => {
    const model = shippedModel('trestleTable')
    const sheets = await sheetsOf(model)
    const tiles = sheets.filter(({ texts }) =>
      texts.some((text) => text.includes('lay the crosses over each other')),
    )
    expect(tiles.length).toBeGreaterThan(2)
    // A bearer with twelve holes in its upper edge, in the order of its tiles.
    const name = tiles[0].texts.find((text) => text.includes('lay the crosses'))!.split('. Sheet')[0]
    const own = tiles.filter(({ texts }) => texts.some((text) => text.startsWith(name)))
    const crosses = own.map((sheet) => {
      const short = linesOf(sheet).filter((line) => Math.abs(lengthOf(line) - 8) < 0.001)
      return short.filter(isLevel).map(([a, b]): [number, number] => [(a[0] + b[0]) / 2, a[1]])
    })
    crosses.slice(1).forEach((tile, i) => {
      // Right pair of one tile, left pair of the next: the same distance apart, the same height.
      const right = Math.max(...crosses[i].map(([x]) => x))
      const left = Math.min(...tile.map(([x]) => x))
      const ys = (list: readonly [number, number][], x: number): number[] =>
        list
          .filter(([cx]) => Math.abs(cx - x) < 0.01)
          .map(([, y]) => y)
          .sort((p, q) => p - q)
      expect(ys(crosses[i], right)).toHaveLength(2)
      ys(crosses[i], right).forEach((y, k) => {
        expect(y).toBeCloseTo(ys(tile, left)[k], 2)
      })
      expect(right).toBeGreaterThan(left)
    })
  })

  it('covers any length with tiles that overlap', () => {
    expect(tileStarts(200, 250)).toEqual([0])
    for (const [length, room] of [
      [251, 250],
      [1400, 250],
      [487.9, 250],
    ]) {
      const starts = tileStarts(length, room)
      expect(starts[starts.length - 1] + room).toBeGreaterThanOrEqual(length)
      starts.slice(1).forEach((start, i) => {
        expect(start - starts[i]).toBeCloseTo(room - 12, 9)
      })
    }
  })

  it('is not made of square and plain parts', async () => {
    const model = shippedModel('crate')
    const plain = { ...model, parts: model.parts.map((part) => ({ ...part, operations: [] })) }
    await expect(sheetsOf(plain)).rejects.toThrow('square and plain')
  })
})
