/**
 * The order of the steps that needs the fewest settings, then the least setting time.
 *
 * A move sets one station for one class of waiting steps; then everything that any station can do as it stands is
 * done, since work without setting never hurts. So a state is (steps done, state of each station), and layer k holds
 * the states that k settings reach, the cheapest in seconds kept of equal ones. Unless a layer is cut to its best
 * few, the first layer with all the work done is the optimum (dynamic programming over the down-sets of the order of
 * precedence, as M. Held and R. Karp, 1962, for sequences). A beam search finds a good order first; where it misses
 * the bound of settings-bound.ts, the full search proves or betters it, dropping states that cannot, until
 * `maxStates` is used up. Same input, same order. Cost: O(states x classes x steps).
 * Tests: tests/core/setups/order-steps.test.ts (brute force, random work, shuffled input).
 */
import { fits, type MachineState, needsKey, set, settingSeconds } from './machine-state'
import { apartClasses, settingsBound } from './settings-bound'
import type { SetupTimes } from './setup-shop'
import type { Step } from './step'
import { isServedBy, type Work } from './work'

/** Steps made without setting anything between them; `isSet`: the station was set just before them. */
export interface Run {
  readonly station: Step['station']
  readonly steps: readonly number[]
  readonly isSet: boolean
  readonly settingSeconds: number
  readonly stateBefore: MachineState
}

export interface Order {
  readonly runs: readonly Run[]
  readonly settings: number
  readonly seconds: number
  readonly bound: number
  readonly distinct: number
  readonly isProven: boolean
  readonly statesSeen: number
}

interface State {
  readonly done: Uint8Array
  readonly doneCount: number
  readonly machines: readonly MachineState[]
  readonly settings: number
  readonly seconds: number
  readonly runs: readonly Run[]
  readonly parent: State | undefined
}

interface Search {
  readonly work: Work
  readonly times: SetupTimes
  readonly family: readonly number[]
  readonly maxStates: number
  /** States kept of a layer; infinite: all, and no shortcut is taken. */
  readonly beam: number
  /** States that must end above this many settings are dropped. */
  readonly ceiling: number
}

interface Found {
  readonly end: State | undefined
  readonly isOutOfBudget: boolean
  readonly statesSeen: number
}

const BEAM = 16
/** Up to so many classes, all orders of fewest settings are compared for their seconds as well. */
const FEW_CLASSES = 12
const DEFAULT_MAX_STATES = 20_000

/**
 * Orders the steps for fewest settings.
 * @param maxStates states that the proof may look at; the first good order is found in any case
 * @example orderSteps(workOf([]), times).settings //=> 0
 */
export function orderSteps(work: Work, timesOfShop: SetupTimes, maxStates = DEFAULT_MAX_STATES): Order {
  const { bound, distinct } = settingsBound(work)
  const common = { work, times: timesOfShop, family: apartClasses(work), maxStates }
  const quick = search({ ...common, beam: BEAM, ceiling: Number.POSITIVE_INFINITY })
  const settings = quick.end?.settings ?? 0
  const isFew = work.classes.length <= FEW_CLASSES
  if (settings === bound && !isFew) return answer(quick, quick.statesSeen, bound, distinct, true)
  const ceiling = isFew ? settings : settings - 1
  const full = search({ ...common, beam: Number.POSITIVE_INFINITY, ceiling })
  const statesSeen = quick.statesSeen + full.statesSeen
  const isProven = !full.isOutOfBudget || settings === bound
  return answer(full.end === undefined ? quick : full, statesSeen, bound, distinct, isProven)
}

function answer(found: Found, statesSeen: number, bound: number, distinct: number, isProven: boolean): Order {
  const { end } = found
  if (end === undefined) throw new Error('the search of an order ended without one')
  const runs: Run[] = []
  for (let s: State | undefined = end; s !== undefined; s = s.parent) runs.unshift(...s.runs)
  return { runs, settings: end.settings, seconds: end.seconds, bound, distinct, isProven, statesSeen }
}

function search(by: Search): Found {
  const isExact = by.beam === Number.POSITIVE_INFINITY
  let layer: readonly State[] = [startOf(by.work)]
  let statesSeen = 1
  while (layer.length > 0) {
    const finished = layer.filter((state) => state.doneCount === by.work.steps.length)
    if (finished.length > 0) {
      const end = finished.reduce((a, b) => (b.seconds < a.seconds ? b : a))
      return { end, isOutOfBudget: false, statesSeen }
    }
    const next = new Map<string, State>()
    for (const state of layer) {
      const children = childrenOf(state, by, isExact)
      statesSeen += children.length
      if (isExact && statesSeen > by.maxStates) return { end: undefined, isOutOfBudget: true, statesSeen }
      for (const child of children) keepCheapest(next, child)
    }
    const hopeful = [...next.values()].filter((state) => state.settings + stillToSet(state, by) <= by.ceiling)
    layer = isExact ? hopeful : bestOf(hopeful, by)
  }
  return { end: undefined, isOutOfBudget: false, statesSeen }
}

function keepCheapest(states: Map<string, State>, state: State): void {
  const key = stateKey(state)
  const known = states.get(key)
  if (known === undefined || state.seconds < known.seconds) states.set(key, state)
}

/** Classes of the family that have work left and do not fit their machine as it stands: one setting each, at least. */
const stillToSet = (state: State, by: Search): number =>
  by.family.reduce((count, index) => {
    const { station, needs, steps } = by.work.classes[index]
    return count + (!fits(state.machines[station], needs) && steps.some((i) => state.done[i] === 0) ? 1 : 0)
  }, 0)

function startOf(work: Work): State {
  const machines = work.stations.map(() => ({}))
  return {
    done: new Uint8Array(work.steps.length),
    doneCount: 0,
    machines,
    settings: 0,
    seconds: 0,
    runs: [],
    parent: undefined,
  }
}

function stateKey(state: State): string {
  return `${String.fromCharCode(...state.done)}|${state.machines.map(needsKey).join('|')}`
}

/** Fewest settings still to come, then most steps done, then least time. */
function bestOf(states: readonly State[], by: Search): readonly State[] {
  if (states.length <= by.beam) return states
  const scored = states.map((state) => ({ state, open: stillToSet(state, by) }))
  scored.sort(
    (a, b) => a.open - b.open || b.state.doneCount - a.state.doneCount || a.state.seconds - b.state.seconds,
  )
  return scored.slice(0, by.beam).map((entry) => entry.state)
}

function isReady(step: number, done: Uint8Array, work: Work): boolean {
  return done[step] === 0 && work.before[step].every((j) => done[j] === 1)
}

function childrenOf(state: State, { work, times }: Search, isExact: boolean): readonly State[] {
  const moves = work.classes.flatMap((c, index) => {
    if (fits(state.machines[c.station], c.needs)) return []
    return c.steps.some((i) => isReady(i, state.done, work)) ? [index] : []
  })
  const children = moves.map((index) => move(state, index, work, times))
  if (isExact) return children
  const safe = children.filter((child, k) => isSafe(state, child, moves[k], work))
  if (safe.length === 0) return children
  return [safe.reduce((a, b) => (b.seconds < a.seconds ? b : a))]
}

/**
 * A class that is done with once it is set now, on a station whose present setting is done with, may as well be set
 * now: it must be set once at some time, and nothing that stands is given up.
 */
function isSafe(state: State, child: State, moved: number, work: Work): boolean {
  const { station, needs, steps } = work.classes[moved]
  if (steps.some((i) => child.done[i] === 0)) return false
  return work.classes.every((c, index) => {
    if (c.station !== station || index === moved) return true
    const isOpen = c.steps.some((i) => child.done[i] === 0)
    return !isOpen || (!fits(state.machines[station], c.needs) && !isServedBy(needs, c.needs))
  })
}

function move(state: State, moved: number, work: Work, timesOfShop: SetupTimes): State {
  const { station, needs } = work.classes[moved]
  const before = state.machines[station]
  const seconds = settingSeconds(before, needs, timesOfShop)
  const machines = state.machines.with(station, set(before, needs))
  const done = state.done.slice()
  const runs = doAllThatFits(done, machines, station, work).map((run, i) =>
    i === 0 ? { ...run, isSet: true, settingSeconds: seconds, stateBefore: before } : run,
  )
  const doneCount = state.doneCount + runs.reduce((sum, run) => sum + run.steps.length, 0)
  return {
    done,
    doneCount,
    machines,
    settings: state.settings + 1,
    seconds: state.seconds + seconds,
    runs,
    parent: state,
  }
}

/** Marks as done, station by station beginning with `first`, whatever the stations can do as they stand. */
function doAllThatFits(
  done: Uint8Array,
  machines: readonly MachineState[],
  first: number,
  work: Work,
): Run[] {
  const runs: Run[] = []
  const stations = [first, ...work.stations.map((_, s) => s).filter((s) => s !== first)]
  for (let isMoving = true; isMoving; ) {
    isMoving = false
    for (const station of stations) {
      const steps = doAtStation(done, machines[station], station, work)
      if (steps.length === 0) continue
      isMoving = true
      runs.push({
        station: work.stations[station],
        steps,
        isSet: false,
        settingSeconds: 0,
        stateBefore: machines[station],
      })
    }
  }
  return runs
}

function doAtStation(
  done: Uint8Array,
  machine: MachineState,
  station: number,
  work: Work,
): readonly number[] {
  const made: number[] = []
  const isHere = work.classes.map((c) => c.station === station && fits(machine, c.needs))
  const open = work.topological.filter((step) => isHere[work.classOf[step]])
  for (const step of open) {
    if (!isReady(step, done, work)) continue
    done[step] = 1
    made.push(step)
  }
  return made
}

/** Settings and seconds of a given order of all steps, for comparison. @throws RangeError if a step comes too early */
export function settingsOf(
  order: readonly number[],
  work: Work,
  timesOfShop: SetupTimes,
): { readonly settings: number; readonly seconds: number } {
  const machines: MachineState[] = work.stations.map(() => ({}))
  const done = new Uint8Array(work.steps.length)
  let settings = 0
  let seconds = 0
  for (const step of order) {
    if (!isReady(step, done, work))
      throw new RangeError(`${work.steps[step].key} comes before what it waits for`)
    done[step] = 1
    const { station, needs } = work.classes[work.classOf[step]]
    if (fits(machines[station], needs)) continue
    settings += 1
    seconds += settingSeconds(machines[station], needs, timesOfShop)
    machines[station] = set(machines[station], needs)
  }
  return { settings, seconds }
}
