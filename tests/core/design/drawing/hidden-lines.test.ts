import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { VIEW_AXES } from '#lib/core/design/drawing/drawing'
import { featureEdges, seenLines } from '#lib/core/design/drawing/hidden-lines'
import { difference, mergeLines, type Segment2, union } from '#lib/core/design/drawing/merge-lines'
import type { Operation, Part, ViewName } from '#lib/core/design/model'
import { meshesOf } from '#lib/core/design/part-solid'
import { distanceToSegment, type Vec2 } from '#lib/core/geometry/polygon2'
import type { SolidKernel } from '#lib/core/geometry/solid'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const block = (origin: Vec3, size: Vec3, operations: Operation[] = []): Part => ({
  id: `${origin}`,
  name: 'b',
  kind: 'b',
  blank: { lengthMm: size[0], widthMm: size[1], thicknessMm: size[2] },
  operations,
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: { origin, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
})
const look = (view: ViewName, ...parts: Part[]) => seenLines(meshesOf(kernel, parts), VIEW_AXES[view])
const lengthOf = (segments: readonly Segment2[]): number =>
  segments.reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0)

describe('lines on one line', () => {
  it('are joined, and hidden ones give way to visible ones', () => {
    expect(
      union([
        [2, 3],
        [0, 1],
        [1, 2],
        [5, 6],
      ]),
    ).toEqual([
      [0, 3],
      [5, 6],
    ])
    expect(
      difference(
        [[0, 10]],
        [
          [2, 3],
          [5, 20],
        ],
      ),
    ).toEqual([
      [0, 2],
      [3, 5],
    ])
    const merged = mergeLines(
      [
        [
          [0, 0],
          [4, 4],
        ],
        [
          [6, 6],
          [3, 3],
        ],
      ],
      [
        [
          [0, 0],
          [10, 10],
        ],
        [
          [0, 1],
          [9, 1],
        ],
      ],
    )
    expect(merged.visible).toHaveLength(1)
    expect(lengthOf(merged.visible)).toBeCloseTo(6 * Math.SQRT2, 9)
    expect(lengthOf(merged.hidden)).toBeCloseTo(4 * Math.SQRT2 + 9, 9)
  })
})

describe('edges', () => {
  it('a box has twelve, one notched across its end sixteen more or less what it lost', () => {
    const [box] = meshesOf(kernel, [block([0, 0, 0], [100, 40, 20])])
    expect(featureEdges(box.mesh).length / 2).toBe(12)
    const notch: Operation = {
      kind: 'notch',
      id: 'n',
      face: 'faceA',
      alongMm: 50,
      widthMm: 20,
      depthMm: 5,
      skewRad: 0.2,
    }
    const [notched] = meshesOf(kernel, [block([0, 0, 0], [100, 40, 20], [notch])])
    // 8 around the ends, 4 floor-and-shoulder edges along the channel's top and bottom, 8 in the two sides, 4 long.
    expect(featureEdges(notched.mesh).length / 2).toBe(24)
  })
})

describe('a view', () => {
  it('of one box is its outline, nothing hidden', () => {
    for (const [view, around] of [
      ['front', 240],
      ['side', 120],
      ['top', 280],
    ] as const) {
      const seen = look(view, block([0, 0, 0], [100, 40, 20]))
      expect(seen.visible).toHaveLength(4)
      expect(lengthOf(seen.visible)).toBeCloseTo(around, 3)
      expect(seen.hidden).toHaveLength(0)
    }
  })

  it('dashes what stands behind, and shows what looks out past it', () => {
    // Behind the box, from 60 to 160: 40 of its 100 mm lie hidden at its foot and at its top.
    const seen = look('front', block([0, 0, 0], [100, 40, 20]), block([60, 50, 2], [100, 40, 10]))
    expect(lengthOf(seen.hidden)).toBeCloseTo(40 + 40 + 10, 1)
    expect(lengthOf(seen.visible)).toBeCloseTo(240 + 60 + 60 + 10, 1)
  })

  it('shows nothing as hidden from behind', () => {
    const behind = block([60, 50, 2], [100, 40, 10])
    const seen = look(
      'front',
      { ...behind, frame: { ...behind.frame, origin: [60, -50, 2] } },
      block([0, 0, 0], [100, 40, 20]),
    )
    expect(lengthOf(seen.visible)).toBeCloseTo(220 + 240 - 10, 1)
    expect(lengthOf(seen.hidden)).toBeCloseTo(10, 1)
  })

  it('draws the outline of a piece let in flush, though both faces lie in one plane', () => {
    const notch: Operation = {
      kind: 'notch',
      id: 'n',
      face: 'faceA',
      alongMm: 50,
      widthMm: 20,
      depthMm: 5,
      skewRad: 0,
    }
    const seen = look('top', block([0, 0, 0], [100, 40, 20], [notch]), block([40, 0, 15], [20, 40, 5]))
    expect(lengthOf(seen.visible)).toBeCloseTo(280 + 80, 3)
    expect(lengthOf(seen.hidden)).toBeCloseTo(0, 3)
  })

  it('agrees point by point with looking along rays, for random heaps of blocks', () => {
    const near = fc.integer({ min: 0, max: 60 })
    const size = fc.integer({ min: 5, max: 50 })
    const heap = fc.array(fc.tuple(near, near, near, size, size, size), { minLength: 2, maxLength: 5 })
    const judged = { seen: 0, hidden: 0 }
    fc.assert(
      fc.property(heap, (sizes) => {
        // Not on whole numbers, and apart in depth, so that no two faces lie in one plane by chance.
        const blocks = sizes.map(([x, y, z, l, w, t], i): [Vec3, Vec3] => [
          [x + i * 0.137, y + i * 120, z + i * 0.211],
          [l + 0.05 * i, w, t + 0.07 * i],
        ])
        const seen = look('front', ...blocks.map(([at, s]) => block(at, s)))
        const near2 = (list: readonly Segment2[], p: Vec2): boolean =>
          list.some(([a, b]) => distanceToSegment(p, a, b) < 0.02)
        for (const [[x, y, z], [l, , t]] of blocks) {
          const corners: Vec2[] = [
            [x, z],
            [x + l, z],
            [x + l, z + t],
            [x, z + t],
          ]
          corners.forEach((a, k) => {
            const b = corners[(k + 1) % 4]
            for (let s = 0.013; s < 1; s += 0.0973) {
              const p: Vec2 = [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s]
              // Hidden if a block nearer to the eye covers the point; y is the depth.
              const within = (margin: number): boolean =>
                blocks.some(
                  ([o, q]) =>
                    o[1] < y - 1 &&
                    p[0] > o[0] + margin &&
                    p[0] < o[0] + q[0] - margin &&
                    p[1] > o[2] + margin &&
                    p[1] < o[2] + q[2] - margin,
                )
              if (within(-0.05) !== within(0.05)) continue
              if (within(0)) {
                judged.hidden++
                expect(near2(seen.hidden, p) || near2(seen.visible, p)).toBe(true)
              } else {
                judged.seen++
                expect(near2(seen.visible, p)).toBe(true)
              }
            }
          })
        }
      }),
      { numRuns: 60, seed: 5 },
    )
    expect(judged.seen).toBeGreaterThan(500)
    expect(judged.hidden).toBeGreaterThan(500)
  })
})
