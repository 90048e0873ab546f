/**
 * The cutting problem and its answer, as plain data. Whole micrometres; x along the board's grain, y across.
 * A crosscut runs along y and divides the length; a rip runs along x and divides the width. Every cut runs from
 * edge to edge of the piece that it divides (guillotine), and loses the kerf. Kerf is exact on both axes.
 */

/** One physical board, or `count` alike. */
export interface CutBoard {
  readonly id: string
  readonly lengthUm: number
  readonly widthUm: number
  /** What using the board costs, in any one unit; scraps are cheap. */
  readonly cost: number
  /** Absent: 1. null: as many as are wanted. */
  readonly count?: number | null
}

/** A rectangle that some blanks may not overlap. Cuts may pass through it. */
export interface BlockedZone {
  /** Index into `boards`; where the board has a count above 1, the first of them alone is meant. */
  readonly board: number
  readonly xUm: number
  readonly yUm: number
  readonly lengthUm: number
  readonly widthUm: number
  /** Indexes into `blanks`, or every blank. */
  readonly blocks: 'all' | readonly number[]
}

/** A rectangle to be cut, at its rough size (allowances are inside it already). */
export interface CutBlank {
  readonly id: string
  readonly lengthUm: number
  readonly widthUm: number
  /** How many are wanted; null: as many as fit. */
  readonly demand: number | null
  /** `along`: its length must lie along the board's grain. `free`: may be turned. */
  readonly grain: 'along' | 'free'
  /** What one is worth; equal weights count parts. */
  readonly weight: number
  /** Indexes of the boards that it may come from (species, thickness after flattening); absent: all. */
  readonly boards?: readonly number[]
  /** Absent: both ends are square. See rows.ts. */
  readonly ends?: BlankEnds
  /** Shortest piece that goes through the planer: shorter blanks stay together until they are planed. Absent: any. */
  readonly planedUm?: number
  /** Set: a strip that a panel is glued up from, of any width in a range; its own demand is 0. See panels.ts. */
  readonly stave?: StaveRule
}

/**
 * A blank whose rough ends lean in the plane of the board. Lean: how much further along the grain an end stands at the
 * far edge than at the near one. Equal leans make a parallelogram, opposite ones a trapezium.
 */
export interface BlankEnds {
  /** Length along the near edge; along the far edge it is `nearUm + leanBUm - leanAUm`. */
  readonly nearUm: number
  readonly leanAUm: number
  readonly leanBUm: number
}

/** How a panel may be made up: widths of its staves, less what jointing takes, make its rough width. */
export interface StaveRule {
  /** Index of the blank that is the panel. */
  readonly of: number
  /** Width that the staves of one panel make together. */
  readonly panelUm: number
  readonly minWidthUm: number
  readonly maxWidthUm: number
  /** Taken from each of the two edges that meet in a joint. */
  readonly jointUm: number
  readonly maxStaves: number
}

export interface MachineLimits {
  /** Widest piece that the rip fence takes on the fence side; absent: no limit. */
  readonly maxRipWidthUm?: number
  /** Widest piece that the crosscut sled takes: the length of the cut itself; absent: no limit. */
  readonly maxCrosscutWidthUm?: number
  /** Shortest and narrowest piece that may be held safely while it is cut: every piece before its cut. */
  readonly minPieceLengthUm: number
  readonly minPieceWidthUm: number
  /** Most alternations of crosscut and rip; null: as many as needed. */
  readonly stages: number | null
  /**
   * Where `stages` is a number: the cut that they begin with. A board that begins with the other one has used up its
   * first stage all the same, so 2 stages with `crosscut` are: crosscut to length, then rip to width.
   */
  readonly firstCut?: 'crosscut' | 'rip'
}

export type CutObjective = 'parts' | 'maxValue' | 'minCost' | 'minBoards' | 'feasibility'

export interface CutProblem {
  readonly kerfUm: number
  readonly boards: readonly CutBoard[]
  readonly blanks: readonly CutBlank[]
  readonly zones: readonly BlockedZone[]
  readonly limits: MachineLimits
  /** Smallest rest that goes back to the pool as an offcut; anything smaller is waste. */
  readonly offcut: { readonly minLengthUm: number; readonly minWidthUm: number }
  /** `parts`: most weight made, then least board cost, then the offcuts most worth keeping. */
  readonly objective: CutObjective
}

/**
 * A piece of a board, and what becomes of it. Sizes are those of the smallest rectangle around it; `leanUm` tells how
 * its left and its right end lean (see BlankEnds), absent: both square.
 */
export type CutNode =
  | {
      readonly kind: 'cut'
      readonly xUm: number
      readonly yUm: number
      readonly lengthUm: number
      readonly widthUm: number
      /** crosscut divides the length at `atUm` from x; rip divides the width at `atUm` from y. */
      readonly cut: 'crosscut' | 'rip'
      /** Size of the first child along the divided axis, at the near edge; the kerf lies after it. */
      readonly atUm: number
      /** A crosscut that leans: how much further along it leaves the far edge. The kerf is square to the cut. */
      readonly slantUm?: number
      readonly leanUm?: readonly [number, number]
      readonly first: CutNode
      /** Absent where the kerf eats all the rest. */
      readonly second?: CutNode
    }
  | {
      readonly kind: 'blank'
      readonly xUm: number
      readonly yUm: number
      readonly lengthUm: number
      readonly widthUm: number
      /** Index into `blanks`. */
      readonly blank: number
      readonly turned: boolean
      readonly leanUm?: readonly [number, number]
      /** Of a stave: which of the panels, and which place in it, both from 0. */
      readonly stave?: { readonly panel: number; readonly at: number }
    }
  | {
      readonly kind: 'offcut' | 'waste'
      readonly xUm: number
      readonly yUm: number
      readonly lengthUm: number
      readonly widthUm: number
      readonly leanUm?: readonly [number, number]
    }

export interface BoardLayout {
  /** Index into `boards`. */
  readonly board: number
  /** How many boards are cut exactly so. */
  readonly copies: number
  readonly tree: CutNode
}

/** Why a blank is short, and what would cure it. */
export interface Shortage {
  readonly blank: number
  readonly missing: number
  /** The first hurdle that no board takes, in this order; `contention`: it fits a board that other parts need. */
  readonly why: 'noBoard' | 'length' | 'width' | 'defects' | 'contention'
}

/** The smallest board that, added to the pool, would make every part. */
export interface Cure {
  readonly lengthUm: number
  readonly widthUm: number
  /** The blanks that it would be cut into. */
  readonly blanks: readonly { readonly blank: number; readonly count: number }[]
}

export interface CutPlan {
  readonly status: 'optimal' | 'feasible' | 'infeasible' | 'outOfBudget' | 'cancelled'
  readonly layouts: readonly BoardLayout[]
  /** Weight made and the most that anyone could make. */
  readonly weightMade: number
  readonly weightBound: number
  /** Cost of the boards used, and a cost below which no plan making `weightMade` can go. */
  readonly cost: number
  readonly costBound: number
  /** Area of blanks over area of boards used, 0 to 1. */
  readonly yield: number
  readonly shortages: readonly Shortage[]
  readonly cure?: Cure
  readonly steps: number
}
