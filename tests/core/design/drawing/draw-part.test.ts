// Drawings of parts alone. What lies over what is judged by boxes (clashes.ts), which share no code with the layout.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { drawnLength } from '#lib/core/design/drawing/draw-model'
import { drawPart, type PartShape, partShape } from '#lib/core/design/drawing/draw-part'
import { partNotes } from '#lib/core/design/drawing/part-notes'
import { arrisOf, endAt, type LongFace } from '#lib/core/design/drawing/part-view'
import type { Model } from '#lib/core/design/model'
import { samePartsOf } from '#lib/core/design/same-parts'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { dot, sub } from '#lib/core/geometry/vec3'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { sayLength } from '#lib/format/length'
import { shippedModel } from '../ask-design'
import { arrowClashes, lineClashes, textClashes } from './clashes'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const UNITS = {
  mm: drawnLength,
  in: (valueMm: number): string => sayLength(Math.round(valueMm * 1000), 'in'),
} as const

const shapesOf = (model: Model): PartShape[] =>
  samePartsOf(model.parts).map(({ part }) => partShape(kernel, part))

describe.each(designs.map((design) => design.id))('the parts of %s', (id) => {
  it('are drawn so that nothing lies over a figure, at every standard scale that is of use', () => {
    let judged = 0
    for (const shape of shapesOf(shippedModel(id)))
      for (const say of Object.values(UNITS))
        for (const denominator of [1, 2, 5, 10]) {
          const sketch = drawPart(shape, { textMm: 3.5 * denominator, say })
          const found = [
            ...textClashes(sketch),
            ...lineClashes(sketch, ['visible', 'hidden', 'axis', 'dimension']),
            ...arrowClashes(sketch),
          ]
          expect(found, `${shape.part.kind} 1:${denominator}`).toEqual([])
          judged += sketch.texts.length
        }
    expect(judged).toBeGreaterThan(100)
  })
})

const textsOf = (shape: PartShape): Record<string, string> =>
  Object.fromEntries(
    drawPart(shape, { textMm: 12, say: drawnLength }).texts.map((text) => [text.dimensionId, text.text]),
  )

describe('what a drawing of a part says', () => {
  // A leg raked a under an underside h: h / cos a along either edge, h / cos a + w tan a in all, notches w / cos a
  // along it (plane trigonometry; the same sums in docs/methods/design.md).
  it('a raked leg: both edges, the whole, the rake at both ends, shoulders as long as the formulas say', () => {
    const a = (8 * Math.PI) / 180
    const leg = shapesOf(shippedModel('counterSeat', { rake: 8 })).find(
      ({ part }) => part.kind === 'leg, hand a',
    )!
    const texts = textsOf(leg)
    const along = 577.4 / Math.cos(a)
    expect(Number(texts['faceA length top'])).toBeCloseTo(along, 0)
    expect(texts['faceA length faceA bottom']).toBe(texts['faceA length top'])
    expect(texts['faceA overall']).toBe(`(${drawnLength(leg.part.blank.lengthMm)})`)
    expect([texts['faceA end A angle'], texts['faceA end B angle']]).toEqual(['8°', '8°'])
    const widthMm = leg.part.operations.flatMap((op) => (op.kind === 'notch' ? [op.widthMm] : []))[0]
    const [near, far] = [1, 2].map((i) => Number(texts[`faceA N2 shoulder ${i}`]))
    expect(far - near).toBeCloseTo(widthMm / Math.cos(a), 0)
    // The upper notch runs out through the end: it has one shoulder, as far from the end as it is long.
    expect(along - Number(texts['faceA N1 shoulder 1'])).toBeCloseTo(widthMm / Math.cos(a), 0)
  })

  it('every part: width, thickness and each place, and nothing twice', () => {
    for (const { id } of designs)
      for (const shape of shapesOf(shippedModel(id))) {
        const { texts } = drawPart(shape, { textMm: 12, say: drawnLength })
        const ids = texts.map((text) => text.dimensionId)
        expect(new Set(ids).size, `${id} ${shape.part.kind}`).toBe(ids.length)
        const said = textsOf(shape)
        const { blank, operations } = shape.part
        const numbers = new Set(Object.values(said))
        for (const size of [blank.widthMm, blank.thicknessMm])
          expect(numbers, shape.part.kind).toContain(drawnLength(size))
        const spans = Object.keys(said).filter((key) => / length | length top/.test(key))
        expect(spans.length, shape.part.kind).toBeGreaterThan(0)
        // One name a notch, and it is said in words too.
        const notches = operations.filter((op) => op.kind === 'notch')
        notches.forEach((_, i) => {
          expect(texts.filter((text) => text.text === `N${i + 1}`)).toHaveLength(1)
          expect(partNotes(shape.part, drawnLength).join(' ')).toContain(`N${i + 1}`)
        })
      }
  })

  it('every hole can be found: its place along and across is among the running dimensions of its side', () => {
    let judged = 0
    for (const { id } of designs)
      for (const shape of shapesOf(shippedModel(id))) {
        const sketch = drawPart(shape, { textMm: 12, say: drawnLength })
        for (const view of [...shape.long, ...shape.ends])
          for (const hole of view.holes) {
            const corner = arrisOf(shape.part, view.face as LongFace, 'bottom')
            if (view.face === 'endA' || view.face === 'endB') continue
            const zero = endAt(shape.part, 'endA', corner)
            const along = Math.abs(hole.point[0] - zero)
            const across = Math.abs(dot(sub(hole.point, corner), view.axes.up))
            const own = sketch.texts
              .filter((text) => text.dimensionId?.startsWith(view.face))
              .map((text) => Number(text.text.replace('−', '')))
              .filter(Number.isFinite)
            for (const place of [along, across])
              expect(Math.min(place, ...own.map((n) => Math.abs(n - place)))).toBeLessThan(0.051)
            judged++
          }
      }
    expect(judged).toBeGreaterThan(150)
  })

  it('a compound cut: turn of the sled and tilt of the blade in words, what a rule finds on each side drawn', () => {
    const leg = shapesOf(shippedModel('splayedStool')).find(({ part }) => part.kind.startsWith('leg'))!
    expect(partNotes(leg.part, drawnLength)[0]).toBe('End A: cut turned 7.9° from square, blade tilted 8°.')
    // tan 8° / cos 7.9236°: the blade's tilt as it shows on an edge.
    expect(textsOf(leg)['edgeB end B angle']).toBe('8.1°')
  })

  it('a part turned about its grain keeps end A on the left; the end seen from the left stands on the right', () => {
    const shape = shapesOf(shippedModel('bench')).find(({ ends }) => ends.length > 0)!
    const { texts } = drawPart(shape, { textMm: 12, say: drawnLength })
    const at = (id: string): number => texts.find((text) => text.dimensionId === id)!.at[0]
    expect(shape.ends.map(({ face }) => face)).toEqual(['endB'])
    expect(at('name of end B')).toBeLessThan(at('name of face A, end A on the left'))
  })
})
