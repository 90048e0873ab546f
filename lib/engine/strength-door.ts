/**
 * The verbs `frame` and `strength` of the headless door: schemas of what they accept, and plain answers. A frame's
 * results pass verifyFrame before they are given out. Infinite numbers (nothing tips it) become null in JSON.
 * Formats: docs/formats.md. Tests: tests/engine/strength-door.test.ts
 */
import { z } from 'zod'
import type { Design, Model, ParameterValues } from '#lib/core/design/model'
import { JOINT_KINDS } from '#lib/core/design/recipe/recipe'
import { makeBeam, sectionForces } from '#lib/core/statics/beam'
import { compareJoints } from '#lib/core/statics/compare-joints'
import { compareWoods } from '#lib/core/statics/compare-woods'
import { curesFor } from '#lib/core/statics/cure'
import { solveFrame } from '#lib/core/statics/frame'
import { type CaseResult, DOFS, type FrameProblem, type Six } from '#lib/core/statics/frame-problem'
import { scatterOf } from '#lib/core/statics/monte-carlo'
import { SEAT_LEVELS } from '#lib/core/statics/seat-levels'
import { rectangleSection, type Section } from '#lib/core/statics/section'
import { checkStrength, type StrengthOptions, type StrengthReport } from '#lib/core/statics/strength'
import type { LeaningTipping, TippingReport } from '#lib/core/statics/tipping-report'
import { verifyFrame } from '#lib/core/statics/verify-frame'
import { err, ok, type Result } from '#lib/core/units/result'
import { SALVAGE_GRADES } from '#lib/core/wood/grades'

const id = z.string().min(1)
const vec3 = z.tuple([z.number(), z.number(), z.number()])
const dof = z.enum(DOFS)
const positive = z.number().positive()
const springs = z.partialRecord(dof, z.number().nonnegative())

const section = z.union([
  z.strictObject({ widthMm: positive, thicknessMm: positive, shear: z.boolean().optional() }),
  z.strictObject({
    areaMm2: positive,
    iyMm4: positive,
    izMm4: positive,
    jMm4: positive,
    syMm3: positive.optional(),
    szMm3: positive.optional(),
    torsionMm3: positive.optional(),
    shearYMm2: positive.optional(),
    shearZMm2: positive.optional(),
  }),
])

const memberLoad = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('uniform'), member: id, forcePerMm: vec3 }),
  z.strictObject({
    kind: z.literal('point'),
    member: id,
    atMm: z.number().nonnegative(),
    forceN: vec3,
    torqueNmm: z.number().optional(),
  }),
])

export const frameInput = z.strictObject({
  nodes: z.array(z.strictObject({ id, at: vec3 })),
  members: z.array(
    z.strictObject({
      id,
      from: id,
      to: id,
      section,
      eMPa: positive,
      gMPa: positive,
      yAxis: vec3.optional(),
      offsetFrom: vec3.optional(),
      offsetTo: vec3.optional(),
      endFrom: springs.optional(),
      endTo: springs.optional(),
    }),
  ),
  links: z
    .array(
      z.strictObject({
        id,
        from: id,
        to: id,
        at: vec3,
        xAxis: vec3.optional(),
        yAxis: vec3.optional(),
        stiffness: z.tuple([z.number(), z.number(), z.number(), z.number(), z.number(), z.number()]),
      }),
    )
    .optional(),
  supports: z
    .array(
      z.strictObject({
        node: id,
        fixed: z.array(dof).optional(),
        springs: springs.optional(),
        moved: z.partialRecord(dof, z.number()).optional(),
      }),
    )
    .optional(),
  feet: z
    .array(
      z.strictObject({
        id,
        node: id,
        at: vec3.optional(),
        friction: z.number().nonnegative().optional(),
        stiffness: positive.optional(),
      }),
    )
    .optional(),
  cases: z.array(
    z.strictObject({
      id,
      nodeLoads: z
        .array(
          z.strictObject({
            node: id,
            forceN: vec3.optional(),
            momentNmm: vec3.optional(),
            at: vec3.optional(),
          }),
        )
        .optional(),
      memberLoads: z.array(memberLoad).optional(),
    }),
  ),
})
export type FrameInput = z.infer<typeof frameInput>

const sectionOf = (given: FrameInput['members'][number]['section']): Section =>
  'widthMm' in given
    ? rectangleSection(given.widthMm, given.thicknessMm, given.shear ? { shear: true } : {})
    : (given as Section)

const displacement = (d: Six) => Object.fromEntries(DOFS.map((name, i) => [name, d[i]]))
const wrench = (f: Six) => ({ forceN: [f[0], f[1], f[2]], momentNmm: [f[3], f[4], f[5]] })

/** Greatest of what passes through a member, and the greatest stress if its section says enough. */
function greatest(
  problem: FrameProblem,
  result: CaseResult,
  index: number,
  at: ReadonlyMap<string, FrameProblem['nodes'][number]['at']>,
) {
  const member = problem.members[index]
  const beam = makeBeam(member, at.get(member.from)!, at.get(member.to)!)!
  const loads = problem.cases.find((one) => one.id === result.id)?.memberLoads ?? []
  const sections = sectionForces(
    beam,
    result.members.get(member.id)!,
    loads.filter((load) => load.member === member.id),
  )
  const most = (pick: (f: (typeof sections)[number]) => number): number =>
    Math.max(...sections.map((f) => Math.abs(pick(f))))
  const { areaMm2, syMm3, szMm3 } = member.section
  const stress =
    syMm3 === undefined || szMm3 === undefined
      ? {}
      : {
          stressMPa: most(
            (f) =>
              Math.abs(f.axialN) / areaMm2 + Math.abs(f.momentYNmm) / syMm3 + Math.abs(f.momentZNmm) / szMm3,
          ),
        }
  return {
    axialN: most((f) => f.axialN),
    shearN: most((f) => Math.hypot(f.shearYN, f.shearZN)),
    momentNmm: most((f) => Math.hypot(f.momentYNmm, f.momentZNmm)),
    torqueNmm: most((f) => f.torqueNmm),
    ...stress,
  }
}

/** Answers the verb `frame`; an error is a sentence. @throws Error if the results do not pass their check */
export function answerFrame(input: FrameInput): Result<unknown, string> {
  const problem = {
    ...input,
    members: input.members.map((member) => ({ ...member, section: sectionOf(member.section) })),
  } as FrameProblem
  const solved = solveFrame(problem)
  if (!solved.ok) return err(solved.error.message)
  const at = new Map(problem.nodes.map((node) => [node.id, node.at]))
  const cases = solved.value.cases.map((result, i) => {
    const faults = result.status === 'held' ? verifyFrame(problem, problem.cases[i], result) : []
    if (faults.length > 0) throw new Error(`the frame does not pass its check: ${faults[0]}`)
    if (result.status !== 'held') return { id: result.id, status: result.status }
    return {
      id: result.id,
      status: result.status,
      residual: result.residual,
      nodes: [...result.nodes].map(([node, d]) => ({ id: node, ...displacement(d) })),
      members: problem.members.map((member, index) => {
        const ends = result.members.get(member.id)!
        return {
          id: member.id,
          from: wrench(ends.from),
          to: wrench(ends.to),
          greatest: greatest(problem, result, index, at),
        }
      }),
      links: [...result.links].map(([link, f]) => ({ id: link, ...wrench(f) })),
      reactions: [...result.reactions].map(([node, f]) => ({ node, ...wrench(f) })),
      feet: [...result.feet].map(([foot, { forceN, state }]) => ({ id: foot, state, forceN })),
    }
  })
  return ok({ freedoms: solved.value.freedoms, condition: solved.value.condition, cases })
}

const air = z.strictObject({ tempC: z.number().min(-10).max(100), humidity: z.number().min(0).max(0.99) })

const placed = z.looseObject({ origin: vec3, x: vec3, y: vec3, z: vec3 })
const bearingModel = z.looseObject({
  parts: z.array(
    z.looseObject({
      id,
      name: id,
      blank: z.looseObject({ lengthMm: positive, widthMm: positive, thicknessMm: positive }),
      operations: z.array(z.looseObject({ kind: id, id })),
      frame: placed,
    }),
  ),
  joints: z.array(
    z.looseObject({
      id,
      kind: z.enum(JOINT_KINDS),
      a: id,
      b: id,
      contact: z.looseObject({ polygon: z.array(vec3).min(3), normal: vec3, areaMm2: positive }),
      grainAtA: z.enum(['long', 'end']),
      grainAtB: z.enum(['long', 'end']),
      glued: z.boolean(),
      screws: z.array(
        z.looseObject({
          id,
          head: vec3,
          tip: vec3,
          shankMm: positive,
          lengthMm: positive,
          through: id,
          into: id,
        }),
      ),
    }),
  ),
  place: z.array(z.looseObject({ id, min: vec3, max: vec3 })).default([]),
  hangs: z.literal('wall').optional(),
})

const asked = {
  grade: z.enum(SALVAGE_GRADES).optional(),
  level: z.enum(SEAT_LEVELS).optional(),
  factor: z.number().min(1).optional(),
  friction: z.number().nonnegative().optional(),
  dry: air.optional(),
  damp: air.optional(),
  scatter: z.strictObject({ seed: z.int(), draws: z.int().min(1).max(1_000_000) }).optional(),
  /** How many failing checks are to be cured. */
  cures: z.int().nonnegative().optional(),
  compare: z.boolean().optional(),
  woods: z.boolean().optional(),
}

export const strengthInput = z.union([
  z.strictObject({
    design: id,
    parameters: z.record(z.string(), z.union([z.number(), z.string()])).default({}),
    ...asked,
  }),
  z.strictObject({ model: bearingModel, ...asked }),
])
export type StrengthInput = z.infer<typeof strengthInput>

const sayTipping = ({ case: one, worst, around, lean }: LeaningTipping) => ({
  id: one.id,
  name: one.name,
  source: one.source,
  factor: worst.factor,
  towards: worst.towards,
  loadAt: worst.loadAt,
  outsetMm: worst.outsetMm,
  ...(lean === undefined ? {} : { lean }),
  around,
})

function sayReport(report: StrengthReport) {
  const { tipping, checks, ...rest } = report
  return {
    ...rest,
    checks: checks.map(({ chance: _, ...check }) => check),
    ...(tipping ? { tipping: sayTippings(tipping) } : {}),
  }
}

function sayTippings(tipping: TippingReport) {
  return {
    support: tipping.support,
    centre: tipping.piece.centre,
    weightN: tipping.piece.weightN,
    tiltRad: tipping.tiltRad,
    cases: tipping.cases.map(sayTipping),
    ...(tipping.onEdge === undefined ? {} : { onEdge: sayTipping(tipping.onEdge) }),
    ...(tipping.onFootRest === undefined ? {} : { onFootRest: sayTipping(tipping.onFootRest) }),
  }
}

function scatter(
  model: Model,
  report: StrengthReport,
  options: StrengthOptions,
  by: { seed: number; draws: number },
) {
  const other = (jointStiffness: number) => {
    const made = checkStrength(model, { ...options, jointStiffness })
    return made.ok ? made.value.checks : []
  }
  return scatterOf(report.checks, { ...by, soft: other(0.5), stiff: other(2) })
}

/** What a design is asked, beyond its model. */
export interface DesignAsked {
  readonly design: Design
  readonly parameters: ParameterValues
}

/**
 * Answers the verb `strength` for a model; cures and comparisons need its design.
 * @returns a sentence for a model that cannot be judged
 */
export function answerStrength(
  model: Model,
  input: StrengthInput,
  from?: DesignAsked,
): Result<unknown, string> {
  const { level, grade, factor, friction, dry, damp } = input
  const options = Object.fromEntries(
    Object.entries({ level, grade, factor, friction, dry, damp }).filter(([, value]) => value !== undefined),
  ) as StrengthOptions
  const made = checkStrength(model, options)
  if (!made.ok) return made
  const report = made.value
  const failing = report.checks.filter(
    ({ passes, chance }) => !passes && (chance !== undefined || from !== undefined),
  )
  return ok({
    ...sayReport(report),
    ...(input.woods === true ? { woods: compareWoods(model, options) } : {}),
    ...(input.scatter === undefined ? {} : { scatter: scatter(model, report, options, input.scatter) }),
    ...(from === undefined || input.cures === undefined
      ? {}
      : {
          cures: failing
            .slice(0, input.cures)
            .map((check) => curesFor(from.design, from.parameters, check, options)),
        }),
    ...(from === undefined || input.compare !== true
      ? {}
      : { compare: compareJoints(from.design, from.parameters, options) }),
  })
}
