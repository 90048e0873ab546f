// Drawings of parts alone. What lies over what is judged by boxes (clashes.ts), which share no code with the layout.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { drawnLength } from '#lib/core/design/drawing/draw-model'
import { drawPart, type PartShape, partShape } from '#lib/core/design/drawing/draw-part'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { samePartsOf } from '#lib/core/design/same-parts'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { sayLength } from '#lib/format/length'
import { arrowClashes, lineClashes, textClashes } from './clashes'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const UNITS = {
  mm: drawnLength,
  in: (valueMm: number): string => sayLength(Math.round(valueMm * 1000), 'in'),
} as const

function modelOf(id: string, values: ParameterValues = {}): Model {
  const built = designs.find((design) => design.id === id)!.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}
const shapesOf = (model: Model): PartShape[] =>
  samePartsOf(model.parts).map(({ part }) => partShape(kernel, part))

describe.each(designs.map((design) => design.id))('the parts of %s', (id) => {
  it('are drawn so that nothing lies over a figure, at every standard scale that is of use', () => {
    let judged = 0
    for (const shape of shapesOf(modelOf(id)))
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
