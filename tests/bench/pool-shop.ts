/**
 * A large pool of salvage for several builds at once: boards of three kinds of wood with up to three zones each, prices
 * that differ by half around their area, and parts of each kind wanted one to seven times. Sizes in whole micrometres.
 */
import type { BlockedZone, CutBlank, CutBoard, CutProblem } from '#lib/core/cutting/problem'
import { seededRng } from '#lib/core/units/rng'

const KINDS_OF_WOOD = 3
const MM = 1000

/** @param kinds of parts; four of each on average */
export function poolShop(seed: number, boards: number, kinds: number): CutProblem {
  const rng = seededRng(seed)
  const all: CutBoard[] = []
  for (let i = 0; i < boards; i++) {
    const [l, w] = [400 + rng.below(1800), 60 + rng.below(240)]
    const cost = Math.round(((l * w) / 1000) * (0.5 + rng.next()))
    all.push({ id: `b${i}`, lengthUm: l * MM, widthUm: w * MM, cost })
  }
  const zones: BlockedZone[] = all.flatMap((b, board) =>
    Array.from({ length: rng.below(4) }, () => ({
      board,
      xUm: rng.below(b.lengthUm - 20 * MM),
      yUm: rng.below(b.widthUm - 15 * MM),
      lengthUm: 15 * MM,
      widthUm: 10 * MM,
      blocks: 'all' as const,
    })),
  )
  const ofWood = (wood: number): number[] => all.flatMap((_, k) => (k % KINDS_OF_WOOD === wood ? [k] : []))
  const blanks: CutBlank[] = Array.from({ length: kinds }, (_, i) => ({
    id: `p${i}`,
    lengthUm: (150 + rng.below(900)) * MM,
    widthUm: (38 + rng.below(100)) * MM,
    demand: 1 + rng.below(7),
    grain: 'along',
    weight: 1,
    boards: ofWood(i % KINDS_OF_WOOD),
  }))
  return {
    kerfUm: 3_200,
    boards: all,
    blanks,
    zones,
    limits: {
      minPieceLengthUm: 200 * MM,
      minPieceWidthUm: 30 * MM,
      maxRipWidthUm: 600 * MM,
      stages: null,
    },
    offcut: { minLengthUm: 150 * MM, minWidthUm: 40 * MM },
    objective: 'parts',
  }
}
