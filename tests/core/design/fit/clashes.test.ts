import { describe, expect, it } from 'vitest'
import { clashesOf, clashNotices } from '#lib/core/design/fit/clashes'
import type { Operation, Part, PlaceBox } from '#lib/core/design/model'
import { frameFromYZ } from '#lib/core/geometry/frame'

const post = (operations: readonly Operation[] = [], lean = 0): Part => ({
  id: 'post',
  name: 'Post, back',
  kind: 'post',
  blank: { lengthMm: 900, widthMm: 40, thicknessMm: 20 },
  operations,
  faces: { endA: 'hidden', endB: 'hidden', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  // Grain upwards, width along y, thickness along -x: the edge at y = 300 is the back of the piece.
  frame: frameFromYZ([20, 260, 0], [0, Math.cos(lean), -Math.sin(lean)], [-1, 0, 0]),
})
const box = (min: PlaceBox['min'], max: PlaceBox['max'], id = 'skirting'): PlaceBox => ({
  id,
  name: 'Skirting',
  parameter: 'offWall',
  min,
  max,
})

describe('clashes with the place', () => {
  it('a post 15 mm into a skirting 100 high: its 20 × 15 × 100 mm in the way, and the parameter named', () => {
    const skirting = box([-500, 285, 0], [500, 300, 100])
    const [clash, ...more] = clashesOf([post()], [skirting])
    expect(more).toEqual([])
    expect(clash.volumeMm3).toBeCloseTo(20 * 15 * 100, 6)
    expect(clash.min.map((x) => Math.round(x))).toEqual([0, 285, 0])
    expect(clash.max.map((x) => Math.round(x))).toEqual([20, 300, 100])
    const [notice] = clashNotices([clash], [post()], [skirting])
    expect(notice).toMatchObject({ level: 'stop', parameter: 'offWall' })
    expect(notice.message).toContain('15 mm')
  })

  it('none where it only touches, stands clear, or is notched for it', () => {
    expect(clashesOf([post()], [box([-500, 300, 0], [500, 340, 900])])).toEqual([])
    expect(clashesOf([post()], [box([-500, 400, 0], [500, 440, 900])])).toEqual([])
    const notched = post([
      { kind: 'notch', id: 'n', face: 'edgeB', alongMm: 50, widthMm: 101, depthMm: 15, skewRad: 0 },
    ])
    expect(clashesOf([notched], [box([-500, 285, 0], [500, 300, 100])])).toEqual([])
  })

  it('finds the wedge of a leaning part: half of width × depth × height', () => {
    const lean = 0.1
    // Behind its back edge's lowest corner, the post's face slopes away by tan(lean).
    const [clash] = clashesOf([post([], lean)], [box([-500, 250, 0], [500, 400, 900], 'wall')])
    expect(clash.volumeMm3).toBeGreaterThan(0)
    const whole = clashesOf([post([], lean)], [box([-500, -500, -500], [500, 900, 1500], 'room')])
    expect(whole[0].volumeMm3).toBeCloseTo(900 * 40 * 20, 3)
  })
})
