/**
 * Will it hold, will it tip, will it rack or sag or creak, will the wood move: a list of checks on a Model, the
 * governing one first. N, mm, MPa. In: a Model and what its wood is like. Out: StrengthReport, or a sentence and no
 * number. Method: a space frame from the Model (from-model.ts), published loads (load-cases.ts), capacities at the 5th
 * percentile over a stated factor (wood/strength.ts, fasteners.ts, glue.ts). Not covered: impact, fatigue, splitting
 * while driving, hidden damage. It advises; it certifies nothing. Tests: tests/core/statics/strength.test.ts
 */
import type { Model } from '#lib/core/design/model'
import { err, ok, type Result } from '#lib/core/units/result'
import { GRADES, type SalvageGrade } from '#lib/core/wood/grades'
import { FURNITURE_FACTOR } from '#lib/core/wood/strength'
import { governingFirst, type StrengthCheck } from './checks'
import { prepareFrame } from './frame'
import { type StaticsModel, staticsFromModel } from './from-model'
import { tightScrews } from './joint-from-model'
import { type Air, DAMP_AIR, DRY_AIR, type Movements, movementsOf, seasonOf } from './movement'
import { plainName } from './part-axis'
import { type CaseResultOf, type CaseRun, runCases } from './run-cases'
import type { SeatLevel } from './seat-levels'
import { CAUTION } from './sources'
import { strengthChecks } from './strength-checks'
import { type TippingReport, tippingChecks, tippingReport } from './tipping-report'
import { type WallReport, wallCheck, wallReport } from './wall-report'

export interface StrengthOptions {
  readonly grade?: SalvageGrade
  /** On 5th percentiles of strength. */
  readonly factor?: number
  /** Between feet and floor; absent: stops, as in the published tests. */
  readonly friction?: number
  readonly dry?: Air
  readonly damp?: Air
  /** How hard a seat is used; absent: at home. */
  readonly level?: SeatLevel
  /** Times the stiffness of all joints. */
  readonly jointStiffness?: number
  /** Runs this load case alone (by its name), or none for tipping alone: for searches. */
  readonly only?: { readonly loadCase: string } | 'tipping'
}

export interface StrengthReport {
  /** Must be shown with any of this. */
  readonly caution: string
  /** Of what could hurt someone. */
  readonly verdict: 'passes' | 'fails'
  /** What has to be done for that to hold: «once it is fixed to a wall». */
  readonly conditions: readonly string[]
  /** One sentence. */
  readonly summary: string
  /** Governing first. */
  readonly checks: readonly StrengthCheck[]
  /** Absent for a piece that hangs. */
  readonly tipping?: TippingReport
  /** What a wall must bear, of a piece that hangs on one. */
  readonly wall?: WallReport
  readonly movement: Movements
  /** Things to know that are no checks: guesses, screws close to edges, what is not covered. */
  readonly notes: readonly string[]
  readonly cases: readonly CaseRun[]
  readonly condition: number
  /** Worst equilibrium residual of all cases, as a share of the load. */
  readonly residual: number
}

/** A report with the frame behind it, for drawing and for asking again. */
export interface StrengthStudy {
  readonly report: StrengthReport
  readonly model: StaticsModel
  readonly results: readonly CaseResultOf[]
}

const woodNote = (model: StaticsModel, grade: SalvageGrade, factor: number): string => {
  const names = [...new Set([...model.parts.values()].map(({ wood }) => wood.species.name))]
  return `Wood: ${names.join(', ')}, ${GRADES[grade].label}. Allowed: the weak twentieth (5th percentile) of clear wood by the spread of Wood Handbook Table 5-6, less for the grade by Table 5-12 and ASTM D245 (all from memory), over ${factor}.`
}

function notesOf(model: StaticsModel, grade: SalvageGrade, factor: number): string[] {
  const notes = [woodNote(model, grade, factor)]
  if (model.isUseGuessed) notes.push(`Taken for a ${model.use.kind}, told from its shape.`)
  if ([...model.parts.values()].some(({ wood }) => wood.species.id.startsWith('unknown')))
    notes.push(
      'Wood that nobody could name is judged as weaker and livelier than any in the table; naming it helps.',
    )
  const joints = new Map(model.joints.map(({ joint }) => [joint.id, joint]))
  const tight = [...joints.values()].flatMap((joint) =>
    tightScrews(joint, [model.parts.get(joint.a)!, model.parts.get(joint.b)!]),
  )
  if (tight.length > 0) {
    const least = tight.reduce((a, b) => (b.haveMm / b.wantMm < a.haveMm / a.wantMm ? b : a))
    const where = { edge: 'from an edge', end: 'from an end', neighbour: 'apart' }[least.what]
    const screws = new Set(tight.map(({ screwId }) => screwId)).size
    notes.push(
      `${screws} screws stand closer than timber codes want, the closest ${least.haveMm.toFixed(0)} mm ${where} where ${least.wantMm.toFixed(0)} mm are wanted (EN 1995-1-1 Table 8.2, from memory): bore lead holes full depth, and try one in scrap.`,
    )
  }
  return notes
}

function summaryOf(checks: readonly StrengthCheck[]): string {
  const [first] = checks
  const failing = checks.filter(({ passes }) => !passes)
  if (failing.length === 0) return `Nothing fails. Closest: ${first.sentence}`
  return failing.length === 1
    ? `One check fails: ${first.sentence}`
    : `${failing.length} checks fail. Worst: ${first.sentence}`
}

/**
 * Studies a model: report, frame and results.
 * @returns a sentence, and no number, for a model that cannot be judged
 * @throws RangeError for options that are no physics (factor below 1, air that is none)
 */
export function studyStrength(model: Model, options: StrengthOptions = {}): Result<StrengthStudy, string> {
  const { grade = 'sound', factor = FURNITURE_FACTOR, friction, jointStiffness } = options
  const season = seasonOf(options.dry ?? DRY_AIR, options.damp ?? DAMP_AIR)
  const statics = staticsFromModel(model, {
    grade,
    factor,
    ...(friction === undefined ? {} : { friction }),
    ...(jointStiffness === undefined ? {} : { jointStiffness }),
  })
  if (!statics.ok) return statics
  const frame = prepareFrame({ ...statics.value.frame, cases: [] })
  if (!frame.ok) return err(plainRefusal(statics.value, frame.error.message))
  const isHung = statics.value.wall !== undefined
  const tipping = isHung ? undefined : tippingReport(statics.value)
  if (tipping === undefined && !isHung)
    return err('Its feet stand on one line, so it cannot stand by itself.')
  const run =
    options.only === 'tipping'
      ? ok({ results: [], runs: [], notes: [] })
      : runCases(statics.value, frame.value, options.only?.loadCase, options.level)
  if (!run.ok) return run
  const movement = movementsOf(statics.value, season)
  const wall = wallReport(statics.value, run.value.results)
  const checks = governingFirst([
    ...(tipping === undefined ? [] : tippingChecks(tipping)),
    ...(wall === undefined ? [] : [wallCheck(wall)]),
    ...strengthChecks(statics.value, run.value.results, movement),
  ])
  const report: StrengthReport = {
    caution: CAUTION,
    verdict: checks.every(({ passes, weight }) => passes || weight !== 'safety') ? 'passes' : 'fails',
    conditions: checks.flatMap(({ passes, condition }) =>
      passes || condition === undefined ? [] : [condition],
    ),
    summary: summaryOf(checks),
    checks,
    ...(tipping === undefined ? {} : { tipping }),
    ...(wall === undefined ? {} : { wall }),
    movement,
    notes: [...notesOf(statics.value, grade, factor), ...run.value.notes],
    cases: run.value.runs,
    condition: frame.value.condition,
    residual: run.value.results.reduce((worst, { result }) => Math.max(worst, result.residual), 0),
  }
  return ok({ report, model: statics.value, results: run.value.results })
}

/** @see studyStrength */
export function checkStrength(model: Model, options: StrengthOptions = {}): Result<StrengthReport, string> {
  const study = studyStrength(model, options)
  return study.ok ? ok(study.value.report) : study
}

/** The node of a mechanism by the name of its part. */
function plainRefusal(model: StaticsModel, message: string): string {
  const id = /«(.+)@\d+»/.exec(message)?.[1]
  const part = id === undefined ? undefined : model.parts.get(id)?.axis.part
  return part === undefined ? message : `«${plainName(part)}» is not held: it can move without resistance.`
}
