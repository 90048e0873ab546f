import { describe, expect, it } from 'vitest'
import { DEFAULT_ALLOWANCES } from '#lib/core/board/allowances'
import { blankNeedsFromModel } from '#lib/core/board/demand'
import type { FaceRole, Part } from '#lib/core/design/model'

const part = (id: string, changes: Partial<Part> = {}): Part => ({
  id,
  name: `Part ${id}`,
  kind: 'leg',
  blank: { lengthMm: 612.33, widthMm: 60, thicknessMm: 38 },
  operations: [],
  faces: { endA: 'hidden', endB: 'hidden', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'paint' },
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  ...changes,
})

describe('blankNeedsFromModel', () => {
  it('puts like parts together and adds the allowances', () => {
    const [need, ...rest] = blankNeedsFromModel({ parts: [part('a'), part('b')] }, DEFAULT_ALLOWANCES)
    expect(rest).toEqual([])
    expect(need).toMatchObject({
      id: 'leg',
      name: 'leg',
      partIds: ['a', 'b'],
      count: 2,
      grain: 'along',
      roughLengthUm: 614_330,
      roughWidthUm: 63_000,
      finishedLengthUm: 612_330,
      finishedWidthUm: 60_000,
      finishedThicknessUm: 38_000,
    })
    expect(need).not.toHaveProperty('species')
  })

  it('keeps apart what cannot be the same blank', () => {
    const faceA: FaceRole = 'hidden'
    const needs = blankNeedsFromModel(
      {
        parts: [
          part('a'),
          part('thin', { blank: { lengthMm: 612.33, widthMm: 60, thicknessMm: 20 } }),
          part('oak', { species: 'redOak' }),
          part('inside', { faces: { ...part('a').faces, faceA } }),
          part('seat', { kind: 'seat' }),
          part('b'),
        ],
      },
      DEFAULT_ALLOWANCES,
    )
    expect(needs.map((need) => [need.id, need.partIds])).toEqual([
      ['leg', ['a', 'b']],
      ['leg-2', ['thin']],
      ['leg-3', ['oak']],
      ['leg-4', ['inside']],
      ['seat', ['seat']],
    ])
    expect(needs[2].species).toBe('redOak')
    expect(needs[4].name).toBe('Part seat')
  })

  it('is not split by rounding below a micrometre', () => {
    const blank = { lengthMm: 612.33 + 1e-9, widthMm: 60, thicknessMm: 38 }
    expect(
      blankNeedsFromModel({ parts: [part('a'), part('b', { blank })] }, DEFAULT_ALLOWANCES),
    ).toHaveLength(1)
  })
})
