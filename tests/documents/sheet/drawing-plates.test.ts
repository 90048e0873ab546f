// Scales: ISO 5455 (1:1, 1:2, 1:5, 1:10, 1:20, 1:50, 1:100). Frame: ISO 5457, 20 mm on the left, 10 mm elsewhere.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { boundsOf, textBox } from '#lib/core/design/drawing/drawing'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { DrawingSet } from '#lib/documents/drawing-set'
import { plateOptions, tooLargeWords } from '#lib/documents/make-document'
import { drawingArea, frameOf } from '#lib/documents/sheet/paper'
import { type Plate, plateMarks } from '#lib/documents/sheet/plate'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { shippedModel } from '../../core/design/ask-design'
import { arrowClashes, boxOf, lineClashes, overlap, textClashes } from '../../core/design/drawing/clashes'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const WAYS = [plateOptions({ paper: 'a4', units: 'mm' }), plateOptions({ paper: 'letter', units: 'in' })]
const block = { design: 'D', build: 'B', shop: 'S', date: '2026-05-06' }

describe.each(designs.map(({ id }) => id))('every sheet of %s', (id) => {
  it('fits its sheet at a standard scale, and nothing lies over anything', () => {
    const set = new DrawingSet(kernel, shippedModel(id))
    for (const options of WAYS)
      for (const { id: sheet } of set.names) {
        const made = set.sheet(sheet, options)!
        if (made.status !== 'made') throw new Error(`${id} ${sheet} does not fit`)
        const { plate } = made
        expect(['1:1', '1:2', '1:5', '1:10', '1:20', '1:50']).toContain(plate.scale)
        const [{ drawing, scale, at }] = plate.drawings
        const found = [
          ...textClashes(drawing),
          ...lineClashes(drawing, ['visible', 'hidden', 'surroundings', 'floor', 'axis', 'dimension']),
          ...arrowClashes(drawing),
        ]
        expect(found, `${id} ${sheet} ${plate.scale}`).toEqual([])
        const area = drawingArea(plate)
        const size = [0, 1].map((i) => (drawing.bounds.max[i] - drawing.bounds.min[i]) * scale)
        expect(at[0]).toBeGreaterThanOrEqual(area.x0 - 1e-6)
        expect(at[1]).toBeGreaterThanOrEqual(area.y0 - 1e-6)
        expect(at[0] + size[0]).toBeLessThanOrEqual(area.x1 + 1e-6)
        expect(at[1] + size[1]).toBeLessThanOrEqual(area.y1 + 1e-6)
        // Words of the sheet keep clear of the drawing and of each other, with a mean letter 0.5 of its size wide.
        expect(wordClashes(plate), `${id} ${sheet}`).toEqual([])
      }
  })
})

function wordClashes(plate: Plate): string[] {
  const [{ drawing, scale, at }] = plate.drawings
  const put = (x: number, i: number): number => at[i] + (x - drawing.bounds.min[i]) * scale
  const figures = drawing.texts.map((text) => {
    const { min, max } = boundsOf(textBox(text))
    return {
      text: text.text,
      box: {
        min: [put(min[0], 0), put(min[1], 1)] as const,
        max: [put(max[0], 0), put(max[1], 1)] as const,
      },
    }
  })
  const { texts } = plateMarks(plate, block, { sheet: 1, of: 1 })
  const words = texts
    .filter((text) => text.clear !== true)
    .map((text) => {
      const width = text.text.length * 0.5 * text.sizeMm
      const left = text.at[0] - (text.anchor === 'end' ? width : text.anchor === 'middle' ? width / 2 : 0)
      const half = text.sizeMm / 2
      return {
        text: text.text,
        box: { min: [left, text.at[1] - half] as const, max: [left + width, text.at[1] + half] as const },
      }
    })
  const { x1 } = frameOf(plate)
  return words.flatMap(({ text, box }, i) => [
    ...[...figures, ...words.slice(i + 1)]
      .filter((other) => overlap(box, other.box))
      .map((other) => `«${text}» over «${other.text}»`),
    ...(box.max[0] > x1 ? [`«${text}» runs out of the frame`] : []),
  ])
}

describe('a scale that is asked for', () => {
  it('is taken where it fits', () => {
    const set = new DrawingSet(kernel, shippedModel('crate'))
    const made = set.sheet('part-1', { ...WAYS[0], scale: 5 })!
    expect(made.status === 'made' && [made.plate.scale, made.plate.drawings[0].scale]).toEqual(['1:5', 0.2])
  })

  it('is refused where it does not, with the room it takes and the scale that fits', () => {
    const set = new DrawingSet(kernel, shippedModel('counterSeat'))
    const made = set.sheet('front', { ...WAYS[0], scale: 1 })!
    if (made.status !== 'tooLarge') throw new Error('it fits')
    expect(made.needsMm[1]).toBeGreaterThan(900)
    expect(tooLargeWords(made)).toMatch(/The largest that fits is 1:(5|10)\.$/)
    const again = set.sheet('front', { ...WAYS[0], scale: made.largest })!
    expect(again.status).toBe('made')
  })

  it('an id that is none is no sheet', () => {
    const set = new DrawingSet(kernel, shippedModel('crate'))
    for (const id of ['part-0', 'part-99', 'part-', 'back', '', 'constructor'])
      expect(set.sheet(id, WAYS[0]), id).toBeUndefined()
  })
})

describe('the whole piece in first-angle projection (ISO 5456-2)', () => {
  it('has the view from the right on the left, the top below, each in line with the front', () => {
    const made = new DrawingSet(kernel, shippedModel('sideTable')).sheet('all', WAYS[0])!
    if (made.status !== 'made') throw new Error('does not fit')
    expect(made.plate.projection).toBe('firstAngle')
    const [{ drawing }] = made.plate.drawings
    const visible = drawing.lines
      .filter(({ kind }) => kind === 'visible')
      .map(({ points }) => boundsOf(points))
    const heights = visible.filter(({ min, max }) => max[0] - min[0] < 1e-6 && max[1] - min[1] > 400)
    // Upright edges of legs, in front and side view: the same heights, and some stand left of all of the front.
    expect(new Set(heights.map(({ min }) => Math.round(min[1]))).size).toBe(1)
    expect(Math.min(...heights.map(({ min }) => min[0]))).toBeLessThan(-300)
    expect(boxOf(drawing.texts[0]).max[0]).toBeLessThan(drawing.bounds.max[0])
  })
})
