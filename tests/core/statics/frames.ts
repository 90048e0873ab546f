/** Frames for the tests of the solver. mm, N, MPa. */
import { cross, type Vec3 } from '#lib/core/geometry/vec3'
import { solveFrame } from '#lib/core/statics/frame'
import { type CaseResult, DOFS, type FrameMember, type FrameProblem } from '#lib/core/statics/frame-problem'
import { rectangleSection, type Section } from '#lib/core/statics/section'
import { verifyFrame } from '#lib/core/statics/verify-frame'

export const ALL = DOFS

/**
 * Closed forms for bending alone hold for members that do not stretch. What stretch adds goes with 1 / area, so two
 * large areas give the limit.
 */
export const unstretched = (at: (area: number) => number): number => 2 * at(2000) - at(1000)

export const stiffer = (section: Section, areaTimes: number): Section => ({
  ...section,
  areaMm2: section.areaMm2 * areaTimes,
})

export const member = (
  id: string,
  from: string,
  to: string,
  section: Section,
  more: Partial<FrameMember> = {},
): FrameMember => ({ id, from, to, section, eMPa: 12_000, gMPa: 750, ...more })

/** Solves, and fails the test unless the independent check passes. */
export function solved(problem: FrameProblem): readonly CaseResult[] {
  const answer = solveFrame(problem)
  if (!answer.ok) throw new Error(answer.error.message)
  answer.value.cases.forEach((result, i) => {
    if (result.status !== 'held') throw new Error(`case ${result.id} ${result.status}`)
    const faults = verifyFrame(problem, problem.cases[i], result)
    if (faults.length > 0) throw new Error(faults.join('\n'))
    if (!(result.residual < 1e-9)) throw new Error(`residual ${result.residual}`)
  })
  return answer.value.cases
}

export const SQUARE38 = rectangleSection(38, 38)

/** A turn about an axis by an angle (Rodrigues), for checking that nothing depends on where a frame points. */
export const turnBy =
  (axis: Vec3, angle: number) =>
  (v: Vec3): Vec3 => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    const k = cross(axis, v)
    const along = (axis[0] * v[0] + axis[1] * v[1] + axis[2] * v[2]) * (1 - c)
    return [0, 1, 2].map((i) => v[i] * c + k[i] * s + axis[i] * along) as unknown as Vec3
  }
