/**
 * A joint of the Model as the frame and the capacity rules see it: six springs at its patch, and what it is made of.
 * mm, N, MPa. Stiffness: glue by the wood beside it, sheared and squeezed over a quarter of each part's depth (assumed;
 * real joints scatter by a factor of two); screws sideways K = rho^1.5 d / 23 (EN 1995-1-1 Table 7.1, from memory);
 * parts that only press by the wood's own give. A patch long beside the parts is taken in pieces.
 * Tests: tests/core/statics/from-model.test.ts
 */
import type { Joint, Notch, Part, ScrewAxis } from '#lib/core/design/model'
import { sharpPlanes } from '#lib/core/design/part-body'
import { notchFrame } from '#lib/core/design/part-shape'
import { gripMm, headMm } from '#lib/core/design/screws'
import { directionToWorld, type Frame, toLocal } from '#lib/core/geometry/frame'
import { area, centroid, clipByHalfPlane, type Polygon2, type Vec2 } from '#lib/core/geometry/polygon2'
import { add, between, cross, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import { speciesDensityKgPerM3 } from '#lib/core/wood/density'
import {
  ACROSS_MODULUS_SHARE,
  type Allowables,
  hankinson,
  ROLLING_MODULUS_SHARE,
  SHEAR_MODULUS_SHARE,
} from '#lib/core/wood/strength'
import { patchProperties } from './contact-area'
import { SPACING_SHANKS, screwHold, THREAD_SHARE } from './fasteners'
import type { GlueSide } from './glue'
import type { JointMake, PlacedScrew, Shoulders } from './joint-capacity'
import { depthAlong, type PartAxis } from './part-axis'

/** A part with the wood it is judged as. */
export interface WoodPart {
  readonly axis: PartAxis
  readonly wood: Allowables
}

/** One piece of a joint's patch. */
export interface JointPiece {
  readonly id: string
  readonly joint: Joint
  /** Middle of the patch; x and y in its plane, z from a to b. World. */
  readonly frame: Frame
  readonly make: JointMake
  /** Along and about x, y, z. */
  readonly stiffness: readonly [number, number, number, number, number, number]
}

/** Longest patch that is taken as one, in mm. */
const LONGEST_PATCH_MM = 160
const MOST_PIECES = 6
/** Depth over which the wood beside glue gives, as a share of the part's (assumed). */
const GIVING_DEPTH = 0.25
/** What holds parts sideways that nothing fastens: friction of a pressed patch, N/mm (assumed). */
const LOOSE_N_PER_MM = 20

/** Direction in the patch's plane that lies nearest to a part's grain. */
function inPlane(direction: Vec3, normal: Vec3): Vec3 | undefined {
  const flat = sub(direction, scale(normal, dot(direction, normal)))
  return length(flat) > 0.3 ? unit(flat) : undefined
}

function patchFrame(joint: Joint, a: Part, b: Part): Frame {
  const z = unit(joint.contact.normal)
  const x = inPlane(a.frame.x, z) ?? inPlane(b.frame.x, z) ?? inPlane(a.frame.y, z)!
  return { origin: joint.contact.polygon[0], x, y: cross(z, x), z }
}

/** The patch in its plane, cut across its longer side into pieces that one point can stand for. */
function patchPieces(polygon: Polygon2): Polygon2[] {
  const extent = (axis: 0 | 1): [number, number] => [
    Math.min(...polygon.map((p) => p[axis])),
    Math.max(...polygon.map((p) => p[axis])),
  ]
  const [xs, ys] = [extent(0), extent(1)]
  const axis = xs[1] - xs[0] >= ys[1] - ys[0] ? 0 : 1
  const [low, high] = axis === 0 ? xs : ys
  const count = Math.min(MOST_PIECES, Math.ceil((high - low) / LONGEST_PATCH_MM))
  if (count <= 1) return [polygon]
  const normal: Vec2 = axis === 0 ? [1, 0] : [0, 1]
  return Array.from({ length: count }, (_, i) => {
    const upper = clipByHalfPlane(polygon, { normal, offset: low + ((i + 1) * (high - low)) / count })
    return clipByHalfPlane(upper, {
      normal: [-normal[0], -normal[1]],
      offset: -(low + (i * (high - low)) / count),
    })
  }).filter((piece) => piece.length > 2)
}

const angleOf = (frame: Frame, direction: Vec3): number =>
  Math.atan2(dot(frame.y, direction), dot(frame.x, direction))

const glueSide = (frame: Frame, { axis, wood }: WoodPart, grain: 'long' | 'end'): GlueSide => ({
  wood,
  grain,
  grainRad: angleOf(frame, axis.part.frame.x),
})

/** Give of one side per unit force: depth over modulus and area, in shear along an angle and pressed. */
interface Give {
  readonly x: number
  readonly y: number
  readonly z: number
}

function giveOf(side: GlueSide, depthMm: number, areaMm2: number): Give {
  const e = side.wood.eMPa
  const over = (GIVING_DEPTH * depthMm) / areaMm2
  const along = SHEAR_MODULUS_SHARE * e
  const rolling = side.grain === 'end' ? along : ROLLING_MODULUS_SHARE * e
  const shear = (angle: number): number => hankinson(along, rolling, angle - side.grainRad)
  const press = side.grain === 'end' ? e : ACROSS_MODULUS_SHARE * e
  return { x: over / shear(0), y: over / shear(Math.PI / 2), z: over / press }
}

/** EN 1995-1-1 Table 7.1, N/mm a screw. */
const slipModulus = (densityKgM3: number, shankMm: number): number => (densityKgM3 ** 1.5 * shankMm) / 23

function stiffnessOf(
  make: JointMake,
  depths: readonly [number, number],
  screws: readonly ScrewAxis[],
): JointPiece['stiffness'] {
  const p = patchProperties(make.polygon)
  const gives = make.sides.map((side, i) => giveOf(side, depths[i], p.areaMm2))
  const k = (axis: 'x' | 'y' | 'z'): number => 1 / (gives[0][axis] + gives[1][axis])
  const press = k('z')
  const tilt = [(press * p.ixxMm4) / p.areaMm2, (press * p.iyyMm4) / p.areaMm2] as const
  const isBonded = make.isGlued && make.sides.every(({ grain }) => grain === 'long')
  if (isBonded) {
    const turn = (((k('x') + k('y')) / 2) * p.polarMm4) / p.areaMm2
    return [k('x'), k('y'), press, tilt[0], tilt[1], turn]
  }
  const density = Math.min(...make.sides.map(({ wood }) => speciesDensityKgPerM3(wood.species)))
  const slips = screws.map(({ shankMm }) => slipModulus(density, shankMm))
  const sideways = slips.reduce((sum, slip) => sum + slip, LOOSE_N_PER_MM)
  const turn = make.screws.reduce(
    (sum, { at }, i) => sum + slips[i] * (at[0] ** 2 + at[1] ** 2),
    (LOOSE_N_PER_MM * p.polarMm4) / p.areaMm2,
  )
  const shoulder = shoulderStiffness(make)
  // Tilting opens one side, where only the screws pull: half of the pressed patch is left.
  return [sideways + shoulder.x, sideways + shoulder.y, press, tilt[0] / 2, tilt[1] / 2, turn + shoulder.turn]
}

function shoulderStiffness({ shoulders, sides }: JointMake): {
  readonly x: number
  readonly y: number
  readonly turn: number
} {
  if (shoulders === undefined) return { x: 0, y: 0, turn: 0 }
  const e = ACROSS_MODULUS_SHARE * Math.min(...sides.map(({ wood }) => wood.eMPa))
  const k = (e * shoulders.lengthMm * shoulders.depthMm) / (GIVING_DEPTH * shoulders.widthMm)
  const [c, s] = [Math.cos(shoulders.channelRad), Math.sin(shoulders.channelRad)]
  return { x: k * s * s, y: k * c * c, turn: (k * shoulders.lengthMm ** 2) / 12 }
}

/** Which part of a joint is notched for it, and the notch. */
function notchFor(
  joint: Joint,
  parts: readonly [WoodPart, WoodPart],
): { readonly at: 0 | 1; readonly notch: Notch } | undefined {
  for (const at of [1, 0] as const) {
    const notch = parts[at].axis.part.operations.find(
      (op): op is Notch => op.kind === 'notch' && op.jointId === joint.id,
    )
    if (notch !== undefined) return { at, notch }
  }
  return undefined
}

function shouldersOf(
  joint: Joint,
  parts: readonly [WoodPart, WoodPart],
  frame: Frame,
  polygon: Polygon2,
): Shoulders | undefined {
  const found = notchFor(joint, parts)
  if (found === undefined) return undefined
  const { at, notch } = found
  const { part, fromMm, toMm } = parts[at].axis
  const own = notchFrame(part.blank, notch)
  const channelRad = angleOf(frame, directionToWorld(part.frame, own.y))
  const [c, s] = [Math.cos(channelRad), Math.sin(channelRad)]
  const along = polygon.map((p) => p[0] * c + p[1] * s)
  const square: Vec3 = add(scale(frame.x, -s), scale(frame.y, c))
  const sideOf = ({ axis, wood }: WoodPart): number => {
    const angle = Math.acos(Math.min(1, Math.abs(dot(axis.part.frame.x, square))))
    return hankinson(wood.compressionMPa, wood.compressionAcrossMPa, angle)
  }
  const half = notch.widthMm / 2
  const beyond: [number, number] = [notch.alongMm - half - fromMm, toMm - notch.alongMm - half]
  // Pushed along +square, the part let in presses on the wood that lies that way; the other part feels the opposite.
  const isForward = dot(part.frame.x, square) > 0 === (at === 1)
  const across =
    notch.face === 'faceA' || notch.face === 'faceB' ? part.blank.widthMm : part.blank.thicknessMm
  return {
    channelRad,
    lengthMm: Math.max(...along) - Math.min(...along),
    depthMm: notch.depthMm,
    bearingMPa: Math.min(sideOf(parts[0]), sideOf(parts[1])),
    beyondMm: isForward ? beyond : [beyond[1], beyond[0]],
    widthMm: across,
    shearMPa: parts[at].wood.shearMPa,
  }
}

function placedScrew(screw: ScrewAxis, frame: Frame, parts: readonly [WoodPart, WoodPart]): PlacedScrew {
  const [through, into] = parts[0].axis.part.id === screw.through ? parts : [parts[1], parts[0]]
  const grip = gripMm(screw, through.axis.part)
  const entry = between(screw.head, screw.tip, 1 - grip / screw.lengthMm)
  const [x, y] = toLocal(frame, entry)
  const drive = unit(sub(screw.tip, screw.head))
  return {
    id: screw.id,
    at: [x, y],
    hold: screwHold({
      shankMm: screw.shankMm,
      headMm: headMm(screw.shankMm),
      threadMm: Math.min(grip, THREAD_SHARE * screw.lengthMm),
      gripMm: grip,
      isInEndGrain: Math.abs(dot(drive, into.axis.part.frame.x)) > Math.SQRT1_2,
      g12: into.wood.species.g12,
      kind: into.wood.species.kind,
      acrossMPa: through.wood.compressionAcrossMPa,
      factor: into.wood.factor,
    }),
  }
}

/** A joint in pieces. @throws RangeError if the joint has no patch */
export function jointPieces(joint: Joint, parts: readonly [WoodPart, WoodPart]): JointPiece[] {
  const flat = patchFrame(joint, parts[0].axis.part, parts[1].axis.part)
  const whole = joint.contact.polygon.map((p): Vec2 => {
    const [x, y] = toLocal(flat, p)
    return [x, y]
  })
  const pieces = patchPieces(area(whole) < 0 ? [...whole].reverse() : whole)
  const middles = pieces.map((piece) => centroid(piece))
  const nearest = (p: Vec2): number =>
    middles.reduce(
      (best, m, i) =>
        Math.hypot(m[0] - p[0], m[1] - p[1]) < Math.hypot(middles[best][0] - p[0], middles[best][1] - p[1])
          ? i
          : best,
      0,
    )
  return pieces.map((piece, i) => {
    const [u, v] = middles[i]
    const frame: Frame = { ...flat, origin: add(flat.origin, add(scale(flat.x, u), scale(flat.y, v))) }
    const polygon = piece.map(([x, y]): Vec2 => [x - u, y - v])
    const screws = joint.screws.filter((screw) => {
      const [x, y] = toLocal(flat, screw.head)
      return nearest([x, y]) === i
    })
    const shoulders = shouldersOf(joint, parts, frame, polygon)
    const make: JointMake = {
      polygon,
      patch: patchProperties(polygon),
      isGlued: joint.glued,
      sides: [glueSide(frame, parts[0], joint.grainAtA), glueSide(frame, parts[1], joint.grainAtB)],
      screws: screws.map((screw) => placedScrew(screw, frame, parts)),
      ...(shoulders === undefined ? {} : { shoulders }),
    }
    const depths = [depthAlong(parts[0].axis.part, flat.z), depthAlong(parts[1].axis.part, flat.z)] as const
    return {
      id: pieces.length === 1 ? joint.id : `${joint.id}/${i + 1}`,
      joint,
      frame,
      make,
      stiffness: stiffnessOf(make, depths, screws),
    }
  })
}

/** A screw nearer to an edge, an end or its neighbour than timber codes want; furniture often has no more room. */
export interface TightScrew {
  readonly screwId: string
  readonly what: 'edge' | 'end' | 'neighbour'
  readonly haveMm: number
  readonly wantMm: number
}

/** Where screws stand closer than EN 1995-1-1 Table 8.2 wants (from memory): bore lead holes, and drive with care. */
export function tightScrews(joint: Joint, parts: readonly [WoodPart, WoodPart]): TightScrew[] {
  return joint.screws.flatMap((screw, i) => {
    const tight: TightScrew[] = []
    const [through, into] = parts[0].axis.part.id === screw.through ? parts : [parts[1], parts[0]]
    for (const { axis } of [through, into]) {
      const { part } = axis
      const drive = unit(sub(screw.tip, screw.head))
      for (const plane of sharpPlanes(part)) {
        const normal = directionToWorld(part.frame, plane.normal)
        if (Math.abs(dot(normal, drive)) > 0.5) continue
        const isEnd = plane.of.face === 'endA' || plane.of.face === 'endB'
        const haveMm = dot(
          plane.normal,
          sub(plane.point, toLocal(part.frame, axis === into.axis ? screw.tip : screw.head)),
        )
        const wantMm = (isEnd ? SPACING_SHANKS.end : SPACING_SHANKS.edge) * screw.shankMm
        if (haveMm > 0 && haveMm < wantMm - 0.05)
          tight.push({ screwId: screw.id, what: isEnd ? 'end' : 'edge', haveMm, wantMm })
      }
    }
    for (const other of joint.screws.slice(i + 1)) {
      const haveMm = length(sub(other.head, screw.head))
      const wantMm = SPACING_SHANKS.acrossGrain * screw.shankMm
      if (haveMm < wantMm - 0.05) tight.push({ screwId: screw.id, what: 'neighbour', haveMm, wantMm })
    }
    return tight
  })
}
