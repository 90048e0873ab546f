/**
 * Proofs for a single clear board, in ever longer attempts between the rounds of the search: that nothing heavier can
 * be cut from it, that not all parts can, or a plan that the search missed.
 * In: Prepared, the best weight so far. Out: a filled board, a bound on the weight. Deterministic: limits are counts.
 * Tests: tests/core/cutting/block-table.test.ts
 */
import { solveOneBoard } from './block-table'
import { areWhole } from './bounds'
import type { Prepared } from './prepared'
import { hasNoLimits } from './saw-limits'
import type { Section } from './section'
import { wholeBlocks } from './whole-blocks'

export interface BoardProof {
  /** Heavier than what was known. */
  readonly root: Section | null
  /** No plan weighs more. */
  readonly weightBound: number
  readonly steps: number
}

const FIRST_SETS = 2_000
const MOST_SETS = 400_000
const FIRST_PAIRS = 2e6
const MOST_PAIRS = 4e9
/** How much longer each attempt is. */
const GROWTH = 4

export class BoardProver {
  private readonly isFit: boolean
  private readonly total: number
  private readonly least: number
  private attempts = 0
  private isDone = false
  constructor(
    private readonly prep: Prepared,
    private readonly shouldStop: () => boolean,
  ) {
    const [board] = prep.classes
    this.isFit =
      prep.classes.length === 1 && board.count === 1 && board.zones.length === 0 && hasNoLimits(prep)
    const { blanks } = prep.problem
    this.total = blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? Number.POSITIVE_INFINITY), 0)
    this.least = Math.min(...prep.weight.filter((w) => w > 0))
  }

  get canTry(): boolean {
    return this.isFit && !this.isDone
  }

  /** @param known weight of the best plan so far */
  attempt(known: number): BoardProof {
    const { prep } = this
    const k = this.attempts++
    const isAll = prep.problem.objective === 'feasibility'
    if (k === 0 && isAll && this.cannotBeWhole()) return this.none()
    const isWhole = areWhole(prep.weight)
    const least = isWhole ? known + 1 : known * (1 + 1e-9) + 1e-12
    const target = isAll ? this.total : Math.min(this.total, least)
    const mostSets = Math.min(MOST_SETS, FIRST_SETS * GROWTH ** k)
    const answer = solveOneBoard(prep, prep.classes[0], {
      target,
      isTargetEnough: target === this.total,
      mostSets,
      mostPairs: Math.min(MOST_PAIRS, FIRST_PAIRS * GROWTH ** k),
      shouldStop: this.shouldStop,
    })
    if (answer === null || (mostSets === MOST_SETS && !answer.isComplete)) this.isDone = true
    if (answer === null) return { root: null, weightBound: Number.POSITIVE_INFINITY, steps: 0 }
    const { section, steps } = answer
    if (!answer.isComplete) return { root: section, weightBound: Number.POSITIVE_INFINITY, steps }
    if (isAll && section === null) return { ...this.none(), steps }
    this.isDone = true
    return { root: section, weightBound: Math.max(known, answer.weight), steps }
  }

  /** At least one part is missing from every plan. */
  private none(): BoardProof {
    this.isDone = true
    return { root: null, weightBound: this.total - this.least, steps: 0 }
  }

  /** All parts use up all of the board, and no block without waste is as large as it. */
  private cannotBeWhole(): boolean {
    const { prep } = this
    const [board] = prep.classes
    let area = 0
    for (let i = 0; i < prep.n; i++) area += prep.demand[i] * prep.area[i]
    if (area !== board.w * board.h) return false
    const blocks = wholeBlocks(prep, prep.demand, {
      most: 20_000,
      mostTries: 8e6,
      fits: (w, h) => w <= board.w && h <= board.h,
      shouldStop: this.shouldStop,
    })
    return blocks.isComplete && !(blocks.byHeight.get(board.h) ?? []).some((b) => b.w === board.w)
  }
}
