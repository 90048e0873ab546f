/**
 * Joins runs of one setting that other stations' work stands between. The search does whatever a machine can do as
 * soon as it can, and comes back for the rest; where nothing in between waits for the first run, it is as well made
 * later, together with the second. No setting is added or moved among those of its own station.
 */
import type { Run } from './order-steps'
import type { Work } from './work'

function waitsFor(run: Run, steps: ReadonlySet<number>, work: Work): boolean {
  return run.steps.some((i) => work.before[i].some((j) => steps.has(j)))
}

function joined(first: Run, second: Run): Run {
  return { ...first, steps: [...first.steps, ...second.steps] }
}

/** The runs, with `at` joined to the run before it of the same station, or undefined where that cannot be. */
function joinAt(runs: readonly Run[], at: number, work: Work): readonly Run[] | undefined {
  const first = runs.findLastIndex((run, i) => i < at && run.station === runs[at].station)
  if (first < 0 || runs[at].isSet) return undefined
  const between = runs.slice(first + 1, at)
  const own = new Set(runs[first].steps)
  if (between.some((run) => waitsFor(run, own, work))) return undefined
  const joint = joined(runs[first], runs[at])
  return [...runs.slice(0, first), ...between, joint, ...runs.slice(at + 1)]
}

export function settleRuns(runs: readonly Run[], work: Work): readonly Run[] {
  for (let at = 0; at < runs.length; at++) {
    const better = joinAt(runs, at, work)
    if (better !== undefined) return settleRuns(better, work)
  }
  return runs
}
