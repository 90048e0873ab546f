/**
 * What a layout leaves: offcuts worth keeping with their place on the board, waste, and wood lost to the kerf.
 * In: a board and its cut tree. Out: rectangles and areas in square micrometres.
 * Tests: tests/core/cutting/offcuts.test.ts
 */
import type { CutNode } from './problem'
import { pieceAreaUm2 } from './rows'

export interface Offcut {
  readonly xUm: number
  readonly yUm: number
  readonly lengthUm: number
  readonly widthUm: number
}

export interface LayoutRests {
  readonly offcuts: readonly Offcut[]
  readonly blankAreaUm2: number
  readonly offcutAreaUm2: number
  readonly wasteAreaUm2: number
  readonly kerfAreaUm2: number
}

/** Every leaf of a cut tree, in cutting order. */
export function leavesOf(tree: CutNode): Exclude<CutNode, { kind: 'cut' }>[] {
  const leaves: Exclude<CutNode, { kind: 'cut' }>[] = []
  const stack: CutNode[] = [tree]
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    if (node.kind !== 'cut') leaves.push(node)
    else {
      if (node.second !== undefined) stack.push(node.second)
      stack.push(node.first)
    }
  }
  return leaves
}

/**
 * Offcuts of one layout, largest first, and where the rest of the board went. The four areas add up to the board.
 * @example restsOf({ kind: 'offcut', xUm: 0, yUm: 0, lengthUm: 10, widthUm: 5 }).offcutAreaUm2 //=> 50
 */
export function restsOf(tree: CutNode): LayoutRests {
  const offcuts: Offcut[] = []
  const areas = { blank: 0, offcut: 0, waste: 0 }
  for (const leaf of leavesOf(tree)) {
    areas[leaf.kind] += pieceAreaUm2(leaf)
    if (leaf.kind === 'offcut') {
      offcuts.push({ xUm: leaf.xUm, yUm: leaf.yUm, lengthUm: leaf.lengthUm, widthUm: leaf.widthUm })
    }
  }
  offcuts.sort((a, b) => b.lengthUm * b.widthUm - a.lengthUm * a.widthUm || a.xUm - b.xUm || a.yUm - b.yUm)
  return {
    offcuts,
    blankAreaUm2: areas.blank,
    offcutAreaUm2: areas.offcut,
    wasteAreaUm2: areas.waste,
    kerfAreaUm2: tree.lengthUm * tree.widthUm - areas.blank - areas.offcut - areas.waste,
  }
}

/**
 * What an offcut is worth keeping for: its area in square metres to the power 1.5, so that one large rest is worth
 * more than the same area in slivers (two halves are worth 0.71 of the whole).
 * @example offcutWorth(1_000_000, 1_000_000) //=> 1
 */
export function offcutWorth(lengthUm: number, widthUm: number): number {
  return (lengthUm * widthUm * 1e-12) ** 1.5
}
