/**
 * What every check of a plan of set-ups has at hand: the plan's cuts in their order, and the faults found so far.
 * Lengths mm, angles rad. Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { SetupInput } from '../setup-input'
import type { Setup, SetupCut, SetupPlan, SetupWarning } from '../setup-plan'

export interface SetupFault {
  readonly kind: 'missing' | 'twice' | 'unknown' | 'order' | 'setting' | 'limit' | 'sum'
  readonly key: string
  readonly message: string
}

/** Half of the finest thing that a setting is told to, and a guard. */
const NEAR_MM = 0.011
export const NEAR_RAD = 2e-5
export const THIN_MM = 0.05

export interface Found {
  readonly cut: SetupCut
  readonly setup: Setup
  readonly at: number
}

export const near = (a: number | undefined, b: number, tolerance = NEAR_MM): boolean =>
  a !== undefined && Math.abs(a - b) <= tolerance

export class Check {
  readonly faults: SetupFault[] = []
  readonly all: readonly Found[]
  readonly byKey = new Map<string, Found>()

  constructor(
    readonly input: SetupInput,
    readonly plan: SetupPlan,
  ) {
    let at = 0
    this.all = plan.setups.flatMap((setup) => setup.cuts.map((cut) => ({ cut, setup, at: at++ })))
    for (const found of this.all) {
      if (this.byKey.has(found.cut.key)) this.fault('twice', found.cut.key, 'this key is there twice')
      this.byKey.set(found.cut.key, found)
    }
  }

  fault(kind: SetupFault['kind'], key: string, message: string): void {
    this.faults.push({ kind, key, message })
  }

  expect(ok: boolean, kind: SetupFault['kind'], key: string, message: string): void {
    if (!ok) this.fault(kind, key, message)
  }

  /** The one cut that does a thing, or undefined with a fault. */
  one(matches: readonly Found[], key: string): Found | undefined {
    if (matches.length === 0) this.fault('missing', key, 'nothing makes it')
    if (matches.length > 1) this.fault('twice', key, `${matches.length} cuts make it`)
    return matches[0]
  }

  before(first: Found | undefined, second: Found | undefined, why: string): void {
    if (first === undefined || second === undefined || first.at < second.at) return
    this.fault('order', second.cut.key, `comes before ${first.cut.key}: ${why}`)
  }

  limit(isBroken: boolean, code: SetupWarning['code'], key: string): void {
    if (!isBroken || this.plan.warnings.some((w) => w.code === code && w.key === key)) return
    this.fault('limit', key, `${code} is not reported`)
  }
}
