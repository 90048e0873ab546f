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
import { type RoughEnds, type RoughShape, roughShape } from './rough-ends'

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
  /** Ends that lean in the plane of the board; absent: square, or cut with a tilted blade. */
  readonly ends?: RoughEnds
  /** Of a panel that was begun: how many of its staves are cut; the rough width is what is still wanted. */
  readonly stavesMade?: number
  /** Set: the strip that another need's panels are glued up from; its own count is 0. */
  readonly stave?: StaveNeed
}

/** How a wide part may be glued up. */
export interface StaveNeed {
  /** Index of the need that is the panel. */
  readonly of: number
  /** Width that the staves of one panel make together. */
  readonly panelUm: number
  readonly minWidthUm: number
  readonly maxWidthUm: number
  /** Taken from each of the two edges of a joint. */
  readonly jointUm: number
  readonly maxStaves: number
}

const FACE_NAMES: readonly FaceName[] = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB']

/** The same for parts that may be cut alike. Snapped sizes, so that rounding in a design makes no new group. */
function sameBlankKey(part: Part): string {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const sizes = [lengthMm, widthMm, thicknessMm].map(umFromMm)
  const roles = FACE_NAMES.map((face) => part.faces[face])
  return JSON.stringify([part.kind, part.species ?? null, sizes, roles])
}

/** Their rough shape, where they are alike: as they are, or turned half round in the plane of the board. */
function shapeOfAll(parts: readonly Part[], allowances: RoughAllowances): RoughShape | null {
  const shapes = parts.map((part) => roughShape(part, allowances))
  const key = (s: RoughShape | null): string => {
    if (s === null) return ''
    const { nearUm, leanAUm, leanBUm } = s.ends
    const ways = [
      [nearUm, leanAUm, leanBUm],
      [nearUm + leanBUm - leanAUm, leanBUm, leanAUm],
    ]
    return ways.map(String).sort()[0]
  }
  return shapes.every((s) => key(s) === key(shapes[0])) ? shapes[0] : null
}

function needOf(parts: readonly Part[], id: string, allowances: RoughAllowances): BlankNeed {
  const [part] = parts
  const shape = shapeOfAll(parts, allowances)
  const finishedLengthUm = umFromMm(part.blank.lengthMm)
  const finishedWidthUm = umFromMm(part.blank.widthMm)
  return {
    id,
    partIds: parts.map((each) => each.id),
    kind: part.kind,
    name: parts.length === 1 ? part.name : part.kind,
    roughLengthUm: shape?.lengthUm ?? finishedLengthUm + allowances.lengthUm,
    roughWidthUm: finishedWidthUm + allowances.widthUm,
    finishedLengthUm,
    finishedWidthUm,
    finishedThicknessUm: umFromMm(part.blank.thicknessMm),
    faces: part.faces,
    ...(part.species === undefined ? {} : { species: part.species }),
    grain: 'along',
    count: parts.length,
    ...(shape === null ? {} : { ends: shape.ends }),
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
