/**
 * Solves every load case of a model. A push that would tip the piece is eased until it just stands, or the seat is
 * weighed down, as the published tests do (EN 1728, from memory); what was done is said. N, mm.
 * Tests: tests/core/statics/strength.test.ts
 */
import { sidesOf } from '#lib/core/geometry/polygon2'
import { err, ok, type Result } from '#lib/core/units/result'
import type { FrameModel } from './frame'
import type { CaseResult, FrameCase, MemberLoad } from './frame-problem'
import type { StaticsModel } from './from-model'
import { type CaseDemands, demandsOf } from './judge-case'
import { frameCaseOf, type LoadCase, loadCases } from './load-cases'
import type { SeatLevel } from './seat-levels'
import { saySource } from './sources'
import { supportPolygon } from './stability'
import { type CaseSolver, wallSolver } from './wall'

/** A case as it was run, for the page. */
export interface CaseRun {
  readonly id: string
  readonly name: string
  readonly sizeN: number
  readonly source: string
  readonly status: CaseResult['status']
  /** Share of the push that was put on, or of 1000 N on the seat to weigh it down. */
  readonly share: number
  readonly what: 'asIs' | 'eased' | 'weighedDown'
}

export interface CaseResultOf {
  readonly loadCase: LoadCase
  readonly frameCase: FrameCase
  readonly result: CaseResult
  readonly demands: CaseDemands
  readonly run: CaseRun
}

/** Room left before tipping when a push is eased, or added when the seat is weighed down. */
const EASE = 0.97

/** Moments of the feet's pushes about each line of feet, N mm; below 0 it tips about that line. */
function standingMoments(model: StaticsModel, pushes: Float64Array): number[] {
  const support = supportPolygon(model.feet.map(({ at }) => [at[0], at[1]]))
  if (support === undefined) return []
  return sidesOf(support).map(({ normal, offset }) =>
    model.feet.reduce(
      (sum, { at }, i) => sum + pushes[i] * (offset - normal[0] * at[0] - normal[1] * at[1]),
      0,
    ),
  )
}

/** Moments of lists of loads that are known already. */
type Moments = Map<readonly MemberLoad[], number[]>

/** How much of the variable loads lets the piece stand. */
function standingShare(model: StaticsModel, frame: FrameModel, one: LoadCase, known: Moments): number {
  const momentsOf = (memberLoads: readonly MemberLoad[]): number[] => {
    const moments =
      known.get(memberLoads) ?? standingMoments(model, frame.heldPushes({ id: one.id, memberLoads }))
    known.set(memberLoads, moments)
    return moments
  }
  const fixed = momentsOf(one.fixed)
  const variable = momentsOf(one.variable)
  if (one.whenTips === 'reduce') {
    const most = fixed.reduce(
      (least, hold, i) => (variable[i] < 0 ? Math.min(least, hold / -variable[i]) : least),
      Number.POSITIVE_INFINITY,
    )
    return Math.max(0, Math.min(1, EASE * most))
  }
  return fixed.reduce(
    (most, hold, i) => (hold < 0 && variable[i] > 0 ? Math.max(most, -hold / variable[i] / EASE) : most),
    0,
  )
}

function runOne(
  model: StaticsModel,
  frame: FrameModel,
  one: LoadCase,
  known: Moments,
  solve: CaseSolver,
): Result<CaseResultOf, string> {
  const share = one.variable.length === 0 ? 1 : standingShare(model, frame, one, known)
  const frameCase = frameCaseOf(one, share)
  const solved = solve(frameCase)
  if (!solved.ok) return err(solved.error.message)
  const result = solved.value
  const what = one.whenTips === 'weigh' ? (share > 0 ? 'weighedDown' : 'asIs') : share < 1 ? 'eased' : 'asIs'
  const run: CaseRun = {
    id: one.id,
    name: one.name,
    sizeN: one.sizeN,
    source: saySource(one.source),
    status: result.status,
    share,
    what,
  }
  const demands = demandsOf(model, frame, frameCase, result)
  return ok({ loadCase: one, frameCase, result, demands, run })
}

/** Feet that come off the floor while the piece stands on the others. */
function liftedNote(all: readonly CaseResultOf[]): string[] {
  const lifting = all.flatMap(({ run, result }) => {
    const states = [...result.feet.values()].map(({ state }) => state)
    const lifted = states.filter((state) => state === 'lifted').length
    return run.status === 'held' && lifted > 0
      ? [`${run.name.toLowerCase()} (${lifted} of ${states.length} places)`]
      : []
  })
  return lifting.length === 0
    ? []
    : [`Feet come off the floor, and it stands on the others: ${lifting.join(', ')}.`]
}

function noteOf({ run, loadCase }: CaseResultOf): string | undefined {
  const name = run.name.toLowerCase()
  if (run.status === 'tips')
    return `It tips over before it can be ${name}, so that case says nothing of its strength.`
  if (run.status === 'slides')
    return `It slides before it can be ${name}, so that case says nothing of its strength.`
  if (run.status === 'unsettled') return `When ${name}, its feet do not settle; that case says nothing.`
  if (run.what === 'eased')
    return `${run.name}: ${Math.round(run.share * loadCase.sizeN)} N of ${loadCase.sizeN} N, just short of tipping, as the published test eases it.`
  if (run.what === 'weighedDown')
    return `${run.name}: the seat is weighed down with ${Math.round(run.share * 1000)} N so that it stands.`
  return undefined
}

/**
 * All cases, those that are held with their demands, and what has to be said about them.
 * @param only the name of the one case to run; absent: all
 * @param level how hard a seat is used
 */
export function runCases(
  model: StaticsModel,
  frame: FrameModel,
  only?: string,
  level?: SeatLevel,
): Result<{ readonly results: CaseResultOf[]; readonly runs: CaseRun[]; readonly notes: string[] }, string> {
  const all: CaseResultOf[] = []
  const known: Moments = new Map()
  const solve: CaseSolver = model.wall ? wallSolver(model.frame, model.wall) : frame.solve
  for (const one of loadCases(model, level)) {
    if (only !== undefined && one.name !== only) continue
    const done = runOne(model, frame, one, known, solve)
    if (!done.ok) return done
    all.push(done.value)
  }
  const held = all.filter(({ result }) => result.status === 'held')
  if (held.length === 0) return err('It stands under none of the loads: it tips or slides under every one.')
  return ok({
    results: held,
    runs: all.map(({ run }) => run),
    notes: [...all.flatMap((one) => noteOf(one) ?? []), ...liftedNote(all)],
  })
}
