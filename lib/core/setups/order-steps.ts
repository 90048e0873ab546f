/**
 * The order of the steps that needs the fewest settings, and among those found, little setting time.
 *
 * A move sets one station for a class that no other serves; then all that any station can do as it stands is done,
 * since work without setting never hurts. A state is (steps done, class set at each station). Best-first search (A*; P. Hart,
 * N. Nilsson and B. Raphael, 1968) with the bound of settings-bound.ts on what is left, so the first finished state is
 * an optimum. A class that one setting finishes is set at once where nothing is given up by it (isSafe). A beam search
 * first makes a good order; A* proves or betters it until `maxStates` is used up, and then leaves its own bound.
 * Same input, same order. Cost: O(states x classes x steps). Proofs: docs/methods/setups.md.
 * Tests: tests/core/setups/order-steps.test.ts (brute force, random work, shuffled input).
 */
import { type MachineState, set, settingSeconds } from './machine-state'
import { ownClasses, settingsBound, visitsFrom } from './settings-bound'
import type { SetupTimes } from './setup-shop'
import type { Step } from './step'
import type { Work } from './work'

/** Steps made without setting anything between them; `isSet`: the station was set just before them. */
export interface Run {
  readonly station: Step['station']
  readonly steps: readonly number[]
  readonly isSet: boolean
  /** The class that the station is set for; its setting holds for all steps of the run. */
  readonly setFor: number
  readonly settingSeconds: number
  readonly stateBefore: MachineState
}

export interface Order {
  readonly runs: readonly Run[]
  readonly settings: number
  readonly seconds: number
  readonly bound: number
  readonly distinct: number
  readonly statesSeen: number
}

interface State {
  /** By step: how many steps it still waits for, or DONE. */
  readonly waiting: Uint16Array
  readonly ready: readonly number[]
  /** By class: steps not yet done. */
  readonly open: Uint16Array
  /** By station: the class that it is set for, or NOTHING. */
  readonly setFor: Int16Array
  /** By station: all that was ever set; only seconds depend on it. */
  readonly machines: readonly MachineState[]
  readonly doneCount: number
  readonly settings: number
  readonly seconds: number
  readonly runs: readonly Run[]
  readonly parent: State | undefined
}

interface Search {
  readonly work: Work
  readonly times: SetupTimes
  readonly own: readonly number[]
  /** By own class, then by step: see visitsFrom. */
  readonly visits: readonly Uint16Array[]
}

const DONE = 65_535
const NOTHING = -1
const BEAM = 16
const DEFAULT_MAX_STATES = 40_000

/**
 * Orders the steps for fewest settings.
 * @param maxStates states that the proof may look at; the first good order is found in any case
 * @example orderSteps(workOf([]), times).settings //=> 0
 */
export function orderSteps(work: Work, times: SetupTimes, maxStates = DEFAULT_MAX_STATES): Order {
  const { bound, distinct } = settingsBound(work)
  const own = ownClasses(work)
  const by: Search = { work, times, own, visits: own.map((c) => visitsFrom(work, c)) }
  const quick = beamSearch(by)
  if (quick.settings === bound) return orderOf(quick, bound, distinct, 0)
  const proof = bestFirst(by, quick.settings, maxStates)
  return orderOf(proof.end ?? quick, Math.max(bound, proof.bound), distinct, proof.statesSeen)
}

function orderOf(end: State, bound: number, distinct: number, statesSeen: number): Order {
  const runs: Run[] = []
  for (let s: State | undefined = end; s !== undefined; s = s.parent) runs.unshift(...s.runs)
  return { runs, settings: end.settings, seconds: end.seconds, bound, distinct, statesSeen }
}

/** Layer by layer, the best few states of each number of settings. */
function beamSearch(by: Search): State {
  for (let layer: readonly State[] = [startOf(by.work)]; ; ) {
    const finished = layer.filter((state) => isFinished(state, by.work))
    if (finished.length > 0) return finished.reduce((a, b) => (b.seconds < a.seconds ? b : a))
    const next = new Map<string, State>()
    for (const child of layer.flatMap((state) => childrenOf(state, by))) {
      const key = stateKey(child)
      const known = next.get(key)
      if (known === undefined || child.seconds < known.seconds) next.set(key, child)
    }
    layer = bestOf([...next.values()], by)
  }
}

const isFinished = (state: State, work: Work): boolean => state.doneCount === work.steps.length

/** Fewest settings still to come, then most steps done, then least time. */
function bestOf(states: readonly State[], by: Search): readonly State[] {
  const scored = states.map((state) => ({ state, left: stillToSet(state, by) }))
  scored.sort(
    (a, b) => a.left - b.left || b.state.doneCount - a.state.doneCount || a.state.seconds - b.state.seconds,
  )
  return scored.slice(0, BEAM).map((entry) => entry.state)
}

interface Proof {
  /** A finished state with fewer settings than were known. */
  readonly end: State | undefined
  /** No order has fewer settings than this. */
  readonly bound: number
  readonly statesSeen: number
}

/** States by the settings that they must end with, the lowest first and the furthest of them first. */
function bestFirst(by: Search, known: number, maxStates: number): Proof {
  const start = startOf(by.work)
  const queues: State[][] = Array.from({ length: known + 1 }, () => [])
  const fewest = new Map<string, number>([[stateKey(start), 0]])
  queues[Math.min(known, stillToSet(start, by))].push(start)
  let statesSeen = 1
  for (let total = 0; total < known; total++) {
    for (let state = queues[total].pop(); state !== undefined; state = queues[total].pop()) {
      if (isFinished(state, by.work)) return { end: state, bound: total, statesSeen }
      if (statesSeen > maxStates) return { end: undefined, bound: total, statesSeen }
      for (const child of childrenOf(state, by)) {
        statesSeen += 1
        const key = stateKey(child)
        if ((fewest.get(key) ?? Number.POSITIVE_INFINITY) <= child.settings) continue
        fewest.set(key, child.settings)
        const end = Math.max(total, child.settings + stillToSet(child, by))
        if (end < known) queues[end].push(child)
      }
    }
  }
  return { end: undefined, bound: known, statesSeen }
}

/** Settings still to come, at least: for each own class its visits on the best path from here, which add up. */
function stillToSet(state: State, by: Search): number {
  let sum = 0
  for (let k = 0; k < by.own.length; k++) {
    const c = by.own[k]
    if (state.open[c] === 0) continue
    const visits = by.visits[k]
    let most = 0
    for (const step of state.ready) if (visits[step] > most) most = visits[step]
    const isSet = state.setFor[by.work.classes[c].station] === c
    sum += (most + (isSet ? 0 : 1)) >> 1
  }
  return sum
}

function startOf(work: Work): State {
  const waiting = Uint16Array.from(work.before, (list) => list.length)
  return {
    waiting,
    ready: [...waiting.keys()].filter((step) => waiting[step] === 0),
    open: Uint16Array.from(work.classes, (c) => c.steps.length),
    setFor: new Int16Array(work.stations.length).fill(NOTHING),
    machines: work.stations.map(() => ({})),
    doneCount: 0,
    settings: 0,
    seconds: 0,
    runs: [],
    parent: undefined,
  }
}

/** Steps done, sixteen to a character, and what each station is set for. */
function stateKey(state: State): string {
  const codes: number[] = Array.from(state.setFor, (c) => c + 1)
  for (let from = 0; from < state.waiting.length; from += 16) {
    let bits = 0
    for (let i = from; i < Math.min(from + 16, state.waiting.length); i++) {
      bits = bits * 2 + (state.waiting[i] === DONE ? 1 : 0)
    }
    codes.push(bits)
  }
  return String.fromCharCode(...codes)
}

function childrenOf(state: State, by: Search): readonly State[] {
  const waiting = new Set(state.ready.map((step) => by.work.classOf[step]))
  const moves = by.own.filter((c) => [...waiting].some((d) => by.work.serves[c][d]))
  const children: State[] = []
  let safe: State | undefined
  for (const moved of moves) {
    const child = move(state, moved, by)
    if (!isSafe(state, child, moved, by.work)) children.push(child)
    else if (safe === undefined || child.seconds < safe.seconds) safe = child
  }
  return safe === undefined ? children : [safe]
}

/**
 * A class that one setting finishes and that serves no other unfinished one, on a station that has nothing left to do
 * as it stands: it must be set once at some time, and to set it now gives nothing up.
 */
function isSafe(state: State, child: State, moved: number, work: Work): boolean {
  const { station } = work.classes[moved]
  const present = state.setFor[station]
  if (child.open[moved] > 0) return false
  return work.classes.every((c, d) => {
    if (c.station !== station || d === moved) return true
    if (child.open[d] === 0) return true
    return !work.serves[moved][d] && (present === NOTHING || !work.serves[present][d])
  })
}

function move(state: State, moved: number, { work, times }: Search): State {
  const { station, needs } = work.classes[moved]
  const before = state.machines[station]
  const seconds = settingSeconds(before, needs, times)
  const machines = state.machines.with(station, set(before, needs))
  const setFor = state.setFor.slice()
  setFor[station] = moved
  const draft = { waiting: state.waiting.slice(), open: state.open.slice(), ready: [...state.ready] }
  const runs = doAllThatFits(draft, setFor, station, work).map(
    (steps, i): Run => ({
      station: work.steps[steps[0]].station,
      steps,
      isSet: i === 0,
      setFor: setFor[work.classes[work.classOf[steps[0]]].station],
      settingSeconds: i === 0 ? seconds : 0,
      stateBefore: before,
    }),
  )
  return {
    ...draft,
    setFor,
    machines,
    doneCount: state.doneCount + runs.reduce((sum, run) => sum + run.steps.length, 0),
    settings: state.settings + 1,
    seconds: state.seconds + seconds,
    runs,
    parent: state,
  }
}

interface Draft {
  readonly waiting: Uint16Array
  readonly open: Uint16Array
  ready: number[]
}

/** Does, station by station beginning with `first`, whatever the stations can do as they stand. */
function doAllThatFits(draft: Draft, setFor: Int16Array, first: number, work: Work): number[][] {
  const runs: number[][] = []
  const stations = [first, ...[...work.stations.keys()].filter((s) => s !== first)]
  for (let isMoving = true; isMoving; ) {
    isMoving = false
    for (const station of stations) {
      const steps = doAtStation(draft, setFor[station], work)
      if (steps.length === 0) continue
      isMoving = true
      runs.push(steps)
    }
  }
  return runs
}

function doAtStation(draft: Draft, setFor: number, work: Work): number[] {
  if (setFor === NOTHING) return []
  const isServed = work.serves[setFor]
  const made: number[] = []
  const left: number[] = []
  const queue = draft.ready
  for (const step of queue) {
    if (!isServed[work.classOf[step]]) {
      left.push(step)
      continue
    }
    made.push(step)
    draft.waiting[step] = DONE
    draft.open[work.classOf[step]] -= 1
    for (const next of work.following[step]) {
      draft.waiting[next] -= 1
      if (draft.waiting[next] === 0) queue.push(next)
    }
  }
  draft.ready = left
  return made
}

/**
 * Settings that a given order of all steps needs, for comparison: a machine is set when no class serves the step together
 * with all those since it was last set.
 * @throws RangeError if a step comes too early
 */
export function settingsOf(order: readonly number[], work: Work): number {
  const own = ownClasses(work)
  const candidates: (readonly number[])[] = work.stations.map(() => [])
  const done = new Set<number>()
  let settings = 0
  for (const step of order) {
    if (!work.before[step].every((j) => done.has(j))) {
      throw new RangeError(`${work.steps[step].key} comes before what it waits for`)
    }
    done.add(step)
    const c = work.classOf[step]
    const { station } = work.classes[c]
    const still = candidates[station].filter((d) => work.serves[d][c])
    if (still.length === 0) settings += 1
    candidates[station] = still.length === 0 ? own.filter((d) => work.serves[d][c]) : still
  }
  return settings
}
