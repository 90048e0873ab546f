/**
 * What the board search speaks of: pieces to be filled, the moves that fill them, and how far cuts have alternated.
 * A move cuts one block from the corner of a piece, after a strip that dodges a zone if need be, or cuts along a zone.
 * Shifted sizes (see prepared.ts). Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Block } from './blocks'
import type { Zone } from './prepared'

export interface Filling {
  readonly gain: number
  /** Rests gathered: each one's area to the power 1.5. */
  readonly worth: number
  /** Shifted area that parts cover. */
  readonly area: number
  /** Blanks used and how many of each. */
  readonly items: readonly number[]
  readonly counts: readonly number[]
  readonly moves: readonly Move[]
}

/** A clear piece to be filled: a board, or a section of one. */
export interface Root {
  readonly w: number
  readonly h: number
  /** Cuts that led to it: alternations x 2 + last direction; 0 for a whole board. */
  readonly stage: number
  /** In the piece's own coordinates. */
  readonly zones: readonly Zone[]
  readonly allowed: Uint8Array | null
}

/** One move: which piece (-1 - k: root k; else 8 x move number + slot), which block, how. */
export interface Move {
  readonly piece: number
  readonly id: number
  /** null: one cut along a zone's edge, at `dx` from the corner, 0 across or 1 along. */
  readonly block: Block | null
  /** 0: the rest is divided by a crosscut first; 1: by a rip first. */
  readonly split: 0 | 1
  readonly dx: number
  readonly dy: number
}

/** Slots of the pieces that a move leaves, as part of their number. */
export const SLOT = { left: 1, below: 2, right: 3, above: 4 } as const

/** Stage x 2 + direction after one more cut. A state with no cut yet has stage 0. */
export function nextStage(stage: number, dir: 0 | 1): number {
  if (stage >= 2 && (stage & 1) === dir) return stage
  return ((stage >> 1) + 1) * 2 + dir
}
