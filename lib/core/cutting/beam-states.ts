/**
 * The states of the board search: open pieces, what is still wanted, what was gained and lost. One set of arrays, so
 * that copying a state allocates nothing. Tests: tests/core/cutting/plan-cuts.test.ts
 */

/** Numbers of a piece: x, y, w, h, stage x 2 + direction, number, root. */
export const PIECE = 7
export const MAX_OPEN = 48

/** States of two levels, side by side in one set of arrays so that copying allocates nothing. */
export class BeamStates {
  pieces = new Float64Array(0)
  open = new Int32Array(0)
  rem = new Int32Array(0)
  gain = new Float64Array(0)
  /** What finished states are compared by. */
  score = new Float64Array(0)
  lost = new Float64Array(0)
  area = new Float64Array(0)
  worth = new Float64Array(0)
  node = new Int32Array(0)
  hash = new Int32Array(0)
  reserve(states: number, items: number): void {
    if (this.open.length < states) {
      this.open = new Int32Array(states)
      this.gain = new Float64Array(states)
      this.score = new Float64Array(states)
      this.lost = new Float64Array(states)
      this.area = new Float64Array(states)
      this.worth = new Float64Array(states)
      this.node = new Int32Array(states)
      this.hash = new Int32Array(states)
      this.pieces = new Float64Array(states * MAX_OPEN * PIECE)
    }
    if (this.rem.length < states * items) this.rem = new Int32Array(states * items)
  }
}
