/**
 * From a filling's moves to the cut tree that a person follows, in true micrometres (the kerf unfolded again).
 * In: moves of fill-board.ts. Out: CutNode. Tests: tests/core/cutting/plan-cuts.test.ts (through verifyCutPlan)
 */
import type { Block } from './blocks'
import { type Move, SLOT } from './fill-board'
import type { BoardClass, Prepared } from './prepared'
import type { CutNode } from './problem'

interface Rect {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

/** A piece that is not cut further. */
export function restNode(prep: Prepared, r: Rect): CutNode {
  const lengthUm = r.w - prep.kerf
  const widthUm = r.h - prep.kerf
  const { minLengthUm, minWidthUm } = prep.problem.offcut
  const kind = lengthUm >= minLengthUm && widthUm >= minWidthUm ? 'offcut' : 'waste'
  return { kind, xUm: r.x, yUm: r.y, lengthUm, widthUm }
}

/** One cut. @param at shifted size of the first child */
export function cutNode(
  prep: Prepared,
  r: Rect,
  dir: 0 | 1,
  at: number,
  first: (r: Rect) => CutNode,
  second: (r: Rect) => CutNode,
): CutNode {
  const k = prep.kerf
  const one = dir === 0 ? { ...r, w: at } : { ...r, h: at }
  const two = dir === 0 ? { ...r, x: r.x + at, w: r.w - at } : { ...r, y: r.y + at, h: r.h - at }
  const node = {
    kind: 'cut' as const,
    xUm: r.x,
    yUm: r.y,
    lengthUm: r.w - k,
    widthUm: r.h - k,
    cut: dir === 0 ? ('crosscut' as const) : ('rip' as const),
    atUm: at - k,
    first: first(one),
  }
  return two.w > k && two.h > k ? { ...node, second: second(two) } : node
}

export function blockNode(prep: Prepared, block: Block, r: Rect): CutNode {
  const { first, second } = block
  if (first === null || second === null) {
    const k = prep.kerf
    return {
      kind: 'blank',
      xUm: r.x,
      yUm: r.y,
      lengthUm: r.w - k,
      widthUm: r.h - k,
      blank: block.item,
      turned: block.turned,
    }
  }
  const dir = block.dir as 0 | 1
  const at = dir === 0 ? first.w : first.h
  const member =
    (m: Block) =>
    (piece: Rect): CutNode => {
      const isTrimmed = dir === 0 ? piece.h > m.h : piece.w > m.w
      if (!isTrimmed) return blockNode(prep, m, piece)
      const other = (1 - dir) as 0 | 1
      const size = other === 0 ? m.w : m.h
      return cutNode(
        prep,
        piece,
        other,
        size,
        (p) => blockNode(prep, m, p),
        (p) => restNode(prep, p),
      )
    }
  return cutNode(prep, r, dir, at, member(first), member(second))
}

/** @returns the tree of a whole board */
export function treeOfMoves(prep: Prepared, cls: BoardClass, moves: readonly Move[]): CutNode {
  const byPiece = new Map(moves.map((m) => [m.piece, m]))
  const grow = (piece: number, r: Rect): CutNode => {
    const m = byPiece.get(piece)
    return m === undefined ? restNode(prep, r) : growMove(m, r)
  }
  const growMove = (m: Move, r: Rect): CutNode => {
    const id = m.id * 8
    const corner = (c: Rect): CutNode => growCorner(prep, m, c, grow)
    const afterX = (c: Rect): CutNode =>
      m.dy > 0 ? cutNode(prep, c, 1, m.dy, (p) => grow(id + SLOT.below, p), corner) : corner(c)
    return m.dx > 0 ? cutNode(prep, r, 0, m.dx, (p) => grow(id + SLOT.left, p), afterX) : afterX(r)
  }
  return grow(0, { x: 0, y: 0, w: cls.w, h: cls.h })
}

/** The block at the corner of `c`, and the two rests. */
function growCorner(prep: Prepared, m: Move, c: Rect, grow: (piece: number, r: Rect) => CutNode): CutNode {
  const id = m.id * 8
  const { block } = m
  const right = (p: Rect): CutNode => grow(id + SLOT.right, p)
  const above = (p: Rect): CutNode => grow(id + SLOT.above, p)
  const crosscut = (p: Rect, next: (q: Rect) => CutNode): CutNode =>
    p.w > block.w ? cutNode(prep, p, 0, block.w, next, right) : next(p)
  const rip = (p: Rect, next: (q: Rect) => CutNode): CutNode =>
    p.h > block.h ? cutNode(prep, p, 1, block.h, next, above) : next(p)
  const done = (p: Rect): CutNode => blockNode(prep, block, p)
  return m.split === 0 ? crosscut(c, (p) => rip(p, done)) : rip(c, (p) => crosscut(p, done))
}
