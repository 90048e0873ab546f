import { describe, expect, it } from 'vitest'
import { contactBetween, grainAt, worldFaces } from '#lib/core/design/contact'
import type { Operation, Part } from '#lib/core/design/model'
import { frameFromYZ } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

const block = (
  origin: Vec3,
  size: Vec3,
  operations: Operation[] = [],
  y: Vec3 = [0, 1, 0],
  z: Vec3 = [0, 0, 1],
): Part => ({
  id: 'p',
  name: 'p',
  kind: 'p',
  blank: { lengthMm: size[0], widthMm: size[1], thicknessMm: size[2] },
  operations,
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: frameFromYZ(origin, y, z),
})
const touch = (a: Part, b: Part, facing?: Vec3) => contactBetween(worldFaces(a), worldFaces(b), facing)

describe('contact between two parts', () => {
  const low = block([0, 0, 0], [100, 40, 20])

  it('is the rectangle that two stacked blocks share', () => {
    const contact = touch(low, block([60, 10, 20], [100, 40, 20]))
    expect(contact?.areaMm2).toBeCloseTo(40 * 30, 9)
    expect(contact?.normal).toEqual([0, 0, 1])
    for (const [x, y, z] of contact?.polygon ?? []) {
      expect(z).toBeCloseTo(20, 9)
      expect(x === 60 || x === 100).toBe(true)
      expect(y === 10 || y === 40).toBe(true)
    }
  })

  it('is whole beside a notch, however the notch has divided the face', () => {
    const notch: Operation = {
      kind: 'notch',
      id: 'n',
      face: 'faceA',
      alongMm: 30,
      widthMm: 20,
      depthMm: 10,
      skewRad: 0,
    }
    const notched = block([0, 0, 0], [100, 40, 20], [notch])
    expect(touch(notched, block([45, 40, 0], [50, 30, 20]))?.areaMm2).toBeCloseTo(50 * 20, 9)
    expect(touch(notched, block([20, 40, 0], [20, 30, 20]))?.areaMm2).toBeCloseTo(20 * 10, 9)
  })

  it('turns round when asked from the other side', () => {
    const high = block([60, 10, 20], [100, 40, 20])
    expect(touch(high, low)?.normal).toEqual([0, 0, -1])
    expect(touch(high, low)?.areaMm2).toBeCloseTo(1200, 9)
  })

  it('is nothing across a gap, at an edge, or between faces that look the same way', () => {
    expect(touch(low, block([0, 0, 20.001], [100, 40, 20]))).toBeUndefined()
    expect(touch(low, block([100, 0, 20], [100, 40, 20]))).toBeUndefined()
    expect(touch(low, block([0, 40, 0], [100, 40, 20]), [0, 0, 1])).toBeUndefined()
  })

  it('is the floor of a notch for a piece let in, and a shoulder when that is asked for', () => {
    const notched = block(
      [0, 0, 0],
      [100, 40, 20],
      [{ kind: 'notch', id: 'n', face: 'faceA', alongMm: 50, widthMm: 30, depthMm: 8, skewRad: 0 }],
    )
    // A piece 30 wide lies in the notch, its grain across.
    const piece = block([65, -20, 12], [80, 30, 8], [], [-1, 0, 0], [0, 0, 1])
    expect(touch(piece, notched)?.areaMm2).toBeCloseTo(30 * 40, 6)
    expect(touch(piece, notched, [1, 0, 0])?.areaMm2).toBeCloseTo(8 * 40, 6)
  })

  it('names the grain that meets there', () => {
    expect(grainAt(low, [1, 0, 0])).toBe('end')
    expect(grainAt(low, [0, -1, 0])).toBe('long')
    const eightDeg = (8 * Math.PI) / 180
    expect(grainAt(low, [Math.cos(eightDeg), Math.sin(eightDeg), 0])).toBe('end')
  })
})
