/**
 * How hard a seat is used. Stands alone so that a page can offer the levels without the load cases behind them.
 * Loads of each: load-cases.ts.
 */

/** At home, in public rooms, or hard in public. Tables and shelves know one level only. */
export const SEAT_LEVELS = ['home', 'public', 'hard'] as const
export type SeatLevel = (typeof SEAT_LEVELS)[number]
