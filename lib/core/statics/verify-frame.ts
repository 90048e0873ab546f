/**
 * Checks a frame's results without the solver: shares no code with it but vectors and types. Laws checked: every
 * member, every node and the whole structure are in equilibrium; a foot never pulls, and never holds back more than
 * its friction; a member stretches as its axial force says. mm, N. Tests: tests/core/statics/frame.test.ts
 */
import { add, cross, dot, length, scale, sub, unit, type Vec3 } from '#lib/core/geometry/vec3'
import type { CaseResult, FrameCase, FrameMember, FrameProblem, Six } from './frame-problem'

/** Force and moment about the world's origin. */
interface Wrench {
  readonly force: Vec3
  readonly moment: Vec3
}
const NONE: Wrench = { force: [0, 0, 0], moment: [0, 0, 0] }
const plus = (a: Wrench, b: Wrench): Wrench => ({
  force: add(a.force, b.force),
  moment: add(a.moment, b.moment),
})
const minus = (a: Wrench): Wrench => ({ force: scale(a.force, -1), moment: scale(a.moment, -1) })
const wrench = (at: Vec3, force: Vec3, moment: Vec3 = [0, 0, 0]): Wrench => ({
  force,
  moment: add(moment, cross(at, force)),
})

interface Placed {
  readonly member: FrameMember
  readonly start: Vec3
  readonly end: Vec3
  readonly axes: readonly [Vec3, Vec3, Vec3]
}

function place(member: FrameMember, at: ReadonlyMap<string, Vec3>): Placed {
  const start = add(at.get(member.from)!, member.offsetFrom ?? [0, 0, 0])
  const end = add(at.get(member.to)!, member.offsetTo ?? [0, 0, 0])
  const x = unit(sub(end, start))
  const wish: Vec3 = member.yAxis ?? (Math.abs(x[2]) > 0.99 ? [0, 1, 0] : [0, 0, 1])
  const y = unit(sub(wish, scale(x, dot(wish, x))))
  return { member, start, end, axes: [x, y, cross(x, y)] }
}

const turned = (axes: readonly Vec3[], a: number, b: number, c: number): Vec3 =>
  add(add(scale(axes[0], a), scale(axes[1], b)), scale(axes[2], c))

const onEnd = ({ axes }: Placed, at: Vec3, f: Six): Wrench =>
  wrench(at, turned(axes, f[0], f[1], f[2]), turned(axes, f[3], f[4], f[5]))

function memberLoadsOn({ member, start, end, axes }: Placed, one: FrameCase): Wrench {
  const span = length(sub(end, start))
  return (one.memberLoads ?? []).reduce<Wrench>((sum, load) => {
    if (load.member !== member.id) return sum
    if (load.kind === 'uniform')
      return plus(sum, wrench(scale(add(start, end), 0.5), scale(load.forcePerMm, span)))
    return plus(
      sum,
      wrench(add(start, scale(axes[0], load.atMm)), load.forceN, scale(axes[0], load.torqueNmm ?? 0)),
    )
  }, NONE)
}

/**
 * Why a result cannot be right; an empty list if it passes. Only for cases that are held. One long function, since all
 * laws are read off the same lists of forces.
 */
export function verifyFrame(
  problem: FrameProblem,
  one: FrameCase,
  result: CaseResult,
  tolerance = 1e-8,
): string[] {
  const faults: string[] = []
  const at = new Map(problem.nodes.map((node) => [node.id, node.at]))
  const middle = problem.nodes.reduce<Vec3>(
    (sum, node) => add(sum, scale(node.at, 1 / problem.nodes.length)),
    [0, 0, 0],
  )
  const placed = problem.members.map((member) => place(member, at))
  const sizeMm = placed.reduce((sum, { start, end }) => sum + length(sub(end, start)), 0) / placed.length
  const all: [string, Wrench][] = (one.nodeLoads ?? []).map((load) => [
    load.node,
    wrench(load.at ?? at.get(load.node)!, load.forceN ?? [0, 0, 0], load.momentNmm),
  ])
  const applied = all.map(([, w]) => w)
  let whole = applied.reduce(plus, NONE)
  let load = applied.reduce((sum, w) => sum + length(w.force), 0)
  for (const [node, f] of result.reactions) {
    const w = wrench(at.get(node)!, [f[0], f[1], f[2]], [f[3], f[4], f[5]])
    all.push([node, w])
    whole = plus(whole, w)
    load = Math.max(load, length(w.force), length([f[3], f[4], f[5]]) / sizeMm)
  }
  for (const foot of problem.feet ?? []) {
    const { forceN, state } = result.feet.get(foot.id)!
    const w = wrench(foot.at ?? at.get(foot.node)!, forceN)
    all.push([foot.node, w])
    whole = plus(whole, w)
    if (forceN[2] < -1e-4 * Math.max(load, 1)) faults.push(`foot ${foot.id} pulls on the floor`)
    if (
      state === 'lifted' &&
      (foot.friction === undefined ? Math.abs(forceN[2]) : length(forceN)) > 1e-4 * Math.max(load, 1)
    )
      faults.push(`foot ${foot.id} pushes in the air`)
    const most = foot.friction === undefined ? Number.POSITIVE_INFINITY : foot.friction * forceN[2]
    if (Math.hypot(forceN[0], forceN[1]) > most + 1e-5 * Math.max(load, 1))
      faults.push(`foot ${foot.id} holds more than its friction`)
  }
  for (const p of placed) {
    const ends = result.members.get(p.member.id)!
    const [a, b, on] = [onEnd(p, p.start, ends.from), onEnd(p, p.end, ends.to), memberLoadsOn(p, one)]
    load = Math.max(load, length(on.force))
    whole = plus(whole, on)
    check(`member ${p.member.id}`, plus(plus(a, b), on), p.start)
    all.push([p.member.from, minus(a)], [p.member.to, minus(b)])
  }
  for (const link of problem.links ?? []) {
    const x = link.xAxis ?? [1, 0, 0]
    const y = link.yAxis ?? [0, 1, 0]
    const axes = [x, y, cross(x, y)]
    const f = result.links.get(link.id)!
    const w = wrench(link.at, turned(axes, f[0], f[1], f[2]), turned(axes, f[3], f[4], f[5]))
    all.push([link.to, w], [link.from, minus(w)])
  }
  function check(what: string, w: Wrench, about: Vec3): void {
    const moment = sub(w.moment, cross(about, w.force))
    const off = Math.max(length(w.force), length(moment) / sizeMm)
    if (!(off <= tolerance * Math.max(load, 1e-12)))
      faults.push(`${what} is out of balance by ${off.toExponential(2)} N`)
  }
  const byNode = new Map<string, Wrench>()
  for (const [node, w] of all) byNode.set(node, plus(byNode.get(node) ?? NONE, w))
  for (const [node, w] of byNode) check(`node ${node}`, w, at.get(node)!)
  check('the structure', whole, middle)
  return [...faults, ...stretchFaults(placed, one, result)]
}

/** Members without loads or end springs: axial force = E A / l × stretch. */
function stretchFaults(placed: readonly Placed[], one: FrameCase, result: CaseResult): string[] {
  const loaded = new Set((one.memberLoads ?? []).map(({ member }) => member))
  return placed.flatMap(({ member, start, end, axes }) => {
    if (loaded.has(member.id) || member.endFrom !== undefined || member.endTo !== undefined) return []
    const moved = (node: string, lever: Vec3): Vec3 => {
      const d = result.nodes.get(node)!
      return add([d[0], d[1], d[2]], cross([d[3], d[4], d[5]], lever))
    }
    const stretch = dot(
      axes[0],
      sub(moved(member.to, member.offsetTo ?? [0, 0, 0]), moved(member.from, member.offsetFrom ?? [0, 0, 0])),
    )
    const force = (member.eMPa * member.section.areaMm2 * stretch) / length(sub(end, start))
    const said = result.members.get(member.id)!.to[0]
    return Math.abs(force - said) > 1e-6 * Math.max(1, Math.abs(said))
      ? [`member ${member.id} does not stretch as its force says`]
      : []
  })
}
