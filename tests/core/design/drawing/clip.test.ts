import { describe, expect, it } from 'vitest'
import { clippedTo, crossesBox } from '#lib/core/design/drawing/clip'
import type { Bounds2 } from '#lib/core/design/drawing/drawing'
import type { Segment2 } from '#lib/core/design/drawing/merge-lines'

const box: Bounds2 = { min: [0, 0], max: [10, 5] }
const cases: readonly [string, Segment2, Segment2 | undefined][] = [
  [
    'through',
    [
      [-5, 2],
      [15, 2],
    ],
    [
      [0, 2],
      [10, 2],
    ],
  ],
  [
    'inside',
    [
      [1, 1],
      [2, 4],
    ],
    [
      [1, 1],
      [2, 4],
    ],
  ],
  [
    'aslant through a corner region',
    [
      [-5, -5],
      [5, 5],
    ],
    [
      [0, 0],
      [5, 5],
    ],
  ],
  [
    'beside it',
    [
      [-5, 6],
      [15, 6],
    ],
    undefined,
  ],
  [
    'upright, out of reach',
    [
      [11, -5],
      [11, 9],
    ],
    undefined,
  ],
  [
    'past a corner',
    [
      [-4, 3],
      [2, 9],
    ],
    undefined,
  ],
  [
    'short of it',
    [
      [-5, 2],
      [-1, 2],
    ],
    undefined,
  ],
]

describe('a line and a box', () => {
  it.each(cases)('%s', (_, line, wanted) => {
    expect(crossesBox(line, box)).toBe(wanted !== undefined)
    expect(clippedTo(line, box)).toEqual(wanted)
  })

  it('keeps an end that lies inside as the very point it was', () => {
    const end = [3, 3] as const
    expect(clippedTo([[-9, 3], end], box)?.[1]).toBe(end)
  })
})
