/**
 * Machine set-ups as plain data: one set-up is one state of one machine; every cut that this state can make is
 * made before anything is re-set. Lengths mm, angles rad, times in seconds.
 */
export const STATION_KINDS = [
  'planer',
  'tableSaw',
  'routerTable',
  'drillPress',
  'bandSaw',
  'laserEngraver',
  'assemblyBench',
] as const
export type StationKind = (typeof STATION_KINDS)[number]

/** What the maker sets, in the order in which it is set. */
export interface SetupSettings {
  readonly bladeHeightMm?: number
  readonly bladeTiltRad?: number
  /** Turn of the sled's fence from square. */
  readonly sledAngleRad?: number
  /** Distance of the rip fence from the blade. */
  readonly fenceMm?: number
  /** Distance of the stop block from the blade, along the sled's fence. */
  readonly stopMm?: number
  readonly passDepthMm?: number
  readonly bit?: string
}

export interface SetupCut {
  /** What is cut: a board of the pool, a piece cut from it, or a part. */
  readonly pieceId: string
  readonly pieceName: string
  /** Passes over the blade; above 1 for a notch wider than the blade. */
  readonly passes: number
  /** Index of the set-up cut that must come before it, as `setupId:index`. */
  readonly note: string
}

export interface Setup {
  readonly id: string
  readonly station: StationKind
  readonly title: string
  readonly settings: SetupSettings
  readonly cuts: readonly SetupCut[]
  /** What to cut in scrap first, and what to check it with. */
  readonly testCut: string
  readonly checkWith: string
  readonly cautions: readonly string[]
  readonly settingSeconds: number
  readonly cuttingSeconds: number
}

export interface StationTime {
  readonly station: StationKind
  readonly setups: number
  readonly seconds: number
}

export interface SetupPlan {
  readonly setups: readonly Setup[]
  readonly stations: readonly StationTime[]
  /** Re-settings if every piece were finished before the next one is begun, for comparison. */
  readonly settingsPieceByPiece: number
}
