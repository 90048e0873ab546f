// Judged by gltf-validator (Khronos), and read back with its numbers: no code shared with what wrote the file.
import { NodeIO } from '@gltf-transform/core'
import { validateBytes } from 'gltf-validator'
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { massProperties } from '#lib/core/design/part-shape'
import { type Frame, isRightHanded } from '#lib/core/geometry/frame'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { cross, unit, type Vec3 } from '#lib/core/geometry/vec3'
import { baseColour, glbOf, quaternionOf } from '#lib/documents/export/glb'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { shippedModel } from '../../core/design/ask-design'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

describe.each(designs.map(({ id }) => id))('%s as glTF', (id) => {
  it('has no error and no warning, a node a part by its name, metres, y up, on the floor', async () => {
    const model = shippedModel(id)
    const bytes = await glbOf(kernel, model, { name: id, colours: {} })
    expect(new TextDecoder().decode(bytes.slice(0, 4))).toBe('glTF')
    const report = await validateBytes(bytes)
    expect(report.issues.messages.filter(({ severity }) => severity < 2)).toEqual([])
    expect([report.issues.numErrors, report.issues.numWarnings]).toEqual([0, 0])

    const root = (await new NodeIO().readBinary(bytes)).getRoot()
    const nodes = root.listNodes().filter((node) => node.getMesh() !== null)
    expect(nodes.map((node) => node.getName()).sort()).toEqual(model.parts.map(({ name }) => name).sort())
    const ys = nodes.flatMap((node) => {
      const m = node.getWorldMatrix()
      const positions = node.getMesh()!.listPrimitives()[0].getAttribute('POSITION')!
      return Array.from({ length: positions.getCount() }, (_, i) => {
        const [x, y, z] = positions.getElement(i, [0, 0, 0])
        return m[1] * x + m[5] * y + m[9] * z + m[13]
      })
    })
    if (model.hangs === undefined) expect(Math.min(...ys)).toBeCloseTo(0, 5)
    const height = model.figures.find(({ id: figure }) => ['height', 'seatHeight'].includes(figure))
    if (height !== undefined && model.hangs === undefined)
      expect(Math.max(...ys)).toBeCloseTo(height.value / 1000, 5)
  })
})

describe('a glTF file', () => {
  it('shares a mesh among parts that are alike, and encloses the volume of the formulas', async () => {
    const model = shippedModel('counterSeat')
    const root = (
      await new NodeIO().readBinary(await glbOf(kernel, model, { name: 'seat', colours: {} }))
    ).getRoot()
    expect(root.listMeshes().length).toBeLessThan(model.parts.length / 2)
    const rail = model.parts.find(({ kind }) => kind === 'rail')!
    const node = root.listNodes().find((one) => one.getName() === rail.name)!
    const positions = node.getMesh()!.listPrimitives()[0].getAttribute('POSITION')!
    let volume = 0
    for (let i = 0; i < positions.getCount(); i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => positions.getElement(i + k, []) as unknown as Vec3)
      const n = cross(b, c)
      volume += (a[0] * n[0] + a[1] * n[1] + a[2] * n[2]) / 6
    }
    const { volumeMm3 } = massProperties(rail)
    // Holes are bored in the solid and left out of the formula: a few tenths of a per cent.
    expect(volume * 1e9).toBeGreaterThan(0.985 * volumeMm3)
    expect(volume * 1e9).toBeLessThan(volumeMm3)
  })

  it('gives each wood its colour, linear as glTF asks', async () => {
    // sRGB 0.5 is 0.2140 linear (IEC 61966-2-1).
    expect(baseColour('#808080')[0]).toBeCloseTo(0.2159, 3)
    const bytes = await glbOf(kernel, shippedModel('crate'), { name: 'crate', colours: { any: '#ffffff' } })
    const [material] = (await new NodeIO().readBinary(bytes)).getRoot().listMaterials()
    expect(material.getBaseColorFactor()).toEqual([1, 1, 1, 1])
  })

  it('turns frames as quaternions do, in all sixteen octants of the sphere', () => {
    let judged = 0
    for (const a of [-3, -1.6, -0.4, 0, 0.9, 2.2, 3.1])
      for (const b of [-1.5, -0.3, 0, 0.8, 1.57]) {
        const x = unit([Math.cos(a) * Math.cos(b), Math.sin(a) * Math.cos(b), Math.sin(b)])
        const y = unit(cross([0.3, -0.5, 0.81], x))
        const frame: Frame = { origin: [0, 0, 0], x, y, z: cross(x, y) }
        expect(isRightHanded(frame)).toBe(true)
        const [qx, qy, qz, qw] = quaternionOf(frame)
        // Rotation matrix of a unit quaternion, first and second column (any textbook).
        const first = [1 - 2 * (qy * qy + qz * qz), 2 * (qx * qy + qz * qw), 2 * (qx * qz - qy * qw)]
        const second = [2 * (qx * qy - qz * qw), 1 - 2 * (qx * qx + qz * qz), 2 * (qy * qz + qx * qw)]
        for (const i of [0, 1, 2]) expect(first[i]).toBeCloseTo(x[i], 9)
        for (const i of [0, 1, 2]) expect(second[i]).toBeCloseTo(y[i], 9)
        judged++
      }
    expect(judged).toBe(35)
  })
})
