/**
 * How far the parts of a model move across their grain through the year, and where something holds them. mm, %.
 * Method: Wood Handbook eq. 13-2 from 6 to 14 % moisture, else eq. 13-3 (wood/moisture.ts), with the tangential value
 * for widths, which is on the safe side. What is glued across its grain may be about 75 mm wide, what is screwed about
 * 125 mm (common practice; wider cracks or tears loose, unless screws sit in slots). Along the grain wood hardly moves.
 * Tests: tests/core/statics/movement.test.ts
 */
import type { Joint } from '#lib/core/design/model'
import { toLocal } from '#lib/core/geometry/frame'
import { dot, type Vec3 } from '#lib/core/geometry/vec3'
import {
  equilibriumMoisturePct,
  FIBRE_SATURATION_PCT,
  sizeChange,
  sizeChangeFromShrinkage,
} from '#lib/core/wood/moisture'
import type { Species } from '#lib/core/wood/species'
import type { StaticsModel } from './from-model'

export interface Air {
  readonly tempC: number
  readonly humidity: number
}
/** Heated winter air and a damp summer indoors (common practice). */
export const DRY_AIR: Air = { tempC: 21, humidity: 0.35 }
export const DAMP_AIR: Air = { tempC: 21, humidity: 0.65 }

export const GLUED_LIMIT_MM = 75
export const SCREWED_LIMIT_MM = 125

export interface Season {
  readonly dryPct: number
  readonly dampPct: number
}

/** @throws RangeError for what is not air @example seasonOf().dryPct.toFixed(1) //=> '6.9' */
export function seasonOf(dry: Air = DRY_AIR, damp: Air = DAMP_AIR): Season {
  const [dryPct, dampPct] = [equilibriumMoisturePct(dry), equilibriumMoisturePct(damp)]
  return { dryPct: Math.min(dryPct, FIBRE_SATURATION_PCT), dampPct: Math.min(dampPct, FIBRE_SATURATION_PCT) }
}

/** Growth from dry to damp of a width across the grain. */
export function growthMm(species: Species, widthMm: number, { dryPct, dampPct }: Season): number {
  const isInRange = dryPct >= 6 && dampPct <= 14 && dampPct >= 6
  return isInRange
    ? sizeChange({ size: widthMm, coefficient: species.ctPerPct, fromPct: dryPct, toPct: dampPct })
    : sizeChangeFromShrinkage({
        size: widthMm,
        shrinkagePct: species.shrinkageTangentialPct,
        fromPct: dryPct,
        toPct: dampPct,
      })
}

export interface PartMovement {
  readonly partId: string
  readonly widthMm: number
  readonly growthMm: number
}

/** A part held across its grain by one whose grain runs that way. */
export interface HeldAcross {
  readonly partId: string
  readonly byId: string
  readonly jointIds: readonly string[]
  readonly isGlued: boolean
  /** Between the outermost fixings, across the part's grain. */
  readonly spanMm: number
  readonly growthMm: number
  /** Growth of a span at the limit of good practice. */
  readonly limitMm: number
  readonly at: Vec3
}

export interface ClosingGap {
  readonly partIds: readonly [string, string]
  readonly gapMm: number
  readonly growthMm: number
  readonly at: Vec3
}

export interface Movements {
  readonly season: Season
  readonly parts: readonly PartMovement[]
  readonly held: readonly HeldAcross[]
  readonly gaps: readonly ClosingGap[]
}

/** Where a joint holds a part, across its grain: its own y. */
function holdsAt(joint: Joint, frame: Parameters<typeof toLocal>[0]): number[] {
  const points = joint.glued ? joint.contact.polygon : joint.screws.map(({ head }) => head)
  return points.map((p) => toLocal(frame, p)[1])
}

function heldAcross(model: StaticsModel, season: Season): HeldAcross[] {
  const pairs = new Map<string, { partId: string; byId: string; joints: Joint[] }>()
  for (const { joint } of model.joints)
    for (const [partId, byId] of [
      [joint.a, joint.b],
      [joint.b, joint.a],
    ]) {
      const pair = pairs.get(`${partId}|${byId}`)
      if (pair === undefined) pairs.set(`${partId}|${byId}`, { partId, byId, joints: [joint] })
      else if (!pair.joints.includes(joint)) pair.joints.push(joint)
    }
  return [...pairs.values()].flatMap(({ partId, byId, joints }) => {
    const { axis, wood } = model.parts.get(partId)!
    const { frame } = axis.part
    if (Math.abs(dot(model.parts.get(byId)!.axis.part.frame.x, frame.y)) < 0.7) return []
    const places = joints.flatMap((joint) => holdsAt(joint, frame))
    const spanMm = places.length === 0 ? 0 : Math.max(...places) - Math.min(...places)
    if (spanMm < 5) return []
    const isGlued = joints.some(({ glued }) => glued)
    const perMm = growthMm(wood.species, 1, season)
    return [
      {
        partId,
        byId,
        jointIds: joints.map(({ id }) => id),
        isGlued,
        spanMm,
        growthMm: perMm * spanMm,
        limitMm: perMm * (isGlued ? GLUED_LIMIT_MM : SCREWED_LIMIT_MM),
        at: joints[0].contact.polygon[0],
      },
    ]
  })
}

/** Gaps between loaded parts side by side, and what damp takes of them: half of each neighbour's growth. */
function closingGaps(model: StaticsModel, season: Season): ClosingGap[] {
  const boards = model.use.surfaces.map((id) => model.parts.get(id)!)
  const gaps: ClosingGap[] = []
  for (const one of boards) {
    const { frame, blank } = one.axis.part
    for (const other of boards) {
      const part = other.axis.part
      if (other === one || Math.abs(dot(part.frame.x, frame.x)) < 0.99) continue
      const [, y, z] = toLocal(frame, other.axis.centre)
      const gapMm = y - blank.widthMm / 2 - (blank.widthMm + part.blank.widthMm) / 2
      const isBeside = gapMm > 0.05 && gapMm < 30 && Math.abs(z - blank.thicknessMm / 2) < 3
      if (!isBeside) continue
      const growth =
        (growthMm(one.wood.species, blank.widthMm, season) +
          growthMm(other.wood.species, part.blank.widthMm, season)) /
        2
      gaps.push({ partIds: [one.axis.part.id, part.id], gapMm, growthMm: growth, at: one.axis.centre })
    }
  }
  return gaps
}

/** Movement of every part, and where it is held or closes up. */
export function movementsOf(model: StaticsModel, season: Season): Movements {
  return {
    season,
    parts: [...model.parts.values()].map(({ axis: { part }, wood }) => ({
      partId: part.id,
      widthMm: part.blank.widthMm,
      growthMm: growthMm(wood.species, part.blank.widthMm, season),
    })),
    held: heldAcross(model, season),
    gaps: closingGaps(model, season),
  }
}
