import { expect, it } from 'vitest'
import { gcd, largestSums } from '#lib/core/cutting/subset-sums'

it('knows which lengths are sums', () => {
  const out = new Int32Array(10)
  largestSums([3, 5], [1, 1], 9, out, new Uint32Array(1))
  expect([...out]).toEqual([0, 0, 0, 3, 3, 5, 5, 5, 8, 8])
  expect(gcd(84, 36)).toBe(12)
})
