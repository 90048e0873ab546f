/**
 * What of a part is worth a full-size template: stretches of its sides with turned ends, notches or holes, and ends
 * that are bored. Blank stretches between are left out; each template says where it begins. mm, at full size.
 * In: the lines of a part (draw-part.ts). Out: lines about each stretch. Tests: tests/documents/templates.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import { FACE_WORDS } from '../face-words'
import type { Part } from '../model'
import { clippedTo } from './clip'
import type { PartShape } from './draw-part'
import { type Bounds2, type DrawnLine, project } from './drawing'
import { arrisOf, notchesOn, type SideView, type Stretch, shouldersAt, spanOf } from './part-view'

export interface Template {
  /** «face A», «end B». */
  readonly side: string
  /** From the corner of end A at the lower border to where the stretch begins and ends, along the grain; absent for an end. */
  readonly stretch?: Stretch
  /** Whether the stretch begins at end A and ends at end B. */
  readonly atEndA: boolean
  readonly atEndB: boolean
  readonly lines: readonly DrawnLine[]
  readonly bounds: Bounds2
}

/** Left around what is worked. */
const AROUND_MM = 12
/** Blank stretches shorter than this are kept, and an end nearer than this is taken along. */
const JOIN_MM = 70

/** What of lines lies within a box; a line that stays inside is one line still. */
export function linesWithin(lines: readonly DrawnLine[], box: Bounds2): DrawnLine[] {
  return lines.flatMap(({ kind, points }) => {
    const runs: Vec2[][] = []
    points.slice(1).forEach((point, i) => {
      const piece = clippedTo([points[i], point], box)
      if (piece === undefined) return
      const last = runs[runs.length - 1]
      // Unclipped corners are the very same points.
      if (last !== undefined && last[last.length - 1] === piece[0]) last.push(piece[1])
      else runs.push([...piece])
    })
    return runs.map((run): DrawnLine => ({ kind, points: run }))
  })
}

/** Stretches of a side on which something is worked. */
function workedStretches(part: Part, { face, view }: Side): Stretch[] {
  const [top, bottom] = (['top', 'bottom'] as const).map((border) => arrisOf(part, face, border))
  const spans = [spanOf(part, top), spanOf(part, bottom)]
  const ends = ([0, 1] as const).flatMap((i): Stretch[] => {
    const [a, b] = spans.map((span) => span[i])
    return Math.abs(a - b) < 0.01 ? [] : [[Math.min(a, b), Math.max(a, b)]]
  })
  const notches = notchesOn(part, face).flatMap((notch): Stretch[] => {
    const xs = [...shouldersAt(part, notch, top), ...shouldersAt(part, notch, bottom)]
    return xs.length === 0 ? [] : [[Math.min(...xs), Math.max(...xs)]]
  })
  const holes = view.holes.map((hole): Stretch => {
    const [x] = project(view.axes, hole.point)
    return [x, x]
  })
  return [...ends, ...notches, ...holes]
}

interface Side {
  readonly face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB'
  readonly view: SideView
}

/** Widened, joined where they are close, and out to an end that is near. */
function joined(stretches: readonly Stretch[], [from, to]: Stretch): Stretch[] {
  const out: [number, number][] = []
  for (const [a, b] of [...stretches].sort((p, q) => p[0] - q[0])) {
    const [low, high] = [a - AROUND_MM, b + AROUND_MM]
    const last = out[out.length - 1]
    if (last !== undefined && low - last[1] < JOIN_MM) last[1] = Math.max(last[1], high)
    else out.push([low, high])
  }
  return out.map(([low, high]) => [low - from < JOIN_MM ? from : low, to - high < JOIN_MM ? to : high])
}

const isDrawn = ({ kind }: DrawnLine): boolean => kind === 'visible'

/** A cross at each hole, by which its middle is pricked. */
const crosses = ({ holes, axes }: SideView): DrawnLine[] =>
  holes.flatMap((hole): DrawnLine[] => {
    const [x, y] = project(axes, hole.point)
    const arm = Math.max(3, 0.8 * (hole.countersinkDiameterMm ?? hole.diameterMm))
    return [
      {
        kind: 'axis',
        points: [
          [x - arm, y],
          [x + arm, y],
        ],
      },
      {
        kind: 'axis',
        points: [
          [x, y - arm],
          [x, y + arm],
        ],
      },
    ]
  })

function sideTemplates(part: Part, side: Side): Template[] {
  const { view, face } = side
  const [from, to] = [view.object.min[0], view.object.max[0]]
  const zero = spanOf(part, arrisOf(part, face, 'bottom'))[0]
  const drawn = [...view.lines.filter(isDrawn), ...crosses(view)]
  return joined(workedStretches(part, side), [from, to]).map(([low, high]) => {
    const bounds: Bounds2 = { min: [low, view.object.min[1]], max: [high, view.object.max[1]] }
    return {
      side: FACE_WORDS[face],
      stretch: [low - zero, high - zero],
      atEndA: low <= from,
      atEndB: high >= to,
      lines: linesWithin(drawn, bounds),
      bounds,
    }
  })
}

/** Templates of a part: its long sides, then its ends. */
export function templatesOf({ part, long, ends }: PartShape): Template[] {
  return [
    ...long.flatMap((view) => sideTemplates(part, { face: view.face, view })),
    ...ends.map((view): Template => {
      const lines = [...view.lines.filter(isDrawn), ...crosses(view)]
      return { side: FACE_WORDS[view.face], atEndA: true, atEndB: true, lines, bounds: view.object }
    }),
  ]
}
