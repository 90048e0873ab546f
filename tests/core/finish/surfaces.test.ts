import { beforeAll, describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { partSolid } from '#lib/core/design/part-solid'
import { meetingLength, surfacesOf, touchesOf } from '#lib/core/finish/surfaces'
import type { SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { boards, FLAT_MM2, UPRIGHT_MM2 } from './boards'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

function meshArea({ positions: p, triangles }: SolidMesh): number {
  let sum = 0
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[t + k])
    const u = [0, 1, 2].map((i) => p[b + i] - p[a + i])
    const v = [0, 1, 2].map((i) => p[c + i] - p[a + i])
    sum += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2
  }
  return sum
}

describe('two boards, by hand', () => {
  const model = boards()
  const surfaces = surfacesOf(model)
  const sumOf = (id: string) =>
    surfaces.filter((s) => s.part.id === id).reduce((sum, s) => sum + s.areaMm2, 0)

  test('areas', () => {
    expect(sumOf('flat')).toBeCloseTo(FLAT_MM2, 6)
    expect(sumOf('upright')).toBeCloseTo(UPRIGHT_MM2, 6)
  })
  test('end grain: both ends of each', () => {
    const ends = surfaces.filter((s) => s.isEndGrain).reduce((sum, s) => sum + s.areaMm2, 0)
    expect(ends).toBeCloseTo(2 * 100 * 20 + 2 * 50 * 30, 6)
  })
  test('they touch once, 300 by 30, its border 660', () => {
    const touches = touchesOf(model, surfaces)
    expect(touches).toHaveLength(1)
    expect(touches[0].areaMm2).toBeCloseTo(9000, 6)
    expect(touches[0].outlineMm).toBeCloseTo(660, 6)
  })
  test('the edges of a board: face A meets an edge along its length, an end across', () => {
    const of = (face: string) =>
      surfaces.find((s) => s.part.id === 'flat' && 'face' in s.of && s.of.face === face)!
    expect(meetingLength(of('faceA'), of('edgeA'))).toBeCloseTo(400, 6)
    expect(meetingLength(of('endB'), of('faceA'))).toBeCloseTo(100, 6)
    expect(meetingLength(of('faceA'), of('faceB'))).toBe(0)
  })
})

describe.each(designs)('$name', (design) => {
  const built = design.build({})
  if (!built.ok) throw new Error('the defaults must make a piece')

  test('every part: faces by formula agree with the skin of its solid to 1e-5', () => {
    const surfaces = surfacesOf(built.value)
    for (const part of built.value.parts) {
      const solid = partSolid(kernel, part)
      const skin = meshArea(solid.mesh())
      solid.free()
      const sum = surfaces.filter((s) => s.part === part).reduce((total, s) => total + s.areaMm2, 0)
      expect(Math.abs(sum / skin - 1), `${part.name}: ${sum} by formula, ${skin} by mesh`).toBeLessThan(1e-5)
    }
  })

  test('no face is covered by more than it has, and every joint covers something', () => {
    const surfaces = surfacesOf(built.value)
    const touches = touchesOf(built.value, surfaces)
    for (const surface of surfaces) {
      const covered = touches
        .filter((t) => t.a === surface || t.b === surface)
        .reduce((sum, t) => sum + t.areaMm2, 0)
      expect(covered).toBeLessThan(surface.areaMm2 + 0.01)
    }
    for (const { a, b, contact } of built.value.joints) {
      const between = touches
        .filter((t) => new Set([t.a.part.id, t.b.part.id, a, b]).size === 2)
        .reduce((sum, t) => sum + t.areaMm2, 0)
      expect(between, `${a} and ${b}`).toBeGreaterThan(contact.areaMm2 - 0.1)
    }
  })
})
