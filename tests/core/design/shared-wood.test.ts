/** Wood that two parts share, against the solid library's intersection of the same two. */
import fc from 'fast-check'
import { beforeAll, expect, it } from 'vitest'
import type { Notch, Part } from '#lib/core/design/model'
import { partSolid } from '#lib/core/design/part-solid'
import { boardBetween, letIn, notchFor, withOperations } from '#lib/core/design/placed-part'
import { allSharedWood, sharedWood } from '#lib/core/design/shared-wood'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { shippedModel } from './ask-design'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const look = { finish: 'clear', species: 'any' }
type Corner = readonly [number, number, number]
const upright = (id: string, [x, y, z]: Corner, size: Corner = [90, 20, 400]): Part =>
  boardBetween(
    { id, name: id, kind: id, look },
    { min: [x, y, z], max: [x + size[0], y + size[1], z + size[2]], grain: 'z', faceA: [0, -1, 0] },
  )
const level = (id: string, [x, y, z]: Corner, size: Corner = [500, 30, 60]): Part =>
  boardBetween(
    { id, name: id, kind: id, look },
    { min: [x, y, z], max: [x + size[0], y + size[1], z + size[2]], grain: 'x', faceA: [0, -1, 0] },
  )

function byKernel(a: Part, b: Part): number {
  const [own, other] = [a, b].map((part) => kernel.place(partSolid(kernel, part), part.frame))
  return kernel.intersect(own, other).volumeMm3()
}

it('two boards laid through each other share a × b × c, and one reaches the least of it into the other', () => {
  const shared = sharedWood(upright('post', [100, 0, 0]), level('rail', [0, 12, 200]))!
  expect(shared.volumeMm3).toBeCloseTo(90 * 8 * 60, 6)
  expect(shared.deepMm).toBeCloseTo(8, 9)
})

it('boards that touch, or lie in notches made for them, share none', () => {
  const [post, rail] = [upright('post', [100, 0, 0]), level('rail', [0, 20, 200])]
  expect(sharedWood(post, rail)).toBeUndefined()
  const deep = level('rail', [0, 12, 200])
  const [host] = letIn([post, deep], [{ host: 'post', guest: 'rail', face: 'faceB' }])
  expect(sharedWood(host, deep)).toBeUndefined()
  expect(sharedWood(deep, host)).toBeUndefined()
})

it('over random places, notches and leans: as much as the solid library finds, to 0.1 mm³', () => {
  const judged = { some: 0, none: 0 }
  const mm = (least: number, most: number) => fc.integer({ min: least, max: most })
  const notch = fc.record({ along: mm(60, 340), width: mm(10, 80), depth: mm(2, 18), skew: mm(-20, 20) })
  fc.assert(
    fc.property(
      mm(-80, 380),
      mm(-40, 30),
      mm(-30, 420),
      fc.array(notch, { maxLength: 3 }),
      (x, y, z, notches) => {
        const post = withOperations(
          upright('post', [100, 0, 0]),
          notches.map(
            ({ along, width, depth, skew }, k): Notch => ({
              kind: 'notch',
              id: `n${k}`,
              face: k % 2 === 0 ? 'faceA' : 'faceB',
              alongMm: along,
              widthMm: width,
              depthMm: depth,
              skewRad: (skew * Math.PI) / 180,
            }),
          ),
        )
        const rail = level('rail', [x, y, z], [260, 30, 60])
        const expected = byKernel(post, rail)
        for (const found of [sharedWood(post, rail), sharedWood(rail, post)]) {
          // Thinner than 0.05 mm is let pass.
          if (found === undefined) expect(expected).toBeLessThan(0.06 * 90 * 400)
          else expect(Math.abs(found.volumeMm3 - expected)).toBeLessThan(0.1)
        }
        judged[expected > 1 ? 'some' : 'none']++
      },
    ),
    { numRuns: 300, seed: 5 },
  )
  expect(judged.some).toBeGreaterThan(60)
  expect(judged.none).toBeGreaterThan(60)
})

it('a notch too shallow by 2 mm leaves 2 mm of it', () => {
  const [post, rail] = [upright('post', [100, 0, 0]), level('rail', [0, 12, 200])]
  const whole = notchFor(post, rail, { id: 'n', face: 'faceB' })
  const host = withOperations(post, [{ ...whole, depthMm: whole.depthMm - 2 }])
  expect(sharedWood(host, rail)).toMatchObject({
    volumeMm3: expect.closeTo(90 * 2 * 60, 6),
    deepMm: expect.closeTo(2, 9),
  })
})

it.each(['bookcase', 'splayedStool', 'plantStand', 'crate'])('%s as it stands has none', (id) => {
  const { parts } = shippedModel(id)
  expect(parts.length).toBeGreaterThan(5)
  expect(allSharedWood(parts)).toEqual([])
})
