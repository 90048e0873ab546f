/**
 * A space frame and what comes out of it. mm, N, N mm, MPa, rad; z is up, so a foot pushes along +z.
 * Six degrees of freedom a node. A member's local x runs from its first end to its second, its local y as near to
 * `yAxis` as being square to x allows. Plain data: this is also what `npm run -s core -- frame` reads.
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Section } from './section'

export const DOFS = ['ux', 'uy', 'uz', 'rx', 'ry', 'rz'] as const
export type Dof = (typeof DOFS)[number]

/** 0: released. Above 0: a spring, N/mm or N mm/rad. Absent: rigid. */
export type EndSprings = Readonly<Partial<Record<Dof, number>>>

export interface FrameNode {
  readonly id: string
  readonly at: Vec3
}

export interface FrameMember {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly section: Section
  readonly eMPa: number
  readonly gMPa: number
  /** Absent: up, or y for an upright member. */
  readonly yAxis?: Vec3
  /** From the node to where the member's axis really begins, in world axes. Rigid. */
  readonly offsetFrom?: Vec3
  readonly offsetTo?: Vec3
  /** In the member's own axes. */
  readonly endFrom?: EndSprings
  readonly endTo?: EndSprings
}

/** Six springs between two nodes that meet at a point, each node tied to that point rigidly: a joint. */
export interface FrameLink {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly at: Vec3
  /** Unit and square to each other; the third follows by the right hand. Absent: world axes. */
  readonly xAxis?: Vec3
  readonly yAxis?: Vec3
  /** Along and about x, y, z of those axes: N/mm three times, N mm/rad three times. 0: not held. */
  readonly stiffness: readonly [number, number, number, number, number, number]
}

export interface FrameSupport {
  readonly node: string
  readonly fixed?: readonly Dof[]
  readonly springs?: EndSprings
  /** Displacement given to a fixed degree of freedom, mm or rad. */
  readonly moved?: Readonly<Partial<Record<Dof, number>>>
}

/** A foot on a level floor: it can push but not pull, and holds sideways up to friction times the push. */
export interface FrameFoot {
  readonly id: string
  readonly node: string
  /** Where it touches; absent: at the node. */
  readonly at?: Vec3
  /** Coefficient; absent: a stop holds it sideways, however hard it is pushed, and while it lifts. */
  readonly friction?: number
  /** Stiffness of floor and foot, N/mm. Absent: 100 000. */
  readonly stiffness?: number
}

export interface NodeLoad {
  readonly node: string
  readonly forceN?: Vec3
  readonly momentNmm?: Vec3
  /** Where the force acts, tied to the node rigidly; absent: at the node. */
  readonly at?: Vec3
}

export type MemberLoad =
  | { readonly kind: 'uniform'; readonly member: string; readonly forcePerMm: Vec3 }
  | {
      readonly kind: 'point'
      readonly member: string
      /** From the member's first end along its axis. */
      readonly atMm: number
      readonly forceN: Vec3
      /** About the member's own axis. */
      readonly torqueNmm?: number
    }

export interface FrameCase {
  readonly id: string
  readonly nodeLoads?: readonly NodeLoad[]
  readonly memberLoads?: readonly MemberLoad[]
}

export interface FrameProblem {
  readonly nodes: readonly FrameNode[]
  readonly members: readonly FrameMember[]
  readonly links?: readonly FrameLink[]
  readonly supports?: readonly FrameSupport[]
  readonly feet?: readonly FrameFoot[]
  readonly cases: readonly FrameCase[]
}

export type Six = readonly [number, number, number, number, number, number]

/** What a node or a member end feels: force N and moment N mm, or displacement mm and rotation rad. */
export interface MemberEnds {
  /** Acting on the member at its ends, in its own axes. */
  readonly from: Six
  readonly to: Six
}

export interface FootReaction {
  readonly forceN: Vec3
  readonly state: 'holds' | 'slips' | 'lifted'
}

/**
 * held: in equilibrium. tips: no set of feet can carry it upright. slides: friction cannot hold it.
 * unsettled: the feet went on changing between lifted, slipping and holding.
 */
export type CaseStatus = 'held' | 'tips' | 'slides' | 'unsettled'

export interface CaseResult {
  readonly id: string
  readonly status: CaseStatus
  /** mm and rad, world axes. */
  readonly nodes: ReadonlyMap<string, Six>
  readonly members: ReadonlyMap<string, MemberEnds>
  /** What the first node's side does to the second's, in the link's axes, at its point. */
  readonly links: ReadonlyMap<string, Six>
  /** Supports' reactions on the structure, world axes, at the node. */
  readonly reactions: ReadonlyMap<string, Six>
  readonly feet: ReadonlyMap<string, FootReaction>
  /** Greatest force or moment (over a characteristic length) left unbalanced at a node, as a share of the load. */
  readonly residual: number
}

/** Where and how a structure can move without resistance. */
export interface Mechanism {
  readonly kind: 'mechanism'
  readonly node: string
  readonly dof: Dof
  readonly message: string
}
export interface BadFrame {
  readonly kind: 'badInput'
  readonly message: string
}
export type FrameRefusal = Mechanism | BadFrame

export interface FrameSolution {
  readonly cases: readonly CaseResult[]
  /** Estimate of the 1-norm condition number of the scaled stiffness matrix with every foot holding. */
  readonly condition: number
  readonly freedoms: number
}
