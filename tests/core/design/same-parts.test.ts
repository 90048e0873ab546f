import { describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { Hole, Part } from '#lib/core/design/model'
import { samePartsOf } from '#lib/core/design/same-parts'

const hole = (id: string, face: Hole['face'], point: Hole['point'], direction: Hole['direction']): Hole => ({
  kind: 'hole',
  id,
  face,
  point,
  direction,
  diameterMm: 4,
  depthMm: 10,
  purpose: 'lead',
})
const part = (id: string, operations: Part['operations'], over: Partial<Part> = {}): Part => ({
  id,
  name: id,
  kind: 'rail',
  blank: { lengthMm: 600, widthMm: 60, thicknessMm: 20 },
  operations,
  faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  ...over,
})
const names = (parts: readonly Part[]): string[][] =>
  samePartsOf(parts).map((group) => group.parts.map(({ id }) => id))

describe('parts that are made alike', () => {
  it('turned end for end about any of its axes a piece is the same piece', () => {
    const a = part('a', [hole('1', 'edgeA', [100, 0, 8], [0, 1, 0])])
    const turned = [
      part('about its length', [hole('1', 'edgeB', [100, 60, 12], [0, -1, 0])]),
      part('about its width', [hole('1', 'edgeA', [500, 0, 12], [0, 1, 0])]),
      part('about its thickness', [hole('1', 'edgeB', [500, 60, 8], [0, -1, 0])]),
    ]
    expect(names([a, ...turned])).toEqual([['a', ...turned.map(({ id }) => id)]])
  })

  it('a mirror image is another piece, and is told as such', () => {
    const [right, left] = samePartsOf([
      part('right', [hole('1', 'edgeA', [100, 0, 8], [0, 1, 0])]),
      part('left', [hole('1', 'edgeA', [500, 0, 8], [0, 1, 0])]),
    ])
    expect([right.mirrorOf, left.mirrorOf]).toEqual([1, 0])
    expect([right.name, left.name]).toEqual(['Rail, 1 of 2', 'Rail, 2 of 2'])
  })

  it('a piece that is its own mirror image is no hand', () => {
    const [only] = samePartsOf([part('a', [hole('1', 'edgeA', [300, 0, 10], [0, 1, 0])])])
    expect(only.mirrorOf).toBeUndefined()
  })

  it('another size, another place of a hole, another wood: another piece', () => {
    const at = (x: number): Part['operations'] => [hole('1', 'faceA', [x, 30, 20], [0, 0, -1])]
    const all = [part('a', at(100)), part('b', at(100.5)), part('c', at(100), { species: 'redOak' })]
    expect(
      names([...all, part('d', at(100), { blank: { lengthMm: 601, widthMm: 60, thicknessMm: 20 } })]),
    ).toHaveLength(4)
  })

  it('every part of every design is in one group, with its kind', () => {
    for (const design of designs) {
      const model = design.build({})
      if (!model.ok) throw new Error(design.id)
      const groups = samePartsOf(model.value.parts)
      expect(groups.flatMap((group) => group.parts.map(({ id }) => id)).sort()).toEqual(
        model.value.parts.map(({ id }) => id).sort(),
      )
      expect(new Set(groups.map(({ name }) => name)).size).toBe(groups.length)
    }
  })

  it('the legs of a raked seat are two hands, mirror images', () => {
    const seat = designs.find(({ id }) => id === 'counterSeat')!.build({ footrest: 'no' })
    const model = seat.ok ? seat : designs.find(({ id }) => id === 'counterSeat')!.build({})
    if (!model.ok) throw new Error('seat')
    const legs = samePartsOf(model.value.parts).filter(({ part: { kind } }) => kind.startsWith('leg'))
    for (const { mirrorOf } of legs) expect(mirrorOf).toBeDefined()
  })
})
