/**
 * Which defects a part can live with: by kind of defect, the face that it lies on, and what that face of the part
 * must be. ACCEPTANCE is the rule, common practice of furniture repair and painting, as a table.
 *
 * A part may lie either way up, its faceA on the board's face A (`aUp`) or on face B (`bUp`). One way up is chosen
 * for each pair of board and need: the one that leaves more places. A defect on one face is judged by the role
 * of the part's face there; a defect through the board by both. Edges and ends are not judged, since where they
 * come to lie is not known before the plan. Strength is not judged either, beyond one rule of thumb: a hole or knot
 * takes at most a quarter of the part's width.
 * In and out: whole micrometres, in the board's coordinates. Tests: tests/core/board/acceptance.test.ts
 */
import type { FaceRole } from '#lib/core/design/model'
import type { Board, Defect, DefectKind } from './board'
import type { BlankNeed } from './demand'
import type { Zone } from './free-placements'

/** `aUp`: the part's faceA is cut from the board's face A. */
export type Orientation = 'aUp' | 'bUp'

/** Fine, never, or fine up to this size across its longer side. */
export type Verdict = 'fine' | 'never' | { readonly upToUm: number }

const FILLABLE: Verdict = { upToUm: 6_000 }
const OUT_OF_SIGHT: Verdict = { upToUm: 20_000 }

/**
 * - A nail hole is filled under paint and left where nobody looks; it spoils a face that shows.
 * - A hole up to 6 mm can be filled under paint; up to 20 mm it may stay where it is hidden.
 * - A knot, taken as sound, paints over and hides; a loose one is logged as a hole.
 * - A crack or rot runs on, metal ruins blades, and wane is wood that is not there: none of them anywhere.
 * - A stain matters only where the wood shows.
 */
export const ACCEPTANCE: Readonly<Record<DefectKind, Readonly<Record<FaceRole, Verdict>>>> = {
  nailHole: { show: 'never', paint: 'fine', hidden: 'fine' },
  hole: { show: 'never', paint: FILLABLE, hidden: OUT_OF_SIGHT },
  knot: { show: 'never', paint: 'fine', hidden: 'fine' },
  crack: { show: 'never', paint: 'never', hidden: 'never' },
  rot: { show: 'never', paint: 'never', hidden: 'never' },
  wane: { show: 'never', paint: 'never', hidden: 'never' },
  stain: { show: 'never', paint: 'fine', hidden: 'fine' },
  metal: { show: 'never', paint: 'never', hidden: 'never' },
}

/** A hole or a knot takes at most this share of the part's width. */
export const MAX_WIDTH_SHARE = 0.25

/** Kept clear around a defect that runs on under the surface: along the grain, and across it. */
export const MARGINS_UM: Readonly<Record<DefectKind, { readonly along: number; readonly across: number }>> = {
  nailHole: { along: 0, across: 0 },
  hole: { along: 0, across: 0 },
  knot: { along: 0, across: 0 },
  crack: { along: 25_000, across: 3_000 },
  rot: { along: 25_000, across: 10_000 },
  wane: { along: 0, across: 0 },
  stain: { along: 0, across: 0 },
  metal: { along: 10_000, across: 10_000 },
}

/** What acceptance looks at. */
export type FacedNeed = Pick<BlankNeed, 'faces' | 'finishedWidthUm'>

function rolesTouched(defect: Pick<Defect, 'face'>, need: FacedNeed, orientation: Orientation): FaceRole[] {
  const { faceA, faceB } = need.faces
  if (defect.face === 'through') return [faceA, faceB]
  const isFaceA = (defect.face === 'A') === (orientation === 'aUp')
  return [isFaceA ? faceA : faceB]
}

function isFine(verdict: Verdict, defect: Pick<Defect, 'widthUm' | 'heightUm'>): boolean {
  if (verdict === 'fine' || verdict === 'never') return verdict === 'fine'
  return Math.max(defect.widthUm, defect.heightUm) <= verdict.upToUm
}

/**
 * Whether a part laid so may have this defect somewhere in it.
 * @example isAccepted({ ...nailHole, face: 'A' }, { ...leg, faces: { ...hidden, faceA: 'show' } }, 'bUp') //=> true
 */
export function isAccepted(
  defect: Pick<Defect, 'kind' | 'face' | 'widthUm' | 'heightUm'>,
  need: FacedNeed,
  orientation: Orientation,
): boolean {
  const takesStrength = defect.kind === 'hole' || defect.kind === 'knot'
  if (takesStrength && defect.heightUm > MAX_WIDTH_SHARE * need.finishedWidthUm) return false
  const byRole = ACCEPTANCE[defect.kind]
  return rolesTouched(defect, need, orientation).every((role) => isFine(byRole[role], defect))
}

/**
 * The defect with its margin. May reach over the board's sides.
 * @example defectZone({ kind: 'crack', face: 'A', xUm: 50_000, yUm: 40_000, widthUm: 100_000, heightUm: 2_000 })
 * //=> { xUm: 25_000, yUm: 37_000, lengthUm: 150_000, widthUm: 8_000 }
 */
export function defectZone(defect: Omit<Defect, 'id'>): Zone {
  const { along, across } = MARGINS_UM[defect.kind]
  return {
    xUm: defect.xUm - along,
    yUm: defect.yUm - across,
    lengthUm: defect.widthUm + 2 * along,
    widthUm: defect.heightUm + 2 * across,
  }
}

/** The defects of a board that block a part laid so. */
export const blockingDefects = (
  board: Pick<Board, 'defects'>,
  need: FacedNeed,
  orientation: Orientation,
): Defect[] => board.defects.filter((defect) => !isAccepted(defect, need, orientation))

/** Where wood is gone, shown on a drawing whatever part is asked for. */
export const blocksEveryPart = (kind: DefectKind): boolean =>
  Object.values(ACCEPTANCE[kind]).every((verdict) => verdict === 'never')
