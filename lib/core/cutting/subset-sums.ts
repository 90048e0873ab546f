/**
 * Which lengths can be made exactly by laying parts end to end: "normal patterns" (Herz 1972). A piece of length L
 * cannot use more than the largest sum up to L; the rest is lost whatever is done. On a grid: exact while the
 * sizes share a divisor that is coarse enough, else rounded (then a guide, not a bound).
 * Cost: bit-parallel, sizes x copies x grid/32. Tests: tests/core/cutting/subset-sums.test.ts
 */

export function gcd(a: number, b: number): number {
  let x = a
  let y = b
  while (y > 0) {
    const r = x % y
    x = y
    y = r
  }
  return x
}

/** Bits of `set` shifted up by `by`, or-ed into itself. Word i is done before any lower word is read again. */
function orShifted(set: Uint32Array, words: number, by: number): void {
  const wordBy = by >>> 5
  const bitBy = by & 31
  for (let i = words - 1; i >= wordBy; i--) {
    let v = set[i - wordBy] << bitBy
    if (bitBy > 0 && i > wordBy) v |= set[i - wordBy - 1] >>> (32 - bitBy)
    set[i] |= v
  }
}

/**
 * Largest sum not above each grid length.
 * @param sizes whole grid units, each above 0
 * @param copies how often each may be used
 * @param out out[q] becomes the largest sum <= q, for q = 0..limit
 * @example largestSums([3, 5], [1, 1], 9, new Int32Array(10), new Uint32Array(1)) // out: 0,0,0,3,3,5,5,5,8,8
 */
export function largestSums(
  sizes: ArrayLike<number>,
  copies: ArrayLike<number>,
  limit: number,
  out: Int32Array,
  bits: Uint32Array,
): void {
  const words = (limit >>> 5) + 1
  bits.fill(0, 0, words)
  bits[0] = 1
  for (let i = 0; i < sizes.length; i++) {
    const s = sizes[i]
    if (s <= 0 || s > limit) continue
    // Binary splitting: 1, 2, 4, ... copies at a time.
    let left = Math.min(copies[i], Math.floor(limit / s))
    for (let k = 1; left > 0; k *= 2) {
      const take = Math.min(k, left)
      if (take * s <= limit) orShifted(bits, words, take * s)
      left -= take
    }
  }
  let last = 0
  for (let q = 0; q <= limit; q++) {
    if ((bits[q >>> 5] >>> (q & 31)) & 1) last = q
    out[q] = last
  }
}
