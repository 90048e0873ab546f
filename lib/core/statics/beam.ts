/**
 * One straight member of a space frame: stiffness, loads along it, and what passes through it. mm, N, N mm, MPa.
 * Method: the usual 12-degree-of-freedom beam (Przemieniecki 1968, ch. 5), with shear deflection where the section
 * gives shear areas (Timoshenko; absent: Euler-Bernoulli), warping left out; end springs and releases condensed out,
 * rigid offsets by transformation. Loads: uniform, and point forces with a torque, as fixed-end forces.
 * First order: loads act on the undeformed shape. Tests: tests/core/statics/frame.test.ts
 */
import { add, cross, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import {
  DOFS,
  type EndSprings,
  type FrameMember,
  type MemberEnds,
  type MemberLoad,
  type Six,
} from './frame-problem'
import type { Section } from './section'

const N = 12

export interface Beam {
  readonly member: FrameMember
  readonly lengthMm: number
  /** Unit, in world axes. */
  readonly axes: readonly [Vec3, Vec3, Vec3]
  /** End springs, if any, with the column of the stiffness that each condenses by. */
  readonly springs: readonly Condensed[]
  /** Stiffness between nodes in the member's own axes, springs condensed; 12 × 12 by rows. */
  readonly stiffness: Float64Array
  /** Member displacements from node displacements in world axes; 12 × 12 by rows. */
  readonly fromNodes: Float64Array
  /** Stiffness between nodes in world axes. */
  readonly worldStiffness: Float64Array
}

/** How one end spring takes its row out: shares of that row's force. */
interface Condensed {
  readonly index: number
  readonly column: Float64Array
  readonly kept: number
}

/** Local axes: x along, y as near to the hint as square to x allows. */
export function memberAxes(along: Vec3, hint?: Vec3): [Vec3, Vec3, Vec3] {
  const x = unit(along)
  const wish: Vec3 = hint ?? (Math.abs(x[2]) > 0.99 ? [0, 1, 0] : [0, 0, 1])
  const across = sub(wish, scale(x, dot(wish, x)))
  const y = unit(
    length(across) > 1e-6 * length(wish)
      ? across
      : Math.abs(x[0]) < 0.9
        ? cross(x, [1, 0, 0])
        : cross(x, [0, 1, 0]),
  )
  return [x, y, cross(x, y)]
}

function put(k: Float64Array, i: number, j: number, value: number): void {
  k[i * N + j] = value
  k[j * N + i] = value
}

/** Bending in one plane. `v` and `r` are the rows of deflection and rotation, `sign` that of rotation. */
function putBending(
  k: Float64Array,
  at: readonly [number, number],
  sign: 1 | -1,
  ei: number,
  l: number,
  phi: number,
) {
  const [v, r] = at
  const base = ei / (l ** 3 * (1 + phi))
  const turn = sign * 6 * l * base
  put(k, v, v, 12 * base)
  put(k, v + 6, v + 6, 12 * base)
  put(k, v, v + 6, -12 * base)
  put(k, v, r, turn)
  put(k, v, r + 6, turn)
  put(k, v + 6, r, -turn)
  put(k, v + 6, r + 6, -turn)
  put(k, r, r, (4 + phi) * l * l * base)
  put(k, r + 6, r + 6, (4 + phi) * l * l * base)
  put(k, r, r + 6, (2 - phi) * l * l * base)
}

/** Share of shear in deflection: 12 E I / (G A l^2), 0 without a shear area. */
const shearShare = (ei: number, g: number, areaMm2: number | undefined, l: number): number =>
  areaMm2 === undefined ? 0 : (12 * ei) / (g * areaMm2 * l * l)

interface Shares {
  readonly y: number
  readonly z: number
}
const sharesOf = (s: Section, e: number, g: number, l: number): Shares => ({
  y: shearShare(e * s.izMm4, g, s.shearYMm2, l),
  z: shearShare(e * s.iyMm4, g, s.shearZMm2, l),
})

function localStiffness({ section: s, eMPa: e, gMPa: g }: FrameMember, l: number): Float64Array {
  const k = new Float64Array(N * N)
  const shares = sharesOf(s, e, g, l)
  for (const [row, value] of [
    [0, (e * s.areaMm2) / l],
    [3, (g * s.jMm4) / l],
  ] as const) {
    put(k, row, row, value)
    put(k, row + 6, row + 6, value)
    put(k, row, row + 6, -value)
  }
  putBending(k, [1, 5], 1, e * s.izMm4, l, shares.y)
  putBending(k, [2, 4], -1, e * s.iyMm4, l, shares.z)
  return k
}

/** Takes one end spring out of the stiffness, in place; undefined if nothing would hold the member there. */
function condense(k: Float64Array, index: number, spring: number, own: number): Condensed | undefined {
  const pivot = k[index * N + index] + spring
  if (!(pivot > 1e-10 * own)) return undefined
  const column = new Float64Array(N)
  for (let i = 0; i < N; i++) column[i] = k[i * N + index] / pivot
  const kept = spring / pivot
  const diagonal = k[index * N + index]
  for (let i = 0; i < N; i++)
    for (let j = 0; j < N; j++) if (i !== index && j !== index) k[i * N + j] -= column[i] * column[j] * pivot
  for (let i = 0; i < N; i++) if (i !== index) put(k, i, index, column[i] * spring)
  k[index * N + index] = kept * diagonal
  return { index, column, kept }
}

const springsOf = (ends: EndSprings | undefined, base: number): [number, number][] =>
  DOFS.flatMap((dof, i) => (ends?.[dof] === undefined ? [] : [[base + i, ends[dof]] as [number, number]]))

function transformation(axes: Beam['axes'], offsets: readonly [Vec3, Vec3]): Float64Array {
  const b = new Float64Array(N * N)
  offsets.forEach((offset, end) => {
    axes.forEach((axis, i) => {
      const row = (6 * end + i) * N + 6 * end
      // Displacement of the end along the axis: axis·u + axis·(θ × offset) = axis·u + (offset × axis)·θ.
      const lever = cross(offset, axis)
      for (let j = 0; j < 3; j++) {
        b[row + j] = axis[j]
        b[row + 3 + j] = lever[j]
        b[row + 3 * N + 3 + j] = axis[j]
      }
    })
  })
  return b
}

/** Bᵀ K B. */
function congruent(k: Float64Array, b: Float64Array): Float64Array {
  const kb = new Float64Array(N * N)
  const out = new Float64Array(N * N)
  for (let i = 0; i < N; i++)
    for (let p = 0; p < N; p++) {
      const value = k[i * N + p]
      if (value !== 0) for (let j = 0; j < N; j++) kb[i * N + j] += value * b[p * N + j]
    }
  for (let p = 0; p < N; p++)
    for (let i = 0; i < N; i++) {
      const value = b[p * N + i]
      if (value !== 0) for (let j = 0; j < N; j++) out[i * N + j] += value * kb[p * N + j]
    }
  return out
}

/**
 * @param from and @param to where its nodes are
 * @returns undefined if its releases leave it free to move between its ends
 */
export function makeBeam(member: FrameMember, from: Vec3, to: Vec3): Beam | undefined {
  const offsets = [member.offsetFrom ?? [0, 0, 0], member.offsetTo ?? [0, 0, 0]] as const
  const along = sub(add(to, offsets[1]), add(from, offsets[0]))
  const lengthMm = length(along)
  const axes = memberAxes(along, member.yAxis)
  const stiffness = localStiffness(member, lengthMm)
  const own = Float64Array.from({ length: N }, (_, i) => stiffness[i * N + i])
  const springs: Condensed[] = []
  for (const [index, spring] of [...springsOf(member.endFrom, 0), ...springsOf(member.endTo, 6)]) {
    const taken = condense(stiffness, index, spring, own[index])
    if (taken === undefined) return undefined
    springs.push(taken)
  }
  const fromNodes = transformation(axes, offsets)
  return {
    member,
    lengthMm,
    axes,
    springs,
    stiffness,
    fromNodes,
    worldStiffness: congruent(stiffness, fromNodes),
  }
}

/** Adds what built-in ends would feel from a force `f` at `a` in one plane. */
function addPoint(
  out: Float64Array,
  at: readonly [number, number],
  sign: 1 | -1,
  f: number,
  a: number,
  l: number,
  phi: number,
) {
  const [v, r] = at
  const b = l - a
  const base = (f * a * b) / (l * l * (1 + phi))
  const near = base * (b + (phi * l) / 2)
  const far = base * (a + (phi * l) / 2)
  out[v] -= (f * b) / l + (near - far) / l
  out[v + 6] -= (f * a) / l - (near - far) / l
  out[r] -= sign * near
  out[r + 6] += sign * far
}

const localOf = (beam: Beam, v: Vec3): Vec3 => [
  dot(beam.axes[0], v),
  dot(beam.axes[1], v),
  dot(beam.axes[2], v),
]

/** Forces that built-in ends exert on the member under one load, before end springs give. */
function fixedEnds(beam: Beam, load: MemberLoad, out: Float64Array): void {
  const { lengthMm: l, member } = beam
  const shares = sharesOf(member.section, member.eMPa, member.gMPa, l)
  if (load.kind === 'uniform') {
    const [wx, wy, wz] = localOf(beam, load.forcePerMm)
    for (const [row, w] of [
      [0, wx],
      [1, wy],
      [2, wz],
    ] as const) {
      out[row] -= (w * l) / 2
      out[row + 6] -= (w * l) / 2
    }
    const mz = (wy * l * l) / 12
    const my = (wz * l * l) / 12
    out[5] -= mz
    out[11] += mz
    out[4] += my
    out[10] -= my
    return
  }
  const [fx, fy, fz] = localOf(beam, load.forceN)
  const a = load.atMm
  out[0] -= (fx * (l - a)) / l
  out[6] -= (fx * a) / l
  addPoint(out, [1, 5], 1, fy, a, l, shares.y)
  addPoint(out, [2, 4], -1, fz, a, l, shares.z)
  out[3] -= ((load.torqueNmm ?? 0) * (l - a)) / l
  out[9] -= ((load.torqueNmm ?? 0) * a) / l
}

/** End forces, in the member's own axes, that its loads need while its nodes stand still. */
export function fixedEndForces(beam: Beam, loads: readonly MemberLoad[]): Float64Array {
  const f = new Float64Array(N)
  for (const load of loads) fixedEnds(beam, load, f)
  for (const { index, column, kept } of beam.springs) {
    const force = f[index]
    for (let i = 0; i < N; i++) if (i !== index) f[i] -= column[i] * force
    f[index] = kept * force
  }
  return f
}

/** Forces at a member's nodes in world axes from its end forces: Bᵀ f, into `out` of 12. */
export function toNodes(beam: Beam, local: Float64Array, out = new Float64Array(N)): Float64Array {
  out.fill(0)
  for (let p = 0; p < N; p++) {
    const value = local[p]
    if (value !== 0) for (let i = 0; i < N; i++) out[i] += beam.fromNodes[p * N + i] * value
  }
  return out
}

/**
 * End forces on the member in its own axes from its nodes' displacements, u of 12, and its fixed-end forces.
 * @param out of 12, and `local` to work in
 */
export function endForces(
  beam: Beam,
  u: Float64Array,
  fixed: Float64Array | undefined,
  out = new Float64Array(N),
  local = new Float64Array(N),
): Float64Array {
  for (let i = 0; i < N; i++) {
    let sum = 0
    for (let j = 0; j < N; j++) sum += beam.fromNodes[i * N + j] * u[j]
    local[i] = sum
  }
  for (let i = 0; i < N; i++) {
    let sum = fixed === undefined ? 0 : fixed[i]
    for (let j = 0; j < N; j++) sum += beam.stiffness[i * N + j] * local[j]
    out[i] = sum
  }
  return out
}

/** What passes through a member at a section. Tension positive; shear N, moments N mm, in the member's own axes. */
export interface SectionForces {
  atMm: number
  axialN: number
  shearYN: number
  shearZN: number
  torqueNmm: number
  momentYNmm: number
  momentZNmm: number
}

/** A load in the member's own axes. `atMm` below 0: spread evenly. */
interface LocalLoad {
  readonly atMm: number
  readonly f: Vec3
  readonly torque: number
}

const localLoads = (beam: Beam, loads: readonly MemberLoad[]): LocalLoad[] =>
  loads.map((load) =>
    load.kind === 'uniform'
      ? { atMm: -1, f: localOf(beam, load.forcePerMm), torque: 0 }
      : { atMm: load.atMm, f: localOf(beam, load.forceN), torque: load.torqueNmm ?? 0 },
  )

/** What the rest of the member does to the piece from the first end to `x`, point loads at `x` included if `after`. */
function cutAt(out: SectionForces, from: Six, loads: readonly LocalLoad[], x: number, after: boolean): void {
  let [fx, fy, fz, mx] = from
  let my = from[4] + x * from[2]
  let mz = from[5] - x * from[1]
  for (const { atMm, f, torque } of loads) {
    const isSpread = atMm < 0
    if (!isSpread && (after ? atMm > x : atMm >= x)) continue
    const size = isSpread ? x : 1
    const lever = isSpread ? x / 2 : x - atMm
    fx += size * f[0]
    fy += size * f[1]
    fz += size * f[2]
    my += lever * size * f[2]
    mz -= lever * size * f[1]
    mx += torque
  }
  out.atMm = x
  out.axialN = -fx
  out.shearYN = -fy
  out.shearZN = -fz
  out.torqueNmm = -mx
  out.momentYNmm = -my
  out.momentZNmm = -mz
}

/**
 * Visits every section at which any of the forces can be greatest; the object is the same at every visit. Between
 * point loads the moment is greatest where the shear, falling evenly, passes nought.
 */
export function visitSections(
  beam: Beam,
  ends: MemberEnds,
  loads: readonly MemberLoad[],
  visit: (forces: Readonly<SectionForces>) => void,
): void {
  const l = beam.lengthMm
  const local = localLoads(beam, loads)
  const stops = [0, ...local.filter(({ atMm }) => atMm > 0 && atMm < l).map(({ atMm }) => atMm), l].sort(
    (a, b) => a - b,
  )
  let [wy, wz] = [0, 0]
  for (const { atMm, f } of local) {
    if (atMm >= 0) continue
    wy += f[1]
    wz += f[2]
  }
  const out = { atMm: 0, axialN: 0, shearYN: 0, shearZN: 0, torqueNmm: 0, momentYNmm: 0, momentZNmm: 0 }
  for (let i = 0; i < stops.length; i++) {
    cutAt(out, ends.from, local, stops[i], false)
    if (i > 0) visit(out)
    if (i + 1 === stops.length) return
    cutAt(out, ends.from, local, stops[i], true)
    const [y, z] = [wy === 0 ? -1 : out.shearYN / wy, wz === 0 ? -1 : out.shearZN / wz]
    visit(out)
    for (const ahead of [y, z]) {
      if (!(ahead > 0 && stops[i] + ahead < stops[i + 1])) continue
      cutAt(out, ends.from, local, stops[i] + ahead, false)
      visit(out)
    }
  }
}

/** The same as a list. */
export function sectionForces(beam: Beam, ends: MemberEnds, loads: readonly MemberLoad[]): SectionForces[] {
  const list: SectionForces[] = []
  visitSections(beam, ends, loads, (forces) => list.push({ ...forces }))
  return list
}

/**
 * Points of a member's deflected axis, world axes, mm, times `exaggeration`. By the cubic between its ends, which is
 * exact where no load acts between its nodes and nothing is released.
 */
export function deflectedAxis(
  beam: Beam,
  u: Float64Array,
  start: Vec3,
  steps: number,
  exaggeration: number,
): Vec3[] {
  const d = new Float64Array(N)
  for (let i = 0; i < N; i++) for (let j = 0; j < N; j++) d[i] += beam.fromNodes[i * N + j] * u[j]
  const l = beam.lengthMm
  const cubic = (t: number, v0: number, r0: number, v1: number, r1: number): number =>
    v0 * (1 - 3 * t * t + 2 * t ** 3) +
    r0 * l * (t - 2 * t * t + t ** 3) +
    v1 * (3 * t * t - 2 * t ** 3) +
    r1 * l * (t ** 3 - t * t)
  const [x, y, z] = beam.axes
  return Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps
    const moved = [
      d[0] + t * (d[6] - d[0]),
      cubic(t, d[1], d[5], d[7], d[11]),
      cubic(t, d[2], -d[4], d[8], -d[10]),
    ]
    const at = add(start, scale(x, t * l))
    return add(at, scale(add(add(scale(x, moved[0]), scale(y, moved[1])), scale(z, moved[2])), exaggeration))
  })
}
