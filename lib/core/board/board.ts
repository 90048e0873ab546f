/**
 * A salvaged board as the planning sees it. Lengths in whole micrometres. A board lies with its grain along x:
 * x from 0 to its length, y from 0 to its width, seen on face A; face B is the other one, drawn as seen
 * through the board, so x and y mean the same on both.
 */
export const DEFECT_KINDS = ['hole', 'nailHole', 'knot', 'crack', 'rot', 'wane', 'stain', 'metal'] as const
export type DefectKind = (typeof DEFECT_KINDS)[number]

export interface Defect {
  readonly id: string
  readonly kind: DefectKind
  /** The face it is seen on; `through`: on both. */
  readonly face: 'A' | 'B' | 'through'
  readonly xUm: number
  readonly yUm: number
  readonly widthUm: number
  readonly heightUm: number
}

/** Each in micrometres, measured over the whole board: cup over its width, bow and crook over its length. */
export interface Warp {
  readonly cupUm: number
  readonly bowUm: number
  readonly crookUm: number
  /** How far the fourth corner lifts when three rest. */
  readonly twistUm: number
}

export interface Board {
  readonly id: string
  readonly lengthUm: number
  readonly widthUm: number
  readonly thicknessUm: number
  readonly species: string
  readonly warp: Warp
  readonly defects: readonly Defect[]
  readonly finish: 'bare' | 'clear' | 'paint' | 'unknown'
  /** No blade before `cleared`. */
  readonly metal: 'unchecked' | 'cleared' | 'found'
  /** An old finish of unknown age is not sanded, planed dry or lasered before `free`. */
  readonly lead: 'notNeeded' | 'untested' | 'free' | 'found'
  /** Preservative-treated wood is never engraved, burnt or used where food or skin touches it. */
  readonly treated: boolean
}
