/**
 * From «these two are joined» to joints: where the parts touch comes from their faces, the screws are spread over the
 * contact and moved aside from those already there. mm, world coordinates. A screw is driven square to the contact,
 * from the far side of the first part into the second. Out: joints, or refusals where two parts do not touch enough.
 * Tests: tests/core/design/join-parts.test.ts
 */
import { toLocal } from '#lib/core/geometry/frame'
import { add, between, cross, dot, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import { err, ok, type Result } from '#lib/core/units/result'
import { type Contact, contactBetween, grainAt, type WorldFace, worldFaces } from './contact'
import type { DesignRefusal, Joint, Part, ScrewAxis } from './model'
import { depthInWood, type FlatFace, facesOfParts, type Walls, wallsOf, woodAlong } from './part-shape'
import { headMm, LEAST_COVER_MM, screwGapMm } from './screws'

export interface ScrewPattern {
  readonly count: number
  readonly lengthMm: number
  readonly shankMm: number
  /** The parameter to name when such a screw is at fault, and what it is called: «A top screw». */
  readonly parameter: string
  readonly called: string
}

export interface JointPlan {
  readonly id: string
  readonly kind: Joint['kind']
  /** The part under the heads, and the part that the threads grip. */
  readonly a: string
  readonly b: string
  readonly glued: boolean
  /** Absent: glue alone. */
  readonly screws?: ScrewPattern
  /** Of several patches the one that looks this way from a to b. */
  readonly facing?: Vec3
  /** The parameter to name if the two hardly touch. */
  readonly bearing: string
  /** Row of a recipe that it comes from: `joints.3`. */
  readonly at?: string
}

/** One kind of screw of a design, in any number. */
export const screwsOfKind =
  (kind: Omit<ScrewPattern, 'count'>) =>
  (count: number): ScrewPattern => ({ ...kind, count })

/** Less contact than this is no joint, mm2. */
export const LEAST_CONTACT_MM2 = 100
/** Screws are looked for in steps of this, up to this far from where the pattern wants them. */
const STEP_MM = 2
const REACH_STEPS = 24
/** Beyond the least cover: what a hand can keep to. */
const SPARE_MM = 1

interface Piece {
  readonly part: Part
  readonly faces: readonly WorldFace[]
  readonly walls: Walls
}
type Pieces = ReadonlyMap<string, Piece>

/** Steps around a place, nearest first. */
const STEPS_AROUND: readonly (readonly [number, number])[] = Array.from(
  { length: (2 * REACH_STEPS + 1) ** 2 },
  (_, i) =>
    [(i % (2 * REACH_STEPS + 1)) - REACH_STEPS, Math.floor(i / (2 * REACH_STEPS + 1)) - REACH_STEPS] as const,
)
  .filter(([i, j]) => Math.hypot(i, j) <= REACH_STEPS)
  .sort((a, b) => a[0] ** 2 + a[1] ** 2 - b[0] ** 2 - b[1] ** 2)

/** In the plane of the contact: its longer way first. */
function axesOf({ polygon, normal }: Contact, b: Part): { readonly u: Vec3; readonly v: Vec3 } {
  const inPlane = [b.frame.x, b.frame.y, b.frame.z].filter((axis) => Math.abs(dot(axis, normal)) < 0.9)
  const u = unit(sub(inPlane[0], scale(normal, dot(inPlane[0], normal))))
  const v = cross(normal, u)
  const extent = (axis: Vec3): number => {
    const along = polygon.map((p) => dot(axis, p))
    return Math.max(...along) - Math.min(...along)
  }
  return extent(u) >= extent(v) - 1e-6 ? { u, v } : { u: v, v: scale(u, -1) }
}

/** A side of the contact as a half-plane: n·p + c is the distance inwards. */
type Side = readonly [nu: number, nv: number, c: number]

/** The sides of a convex contact in coordinates along u and v from `origin`. */
function sidesOf({ polygon }: Contact, origin: Vec3, u: Vec3, v: Vec3): Side[] {
  const flat = polygon.map((p) => [dot(u, sub(p, origin)), dot(v, sub(p, origin))] as const)
  return flat.flatMap(([u0, v0], i): Side[] => {
    const [u1, v1] = flat[(i + 1) % flat.length]
    const size = Math.hypot(u1 - u0, v1 - v0)
    if (size < 1e-6) return []
    const [nu, nv] = [(v0 - v1) / size, (u1 - u0) / size]
    return [[nu, nv, -nu * u0 - nv * v0]]
  })
}

/** Distance of a place from the nearest side; negative outside. */
function insetMm(sides: readonly Side[], u: number, v: number): number {
  let least = Number.POSITIVE_INFINITY
  for (const [nu, nv, c] of sides) least = Math.min(least, nu * u + nv * v + c)
  return least
}

const isNear = (a: Vec3, b: Vec3, withinMm: number): boolean =>
  (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2 < withinMm ** 2

/** Where a pattern wants its screws: spread along the contact, from side to side of it where there is room. */
function wishes(
  contact: Contact,
  b: Part,
  { count, shankMm }: ScrewPattern,
): { at: Vec3[]; u: Vec3; v: Vec3 } {
  const { u, v } = axesOf(contact, b)
  const [us, vs] = [u, v].map((axis) => contact.polygon.map((p) => dot(axis, p)))
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)]
  const isWide = count > 1 && v1 - v0 > 8 * shankMm
  const origin = scale(contact.normal, dot(contact.normal, contact.polygon[0]))
  const at = Array.from({ length: count }, (_, i) => {
    const across = isWide ? (i % 2 === 0 ? 0.3 : 0.7) : 0.5
    const along = u0 + ((i + 0.5) / count) * (u1 - u0)
    return add(origin, add(scale(u, along), scale(v, v0 + across * (v1 - v0))))
  })
  return { at, u, v }
}

/** The screw through a point of the contact, its head where the first part ends behind it; undefined if none. */
function screwThrough(
  p: Vec3,
  contact: Contact,
  through: Piece,
  plan: JointPlan,
  id: string,
): ScrewAxis | undefined {
  const { part, walls } = through
  const { lengthMm, shankMm } = plan.screws!
  const { lengthMm: l, widthMm: w, thicknessMm: t } = part.blank
  const far = sub(p, scale(contact.normal, l + w + t))
  const [first] = woodAlong(walls, toLocal(part.frame, p), toLocal(part.frame, far))
  if (first === undefined || first[0] > 1e-6) return undefined
  const head = between(p, far, first[1])
  const tip = add(head, scale(contact.normal, lengthMm))
  return { id, head, tip, shankMm, lengthMm, through: plan.a, into: plan.b }
}

/** Whether the screw stays in its two parts and clear of the others. */
function isClear(screw: ScrewAxis, into: Piece, others: readonly ScrewAxis[]): boolean {
  if (depthInWood(into.walls, toLocal(into.part.frame, screw.tip)) < LEAST_COVER_MM) return false
  return others.every((other) => screwGapMm(screw, other) >= LEAST_COVER_MM + SPARE_MM)
}

function screwsOf(
  plan: JointPlan,
  contact: Contact,
  pieces: Pieces,
  before: readonly ScrewAxis[],
): ScrewAxis[] {
  const pattern = plan.screws
  if (pattern === undefined) return []
  const [a, b] = [pieces.get(plan.a)!, pieces.get(plan.b)!]
  const { at, u, v } = wishes(contact, b.part, pattern)
  const reach = pattern.lengthMm + REACH_STEPS * STEP_MM
  const edgeMm = headMm(pattern.shankMm) / 2
  const out: ScrewAxis[] = []
  at.forEach((wish, i) => {
    const id = `${plan.id}-screw-${i + 1}`
    const sides = sidesOf(contact, wish, u, v)
    const near = [...before, ...out].filter((other) => isNear(other.head, wish, reach + other.lengthMm))
    let fallback: ScrewAxis | undefined
    for (const [du, dv] of STEPS_AROUND) {
      const inset = insetMm(sides, du * STEP_MM, dv * STEP_MM)
      if (inset < (fallback === undefined ? 0 : edgeMm)) continue
      const p = add(wish, add(scale(u, du * STEP_MM), scale(v, dv * STEP_MM)))
      const screw = screwThrough(p, contact, a, plan, id)
      if (screw === undefined) continue
      fallback ??= screw
      if (inset >= edgeMm && isClear(screw, b, near)) {
        out.push(screw)
        return
      }
    }
    // Nothing is clear: screwFaults says what is wrong with it.
    if (fallback !== undefined) out.push(fallback)
  })
  return out
}

function refuseBearing(plan: JointPlan, pieces: Pieces, areaMm2: number): DesignRefusal {
  const name = (id: string): string => `«${pieces.get(id)!.part.name}»`
  const touch = areaMm2 > 0 ? `touch on ${areaMm2.toFixed(0)} mm² only` : 'do not touch'
  return {
    parameter: plan.bearing,
    message: `${name(plan.a)} and ${name(plan.b)} would ${touch}; a joint needs ${LEAST_CONTACT_MM2} mm² at least.`,
    ...(plan.at === undefined ? {} : { at: `${plan.at}.b` }),
  }
}

/**
 * All joints, their screws clear of one another in the order of the plans.
 * @param known screws of other joints to keep clear of, and the parts' faces where they are at hand
 * @throws RangeError for a plan that names a part which there is not
 */
export function joinParts(
  parts: readonly Part[],
  plans: readonly JointPlan[],
  known: {
    readonly before?: readonly ScrewAxis[]
    readonly faces?: ReadonlyMap<string, readonly FlatFace[]>
  } = {},
): Result<Joint[], readonly DesignRefusal[]> {
  const faces = known.faces ?? facesOfParts(parts)
  const pieces: Pieces = new Map(
    parts.map((part) => [
      part.id,
      { part, faces: worldFaces(part, faces.get(part.id)), walls: wallsOf(part) },
    ]),
  )
  const joints: Joint[] = []
  const screws: ScrewAxis[] = [...(known.before ?? [])]
  const refusals = new Map<string, DesignRefusal>()
  for (const plan of plans) {
    const [a, b] = [pieces.get(plan.a), pieces.get(plan.b)]
    if (a === undefined || b === undefined) throw new RangeError(`joint without its parts: ${plan.id}`)
    const contact = contactBetween(a.faces, b.faces, plan.facing)
    if (contact === undefined || contact.areaMm2 < LEAST_CONTACT_MM2) {
      refusals.set(plan.bearing, refuseBearing(plan, pieces, contact?.areaMm2 ?? 0))
      continue
    }
    const own = screwsOf(plan, contact, pieces, screws)
    screws.push(...own)
    joints.push({
      id: plan.id,
      kind: plan.kind,
      a: plan.a,
      b: plan.b,
      contact,
      grainAtA: grainAt(a.part, contact.normal),
      grainAtB: grainAt(b.part, contact.normal),
      glued: plan.glued,
      screws: own,
    })
  }
  return refusals.size > 0 ? err([...refusals.values()]) : ok(joints)
}
