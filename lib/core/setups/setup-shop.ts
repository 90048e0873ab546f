/**
 * What the planning of set-ups must know about a shop's machines, and how long things take. Lengths mm, angles rad,
 * times s, feeds mm/s. The defaults are common practice and meant to be overruled by the machine's manual and by the
 * shop's own clock; docs/methods/setups.md lists them with their origin.
 */
export interface PlanerLimits {
  readonly maxPassMm: number
  readonly minLengthMm: number
  readonly minWidthMm: number
  readonly maxWidthMm: number
  readonly minThicknessMm: number
}

export interface TableSawLimits {
  readonly kerfMm: number
  /** Absent: a notch is cut by repeated passes of the blade. */
  readonly stack?: { readonly minMm: number; readonly maxMm: number }
  /** Most that a piece is moved between two passes of a notch; never more than the blade's width. */
  readonly notchStepMm: number
  readonly blades: 'combination' | 'separate'
  readonly maxBladeHeightMm: number
  /** The blade's top leans to this side. */
  readonly tiltsTo: 'left' | 'right'
  readonly maxRipMm: number
  readonly maxCrosscutWidthMm: number
  /** Longest stop distance on the sled's fence; longer pieces are cut to a pencil mark. */
  readonly maxStopMm: number
  readonly minStopMm: number
  readonly maxSledAngleRad: number
  /** Shortest piece that is held on the sled, and that is pushed along the rip fence. */
  readonly minHoldMm: number
  readonly minRipLengthMm: number
  /** Below this width between fence and blade a hand has no room: push stick or push block. */
  readonly pushStickBelowMm: number
}

export interface SetupTimes {
  /** Walking up, guard on, one test cut in scrap and its check, in each set-up. */
  readonly testCut: number
  readonly changes: Readonly<Record<SettingName, number>>
  readonly handle: number
  readonly crosscut: number
  readonly ripFeed: number
  readonly planeFeed: number
  readonly notchPass: number
  readonly hole: number
  readonly routeFeed: number
  readonly glueUp: number
}

/** The things on machines that are set. */
export type SettingName =
  | 'blade'
  | 'guide'
  | 'bladeHeight'
  | 'bladeTilt'
  | 'sledAngle'
  | 'fence'
  | 'stop'
  | 'lastStop'
  | 'carrier'
  | 'thickness'
  | 'bit'
  | 'depth'
  | 'tableTilt'
  | 'clamps'
  | 'jig'

export interface SetupShop {
  readonly planer: PlanerLimits
  readonly tableSaw: TableSawLimits
  readonly routerTable: { readonly minLengthMm: number; readonly maxPassMm: number }
  readonly drillPress: { readonly maxStandingMm: number }
  /** Raster engraving: distance of lines, speed along them, what turns the head round, depth of one pass. */
  readonly laserEngraver: {
    readonly lineMm: number
    readonly speedMmPerS: number
    readonly accelMmPerS2: number
    readonly passDepthMm: number
  }
  readonly times: SetupTimes
}

const DEGREE = Math.PI / 180

export const DEFAULT_SETUP_SHOP: SetupShop = {
  planer: { maxPassMm: 1.5, minLengthMm: 305, minWidthMm: 19, maxWidthMm: 318, minThicknessMm: 6 },
  tableSaw: {
    kerfMm: 3.2,
    notchStepMm: 3,
    blades: 'combination',
    maxBladeHeightMm: 75,
    tiltsTo: 'left',
    maxRipMm: 610,
    maxCrosscutWidthMm: 600,
    maxStopMm: 1200,
    minStopMm: 40,
    maxSledAngleRad: 50 * DEGREE,
    minHoldMm: 150,
    minRipLengthMm: 300,
    pushStickBelowMm: 150,
  },
  routerTable: { minLengthMm: 300, maxPassMm: 3 },
  drillPress: { maxStandingMm: 200 },
  laserEngraver: { lineMm: 0.1, speedMmPerS: 300, accelMmPerS2: 3000, passDepthMm: 0.4 },
  times: {
    testCut: 120,
    changes: {
      blade: 420,
      guide: 60,
      bladeHeight: 60,
      bladeTilt: 180,
      sledAngle: 180,
      fence: 60,
      stop: 60,
      lastStop: 60,
      carrier: 420,
      thickness: 45,
      bit: 90,
      depth: 45,
      tableTilt: 150,
      clamps: 300,
      jig: 240,
    },
    handle: 12,
    crosscut: 10,
    ripFeed: 50,
    planeFeed: 120,
    notchPass: 9,
    hole: 15,
    routeFeed: 40,
    glueUp: 900,
  },
}
