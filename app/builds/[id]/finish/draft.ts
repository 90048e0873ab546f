/** A finish plan while it is typed: numbers as text, faces as one choice; and what of it cannot be read. */
import type { FaceName, FaceRole } from '#lib/core/design/model'
import { type FinishPlan, type FinishRegion, USUAL_COLOUR, usualCoating } from '#lib/core/finish/finish-plan'
import { type CoatKind, productOf } from '#lib/core/finish/products'

export interface DraftRegion {
  readonly id: string
  readonly name: string
  readonly kinds: readonly string[]
  readonly faces: FaceChoice
  readonly roles: RoleChoice
  readonly kind: CoatKind
  readonly colour: string
  readonly coats: string
  readonly spread: string
  readonly hours: string
}

export interface Draft {
  readonly when: FinishPlan['when']
  readonly regions: readonly DraftRegion[]
}

const FACE_SETS = {
  all: [],
  faces: ['faceA', 'faceB'],
  faceA: ['faceA'],
  faceB: ['faceB'],
  edges: ['edgeA', 'edgeB'],
  ends: ['endA', 'endB'],
  rim: ['edgeA', 'edgeB', 'endA', 'endB'],
} as const satisfies Record<string, readonly FaceName[]>
export type FaceChoice = keyof typeof FACE_SETS

export const FACE_CHOICES: readonly (readonly [FaceChoice, string])[] = [
  ['all', 'every face'],
  ['faces', 'faces A and B'],
  ['faceA', 'face A, the better one'],
  ['faceB', 'face B, the other one'],
  ['edges', 'edges'],
  ['ends', 'ends'],
  ['rim', 'edges and ends'],
]

const ROLE_SETS = {
  any: [],
  seen: ['show', 'paint'],
  show: ['show'],
  paint: ['paint'],
  hidden: ['hidden'],
} as const satisfies Record<string, readonly FaceRole[]>
export type RoleChoice = keyof typeof ROLE_SETS

export const ROLE_CHOICES: readonly (readonly [RoleChoice, string])[] = [
  ['any', 'seen or not'],
  ['seen', 'that are seen'],
  ['show', 'where the wood is to show'],
  ['paint', 'that are to be painted'],
  ['hidden', 'that nobody sees'],
]

const isSame = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one))

/** The choice that stands for a set; the first one where none does. */
function choiceOf<K extends string>(sets: Record<K, readonly string[]>, wanted: readonly string[]): K {
  const keys = Object.keys(sets) as K[]
  return keys.find((key) => isSame(sets[key], wanted)) ?? keys[0]
}

const text = (value: number): string => String(Number(value.toFixed(2)))

export const draftRegion = ({ coating, ...region }: FinishRegion): DraftRegion => ({
  id: region.id,
  name: region.name,
  kinds: region.kinds,
  faces: choiceOf(FACE_SETS, region.faces),
  roles: choiceOf(ROLE_SETS, region.roles),
  kind: coating.kind,
  colour: coating.colour ?? USUAL_COLOUR,
  coats: text(coating.coats),
  spread: text(coating.spreadM2PerL),
  hours: text(coating.recoatHours),
})

export const draftOf = (plan: FinishPlan): Draft => ({
  when: plan.when,
  regions: plan.regions.map(draftRegion),
})

/** With the usual numbers of another product. */
export function withKind(region: DraftRegion, kind: CoatKind): DraftRegion {
  const { coats, spreadM2PerL, recoatHours } = usualCoating(kind)
  return { ...region, kind, coats: text(coats), spread: text(spreadM2PerL), hours: text(recoatHours) }
}

type NumberField = 'coats' | 'spread' | 'hours'
const LIMITS: Readonly<Record<NumberField, readonly [least: number, most: number, sentence: string]>> = {
  coats: [0, 20, 'Enter whole coats, up to 20.'],
  spread: [0.5, 100, 'Enter m² a litre, from 0.5 to 100.'],
  hours: [0, 720, 'Enter hours, up to 720.'],
}

function read(region: DraftRegion, field: NumberField): number | undefined {
  const typed = region[field].trim().replace(',', '.')
  const value = Number(typed)
  const [least, most] = LIMITS[field]
  if (typed === '' || !Number.isFinite(value) || value < least || value > most) return undefined
  return field === 'coats' && !Number.isInteger(value) ? undefined : value
}

export type Faults = Readonly<Partial<Record<NumberField | 'name', string>>>

export function faultsOf(region: DraftRegion): Faults {
  const fields = Object.keys(LIMITS) as NumberField[]
  const faults = fields.flatMap((field) =>
    region.kind !== 'bare' && read(region, field) === undefined ? [[field, LIMITS[field][2]] as const] : [],
  )
  return {
    ...Object.fromEntries(faults),
    ...(region.name.trim() === '' ? { name: 'Give the region a name.' } : {}),
  }
}

/** The plan as it stands; null while something in it cannot be read. */
export function planOf(draft: Draft): FinishPlan | null {
  if (draft.regions.some((region) => Object.keys(faultsOf(region)).length > 0)) return null
  return {
    when: draft.when,
    regions: draft.regions.map((region): FinishRegion => {
      const usual = usualCoating(region.kind)
      return {
        id: region.id,
        name: region.name.trim(),
        kinds: region.kinds,
        faces: FACE_SETS[region.faces],
        roles: ROLE_SETS[region.roles],
        coating: {
          kind: region.kind,
          coats: read(region, 'coats') ?? usual.coats,
          spreadM2PerL: read(region, 'spread') ?? usual.spreadM2PerL,
          recoatHours: read(region, 'hours') ?? usual.recoatHours,
          ...(productOf(region.kind).hasColour ? { colour: region.colour } : {}),
        },
      }
    }),
  }
}

/** A name that no region has yet, for one more. */
export function freshId(regions: readonly DraftRegion[]): string {
  let n = regions.length + 1
  while (regions.some(({ id }) => id === `region-${n}`)) n++
  return `region-${n}`
}
