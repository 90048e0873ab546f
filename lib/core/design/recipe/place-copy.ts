/**
 * A copy of a row as a part where it stands. The left or front copy is placed as written: a board along the world's
 * axes from its corner, then turned about that corner. Others are its mirror images about the piece's middle, with
 * their cuts and notches. mm, rad; world coordinates. Tests: tests/core/design/recipe/place-copy.test.ts
 */
import {
  directionToLocal,
  directionToWorld,
  type Frame,
  frameFromYZ,
  toLocal,
  toWorld,
} from '#lib/core/geometry/frame'
import { add, cross, dot, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { radFromDeg } from '#lib/core/units/angle'
import type { Blank, FaceName, Operation, Part } from '../model'
import { outwardNormal } from '../part-body'
import { boardBetween, cutAlong, faceToward, type PieceLook, placedPart, TO } from '../placed-part'
import type { Copy } from './copies'
import type { Direction, RecipeChamfer, RecipeCut, RecipeEngraving, RecipeTaper, Turn } from './recipe'
import { AXIS_OF } from './recipe-rows'
import { type Asked, blame, numberOf, type Run, sizeOf } from './recipe-run'

const AXES = ['x', 'y', 'z'] as const
const UNIT: Readonly<Record<(typeof AXES)[number], Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }

/** Mirrored about the planes x = middle, y = middle, where asked. */
export interface Mirror {
  readonly x: boolean
  readonly y: boolean
  readonly middle: readonly [number, number]
}

const mirrorPoint = ({ x, y, middle }: Mirror, p: Vec3): Vec3 => [
  x ? 2 * middle[0] - p[0] : p[0],
  y ? 2 * middle[1] - p[1] : p[1],
  p[2],
]
export const mirrorDirection = ({ x, y }: Pick<Mirror, 'x' | 'y'>, d: Vec3): Vec3 => [
  x ? -d[0] : d[0],
  y ? -d[1] : d[1],
  d[2],
]

const signOf = (m: Mirror): 1 | -1 => (m.x === m.y ? 1 : -1)

/** A direction turned about a world axis, right-hand. */
function turned(d: Vec3, about: (typeof AXES)[number], byRad: number): Vec3 {
  const axis = UNIT[about]
  const [sin, cos] = [Math.sin(byRad), Math.cos(byRad)]
  const aside = cross(axis, d)
  const along = dot(axis, d) * (1 - cos)
  return [0, 1, 2].map((k) => d[k] * cos + aside[k] * sin + axis[k] * along) as unknown as Vec3
}

type TurnRad = readonly [about: (typeof AXES)[number], byRad: number]

const turnAll = (d: Vec3, turns: readonly TurnRad[]): Vec3 =>
  turns.reduce<Vec3>((way, [about, byRad]) => turned(way, about, byRad), d)

function turnFrame(frame: Frame, pivot: Vec3, turns: readonly TurnRad[]): Frame {
  if (turns.length === 0) return frame
  const [y, z] = [turnAll(frame.y, turns), turnAll(frame.z, turns)]
  return frameFromYZ(add(pivot, turnAll(sub(frame.origin, pivot), turns)), y, z)
}

/** The same turns seen in a mirror: those about an axis that is mirrored keep their sense, the others change it. */
const mirrorTurns = (m: Mirror, turns: readonly TurnRad[]): TurnRad[] =>
  turns.map(([about, byRad]) => {
    const keeps = (m.x ? about === 'x' : true) === (m.y ? about === 'y' : true)
    return [about, keeps ? byRad : -byRad]
  })

/** A copy on its way to be a part. */
interface Placing {
  readonly run: Run
  readonly copy: Copy
  readonly mirror: Mirror
  readonly blank: Blank
  /** As written, and as it stands; along the axes for the names of faces. */
  readonly base: Frame
  readonly frame: Frame
  readonly plain: Frame
}

const asked = ({ copy }: { readonly copy: Copy }, key: string, formula: string, what: string): Asked => ({
  formula,
  at: `${copy.at}.${key}`,
  values: copy.values,
  what: `«${copy.name}»: ${what}`,
})

const numberIn = (p: { run: Run; copy: Copy }, key: string, formula: string, what: string): number =>
  numberOf(p.run, asked(p, key, formula, what))
const sizeIn = (p: { run: Run; copy: Copy }, key: string, formula: string, what: string): number =>
  sizeOf(p.run, asked(p, key, formula, what))

const turnsIn = (p: { run: Run; copy: Copy }, key: string, turns: readonly Turn[] = []): TurnRad[] =>
  turns.map(({ about, by }, k) => [about, radFromDeg(numberIn(p, `${key}.${k}.by`, by, 'its turn'))])

/** The face of the part that was meant by a direction, at the side where the copy stands. */
export const faceIn = ({ plain, mirror }: Pick<Placing, 'plain' | 'mirror'>, way: Direction): FaceName =>
  faceToward(plain, mirrorDirection(mirror, TO[way]))

/** A point and a direction of the part as written, in the frame of the copy. */
const moved = ({ base, frame, mirror }: Placing, p: Vec3): Vec3 =>
  toLocal(frame, mirrorPoint(mirror, toWorld(base, p)))
const movedWay = ({ base, frame, mirror }: Placing, d: Vec3): Vec3 =>
  directionToLocal(frame, mirrorDirection(mirror, directionToWorld(base, d)))

function cutOf(p: Placing, cut: RecipeCut, k: number): Operation {
  const end = faceIn(p, cut.end) === 'endB' ? 'endB' : 'endA'
  const key = `cuts.${k}`
  if (cut.kind === 'plane') {
    const at = AXES.map((axis) =>
      numberIn(p, `${key}.${axis}`, cut[axis], 'the place of a cut'),
    ) as unknown as Vec3
    const normal = turnAll(TO[cut.facing], turnsIn(p, `${key}.turns`, cut.turns))
    return cutAlong(p.frame, end, mirrorPoint(p.mirror, at), mirrorDirection(p.mirror, normal))
  }
  const [mitre, bevel] = (['mitre', 'bevel'] as const).map((angle) =>
    radFromDeg(numberIn(p, `${key}.${angle}`, cut[angle], `the ${angle} of an end`)),
  )
  const { lengthMm, widthMm, thicknessMm } = p.blank
  const atB = TO[cut.end].some((c) => c > 0)
  const out = atB ? 1 : -1
  const normal: Vec3 = [
    out * Math.cos(mitre) * Math.cos(bevel),
    out * Math.sin(mitre) * Math.cos(bevel),
    out * Math.sin(bevel),
  ]
  // Its long point stays at the end of the blank: the corner of that end that the plane reaches last.
  const corners = [0, widthMm].flatMap((y) => [0, thicknessMm].map((z): Vec3 => [atB ? lengthMm : 0, y, z]))
  const point = corners.reduce((least, c) => (dot(normal, c) < dot(normal, least) ? c : least))
  const world = (v: Vec3): Vec3 => mirrorPoint(p.mirror, toWorld(p.base, v))
  return cutAlong(p.frame, end, world(point), mirrorDirection(p.mirror, directionToWorld(p.base, normal)))
}

/** A place on a face as written: along the grain, and across from the lower, left or front edge of the face. */
function onFace(p: Placing, way: Direction, alongMm: number, acrossMm?: number): Vec3 {
  const { widthMm, thicknessMm } = p.blank
  const face = faceToward(basePlain(p), TO[way])
  const isWide = face === 'faceA' || face === 'faceB'
  const whole = isWide ? widthMm : thicknessMm
  const axis = isWide ? basePlain(p).y : basePlain(p).z
  const across = acrossMm === undefined ? whole / 2 : axis.some((c) => c > 0.5) ? acrossMm : whole - acrossMm
  if (face === 'faceA') return [alongMm, across, thicknessMm]
  if (face === 'faceB') return [alongMm, across, 0]
  return [alongMm, face === 'edgeB' ? widthMm : 0, across]
}

/** The frame as written, before its turns: faces have their names from it. */
const basePlain = ({ copy, blank }: Pick<Placing, 'copy' | 'blank'>): Frame =>
  alignedFrame(copy, blank, [0, 0, 0])

function sizesByAxis({ row }: Copy, { lengthMm, widthMm, thicknessMm }: Blank): Vec3 {
  const thick = AXIS_OF[row.face]
  return AXES.map((axis) =>
    axis === row.grain ? lengthMm : axis === thick ? thicknessMm : widthMm,
  ) as unknown as Vec3
}

function alignedFrame(copy: Copy, blank: Blank, min: Vec3): Frame {
  const { grain, face } = copy.row
  const max = add(min, sizesByAxis(copy, blank))
  const name = { id: '', name: '', kind: '', look: { finish: '', species: 'any' } }
  return boardBetween(name, { min, max, grain, faceA: TO[face] }).frame
}

/** The copy's frame along the axes: a board between the mirrored corners, its face A mirrored. */
function mirroredFrame(copy: Copy, blank: Blank, min: Vec3, mirror: Mirror): Frame {
  const max = add(min, sizesByAxis(copy, blank))
  const [a, b] = [mirrorPoint(mirror, min), mirrorPoint(mirror, max)]
  const low = [0, 1, 2].map((k) => Math.min(a[k], b[k])) as unknown as Vec3
  const high = [0, 1, 2].map((k) => Math.max(a[k], b[k])) as unknown as Vec3
  const name = { id: '', name: '', kind: '', look: { finish: '', species: 'any' } }
  const faceA = mirrorDirection(mirror, TO[copy.row.face])
  return boardBetween(name, { min: low, max: high, grain: copy.row.grain, faceA }).frame
}

function operationsOf(p: Placing): Operation[] {
  const { chamfers = [], engravings = [] } = p.copy.row
  const { cuts = [], notches = [], holes = [], edgeBevels = [], roundOvers = [], tapers = [] } = p.copy.row
  return [
    ...cuts.map((cut, k) => cutOf(p, cut, k)),
    ...edgeBevels.map(({ edge, by }, k): Operation => {
      const tilt = radFromDeg(numberIn(p, `edgeBevels.${k}.by`, by, 'the bevel of an edge'))
      const isB = faceToward(basePlain(p), TO[edge]) === 'edgeB'
      const y = isB ? p.blank.widthMm : 0
      const normal = movedWay(p, [0, (isB ? 1 : -1) * Math.cos(tilt), Math.sin(tilt)])
      const face = faceIn(p, edge) === 'edgeB' ? 'edgeB' : 'edgeA'
      const point = moved(p, [0, y, tilt > 0 ? 0 : p.blank.thicknessMm])
      return {
        kind: 'edgeBevel',
        id: `bevel-${face}`,
        edge: face,
        point,
        normal,
        bevelRad: Math.asin(normal[2]),
      }
    }),
    ...tapers.flatMap((taper, k) => taperOf(p, taper, k)),
    ...notches.map((notch, k): Operation => {
      const key = `notches.${k}`
      const along = numberIn(p, `${key}.along`, notch.along, 'the place of a notch')
      const skew =
        notch.skew === undefined ? 0 : numberIn(p, `${key}.skew`, notch.skew, 'the skew of a notch')
      return {
        kind: 'notch',
        id: `notch-${k + 1}`,
        face: faceIn(p, notch.face) as LongFace,
        alongMm: moved(p, onFace(p, notch.face, along))[0],
        widthMm: sizeIn(p, `${key}.width`, notch.width, 'the width of a notch'),
        depthMm: depthOf(p, `${key}.depth`, notch.depth, notch.face),
        skewRad: signOf(p.mirror) * radFromDeg(skew),
      }
    }),
    ...holes.map((hole, k): Operation => {
      const key = `holes.${k}`
      const along = numberIn(p, `${key}.along`, hole.along, 'the place of a hole')
      const across = numberIn(p, `${key}.across`, hole.across, 'the place of a hole')
      const out = outwardNormal(faceToward(basePlain(p), TO[hole.face]))
      return {
        kind: 'hole',
        id: `hole-${k + 1}`,
        face: faceIn(p, hole.face),
        point: moved(p, onFace(p, hole.face, along, across)),
        direction: movedWay(p, [-out[0], -out[1], -out[2]]),
        diameterMm: sizeIn(p, `${key}.diameter`, hole.diameter, 'the diameter of a hole'),
        depthMm: sizeIn(p, `${key}.depth`, hole.depth, 'the depth of a hole'),
        purpose: 'other',
      }
    }),
    ...roundOvers.map(
      ({ between: [a, b], radius }, k): Operation => ({
        kind: 'roundOver',
        id: `round-${k + 1}`,
        between: [faceIn(p, a), faceIn(p, b)],
        radiusMm: sizeIn(p, `roundOvers.${k}.radius`, radius, 'the radius of an edge'),
      }),
    ),
    ...chamfers.flatMap((chamfer, k) => chamferOf(p, chamfer, k)),
    ...engravings.flatMap((engraving, k) => fieldOf(p, engraving, k)),
  ]
}

type LongFace = 'faceA' | 'faceB' | 'edgeA' | 'edgeB'

/** A depth of nothing is no taper. */
function taperOf(p: Placing, { face, end, length, depth }: RecipeTaper, k: number): Operation[] {
  const depthMm = numberIn(p, `tapers.${k}.depth`, depth, 'the depth of a taper')
  if (Math.abs(depthMm) < 1e-9) return []
  const slim = faceIn(p, end) === 'endB' ? 'endB' : 'endA'
  return [
    {
      kind: 'taper',
      id: k === 0 ? 'taper' : `taper-${k + 1}`,
      face: faceIn(p, face) as LongFace,
      end: slim,
      lengthMm: sizeIn(p, `tapers.${k}.length`, length, 'the length of a taper'),
      depthMm: depthOf(p, `tapers.${k}.depth`, depth, face),
    },
  ]
}

/** Whether a size is that of nothing: the operation is not made. */
const isNothing = (p: Placing, key: string, formula: string, what: string): boolean =>
  Math.abs(numberIn(p, key, formula, what)) < 1e-9

/** From either face a chamfer takes at most this share of the smallest size. */
const MOST_OF_EDGE = 0.45

function chamferOf(p: Placing, { between: [a, b], width }: RecipeChamfer, k: number): Operation[] {
  const key = `chamfers.${k}.width`
  if (isNothing(p, key, width, 'the width of a chamfer')) return []
  const widthMm = sizeIn(p, key, width, 'the width of a chamfer')
  const mostMm = MOST_OF_EDGE * Math.min(p.blank.widthMm, p.blank.thicknessMm)
  if (widthMm > mostMm)
    blame(
      p.run,
      `${p.copy.at}.${key}`,
      width,
      `«${p.copy.name}»: a chamfer can take at most ${Number(mostMm.toFixed(2))} mm here.`,
    )
  return [{ kind: 'chamfer', id: `chamfer-${k + 1}`, between: [faceIn(p, a), faceIn(p, b)], widthMm }]
}

function fieldOf(p: Placing, field: RecipeEngraving, k: number): Operation[] {
  const key = (name: string): string => `engravings.${k}.${name}`
  if (isNothing(p, key('length'), field.length, 'the length of a field')) return []
  const [along, across] = (['along', 'across'] as const).map((name) =>
    numberIn(p, key(name), field[name], 'the place of a field'),
  )
  const [lengthMm, widthMm] = (['length', 'width'] as const).map((name) =>
    sizeIn(p, key(name), field[name], `the ${name} of a field`),
  )
  const [x, y, z] = moved(p, onFace(p, field.face, along, across))
  const face = faceIn(p, field.face) as LongFace
  const isWide = face === 'faceA' || face === 'faceB'
  const acrossMm = isWide ? y - p.blank.widthMm / 2 : z - p.blank.thicknessMm / 2
  const overMm = Math.max(
    lengthMm / 2 - Math.min(x, p.blank.lengthMm - x),
    widthMm / 2 + Math.abs(acrossMm) - (isWide ? p.blank.widthMm : p.blank.thicknessMm) / 2,
  )
  if (overMm > 1e-9)
    blame(
      p.run,
      `${p.copy.at}.${key('length')}`,
      field.length,
      `«${p.copy.name}»: the engraved field goes ${Number(overMm.toFixed(2))} mm over the edge of the face.`,
    )
  const depthMm = depthOf(p, key('depth'), field.depth, field.face)
  return [
    { kind: 'engravedField', id: `field-${k + 1}`, face, alongMm: x, acrossMm, lengthMm, widthMm, depthMm },
  ]
}

/** A notch must leave wood beneath it. */
function depthOf(p: Placing, key: string, formula: string, way: Direction): number {
  const depth = sizeIn(p, key, formula, 'the depth of a notch')
  const whole = AXIS_OF[way] === AXIS_OF[p.copy.row.face] ? p.blank.thicknessMm : p.blank.widthMm
  if (depth < whole) return depth
  blame(
    p.run,
    `${p.copy.at}.${key}`,
    formula,
    `«${p.copy.name}»: a cut ${Number(depth.toFixed(2))} mm deep would cut it through.`,
  )
  return 0
}

/** What a copy's faces are called: for joints, which name them by directions too. */
export interface PlacedCopy {
  readonly copy: Copy
  readonly part: Part
  readonly mirror: Mirror
  readonly plain: Frame
}

/** @param middle of the piece, from left to right and from front to back */
export function placeCopy(
  run: Run,
  copy: Copy,
  middle: readonly [number, number],
  look: PieceLook,
): PlacedCopy {
  const p = { run, copy }
  const { row } = copy
  const blank: Blank = {
    lengthMm: sizeIn(p, 'length', row.length, 'its length'),
    widthMm: sizeIn(p, 'width', row.width, 'its width'),
    thicknessMm: sizeIn(p, 'thickness', row.thickness, 'its thickness'),
  }
  const min = AXES.map((axis) => numberIn(p, axis, row[axis], 'its place')) as unknown as Vec3
  const turns = turnsIn(p, 'turns', row.turns)
  const mirror: Mirror = { x: copy.x === 'right', y: copy.y === 'back', middle }
  const base = turnFrame(alignedFrame(copy, blank, min), min, turns)
  const plain = mirroredFrame(copy, blank, min, mirror)
  const frame = turnFrame(plain, mirrorPoint(mirror, min), mirrorTurns(mirror, turns))
  const placing: Placing = { run, copy, mirror, blank, base, frame, plain }
  const hidden = (row.hidden ?? []).map((way) => faceIn(placing, way))
  const own = row.species === undefined ? look : { ...look, species: row.species }
  const name = { id: copy.id, name: copy.name, kind: row.kind, look: own, hidden }
  return { copy, mirror, plain, part: placedPart(name, blank, frame, operationsOf(placing)) }
}
