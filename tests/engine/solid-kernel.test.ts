import { beforeAll, describe, expect, it } from 'vitest'
import type { Frame } from '#lib/core/geometry/frame'
import type { Solid, SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const HALF = Math.SQRT1_2
const turned: Frame = { origin: [0, 0, 0], x: [HALF, HALF, 0], y: [-HALF, HALF, 0], z: [0, 0, 1] }
const volumeOf = (solid: Solid): number => {
  const volume = solid.volumeMm3()
  solid.free()
  return volume
}

describe('the solid kernel', () => {
  it('is loaded once', () => expect(loadSolidKernel()).toBe(loadSolidKernel()))

  it('a box and the same box turned by 45° share a prism on the regular octagon: 8(√2 − 1) × height', () => {
    const box = kernel.box([-1, -1, 0], [1, 1, 2])
    const other = kernel.place(box, turned)
    const octagon = 8 * (Math.SQRT2 - 1) * 2
    expect(volumeOf(kernel.intersect(box, other))).toBeCloseTo(octagon, 5)
    expect(volumeOf(kernel.subtract(box, [other]))).toBeCloseTo(8 - octagon, 5)
    box.free()
    other.free()
  })

  it('keeps what lies behind a plane', () => {
    const box = kernel.box([0, 0, 0], [10, 10, 10])
    expect(volumeOf(kernel.keepBelow(box, [4, 0, 0], [1, 0, 0]))).toBeCloseTo(400, 6)
    expect(volumeOf(kernel.keepBelow(box, [5, 5, 5], [HALF, HALF, 0]))).toBeCloseTo(500, 4)
    const gone = kernel.keepBelow(box, [-1, 0, 0], [1, 0, 0])
    expect(gone.isEmpty()).toBe(true)
    gone.free()
    box.free()
  })

  it('places a frustum: a third of the height times base areas and their mean (Heron)', () => {
    const upright = kernel.frustum(9, 2, 1, 4)
    const placed = kernel.place(upright, { ...turned, origin: [100, 0, -7] })
    // A regular 4-gon of radius r has area 2r².
    expect(volumeOf(placed)).toBeCloseTo((9 / 3) * (8 + 2 + 4), 4)
    upright.free()
  })

  it('takes no solid of another kernel', () => {
    const box = kernel.box([0, 0, 0], [1, 1, 1])
    const stranger = { ...box } as Solid
    expect(() => kernel.intersect(box, stranger)).toThrow(RangeError)
    box.free()
  })
})
