import { beforeAll, describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { atShare, partAt, pictureAxes, pictureOf } from '#lib/core/design/drawing/picture'
import type { Part } from '#lib/core/design/model'
import { meshesOf, type PlacedMesh } from '#lib/core/design/part-solid'
import { board } from '#lib/core/design/placed-part'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { cross, dot } from '#lib/core/geometry/vec3'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

const LOOK = { finish: 'clear', species: 'any' }
const box = (id: string, spans: Parameters<typeof board>[2]): Part =>
  board(LOOK, { id, name: id, kind: id, grain: 'x', face: 'up' }, spans)

test('the axes stand square to each other, and all three edges of a cube are drawn alike (isometric)', () => {
  const { right, up, towards } = pictureAxes('corner')
  for (const [i, v] of cross(right, up).entries()) expect(v).toBeCloseTo(towards[i], 12)
  const meshes = meshesOf(kernel, [
    box('cube', [
      [0, 100],
      [0, 100],
      [0, 100],
    ]),
  ])
  const { lines } = pictureOf(meshes, 'corner')
  // ISO 5456-3: in isometric axonometry every axis is foreshortened by the square root of 2/3.
  expect(lines).toHaveLength(9)
  for (const [a, b] of lines)
    expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(100 * Math.sqrt(2 / 3), 6)
  expect(dot(up, [0, 0, 1])).toBeGreaterThan(0)
})

test('the near edges are seen: front, right and top meet in the middle of the cube’s outline', () => {
  const meshes = meshesOf(kernel, [
    box('cube', [
      [0, 100],
      [0, 100],
      [0, 100],
    ]),
  ])
  const { lines, frame } = pictureOf(meshes, 'corner')
  const middle = atShare(frame, [0.5, 0.5])
  const there = lines.flat().filter((p) => Math.hypot(p[0] - middle[0], p[1] - middle[1]) < 1e-6)
  expect(there).toHaveLength(3)
})

describe('the part under a place', () => {
  const two = () =>
    meshesOf(kernel, [
      box('front', [
        [0, 100],
        [0, 10],
        [0, 50],
      ]),
      box('back', [
        [0, 100],
        [40, 50],
        [0, 100],
      ]),
    ])

  test('is the nearer one; above it the one behind; beside both none', () => {
    expect(partAt(two(), 'front', [50, 25])).toBe('front')
    expect(partAt(two(), 'front', [50, 75])).toBe('back')
    expect(partAt(two(), 'front', [50, 101])).toBeUndefined()
    expect(partAt(two(), 'top', [50, 45])).toBe('back')
    expect(partAt(two(), 'top', [50, 25])).toBeUndefined()
  })
})

test.each(['corner', 'front', 'side', 'top'] as const)(
  'a seat from the %s: every place is on one part or beside it',
  (from) => {
    const built = designById('counterSeat')!.build({})
    if (!built.ok) throw new Error('the seat cannot be built')
    const meshes: PlacedMesh[] = meshesOf(kernel, built.value.parts)
    const { frame, lines } = pictureOf(meshes, from)
    expect(lines.length).toBeGreaterThan(20)
    const found = new Set<string | undefined>()
    for (let x = 0.01; x < 1; x += 0.035)
      for (let y = 0.01; y < 1; y += 0.035) found.add(partAt(meshes, from, atShare(frame, [x, y])))
    expect(found.has(undefined)).toBe(true)
    expect(found.size).toBeGreaterThan(4)
    // Corners of the frame lie in the margin.
    for (const corner of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ] as const)
      expect(partAt(meshes, from, atShare(frame, corner))).toBeUndefined()
  },
)
