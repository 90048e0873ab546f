import { describe, expect, test, vi } from 'vitest'
import { Kept } from '#lib/core/units/kept'

describe('answers that are kept', () => {
  test('worked out once, also where the answer is nothing', () => {
    const kept = new Kept<null>(3)
    const workOut = vi.fn(() => null)
    expect([kept.orElse('q', workOut), kept.orElse('q', workOut)]).toEqual([null, null])
    expect(workOut).toHaveBeenCalledTimes(1)
  })

  test('the oldest goes first; one that is set anew is the newest', () => {
    const kept = new Kept<number>(2)
    kept.set('a', 1)
    kept.set('b', 2)
    kept.set('a', 3)
    kept.set('c', 4)
    expect([kept.get('a'), kept.get('b'), kept.get('c'), kept.has('b')]).toEqual([3, undefined, 4, false])
  })

  test('an error is no answer', () => {
    const kept = new Kept<number>(2)
    const failing = () => {
      throw new Error('no')
    }
    expect(() => kept.orElse('a', failing)).toThrow('no')
    expect(kept.has('a')).toBe(false)
  })

  test.each([0, -1, 1.5, Number.NaN])('at most %s is refused by name', (most) =>
    expect(() => new Kept(most)).toThrow(/most/),
  )
})
