/**
 * Running dimensions from one zero (ISO 129-1, superimposed): one line with an arrow to each place, its figure at the
 * end of the extension line, read along it. Many places take little room and no sums. mm, view coordinates; text
 * height `h` sets all distances; figures that come too close are spread, each with a bent extension line.
 * Tests: tests/core/design/drawing/ordinates.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { type PlacedDimensions, type Side, textWidth } from './dimension-layout'
import type { DrawnArrow, DrawnLine, DrawnText } from './drawing'

export interface Ordinate {
  readonly id: string
  /** Along the axis of the view. */
  readonly at: number
  readonly text: string
}

export interface OrdinateRow {
  readonly id: string
  readonly side: Side
  /** Where zero lies along the axis. */
  readonly zero: number
  readonly ordinates: readonly Ordinate[]
  /** Border of what is measured, from which extension lines start. */
  readonly edge: number
  /** The line stands beyond this. */
  readonly beyond: number
}

const FIRST = 1
const ARROW = 0.75
const BEND = 0.9
const APART = 1.25
const GAP = 0.3

/** Places as near as may be to where they are wanted, at least `apart` from each other. Wanted in order. */
export function spread(wanted: readonly number[], apart: number): number[] {
  const blocks: { sum: number; from: number; count: number }[] = []
  wanted.forEach((at, i) => {
    blocks.push({ sum: at - i * apart, from: i, count: 1 })
    while (blocks.length > 1) {
      const [a, b] = blocks.slice(-2)
      if (a.sum / a.count <= b.sum / b.count) break
      blocks.splice(-2, 2, { sum: a.sum + b.sum, from: a.from, count: a.count + b.count })
    }
  })
  return blocks.flatMap(({ sum, from, count }) =>
    Array.from({ length: count }, (_, k) => sum / count + (from + k) * apart),
  )
}

/** Nearer than this, in mm, two places are one. */
const SAME_MM = 0.005

/** In order, zero first, each place once. */
function inOrder({ id, zero, ordinates }: OrdinateRow): Ordinate[] {
  const all: Ordinate[] = [{ id: `${id} zero`, at: zero, text: '0' }, ...ordinates]
  return all
    .filter((one, i) => all.findIndex((other) => Math.abs(other.at - one.at) < SAME_MM) === i)
    .sort((a, b) => a.at - b.at)
}

/** Places a row of running dimensions; nothing if there is none but zero. */
export function placeOrdinates(row: OrdinateRow, h: number): PlacedDimensions {
  const all = inOrder(row)
  if (all.length < 2) return { lines: [], arrows: [], texts: [] }
  const isLevel = row.side === 'above' || row.side === 'below'
  const out = row.side === 'above' || row.side === 'right' ? 1 : -1
  const at = (along: number, across: number): Vec2 => (isLevel ? [along, across] : [across, along])
  const lineAt = row.beyond + out * FIRST * h
  const bendAt = lineAt + out * 0.5 * h
  const textAt = bendAt + out * BEND * h
  const places = spread(
    all.map((one) => one.at),
    APART * h,
  )
  const lines: DrawnLine[] = [
    { kind: 'dimension', points: [at(all[0].at, lineAt), at(all[all.length - 1].at, lineAt)] },
  ]
  const arrows: DrawnArrow[] = []
  const texts: DrawnText[] = []
  all.forEach(({ id, at: value, text }, i) => {
    const foot = row.edge + out * GAP * h
    const bent = [at(value, foot), at(value, bendAt), at(places[i], textAt)]
    lines.push({ kind: 'dimension', points: bent })
    if (value === row.zero) lines.push({ kind: 'dimension', points: circle(at(value, lineAt), 0.3 * h) })
    else arrows.push(arrow(at, value, lineAt, value > row.zero ? 1 : -1, h))
    const widthMm = textWidth(text, h)
    texts.push({
      text,
      at: at(places[i], textAt + out * (widthMm / 2 + 0.15 * h)),
      heightMm: h,
      widthMm,
      angleRad: isLevel ? Math.PI / 2 : 0,
      kind: 'dimension',
      dimensionId: id,
    })
  })
  return { lines, arrows, texts }
}

const circle = ([x, y]: Vec2, radius: number): Vec2[] =>
  Array.from({ length: 13 }, (_, i): Vec2 => {
    const turn = (i * Math.PI) / 6
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]
  })

function arrow(
  at: (along: number, across: number) => Vec2,
  tip: number,
  lineAt: number,
  way: 1 | -1,
  h: number,
): DrawnArrow {
  const back = tip - way * ARROW * h
  const half = 0.17 * ARROW * h * 2
  return { points: [at(tip, lineAt), at(back, lineAt + half), at(back, lineAt - half)] }
}
