/**
 * From cut trees and parts to set-ups in working order: every piece planed, sawn, notched, drilled and rounded, all
 * cuts of one setting together, each after the cuts that it waits for.
 * In: SetupInput (trees in micrometres, parts in mm, shop). Out: SetupPlan (mm, rad, s). Method: tree-steps.ts and
 * part-steps.ts make the steps, order-steps.ts orders them, docs/methods/setups.md tells it in full.
 * Not guaranteed: fewest settings where the plan says `feasible`; then `settingsBound` says how far off it can be.
 * Checked by verify-setups.ts. Tests: tests/core/setups/.
 */
import type { Part } from '#lib/core/design/model'
import { CHANGE_WORDS, describeSetup } from './describe-setup'
import { changed } from './machine-state'
import { orderSteps, type Run, settingsOf } from './order-steps'
import type { FreeBlank } from './part-context'
import { addPartSteps, notchBladeMm, notchPassCount } from './part-steps'
import { boardCopies } from './pieces'
import { settleRuns } from './settle-runs'
import type { SetupInput } from './setup-input'
import type { Setup, SetupCut, SetupKind, SetupPlan, SetupSettings, StationTime } from './setup-plan'
import type { Step, StepList } from './step'
import { addTreeSteps, chooseMeasures } from './tree-steps'
import { type Work, workOf } from './work'

/** How far the teeth stand above the wood in a through cut. */
const BLADE_CLEARANCE_MM = 6

/**
 * Plans the set-ups.
 * @throws RangeError if an index of a layout or of a need is out of range, or a part cannot be laid on the sled
 * @example planSetups({ model, layouts, boards, blanks, needs, shop: DEFAULT_SETUP_SHOP }).setups[0].title
 *   //=> 'Crosscut: sled square, stop at 614 mm'
 */
export function planSetups(input: SetupInput): SetupPlan {
  checkIndexes(input)
  const { steps, warnings, partsWithoutPiece } = stepsOf(input)
  const work = workOf(steps)
  const order = orderSteps(work, input.shop.times, input.maxStates)
  const runs = settleRuns(order.runs, work)
  const setups = runs.map((run, i) => setupOf(run, i, runs, work, input))
  const pieceByPiece = steps.map((_, i) => i)
  return {
    status: order.settings === order.bound ? 'optimal' : 'feasible',
    setups,
    stations: stationTimes(setups),
    settings: order.settings,
    settingsBound: order.bound,
    distinctSettings: order.distinct,
    settingsPieceByPiece: settingsOf(pieceByPiece, work),
    settingSeconds: order.seconds,
    cuttingSeconds: steps.reduce((sum, step) => sum + step.seconds, 0),
    warnings,
    partsWithoutPiece,
  }
}

function checkIndexes(input: SetupInput): void {
  const boardAt = (i: number): boolean => input.boards[i] !== undefined
  for (const layout of input.layouts) {
    if (!boardAt(layout.board)) throw new RangeError(`no board ${layout.board}`)
  }
  for (const need of input.needs) {
    if (input.blanks[need.blank] === undefined) throw new RangeError(`no blank ${need.blank}`)
  }
}

/** All steps, in the order of a maker who finishes every piece before the next. */
function stepsOf(input: SetupInput): StepList & { readonly partsWithoutPiece: readonly string[] } {
  const out: StepList = { steps: [], warnings: [] }
  const parts = new Map(input.model.parts.map((part) => [part.id, part]))
  const staves = stavesOf(input)
  const free = new Map<string, FreeBlank[]>()
  const copies = boardCopies(input)
  const partContext = { input, out, isStackUsed: isStackWorthIt(input) }
  const onBlank = (piece: FreeBlank['piece'], after: readonly string[]): void => {
    const part = piece.partId === undefined ? undefined : parts.get(piece.partId)
    if (part === undefined) return
    const blanks = [...(free.get(part.id) ?? []), { piece, after }]
    free.set(part.id, blanks)
    if (blanks.length === staves.get(part.id)) addPartSteps(part, blanks, partContext)
  }
  const measures = chooseMeasures(copies, input)
  for (const copy of copies) addTreeSteps(copy, { input, parts, measures, out, onBlank })
  const partsWithoutPiece = missingParts(input.model.parts, staves, free, out)
  return { ...out, partsWithoutPiece }
}

/** How many blanks a part is made of. */
function stavesOf(input: SetupInput): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const id of input.needs.flatMap((need) => need.partIds)) counts.set(id, (counts.get(id) ?? 0) + 1)
  return counts
}

function missingParts(
  parts: readonly Part[],
  staves: ReadonlyMap<string, number>,
  free: ReadonlyMap<string, readonly FreeBlank[]>,
  out: StepList,
): readonly string[] {
  const missing = parts.filter(
    (part) => (free.get(part.id)?.length ?? 0) < Math.max(1, staves.get(part.id) ?? 0),
  )
  for (const part of missing) {
    out.warnings.push({
      level: 'caution',
      code: 'noPiece',
      message: `${part.name}: the cut plan yields no piece for it, so its own cuts are not planned.`,
      key: part.id,
    })
  }
  return missing.map((part) => part.id)
}

/** Whether putting on the stack of blades, once, saves more time than the passes that it spares. */
function isStackWorthIt(input: SetupInput): boolean {
  const { shop } = input
  if (shop.tableSaw.stack === undefined) return false
  const notches = input.model.parts.flatMap((part) => part.operations.filter((op) => op.kind === 'notch'))
  const passes = (isStackUsed: boolean): number =>
    notches.reduce((sum, notch) => sum + notchPassCount(notch, input, isStackUsed), 0)
  const widths = new Set(notches.map((notch) => notchBladeMm(notch, input, true)))
  const savedSeconds = (passes(false) - passes(true)) * shop.times.notchPass
  return savedSeconds > (widths.size + 1) * shop.times.changes.blade
}

/** Pieces of most thickness go through the planer first; otherwise the order of the run, which respects waiting. */
function stepsInRun(run: Run, work: Work): readonly Step[] {
  const steps = run.steps.map((i) => work.steps[i])
  const isIndependent = steps.every((step) => !steps.some((other) => step.after.includes(other.key)))
  if (run.station !== 'planer' || !isIndependent) return steps
  return steps.toSorted((a, b) => (b.thicknessMm ?? 0) - (a.thicknessMm ?? 0))
}

function cutOf(step: Step): SetupCut {
  const {
    key,
    kind,
    pieceId,
    pieceName,
    passes,
    count,
    isToMark,
    leavesMm,
    after,
    note,
    seconds,
    tree,
    operationIds,
  } = step
  return {
    key,
    kind,
    pieceId,
    pieceName,
    passes,
    ...(count === undefined ? {} : { count }),
    ...(isToMark === true ? { isToMark } : {}),
    ...(leavesMm === undefined ? {} : { leavesMm }),
    after,
    note,
    seconds,
    ...(tree === undefined ? {} : { tree }),
    ...(operationIds === undefined ? {} : { operationIds }),
  }
}

/** The setting that the station was set for: a stop that one cut needs stands for those that do not mind it. */
function settingsOfRun(steps: readonly Step[], setFor: Step): SetupSettings {
  const merged: SetupSettings = Object.assign({}, ...steps.map((step) => step.settings), setFor.settings)
  const isThrough = steps[0].station === 'tableSaw' && merged.bladeHeightMm === undefined
  if (!isThrough) return merged
  const thickest = Math.max(...steps.map((step) => step.thicknessMm ?? 0))
  return { ...merged, bladeHeightMm: Math.ceil(thickest + BLADE_CLEARANCE_MM) }
}

/** The kind that most cuts of the run are of. */
function mainKind(steps: readonly Step[]): SetupKind {
  const counts = new Map<SetupKind, number>()
  for (const step of steps) counts.set(step.kind, (counts.get(step.kind) ?? 0) + 1)
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0]
}

const setupId = (index: number): string => `setup-${index + 1}`

function setupOf(run: Run, index: number, runs: readonly Run[], work: Work, input: SetupInput): Setup {
  const steps = stepsInRun(run, work)
  const { needs, steps: served } = work.classes[run.setFor]
  const settings = settingsOfRun(steps, work.steps[served[0]])
  const kind = mainKind(steps)
  return {
    id: setupId(index),
    station: run.station,
    kind,
    ...describeSetup(kind, settings, input.shop),
    settings,
    cuts: steps.map(cutOf),
    changes: run.isSet ? changed(run.stateBefore, needs).map((name) => CHANGE_WORDS[name]) : [],
    ...(run.isSet ? {} : { resumes: lastOfStation(run, index, runs) }),
    settingSeconds: run.settingSeconds,
    cuttingSeconds: steps.reduce((sum, step) => sum + step.seconds, 0),
  }
}

/** A run without setting goes on with its station's last set-up. */
function lastOfStation(run: Run, index: number, runs: readonly Run[]): string {
  return setupId(runs.findLastIndex((other, i) => i < index && other.station === run.station))
}

function stationTimes(setups: readonly Setup[]): readonly StationTime[] {
  const stations = [...new Set(setups.map((setup) => setup.station))]
  return stations.map((station) => {
    const here = setups.filter((setup) => setup.station === station)
    return {
      station,
      setups: here.filter((setup) => setup.resumes === undefined).length,
      seconds: here.reduce((sum, setup) => sum + setup.settingSeconds + setup.cuttingSeconds, 0),
    }
  })
}
