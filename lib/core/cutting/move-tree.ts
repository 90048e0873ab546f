/**
 * The moves that led to the states of the board search, each with the one before it; grows as it must.
 * Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { BestMoves } from './best-moves'
import type { Block } from './blocks'
import type { Move } from './moves'

export class MoveTree {
  /** Number of the next move; 0 is the beginning. */
  private next = 1
  private parent = new Int32Array(1024)
  private piece = new Float64Array(1024)
  private block = new Int32Array(1024)
  private split = new Uint8Array(1024)
  private dx = new Float64Array(1024)
  private dy = new Float64Array(1024)

  clear(): void {
    this.next = 1
  }

  /** @param c place of the move among the best ones @returns its number */
  add(parent: number, piece: number, moves: BestMoves, c: number): number {
    if (this.next === this.parent.length) this.grow()
    const id = this.next++
    this.parent[id] = parent
    this.piece[id] = piece
    this.block[id] = moves.block[c]
    this.split[id] = moves.split[c]
    this.dx[id] = moves.dx[c]
    this.dy[id] = moves.dy[c]
    return id
  }

  private grow(): void {
    const n = this.parent.length * 2
    const grown = <T extends Int32Array | Float64Array | Uint8Array>(from: T, to: T): T => {
      to.set(from as never)
      return to
    }
    this.parent = grown(this.parent, new Int32Array(n))
    this.piece = grown(this.piece, new Float64Array(n))
    this.block = grown(this.block, new Int32Array(n))
    this.split = grown(this.split, new Uint8Array(n))
    this.dx = grown(this.dx, new Float64Array(n))
    this.dy = grown(this.dy, new Float64Array(n))
  }

  /** The moves up to this one, the first of them first. */
  pathTo(node: number, blocks: readonly Block[]): Move[] {
    const moves: Move[] = []
    for (let id = node; id > 0; id = this.parent[id]) {
      const at = this.block[id]
      moves.push({
        piece: this.piece[id],
        id,
        block: at < 0 ? null : blocks[at],
        split: this.split[id] as 0 | 1,
        dx: this.dx[id],
        dy: this.dy[id],
      })
    }
    return moves.reverse()
  }
}
