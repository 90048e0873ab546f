/**
 * Which parts of a model are one piece of work: cut and bored alike, turned round or not. Parts that are mirror
 * images of each other («hands») are two. mm. Method: planes and holes about the blank's middle, compared under the
 * three half-turns that carry a blank into itself, and under a mirror. Tests: tests/core/design/same-parts.test.ts
 */

import { dot, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { capital } from './face-words'
import type { Blank, Operation, Part } from './model'
import { notchPlanes } from './part-shape'

/** Parts that are made alike. */
export interface SameParts {
  /** Its kind, counted where several shapes are of one kind: «Upright 2 of 4». */
  readonly name: string
  /** The first of them, as it is drawn. */
  readonly part: Part
  readonly parts: readonly Part[]
  /** Index of the group that is its mirror image, where there is one. */
  readonly mirrorOf?: number
}

function namesOf(kinds: readonly string[]): string[] {
  return kinds.map((kind, i) => {
    const of = kinds.filter((other) => other === kind).length
    const nth = kinds.slice(0, i + 1).filter((other) => other === kind).length
    return of === 1 ? capital(kind) : `${capital(kind)}, ${nth} of ${of}`
  })
}

/** Signs of x, y and z about the blank's middle. */
type Turn = Vec3
const AS_IT_IS: Turn = [1, 1, 1]
const HALF_TURNS: readonly Turn[] = [AS_IT_IS, [1, -1, -1], [-1, 1, -1], [-1, -1, 1]]
const MIRRORED: readonly Turn[] = [
  [1, -1, 1],
  [-1, 1, 1],
  [1, 1, -1],
  [-1, -1, -1],
]

const turned = (turn: Turn, p: Vec3): Vec3 => [turn[0] * p[0], turn[1] * p[1], turn[2] * p[2]]
/** To a micrometre, or a thousandth of a milliradian: what is nearer is one. */
const rounded = (value: number): number => Math.round(value * 1000) + 0
const written = (p: Vec3): string => p.map(rounded).join(' ')
const direction = (p: Vec3): string => p.map((value) => Math.round(value * 1e6) + 0).join(' ')

const planeText = (turn: Turn, middle: Vec3, plane: { point: Vec3; normal: Vec3 }): string =>
  `${direction(turned(turn, plane.normal))} ${rounded(dot(plane.normal, sub(plane.point, middle)))}`

/** What an operation does to a blank that is turned; undefined for one that is only known as it is. */
function operationText(op: Operation, blank: Blank, middle: Vec3, turn: Turn): string | undefined {
  if (op.kind === 'endCut' || op.kind === 'edgeBevel') return `cut ${planeText(turn, middle, op)}`
  if (op.kind === 'notch')
    return `notch ${notchPlanes(blank, op)
      .map((plane) => planeText(turn, middle, plane))
      .sort()
      .join(', ')}`
  if (op.kind === 'hole') {
    const size = [op.diameterMm, op.depthMm, op.countersinkDiameterMm ?? 0].map(rounded).join(' ')
    const at = written(turned(turn, sub(op.point, middle)))
    return `hole ${op.purpose} ${size} ${at} ${direction(turned(turn, op.direction))}`
  }
  const isUnturned = turn.every((sign) => sign === 1)
  return isUnturned ? JSON.stringify({ ...op, id: undefined }) : undefined
}

/** A part as it lies after a turn; undefined if that cannot be told. */
function shapeText({ blank, operations, species, kind }: Part, turn: Turn): string | undefined {
  const size: Vec3 = [blank.lengthMm, blank.widthMm, blank.thicknessMm]
  const middle: Vec3 = [size[0] / 2, size[1] / 2, size[2] / 2]
  const texts = operations.map((op) => operationText(op, blank, middle, turn))
  if (texts.includes(undefined)) return undefined
  // A cut along a face of the blank itself takes nothing off.
  return [kind.replace(/, hand [ab]$/, ''), species ?? '', written(size), ...texts.sort()].join('; ')
}

const textsOf = (part: Part, turns: readonly Turn[]): string[] =>
  turns.flatMap((turn) => shapeText(part, turn) ?? [])

/**
 * Groups of parts that are made alike, in the order of the model.
 * @example samePartsOf(seat.parts).map(({ name, parts }) => [name, parts.length]) //=> [['Leg, hand a', 2], ['Leg, hand b', 2], …]
 */
export function samePartsOf(parts: readonly Part[]): SameParts[] {
  const groups: Part[][] = []
  const byShape = new Map<string, number>()
  for (const part of parts) {
    const known = byShape.get(shapeText(part, AS_IT_IS)!)
    if (known !== undefined) {
      groups[known].push(part)
      continue
    }
    for (const text of textsOf(part, HALF_TURNS)) byShape.set(text, groups.length)
    groups.push([part])
  }
  const names = namesOf(groups.map(([part]) => part.kind))
  return groups.map((group, i) => {
    const mirrors = textsOf(group[0], MIRRORED).map((text) => byShape.get(text))
    const mirrorOf = mirrors.find((other) => other !== undefined && other !== i)
    const isOwnMirror = mirrors.includes(i)
    return {
      name: names[i],
      part: group[0],
      parts: group,
      ...(mirrorOf === undefined || isOwnMirror ? {} : { mirrorOf }),
    }
  })
}
