/**
 * What a model needs of the pool: its parts, alike ones together, at their rough size.
 * In: a Model (mm). Out: needs in whole micrometres, snapped once here. Parts are alike when they are of one kind,
 * with the same blank, the same face roles and the same species; left and right ones may differ in their
 * operations and still start as the same blank. Rough size adds the allowances of allowances.ts.
 * Order: as the parts appear in the model. Tests: tests/core/board/demand.test.ts
 */
import type { FaceName, FaceRole, Model, Part } from '#lib/core/design/model'
import { umFromMm } from '#lib/core/units/length'
import type { RoughAllowances } from './allowances'

export interface BlankNeed {
  readonly id: string
  readonly partIds: readonly string[]
  readonly kind: string
  /** The part's own name where there is one, else the kind. */
  readonly name: string
  readonly roughLengthUm: number
  readonly roughWidthUm: number
  readonly finishedLengthUm: number
  readonly finishedWidthUm: number
  readonly finishedThicknessUm: number
  readonly faces: Readonly<Record<FaceName, FaceRole>>
  /** Absent: any sound wood. */
  readonly species?: string
  readonly grain: 'along'
  readonly count: number
}

const FACE_NAMES: readonly FaceName[] = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB']

/** The same for parts that may be cut alike. Snapped sizes, so that rounding in a design makes no new group. */
function sameBlankKey(part: Part): string {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const sizes = [lengthMm, widthMm, thicknessMm].map(umFromMm)
  const roles = FACE_NAMES.map((face) => part.faces[face])
  return JSON.stringify([part.kind, part.species ?? null, sizes, roles])
}

function needOf(parts: readonly Part[], id: string, allowances: RoughAllowances): BlankNeed {
  const [part] = parts
  const finishedLengthUm = umFromMm(part.blank.lengthMm)
  const finishedWidthUm = umFromMm(part.blank.widthMm)
  return {
    id,
    partIds: parts.map((each) => each.id),
    kind: part.kind,
    name: parts.length === 1 ? part.name : part.kind,
    roughLengthUm: finishedLengthUm + allowances.lengthUm,
    roughWidthUm: finishedWidthUm + allowances.widthUm,
    finishedLengthUm,
    finishedWidthUm,
    finishedThicknessUm: umFromMm(part.blank.thicknessMm),
    faces: part.faces,
    ...(part.species === undefined ? {} : { species: part.species }),
    grain: 'along',
    count: parts.length,
  }
}

/**
 * Groups the parts of a model into needs. Ids are the kind, numbered where one kind comes in several sizes.
 * @example blankNeedsFromModel(model, DEFAULT_ALLOWANCES).map((need) => [need.id, need.count]) //=> [['leg', 4], ['seat', 5]]
 */
export function blankNeedsFromModel(
  model: Pick<Model, 'parts'>,
  allowances: RoughAllowances,
): readonly BlankNeed[] {
  const groups = new Map<string, Part[]>()
  for (const part of model.parts) {
    const key = sameBlankKey(part)
    const group = groups.get(key)
    if (group) group.push(part)
    else groups.set(key, [part])
  }
  const seen = new Map<string, number>()
  return [...groups.values()].map((parts) => {
    const { kind } = parts[0]
    const nth = (seen.get(kind) ?? 0) + 1
    seen.set(kind, nth)
    return needOf(parts, nth === 1 ? kind : `${kind}-${nth}`, allowances)
  })
}
