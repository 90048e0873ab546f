/**
 * A model as binary STL (3D Systems, 1989): all its parts where they stand, mm, z up. Each part is closed; parts that
 * touch keep their own surfaces. 84 bytes and 50 a triangle. Tests: tests/documents/export/stl.test.ts
 */
import type { Model } from '#lib/core/design/model'
import { meshesOf } from '#lib/core/design/part-solid'
import { toWorld } from '#lib/core/geometry/frame'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { cross, length, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'

const HEADER_BYTES = 80
const TRIANGLE_BYTES = 50

/** Must not begin with «solid», by which readers tell the text form. */
const HEADER = 'Fellowbench, lengths in mm, z up'

function normalOf([a, b, c]: readonly Vec3[]): Vec3 {
  const across = cross(sub(b, a), sub(c, a))
  const size = length(across)
  return size === 0 ? [0, 0, 0] : scale(across, 1 / size)
}

/** @example stlOf(kernel, model).length //=> 84 + 50 * triangles */
export function stlOf(kernel: SolidKernel, model: Model): Uint8Array {
  const placed = meshesOf(kernel, model.parts, true)
  const count = placed.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0)
  const bytes = new Uint8Array(HEADER_BYTES + 4 + count * TRIANGLE_BYTES)
  bytes.set(new TextEncoder().encode(HEADER))
  const view = new DataView(bytes.buffer)
  view.setUint32(HEADER_BYTES, count, true)
  let at = HEADER_BYTES + 4
  const write = (p: Vec3): void => {
    for (const value of p) {
      view.setFloat32(at, value, true)
      at += 4
    }
  }
  for (const { part, mesh } of placed) {
    const { positions: p, triangles } = mesh
    for (let t = 0; t < triangles.length; t += 3) {
      const corners = [0, 1, 2].map((k) => {
        const i = 3 * triangles[t + k]
        return toWorld(part.frame, [p[i], p[i + 1], p[i + 2]])
      })
      write(normalOf(corners))
      for (const corner of corners) write(corner)
      at += 2
    }
  }
  return bytes
}
