/**
 * How a piece is finished, region by region. A region names parts, faces and what they must be; the first region that
 * takes a face has it, and what none takes stays bare. Walls of notches are inside joints and belong to no region.
 * Tests: tests/core/finish/quantities.test.ts
 */
import type { FaceName, FaceRole, Model, Part } from '#lib/core/design/model'
import type { FlatFace } from '#lib/core/design/part-shape'
import { type CoatKind, productOf } from './products'

/** What is put on, as the tin says. */
export interface Coating {
  readonly kind: CoatKind
  /** «#7f9188»; only of paint and stain. */
  readonly colour?: string
  readonly coats: number
  readonly spreadM2PerL: number
  readonly recoatHours: number
}

export interface FinishRegion {
  readonly id: string
  readonly name: string
  /** Kinds of parts; empty: every part. */
  readonly kinds: readonly string[]
  /** Faces of the blank; empty: every face. */
  readonly faces: readonly FaceName[]
  /** What a face must be; empty: whatever it must be. */
  readonly roles: readonly FaceRole[]
  readonly coating: Coating
}

/** Before the parts are put together, or after. */
export const FINISH_TIMES = ['apart', 'together'] as const
export type FinishTime = (typeof FINISH_TIMES)[number]

export interface FinishPlan {
  readonly when: FinishTime
  readonly regions: readonly FinishRegion[]
}

/** @example usualCoating('oil') //=> { kind: 'oil', coats: 2, spreadM2PerL: 12, recoatHours: 12 } */
export function usualCoating(kind: CoatKind, colour?: string): Coating {
  const { coats, spreadM2PerL, recoatHours, hasColour } = productOf(kind)
  return { kind, coats, spreadM2PerL, recoatHours, ...(hasColour && colour ? { colour } : {}) }
}

export const USUAL_COLOUR = '#7f9188'

/** Paint where the design asks for it, oil where the wood is to show, the rest bare. */
export function usualPlan(model: Model): FinishPlan {
  const roles = new Set(model.parts.flatMap((part) => Object.values(part.faces)))
  const region = (id: string, name: string, role: FaceRole, coating: Coating): FinishRegion[] =>
    roles.has(role) ? [{ id, name, kinds: [], faces: [], roles: [role], coating }] : []
  return {
    when: 'together',
    regions: [
      ...region('painted', 'Painted', 'paint', usualCoating('paint', USUAL_COLOUR)),
      ...region('shown', 'Where the wood shows', 'show', usualCoating('oil')),
    ],
  }
}

const takes = (region: FinishRegion, part: Part, face: FaceName): boolean =>
  (region.kinds.length === 0 || region.kinds.includes(part.kind)) &&
  (region.faces.length === 0 || region.faces.includes(face)) &&
  (region.roles.length === 0 || region.roles.includes(part.faces[face]))

/** The region that a face of a part lies in; undefined: it stays bare. */
export const regionAt = (plan: FinishPlan, part: Part, face: FaceName): FinishRegion | undefined =>
  plan.regions.find((region) => takes(region, part, face))

/** The face of the blank that a flat face counts with; undefined for the wall of a notch. */
export function faceNameOf(part: Part, of: FlatFace['of']): FaceName | undefined {
  if ('face' in of) return of.face
  const id = 'easedId' in of ? of.easedId : of.notchId
  const operation = part.operations.find((op) => op.id === id)
  if (operation === undefined) return undefined
  if (operation.kind === 'engravedField') return operation.face
  return operation.kind === 'roundOver' || operation.kind === 'chamfer' ? operation.between[0] : undefined
}
