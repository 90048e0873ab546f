/**
 * What the planning of set-ups reads: the parts with their operations, the cut trees, and the names that a maker
 * knows boards by. Sizes of cut trees in whole micrometres, of parts in mm.
 */
import type { BoardLayout } from '#lib/core/cutting/problem'
import type { Part } from '#lib/core/design/model'
import type { Warp } from '../board/board'
import type { SetupShop } from './setup-shop'

/** At the index that the cut plan knows it by. */
export interface SetupBoard {
  readonly id: string
  readonly name: string
  readonly lengthUm: number
  readonly widthUm: number
  readonly thicknessUm: number
  /** Absent: flat. */
  readonly warp?: Warp
  /** Cut off each end before anything is measured. Absent: nothing. */
  readonly endTrimUm?: number
}

export interface SetupBlank {
  readonly id: string
  readonly name: string
}

/** The parts that copies of a blank become, in this order. A part named by several blanks is glued up from them. */
export interface SetupNeed {
  readonly blank: number
  readonly partIds: readonly string[]
}

export interface SetupInput {
  readonly model: { readonly parts: readonly Part[] }
  readonly layouts: readonly BoardLayout[]
  readonly boards: readonly SetupBoard[]
  readonly blanks: readonly SetupBlank[]
  readonly needs: readonly SetupNeed[]
  readonly shop: SetupShop
  /** Left on the thickness, both faces together, for sanding. Absent: 0. */
  readonly sandingMm?: number
  /** Taken from each of the two edges of a glued joint, mm. Absent: staves are glued as they are sawn. */
  readonly jointMm?: number
  /** States that the proof of the best order may look at. Absent: 40 000. */
  readonly maxStates?: number
}
