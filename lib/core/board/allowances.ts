/**
 * What is added to a part's finished size so that it can be cut rough, flattened, squared and sanded.
 * All common practice, with usual figures: 1-2 mm on length, 3 mm on width, 0.5 mm a face for the planer's
 * skim, and 0.2-0.4 mm a face from planer marks to grit 220. A shop may set its own.
 * Whole micrometres. Used by flattening.ts, demand.ts and lib/core/cutting/from-pool.ts.
 */
export interface RoughAllowances {
  /** Added to the part's length: one end is squared, the other cut to length. */
  readonly lengthUm: number
  /** Added to the part's width: one edge is straightened, the other ripped to width. */
  readonly widthUm: number
  /** Taken from each face by the planer beyond what the warp costs. */
  readonly skimPerFaceUm: number
  /** Taken from each face by sanding. */
  readonly sandPerFaceUm: number
  /** Cut off each end of a board before anything is measured: end checks, dirt, old glue. Holds the saw's kerf. */
  readonly endTrimUm: number
  /** Taken from each edge of a board before anything is measured. */
  readonly edgeTrimUm: number
  /** A twisted piece is shimmed level before it is planed, so that both high corners lose half. */
  readonly isTwistShimmed: boolean
  /**
   * Shortest piece that goes through the planer. A shorter part is flattened while it is still this long.
   * Usual rule: roller spacing plus 50 mm, about 300 mm. The machine's manual decides.
   */
  readonly minPlaneLengthUm: number
}

export const DEFAULT_ALLOWANCES: RoughAllowances = {
  lengthUm: 2_000,
  widthUm: 3_000,
  skimPerFaceUm: 500,
  sandPerFaceUm: 300,
  endTrimUm: 10_000,
  edgeTrimUm: 0,
  isTwistShimmed: true,
  minPlaneLengthUm: 300_000,
}
