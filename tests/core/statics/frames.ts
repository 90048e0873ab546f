/** Frames for the tests of the solver. mm, N, MPa. */
import { cross, type Vec3 } from '#lib/core/geometry/vec3'
import { solveFrame } from '#lib/core/statics/frame'
import {
  type CaseResult,
  DOFS,
  type FrameMember,
  type FrameProblem,
  type FrameSupport,
} from '#lib/core/statics/frame-problem'
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

export const PIN: FrameSupport['fixed'] = ['ux', 'uy', 'uz', 'rx', 'rz']
export const ROLLER: FrameSupport['fixed'] = ['uy', 'uz', 'rx', 'rz']

/** A beam along x in two pieces, from 0 to `l`. */
export const beamOf = (
  l: number,
  section: ReturnType<typeof rectangleSection>,
  eMPa: number,
  ends: [FrameSupport['fixed'], FrameSupport['fixed']],
) => ({
  nodes: [
    { id: 'a', at: [0, 0, 0] as Vec3 },
    { id: 'm', at: [l / 2, 0, 0] as Vec3 },
    { id: 'b', at: [l, 0, 0] as Vec3 },
  ],
  members: [
    { ...member('1', 'a', 'm', section), eMPa },
    { ...member('2', 'm', 'b', section), eMPa },
  ],
  supports: [
    { node: 'a', fixed: ends[0] },
    { node: 'b', fixed: ends[1] },
  ],
})

/** Portal in the plane x-z, legs 38 × 38 by 600, beam 20 × 60 by 400; pinned or fixed feet. */
export function portal(
  isFixed: boolean,
  more: Partial<FrameProblem> = {},
  knee?: number,
  areaTimes = 1,
): FrameProblem {
  const leg = stiffer(SQUARE38, areaTimes)
  const beam = stiffer(rectangleSection(60, 20), areaTimes)
  const end = knee === undefined ? {} : { endFrom: { rz: knee }, endTo: { rz: knee } }
  return {
    nodes: [
      { id: 'footLeft', at: [0, 0, 0] },
      { id: 'kneeLeft', at: [0, 0, 600] },
      { id: 'middle', at: [200, 0, 600] },
      { id: 'kneeRight', at: [400, 0, 600] },
      { id: 'footRight', at: [400, 0, 0] },
    ],
    members: [
      member('legLeft', 'footLeft', 'kneeLeft', leg, { yAxis: [1, 0, 0] }),
      member('beam1', 'kneeLeft', 'middle', beam, {
        yAxis: [0, 0, 1],
        ...(knee === undefined ? {} : { endFrom: end.endFrom }),
      }),
      member('beam2', 'middle', 'kneeRight', beam, {
        yAxis: [0, 0, 1],
        ...(knee === undefined ? {} : { endTo: end.endTo }),
      }),
      member('legRight', 'footRight', 'kneeRight', leg, { yAxis: [1, 0, 0] }),
    ],
    supports: [
      ...['footLeft', 'footRight'].map((node) => ({
        node,
        fixed: isFixed ? ALL : (['ux', 'uy', 'uz', 'rx', 'rz'] as const),
      })),
      { node: 'middle', fixed: ['uy'] as const },
    ],
    cases: [
      {
        id: 'sway',
        nodeLoads: [
          { node: 'kneeLeft', forceN: [50, 0, 0] },
          { node: 'kneeRight', forceN: [50, 0, 0] },
        ],
      },
      { id: 'down', nodeLoads: [{ node: 'middle', forceN: [0, 0, -1000] }] },
    ],
    ...more,
  }
}
/** Two legs of 38 × 38, hinged at the top 600 mm up, pinned feet. @param rakeRad of each leg, from upright */
export function aFrame(loadN: number, rakeRad: number): FrameProblem {
  const out = 600 * Math.tan(rakeRad)
  const hinged = { endFrom: { ry: 0, rz: 0 } }
  return {
    nodes: [
      { id: 'left', at: [-out, 0, 0] },
      { id: 'right', at: [out, 0, 0] },
      { id: 'top', at: [0, 0, 600] },
    ],
    members: [
      member('legLeft', 'left', 'top', SQUARE38, hinged),
      member('legRight', 'right', 'top', SQUARE38, { ...hinged, endTo: { ry: 0, rz: 0 } }),
    ],
    supports: ['left', 'right'].map((node) => ({ node, fixed: ALL })),
    cases: [{ id: 'p', nodeLoads: [{ node: 'top', forceN: [0, 0, -loadN] }] }],
  }
}

/** Along x from a wall, loaded downwards at its tip. */
export const cantilever = (lengthMm: number, section: Section, downN: number): FrameProblem => ({
  nodes: [
    { id: 'wall', at: [0, 0, 0] },
    { id: 'tip', at: [lengthMm, 0, 0] },
  ],
  members: [member('1', 'wall', 'tip', section)],
  supports: [{ node: 'wall', fixed: ALL }],
  cases: [{ id: 'p', nodeLoads: [{ node: 'tip', forceN: [0, 0, -downN] }] }],
})
