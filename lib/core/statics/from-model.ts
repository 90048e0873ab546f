/**
 * From the Model to a space frame: parts become members along their grain, joints become springs at their patches,
 * what stands on the floor becomes feet. mm, N, MPa. Only the first of several pieces alike is taken. Sections are
 * reduced in notches and their axis moves there; joints lie off the axes by rigid offsets. A model that cannot be
 * judged (unknown species, a part that touches nothing, a joint that nothing holds, no foot) is refused in a sentence.
 * Tests: tests/core/statics/from-model.test.ts
 */
import type { Joint, Model, Part, UseOfModel } from '#lib/core/design/model'
import { add, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { err, ok, type Result } from '#lib/core/units/result'
import { speciesDensityKgPerM3 } from '#lib/core/wood/density'
import type { SalvageGrade } from '#lib/core/wood/grades'
import { ACROSS_MODULUS_SHARE, type Allowables, allowables, bearingSpecies } from '#lib/core/wood/strength'
import type { FrameFoot, FrameLink, FrameMember, FrameNode, FrameProblem } from './frame-problem'
import { type JointPiece, jointPieces, type WoodPart } from './joint-from-model'
import {
  axisPlace,
  axisPoint,
  footPoints,
  type PartAxis,
  partAxis,
  plainName,
  type SectionAt,
  sectionAt,
  taperPlaces,
} from './part-axis'
import { rectangleSection, type Section } from './section'
import { type WallHold, wallPlaces, wallSupports } from './wall'

export interface StaticsOptions {
  readonly grade: SalvageGrade
  /** On 5th percentiles. */
  readonly factor: number
  /** Coefficient between feet and floor; absent: stops hold the feet, as in the published tests. */
  readonly friction?: number
  /** Times all joint stiffness, to see how much hangs on it. */
  readonly jointStiffness?: number
}

/** A stretch of a part between two nodes. */
export interface PartMember {
  readonly id: string
  readonly partId: string
  readonly fromMm: number
  readonly toMm: number
  readonly section: SectionAt
}

export interface StaticsModel {
  readonly frame: Omit<FrameProblem, 'cases'>
  readonly use: UseOfModel
  /** True if the use was told from the shape. */
  readonly isUseGuessed: boolean
  readonly parts: ReadonlyMap<string, WoodPart>
  readonly members: ReadonlyMap<string, PartMember>
  readonly membersOf: ReadonlyMap<string, readonly PartMember[]>
  readonly joints: readonly JointPiece[]
  /** Points at which it stands, world. */
  readonly feet: readonly { readonly id: string; readonly partId: string; readonly at: Vec3 }[]
  /** Of a piece that hangs on a wall. */
  readonly wall?: WallHold
  readonly weightN: number
  readonly centre: Vec3
}

/** m/s2. */
export const GRAVITY = 9.81

/** Places nearer than this along a part are one node, mm. */
const MERGE_MM = 1.5

const firstUnit = (parts: readonly Part[]): readonly Part[] => {
  const least = Math.min(...parts.map(({ unit = 1 }) => unit))
  return parts.filter(({ unit = 1 }) => unit === least)
}

const nameOf = (part: Part | undefined, id: string): string => (part === undefined ? id : plainName(part))

const list = (names: readonly string[]): string =>
  names
    .slice(0, 3)
    .map((name) => `«${name}»`)
    .join(', ')

function woodParts(parts: readonly Part[], options: StaticsOptions): Result<Map<string, WoodPart>, string> {
  const out = new Map<string, WoodPart>()
  const woods = new Map<string, Allowables>()
  for (const part of parts) {
    const species = bearingSpecies(part.species)
    if (species === undefined)
      return err(
        `The species «${part.species}» of «${plainName(part)}» is not in the table, so nothing can be said of its strength. Choose one, or «not known».`,
      )
    const wood = woods.get(species.id) ?? allowables(species, options.grade, options.factor)
    woods.set(species.id, wood)
    const axis = partAxis(part)
    if (axis === undefined) return err(`The cuts leave no wood along the middle of «${plainName(part)}».`)
    out.set(part.id, { axis, wood })
  }
  return ok(out)
}

/** Parts that can be reached from one another by joints. */
function groups(ids: readonly string[], joints: readonly Joint[]): string[][] {
  const leader = new Map(ids.map((id) => [id, id]))
  const find = (id: string): string => {
    let at = id
    while (leader.get(at) !== at) at = leader.get(at)!
    return at
  }
  for (const { a, b } of joints) leader.set(find(a), find(b))
  const sets = new Map<string, string[]>()
  for (const id of ids) sets.set(find(id), [...(sets.get(find(id)) ?? []), id])
  return [...sets.values()]
}

/** Why a model cannot be judged; undefined if it can. */
function structureFault(
  parts: ReadonlyMap<string, WoodPart>,
  joints: readonly Joint[],
  holding: ReadonlySet<string>,
  ground: 'stands on the floor' | 'is fixed to the wall',
): string | undefined {
  const name = (id: string): string => nameOf(parts.get(id)?.axis.part, id)
  const held = new Set(joints.flatMap(({ a, b }) => [a, b]))
  const loose = [...parts.keys()].filter((id) => !held.has(id))
  if (loose.length > 0 && parts.size > 1)
    return `${list(loose.map(name))} ${loose.length === 1 ? 'touches' : 'touch'} nothing: no joint holds ${loose.length === 1 ? 'it' : 'them'}.`
  for (const joint of joints)
    if (!joint.glued && joint.screws.length === 0)
      return `Nothing holds «${name(joint.a)}» to «${name(joint.b)}»: the joint has no screws and no glue.`
  const apart = groups([...parts.keys()], joints)
  const floating = apart.find((group) => !group.some((id) => holding.has(id)))
  if (floating !== undefined)
    return apart.length === 1
      ? `No part ${ground}.`
      : `${list(floating.map(name))} are joined to nothing that ${ground}.`
  return undefined
}

/** Sorted places with near ones merged. */
function mergePlaces(places: readonly number[]): number[] {
  const out: number[] = []
  for (const place of [...places].sort((a, b) => a - b))
    if (out.length === 0 || place - out[out.length - 1] > MERGE_MM) out.push(place)
  return out
}

/** Places on a part at which the frame needs a node. */
function placesOn({ axis }: WoodPart, points: readonly Vec3[], isLoaded: boolean): number[] {
  const depth = Math.max(axis.part.blank.widthMm, axis.part.blank.thicknessMm)
  const held = points.map((p) => axisPlace(axis, p))
  const ends = [axis.fromMm, axis.toMm].filter(
    (end) => isLoaded || held.length < 2 || Math.min(...held.map((x) => Math.abs(x - end))) > depth,
  )
  const low = Math.min(...held, ...ends)
  const high = Math.max(...held, ...ends)
  const notched = [
    ...axis.notches.flatMap(({ fromMm, toMm }) => [fromMm, toMm]),
    ...taperPlaces(axis),
  ].filter((x) => x > low && x < high)
  // The middle of a loaded part tells how far it sags.
  if (isLoaded && held.length > 1) ends.push((Math.min(...held) + Math.max(...held)) / 2)
  // Joints first: a notch's shoulder next to one is not worth a node of its own.
  const merged = mergePlaces([...held, ...ends])
  return mergePlaces([...merged, ...notched.filter((x) => merged.every((m) => Math.abs(m - x) > MERGE_MM))])
}

interface Built {
  readonly nodes: FrameNode[]
  readonly members: FrameMember[]
  readonly partMembers: PartMember[]
  /** The node of a part nearest to a place. */
  readonly nodeAt: (partId: string, x: number) => string
}

/**
 * A notch that a glued part fills is stiffer than the wood left beside it: two layers, the filling with its grain
 * across (modulus ACROSS_MODULUS_SHARE). Strength is still judged on what is left.
 */
function memberSection(section: SectionAt, glued: ReadonlySet<string>): Section {
  const { widthMm, thicknessMm, notch } = section
  const bare = rectangleSection(widthMm, thicknessMm, { shear: true })
  if (notch?.jointId === undefined || !glued.has(notch.jointId)) return bare
  const isFace = notch.face === 'faceA' || notch.face === 'faceB'
  const [left, fill, n] = [isFace ? thicknessMm : widthMm, notch.depthMm, ACROSS_MODULUS_SHARE]
  const apart = (left + fill) / 2
  const shift = (n * fill * apart) / (left + n * fill)
  const layers = left ** 3 / 12 + left * shift ** 2 + n * (fill ** 3 / 12 + fill * (apart - shift) ** 2)
  const times = layers / (left ** 3 / 12)
  return isFace ? { ...bare, iyMm4: bare.iyMm4 * times } : { ...bare, izMm4: bare.izMm4 * times }
}

function buildMembers(
  parts: ReadonlyMap<string, WoodPart>,
  places: ReadonlyMap<string, readonly number[]>,
  glued: ReadonlySet<string>,
): Built {
  const nodes: FrameNode[] = []
  const members: FrameMember[] = []
  const partMembers: PartMember[] = []
  for (const [partId, { axis, wood }] of parts) {
    const xs = places.get(partId)!
    xs.forEach((x, i) => {
      nodes.push({ id: `${partId}@${i}`, at: axisPoint(axis, x) })
      if (i === 0) return
      const section = sectionAt(axis, (xs[i - 1] + x) / 2)
      const id = `${partId}#${i}`
      partMembers.push({ id, partId, fromMm: xs[i - 1], toMm: x, section })
      members.push({
        id,
        from: `${partId}@${i - 1}`,
        to: `${partId}@${i}`,
        section: memberSection(section, glued),
        eMPa: wood.eMPa,
        gMPa: wood.gMPa,
        yAxis: axis.part.frame.y,
        ...(section.isNotched ? { offsetFrom: section.offset, offsetTo: section.offset } : {}),
      })
    })
  }
  const nodeAt = (partId: string, x: number): string => {
    const xs = places.get(partId)!
    const nearest = xs.reduce(
      (best, value, i) => (Math.abs(value - x) < Math.abs(xs[best] - x) ? i : best),
      0,
    )
    return `${partId}@${nearest}`
  }
  return { nodes, members, partMembers, nodeAt }
}

function weigh(parts: ReadonlyMap<string, WoodPart>): { readonly weightN: number; readonly centre: Vec3 } {
  let weightN = 0
  let moment: Vec3 = [0, 0, 0]
  for (const { axis, wood } of parts.values()) {
    const own = axis.volumeMm3 * 1e-9 * speciesDensityKgPerM3(wood.species) * GRAVITY
    weightN += own
    moment = add(moment, scale(axis.centre, own))
  }
  return { weightN, centre: scale(moment, 1 / weightN) }
}

/** Told from the shape: flat parts at the top; low and small is sat on, several levels are shelves. */
function guessUse(parts: ReadonlyMap<string, WoodPart>): UseOfModel {
  const flat = [...parts.values()].filter(({ axis: { part } }) => {
    const { frame, blank } = part
    return Math.abs(frame.z[2]) > 0.95 && blank.widthMm >= 1.5 * blank.thicknessMm
  })
  const levels = mergePlaces(flat.map(({ axis }) => axis.topMm))
  const topMm = Math.max(...[...parts.values()].map(({ axis }) => axis.topMm))
  const ids = (from: readonly WoodPart[]): string[] => from.map(({ axis }) => axis.part.id)
  if (levels.length > 2) return { kind: 'shelf', surfaces: ids(flat) }
  const top = flat.filter(({ axis }) => axis.topMm > topMm - 3)
  const corners = top.flatMap(({ axis }) => axis.plan)
  const span = (axis: 0 | 1): number =>
    Math.max(...corners.map((p) => p[axis])) - Math.min(...corners.map((p) => p[axis]))
  const isSmall = corners.length > 0 && span(0) * span(1) < 0.35e6 && topMm < 850
  return { kind: isSmall ? 'seat' : 'table', surfaces: ids(top) }
}

function purposeOf(model: Model, parts: ReadonlyMap<string, WoodPart>): UseOfModel {
  const use = model.use ?? guessUse(parts)
  return {
    kind: use.kind,
    surfaces: use.surfaces.filter((id) => parts.has(id)),
    footRests: (use.footRests ?? []).filter((id) => parts.has(id)),
  }
}

/**
 * The frame of the first of a model's pieces, or a sentence that says why nothing can be said. Long, since each of its
 * steps needs what the ones before have made.
 */
export function staticsFromModel(model: Model, options: StaticsOptions): Result<StaticsModel, string> {
  if (model.parts.length === 0) return err('The model has no parts.')
  const read = woodParts(firstUnit(model.parts), options)
  if (!read.ok) return read
  const parts = read.value
  const joints = model.joints.filter(({ a, b }) => parts.has(a) && parts.has(b))
  const pieces = joints.flatMap((joint) => jointPieces(joint, [parts.get(joint.a)!, parts.get(joint.b)!]))
  const use = purposeOf(model, parts)
  const loaded = new Set([...use.surfaces, ...(use.footRests ?? [])])
  const hung = model.hangs === 'wall' ? wallPlaces(model, loaded, parts, pieces) : undefined
  const standing = [...parts].filter(([, { axis }]) => axis.floor.length > 0).map(([id]) => id)
  const fault = hung
    ? structureFault(parts, joints, new Set(hung.fixings.map(({ partId }) => partId)), 'is fixed to the wall')
    : structureFault(parts, joints, new Set(standing), 'stands on the floor')
  if (fault !== undefined) return err(fault)
  if (use.surfaces.length === 0)
    return err('Nothing is known to bear a load: the model has no seat, top or shelf.')
  const feet = [...(hung ? [] : parts)].flatMap(([partId, { axis }]) =>
    footPoints(axis).map((at, i) => ({ id: `${partId}:foot${i + 1}`, partId, at })),
  )
  const points = new Map<string, Vec3[]>([...parts.keys()].map((id) => [id, []]))
  for (const { joint, frame } of pieces)
    for (const id of [joint.a, joint.b]) points.get(id)!.push(frame.origin)
  for (const { partId, at } of [...feet, ...(hung?.fixings ?? []), ...(hung?.contacts ?? [])])
    points.get(partId)!.push(at)
  const places = new Map(
    [...parts].map(([id, part]) => [id, placesOn(part, points.get(id)!, loaded.has(id))]),
  )
  const glued = new Set(joints.filter((joint) => joint.glued).map(({ id }) => id))
  const built = buildMembers(parts, places, glued)
  const times = options.jointStiffness ?? 1
  const nodeNear = (partId: string, at: Vec3): string =>
    built.nodeAt(partId, axisPlace(parts.get(partId)!.axis, at))
  const links = pieces.map((piece): FrameLink => {
    const node = (partId: string): string => nodeNear(partId, piece.frame.origin)
    const [kx, ky, kz, rx, ry, rz] = piece.stiffness.map((k) => k * times)
    return {
      id: piece.id,
      from: node(piece.joint.a),
      to: node(piece.joint.b),
      at: piece.frame.origin,
      xAxis: piece.frame.x,
      yAxis: piece.frame.y,
      stiffness: [kx, ky, kz, rx, ry, rz],
    }
  })
  const wall: WallHold | undefined = hung && {
    fixings: hung.fixings.map(({ partId, at }) => ({ partId, at, node: nodeNear(partId, at) })),
    contacts: [...new Set(hung.contacts.map(({ partId, at }) => nodeNear(partId, at)))],
  }
  const frameFeet = feet.map(
    ({ id, partId, at }): FrameFoot => ({
      id,
      node: nodeNear(partId, at),
      at,
      ...(options.friction === undefined ? {} : { friction: options.friction }),
    }),
  )
  const membersOf = new Map<string, PartMember[]>()
  for (const member of built.partMembers)
    membersOf.set(member.partId, [...(membersOf.get(member.partId) ?? []), member])
  return ok({
    frame: {
      nodes: built.nodes,
      members: built.members,
      links,
      feet: frameFeet,
      ...(wall ? { supports: wallSupports(wall, new Set(wall.contacts)) } : {}),
    },
    ...(wall ? { wall } : {}),
    use,
    isUseGuessed: model.use === undefined,
    parts,
    members: new Map(built.partMembers.map((member) => [member.id, member])),
    membersOf,
    joints: pieces,
    feet,
    ...weigh(parts),
  })
}

/** Offset of a world point from a part's axis, square to it. */
export function offAxis(axis: PartAxis, p: Vec3): Vec3 {
  const x = axisPlace(axis, p)
  const off = sub(p, axisPoint(axis, x))
  return sub(off, scale(axis.part.frame.x, dot(off, axis.part.frame.x)))
}
