/**
 * What a plan is taken apart at: boards, or sections of boards (any section is a small board of its own), chosen by
 * chance with a leaning to where wood lies idle or money is ill spent.
 * In: boards in use, a random source. Out: which boards, which sections. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Rng } from '#lib/core/units/rng'
import type { Root } from './moves'
import type { Prepared } from './prepared'
import { joinSections, type Section, type Used } from './section'

/** A section to be filled anew: which board, and the turns (0 first, 1 second) from its root. */
export interface Spot {
  readonly board: number
  readonly path: readonly (0 | 1)[]
  readonly section: Section
}

export function shuffle<T>(rng: Rng, list: T[]): void {
  for (let k = list.length - 1; k > 0; k--) {
    const j = rng.below(k + 1)
    const v = list[k]
    list[k] = list[j]
    list[j] = v
  }
}

const idleShare = (s: Section): number => 1 - s.area / (s.w * s.h)

/** @param byCost the dear ones for what they yield, else the idle ones */
export function chooseBoards(
  prep: Prepared,
  rng: Rng,
  used: readonly Used[],
  mostTaken: number,
  byCost: boolean,
): Set<number> {
  const bad = (u: Used): number =>
    byCost ? prep.classes[u.cls].cost / Math.max(1, u.root.area) : idleShare(u.root)
  const most = Math.min(used.length, 1 + rng.below(mostTaken))
  const taken = new Set<number>()
  for (let tries = 0; taken.size < most && tries < 20; tries++) {
    const a = rng.below(used.length)
    const b = rng.below(used.length)
    taken.add(bad(used[a]) > bad(used[b]) ? a : b)
  }
  return taken
}

/** Up to three sections, none inside another. */
export function chooseSpots(rng: Rng, used: readonly Used[]): Spot[] {
  const most = 1 + rng.below(3)
  const spots: Spot[] = []
  const mostParts = 4 + rng.below(30)
  for (let tries = 0; spots.length < most && tries < 8; tries++) {
    const byIdle = spots.length === 0 || rng.below(2) === 0
    const a = rng.below(used.length)
    const b = rng.below(used.length)
    const isA = !byIdle || idleShare(used[a].root) > idleShare(used[b].root)
    const spot = descend(rng, used, isA ? a : b, byIdle, mostParts)
    if (spot !== null && !spots.some((s) => overlaps(s, spot))) spots.push(spot)
  }
  return spots
}

/** Goes down a board by chance, towards idle wood or towards parts, until few enough parts are left. */
function descend(
  rng: Rng,
  used: readonly Used[],
  board: number,
  byIdle: boolean,
  mostParts: number,
): Spot | null {
  let s = used[board].root
  const path: (0 | 1)[] = []
  const idle = (q: Section): number => (byIdle ? q.w * q.h - q.area + 0.02 * q.area : q.area + 1)
  while (s.parts > mostParts && s.first !== null && s.second !== null) {
    const a = idle(s.first)
    const turn = rng.next() * (a + idle(s.second)) < a ? 0 : 1
    path.push(turn)
    s = turn === 0 ? s.first : s.second
  }
  return s.parts === 0 ? null : { board, path, section: s }
}

function overlaps(a: Spot, b: Spot): boolean {
  if (a.board !== b.board) return false
  const n = Math.min(a.path.length, b.path.length)
  for (let k = 0; k < n; k++) if (a.path[k] !== b.path[k]) return false
  return true
}

/** A section as a board of its own. */
export function partOf(prep: Prepared, cls: number, s: Section): Root {
  const whole = prep.classes[cls]
  const zones = whole.zones
    .filter((z) => s.x < z.x1 && s.x + s.w > z.x0 && s.y < z.y1 && s.y + s.h > z.y0)
    .map((z) => ({ x0: z.x0 - s.x, x1: z.x1 - s.x, y0: z.y0 - s.y, y1: z.y1 - s.y, mask: z.mask }))
  return { w: s.w, h: s.h, stage: s.stage, zones, allowed: whole.allowed }
}

/** The root with the section of a spot exchanged. */
export function replaced(root: Section, path: readonly (0 | 1)[], fresh: Section, depth = 0): Section {
  if (depth === path.length) return fresh
  const { first, second } = root
  if (first === null || second === null) return root
  const isFirst = path[depth] === 0
  const a = isFirst ? replaced(first, path, fresh, depth + 1) : first
  const b = isFirst ? second : replaced(second, path, fresh, depth + 1)
  return joinSections(root, root.dir as 0 | 1, root.at, a, b)
}
