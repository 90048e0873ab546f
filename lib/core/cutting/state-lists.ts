/**
 * Undominated (length, value) states of a knapsack, piece after piece, in the order of length (Nemhauser and Ullmann
 * 1969; Pisinger 1997). Its arrays are kept between calls.
 * In: pieces, bounds. Out: the best state, and how it is made. Tests: tests/core/cutting/knapsack.test.ts
 */
import type { PartBounds } from './part-bounds'

export interface End {
  readonly state: number
  readonly value: number
}

const FIRST_STATES = 1 << 12

export class StateLists {
  used = 0
  private length = 0
  private size = new Float64Array(FIRST_STATES)
  private value = new Float64Array(FIRST_STATES)
  private parent = new Int32Array(FIRST_STATES)
  private part = new Int32Array(FIRST_STATES)
  private copies = new Int32Array(FIRST_STATES)
  /** The states that may still grow, and room for the next such list. */
  private front = new Int32Array(FIRST_STATES)
  private other = new Int32Array(FIRST_STATES)
  private live = 0
  private madeFrom = 0

  start(length: number): void {
    this.length = length
    this.used = 1
    this.parent[0] = -1
    this.front[0] = 0
    this.live = 1
  }

  private grow(): void {
    const to = this.size.length * 2
    const longer = <T extends Float64Array | Int32Array>(from: T, into: T): T => {
      into.set(from)
      return into
    }
    this.size = longer(this.size, new Float64Array(to))
    this.value = longer(this.value, new Float64Array(to))
    this.parent = longer(this.parent, new Int32Array(to))
    this.part = longer(this.part, new Int32Array(to))
    this.copies = longer(this.copies, new Int32Array(to))
    this.front = longer(this.front, new Int32Array(to))
    this.other = longer(this.other, new Int32Array(to))
  }

  /** Adds so many copies of a part to every state of the front. @returns the best made, or `end` where that is better */
  extend(parts: PartBounds, k: number, copies: number, end: End): End {
    const pieceSize = parts.size[k] * copies
    const pieceValue = parts.value[k] * copies
    let state = -1
    let best = end.value
    while (this.used + this.live > this.size.length) this.grow()
    const { size, value, parent, front, length } = this
    this.madeFrom = this.used
    for (let f = 0; f < this.live; f++) {
      const from = front[f]
      const s = size[from] + pieceSize
      if (s > length) break
      const t = this.used++
      size[t] = s
      value[t] = value[from] + pieceValue
      parent[t] = from
      this.part[t] = k
      this.copies[t] = copies
      if (value[t] > best + 1e-12) {
        best = value[t]
        state = t
      }
    }
    return state < 0 ? end : { state, value: best }
  }

  /** The front and what was made of it as one front, without what is beaten or cannot pass the floor any more. */
  merge(parts: PartBounds, from: number, floor: number): void {
    const { size, value, front, other, length, used } = this
    let i = 0
    let j = this.madeFrom
    let top = -1
    let n = 0
    // The longer a state, the less room: the end of what fits whole only falls.
    let whole = parts.n
    while (i < this.live || j < used) {
      let s: number
      if (j >= used) s = front[i++]
      else if (i >= this.live) s = j++
      else {
        const a = front[i]
        const isOld = size[a] < size[j] || (size[a] === size[j] && value[a] >= value[j])
        s = isOld ? a : j
        if (isOld) i++
        else j++
      }
      if (value[s] <= top + 1e-13) continue
      top = value[s]
      const room = length - size[s]
      if (top + parts.upper(from, room) <= floor) continue
      whole = parts.whole(from, whole, room)
      if (top + parts.fraction(from, whole, room) > floor) other[n++] = s
    }
    this.front = other
    this.other = front
    this.live = n
  }

  /** What a state of the front could yet be worth at most. */
  upper(parts: PartBounds, from: number): number {
    let best = 0
    for (let f = 0; f < this.live; f++) {
      const s = this.front[f]
      best = Math.max(best, this.value[s] + parts.upper(from, this.length - this.size[s]))
    }
    return best
  }

  /** The pieces that a state is made of. */
  pathTo(state: number): { readonly part: number; readonly copies: number }[] {
    const out: { part: number; copies: number }[] = []
    for (let s = state; this.parent[s] >= 0; s = this.parent[s]) {
      out.push({ part: this.part[s], copies: this.copies[s] })
    }
    return out
  }
}
