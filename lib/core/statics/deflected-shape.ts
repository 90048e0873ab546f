/**
 * The shape that a piece takes under each load case, and the outline of its parts: what a drawing of it needs.
 * mm, world axes. In: a study. Out: plain data, which a worker can send. Method: the axis of every member by the cubic
 * between its ends (beam.ts deflectedAxis), at rest and moved. Loads between nodes bend the true axis a little more; in
 * a notch it is drawn on from the nodes, not in the middle of what is left.
 * Tests: tests/core/statics/deflected-shape.test.ts
 */
import { worldFaces } from '#lib/core/design/contact'
import { toWorld } from '#lib/core/geometry/frame'
import { length, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { deflectedAxis, makeBeam } from './beam'
import { plainName } from './part-axis'
import type { CaseResultOf } from './run-cases'
import type { StrengthStudy } from './strength'

export interface DrawnPart {
  readonly partId: string
  readonly name: string
  readonly kind: string
  /** Corners of its faces; a part's outline in a view is their hull. */
  readonly corners: readonly Vec3[]
}

export interface DeflectedLine {
  readonly partId: string
  readonly rest: readonly Vec3[]
  /** As many points, where they have moved to. */
  readonly moved: readonly Vec3[]
}

export interface DeflectedShape {
  readonly loadCase: string
  /** The furthest that any drawn point moves. */
  readonly mostMm: number
  readonly lines: readonly DeflectedLine[]
}

/** Points between the nodes of a member. */
const STEPS = 4

export const drawnParts = ({ model }: StrengthStudy): DrawnPart[] =>
  [...model.parts].map(([partId, { axis }]) => ({
    partId,
    name: plainName(axis.part),
    kind: axis.part.kind,
    corners: worldFaces(axis.part).flatMap(({ frame, pieces }) =>
      pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
    ),
  }))

function linesOf({ model }: StrengthStudy, { result }: CaseResultOf): DeflectedLine[] {
  const at = new Map(model.frame.nodes.map((node) => [node.id, node.at]))
  return model.frame.members.flatMap((member): DeflectedLine[] => {
    const [from, to] = [at.get(member.from)!, at.get(member.to)!]
    const beam = makeBeam(member, from, to)
    const part = model.members.get(member.id)
    const [u, v] = [result.nodes.get(member.from), result.nodes.get(member.to)]
    if (!beam || !part || !u || !v) return []
    const moves = new Float64Array([...u, ...v])
    return [
      {
        partId: part.partId,
        rest: deflectedAxis(beam, moves, from, STEPS, 0),
        moved: deflectedAxis(beam, moves, from, STEPS, 1),
      },
    ]
  })
}

/** Of every load case that the piece stands. */
export function deflectedShapes(study: StrengthStudy): DeflectedShape[] {
  return study.results
    .filter(({ result }) => result.status === 'held')
    .map((one) => {
      const lines = linesOf(study, one)
      const mostMm = lines.reduce(
        (most, { rest, moved }) => moved.reduce((m, p, i) => Math.max(m, length(sub(p, rest[i]))), most),
        0,
      )
      return { loadCase: one.loadCase.name, mostMm, lines }
    })
}
