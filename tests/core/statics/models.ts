/** Pieces of furniture for the tests of the strength report, made of square-cut parts. mm. */
import { contactBetween, grainAt, worldFaces } from '#lib/core/design/contact'
import type { Joint, Model, Part, ScrewAxis, UseOfModel } from '#lib/core/design/model'
import { frameFromYZ } from '#lib/core/geometry/frame'
import { add, scale, type Vec3 } from '#lib/core/geometry/vec3'
import { depthAlong } from '#lib/core/statics/part-axis'

const AXES: Readonly<Record<'x' | 'y' | 'z', readonly [Vec3, Vec3]>> = {
  x: [
    [0, 1, 0],
    [0, 0, 1],
  ],
  y: [
    [0, 0, 1],
    [1, 0, 0],
  ],
  z: [
    [1, 0, 0],
    [0, 1, 0],
  ],
}

/** A box from one corner to the other, its grain along an axis. */
export function box(id: string, from: Vec3, to: Vec3, grain: 'x' | 'y' | 'z', species = 'redOak'): Part {
  const [y, z] = AXES[grain]
  const size = (axis: Vec3): number =>
    Math.abs(axis[0] * (to[0] - from[0]) + axis[1] * (to[1] - from[1]) + axis[2] * (to[2] - from[2]))
  const frame = frameFromYZ(from, y, z)
  const faces = {
    endA: 'hidden',
    endB: 'hidden',
    edgeA: 'show',
    edgeB: 'show',
    faceA: 'show',
    faceB: 'show',
  } as const
  return {
    id,
    name: id,
    kind: id,
    blank: { lengthMm: size(frame.x), widthMm: size(y), thicknessMm: size(z) },
    operations: [],
    faces,
    species,
    frame,
  }
}

export interface Fixing {
  readonly glued?: boolean
  readonly screws?: number
}

/** The joint where two boxes touch, screws in a row across its longer side. */
export function joinParts(a: Part, b: Part, { glued = true, screws = 2 }: Fixing = {}): Joint {
  const contact = contactBetween(worldFaces(a), worldFaces(b))
  if (contact === undefined) throw new Error(`${a.id} does not touch ${b.id}`)
  const middle = scale(
    contact.polygon.reduce<Vec3>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / contact.polygon.length,
  )
  const far = contact.polygon.reduce((best, p) =>
    Math.hypot(...sub(p, middle)) > Math.hypot(...sub(best, middle)) ? p : best,
  )
  const depth = Math.min(depthAlong(a, contact.normal), 30)
  const list = Array.from({ length: screws }, (_, i): ScrewAxis => {
    const t = screws === 1 ? 0 : (0.5 * (2 * i - screws + 1)) / (screws - 1)
    const at = add(middle, scale(sub(far, middle), t))
    const head = add(at, scale(contact.normal, -depth))
    const lengthMm = depth + 25
    return {
      id: `${a.id}-${b.id}-${i}`,
      head,
      tip: add(head, scale(contact.normal, lengthMm)),
      shankMm: 4.166,
      lengthMm,
      through: a.id,
      into: b.id,
    }
  })
  return {
    id: `${a.id}-${b.id}`,
    kind: 'onFace',
    a: a.id,
    b: b.id,
    contact,
    grainAtA: grainAt(a, contact.normal),
    grainAtB: grainAt(b, contact.normal),
    glued,
    screws: list,
  }
}

const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]

export const modelOf = (parts: readonly Part[], joints: readonly Joint[], use?: UseOfModel): Model => ({
  designId: 'test',
  designVersion: 1,
  parameters: {},
  parts,
  joints,
  hardware: [],
  place: [],
  figures: [],
  notices: [],
  ...(use === undefined ? {} : { use }),
})

/** A board on two trestles: two uprights on the floor, a board of `spanMm` between them. */
export function plank(spanMm: number, thicknessMm: number, kind: UseOfModel['kind'] = 'shelf'): Model {
  const left = box('left', [0, 0, 0], [30, 250, 400], 'z')
  const right = box('right', [spanMm + 30, 0, 0], [spanMm + 60, 250, 400], 'z')
  const board = box('board', [0, 0, 400], [spanMm + 60, 250, 400 + thicknessMm], 'x')
  return modelOf([left, right, board], [joinParts(board, left), joinParts(board, right)], {
    kind,
    surfaces: ['board'],
  })
}

/** A bench of forty parts: four frames of two legs, two supports and three spindles, six rails, six slats. */
export function longBench(): Model {
  const parts: Part[] = []
  const joints: Joint[] = []
  const keep = (part: Part): Part => {
    parts.push(part)
    return part
  }
  const frames = [0, 500, 1000, 1500].map((x, f) => {
    const legs = [0, 355].map((y, i) => keep(box(`leg-${f}-${i}`, [x, y, 0], [x + 45, y + 45, 440], 'z')))
    const [top, low] = [380, 100].map((z, i) =>
      keep(box(`support-${f}-${i}`, [x + 45, 0, z], [x + 64, 400, z + (i === 0 ? 60 : 50)], 'y')),
    )
    for (const support of [top, low]) for (const leg of legs) joints.push(joinParts(support, leg))
    for (const [i, y] of [100, 190, 280].entries()) {
      const spindle = keep(box(`spindle-${f}-${i}`, [x + 45, y, 150], [x + 64, y + 20, 380], 'z'))
      joints.push(joinParts(top, spindle, { screws: 1 }), joinParts(low, spindle, { screws: 1 }))
    }
    return { x, legs, top }
  })
  for (let f = 0; f + 1 < frames.length; f++)
    for (const [i, y] of [
      [0, -19],
      [1, 400],
    ] as const) {
      const rail = keep(
        box(`rail-${f}-${i}`, [frames[f].x + 22.5, y, 200], [frames[f + 1].x + 22.5, y + 19, 250], 'x'),
      )
      joints.push(joinParts(rail, frames[f].legs[i]), joinParts(rail, frames[f + 1].legs[i]))
    }
  for (let s = 0; s < 6; s++) {
    const slat = keep(box(`slat-${s}`, [-20, 67 * s, 440], [1600, 67 * s + 60, 462], 'x'))
    for (const { top } of frames) joints.push(joinParts(slat, top, { glued: false }))
  }
  const surfaces = parts.filter(({ id }) => id.startsWith('slat')).map(({ id }) => id)
  return modelOf(parts, joints, { kind: 'seat', surfaces })
}
