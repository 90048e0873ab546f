/**
 * A layout while it is searched: a tree of sections of a board in shifted size (see prepared.ts), never changed in
 * place. Any section is itself a small board, so the search can fill it anew. From a section to the cut tree that a
 * person follows, in true micrometres (the kerf unfolded again).
 * In: moves of fill-board.ts. Out: Section, CutNode. Tests: tests/core/cutting/ (through verifyCutPlan)
 */
import type { Block } from './blocks'
import { type Move, nextStage, SLOT } from './moves'
import type { Prepared } from './prepared'
import type { CutNode } from './problem'

export interface Section {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
  /** Cuts that led here: alternations x 2 + last direction. */
  readonly stage: number
  /** -1: not cut further. */
  readonly dir: -1 | 0 | 1
  /** Shifted size of the first child. */
  readonly at: number
  readonly first: Section | null
  readonly second: Section | null
  /** What an uncut section is; null: a rest. */
  readonly block: Block | null
  /** Shifted area that parts cover, how many parts, and the pull of the rests (see `restPull`). */
  readonly area: number
  readonly parts: number
  readonly pull: number
}

/** A board in use: its class, and what becomes of it. */
export interface Used {
  /** Index of the board class. */
  readonly cls: number
  readonly root: Section
}

export interface Rect {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
  readonly stage: number
}

/** One large rest pulls more than the same area in pieces: square metres to the power 1.5. */
export function restPull(prep: Prepared, w: number, h: number): number {
  const l = w - prep.kerf
  const b = h - prep.kerf
  if (l <= 0 || b <= 0) return 0
  const m2 = l * b * 1e-12
  return m2 * Math.sqrt(m2)
}

/** What a rest is worth keeping for: its area in square metres to the power 1.5, 0 where it is too small to keep. */
export function restWorth(prep: Prepared, w: number, h: number): number {
  const l = w - prep.kerf
  const b = h - prep.kerf
  const { minLengthUm, minWidthUm } = prep.problem.offcut
  if (l <= 0 || b <= 0 || l < minLengthUm || b < minWidthUm) return 0
  const m2 = l * b * 1e-12
  return m2 * Math.sqrt(m2)
}

const LEAF = { dir: -1 as const, at: 0, first: null, second: null }

export function restSection(prep: Prepared, r: Rect): Section {
  const { x, y, w, h, stage } = r
  return { x, y, w, h, stage, ...LEAF, block: null, area: 0, parts: 0, pull: restPull(prep, w, h) }
}

/** A cut section of these children. */
export function joinSections(r: Rect, dir: 0 | 1, at: number, first: Section, second: Section): Section {
  const { x, y, w, h, stage } = r
  return {
    x,
    y,
    w,
    h,
    stage,
    dir,
    at,
    first,
    second,
    block: null,
    area: first.area + second.area,
    parts: first.parts + second.parts,
    pull: first.pull + second.pull,
  }
}

/** Cuts a rectangle; `first` and `second` say what becomes of the two pieces. */
export function cutSection(
  r: Rect,
  dir: 0 | 1,
  at: number,
  first: (r: Rect) => Section,
  second: (r: Rect) => Section,
): Section {
  const stage = nextStage(r.stage, dir)
  const one = dir === 0 ? { ...r, w: at, stage } : { ...r, h: at, stage }
  const two =
    dir === 0 ? { ...r, x: r.x + at, w: r.w - at, stage } : { ...r, y: r.y + at, h: r.h - at, stage }
  return joinSections(r, dir, at, first(one), second(two))
}

/** A rectangle that is just this block. */
export function blockSection(r: Rect, block: Block): Section {
  const { x, y, w, h, stage } = r
  const parts = block.members.length / 5
  return { x, y, w, h, stage, ...LEAF, block, area: block.area, parts, pull: 0 }
}

/** One block at the corner of a rectangle, cut free of the rest: crosscut first, then rip. */
export function soleSection(prep: Prepared, r: Rect, block: Block): Section {
  const rest = (p: Rect): Section => restSection(prep, p)
  const rip = (p: Rect): Section =>
    p.h > block.h ? cutSection(p, 1, block.h, (q) => blockSection(q, block), rest) : blockSection(p, block)
  return r.w > block.w ? cutSection(r, 0, block.w, rip, rest) : rip(r)
}

/** The block at the corner of `c`, and the two rests. */
function cornerSection(m: Move, block: Block, c: Rect, grow: (piece: number, r: Rect) => Section): Section {
  const id = m.id * 8
  const right = (p: Rect): Section => grow(id + SLOT.right, p)
  const above = (p: Rect): Section => grow(id + SLOT.above, p)
  const crosscut = (p: Rect, next: (q: Rect) => Section): Section =>
    p.w > block.w ? cutSection(p, 0, block.w, next, right) : next(p)
  const rip = (p: Rect, next: (q: Rect) => Section): Section =>
    p.h > block.h ? cutSection(p, 1, block.h, next, above) : next(p)
  const done = (p: Rect): Section => blockSection(p, block)
  return m.split === 0 ? crosscut(c, (p) => rip(p, done)) : rip(c, (p) => crosscut(p, done))
}

/** @param rects the boards or sections that were filled together, in the order in which they were given */
export function sectionsOfMoves(prep: Prepared, rects: readonly Rect[], moves: readonly Move[]): Section[] {
  const byPiece = new Map(moves.map((m) => [m.piece, m]))
  const grow = (piece: number, p: Rect): Section => {
    const m = byPiece.get(piece)
    return m === undefined ? restSection(prep, p) : growMove(m, p)
  }
  const growMove = (m: Move, p: Rect): Section => {
    const { block } = m
    if (block === null) {
      const id = m.id * 8
      return cutSection(
        p,
        m.split,
        m.dx,
        (q) => grow(id + SLOT.left, q),
        (q) => grow(id + SLOT.right, q),
      )
    }
    const corner = (c: Rect): Section => cornerSection(m, block, c, grow)
    const afterX = (c: Rect): Section =>
      m.dy > 0 ? cutSection(c, 1, m.dy, (q) => grow(m.id * 8 + SLOT.below, q), corner) : corner(c)
    return m.dx > 0 ? cutSection(p, 0, m.dx, (q) => grow(m.id * 8 + SLOT.left, q), afterX) : afterX(p)
  }
  return rects.map((r, k) => grow(-1 - k, r))
}

/** Parts in a row above which a row is cut in halves first, so that its tree stays shallow. */
const MOST_CHAIN = 64

/** A board cut across only: blocks in a row, each as wide as the board. */
export function rowSection(prep: Prepared, r: Rect, row: readonly Block[]): Section {
  if (row.length === 0) return restSection(prep, r)
  if (row.length === 1 && row[0].w === r.w) return blockSection(r, row[0])
  const split = row.length > MOST_CHAIN ? row.length >> 1 : 1
  const at = row.slice(0, split).reduce((sum, b) => sum + b.w, 0)
  if (at >= r.w) return rowSection(prep, r, row.slice(0, split))
  return cutSection(
    r,
    0,
    at,
    (p) => rowSection(prep, p, row.slice(0, split)),
    (p) => rowSection(prep, p, row.slice(split)),
  )
}

/** Adds `sign` times the section's parts to `counts`. */
export function countParts(section: Section, counts: Int32Array, sign: 1 | -1): void {
  const stack: Section[] = [section]
  for (let s = stack.pop(); s !== undefined; s = stack.pop()) {
    if (s.first !== null && s.second !== null) stack.push(s.first, s.second)
    else if (s.block !== null) {
      const { needs, counts: copies } = s.block
      for (let k = 0; k < needs.length; k++) counts[needs[k]] += sign * copies[k]
    }
  }
}

/** A piece that is not cut further. */
function restNode(prep: Prepared, x: number, y: number, w: number, h: number): CutNode {
  const lengthUm = w - prep.kerf
  const widthUm = h - prep.kerf
  const { minLengthUm, minWidthUm } = prep.problem.offcut
  const kind = lengthUm >= minLengthUm && widthUm >= minWidthUm ? 'offcut' : 'waste'
  return { kind, xUm: x, yUm: y, lengthUm, widthUm }
}

function cutNode(
  prep: Prepared,
  r: { readonly x: number; readonly y: number; readonly w: number; readonly h: number },
  dir: 0 | 1,
  at: number,
  first: CutNode,
  second: () => CutNode,
): CutNode {
  const k = prep.kerf
  const rest = (dir === 0 ? r.w : r.h) - at
  const node = {
    kind: 'cut' as const,
    xUm: r.x,
    yUm: r.y,
    lengthUm: r.w - k,
    widthUm: r.h - k,
    cut: dir === 0 ? ('crosscut' as const) : ('rip' as const),
    atUm: at - k,
    first,
  }
  return rest > k ? { ...node, second: second() } : node
}

function blockNode(prep: Prepared, block: Block, x: number, y: number): CutNode {
  const { first, second, w, h } = block
  const k = prep.kerf
  if (first === null || second === null) {
    const { item, turned } = block
    return { kind: 'blank', xUm: x, yUm: y, lengthUm: w - k, widthUm: h - k, blank: item, turned }
  }
  const dir = block.dir as 0 | 1
  const at = dir === 0 ? first.w : first.h
  const member = (m: Block, mx: number, my: number): CutNode => {
    const piece = dir === 0 ? { x: mx, y: my, w: m.w, h } : { x: mx, y: my, w, h: m.h }
    const isTrimmed = dir === 0 ? h > m.h : w > m.w
    const own = blockNode(prep, m, mx, my)
    if (!isTrimmed) return own
    return dir === 0
      ? cutNode(prep, piece, 1, m.h, own, () => restNode(prep, mx, my + m.h, m.w, h - m.h))
      : cutNode(prep, piece, 0, m.w, own, () => restNode(prep, mx + m.w, my, w - m.w, m.h))
  }
  return cutNode(prep, { x, y, w, h }, dir, at, member(first, x, y), () =>
    member(second, dir === 0 ? x + at : x, dir === 0 ? y : y + at),
  )
}

/** The cut tree of a section, in true micrometres. A piece without parts stays whole: no cut, and a rest worth more. */
export function treeOf(prep: Prepared, s: Section): CutNode {
  if (s.block !== null) return blockNode(prep, s.block, s.x, s.y)
  const { first, second } = s
  if (first === null || second === null || s.parts === 0) return restNode(prep, s.x, s.y, s.w, s.h)
  return cutNode(prep, s, s.dir as 0 | 1, s.at, treeOf(prep, first), () => treeOf(prep, second))
}
