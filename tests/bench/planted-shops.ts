/**
 * Shops with a known perfect answer: boards are sawn at random into parts, to the last millimetre but for the kerf;
 * some boards get a defect in a piece that is thrown away. The engine sees only boards, defects and the shuffled parts.
 */
import type { BlockedZone, CutBlank, CutBoard, CutProblem } from '#lib/core/cutting/problem'
import { type Rng, seededRng } from '#lib/core/units/rng'

interface Piece {
  readonly x: number
  readonly y: number
  readonly l: number
  readonly w: number
}

const MM = 1000
const LEAST = 60 * MM

/** Saws the largest piece until there are `parts`. */
function saw(rng: Rng, whole: Piece, parts: number, kerf: number): Piece[] {
  const pieces = [whole]
  for (let tries = 0; pieces.length < parts && tries < 200; tries++) {
    pieces.sort((a, b) => b.l * b.w - a.l * a.w)
    const p = pieces[rng.below(Math.min(3, pieces.length))]
    const along = rng.next() < p.l / (p.l + p.w)
    const size = along ? p.l : p.w
    if (size < 2 * LEAST + kerf) continue
    const at = LEAST + MM * Math.floor((rng.next() * (size - 2 * LEAST - kerf)) / MM)
    const rest = size - at - kerf
    pieces.splice(
      pieces.indexOf(p),
      1,
      along ? { ...p, l: at } : { ...p, w: at },
      along ? { ...p, x: p.x + at + kerf, l: rest } : { ...p, y: p.y + at + kerf, w: rest },
    )
  }
  return pieces
}

/** @returns a shop in which every part can be made, leaving nothing but kerf and the pieces with defects */
export function plantedShop(
  seed: number,
  boards: number,
  parts: number,
  options: { kerfMm: number; defects: boolean },
): CutProblem {
  const rng = seededRng(seed)
  const kerf = options.kerfMm * MM
  const all: CutBoard[] = []
  const zones: BlockedZone[] = []
  const blanks: CutBlank[] = []
  for (let k = 0; k < boards; k++) {
    const l = MM * (700 + rng.below(1500))
    const w = MM * (140 + rng.below(360))
    all.push({ id: `b${k}`, lengthUm: l, widthUm: w, cost: (l * w) / MM / MM })
    const share = Math.max(1, Math.round(parts / boards))
    const pieces = saw(rng, { x: 0, y: 0, l, w }, share + (options.defects ? 1 : 0), kerf)
    if (options.defects && pieces.length > 1) {
      const [bad] = pieces.splice(pieces.length - 1, 1)
      zones.push({ board: k, xUm: bad.x, yUm: bad.y, lengthUm: bad.l, widthUm: bad.w, blocks: 'all' })
    }
    for (const p of pieces) {
      const isFree = rng.next() < 0.25
      const turned = isFree && rng.next() < 0.5
      blanks.push({
        id: `p${blanks.length}`,
        lengthUm: turned ? p.w : p.l,
        widthUm: turned ? p.l : p.w,
        demand: 1,
        grain: isFree ? 'free' : 'along',
        weight: p.l * p.w * 1e-6,
      })
    }
  }
  for (let k = blanks.length - 1; k > 0; k--) {
    const j = rng.below(k + 1)
    const b = blanks[k]
    blanks[k] = blanks[j]
    blanks[j] = b
  }
  return {
    kerfUm: kerf,
    boards: all,
    blanks,
    zones,
    limits: { minPieceLengthUm: 0, minPieceWidthUm: 0, stages: null },
    offcut: { minLengthUm: 150 * MM, minWidthUm: 40 * MM },
    objective: 'parts',
  }
}
