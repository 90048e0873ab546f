/**
 * How much work a search may do. Steps come first, so that the same seed and step budget give the same
 * plan; a stop asked from outside (clock, cancel) comes second. Core never reads a clock: the caller gives one.
 */
export interface Budget {
  /** Most search steps; a step is documented by each search. */
  readonly maxSteps: number
  /** True once the caller wants to stop. Asked now and then, so it may be slow. */
  readonly shouldStop?: () => boolean
  /** Milliseconds from any fixed origin, for progress reports and time slices. */
  readonly nowMs?: () => number
}

/** No limit but the search's own end. */
export const unlimited: Budget = { maxSteps: Number.POSITIVE_INFINITY }
