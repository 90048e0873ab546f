/** A seeded source of chance: same seed, same sequence, on every machine. */
export interface Rng {
  /** Uniform in [0, 1). */
  next(): number
  /** Whole number in [0, below). */
  below(below: number): number
}

/**
 * Small fast counter generator with 128 bits of state (sfc32, Chris Doty-Humphrey, PractRand; public domain).
 * @param seed any whole number
 */
export function seededRng(seed: number): Rng {
  let a = 0x9e3779b9
  let b = 0x243f6a88
  let c = seed | 0
  let d = 1
  const nextUint32 = (): number => {
    const t = (((a + b) | 0) + d) | 0
    d = (d + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (c << 21) | (c >>> 11)
    c = (c + t) | 0
    return t >>> 0
  }
  for (let i = 0; i < 16; i++) nextUint32()
  return {
    next: () => nextUint32() / 4_294_967_296,
    below: (below) => Math.floor((nextUint32() / 4_294_967_296) * below),
  }
}
