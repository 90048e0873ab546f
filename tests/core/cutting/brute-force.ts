/**
 * Every guillotine cutting of tiny boards, by trying every cut at every whole position: slow, obvious, and with no
 * code of the engine. Gives the sets of part counts that a board can yield.
 */
import type { CutProblem } from '#lib/core/cutting/problem'

type Counts = readonly number[]

export class BruteForce {
  private readonly memo = new Map<string, Map<string, Counts>>()
  constructor(private readonly p: CutProblem) {}

  private demand(i: number): number {
    return this.p.blanks[i].demand ?? 4
  }

  private isCovered(board: number, i: number, x: number, y: number, l: number, w: number): boolean {
    return this.p.zones.some(
      (z) =>
        z.board === board &&
        (z.blocks === 'all' || z.blocks.includes(i)) &&
        x < z.xUm + z.lengthUm &&
        z.xUm < x + l &&
        y < z.yUm + z.widthUm &&
        z.yUm < y + w,
    )
  }

  /** All count vectors that a piece can become. A piece that is exactly a part may be that part. */
  yields(board: number, x: number, y: number, l: number, w: number): Map<string, Counts> {
    const key = `${board},${x},${y},${l},${w}`
    const known = this.memo.get(key)
    if (known !== undefined) return known
    const out = new Map<string, Counts>()
    const none = this.p.blanks.map(() => 0)
    out.set(none.join(), none)
    this.p.blanks.forEach((b, i) => {
      if (b.boards !== undefined && !b.boards.includes(board)) return
      const turns = b.grain === 'free' ? 2 : 1
      for (let t = 0; t < turns; t++) {
        const [bl, bw] = t === 0 ? [b.lengthUm, b.widthUm] : [b.widthUm, b.lengthUm]
        if (bl !== l || bw !== w || this.demand(i) < 1 || this.isCovered(board, i, x, y, l, w)) continue
        const one = none.map((_, k) => (k === i ? 1 : 0))
        out.set(one.join(), one)
      }
    })
    this.cut(board, x, y, l, w, out)
    this.memo.set(key, out)
    return out
  }

  private cut(board: number, x: number, y: number, l: number, w: number, out: Map<string, Counts>): void {
    const { kerfUm: k, limits } = this.p
    if (l < limits.minPieceLengthUm || w < limits.minPieceWidthUm) return
    if (w <= (limits.maxCrosscutWidthUm ?? Number.POSITIVE_INFINITY)) {
      for (let at = 1; at < l; at++) {
        this.join(
          this.yields(board, x, y, at, w),
          l - at > k ? this.yields(board, x + at + k, y, l - at - k, w) : null,
          out,
        )
      }
    }
    const fence = limits.maxRipWidthUm ?? Number.POSITIVE_INFINITY
    for (let at = 1; at < w; at++) {
      const rest = w - at - k
      if (at > fence && !(rest > 0 && rest <= fence)) continue
      this.join(
        this.yields(board, x, y, l, at),
        rest > 0 ? this.yields(board, x, y + at + k, l, rest) : null,
        out,
      )
    }
  }

  private join(a: Map<string, Counts>, b: Map<string, Counts> | null, out: Map<string, Counts>): void {
    for (const u of a.values()) {
      if (b === null) out.set(u.join(), u)
      else
        for (const v of b.values()) {
          const sum = u.map((n, i) => n + v[i])
          if (sum.every((n, i) => n <= this.demand(i))) out.set(sum.join(), sum)
        }
    }
  }

  /** Greatest weight, and the least cost of making it. Boards count once each. */
  best(): { weight: number; cost: number } {
    const { p } = this
    let plans = new Map<string, { counts: Counts; cost: number }>()
    const none = p.blanks.map(() => 0)
    plans.set(none.join(), { counts: none, cost: 0 })
    p.boards.forEach((b, board) => {
      const next = new Map(plans)
      for (const { counts, cost } of plans.values()) {
        for (const v of this.yields(board, 0, 0, b.lengthUm, b.widthUm).values()) {
          const sum = counts.map((n, i) => n + v[i])
          if (sum.some((n, i) => n > this.demand(i))) continue
          const own = p.objective === 'minBoards' ? 1 : b.cost
          const total = v.every((n) => n === 0) ? cost : cost + own
          const known = next.get(sum.join())
          if (known === undefined || known.cost > total) next.set(sum.join(), { counts: sum, cost: total })
        }
      }
      plans = next
    })
    let best = { weight: 0, cost: 0 }
    for (const { counts, cost } of plans.values()) {
      const weight = counts.reduce((sum, n, i) => sum + n * p.blanks[i].weight, 0)
      if (weight > best.weight + 1e-9 || (weight > best.weight - 1e-9 && cost < best.cost)) {
        best = { weight, cost }
      }
    }
    return best
  }
}
