// Binary STL: 80 bytes of header, a count, 50 bytes a triangle, little-endian. Closed: every edge is passed once each way.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { meshesOf } from '#lib/core/design/part-solid'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { stlOf } from '#lib/documents/export/stl'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

describe.each(designs.map(({ id }) => id))('%s as STL', (id) => {
  it('is closed, looks outwards and stands where the model stands', () => {
    const built = designs.find((design) => design.id === id)!.build({})
    if (!built.ok) throw new Error(id)
    const bytes = stlOf(kernel, built.value)
    const view = new DataView(bytes.buffer)
    const count = view.getUint32(80, true)
    expect(bytes.length).toBe(84 + 50 * count)
    expect(new TextDecoder().decode(bytes.slice(0, 5))).not.toBe('solid')
    const edges = new Map<string, number>()
    let volume = 0
    let lowest = Infinity
    for (let t = 0; t < count; t++) {
      const points = [0, 1, 2].map((k) =>
        [0, 1, 2].map((i) => view.getFloat32(84 + 50 * t + 12 + 12 * k + 4 * i, true)),
      )
      const [a, b, c] = points
      volume +=
        (a[0] * (b[1] * c[2] - b[2] * c[1]) +
          a[1] * (b[2] * c[0] - b[0] * c[2]) +
          a[2] * (b[0] * c[1] - b[1] * c[0])) /
        6
      lowest = Math.min(lowest, a[2], b[2], c[2])
      for (const [p, q] of [
        [a, b],
        [b, c],
        [c, a],
      ]) {
        const [from, to] = [p.join(), q.join()]
        const way = from < to ? 1 : -1
        const key = way === 1 ? `${from} ${to}` : `${to} ${from}`
        edges.set(key, (edges.get(key) ?? 0) + way)
      }
    }
    expect([...edges.values()].filter((sum) => sum !== 0)).toEqual([])
    const solid = meshesOf(kernel, built.value.parts, true).length
    expect(solid).toBe(built.value.parts.length)
    expect(volume).toBeGreaterThan(0)
    if (built.value.hangs === undefined) expect(lowest).toBeCloseTo(0, 3)
  })
})
