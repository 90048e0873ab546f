/**
 * The best moves of one level of the board search: a heap of fixed size, the worst on top.
 * In: moves with their guide, lower is better. Out: typed arrays by place. Tests: tests/core/cutting/plan-cuts.test.ts
 */
export class BestMoves {
  /** How many there are. */
  count = 0
  state = new Int32Array(0)
  block = new Int32Array(0)
  split = new Int32Array(0)
  dx = new Float64Array(0)
  dy = new Float64Array(0)
  guide = new Float64Array(0)
  private most = 0

  /** @param most moves that are kept */
  reserve(most: number): void {
    this.most = most
    if (this.state.length >= most) return
    this.state = new Int32Array(most)
    this.block = new Int32Array(most)
    this.split = new Int32Array(most)
    this.dx = new Float64Array(most)
    this.dy = new Float64Array(most)
    this.guide = new Float64Array(most)
  }

  keep(guide: number, state: number, block: number, split: number, dx: number, dy: number): void {
    const g = this.guide
    let at: number
    if (this.count < this.most) {
      at = this.count++
      while (at > 0) {
        const up = (at - 1) >> 1
        if (g[up] >= guide) break
        this.move(up, at)
        at = up
      }
    } else {
      if (guide >= g[0]) return
      at = 0
      for (;;) {
        let child = 2 * at + 1
        if (child >= this.count) break
        if (child + 1 < this.count && g[child + 1] > g[child]) child++
        if (g[child] <= guide) break
        this.move(child, at)
        at = child
      }
    }
    g[at] = guide
    this.state[at] = state
    this.block[at] = block
    this.split[at] = split
    this.dx[at] = dx
    this.dy[at] = dy
  }

  /** Whether a move of this guide would be dropped. */
  isBeaten(guide: number): boolean {
    return this.count === this.most && guide >= this.guide[0]
  }

  private move(from: number, to: number): void {
    this.guide[to] = this.guide[from]
    this.state[to] = this.state[from]
    this.block[to] = this.block[from]
    this.split[to] = this.split[from]
    this.dx[to] = this.dx[from]
    this.dy[to] = this.dy[from]
  }
}
