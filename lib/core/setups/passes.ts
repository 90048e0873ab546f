/**
 * How often wood goes over a blade, a bit or a cutter head. Pure counts from lengths in mm.
 * A count is guarded against floating error: 15.875 / 3.175 is five steps, not six.
 * Tests: tests/core/setups/passes.test.ts.
 */
const GUARD = 1e-9

/** Least whole number of steps of at most `stepMm` that cover `spanMm`. */
function steps(spanMm: number, stepMm: number): number {
  return Math.max(0, Math.ceil(spanMm / stepMm - GUARD))
}

/**
 * Passes to cut a notch with a blade narrower than it: ceil((width - kerf) / step) + 1.
 * @throws RangeError where the step is not above 0 or wider than the kerf: ridges would be left standing
 * @example notchPasses(19.05, 3.175, 3.175) //=> 6
 */
export function notchPasses(widthMm: number, kerfMm: number, stepMm: number): number {
  if (!(stepMm > 0) || stepMm > kerfMm + GUARD) {
    throw new RangeError(`step of ${stepMm} mm does not suit a blade of ${kerfMm} mm`)
  }
  return steps(widthMm - kerfMm, stepMm) + 1
}

/**
 * Planer passes from one thickness to another: ceil((from - to) / deepest pass).
 * @example planerPasses(25.4, 20, 1.5) //=> 4
 */
export function planerPasses(fromMm: number, toMm: number, maxPassMm: number): number {
  if (!(maxPassMm > 0)) throw new RangeError(`not a depth of pass: ${maxPassMm} mm`)
  return steps(fromMm - toMm, maxPassMm)
}

/**
 * Router table passes for a rounded edge: none deeper than half the radius or `maxPassMm`, and a last one of
 * 0.5 mm (common practice).
 * @example roundOverPasses(6, 3) //=> 3
 */
export function roundOverPasses(radiusMm: number, maxPassMm: number): number {
  const lastMm = Math.min(0.5, radiusMm)
  return steps(radiusMm - lastMm, Math.min(radiusMm / 2, maxPassMm)) + 1
}
