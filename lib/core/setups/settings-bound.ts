/**
 * How few settings any order of the steps can need. Take classes of steps no two of which one state of a machine can
 * serve: each must be entered by a setting of its own. And where a path of waiting steps goes from such a class to one
 * that clashes with it on the same machine and back again, once more for every return. A setting enters at most one
 * class of the family, so the entries add up to a true bound. Classes of one machine that wait for each other in a
 * ring need one entry more between them; rings without a common class add up (a packing of the feedback vertex set).
 * In: work. Out: whole numbers. Cost: steps squared + classes squared x rings.
 * Tests: tests/core/setups/order-steps.test.ts.
 */
import { clash, type Work } from './work'

/** Two classes that one machine can never serve at once; different machines never clash, but count apart. */
function isApart(work: Work, a: number, b: number): boolean {
  const [first, second] = [work.classes[a], work.classes[b]]
  return first.station !== second.station || clash(first.needs, second.needs)
}

/** Classes pairwise apart, greedily from those that clash most; a pencil-mark cut, which any stop serves, comes last. */
export function apartClasses(work: Work): readonly number[] {
  const all = work.classes.map((_, i) => i).filter((i) => Object.keys(work.classes[i].needs).length > 0)
  const clashes = all.map((a) =>
    all.reduce((count, b) => count + (a !== b && isApart(work, a, b) ? 1 : 0), 0),
  )
  const order = all.map((_, k) => k).sort((j, k) => clashes[k] - clashes[j] || j - k)
  const family: number[] = []
  for (const k of order) if (family.every((b) => isApart(work, all[k], b))) family.push(all[k])
  return family
}

/** Most settings of a class along one path of waiting steps: 1, and 1 more for each return from a clashing class. */
function entries(work: Work, own: number): number {
  const { station, needs } = work.classes[own]
  const isClashing = work.classes.map((c) => c.station === station && clash(c.needs, needs))
  const score = new Array<number>(work.steps.length).fill(0)
  let most = 0
  for (const step of work.topological) {
    const came = work.before[step].reduce((best, j) => Math.max(best, score[j]), 0)
    score[step] = scoreAfter(came, work.classOf[step] === own, isClashing[work.classOf[step]])
    most = Math.max(most, score[step])
  }
  return Math.ceil(most / 2)
}

/** 2n - 1: set n times and still set; 2n: set n times and disturbed since. */
function scoreAfter(came: number, isOwn: boolean, isClashing: boolean): number {
  const isStillSet = came % 2 === 1
  if (isOwn) return isStillSet ? came : came + 1
  return isClashing && isStillSet ? came + 1 : came
}

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

/** For each class of the family, those of its station that must have work done before some of its own. */
function classGraph(work: Work, family: readonly number[]): ReadonlyMap<number, ReadonlySet<number>> {
  const earlier = ancestors(work)
  const waitsFor = (a: number, b: number): boolean =>
    work.classes[a].steps.some((i) => work.classes[b].steps.some((j) => earlier[i][j] === 1))
  return new Map(
    family.map((a) => {
      const sameStation = family.filter((b) => b !== a && work.classes[b].station === work.classes[a].station)
      return [a, new Set(sameStation.filter((b) => waitsFor(a, b)))]
    }),
  )
}

/** A shortest ring of classes that wait for each other, through `from`. */
function ringThrough(
  from: number,
  graph: ReadonlyMap<number, ReadonlySet<number>>,
  alive: ReadonlySet<number>,
): readonly number[] | undefined {
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

/**
 * Rings of classes that wait for each other, no class in two of them: where each were set once only, none of a ring
 * could be the first. So each ring costs one setting more.
 */
function disjointRings(graph: ReadonlyMap<number, ReadonlySet<number>>): number {
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
  const family = apartClasses(work)
  const counts = family.map((c) => entries(work, c))
  const setOnce = family.filter((_, k) => counts[k] === 1)
  const rings = disjointRings(classGraph(work, setOnce))
  return { distinct: family.length, bound: counts.reduce((sum, n) => sum + n, 0) + rings }
}
