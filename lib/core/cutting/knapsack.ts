/**
 * The pricing step of one-dimensional cutting: which parts, each at most so often, are worth most within a length; and
 * every choice that is worth at least so much.
 * The best choice by lists of states (state-lists.ts), a good one or every one depth-first (Horowitz and Sahni 1974),
 * both cut by what the parts not looked at yet could add (part-bounds.ts).
 * In: sizes, copies, values. Out: choices, upper bound; where a search is cut short only the bound is exact.
 * Tests: tests/core/cutting/knapsack.test.ts
 */
import { PartBounds } from './part-bounds'
import { type End, StateLists } from './state-lists'

export interface Packed {
  readonly value: number
  /** No choice is worth more than this. */
  readonly bound: number
  readonly items: Int32Array
  readonly counts: Int32Array
}

/** Cells of the bounds' table, and states of the lists, at most. */
const MOST_CELLS = 512
const MOST_STATES = 1_000_000
const EPS = 1e-10

export class Knapsack {
  private readonly parts: PartBounds
  private readonly states = new StateLists()

  /**
   * @param sizes whole grid units
   * @param limit the longest length asked for
   * @param mostCells more make the bounds sharper and loading slower
   */
  constructor(sizes: Int32Array, limit: number, mostCells = MOST_CELLS) {
    this.parts = new PartBounds(sizes, limit, mostCells)
  }

  /** Prepares for these values (those at 0 or below are left out) and copies. */
  load(values: ArrayLike<number>, copies: ArrayLike<number>): void {
    this.parts.load(values, copies)
  }

  /**
   * The most valuable choice within a length up to the limit.
   * @param floor choices worth no more are of no interest: then nothing may be found, and the bound is the floor
   */
  bestWithin(length: number, floor = 0): Packed {
    return this.manyWithin(length, floor, 1)[0]
  }

  /** The most valuable choice first, then the best ones that end with other parts; all but the first above the floor. */
  manyWithin(length: number, floor: number, most: number): Packed[] {
    const { states, parts } = this
    const ends: End[] = []
    let best: End = { state: 0, value: 0 }
    let bound = 0
    states.start(length)
    for (let k = 0; k < parts.n; k++) {
      if (states.used > MOST_STATES) {
        bound = states.upper(parts, k)
        break
      }
      const nothing = { state: -1, value: most > 1 ? floor : Math.max(floor, best.value) }
      let end: End = nothing
      // Any number of copies is a sum of 1, 2, 4, ... and a last one.
      let left = Math.min(parts.copies[k], Math.floor(length / parts.size[k]))
      for (let piece = 1; left > 0; piece *= 2) {
        const take = Math.min(piece, left)
        left -= take
        end = states.extend(parts, k, take, end)
        if (end !== nothing && end.value > best.value) best = end
        states.merge(parts, left > 0 ? k : k + 1, Math.max(floor, best.value) + EPS)
      }
      if (end !== nothing) ends.push(end)
    }
    bound = Math.max(best.value, floor, bound) + EPS
    const others = ends
      .filter((e) => e.state !== best.state && e.value > floor + 1e-9)
      .sort((a, b) => b.value - a.value)
    return [best, ...others.slice(0, most - 1)].map((e) => this.packed(e, bound))
  }

  private packed(end: End, bound: number): Packed {
    const counts = new Map<number, number>()
    for (const { part, copies } of this.states.pathTo(end.state)) {
      const i = this.parts.item[part]
      counts.set(i, (counts.get(i) ?? 0) + copies)
    }
    return {
      value: end.value,
      bound,
      items: Int32Array.from(counts.keys()),
      counts: Int32Array.from(counts.values()),
    }
  }

  /** A very good choice within a length, soon: the best, or what a depth-first search of so many nodes found. */
  goodWithin(length: number, mostNodes: number): Packed {
    const bound = this.parts.upper(0, length)
    let best: Packed = { value: 0, bound, items: new Int32Array(0), counts: new Int32Array(0) }
    this.eachWithin(length, EPS, mostNodes, (items, counts, value) => {
      best = { value, bound, items, counts }
      return value + EPS
    })
    return best
  }

  /**
   * Goes through the choices worth at least `floor`, each once.
   * @param onChoice hears what is left of the length; answers with the floor from then on
   * @returns false where so many nodes did not do
   */
  eachWithin(
    length: number,
    floor: number,
    mostNodes: number,
    onChoice: (items: Int32Array, counts: Int32Array, value: number, room: number) => number,
  ): boolean {
    const { parts } = this
    const path: { readonly item: number; readonly count: number }[] = []
    let nodes = mostNodes
    let least = floor
    const visit = (from: number, room: number, worth: number): void => {
      if (path.length > 0 && worth >= least) {
        const items = Int32Array.from(path, (p) => p.item)
        least = onChoice(
          items,
          Int32Array.from(path, (p) => p.count),
          worth,
          room,
        )
      }
      for (let k = from; k < parts.n && nodes > 0; k++) {
        if (worth + parts.upper(k, room) < least) return
        for (let count = parts.fits(k, room); count > 0; count--) {
          const rest = room - count * parts.size[k]
          const value = worth + count * parts.value[k]
          if (value + parts.upper(k + 1, rest) < least) continue
          if (--nodes <= 0) return
          path.push({ item: parts.item[k], count })
          visit(k + 1, rest, value)
          path.pop()
        }
      }
    }
    visit(0, length, 0)
    return nodes > 0
  }
}
