/**
 * A general-purpose peer for boards that are alike: a packer of rectangles from the registry (maxrects-packer, made
 * for picture sheets; maximal rectangles, Jylänki 2010). It lays rectangles freely, so its layouts need not be
 * cuttable from edge to edge: it has the easier task. What is compared is the share of the boards that parts cover.
 * In: a problem with one kind of board. Out: boards it takes, the better of its two rules; null where it cannot.
 */
import type { CutProblem } from '#lib/core/cutting/problem'

/** The package's entry for Node is no module that Node can read, so the file beside it is loaded. */
const file: string = 'maxrects-packer/dist/maxrects-packer.mjs'
const { MaxRectsPacker, PACKING_LOGIC } = (await import(file)) as typeof import('maxrects-packer')

interface Sheet {
  width: number
  height: number
  x: number
  y: number
  oversized?: boolean
}

export interface Packed {
  readonly boards: number
  readonly seconds: number
}

/** The packer's own answer; kerf as its padding. */
export function packBoards(problem: CutProblem): Packed | null {
  const { boards, blanks, zones, kerfUm } = problem
  if (boards.length !== 1 || zones.length > 0) return null
  const from = process.cpuUsage().user
  let best = Number.POSITIVE_INFINITY
  for (const logic of [PACKING_LOGIC.MAX_AREA, PACKING_LOGIC.MAX_EDGE]) {
    const packer = new MaxRectsPacker<Sheet>(boards[0].lengthUm, boards[0].widthUm, kerfUm, {
      smart: false,
      pot: false,
      square: false,
      allowRotation: blanks.every((b) => b.grain === 'free'),
      logic,
    })
    packer.addArray(
      blanks.flatMap((b) =>
        Array.from({ length: b.demand ?? 0 }, () => ({ width: b.lengthUm, height: b.widthUm, x: 0, y: 0 })),
      ),
    )
    if (packer.rects.some((r) => r.oversized === true)) return null
    best = Math.min(best, packer.bins.length)
  }
  return { boards: best, seconds: (process.cpuUsage().user - from) / 1e6 }
}
