/**
 * Parts that would stand in the wood, walls or skirting of the place: what of a part lies within a box of the place, by
 * the same planes as its faces, notches taken out. mm, mm3, world coordinates. Touching is no clash: anything thinner
 * than THIN_MM is let pass. Tests: tests/core/design/fit/clashes.test.ts
 */
import { directionToLocal, toLocal, toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Clash, Notice, Part, PlaceBox } from '../model'
import { sayValue } from '../parameters'
import type { HalfSpace } from '../part-body'
import { facesWithin, massProperties } from '../part-shape'
import { type Box, boxOf } from './way-in'

const THIN_MM = 0.05

const WAYS: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

/** A box of the world as planes of a part's own frame. */
const planesOf = ({ frame }: Part, { min, max }: Box): HalfSpace[] =>
  WAYS.flatMap((way) => [
    { point: toLocal(frame, max), normal: directionToLocal(frame, way) },
    { point: toLocal(frame, min), normal: directionToLocal(frame, [-way[0], -way[1], -way[2]]) },
  ])

const overlap = (a: Box, b: Box): number =>
  Math.min(...[0, 1, 2].map((i) => Math.min(a.max[i], b.max[i]) - Math.max(a.min[i], b.min[i])))

function clashOf(part: Part, place: PlaceBox): Clash | undefined {
  const faces = facesWithin(part, planesOf(part, place))
  if (faces.length < 4) return undefined
  const { volumeMm3 } = massProperties(part, faces)
  const corners = faces.flatMap(({ frame, pieces }) =>
    pieces.flat().map(([u, v]) => toWorld(part.frame, toWorld(frame, [u, v, 0]))),
  )
  const at = (i: number, pick: (...list: number[]) => number): number => pick(...corners.map((p) => p[i]))
  const min: Vec3 = [at(0, Math.min), at(1, Math.min), at(2, Math.min)]
  const max: Vec3 = [at(0, Math.max), at(1, Math.max), at(2, Math.max)]
  const isThin = [0, 1, 2].some((i) => max[i] - min[i] < THIN_MM)
  return isThin || volumeMm3 < THIN_MM ** 3
    ? undefined
    : { placeId: place.id, partId: part.id, min, max, volumeMm3 }
}

/** All clashes, by box of the place. @param boxes around the parts, where they are at hand */
export function clashesOf(
  parts: readonly Part[],
  place: readonly PlaceBox[],
  boxes: readonly Box[] = parts.map((part) => boxOf(part)),
): Clash[] {
  if (place.length === 0) return []
  return place.flatMap((box) =>
    parts.flatMap((part, i) => (overlap(boxes[i], box) < THIN_MM ? [] : (clashOf(part, box) ?? []))),
  )
}

/** One sentence a box of the place, for the part that stands deepest in it. */
export function clashNotices(
  clashes: readonly Clash[],
  parts: readonly Part[],
  place: readonly PlaceBox[],
): Notice[] {
  return place.flatMap((box) => {
    const own = clashes.filter(({ placeId }) => placeId === box.id)
    if (own.length === 0) return []
    const deepest = own.reduce((a, b) => (b.volumeMm3 > a.volumeMm3 ? b : a))
    const deepMm = Math.min(...[0, 1, 2].map((i) => deepest.max[i] - deepest.min[i]))
    const name = parts.find(({ id }) => id === deepest.partId)?.name ?? deepest.partId
    const more = own.length > 1 ? ` and ${own.length - 1} more` : ''
    return [
      {
        level: 'stop' as const,
        message: `«${name}»${more} would stand ${sayValue(deepMm, 'mm')} into «${box.name}»: it is marked on the drawings.`,
        ...(box.parameter === undefined ? {} : { parameter: box.parameter }),
        source: 'the place as it was measured',
      },
    ]
  })
}
