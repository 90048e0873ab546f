/**
 * How few settings any order of the steps can need. Take classes of steps none of which another class serves: each must
 * be set by itself. Where a path of waiting steps goes from such a class to another one of its station and back again,
 * it must be set once more for every return. One setting sets one class, so the counts add up to a true bound. Classes
 * of one station that wait for each other in a ring need one setting more between them; rings without a common
 * class add up too (a packing of rings, against the feedback vertex set).
 * In: work. Out: whole numbers. Cost: steps squared + classes squared x rings.
 * Tests: tests/core/setups/order-steps.test.ts.
 */
import type { Work } from './work'

/** Classes that no other class serves. A pencil-mark cut at an angle that some stop cut has as well is not one. */
export function ownClasses(work: Work): readonly number[] {
  return work.classes.flatMap((_, c) => (work.serves.some((row, d) => d !== c && row[c]) ? [] : [c]))
}

/**
 * For one class and each step: how often the class is set along the best path of waiting steps that begins there.
 * 2n - 1: n times, and the path comes to it before another class of its station; 2n: n times, after another one.
 */
export function visitsFrom(work: Work, own: number): Uint16Array {
  const { station } = work.classes[own]
  const disturbs = work.classes.map((c, index) => c.station === station && !work.serves[own][index])
  const score = new Uint16Array(work.steps.length)
  for (const step of work.topological.toReversed()) {
    const beyond = work.following[step].reduce((best, j) => Math.max(best, score[j]), 0)
    const isFirst = beyond % 2 === 1
    const c = work.classOf[step]
    score[step] = c === own ? beyond + (isFirst ? 0 : 1) : beyond + (disturbs[c] && isFirst ? 1 : 0)
  }
  return score
}

/** Most settings of a class along one path of waiting steps: 1, and 1 more for each return. */
const entries = (work: Work, own: number): number => Math.ceil(Math.max(0, ...visitsFrom(work, own)) / 2)

/** For each step, whether each other one must come before it. */
function ancestors(work: Work): readonly Uint8Array[] {
  const earlier = work.steps.map(() => new Uint8Array(work.steps.length))
  for (const step of work.topological) {
    for (const j of work.before[step]) {
      earlier[step][j] = 1
      for (let i = 0; i < earlier[j].length; i++) earlier[step][i] |= earlier[j][i]
    }
  }
  return earlier
}

type Graph = ReadonlyMap<number, ReadonlySet<number>>

/** For each of these classes, those of its station that must have work done before some of its own. */
function waitingClasses(work: Work, classes: readonly number[]): Graph {
  const earlier = ancestors(work)
  const waits = (a: number, b: number): boolean =>
    work.classes[a].steps.some((i) => work.classes[b].steps.some((j) => earlier[i][j] === 1))
  const rivals = (a: number): readonly number[] =>
    classes.filter((b) => b !== a && work.classes[b].station === work.classes[a].station)
  return new Map(classes.map((a) => [a, new Set(rivals(a).filter((b) => waits(a, b)))]))
}

/** A shortest ring of classes that wait for each other, through `from`. */
function ringThrough(from: number, graph: Graph, alive: ReadonlySet<number>): readonly number[] | undefined {
  const cameFrom = new Map<number, number>()
  const queue = [from]
  for (const at of queue) {
    for (const next of graph.get(at) ?? []) {
      if (next === from) return pathBack(at, from, cameFrom)
      if (!alive.has(next) || cameFrom.has(next)) continue
      cameFrom.set(next, at)
      queue.push(next)
    }
  }
  return undefined
}

function pathBack(end: number, from: number, cameFrom: ReadonlyMap<number, number>): readonly number[] {
  const path = [end]
  for (let at = end; at !== from; ) {
    at = cameFrom.get(at) ?? from
    path.push(at)
  }
  return path
}

/** Rings without a common class, shortest first. In each, whichever class is set first must be set again. */
function disjointRings(graph: Graph): number {
  const alive = new Set(graph.keys())
  for (let rings = 0; ; rings++) {
    const found = [...alive].flatMap((from) => {
      const ring = ringThrough(from, graph, alive)
      return ring === undefined ? [] : [ring]
    })
    if (found.length === 0) return rings
    for (const c of found.reduce((best, ring) => (ring.length < best.length ? ring : best))) alive.delete(c)
  }
}

/**
 * Number of settings that differ from each other, and the bound.
 * @example settingsBound(workOf([])) //=> { distinct: 0, bound: 0 }
 */
export function settingsBound(work: Work): { readonly distinct: number; readonly bound: number } {
  const own = ownClasses(work)
  const counts = own.map((c) => entries(work, c))
  const setOnce = own.filter((_, k) => counts[k] === 1)
  const rings = disjointRings(waitingClasses(work, setOnce))
  return { distinct: own.length, bound: counts.reduce((sum, n) => sum + n, 0) + rings }
}
