/**
 * What a part gains the search that fills a board: its area, or its weight, or something between, by chance; and more
 * where plans have left it over (sequential value correction, Belov and Scheithauer 2007).
 * In: Prepared, a random source. Out: values blank by blank, never 0, so that every wanted part is tried.
 * Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Prepared } from './prepared'

/** Random spread of the parts' values. */
const SPREADS = [0, 0, 0, 0.02, 0.08]

export class PartGains {
  readonly values: Float64Array
  /** There is a plan already: chance may play. */
  hasPlan = false
  /** Value correction, blank by blank. */
  private readonly factor: Float64Array

  constructor(
    private readonly prep: Prepared,
    private readonly rng: Rng,
  ) {
    this.values = new Float64Array(prep.n)
    this.factor = new Float64Array(prep.n).fill(1)
  }

  /** Parts that a plan left over are hard: they gain in value. */
  correct(missing: Int32Array): void {
    for (let i = 0; i < missing.length; i++) {
      if (missing[i] > 0) this.factor[i] = Math.min(4, this.factor[i] * (1.05 + 0.15 * this.rng.next()))
      else this.factor[i] = 1 + (this.factor[i] - 1) * 0.95
    }
  }

  choose(isAllMade: boolean): void {
    const { objective } = this.prep.problem
    if (objective === 'maxValue') this.setGains(this.rng.next() < 0.8 ? 1 : this.rng.next())
    else if (!this.hasPlan || objective !== 'parts' || isAllMade) this.setGains(0)
    else this.setGains([0, 0.5, 1, 1][this.rng.below(4)])
  }

  /** Area, or weight, or between: by `toWeight` from 0 to 1. Never 0, so that every wanted part is tried. */
  private setGains(toWeight: number): void {
    const { prep, factor, values: gains } = this
    let most = 0
    let mean = 0
    for (let i = 0; i < prep.n; i++) {
      most = Math.max(most, prep.weight[i] / prep.area[i])
      mean += prep.area[i] / prep.n
    }
    // Large parts are harder to place later: they count for a little more than their area.
    const power = 0.12 * this.rng.next()
    const spread = !this.hasPlan ? 0 : SPREADS[this.rng.below(SPREADS.length)]
    for (let i = 0; i < prep.n; i++) {
      const dense = most > 0 ? prep.weight[i] / prep.area[i] / most : 1
      const large = prep.area[i] * (prep.area[i] / mean) ** power
      gains[i] = (large * (1 - toWeight) + prep.area[i] * toWeight * Math.max(dense, 1e-6)) * factor[i]
      if (spread > 0) gains[i] *= 1 + spread * this.rng.next()
    }
  }
}
