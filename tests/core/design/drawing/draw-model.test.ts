import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { designs } from '#lib/core/design/designs/registry'
import { angleText } from '#lib/core/design/drawing/angle-dimension'
import { placeDimensions, textWidth } from '#lib/core/design/drawing/dimension-layout'
import {
  type DrawOptions,
  drawView,
  type ModelView,
  modelViews,
  textHeightFor,
} from '#lib/core/design/drawing/draw-model'
import { type Bounds2, boundsOf, type Drawing, textBox } from '#lib/core/design/drawing/drawing'
import type { Model, ParameterValues } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

function modelOf(values: ParameterValues = {}): Model {
  const built = counterSeat.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}
const drawn = (
  model: Model,
  textMm: number,
  options: Partial<DrawOptions> = {},
): { view: ModelView; drawing: Drawing }[] =>
  modelViews(kernel, model).map((view) => ({ view, drawing: drawView(model, view, { ...options, textMm }) }))

/** Inches and sixteenths: longer figures than millimetres. */
const inches = (valueMm: number): string => {
  const sixteenths = Math.round((valueMm / 25.4) * 16)
  return `${Math.floor(sixteenths / 16)} ${sixteenths % 16}/16"`
}

const overlaps = (a: Bounds2, b: Bounds2, by = 0.01): boolean =>
  [0, 1].every((i) => a.min[i] < b.max[i] - by && b.min[i] < a.max[i] - by)

/** Texts that lie over each other, over the object, or outside the drawing. */
function clashes({ view, drawing }: { view: ModelView; drawing: Drawing }): string[] {
  const boxes = drawing.texts.map((text) => ({
    name: text.dimensionId ?? text.text,
    box: boundsOf(textBox(text)),
  }))
  const found: string[] = []
  boxes.forEach(({ name, box }, i) => {
    for (const other of boxes.slice(i + 1))
      if (overlaps(box, other.box)) found.push(`${name} over ${other.name}`)
    if (drawing.texts[i].kind === 'dimension' && overlaps(box, view.object) && name !== 'rake')
      found.push(`${name} over the object`)
    if (overlaps(box, drawing.bounds) && !contains(drawing.bounds, box)) found.push(`${name} off the sheet`)
  })
  return found
}
const contains = (a: Bounds2, b: Bounds2): boolean =>
  a.min[0] <= b.min[0] && a.min[1] <= b.min[1] && a.max[0] >= b.max[0] && a.max[1] >= b.max[1]

describe('the drawings of the counter seat', () => {
  it('carry the dimensions that a maker needs, as numbers of the model', () => {
    const texts = Object.fromEntries(
      drawn(modelOf({ rake: 8, overhang: 25 }), 12).map(({ drawing }) => [
        drawing.view,
        Object.fromEntries(drawing.texts.map((text) => [text.dimensionId, text.text])),
      ]),
    )
    expect(texts.front).toMatchObject({
      seatWidth: '400',
      seatHeight: '596.4',
      kneeClearance: '280',
      counterHeight: '914.4',
    })
    expect(texts.side).toMatchObject({
      rake: '8°',
      footSpread: '472.3',
      seatDepth: '360',
      underside: '577.4',
    })
    expect(texts.top).toMatchObject({ seatDepth: '360', boardWidth: '85.5', seatGap: '6' })
  })

  it('show one seat alone, however many are made, and the same seat each time', () => {
    const size = (abreast: number): number => {
      const { object } = modelViews(kernel, modelOf({ abreast, counterLength: abreast * 650 }))[0]
      return object.max[0] - object.min[0]
    }
    expect(size(1)).toBeCloseTo(400, 3)
    expect(size(4)).toBeCloseTo(400, 3)
  })

  it('stand on the floor and spread as far as the figures say', () => {
    const model = modelOf({ supportWidth: 50, overhang: 25 })
    const overall = model.figures.find((figure) => figure.id === 'overallDepth')?.value ?? 0
    // The footrest rail stands a little further out than the feet: 472.3 mm and 1.1.
    expect(overall).toBeCloseTo(473.426, 2)
    for (const { view } of drawn(model, 12)) {
      if (view.view !== 'top') expect(view.object.min[1]).toBeCloseTo(0, 3)
      if (view.view === 'side') expect(view.object.max[0] - view.object.min[0]).toBeCloseTo(overall, 2)
    }
  })

  it('have lines of every kind, and can leave hidden lines and screws out', () => {
    const model = modelOf()
    const [, side] = modelViews(kernel, model)
    const kinds = (options: object): Set<string> =>
      new Set(drawView(model, side, { textMm: 12, ...options }).lines.map((line) => line.kind))
    expect(kinds({})).toEqual(new Set(['surroundings', 'floor', 'hidden', 'axis', 'visible', 'dimension']))
    expect(kinds({ hiddenLines: false, screws: false }).has('hidden')).toBe(false)
    expect(kinds({ hiddenLines: false, screws: false }).has('axis')).toBe(false)
  })

  it('have no angle where the legs stand upright', () => {
    const texts = drawn(modelOf({ rake: 0 }), 12).flatMap(({ drawing }) => drawing.texts)
    expect(texts.some((text) => text.text.includes('°'))).toBe(false)
    expect(angleText((7.5 * Math.PI) / 180)).toBe('7.5°')
  })

  it('write figures at the size that was asked for, on a phone and on a desk', () => {
    const model = modelOf()
    for (const view of modelViews(kernel, model))
      for (const px of [340, 900]) {
        const textMm = textHeightFor(model, view, px, 12, { narrow: px < 500 })
        const { bounds } = drawView(model, view, { textMm, narrow: px < 500 })
        const shownPx = (textMm * px) / (bounds.max[0] - bounds.min[0])
        expect(shownPx).toBeGreaterThan(11)
        expect(shownPx).toBeLessThan(13)
      }
  })

  it('no text lies over another, over the seat or off the sheet, whatever the parameters and the text size', () => {
    let judged = 0
    fc.assert(
      fc.property(
        fc.record({
          rake: fc.double({ min: 0, max: 12, noNaN: true }),
          kneeClearance: fc.integer({ min: 220, max: 330 }),
          seatWidth: fc.integer({ min: 330, max: 480 }),
          footRestHeight: fc.integer({ min: 160, max: 280 }),
          seatBoards: fc.integer({ min: 1, max: 4 }),
          seatGap: fc.constantFrom(0, 3, 6),
          joint: fc.constantFrom('letIn', 'onFace'),
          tuckUnder: fc.integer({ min: 0, max: 200 }),
          floorDepth: fc.constant(900),
        }),
        fc.integer({ min: 8, max: 34 }),
        fc.constantFrom(undefined, inches),
        fc.boolean(),
        (values, textMm, say, narrow) => {
          const built = counterSeat.build(values)
          if (!built.ok) return
          for (const sheet of drawn(built.value, textMm, { say, narrow })) {
            judged++
            expect(clashes(sheet), `${sheet.drawing.view} ${JSON.stringify(values)} ${textMm}`).toEqual([])
          }
        },
      ),
      { numRuns: 120, seed: 6 },
    )
    expect(judged).toBeGreaterThan(150)
  })
})

describe.each([...designs])('$id as it stands', (design) => {
  it.each([360, 620, 900])(
    'is legible %d px wide: no text over another, over the parts or off the sheet',
    (widthPx) => {
      const built = design.build({})
      if (!built.ok) throw new Error(design.id)
      const angles = new Set(
        (built.value.dimensions ?? []).filter((d) => d.kind === 'angle').map((d) => d.id),
      )
      for (const view of modelViews(kernel, built.value)) {
        const textMm = textHeightFor(built.value, view, widthPx, 12)
        const sheet = { view, drawing: drawView(built.value, view, { textMm }) }
        const found = clashes(sheet).filter(
          (clash) => ![...angles].some((id) => clash === `${id} over the object`),
        )
        expect(found, view.view).toEqual([])
      }
    },
  )
})

describe('placing dimensions', () => {
  const object: Bounds2 = { min: [0, 0], max: [100, 100] }
  const place = (list: [number, number][], h = 5) =>
    placeDimensions(
      list.map(([from, to], i) => ({
        id: `${i}`,
        side: 'below' as const,
        from: [from, 0],
        to: [to, 0],
        text: `${to - from}`,
      })),
      { object, all: object, obstacles: [] },
      h,
    )

  it('puts shorter ones nearer, chains in one row, and the same one once', () => {
    const { texts } = place([
      [0, 100],
      [0, 50],
      [50, 100],
      [0, 100],
    ])
    expect(texts).toHaveLength(3)
    const [a, b, c] = ['0', '1', '2'].map((id) => texts.find((text) => text.dimensionId === id)!)
    expect(b.at[1]).toBe(c.at[1])
    expect(a.at[1]).toBeLessThan(b.at[1])
  })

  it('sets a text that has no room beside its arrows, which turn round', () => {
    const { texts, arrows } = place([[40, 44]])
    expect(Math.abs(texts[0].at[0] - 42)).toBeGreaterThan(2 + textWidth('4', 5) / 2)
    // The tip of the lower arrow is at 40, its back further out.
    expect(arrows[0].points[0][0]).toBe(40)
    expect(arrows[0].points[1][0]).toBeLessThan(40)
  })

  it('moves a text out of the way of an extension line that passes', () => {
    const { texts } = place([
      [0, 60],
      [30, 100],
    ])
    const inner = texts.find((text) => text.dimensionId === '0')!
    const box = boundsOf(textBox(inner))
    expect(box.min[0] > 30 || box.max[0] < 30).toBe(true)
  })
})
