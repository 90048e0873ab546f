/**
 * How hard a seat is to tip: a hand sum with the forces of a published test, not the test. mm, N, kg.
 * Tests: tests/core/design/counter-seat.test.ts
 */
import type { Notice } from './model'

const TIPPING = 'forces of EN 1022:2018: 600 N down, 60 mm inside the edge, and 20 N outwards'

/**
 * How many times the test force a seat stands before it tips over a line of feet.
 * @param leverMm from the feet inwards to the load; negative outside them
 * @example tippingFactor({ leverMm: 85, ownLeverMm: 200, weightKg: 5, heightMm: 650 }).toFixed(2) //=> '4.68'
 */
export function tippingFactor(at: {
  readonly leverMm: number
  readonly ownLeverMm: number
  readonly weightKg: number
  readonly heightMm: number
}): number {
  const ownNmm = at.weightKg * 9.81 * at.ownLeverMm
  const loadNmm = 600 * at.leverMm
  const pushNmm = 20 * at.heightMm
  return loadNmm >= 0 ? (loadNmm + ownNmm) / pushNmm : ownNmm / (pushNmm - loadNmm)
}

/** A stop below the test force, a caution below a quarter more; undefined where it stands well. */
export function tipping(factor: number, way: string, parameter: string, cure: string): Notice | undefined {
  if (factor >= 1.25) return undefined
  const level = factor < 1 ? 'stop' : 'caution'
  const fact = `It stands ${factor.toFixed(2)} times the test force before it tips ${way}`
  return { level, message: `${fact}; ${cure}.`, parameter, source: TIPPING }
}
