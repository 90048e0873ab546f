/**
 * Wood screws: sizes, the holes that they want, and whether one comes out, misses its hold or meets another.
 * mm throughout. Shank diameter D = 0.060 in + 0.013 in × number (ANSI/ASME B18.6.1, seen in secondary lists);
 * root about 2/3 of the shank; lead hole 90 % of the root in hardwood, taken for any wood, since the species of
 * salvage is often unsure (Wood Handbook FPL-GTR-190 ch. 8). Tests: tests/core/design/screws.test.ts
 */
import { toLocal, toWorld } from '#lib/core/geometry/frame'
import { distanceBetweenSegments } from '#lib/core/geometry/segment3'
import { between, length, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import { MM_PER_INCH } from '#lib/core/units/length'
import type { FaceName, Hole, Part, ScrewAxis } from './model'
import { outwardNormal } from './part-body'
import { depthInWood, type Walls, wallsOf, woodAlong } from './part-shape'

export const SCREW_NUMBERS = [6, 8, 10, 12] as const

/** @example shankMm(8).toFixed(3) //=> '4.166' */
export const shankMm = (screwNumber: number): number => (0.06 + 0.013 * screwNumber) * MM_PER_INCH

/** Hole for the thread in the piece that it grips. */
export const leadHoleMm = (shank: number): number => 0.9 * (2 / 3) * shank

/** The head of a flat-head wood screw is about twice its shank wide (common practice). */
export const headMm = (shank: number): number => 2 * shank

/** Wood that must stay between a screw's tip and the surface, and between two screws. */
export const LEAST_COVER_MM = 3

/** Least thread in the second piece worth driving, in shank diameters (common practice: 2). */
export const LEAST_GRIP_SHANKS = 2

export interface ScrewFault {
  readonly screwId: string
  readonly kind: 'comesOut' | 'noGrip' | 'meets' | 'strays'
  /** The other screw or part. */
  readonly other?: string
}

interface Piece {
  readonly part: Part
  readonly walls: Walls
  /** Middle of the blank, and how far its corners lie from it: a screw that stays outside need not be looked at. */
  readonly middle: Vec3
  readonly reachMm: number
}
function pieceOf(part: Part): Piece {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const middle = toWorld(part.frame, [lengthMm / 2, widthMm / 2, thicknessMm / 2])
  return { part, walls: wallsOf(part), middle, reachMm: Math.hypot(lengthMm, widthMm, thicknessMm) / 2 }
}

/** Share of a screw that lies in the piece under its head: 0 where it misses it, 1 where it never leaves it. */
function shareInThrough(screw: ScrewAxis, { part, walls }: Pick<Piece, 'part' | 'walls'>): number {
  const stretches = woodAlong(walls, toLocal(part.frame, screw.head), toLocal(part.frame, screw.tip))
  return stretches.length === 0 ? 0 : stretches[0][1]
}

/** Length of thread beyond the piece under the head, in mm. @param walls of that piece, where they are at hand */
export const gripMm = (screw: ScrewAxis, through: Part, walls = wallsOf(through)): number =>
  screw.lengthMm * (1 - shareInThrough(screw, { part: through, walls }))

/** What is wrong with each screw of an assembly; an empty list if all hold. */
export function screwFaults(parts: readonly Part[], screws: readonly ScrewAxis[]): ScrewFault[] {
  const pieces = new Map(parts.map((part) => [part.id, pieceOf(part)]))
  const faults: ScrewFault[] = []
  for (const screw of screws) {
    const [through, into] = [pieces.get(screw.through), pieces.get(screw.into)]
    if (through === undefined || into === undefined) throw new RangeError(`screw without a part: ${screw.id}`)
    const grip = screw.lengthMm * (1 - shareInThrough(screw, through))
    if (grip < LEAST_GRIP_SHANKS * screw.shankMm) {
      faults.push({ screwId: screw.id, kind: 'noGrip' })
    } else if (depthInWood(into.walls, toLocal(into.part.frame, screw.tip)) < LEAST_COVER_MM) {
      faults.push({ screwId: screw.id, kind: 'comesOut' })
    }
    for (const piece of pieces.values()) {
      if (piece !== through && piece !== into && runsInto(screw, piece)) {
        faults.push({ screwId: screw.id, kind: 'strays', other: piece.part.id })
      }
    }
  }
  return [...faults, ...meetings(screws)]
}

const isNear = (a: Vec3, b: Vec3, withinMm: number): boolean =>
  (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2 <= withinMm ** 2

/** Whether a screw's axis passes through a piece's wood. */
function runsInto(screw: ScrewAxis, { part, walls, middle, reachMm }: Piece): boolean {
  if (!isNear(screw.head, middle, reachMm + screw.lengthMm)) return false
  const stretches = woodAlong(walls, toLocal(part.frame, screw.head), toLocal(part.frame, screw.tip))
  return stretches.some(([from, to]) => (to - from) * screw.lengthMm > 1e-6)
}

function meetings(screws: readonly ScrewAxis[]): ScrewFault[] {
  const faults: ScrewFault[] = []
  for (let i = 0; i < screws.length; i++) {
    for (let j = i + 1; j < screws.length; j++) {
      const [a, b] = [screws[i], screws[j]]
      const nearMm = a.lengthMm + b.lengthMm + a.shankMm + b.shankMm + LEAST_COVER_MM
      if (isNear(a.head, b.head, nearMm) && screwGapMm(a, b) < LEAST_COVER_MM) {
        faults.push({ screwId: screws[i].id, kind: 'meets', other: screws[j].id })
      }
    }
  }
  return faults
}

/** Wood between the shanks of two screws, in mm; negative if they meet. */
export const screwGapMm = (a: ScrewAxis, b: ScrewAxis): number =>
  distanceBetweenSegments({ from: a.head, to: a.tip }, { from: b.head, to: b.tip }) -
  (a.shankMm + b.shankMm) / 2

/** The clearance hole with its countersink in the first piece and the lead hole in the second. @param walls of the first */
export function screwHoles(
  screw: ScrewAxis,
  through: Part,
  into: Part,
  walls?: Walls,
): { readonly clearance: Hole; readonly lead: Hole } {
  const grip = gripMm(screw, through, walls)
  const entry = between(screw.head, screw.tip, 1 - grip / screw.lengthMm)
  const headIn = toLocal(through.frame, screw.head)
  const entryIn = toLocal(into.frame, entry)
  const direction = unit(sub(toLocal(through.frame, screw.tip), headIn))
  const directionIn = unit(sub(toLocal(into.frame, screw.tip), entryIn))
  return {
    clearance: {
      kind: 'hole',
      id: `${screw.id}-clearance`,
      face: faceAgainst(direction),
      point: headIn,
      direction,
      diameterMm: screw.shankMm,
      depthMm: length(sub(entry, screw.head)),
      countersinkDiameterMm: headMm(screw.shankMm),
      purpose: 'clearance',
    },
    lead: {
      kind: 'hole',
      id: `${screw.id}-lead`,
      face: faceAgainst(directionIn),
      point: entryIn,
      direction: directionIn,
      diameterMm: leadHoleMm(screw.shankMm),
      depthMm: grip,
      purpose: 'lead',
    },
  }
}

const FACES: readonly FaceName[] = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB']

/** The face that a screw driven in this direction (part's own frame) enters by. */
function faceAgainst(direction: readonly [number, number, number]): FaceName {
  const facing = (face: FaceName): number => {
    const n = outwardNormal(face)
    return -(n[0] * direction[0] + n[1] * direction[1] + n[2] * direction[2])
  }
  return FACES.reduce((best, face) => (facing(face) > facing(best) ? face : best))
}
