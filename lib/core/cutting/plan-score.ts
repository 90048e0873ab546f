/**
 * What a plan is worth in the search: weight made, then what its boards cost, then how well its rests are gathered.
 * In: Prepared, boards in use. Out: Plan with its score and what it lacks. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Prepared } from './prepared'
import { countParts, restWorth, type Section, type Used } from './section'

export interface Score {
  readonly weight: number
  readonly cost: number
  /** Gathers the rests, so that missing parts find room. */
  readonly pull: number
}

export interface Plan {
  readonly used: readonly Used[]
  readonly missing: Int32Array
  readonly score: Score
}

/** Above 0: a is better. */
export function compare(a: Score, b: Score): number {
  const tiny = 1e-9 * Math.max(1, Math.abs(a.weight), Math.abs(b.weight))
  if (Math.abs(a.weight - b.weight) > tiny) return a.weight - b.weight
  if (Math.abs(a.cost - b.cost) > 1e-9 * Math.max(1, a.cost, b.cost)) return b.cost - a.cost
  return a.pull - b.pull
}

/** @param reach how many of each blank are wanted at most */
export function planOf(prep: Prepared, reach: Int32Array, used: readonly Used[]): Plan {
  const missing = reach.slice()
  let cost = 0
  let pull = 0
  for (const u of used) {
    countParts(u.root, missing, -1)
    cost += prep.classes[u.cls].cost
    pull += u.root.pull
  }
  let weight = 0
  for (let i = 0; i < prep.n; i++) weight += (reach[i] - missing[i]) * prep.weight[i]
  return { used, missing, score: { weight, cost, pull } }
}

/** Offcuts worth keeping, of all boards. */
export function worthOf(prep: Prepared, used: readonly Used[]): number {
  let worth = 0
  const stack: Section[] = used.map((u) => u.root)
  for (let s = stack.pop(); s !== undefined; s = stack.pop()) {
    if (s.first !== null && s.second !== null) stack.push(s.first, s.second)
    else if (s.block === null) worth += restWorth(prep, s.w, s.h)
  }
  return worth
}
