/**
 * Zones in the way of a block: whether one is, and the smallest strip that lets the block clear them.
 * Shifted sizes and zones as in prepared.ts. Tests: tests/core/cutting/plan-cuts.test.ts
 */
import type { Block } from './blocks'
import type { Zone } from './prepared'

export function zonesTouch(zones: readonly Zone[], x: number, y: number, w: number, h: number): boolean {
  for (let q = 0; q < zones.length; q++) {
    const z = zones[q]
    if (x < z.x1 && x + w > z.x0 && y < z.y1 && y + h > z.y0) return true
  }
  return false
}

/** The first zone that a part of the block, with its corner at (x, y), may not cover. */
export function blocker(zones: readonly Zone[], block: Block, x: number, y: number): Zone | null {
  const m = block.members
  for (let q = 0; q < zones.length; q++) {
    const z = zones[q]
    if (x >= z.x1 || x + block.w <= z.x0 || y >= z.y1 || y + block.h <= z.y0) continue
    for (let p = 0; p < m.length; p += 5) {
      if (z.mask !== null && z.mask[m[p]] === 0) continue
      const px = x + m[p + 1]
      const py = y + m[p + 2]
      if (px < z.x1 && px + m[p + 3] > z.x0 && py < z.y1 && py + m[p + 4] > z.y0) return z
    }
  }
  return null
}

const MOST_TRIES = 64

/**
 * Smallest strip along x that lets the block, with its corner at (x, y), clear the zones in a piece of length w.
 * @param least shortest strip that can be sawn off
 * @returns 0: none
 */
export function dodgeX(
  zones: readonly Zone[],
  block: Block,
  x: number,
  y: number,
  w: number,
  least: number,
): number {
  let dx = 0
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const z = blocker(zones, block, x + dx, y)
    if (z === null) return dx
    dx = Math.max(z.x1 - x, dx + 1, least)
    if (dx + block.w > w) return 0
  }
  return 0
}

/** The same along y, in a piece of width h. */
export function dodgeY(
  zones: readonly Zone[],
  block: Block,
  x: number,
  y: number,
  h: number,
  least: number,
): number {
  let dy = 0
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const z = blocker(zones, block, x, y + dy)
    if (z === null) return dy
    dy = Math.max(z.y1 - y, dy + 1, least)
    if (dy + block.h > h) return 0
  }
  return 0
}
