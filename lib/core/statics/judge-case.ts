/**
 * What one solved load case asks of every part and every joint. N, mm, MPa. Parts: bending and axial stress added
 * as shares of what each may be (|N|/A + M/S), shear 3V/2A with torsion, buckling by Euler with the low modulus.
 * Joints: joint-capacity.ts. Deflection: sag of a loaded part between its joints, sway of what is loaded.
 * Tests: tests/core/statics/strength.test.ts
 */
import { add, scale, type Vec3 } from '#lib/core/geometry/vec3'
import { VARIATION } from '#lib/core/wood/strength'
import { visitSections } from './beam'
import type { FrameModel } from './frame'
import type { CaseResult, FrameCase, MemberLoad, Six } from './frame-problem'
import type { StaticsModel } from './from-model'
import { type JointUse, jointUse } from './joint-capacity'
import type { JointPiece, WoodPart } from './joint-from-model'
import { axisPlace, axisPoint } from './part-axis'
import { eulerLoadN, rectangleSection } from './section'

export interface PartDemand {
  readonly partId: string
  readonly kind: 'bending' | 'shear' | 'buckling'
  readonly share: number
  readonly capacity: number
  readonly unit: 'MPa' | 'N'
  readonly variation: number
  readonly at: Vec3
  readonly isNotched: boolean
}

export interface JointDemand {
  readonly piece: JointPiece
  readonly use: JointUse
  /** Movement of the two parts along each other, mm. */
  readonly slipMm: number
}

export interface Deflection {
  readonly partId: string
  readonly mm: number
  readonly spanMm: number
  readonly at: Vec3
}

export interface CaseDemands {
  readonly parts: readonly PartDemand[]
  readonly joints: readonly JointDemand[]
  readonly sags: readonly Deflection[]
  /** How far the loaded surfaces move sideways, mm. */
  readonly swayMm: number
}

/** Forces through a joint as its patch feels them: what tends to open it is a pull. */
export const patchForces = (f: Six) => ({
  xN: f[0],
  yN: f[1],
  pullN: -f[2],
  mxNmm: -f[3],
  myNmm: -f[4],
  torqueNmm: f[5],
})

interface Worst {
  share: number
  at: Vec3
  isNotched: boolean
}

function partDemands(
  model: StaticsModel,
  frame: FrameModel,
  result: CaseResult,
  loads: ReadonlyMap<string, readonly MemberLoad[]>,
  partId: string,
): PartDemand[] {
  const { axis, wood } = model.parts.get(partId)!
  const bending: Worst = { share: 0, at: axis.centre, isNotched: false }
  const shear: Worst = { share: 0, at: axis.centre, isNotched: false }
  let pressedN = 0
  for (const member of model.membersOf.get(partId)!) {
    const beam = frame.equations.beams[frame.memberIndex.get(member.id)!]
    const s = rectangleSection(member.section.widthMm, member.section.thicknessMm)
    visitSections(beam, result.members.get(member.id)!, loads.get(member.id) ?? [], (f) => {
      const along = f.axialN > 0 ? wood.tensionMPa : wood.compressionMPa
      const bend = Math.abs(f.momentYNmm) / s.syMm3 + Math.abs(f.momentZNmm) / s.szMm3
      const share = bend / wood.bendingMPa + Math.abs(f.axialN) / s.areaMm2 / along
      const slide =
        (1.5 * Math.hypot(f.shearYN, f.shearZN)) / s.areaMm2 + Math.abs(f.torqueNmm) / s.torsionMm3
      pressedN = Math.max(pressedN, -f.axialN)
      const at = (): Vec3 => axisPoint(axis, member.fromMm + f.atMm)
      if (share > bending.share)
        Object.assign(bending, { share, at: at(), isNotched: member.section.isNotched })
      if (slide / wood.shearMPa > shear.share)
        Object.assign(shear, { share: slide / wood.shearMPa, at: at(), isNotched: member.section.isNotched })
    })
  }
  const common = { partId, unit: 'MPa' as const }
  return [
    { ...common, kind: 'bending', ...bending, capacity: wood.bendingMPa, variation: VARIATION.bending },
    { ...common, kind: 'shear', ...shear, capacity: wood.shearMPa, variation: VARIATION.shear },
    buckling(model.parts.get(partId)!, pressedN),
  ]
}

/** As if pinned at both ends of the whole part, which is on the safe side. */
function buckling({ axis, wood }: WoodPart, pressedN: number): PartDemand {
  const { widthMm, thicknessMm } = axis.part.blank
  const s = rectangleSection(widthMm, thicknessMm)
  const iMm4 = Math.min(s.iyMm4, s.izMm4)
  const capacity =
    eulerLoadN({ eMPa: wood.eLowMPa, iMm4, lengthMm: axis.toMm - axis.fromMm, k: 1 }) / wood.factor
  return {
    partId: axis.part.id,
    kind: 'buckling',
    share: pressedN / capacity,
    capacity,
    unit: 'N',
    variation: VARIATION.stiffness,
    at: axis.centre,
    isNotched: false,
  }
}

function sagOf(model: StaticsModel, result: CaseResult, partId: string): Deflection | undefined {
  const members = model.membersOf.get(partId)!
  const { axis } = model.parts.get(partId)!
  const held = model.joints
    .filter(({ joint }) => joint.a === partId || joint.b === partId)
    .map(({ frame }) => axisPlace(axis, frame.origin))
  if (held.length < 2) return undefined
  const [low, high] = [Math.min(...held), Math.max(...held)]
  const xs = [members[0].fromMm, ...members.map(({ toMm }) => toMm)]
  const z = (i: number): number => result.nodes.get(`${partId}@${i}`)![2]
  const nearest = (x: number): number =>
    xs.reduce((best, value, i) => (Math.abs(value - x) < Math.abs(xs[best] - x) ? i : best), 0)
  const [a, b] = [nearest(low), nearest(high)]
  let worst: Deflection | undefined
  for (let i = a + 1; i < b; i++) {
    const t = (xs[i] - xs[a]) / (xs[b] - xs[a])
    const mm = z(a) + t * (z(b) - z(a)) - z(i)
    if (mm > (worst?.mm ?? 0)) worst = { partId, mm, spanMm: xs[b] - xs[a], at: axisPoint(axis, xs[i]) }
  }
  return worst
}

function swayOf(model: StaticsModel, result: CaseResult): number {
  let sum: Vec3 = [0, 0, 0]
  let count = 0
  for (const partId of model.use.surfaces) {
    for (let i = 0; i <= model.membersOf.get(partId)!.length; i++) {
      const d = result.nodes.get(`${partId}@${i}`)!
      sum = add(sum, [d[0], d[1], 0])
      count++
    }
  }
  const [x, y] = scale(sum, 1 / Math.max(1, count))
  return Math.hypot(x, y)
}

/** Every demand of one case that is held. */
export function demandsOf(
  model: StaticsModel,
  frame: FrameModel,
  one: FrameCase,
  result: CaseResult,
): CaseDemands {
  const loads = new Map<string, MemberLoad[]>()
  for (const load of one.memberLoads ?? []) {
    const before = loads.get(load.member)
    if (before === undefined) loads.set(load.member, [load])
    else before.push(load)
  }
  const joints = model.joints.map((piece): JointDemand => {
    const f = result.links.get(piece.id)!
    const slipMm = Math.hypot(f[0] / piece.stiffness[0], f[1] / piece.stiffness[1])
    return { piece, use: jointUse(piece.make, patchForces(f)), slipMm }
  })
  return {
    parts: [...model.parts.keys()].flatMap((partId) => partDemands(model, frame, result, loads, partId)),
    joints,
    sags: model.use.surfaces.flatMap((partId) => sagOf(model, result, partId) ?? []),
    swayMm: swayOf(model, result),
  }
}
