/**
 * One thing that a strength report says: what is asked of what, how much it could bear, and how sure that is.
 * Margin is capacity over demand: 1 just passes. Tests: tests/core/statics/strength.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Sourced } from './sources'

export const CHECK_KINDS = [
  'tipping',
  'wall',
  'joint',
  'bending',
  'shear',
  'buckling',
  'sag',
  'sway',
  'creak',
  'movement',
  'gap',
] as const
export type CheckKind = (typeof CHECK_KINDS)[number]

/** What a failing check means: someone could be hurt, or would be unless something is done, or the piece annoys. */
export type CheckWeight = 'safety' | 'condition' | 'comfort'

export interface StrengthCheck {
  readonly id: string
  readonly kind: CheckKind
  readonly weight: CheckWeight
  readonly title: string
  readonly demand: number
  readonly capacity: number
  readonly unit: 'MPa' | 'N' | 'mm' | 'N m' | 'times'
  /** Capacity over demand, at most MOST_MARGIN; 0 where what bears it is not known here (a wall). */
  readonly margin: number
  readonly passes: boolean
  readonly loadCase: string
  readonly where: { readonly partIds: readonly string[]; readonly jointId?: string; readonly at: Vec3 }
  readonly sources: readonly Sourced[]
  readonly sentence: string
  /** What has to be done for the piece to be safe though it fails: «once it is fixed to a wall». */
  readonly condition?: string
  /** How the true strength scatters, and by how much its mean lies above the capacity. Absent: not drawn for. */
  readonly chance?: Chance
}

export interface Chance {
  /** Checks of one key share their luck: one piece of wood, one joint. */
  readonly key: string
  readonly variation: number
  /** Mean strength over the capacity of the check. */
  readonly meanOverCapacity: number
}

/** A margin above this says no more. */
export const MOST_MARGIN = 999

export const marginOf = (demand: number, capacity: number): number =>
  demand <= 0 ? MOST_MARGIN : Math.min(MOST_MARGIN, capacity / demand)

/** Numbers as a maker reads them: three figures. @example say3(0.65592) //=> '0.656' */
export function say3(value: number): string {
  if (value === 0) return '0'
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))))
  return value.toFixed(Math.min(3, digits))
}

const RANK: Readonly<Record<CheckWeight, number>> = { safety: 0, condition: 1, comfort: 2 }

/** Failing before passing, safety before conditions before comfort, least margin first. */
export const governingFirst = (checks: readonly StrengthCheck[]): StrengthCheck[] =>
  [...checks].sort(
    (a, b) =>
      Number(a.passes) - Number(b.passes) ||
      RANK[a.weight] - RANK[b.weight] ||
      a.margin - b.margin ||
      (a.id < b.id ? -1 : 1),
  )
