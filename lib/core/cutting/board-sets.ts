/**
 * Sets of boards that cost less than the best plan and still have wood enough: the roomiest first. Few boards: every
 * set is looked at; many: the used boards with one or two exchanged.
 * In: Prepared, what is used now. Out: counts of each class. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Prepared } from './prepared'

const MOST_ENUMERATED = 14
const MOST_SETS = 6

interface Candidate {
  readonly counts: number[]
  readonly area: number
}

/** Every sub-multiset of at most 2^14. */
function enumerate(prep: Prepared, usable: Float64Array, cost: number, need: number): Candidate[] | null {
  const singles: number[] = []
  for (const c of prep.classes) {
    const most = Math.min(c.count, Math.ceil(need / Math.max(1, usable[c.index])))
    for (let k = 0; k < most; k++) {
      singles.push(c.index)
      if (singles.length > MOST_ENUMERATED) return null
    }
  }
  const sets = new Map<string, Candidate>()
  for (let bits = 1; bits < 1 << singles.length; bits++) {
    let spent = 0
    let area = 0
    for (let k = 0; k < singles.length; k++) {
      if (((bits >> k) & 1) === 0) continue
      spent += prep.classes[singles[k]].cost
      area += usable[singles[k]]
    }
    if (spent >= cost * (1 - 1e-12) || area < need) continue
    const counts = prep.classes.map(() => 0)
    for (let k = 0; k < singles.length; k++) if ((bits >> k) & 1) counts[singles[k]]++
    sets.set(counts.join(), { counts, area })
  }
  return [...sets.values()]
}

/** The used boards, some left out, others put in while money is left. */
function exchange(
  prep: Prepared,
  usable: Float64Array,
  used: readonly number[],
  cost: number,
  rng: Rng,
): Candidate {
  const counts = [...used]
  const have = counts.flatMap((n, c) => (n > 0 ? [c] : []))
  const out = 1 + rng.below(Math.min(3, have.length))
  for (let k = 0; k < out; k++) {
    const c = have[rng.below(have.length)]
    if (counts[c] > 0) counts[c]--
  }
  let spent = 0
  let area = 0
  counts.forEach((n, c) => {
    spent += n * prep.classes[c].cost
    area += n * usable[c]
  })
  for (let tries = 0; tries < 60; tries++) {
    const c = rng.below(prep.classes.length)
    const cls = prep.classes[c]
    if (counts[c] >= cls.count || spent + cls.cost >= cost * (1 - 1e-12)) continue
    counts[c]++
    spent += cls.cost
    area += usable[c]
  }
  return { counts, area }
}

/**
 * @param used how many of each class the best plan uses
 * @param cost what it costs
 * @param need shifted area of all parts
 */
export function cheaperSets(
  prep: Prepared,
  usable: Float64Array,
  used: readonly number[],
  cost: number,
  need: number,
  rng: Rng,
): number[][] {
  let sets = enumerate(prep, usable, cost, need)
  if (sets === null) {
    sets = []
    for (let k = 0; k < 40; k++) {
      const set = exchange(prep, usable, used, cost, rng)
      if (set.area >= need) sets.push(set)
    }
  }
  // Roomiest first, with a little chance so that the next call sees others.
  const key = new Map(sets.map((s) => [s, s.area * (1 + 0.03 * rng.next())]))
  sets.sort((a, b) => (key.get(b) as number) - (key.get(a) as number))
  return sets.slice(0, MOST_SETS).map((s) => s.counts)
}
