/**
 * Bounds that are worked out on the way, between rounds of the plan search: how many identical boards it takes at
 * least, and what one board holds at most.
 * In: Prepared, the best score so far. Out: bounds made sharper in place. Tests: plate-bound, block-table tests.
 */
import { dualFeasibleCount } from './dual-feasible'
import type { BoardFiller } from './fill-board'
import type { Score } from './plan-score'
import { patternBound } from './plate-bound'
import type { Prepared } from './prepared'
import { BoardProver } from './prove-board'
import type { Used } from './section'

export interface SearchBounds {
  /** Lowered by proofs on the way. */
  weight: number
  /** Least cost of making everything, as far as proven. */
  allMade: number
  cost(weight: number): number
}

export const isAllMade = ({ weight }: Score, bounds: SearchBounds): boolean =>
  weight >= bounds.weight * (1 - 1e-12)

export const isProven = (score: Score, bounds: SearchBounds): boolean =>
  isAllMade(score, bounds) && score.cost <= bounds.cost(score.weight) * (1 + 1e-12)

/** Cycles before which a proof is tried. */
const PROOF_CYCLES = new Set([0, 2, 5, 9, 13, 17, 21])

export class PlanProofs {
  private readonly prover: BoardProver

  constructor(
    private readonly prep: Prepared,
    private readonly reach: Int32Array,
    private readonly bounds: SearchBounds,
    private readonly filler: BoardFiller,
    private readonly shouldStop: () => boolean,
  ) {
    this.prover = new BoardProver(prep, shouldStop)
  }

  /**
   * Sharpens the bounds, in turns of the search.
   * @returns a plan that the search missed
   */
  prove(cycle: number, best: Score): readonly Used[] | null {
    if (!PROOF_CYCLES.has(cycle)) return null
    if (!isProven(best, this.bounds)) this.proveCount(cycle, best)
    if (isProven(best, this.bounds) || !this.prover.canTry) return null
    const { root, weightBound, steps } = this.prover.attempt(best.weight)
    this.filler.steps += steps
    this.bounds.weight = Math.min(this.bounds.weight, weightBound)
    return root === null ? null : [{ cls: 0, root }]
  }

  /** Identical boards: a sharper bound on their number. */
  private proveCount(cycle: number, best: Score): void {
    const { prep, bounds } = this
    const [cls] = prep.classes
    const { objective } = prep.problem
    if (prep.classes.length !== 1 || cls.zones.length > 0 || objective === 'maxValue') return
    if (!isAllMade(best, bounds) || cls.cost <= 0 || this.reach.some((v, i) => v !== prep.demand[i])) return
    if (cycle === 0) bounds.allMade = Math.max(bounds.allMade, dualFeasibleCount(prep, cls) * cls.cost)
    if (cycle !== 2 || isProven(best, bounds)) return
    const { count, rounds } = patternBound(prep, best.cost / cls.cost - 1e-9, this.shouldStop)
    this.filler.steps += rounds
    bounds.allMade = Math.max(bounds.allMade, Math.ceil(count - 1e-6) * cls.cost)
  }
}
