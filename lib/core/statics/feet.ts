/**
 * What the feet of a structure do on the floor: hold, slip or lift (unilateral contact, Coulomb friction).
 * In: how each foot moves when the structure is loaded with all feet held by springs, and how a force at one foot
 * moves the others. Out: springs, up and sideways, that pull as contact and friction do. mm, N. Method: each foot's
 * force is the spring's, cut back to the friction cone (elastic predictor, as in return mapping); Newton's method with
 * the cone's own tangent (semismooth; Alart and Curnier 1991), damped. The load goes on in one step, so the
 * path of sliding is not followed. Tests: tests/core/statics/frame.test.ts
 */
import type { FootRows } from './stiffness'

export interface FootSprings {
  readonly sideways: number
  readonly up: number
}

/** What keeps the equations solvable when feet lift or slip, as a share of a foot's stiffness. */
export const TRACE = 1e-9
const MOST_ROUNDS = 120
/** Where Newton's corners do not settle, secant springs creep there. */
const MOST_SECANTS = 600

/** How far one foot's force falls short of its spring's, s = force + k w, and how that goes with its motion. */
interface Shortfall {
  readonly s: readonly [number, number, number]
  /** Rows of 3. */
  readonly tangent: readonly (readonly [number, number, number])[]
}

const HELD: Shortfall = {
  s: [0, 0, 0],
  tangent: [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ],
}

function shortfall({ foot, stiffness: k }: FootRows, x: number, y: number, z: number): Shortfall {
  const loose = k * (1 - TRACE)
  if (z > 0) {
    const flat = foot.friction === undefined ? 0 : loose
    return {
      s: [flat * x, flat * y, loose * z],
      tangent: [
        [flat, 0, 0],
        [0, flat, 0],
        [0, 0, loose],
      ],
    }
  }
  const gone = Math.hypot(x, y)
  if (foot.friction === undefined || k * gone <= -foot.friction * k * z) return HELD
  const [tx, ty] = [x / gone, y / gone]
  const most = -foot.friction * k * z
  const turn = most / gone
  const by = foot.friction * k
  return {
    s: [loose * x - most * tx, loose * y - most * ty, 0],
    tangent: [
      [loose - turn * ty * ty, turn * tx * ty, by * tx],
      [turn * tx * ty, loose - turn * tx * tx, by * ty],
      [0, 0, 0],
    ],
  }
}

/** Solves a small dense system in place, by elimination with row exchange. */
export function eliminate(a: Float64Array[], b: Float64Array): Float64Array {
  const n = b.length
  for (let k = 0; k < n; k++) {
    let pivot = k
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i][k]) > Math.abs(a[pivot][k])) pivot = i
    ;[a[k], a[pivot]] = [a[pivot], a[k]]
    ;[b[k], b[pivot]] = [b[pivot], b[k]]
    for (let i = k + 1; i < n; i++) {
      const share = a[i][k] / a[k][k]
      if (share === 0) continue
      for (let j = k; j < n; j++) a[i][j] -= share * a[k][j]
      b[i] -= share * b[k]
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) b[k] -= a[k][j] * b[j]
    b[k] /= a[k][k]
  }
  return b
}

interface Trial {
  readonly short: readonly Shortfall[]
  /** w - w0 - G s. */
  readonly off: Float64Array
  readonly size: number
}

function tryMotion(
  feet: readonly FootRows[],
  g: readonly Float64Array[],
  w0: Float64Array,
  w: Float64Array,
): Trial {
  const short = feet.map((foot, i) => shortfall(foot, w[3 * i], w[3 * i + 1], w[3 * i + 2]))
  const s = short.flatMap((one) => one.s)
  let size = 0
  const off = w.map((value, i) => {
    let sum = value - w0[i]
    for (let j = 0; j < s.length; j++) sum -= g[i][j] * s[j]
    size = Math.max(size, Math.abs(sum) * feet[Math.floor(i / 3)].stiffness)
    return sum
  })
  return { short, off, size }
}

/** Newton's step: (I - G S') step = -off. */
function newtonStep(g: readonly Float64Array[], { short, off }: Trial): Float64Array {
  const n = off.length
  const a = g.map((row, i) => {
    const out = new Float64Array(n)
    for (let j = 0; j < n; j++) {
      const foot = Math.floor(j / 3)
      let sum = 0
      for (let p = 0; p < 3; p++) sum += row[3 * foot + p] * short[foot].tangent[p][j % 3]
      out[j] = (i === j ? 1 : 0) - sum
    }
    return out
  })
  return eliminate(
    a,
    off.map((value) => -value),
  )
}

/** Springs that pull as the foot's force does at this motion. */
function secant({ foot, stiffness: k }: FootRows, x: number, y: number, z: number): FootSprings {
  const trace = TRACE * k
  if (foot.friction === undefined) return { sideways: k, up: z > 0 ? trace : k }
  if (z > 0) return { sideways: trace, up: trace }
  const gone = Math.hypot(x, y)
  const most = -foot.friction * k * z
  return { sideways: k * gone <= most ? k : Math.max(trace, most / gone + trace), up: k }
}

/** Motions of the feet on springs that pull as the feet do at motions `w`: (I + G d) w = w0. */
function secantMotions(
  feet: readonly FootRows[],
  g: readonly Float64Array[],
  held: Float64Array,
  w: Float64Array,
): Float64Array {
  const d = feet.flatMap((foot, i) => {
    const { sideways, up } = secant(foot, w[3 * i], w[3 * i + 1], w[3 * i + 2])
    return [sideways - foot.stiffness, sideways - foot.stiffness, up - foot.stiffness]
  })
  const a = g.map((row, i) => row.map((value, j) => (i === j ? 1 : 0) + value * d[j]))
  return eliminate(a, held.slice())
}

const largest = (values: Float64Array): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0)

/**
 * @param coupling motion of every foot axis per unit force at every other, all feet held
 * @param held motions of the feet, x y z each, under the load with all of them held
 * @param loadN size of the load, to judge by
 */
export function settleFeet(
  feet: readonly FootRows[],
  coupling: readonly Float64Array[],
  held: Float64Array,
  loadN: number,
): { readonly springs: readonly FootSprings[]; readonly isSettled: boolean } {
  let w = held.slice()
  let now = tryMotion(feet, coupling, held, w)
  const enough = 1e-9 * Math.max(loadN, 1e-9)
  for (let round = 0; round < MOST_ROUNDS && now.size > enough; round++) {
    const step = newtonStep(coupling, now)
    // Slipping feet leave the structure almost free to glide: no step goes further than a few times the way so far.
    const reach = Math.max(0.2, 2 * largest(w))
    let share = Math.min(1, reach / largest(step))
    const least = share * (round % 7 === 6 ? 0.9 : 0.01)
    let next = w
    let trial = now
    do {
      next = w.map((value, i) => value + share * step[i])
      trial = tryMotion(feet, coupling, held, next)
      share /= 2
      // A small step that makes things worse is still better than none: the cone has corners.
    } while (trial.size > now.size && share > least)
    w = next
    now = trial
  }
  for (let round = 0; round < MOST_SECANTS && now.size > enough; round++) {
    const wish = secantMotions(feet, coupling, held, w)
    const share = round % 2 === 0 ? 1 : 0.5
    w = w.map((value, i) => value + share * (wish[i] - value))
    now = tryMotion(feet, coupling, held, w)
  }
  const springs = feet.map((foot, i) => secant(foot, w[3 * i], w[3 * i + 1], w[3 * i + 2]))
  const reachMm = largest(w)
  // A structure that tips or slides goes far on the traces, and is then only as exact as so long a way allows.
  return { springs, isSettled: now.size <= enough + 1e-10 * reachMm * (feet[0]?.stiffness ?? 0) }
}
