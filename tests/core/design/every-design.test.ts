/** Random parameters for every design in the registry. DESIGN_RUNS=1000 runs longer. */
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { firstUnit, judgeJoints, judgeSolids, judgeStanding } from './judge-model'
import { parametersOf } from './random-parameters'

const RUNS = Number(process.env.DESIGN_RUNS ?? 150)
const only = process.env.DESIGN_ONLY
let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

describe.each(designs.filter(({ id }) => only === undefined || id === only))('$id', (design) => {
  it('refuses by name, or is sound: solids, no shared wood, standing, joints, screws', {
    timeout: 600_000,
  }, () => {
    const judged = { built: 0, refused: 0, pairs: 0 }
    const known = new Set(design.parameters.map((parameter) => parameter.id))
    fc.assert(
      fc.property(parametersOf(design), (values) => {
        const built = design.build(values)
        if (!built.ok) {
          judged.refused++
          expect(built.error.length).toBeGreaterThan(0)
          for (const { parameter, message } of built.error) {
            expect(known.has(parameter), parameter).toBe(true)
            expect(message).toMatch(/^.{15,}\.$/)
            expect(message).not.toMatch(/NaN|Infinity|undefined/)
          }
          return
        }
        judged.built++
        const parts = firstUnit(built.value)
        judgeStanding(built.value, parts)
        judged.pairs += judgeSolids(kernel, parts)
        judgeJoints(built.value, parts)
      }),
      { numRuns: RUNS, seed: 31 },
    )
    expect(judged.built).toBeGreaterThan(RUNS / 8)
    expect(judged.refused).toBeGreaterThan(RUNS / 30)
    expect(judged.pairs).toBeGreaterThan(judged.built * 5)
  })

  it('says what it is good for, how each number is meant, and builds as it stands', () => {
    expect(design.goodFor).toMatch(/^[A-Z].{20,}\.$/)
    for (const spec of design.parameters) expect(spec.help, spec.id).toMatch(/^[A-Z].{10,}\.$/)
    const built = design.build({})
    if (!built.ok) throw new Error(JSON.stringify(built.error))
    const { parts, figures, notices, dimensions = [], hardware, joints } = built.value
    expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length)
    expect(new Set(figures.map(({ id }) => id)).size).toBe(figures.length)
    for (const { value, id } of figures) expect(Number.isFinite(value), id).toBe(true)
    for (const { source, message } of notices) expect(source, message).toBeTruthy()
    for (const view of ['front', 'side', 'top'])
      expect(dimensions.filter((dimension) => dimension.view === view).length, view).toBeGreaterThan(1)
    const screws = joints.reduce((sum, joint) => sum + joint.screws.length, 0)
    const units = new Set(parts.map(({ unit = 1 }) => unit)).size
    expect(hardware.reduce((sum, need) => sum + need.count, 0) % screws).toBe(0)
    expect(units).toBeGreaterThan(0)
    // One seat of a row of seats, or the whole piece, in paint as well.
    const painted = design.build({ finish: 'paint' })
    expect(painted.ok && painted.value.parts.some((part) => part.faces.faceA === 'paint')).toBe(true)
  })
})
