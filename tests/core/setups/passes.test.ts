import { describe, expect, test } from 'vitest'
import { notchPasses, planerPasses, roundOverPasses } from '#lib/core/setups/passes'

// Common practice: n = ceil((width - kerf) / step) + 1 with step <= kerf; the fifth line is the floating-point trap.
test.each([
  [38, 3.2, 3, 13],
  [38, 3.2, 2, 19],
  [3.2, 3.2, 3, 1],
  [6, 3.2, 3, 2],
  [19.05, 3.175, 3.175, 6],
  [2, 3.2, 3, 1],
])('a notch %d wide, blade %d, step %d: %d passes', (width, kerf, step, passes) => {
  expect(notchPasses(width, kerf, step)).toBe(passes)
})

test('a step wider than the blade would leave ridges', () => {
  expect(() => notchPasses(38, 3.2, 3.3)).toThrow(RangeError)
  expect(() => notchPasses(38, 3.2, 0)).toThrow(RangeError)
})

// Common practice: ceil((t0 - t1) / deepest pass); 1/16 in = 1.5875 mm is what planer manuals print as the deepest.
test.each([
  [25.4, 20, 1.5, 4],
  [22, 19, 1, 3],
  [28, 18, 0.8, 13],
  [25.4, 19.05, 1.5875, 4],
  [19, 19, 1, 0],
])('planing from %d to %d at %d a pass: %d', (from, to, deepest, passes) => {
  expect(planerPasses(from, to, deepest)).toBe(passes)
})

describe('a rounded edge', () => {
  // Common practice: no pass deeper than half the radius or 3 mm, the last one half a millimetre.
  test.each([
    [3, 3, 3],
    [6, 3, 3],
    [12, 3, 5],
    [0.4, 3, 1],
  ])('radius %d, deepest %d: %d passes', (radius, deepest, passes) => {
    expect(roundOverPasses(radius, deepest)).toBe(passes)
  })
})
