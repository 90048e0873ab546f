import { describe, expect, it } from 'vitest'
import { type JointPlan, joinParts } from '#lib/core/design/join-parts'
import type { Part } from '#lib/core/design/model'
import { boardBetween } from '#lib/core/design/placed-part'
import { screwFaults, screwGapMm } from '#lib/core/design/screws'
import type { Vec3 } from '#lib/core/geometry/vec3'

const board = (id: string, min: Vec3, max: Vec3, grain: 'x' | 'y' | 'z', faceA: Vec3): Part =>
  boardBetween(
    { id, name: id, kind: id, look: { finish: 'clear', species: 'any' } },
    { min, max, grain, faceA },
  )
const post = board('post', [0, 0, 0], [40, 40, 500], 'z', [1, 0, 0])
const rail = board('rail', [0, -19, 200], [300, 0, 260], 'x', [0, -1, 0])
const side = board('side', [-19, 0, 200], [0, 300, 260], 'y', [-1, 0, 0])
const plan = (more: Partial<JointPlan>): JointPlan => ({
  id: 'j',
  kind: 'onFace',
  a: 'rail',
  b: 'post',
  glued: true,
  screws: { count: 2, lengthMm: 45, shankMm: 4.2, parameter: 'screwLength', called: 'A screw' },
  bearing: 'width',
  ...more,
})
function joined(parts: Part[], plans: JointPlan[]) {
  const made = joinParts(parts, plans)
  if (!made.ok) throw new Error(JSON.stringify(made.error))
  return made.value
}

describe('joining', () => {
  it('finds the contact and drives the screws square through the first part into the second', () => {
    const [joint] = joined([post, rail], [plan({})])
    expect(joint.contact.areaMm2).toBeCloseTo(40 * 60, 9)
    expect(joint).toMatchObject({ grainAtA: 'long', grainAtB: 'long' })
    for (const screw of joint.screws) {
      expect(screw.head[1]).toBeCloseTo(-19, 9)
      expect(screw.tip[1]).toBeCloseTo(26, 9)
      expect(screw.head[2]).toBe(screw.tip[2])
    }
    expect(screwFaults([post, rail], joint.screws)).toEqual([])
  })

  it('moves screws aside that would meet those of a joint round the corner', () => {
    const joints = joined([post, rail, side], [plan({}), plan({ id: 'k', a: 'side' })])
    const [first, second] = joints.map((joint) => joint.screws)
    for (const a of first) for (const b of second) expect(screwGapMm(a, b)).toBeGreaterThanOrEqual(4)
    expect(screwFaults([post, rail, side], [...first, ...second])).toEqual([])
  })

  it('leaves a screw that is too long where the pattern wants it, for screwFaults to name', () => {
    const long = { count: 1, lengthMm: 90, shankMm: 4.2, parameter: 'screwLength', called: 'A screw' }
    const [joint] = joined([post, rail], [plan({ screws: long })])
    expect(screwFaults([post, rail], joint.screws)).toMatchObject([{ kind: 'comesOut' }])
  })

  it('refuses by name where two parts do not touch, or hardly', () => {
    const apart = board('rail', [0, -20, 200], [300, -1, 260], 'x', [0, -1, 0])
    const byCorner = board('rail', [38, -19, 200], [300, 0, 240], 'x', [0, -1, 0])
    for (const rail of [apart, byCorner]) {
      const made = joinParts([post, rail], [plan({})])
      expect(!made.ok && made.error).toMatchObject([
        { parameter: 'width', message: expect.stringContaining('touch') },
      ])
    }
    expect(() => joinParts([post], [plan({})])).toThrow(RangeError)
  })

  it('sets one screw in the middle, and looks only at the patch that faces the way asked for', () => {
    const one = { count: 1, lengthMm: 45, shankMm: 4.2, parameter: 'p', called: 'A screw' }
    const [joint] = joined([post, rail], [plan({ screws: one, facing: [0, 1, 0] })])
    expect(joint.screws[0].head).toEqual([20, -19, 230])
    expect(joinParts([post, rail], [plan({ facing: [0, -1, 0] })]).ok).toBe(false)
  })
})
