/**
 * One step of machining before steps are grouped into set-ups: what the machine must be set to, and which steps
 * must be done first. `needs` holds only the settings that matter to the step: a cut to a pencil mark fits any stop.
 */

import type { SetupKind, SetupSettings, SetupWarning, StationKind, TreePlace } from './setup-plan'
import type { SettingName } from './setup-shop'

export type Needs = Readonly<Partial<Record<SettingName, string>>>

export interface Step {
  readonly key: string
  readonly kind: SetupKind
  readonly station: StationKind
  readonly needs: Needs
  readonly settings: SetupSettings
  readonly pieceId: string
  readonly pieceName: string
  readonly passes: number
  readonly count?: number
  readonly isToMark?: boolean
  readonly leavesMm?: number
  readonly after: readonly string[]
  readonly note: string
  readonly seconds: number
  readonly tree?: TreePlace
  readonly operationIds?: readonly string[]
  /** Thickness that a through cut goes through, thickness that a planed piece starts with. */
  readonly thicknessMm?: number
}

/** Steps and warnings as they are found. Only the builders write to it. */
export interface StepList {
  readonly steps: Step[]
  readonly warnings: SetupWarning[]
}

/** One tenth of the finest thing that a rule or a stop can show: 0.01 mm. */
export const settingMm = (valueMm: number): string => (Math.round(valueMm * 100) / 100 + 0).toFixed(2)
/** About 0.001 degree. */
export const settingRad = (valueRad: number): string =>
  (Math.round(valueRad * 57_295.8) / 57_295.8 + 0).toFixed(5)
