/**
 * Blocks: what the search places. A block is one part in one orientation, or a few parts joined edge to edge by
 * guillotine cuts with little waste between them (Wang 1983 builds whole layouts so; here only small ones).
 * In: a Prepared problem. Out: blocks with shifted sizes, needs and member positions.
 * Cost: pairs are kept best-filled first up to a limit. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Prepared } from './prepared'

export interface Block {
  readonly w: number
  readonly h: number
  /** Sum of the members' shifted areas. */
  readonly area: number
  /** Alternations of cut direction inside, and the direction of the first cut (0 crosscut, 1 rip, -1 none). */
  readonly stages: number
  readonly dir: -1 | 0 | 1
  /** Single part: its blank and whether it is turned. */
  readonly item: number
  readonly turned: boolean
  /** Joined block: first below or left of second. */
  readonly first: Block | null
  readonly second: Block | null
  /** Distinct blanks needed and how many of each. */
  readonly needs: readonly number[]
  readonly counts: readonly number[]
  /** Members as item, x, y, w, h in a row. */
  readonly members: readonly number[]
}

function singleBlock(prep: Prepared, item: number, turned: boolean): Block {
  const w = turned ? prep.h[item] : prep.w[item]
  const h = turned ? prep.w[item] : prep.h[item]
  return {
    w,
    h,
    area: w * h,
    stages: 0,
    dir: -1,
    item,
    turned,
    first: null,
    second: null,
    needs: [item],
    counts: [1],
    members: [item, 0, 0, w, h],
  }
}

/**
 * Every blank in every orientation that it may have.
 * @param even also those that no board of the pool can hold
 */
export function singleBlocks(prep: Prepared, even = false): Block[] {
  const blocks: Block[] = []
  for (let i = 0; i < prep.n; i++) {
    if (prep.demand[i] === 0 && !even) continue
    blocks.push(singleBlock(prep, i, false))
    if (prep.free[i] === 1) blocks.push(singleBlock(prep, i, true))
  }
  return blocks
}

function shifted(members: readonly number[], dx: number, dy: number): number[] {
  const out: number[] = []
  for (let k = 0; k < members.length; k += 5) {
    out.push(members[k], members[k + 1] + dx, members[k + 2] + dy, members[k + 3], members[k + 4])
  }
  return out
}

function isCutAllowed(prep: Prepared, dir: 0 | 1, w: number, h: number, a: Block, b: Block): boolean {
  if (w < prep.minPieceL || h < prep.minPieceW) return false
  return dir === 0 ? h <= prep.maxCrosscut : Math.min(a.h, b.h) <= prep.maxRip
}

/** The trim inside a joined block: the smaller member is cut free of the strip beside it. */
function isTrimAllowed(prep: Prepared, dir: 0 | 1, w: number, h: number, a: Block): boolean {
  if (dir === 0) {
    if (a.h === h) return true
    return (
      a.w >= prep.minPieceL && h >= prep.minPieceW && Math.min(a.h, trimRest(prep, h, a.h)) <= prep.maxRip
    )
  }
  if (a.w === w) return true
  return w >= prep.minPieceL && a.h >= prep.minPieceW && a.h <= prep.maxCrosscut
}
/** Size of the piece against the fence; a rest thinner than the kerf is no piece. */
const trimRest = (prep: Prepared, whole: number, at: number): number =>
  whole - at > prep.kerf ? whole - at : Number.POSITIVE_INFINITY

/** Joins two blocks; null where demand or the machines forbid it. @param dir 0: side by side, 1: stacked */
export function join(prep: Prepared, a: Block, b: Block, dir: 0 | 1): Block | null {
  const needs = [...a.needs]
  const counts = [...a.counts]
  for (let k = 0; k < b.needs.length; k++) {
    const at = needs.indexOf(b.needs[k])
    if (at < 0) {
      needs.push(b.needs[k])
      counts.push(b.counts[k])
    } else counts[at] += b.counts[k]
  }
  for (let k = 0; k < needs.length; k++) if (counts[k] > prep.demand[needs[k]]) return null
  const w = dir === 0 ? a.w + b.w : Math.max(a.w, b.w)
  const h = dir === 0 ? Math.max(a.h, b.h) : a.h + b.h
  if (!isCutAllowed(prep, dir, w, h, a, b)) return null
  if (!isTrimAllowed(prep, dir, w, h, a) || !isTrimAllowed(prep, dir, w, h, b)) return null
  const inner = (m: Block): number => {
    const isTrimmed = dir === 0 ? m.h !== h : m.w !== w
    if (isTrimmed) return 1 + m.stages - (m.dir === 1 - dir ? 1 : 0)
    return m.stages - (m.dir === dir ? 1 : 0)
  }
  return {
    w,
    h,
    area: a.area + b.area,
    stages: 1 + Math.max(inner(a), inner(b)),
    dir,
    item: -1,
    turned: false,
    first: a,
    second: b,
    needs,
    counts,
    members: [...a.members, ...shifted(b.members, dir === 0 ? a.w : 0, dir === 0 ? 0 : a.h)],
  }
}

/** Parts above which only the next ones in size are paired, and how many of these. */
const MANY_SINGLES = 700
const NEAR_SINGLES = 24

/**
 * Pairs of parts (the same or different ones) that fill their rectangle to `minFill` or more.
 * @param most how many to keep, the best filled first
 */
export function pairBlocks(
  prep: Prepared,
  singles: readonly Block[],
  minFill: number,
  most: number,
): Block[] {
  let maxW = 0
  let maxH = 0
  for (const c of prep.classes) {
    maxW = Math.max(maxW, c.w)
    maxH = Math.max(maxH, c.h)
  }
  const pairs: Block[] = []
  for (const dir of [0, 1] as const) {
    // Well filled pairs are nearly equal across, so among very many parts the nearest in size are enough.
    const order = [...singles].sort((a, b) => (dir === 0 ? a.h - b.h : a.w - b.w))
    const near = order.length > MANY_SINGLES ? NEAR_SINGLES : order.length
    for (let i = 0; i < order.length; i++) {
      for (let j = i; j < Math.min(order.length, i + near); j++) {
        const a = order[i]
        const b = order[j]
        const w = dir === 0 ? a.w + b.w : b.w
        const h = dir === 0 ? b.h : a.h + b.h
        if (w > maxW || h > maxH || a.area + b.area < minFill * w * h) continue
        const pair = join(prep, a, b, dir)
        if (pair !== null) pairs.push(pair)
      }
    }
  }
  pairs.sort((p, q) => q.area / (q.w * q.h) - p.area / (p.w * p.h) || q.area - p.area)
  return pairs.slice(0, most)
}

/** Copies from which rows of one part are built, and how many a row may hold. */
const BULK_FROM = 24
/** Numbers in a block's list of members, five a part, above which it is not doubled again. */
const MOST_BULK = 5 * 512

/**
 * Rows and columns of 2, 4, 8... copies of a part wanted in bulk, so that thousands of alike parts take few moves.
 * Joined in halves, so that the cut tree stays shallow.
 */
export function bulkBlocks(prep: Prepared, singles: readonly Block[]): Block[] {
  let maxW = 0
  let maxH = 0
  for (const c of prep.classes) {
    maxW = Math.max(maxW, c.w)
    maxH = Math.max(maxH, c.h)
  }
  const blocks: Block[] = []
  for (const single of singles) {
    if (prep.demand[single.item] < BULK_FROM) continue
    for (const dir of [0, 1] as const) {
      let row: Block | null = single
      while (row !== null) {
        if (row.members.length > MOST_BULK) break
        row = join(prep, row, row, dir)
        if (row === null || row.w > maxW || row.h > maxH) break
        blocks.push(row)
        if (dir === 0) stackRows(prep, row, maxH, blocks)
      }
    }
  }
  return blocks
}

/** Grids: rows upon rows. */
function stackRows(prep: Prepared, row: Block, maxH: number, blocks: Block[]): void {
  let grid: Block | null = row
  while (grid !== null) {
    if (grid.members.length > MOST_BULK) break
    grid = join(prep, grid, grid, 1)
    if (grid === null || grid.h > maxH) break
    blocks.push(grid)
  }
}

const needsKey = (b: Block): string => {
  const order = b.needs.map((item, k) => `${item}x${b.counts[k]}`).sort()
  return `${b.w},${b.h}:${order.join(' ')}`
}

/**
 * Blocks without any waste: parts of the same height side by side, of the same length one above the other, then
 * such blocks joined again, small ones first. Parts that were once sawn from one board find each other again so.
 * @param most how many to make
 * @param mostTries how many joins to look at
 */
export function perfectBlocks(
  prep: Prepared,
  singles: readonly Block[],
  most: number,
  mostTries: number,
): Block[] {
  let maxW = 0
  let maxH = 0
  for (const c of prep.classes) {
    maxW = Math.max(maxW, c.w)
    maxH = Math.max(maxH, c.h)
  }
  const sameHeight = new Map<number, Block[]>()
  const sameLength = new Map<number, Block[]>()
  const file = (map: Map<number, Block[]>, size: number, b: Block): void => {
    const list = map.get(size)
    if (list === undefined) map.set(size, [b])
    else list.push(b)
  }
  const seen = new Set<string>()
  const queue = [...singles]
  const made: Block[] = []
  let tries = 0
  for (let at = 0; at < queue.length && made.length < most && tries < mostTries; at++) {
    const b = queue[at]
    file(sameHeight, b.h, b)
    file(sameLength, b.w, b)
    for (const dir of [0, 1] as const) {
      const partners = (dir === 0 ? sameHeight.get(b.h) : sameLength.get(b.w)) ?? []
      for (const partner of partners) {
        if (++tries > mostTries || made.length >= most) break
        if (dir === 0 ? b.w + partner.w > maxW : b.h + partner.h > maxH) continue
        const joined = join(prep, b, partner, dir)
        if (joined === null) continue
        const key = needsKey(joined)
        if (seen.has(key)) continue
        seen.add(key)
        made.push(joined)
        queue.push(joined)
      }
    }
  }
  return made
}
