/**
 * Reads a frame before it is solved: every name must be known, every number finite and in range. One sentence, for
 * the first thing that is wrong. Tests: tests/core/statics/frame.test.ts
 */
import { dot, length, type Vec3 } from '#lib/core/geometry/vec3'
import { DOFS, type FrameMember, type FrameProblem } from './frame-problem'

/** Most freedoms that are solved for: 6 a node. */
export const MAX_NODES = 4000

const isVector = (v: unknown): v is Vec3 =>
  Array.isArray(v) && v.length === 3 && v.every((value) => Number.isFinite(value))

const notVector = (v: Vec3 | undefined): boolean => v !== undefined && !isVector(v)

function repeated(ids: readonly string[]): string | undefined {
  const seen = new Set<string>()
  return ids.find((id) => seen.size === seen.add(id).size)
}

function badSprings(springs: Readonly<Record<string, number>> | undefined): string | undefined {
  if (springs === undefined) return undefined
  for (const [dof, value] of Object.entries(springs)) {
    if (!(DOFS as readonly string[]).includes(dof))
      return `has no freedom «${dof}»; they are ${DOFS.join(', ')}`
    if (!(Number.isFinite(value) && value >= 0)) return `has a spring that is not a number of 0 or more`
  }
  return undefined
}

function badSection({ section: s }: FrameMember): string | undefined {
  const must = [s?.areaMm2, s?.iyMm4, s?.izMm4, s?.jMm4]
  if (!must.every((value) => Number.isFinite(value) && value > 0))
    return 'needs an area, two second moments and a torsion constant above 0'
  const may = [s.syMm3, s.szMm3, s.torsionMm3, s.shearYMm2, s.shearZMm2].filter(
    (value) => value !== undefined,
  )
  return may.every((value) => Number.isFinite(value) && value > 0)
    ? undefined
    : 'has a section value that is not above 0'
}

function badMember(member: FrameMember, at: ReadonlyMap<string, Vec3>): string | undefined {
  const say = (what: string | undefined) =>
    what === undefined ? undefined : `Member «${member.id}» ${what}.`
  const [from, to] = [at.get(member.from), at.get(member.to)]
  if (from === undefined) return say(`begins at «${member.from}», which is no node`)
  if (to === undefined) return say(`ends at «${member.to}», which is no node`)
  if ([member.offsetFrom, member.offsetTo, member.yAxis].some(notVector))
    return say('has an offset or axis that is not three numbers')
  if (member.yAxis !== undefined && length(member.yAxis) < 1e-9) return say('has a y axis without direction')
  const [a, b] = [member.offsetFrom ?? [0, 0, 0], member.offsetTo ?? [0, 0, 0]]
  const span = Math.hypot(...from.map((value, i) => to[i] + b[i] - value - a[i]))
  if (span < 1e-6) return say('has no length')
  if (!(Number.isFinite(member.eMPa) && member.eMPa > 0 && Number.isFinite(member.gMPa) && member.gMPa > 0))
    return say('needs moduli E and G above 0')
  return say(badSection(member) ?? badSprings(member.endFrom) ?? badSprings(member.endTo))
}

function badLinks(problem: FrameProblem, at: ReadonlyMap<string, Vec3>): string | undefined {
  for (const link of problem.links ?? []) {
    const say = (what: string) => `Link «${link.id}» ${what}.`
    if (!at.has(link.from) || !at.has(link.to)) return say('joins a node that is not there')
    if (link.from === link.to) return say('joins a node to itself')
    if (!isVector(link.at)) return say('has no point')
    if (!(link.stiffness?.length === 6 && link.stiffness.every((k) => Number.isFinite(k) && k >= 0)))
      return say('needs six stiffnesses of 0 or more')
    if ((link.xAxis === undefined) !== (link.yAxis === undefined)) return say('needs both axes or none')
    if (link.xAxis !== undefined && link.yAxis !== undefined) {
      const { xAxis: x, yAxis: y } = link
      if (!isVector(x) || !isVector(y)) return say('has an axis that is not three numbers')
      if (Math.abs(length(x) - 1) + Math.abs(length(y) - 1) + Math.abs(dot(x, y)) > 1e-6)
        return say('needs axes of length 1, square to each other')
    }
  }
  return undefined
}

function badSupports(problem: FrameProblem, at: ReadonlyMap<string, Vec3>): string | undefined {
  for (const { node, fixed = [], springs, moved } of problem.supports ?? []) {
    const say = (what: string) => `The support at «${node}» ${what}.`
    if (!at.has(node)) return `A support stands at «${node}», which is no node.`
    const unknown = fixed.find((dof) => !DOFS.includes(dof))
    if (unknown !== undefined) return say(`fixes «${unknown}»; freedoms are ${DOFS.join(', ')}`)
    const bad = badSprings(springs)
    if (bad !== undefined) return say(bad)
    for (const [dof, value] of Object.entries(moved ?? {}))
      if (!Number.isFinite(value) || !fixed.includes(dof as (typeof DOFS)[number]))
        return say(`moves «${dof}», which it does not fix, or by no number`)
  }
  for (const foot of problem.feet ?? []) {
    const say = (what: string) => `Foot «${foot.id}» ${what}.`
    if (!at.has(foot.node)) return say(`stands at «${foot.node}», which is no node`)
    if (notVector(foot.at)) return say('has a point that is not three numbers')
    if (foot.friction !== undefined && !(foot.friction >= 0 && foot.friction < 10))
      return say('has a friction that is not a coefficient')
    if (foot.stiffness !== undefined && !(foot.stiffness > 0 && Number.isFinite(foot.stiffness)))
      return say('needs a stiffness above 0')
  }
  return undefined
}

function badCases(problem: FrameProblem, at: ReadonlyMap<string, Vec3>): string | undefined {
  const members = new Set(problem.members.map(({ id }) => id))
  for (const one of problem.cases) {
    const say = (what: string) => `Load case «${one.id}» ${what}.`
    for (const load of one.nodeLoads ?? []) {
      if (!at.has(load.node)) return say(`loads «${load.node}», which is no node`)
      if ([load.forceN, load.momentNmm, load.at].some(notVector))
        return say('has a force that is not three numbers')
    }
    for (const load of one.memberLoads ?? []) {
      if (!members.has(load.member)) return say(`loads «${load.member}», which is no member`)
      if (!isVector(load.kind === 'uniform' ? load.forcePerMm : load.forceN))
        return say('has a force that is not three numbers')
      if (load.kind === 'point' && !(Number.isFinite(load.atMm) && load.atMm >= 0))
        return say('has a force at no place of its member')
    }
  }
  return undefined
}

/** What is wrong with a frame, in a sentence; undefined if it can be solved. */
export function frameFault(problem: FrameProblem): string | undefined {
  if (problem.nodes.length === 0) return 'A frame needs nodes.'
  if (problem.members.length === 0) return 'A frame needs members.'
  if (problem.nodes.length > MAX_NODES)
    return `A frame may have ${MAX_NODES} nodes; this one has ${problem.nodes.length}.`
  const bent = problem.nodes.find((node) => !isVector(node.at))
  if (bent !== undefined) return `Node «${bent.id}» has no place: three numbers are needed.`
  for (const [what, list] of [
    ['nodes', problem.nodes],
    ['members', problem.members],
    ['links', problem.links ?? []],
    ['feet', problem.feet ?? []],
    ['load cases', problem.cases],
  ] as const) {
    const twice = repeated(list.map(({ id }) => id))
    if (twice !== undefined) return `Two ${what} are called «${twice}».`
  }
  if ((problem.supports ?? []).length + (problem.feet ?? []).length === 0)
    return 'The frame stands on nothing: it has no support and no foot.'
  const at = new Map(problem.nodes.map((node) => [node.id, node.at]))
  for (const member of problem.members) {
    const bad = badMember(member, at)
    if (bad !== undefined) return bad
  }
  return badLinks(problem, at) ?? badSupports(problem, at) ?? badCases(problem, at)
}
