import { describe, expect, test } from 'vitest'
import { movedAim, pinsOn } from '../../app/builds/[id]/variants/[variantId]/pins'

const COMMENTS = [
  { id: 'whole', partId: null, place: null },
  { id: 'pointed', partId: 'leg', place: { view: 'side', x: 0.25, y: 0.75 } },
  { id: 'part', partId: 'leg', place: null },
  { id: 'gone', partId: 'wheel', place: null },
] as const

describe('pins', () => {
  test('where somebody pointed on that picture alone; a part on every picture, where it is now', () => {
    const centres = { leg: [0.4, 0.5] } as const
    expect(pinsOn('side', COMMENTS, centres)).toEqual([
      { commentId: 'pointed', number: 2, x: 0.25, y: 0.75, isByPart: false },
      { commentId: 'part', number: 3, x: 0.4, y: 0.5, isByPart: true },
    ])
    expect(pinsOn('front', COMMENTS, centres).map((p) => p.commentId)).toEqual(['part'])
  })

  test('numbers are those of the list, with or without a pin', () => {
    expect(pinsOn('side', COMMENTS, {}).map((p) => p.number)).toEqual([2])
  })
})

describe('the aim by keys', () => {
  test.each([
    ['ArrowLeft', false, { x: 0.48, y: 0.5 }],
    ['ArrowDown', true, { x: 0.5, y: 0.6 }],
    ['a', false, null],
  ] as const)('%s', (key, isBig, to) => expect(movedAim({ x: 0.5, y: 0.5 }, key, isBig)).toEqual(to))

  test('stays on the picture', () => {
    expect(movedAim({ x: 0.01, y: 0.99 }, 'ArrowLeft', true)).toEqual({ x: 0, y: 0.99 })
    expect(movedAim({ x: 1, y: 1 }, 'ArrowDown', false)).toEqual({ x: 1, y: 1 })
  })
})
