import { describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { length, sub } from '#lib/core/geometry/vec3'
import { deflectedShapes, drawnParts } from '#lib/core/statics/deflected-shape'
import { studyStrength } from '#lib/core/statics/strength'

function studyOf() {
  const model = counterSeat.build({ species: 'redOak', abreast: 1 })
  if (!model.ok) throw new Error('the design does not build')
  const study = studyStrength(model.value)
  if (!study.ok) throw new Error(study.error)
  return study.value
}
const study = studyOf()

describe('the shape under load', () => {
  const shapes = deflectedShapes(study)

  test('every case that is held has one, and the seat sinks when it is sat on', () => {
    expect(shapes.map(({ loadCase }) => loadCase)).toEqual(study.results.map((one) => one.loadCase.name))
    const sat = shapes.find(({ loadCase }) => loadCase === 'Sat on, in the middle')!
    const top = Math.max(...sat.lines.flatMap(({ rest }) => rest.map((p) => p[2])))
    const seat = sat.lines.filter(({ rest }) => rest[0][2] > top - 20)
    const drop = seat.flatMap(({ rest, moved }) => rest.map((p, i) => moved[i][2] - p[2]))
    expect(Math.min(...drop)).toBeLessThan(-0.05)
  })

  test('ends of members lie where the frame has moved their nodes to', () => {
    const [one] = study.results
    const at = new Map(study.model.frame.nodes.map((node) => [node.id, node.at]))
    study.model.frame.members.forEach((member, i) => {
      const d = one.result.nodes.get(member.to)!
      const line = shapes[0].lines[i]
      const end = line.moved[line.moved.length - 1]
      const node = at.get(member.to)!
      // Members in a notch run beside their nodes: a turn of the node moves their end a little otherwise.
      if (member.offsetTo === undefined)
        expect(length(sub(end, [node[0] + d[0], node[1] + d[1], node[2] + d[2]]))).toBeLessThan(1e-6)
    })
  })

  test('a push to the right moves most of the piece to the right, and mostMm is the greatest', () => {
    const pushed = shapes.find(({ loadCase }) => loadCase === 'Pushed to the right while sat on')!
    const moves = pushed.lines.flatMap(({ rest, moved }) => rest.map((p, i) => sub(moved[i], p)))
    expect(moves.reduce((sum, m) => sum + m[0], 0)).toBeGreaterThan(0)
    expect(pushed.mostMm).toBeCloseTo(Math.max(...moves.map(length)), 9)
  })

  test('outlines are those of the first piece alone, from floor to seat', () => {
    const parts = drawnParts(study)
    expect(parts.map(({ partId }) => partId)).toEqual([...study.model.parts.keys()])
    const heights = parts.flatMap(({ corners }) => corners.map((p) => p[2]))
    expect(Math.min(...heights)).toBeCloseTo(0, 1)
    expect(Math.max(...heights)).toBeCloseTo(study.report.tipping!.piece.surfaceHeightMm, 1)
  })
})
