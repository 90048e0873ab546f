/**
 * In how many places a rectangle fits among zones that it may not overlap: 0 means that it fits nowhere.
 * In: whole micrometres; the rectangle is not turned. Out: an exact count of whole-micrometre positions of its
 * corner, good for asking «does it fit at all» and «which face up leaves more choice».
 * Method: in the space of corner positions each zone is a box; a sweep along x sums what the union of boxes leaves.
 * Cost: O(n^2 log n) for n zones. Tests: tests/core/board/acceptance.test.ts
 */
export interface Zone {
  readonly xUm: number
  readonly yUm: number
  readonly lengthUm: number
  readonly widthUm: number
}

interface Size {
  readonly lengthUm: number
  readonly widthUm: number
}

/** Half-open box of corner positions that overlap the zone. */
interface Box {
  readonly x0: number
  readonly x1: number
  readonly y0: number
  readonly y1: number
}

function blockedBox(zone: Zone, piece: Size, across: number, along: number): Box {
  return {
    x0: Math.max(0, zone.xUm - piece.lengthUm + 1),
    x1: Math.min(along, zone.xUm + zone.lengthUm),
    y0: Math.max(0, zone.yUm - piece.widthUm + 1),
    y1: Math.min(across, zone.yUm + zone.widthUm),
  }
}

/** Positions of one column that no box covers; boxes sorted by y0. */
function freeInColumn(boxes: readonly Box[], height: number): number {
  let free = 0
  let coveredTo = 0
  for (const box of boxes) {
    if (box.y0 > coveredTo) free += box.y0 - coveredTo
    coveredTo = Math.max(coveredTo, box.y1)
  }
  return free + Math.max(0, height - coveredTo)
}

/**
 * @example freePlacements({ lengthUm: 3, widthUm: 1 }, { lengthUm: 2, widthUm: 1 }, []) //=> 2
 */
export function freePlacements(board: Size, piece: Size, zones: readonly Zone[]): number {
  const along = board.lengthUm - piece.lengthUm + 1
  const across = board.widthUm - piece.widthUm + 1
  if (along <= 0 || across <= 0) return 0
  const boxes = zones
    .map((zone) => blockedBox(zone, piece, across, along))
    .filter((box) => box.x0 < box.x1 && box.y0 < box.y1)
    .sort((a, b) => a.y0 - b.y0)
  const cuts = new Set([0, along, ...boxes.flatMap((box) => [box.x0, box.x1])])
  const xs = [...cuts].sort((a, b) => a - b)
  let free = 0
  for (let i = 0; i + 1 < xs.length; i++) {
    const inColumn = boxes.filter((box) => box.x0 <= xs[i] && box.x1 > xs[i])
    free += (xs[i + 1] - xs[i]) * freeInColumn(inColumn, across)
  }
  return free
}
