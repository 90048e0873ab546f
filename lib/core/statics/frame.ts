/**
 * Solves space frames: joints that give, rigid offsets, feet that may lift or slip, any number of load cases.
 * In: FrameProblem (mm, N, MPa). Out: for each case displacements, end forces, reactions and how well they balance;
 * or a refusal in a sentence: bad input, or a mechanism by the name of the node that moves. Method: direct stiffness,
 * first order, linear wood; feet by iteration over their springs (lifted, slipping, holding; Coulomb), in the few
 * freedoms of the feet alone. Not covered: buckling, large movement, a part that pulls loose.
 * Cost: see linear-solver.ts; one factor a structure. Tests: tests/core/statics/frame.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { err, ok, type Result } from '#lib/core/units/result'
import { endForces, fixedEndForces, toNodes } from './beam'
import { frameFault } from './check-frame'
import { eliminate, type FootSprings, settleFeet, TRACE } from './feet'
import {
  type CaseResult,
  type CaseStatus,
  DOFS,
  type FootReaction,
  type FrameCase,
  type FrameProblem,
  type FrameRefusal,
  type FrameSolution,
  type MemberEnds,
  type MemberLoad,
  type Six,
} from './frame-problem'
import { type Factor, type LinearSolver, multiply, type ProfileMatrix, profileSolver } from './linear-solver'
import { addForceAt, addOuter, dotRow, type Equations, type FootRows, makeEquations } from './stiffness'

type FootState = 'holds' | 'slips' | 'lifted'

/** A case is not held if traces carry more than this share of the load. */
const TRACE_LOAD = 1e-5

/**
 * The structure with every foot holding, factored, and how its feet answer. Feet that lift or slip change only
 * their own springs, so any state of them is a small system in their motions w (Sherman-Morrison-Woodbury):
 * w + G (change of springs · w) = w0, with G = Bᵀ K⁻¹ B.
 */
interface Prepared {
  readonly equations: Equations
  /** With the feet's springs. */
  readonly matrix: ProfileMatrix
  readonly factor: Factor
  /** Three rows a foot: x, y, z. */
  readonly answers: readonly Float64Array[]
  readonly coupling: readonly Float64Array[]
}

const NAMES = {
  ux: 'move along x',
  uy: 'move along y',
  uz: 'move up and down',
  rx: 'turn about x',
  ry: 'turn about y',
  rz: 'turn about z',
} as const

/** The freedom that a motion moves most, by name. */
function nameMotion({ problem, rowOf, sizeMm }: Equations, motion: Float64Array): FrameRefusal {
  let worst = 0
  let most = -1
  rowOf.forEach((row, at) => {
    const size = row < 0 ? 0 : Math.abs(motion[row]) * (at % 6 < 3 ? 1 : sizeMm)
    if (size > most * (1 + 1e-9)) {
      most = size
      worst = at
    }
  })
  const node = problem.nodes[Math.floor(worst / 6)].id
  const dof = DOFS[worst % 6]
  const message = `Node «${node}» can ${NAMES[dof]} without resistance: the frame is a mechanism.`
  return { kind: 'mechanism', node, dof, message }
}

/** A foot's row over all free freedoms. */
function spreadRow(e: Equations, node: number, row: Float64Array): Float64Array {
  const out = new Float64Array(e.matrix.size)
  for (let d = 0; d < 6; d++) {
    const at = e.rowOf[6 * node + d]
    if (at >= 0) out[at] += row[d]
  }
  return out
}

function prepare(e: Equations, solver: LinearSolver): Result<Prepared, FrameRefusal> {
  const matrix: ProfileMatrix = { ...e.matrix, values: e.matrix.values.slice() }
  for (const { rows, node, stiffness } of e.feet)
    for (const row of rows) addOuter(matrix, e.rowOf, [node], row, stiffness)
  const outcome = solver.factor(matrix)
  if (!outcome.ok) return err(nameMotion(e, outcome.motion))
  const rows = e.feet.flatMap(({ rows: three, node }) => three.map((row) => spreadRow(e, node, row)))
  const answers = rows.map((row) => outcome.factor.solve(row, true))
  const shares = answers.map((answer) => footShares(e, answer))
  const coupling = rows.map((_, i) => Float64Array.from(shares, (share) => share[i]))
  return ok({ equations: e, matrix, factor: outcome.factor, answers, coupling })
}

interface Loading {
  readonly case: FrameCase
  /** Six a node. */
  readonly atNodes: Float64Array
  /** Loads and fixed-end forces by member, for those that have any. */
  readonly byMember: ReadonlyMap<
    number,
    { readonly loads: readonly MemberLoad[]; readonly fixed: Float64Array }
  >
  /** Sum of the sizes of all forces, with moments over a typical length. */
  readonly size: number
}

function loadingOf(e: Equations, one: FrameCase, memberIndex: ReadonlyMap<string, number>): Loading {
  const atNodes = new Float64Array(6 * e.problem.nodes.length)
  for (const load of one.nodeLoads ?? []) {
    const node = e.nodeIndex.get(load.node)!
    const at = e.problem.nodes[node].at
    if (load.forceN !== undefined) addForceAt(atNodes, node, at, load.forceN, load.at ?? at)
    for (let i = 0; i < 3; i++) atNodes[6 * node + 3 + i] += load.momentNmm?.[i] ?? 0
  }
  const lists = new Map<number, MemberLoad[]>()
  for (const load of one.memberLoads ?? []) {
    const at = memberIndex.get(load.member)!
    const list = lists.get(at)
    if (list === undefined) lists.set(at, [load])
    else list.push(load)
  }
  const byMember = new Map(
    [...lists].map(([at, loads]) => [at, { loads, fixed: fixedEndForces(e.beams[at], loads) }]),
  )
  let size = sizeOf(atNodes, e.sizeMm)
  for (const { fixed } of byMember.values()) size += sizeOf(fixed, e.sizeMm)
  return { case: one, atNodes, byMember, size }
}

/** Sum of the sizes of forces, six by six, with moments over a length. */
function sizeOf(forces: Float64Array, overMm: number): number {
  let sum = 0
  for (let i = 0; i < forces.length; i++) sum += Math.abs(forces[i]) / (i % 6 < 3 ? 1 : overMm)
  return sum
}

/** Forces on the free freedoms: loads, less what members need to stand still, less what moved supports put in. */
function rightSide(e: Equations, loading: Loading): Float64Array {
  const forces = loading.atNodes.slice()
  const isMoved = e.given.some((value) => value !== 0)
  e.beams.forEach((beam, m) => {
    const fixed = loading.byMember.get(m)?.fixed
    const nodes = e.beamNodes[m]
    if (fixed === undefined && !isMoved) return
    const atEnds = fixed === undefined ? new Float64Array(12) : toNodes(beam, fixed)
    const u = nodeDisplacements(e.given, nodes)
    if (isMoved)
      for (let i = 0; i < 12; i++)
        for (let j = 0; j < 12; j++) atEnds[i] += beam.worldStiffness[12 * i + j] * u[j]
    for (let i = 0; i < 12; i++) forces[6 * nodes[i < 6 ? 0 : 1] + (i % 6)] -= atEnds[i]
  })
  if (isMoved)
    for (const { link, rows, nodes } of e.links) {
      const u = nodeDisplacements(e.given, nodes)
      rows.forEach((row, k) => {
        const force = link.stiffness[k] * row.reduce((sum, value, i) => sum + value * u[i], 0)
        for (let i = 0; i < 12; i++) forces[6 * nodes[i < 6 ? 0 : 1] + (i % 6)] -= force * row[i]
      })
    }
  return freeOf(e, forces)
}

function nodeDisplacements(
  u: Float64Array,
  nodes: readonly [number, number],
  out = new Float64Array(12),
): Float64Array {
  for (let i = 0; i < 12; i++) out[i] = u[6 * nodes[i < 6 ? 0 : 1] + (i % 6)]
  return out
}

interface Settled {
  readonly u: Float64Array
  /** Springs of each foot: sideways and up. */
  readonly springs: readonly FootSprings[]
  readonly states: readonly FootState[]
  readonly status: CaseStatus
}

/** Push on the floor and motion of one foot. */
function footMotion({ rows, node }: FootRows, u: Float64Array): Vec3 {
  return [dotRow(rows[0], u, node), dotRow(rows[1], u, node), dotRow(rows[2], u, node)]
}

/** Change of each foot spring from holding, three a foot. */
const changes = (e: Equations, springs: readonly FootSprings[]): Float64Array =>
  Float64Array.from(
    springs.flatMap(({ sideways, up }, i) => {
      const { stiffness } = e.feet[i]
      return [sideways - stiffness, sideways - stiffness, up - stiffness]
    }),
  )

/** Motions of the feet when their springs change: (I + G d) w = w0. */
const feetMotions = (coupling: readonly Float64Array[], d: Float64Array, start: Float64Array): Float64Array =>
  eliminate(
    coupling.map((row, i) => row.map((value, j) => (i === j ? 1 : 0) + value * d[j])),
    start.slice(),
  )

/**
 * Refines against the true equations, with changed foot springs if there are any.
 * @param held the solution with all of them held, not refined
 */
function solveWith(
  prepared: Prepared,
  d: Float64Array,
  right: Float64Array,
  held: Float64Array,
): Float64Array {
  const e = prepared.equations
  const isChanged = d.some((value) => value !== 0)
  const release = (x: Float64Array): Float64Array => {
    if (!isChanged) return x
    const w = feetMotions(prepared.coupling, d, footShares(e, x))
    prepared.answers.forEach((answer, i) => {
      const by = d[i] * w[i]
      if (by !== 0) for (let j = 0; j < x.length; j++) x[j] -= by * answer[j]
    })
    return x
  }
  const x = release(held.slice())
  for (let round = 0; round < (isChanged ? 2 : 1); round++) {
    const residual = multiply(prepared.matrix, x)
    const w = footShares(e, x)
    for (let i = 0; i < residual.length; i++) residual[i] = right[i] - residual[i]
    e.feet.forEach(({ rows, node }, f) => {
      rows.forEach((row, axis) => {
        const by = d[3 * f + axis] * w[3 * f + axis]
        for (let k = 0; k < 6; k++) {
          const at = e.rowOf[6 * node + k]
          if (at >= 0) residual[at] -= by * row[k]
        }
      })
    })
    const correction = release(prepared.factor.solve(residual, true))
    for (let i = 0; i < x.length; i++) x[i] += correction[i]
  }
  return x
}

/** What free freedoms contribute to the feet's motions. */
function footShares(e: Equations, x: Float64Array): Float64Array {
  const out = new Float64Array(3 * e.feet.length)
  e.feet.forEach(({ rows, node }, f) => {
    rows.forEach((row, axis) => {
      for (let k = 0; k < 6; k++) {
        const at = e.rowOf[6 * node + k]
        if (at >= 0) out[3 * f + axis] += row[k] * x[at]
      }
    })
  })
  return out
}

/** Finds what the feet do, then the whole structure's motion with springs that do the same. */
function settle(prepared: Prepared, loading: Loading): Settled {
  const e = prepared.equations
  const right = rightSide(e, loading)
  const given = e.feet.flatMap((foot) => [...footMotion(foot, e.given)])
  const held = prepared.factor.solve(right, true)
  const start = footShares(e, held).map((value, i) => value + given[i])
  const { springs, isSettled } = settleFeet(e.feet, prepared.coupling, start, loading.size)
  const u = spread(e, solveWith(prepared, changes(e, springs), right, held))
  const states = springs.map(({ sideways, up }, i): FootState => {
    const { stiffness } = e.feet[i]
    if (up < stiffness) return 'lifted'
    return sideways < stiffness * (1 - 1e-9) ? 'slips' : 'holds'
  })
  return { u, springs, states, status: statusOf(e, u, springs, states, loading.size, isSettled) }
}

function statusOf(
  e: Equations,
  u: Float64Array,
  springs: readonly FootSprings[],
  states: readonly FootState[],
  size: number,
  isSettled: boolean,
): CaseStatus {
  let [up, sideways] = [0, 0]
  e.feet.forEach((foot, i) => {
    const [x, y, z] = footMotion(foot, u)
    if (states[i] === 'lifted') up += springs[i].up * Math.abs(z)
    if (states[i] !== 'holds' && foot.foot.friction !== undefined)
      sideways += TRACE * foot.stiffness * Math.hypot(x, y)
  })
  if (up > TRACE_LOAD * size) return 'tips'
  const isSliding = states.every((state) => state !== 'holds') && states.includes('slips')
  if (sideways > TRACE_LOAD * size || (!isSettled && isSliding)) return 'slides'
  return isSettled ? 'held' : 'unsettled'
}

/** Displacements of all freedoms, fixed ones included. */
function spread(e: Equations, x: Float64Array): Float64Array<ArrayBuffer> {
  const u = e.given.slice() as Float64Array<ArrayBuffer>
  e.rowOf.forEach((row, at) => {
    if (row >= 0) u[at] = x[row]
  })
  return u
}

const six = (a: Float64Array, at = 0): Six => [a[at], a[at + 1], a[at + 2], a[at + 3], a[at + 4], a[at + 5]]

function resultOf(e: Equations, loading: Loading, settled: Settled): CaseResult {
  const left = loading.atNodes.slice()
  const members = memberResults(e, loading, settled.u, left)
  const links = linkResults(e, settled.u, left)
  const feet = footResults(e, settled, left)
  return {
    id: loading.case.id,
    status: settled.status,
    nodes: nodesOf(e, settled.u),
    members,
    links,
    feet,
    ...balance(e, settled.u, left, loading.size),
  }
}

/** End forces of all members, taken off what is `left` at the nodes. */
function memberResults(e: Equations, loading: Loading, u: Float64Array, left: Float64Array) {
  const members = new Map<string, MemberEnds>()
  const [moved, ends, local, atNodes] = [12, 12, 12, 12].map((size) => new Float64Array(size))
  e.beams.forEach((beam, m) => {
    const nodes = e.beamNodes[m]
    endForces(beam, nodeDisplacements(u, nodes, moved), loading.byMember.get(m)?.fixed, ends, local)
    members.set(beam.member.id, { from: six(ends), to: six(ends, 6) })
    toNodes(beam, ends, atNodes)
    for (let i = 0; i < 12; i++) left[6 * nodes[i < 6 ? 0 : 1] + (i % 6)] -= atNodes[i]
  })
  return members
}

/** Forces through all joints: the first node's side pulls the second's back by as much as the springs are stretched. */
function linkResults(e: Equations, u: Float64Array, left: Float64Array) {
  const links = new Map<string, Six>()
  const moved = new Float64Array(12)
  const pulled = new Float64Array(6)
  for (const { link, rows, nodes } of e.links) {
    nodeDisplacements(u, nodes, moved)
    for (let k = 0; k < 6; k++) {
      const row = rows[k]
      let stretch = 0
      for (let i = 0; i < 12; i++) stretch += row[i] * moved[i]
      pulled[k] = -link.stiffness[k] * stretch
      for (let i = 0; i < 12; i++) left[6 * nodes[i < 6 ? 0 : 1] + (i % 6)] += row[i] * pulled[k]
    }
    links.set(link.id, six(pulled))
  }
  return links
}

function footResults(e: Equations, { u, springs, states }: Settled, left: Float64Array) {
  const feet = new Map<string, FootReaction>()
  e.feet.forEach((foot, i) => {
    const { sideways, up } = springs[i]
    const [x, y, z] = footMotion(foot, u)
    const forceN: Vec3 = [-sideways * x, -sideways * y, -up * z]
    feet.set(foot.foot.id, { forceN, state: states[i] })
    foot.rows.forEach((row, axis) => {
      for (let k = 0; k < 6; k++) left[6 * foot.node + k] += row[k] * forceN[axis]
    })
  })
  return feet
}

const nodesOf = (e: Equations, u: Float64Array): Map<string, Six> =>
  new Map(e.problem.nodes.map((node, i) => [node.id, six(u, 6 * i)]))

/** Reactions of supports, and what is left over anywhere else. @param left forces still unbalanced at the nodes */
function balance(e: Equations, u: Float64Array, left: Float64Array, size: number) {
  const atSupports = new Float64Array(left.length)
  for (const { node, dof, stiffness } of e.springs) {
    const force = -stiffness * u[6 * node + dof]
    if (e.rowOf[6 * node + dof] < 0) continue
    atSupports[6 * node + dof] += force
    left[6 * node + dof] += force
  }
  e.rowOf.forEach((row, at) => {
    if (row >= 0) return
    atSupports[at] = -left[at]
    left[at] = 0
  })
  const worst = left.reduce(
    (most, value, i) => Math.max(most, Math.abs(value) / (i % 6 < 3 ? 1 : e.sizeMm)),
    0,
  )
  const reactions = new Map(
    (e.problem.supports ?? []).map(({ node }) => [node, six(atSupports, 6 * e.nodeIndex.get(node)!)]),
  )
  const measure = Math.max(
    size,
    atSupports.reduce((most, value, i) => Math.max(most, Math.abs(value) / (i % 6 < 3 ? 1 : e.sizeMm)), 0),
  )
  return { reactions, residual: measure === 0 ? 0 : worst / measure }
}

/** A frame made ready: solve any number of load cases with it. */
export interface FrameModel {
  readonly equations: Equations
  readonly memberIndex: ReadonlyMap<string, number>
  readonly condition: number
  solve(one: FrameCase): Result<CaseResult, FrameRefusal>
  /**
   * What each foot would push with, N, if none could lift; below 0 it would pull. Their sum and moments are those of
   * the true reactions, so tipping can be told from them before anything is solved.
   */
  heldPushes(one: FrameCase): Float64Array
}

/**
 * Checks a frame, numbers its freedoms and factors its stiffness.
 * @param solver the equation solver; by default the one in linear-solver.ts
 */
export function prepareFrame(
  problem: FrameProblem,
  solver: LinearSolver = profileSolver,
): Result<FrameModel, FrameRefusal> {
  const fault = frameFault(problem)
  if (fault !== undefined) return err({ kind: 'badInput', message: fault })
  const equations = makeEquations(problem)
  if (!equations.ok) return equations
  const prepared = prepare(equations.value, solver)
  if (!prepared.ok) return prepared
  const memberIndex = new Map(problem.members.map(({ id }, i) => [id, i]))
  const solve = (one: FrameCase): Result<CaseResult, FrameRefusal> => {
    for (const load of one.memberLoads ?? []) {
      const at = memberIndex.get(load.member)
      if (at === undefined)
        return err({
          kind: 'badInput',
          message: `Load case «${one.id}» loads «${load.member}», which is no member.`,
        })
      const { lengthMm } = equations.value.beams[at]
      if (load.kind === 'point' && load.atMm > lengthMm * (1 + 1e-9))
        return err({
          kind: 'badInput',
          message: `Load case «${one.id}» loads member «${load.member}» at ${load.atMm} mm, beyond its end.`,
        })
    }
    const loading = loadingOf(equations.value, one, memberIndex)
    const settled = settle(prepared.value, loading)
    if (settled.status !== 'held' || !isRunaway(equations.value, settled.u))
      return ok(resultOf(equations.value, loading, settled))
    if (settled.states.every((state) => state === 'holds'))
      return err(nameMotion(equations.value, freeOf(equations.value, settled.u)))
    const status = settled.states.includes('slips') ? 'slides' : 'tips'
    return ok(resultOf(equations.value, loading, { ...settled, status }))
  }
  const heldPushes = (one: FrameCase): Float64Array => {
    const right = rightSide(equations.value, loadingOf(equations.value, one, memberIndex))
    const motions = footShares(equations.value, prepared.value.factor.solve(right, true))
    return Float64Array.from(equations.value.feet, ({ stiffness }, i) => -stiffness * motions[3 * i + 2])
  }
  return ok({
    equations: equations.value,
    memberIndex,
    condition: prepared.value.factor.condition(),
    solve,
    heldPushes,
  })
}

/** A motion of many times the structure's own size: a mechanism that rounding has hidden, or feet without hold. */
function isRunaway(e: Equations, u: Float64Array): boolean {
  const reachMm = e.problem.nodes.reduce((most, { at }) => Math.max(most, ...at.map(Math.abs)), e.sizeMm)
  return u.some((value, i) => Math.abs(value) * (i % 6 < 3 ? 1 : e.sizeMm) > 1000 * reachMm)
}

function freeOf(e: Equations, u: Float64Array): Float64Array {
  const x = new Float64Array(e.matrix.size)
  e.rowOf.forEach((row, at) => {
    if (row >= 0) x[row] = u[at]
  })
  return x
}

/**
 * Solves every load case of a frame.
 * @example solveFrame({ nodes: [], members: [], cases: [] }) //=> { ok: false, error: { kind: 'badInput', message: 'A frame needs nodes.' } }
 */
export function solveFrame(
  problem: FrameProblem,
  solver?: LinearSolver,
): Result<FrameSolution, FrameRefusal> {
  const model = prepareFrame(problem, solver)
  if (!model.ok) return model
  const cases: CaseResult[] = []
  for (const one of problem.cases) {
    const result = model.value.solve(one)
    if (!result.ok) return result
    cases.push(result.value)
  }
  return ok({ cases, condition: model.value.condition, freedoms: model.value.equations.matrix.size })
}
