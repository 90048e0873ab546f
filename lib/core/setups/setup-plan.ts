/**
 * Machine set-ups as plain data: one set-up is one state of one machine; every cut that this state can make is
 * made before anything is re-set. Lengths mm, angles rad, times in seconds. Sled angles are seen from above with
 * the sled's fence between the worker and the piece: positive is counter-clockwise.
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

export const SETUP_KINDS = [
  'flatten',
  'plane',
  'crosscut',
  'rip',
  'edgeBevel',
  'endCut',
  'notch',
  'drill',
  'countersink',
  'taper',
  'roundOver',
  'chamfer',
  'engrave',
  'glueUp',
] as const
export type SetupKind = (typeof SETUP_KINDS)[number]

/** What the maker sets, in the order in which it is set. */
export interface SetupSettings {
  readonly blade?: 'combination' | 'rip' | 'crosscut' | 'stack'
  /** Width that the blade, or the stack of blades and chippers, cuts. */
  readonly bladeWidthMm?: number
  readonly guide?: 'sled' | 'ripFence' | 'taperJig'
  readonly bladeHeightMm?: number
  readonly bladeTiltRad?: number
  /** Turn of the sled's fence from square. */
  readonly sledAngleRad?: number
  /** Distance of the rip fence from the blade. */
  readonly fenceMm?: number
  /** Distance of the stop block from the near side of the blade, along the sled's fence. */
  readonly stopMm?: number
  readonly stopSide?: 'left' | 'right'
  /** Second stop, for the last pass of a notch, and the move between two passes. */
  readonly lastStopMm?: number
  readonly stepMm?: number
  /**
   * Taper jig: a carriage whose edge is the line of the cut. Its fence stands this far from the edge where the taper
   * begins, and this far at the slim end; the angle between them.
   */
  readonly jigWideMm?: number
  readonly jigSlimMm?: number
  readonly jigRad?: number
  /** What the planer leaves, or the wood that an engraver is focused on. */
  readonly thicknessMm?: number
  readonly passDepthMm?: number
  /** Bit of the drill press or the router table. */
  readonly bit?: string
  readonly bitMm?: number
  /** Depth stop of the drill press; absent: right through. Height of a chamfer's bit; depth of an engraving. */
  readonly depthMm?: number
  readonly tableTiltRad?: number
}

/** Where in the cut plan a sawing cut stands. `path`: '' is the board, then '1' the first child, '2' the second. */
export interface TreePlace {
  readonly layout: number
  readonly copy: number
  readonly path: string
}

export interface SetupCut {
  /** Same for the same cut in every plan of the same work, so that it can be ticked off. */
  readonly key: string
  readonly kind: SetupKind
  /**
   * What is cut: a board of the pool by its id; a piece of it, with /1 or /2 for the first or second piece of each cut
   * that led to it; or a part by its id.
   */
  readonly pieceId: string
  readonly pieceName: string
  /** Passes over the blade; above 1 for a notch wider than the blade. */
  readonly passes: number
  /** Holes or edges done in this one step; absent: one. */
  readonly count?: number
  /** Cut to a pencil or knife mark: the stop, should one be set, is swung away. */
  readonly isToMark?: boolean
  /** Thickness that the planer leaves on this piece. */
  readonly leavesMm?: number
  /** Keys of the cuts that must be made before it. */
  readonly after: readonly string[]
  /** How the piece lies, and what becomes of it. */
  readonly note: string
  readonly seconds: number
  readonly tree?: TreePlace
  /** Operations of the part that this cut makes. */
  readonly operationIds?: readonly string[]
}

export interface Setup {
  readonly id: string
  readonly station: StationKind
  readonly kind: SetupKind
  readonly title: string
  readonly settings: SetupSettings
  readonly cuts: readonly SetupCut[]
  /** What to cut in scrap first, and what to check it with. */
  readonly testCut: string
  readonly checkWith: string
  readonly cautions: readonly string[]
  /** What is turned or moved since this station's last set-up: «stop», «fence», «blade height»… */
  readonly changes: readonly string[]
  /** The machine still stands as in this earlier set-up: nothing to set. */
  readonly resumes?: string
  readonly settingSeconds: number
  readonly cuttingSeconds: number
}

export interface StationTime {
  readonly station: StationKind
  /** Times that the station is set. */
  readonly setups: number
  readonly seconds: number
}

/** A limit of a machine that the work breaks, or something to know before the first cut. */
export interface SetupWarning {
  readonly level: 'note' | 'caution' | 'stop'
  readonly code:
    | 'tooShortToHold'
    | 'tooShortToRip'
    | 'tooWideForSled'
    | 'tooWideForFence'
    | 'tooShortToPlane'
    | 'tooNarrowToPlane'
    | 'tooWideToPlane'
    | 'tooThinToPlane'
    | 'boardTooThin'
    | 'bladeTooLow'
    | 'angleTooSteep'
    | 'notchWiderThanPart'
    | 'planedWhole'
    | 'tooShortToRout'
    | 'noPiece'
    | 'turnedBlank'
  readonly message: string
  /** The cut, or the part, that is meant. */
  readonly key: string
}

export interface SetupPlan {
  /** `optimal`: no order of the same cuts needs fewer settings; proven by search or by the bound. */
  readonly status: 'optimal' | 'feasible'
  readonly setups: readonly Setup[]
  readonly stations: readonly StationTime[]
  /** How often something is set, and a number that no order can go below. */
  readonly settings: number
  readonly settingsBound: number
  /** Settings that differ from each other. */
  readonly distinctSettings: number
  /** Settings if every piece were finished before the next one is begun, for comparison. */
  readonly settingsPieceByPiece: number
  readonly settingSeconds: number
  readonly cuttingSeconds: number
  readonly warnings: readonly SetupWarning[]
  /** Parts for which the cut plan yields no piece. */
  readonly partsWithoutPiece: readonly string[]
}
