/**
 * The equations of a frame: which freedoms are free, in which order, and the stiffness that members, joints and
 * springs give them. mm, N, rad, world axes. Made once a structure and used for every load case.
 * Nodes are ordered to keep the matrix narrow (order-nodes.ts); fixed freedoms are left out.
 */
import { cross, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { err, ok, type Result } from '#lib/core/units/result'
import { type Beam, makeBeam } from './beam'
import { DOFS, type FrameFoot, type FrameLink, type FrameProblem, type FrameRefusal } from './frame-problem'
import { emptyProfile, type ProfileMatrix } from './linear-solver'
import { orderNodes } from './order-nodes'

/** Six springs between two nodes: rows that give the relative motion from both nodes' displacements. */
export interface LinkRows {
  readonly link: FrameLink
  readonly nodes: readonly [number, number]
  /** 6 rows of 12. */
  readonly rows: readonly Float64Array[]
}

/** A foot: three rows of 6 that give its motion along x, y, z from its node's displacement. */
export interface FootRows {
  readonly foot: FrameFoot
  readonly node: number
  readonly rows: readonly [Float64Array, Float64Array, Float64Array]
  readonly stiffness: number
}

export interface GroundSpring {
  readonly node: number
  readonly dof: number
  readonly stiffness: number
}

export interface Equations {
  readonly problem: FrameProblem
  readonly nodeIndex: ReadonlyMap<string, number>
  readonly beams: readonly Beam[]
  readonly beamNodes: readonly (readonly [number, number])[]
  readonly links: readonly LinkRows[]
  readonly feet: readonly FootRows[]
  readonly springs: readonly GroundSpring[]
  /** Row of each freedom (6 a node), or -1 if it is fixed. */
  readonly rowOf: Int32Array
  /** Displacement of each fixed freedom. */
  readonly given: Float64Array
  /** Without the feet. */
  readonly matrix: ProfileMatrix
  /** Typical member length, mm: turns moments into forces for comparison. */
  readonly sizeMm: number
}

export const DEFAULT_FOOT_STIFFNESS = 100_000

/** Motion of a point tied to a node along a direction, per unit of the node's six displacements. */
export function pointRow(direction: Vec3, lever: Vec3): Float64Array {
  const turn = cross(lever, direction)
  return Float64Array.of(...direction, ...turn)
}

function linkRows(link: FrameLink, at: readonly [Vec3, Vec3], nodes: readonly [number, number]): LinkRows {
  const x = link.xAxis ?? [1, 0, 0]
  const y = link.yAxis ?? [0, 1, 0]
  const axes = [x, y, cross(x, y)]
  const levers = at.map((p) => sub(link.at, p))
  const shift = axes.map((axis) => {
    const [a, b] = levers.map((lever) => pointRow(axis, lever))
    return Float64Array.of(...a.map((v) => -v), ...b)
  })
  const turn = axes.map((axis) => Float64Array.of(0, 0, 0, -axis[0], -axis[1], -axis[2], 0, 0, 0, ...axis))
  return { link, nodes, rows: [...shift, ...turn] }
}

function footRows(foot: FrameFoot, at: Vec3, node: number): FootRows {
  const lever = sub(foot.at ?? at, at)
  return {
    foot,
    node,
    rows: [pointRow([1, 0, 0], lever), pointRow([0, 1, 0], lever), pointRow([0, 0, 1], lever)],
    stiffness: foot.stiffness ?? DEFAULT_FOOT_STIFFNESS,
  }
}

interface Freedoms {
  readonly rowOf: Int32Array
  readonly given: Float64Array
  readonly count: number
}

function numberFreedoms(
  problem: FrameProblem,
  nodeIndex: ReadonlyMap<string, number>,
  order: readonly number[],
): Freedoms {
  const rowOf = new Int32Array(6 * problem.nodes.length)
  const given = new Float64Array(rowOf.length)
  for (const { node, fixed = [], moved = {} } of problem.supports ?? [])
    for (const dof of fixed) {
      const at = 6 * nodeIndex.get(node)! + DOFS.indexOf(dof)
      rowOf[at] = -1
      given[at] = moved[dof] ?? 0
    }
  let count = 0
  for (const node of order)
    for (let d = 6 * node; d < 6 * node + 6; d++) if (rowOf[d] !== -1) rowOf[d] = count++
  return { rowOf, given, count }
}

/** Rows that two nodes tie together begin no later than the first row of either. */
function profileOf(pairs: readonly (readonly [number, number])[], { rowOf, count }: Freedoms): ProfileMatrix {
  const first = Int32Array.from({ length: count }, (_, i) => i)
  const lowest = (node: number): number => {
    let low = Number.POSITIVE_INFINITY
    for (let d = 6 * node; d < 6 * node + 6; d++) if (rowOf[d] >= 0) low = Math.min(low, rowOf[d])
    return low
  }
  const widen = (node: number, low: number): void => {
    for (let d = 6 * node; d < 6 * node + 6; d++)
      if (rowOf[d] >= 0) first[rowOf[d]] = Math.min(first[rowOf[d]], low)
  }
  for (const [a, b] of pairs) {
    const low = Math.min(lowest(a), lowest(b))
    widen(a, low)
    widen(b, low)
  }
  return emptyProfile(first)
}

/** Adds `k[i] × row_i × row_iᵀ` over the freedoms of some nodes. */
export function addOuter(
  matrix: ProfileMatrix,
  rowOf: Int32Array,
  nodes: readonly number[],
  row: Float64Array,
  k: number,
): void {
  if (k === 0) return
  for (let p = 0; p < row.length; p++) {
    const i = rowOf[6 * nodes[Math.floor(p / 6)] + (p % 6)]
    if (i < 0 || row[p] === 0) continue
    const at = matrix.offset[i]
    for (let q = 0; q < row.length; q++) {
      const j = rowOf[6 * nodes[Math.floor(q / 6)] + (q % 6)]
      if (j >= 0 && j <= i) matrix.values[at + j] += k * row[p] * row[q]
    }
  }
}

function addBeam(
  matrix: ProfileMatrix,
  rowOf: Int32Array,
  beam: Beam,
  nodes: readonly [number, number],
): void {
  for (let p = 0; p < 12; p++) {
    const i = rowOf[6 * nodes[p < 6 ? 0 : 1] + (p % 6)]
    if (i < 0) continue
    for (let q = 0; q < 12; q++) {
      const j = rowOf[6 * nodes[q < 6 ? 0 : 1] + (q % 6)]
      if (j >= 0 && j <= i) matrix.values[matrix.offset[i] + j] += beam.worldStiffness[12 * p + q]
    }
  }
}

/** Numbers the freedoms of a checked frame and adds up its stiffness, feet left out. */
export function makeEquations(problem: FrameProblem): Result<Equations, FrameRefusal> {
  const nodeIndex = new Map(problem.nodes.map((node, i) => [node.id, i]))
  const at = problem.nodes.map((node) => node.at)
  const pairOf = (link: { readonly from: string; readonly to: string }): readonly [number, number] => [
    nodeIndex.get(link.from)!,
    nodeIndex.get(link.to)!,
  ]
  const beams: Beam[] = []
  for (const member of problem.members) {
    const [a, b] = pairOf(member)
    const beam = makeBeam(member, at[a], at[b])
    if (beam === undefined) {
      const message = `Member «${member.id}» is released so that it can move freely between its ends.`
      return err({ kind: 'mechanism', node: member.from, dof: 'rx', message })
    }
    beams.push(beam)
  }
  const beamNodes = problem.members.map(pairOf)
  const links = (problem.links ?? []).map((link) => {
    const nodes = pairOf(link)
    return linkRows(link, [at[nodes[0]], at[nodes[1]]], nodes)
  })
  const pairs = [...beamNodes, ...links.map(({ nodes }) => nodes)]
  const freedoms = numberFreedoms(problem, nodeIndex, orderNodes(neighboursOf(problem.nodes.length, pairs)))
  const loners = problem.nodes.map((_, i) => [i, i] as const)
  const matrix = profileOf([...pairs, ...loners], freedoms)
  beams.forEach((beam, i) => {
    addBeam(matrix, freedoms.rowOf, beam, beamNodes[i])
  })
  for (const { rows, nodes, link } of links)
    rows.forEach((row, i) => {
      addOuter(matrix, freedoms.rowOf, nodes, row, link.stiffness[i])
    })
  const springs = groundSprings(problem, nodeIndex)
  for (const { node, dof, stiffness } of springs) {
    const row = freedoms.rowOf[6 * node + dof]
    if (row >= 0) matrix.values[matrix.offset[row] + row] += stiffness
  }
  const feet = (problem.feet ?? []).map((foot) =>
    footRows(foot, at[nodeIndex.get(foot.node)!], nodeIndex.get(foot.node)!),
  )
  const sizeMm = beams.reduce((sum, beam) => sum + beam.lengthMm, 0) / beams.length
  return ok({ problem, nodeIndex, beams, beamNodes, links, feet, springs, ...freedoms, matrix, sizeMm })
}

function neighboursOf(count: number, pairs: readonly (readonly [number, number])[]): number[][] {
  const sets = Array.from({ length: count }, () => new Set<number>())
  for (const [a, b] of pairs) {
    if (a === b) continue
    sets[a].add(b)
    sets[b].add(a)
  }
  return sets.map((set) => [...set])
}

function groundSprings(problem: FrameProblem, nodeIndex: ReadonlyMap<string, number>): GroundSpring[] {
  return (problem.supports ?? []).flatMap(({ node, springs = {} }) =>
    Object.entries(springs).map(([dof, stiffness]) => ({
      node: nodeIndex.get(node)!,
      dof: (DOFS as readonly string[]).indexOf(dof),
      stiffness: stiffness as number,
    })),
  )
}

/** Adds a force at a point tied to a node to the six forces at the node. */
export function addForceAt(out: Float64Array, node: number, nodeAt: Vec3, force: Vec3, point: Vec3): void {
  const moment = cross(sub(point, nodeAt), force)
  for (let i = 0; i < 3; i++) {
    out[6 * node + i] += force[i]
    out[6 * node + 3 + i] += moment[i]
  }
}

export const dotRow = (row: Float64Array, u: Float64Array, node: number): number => {
  let sum = 0
  for (let i = 0; i < row.length; i++) sum += row[i] * u[6 * node + i]
  return sum
}
