import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { makeBeam, sectionForces } from '#lib/core/statics/beam'
import { prepareFrame, solveFrame } from '#lib/core/statics/frame'
import type { FrameProblem } from '#lib/core/statics/frame-problem'
import { rectangleSection } from '#lib/core/statics/section'
import { verifyFrame } from '#lib/core/statics/verify-frame'
import {
  ALL,
  aFrame,
  beamOf,
  cantilever,
  member,
  PIN,
  portal,
  ROLLER,
  SQUARE38,
  solved,
  turnBy,
  unstretched,
} from './frames'

const close = (got: number, want: number, relative = 1e-6) =>
  expect(Math.abs(got - want)).toBeLessThanOrEqual(relative * Math.abs(want))

describe('beams', () => {
  // Standard beam tables: 5 w L^4 / 384 E I. Members' y axis is up, so `width` of the section is its depth.
  it('simple beam, spread load: 0.6559 mm for a shelf 800 × 250 × 18 under 150 N', () => {
    const beam = beamOf(800, rectangleSection(18, 250), 12_548.5, [PIN, ROLLER])
    const w = -150 / 800
    const [result] = solved({
      ...beam,
      cases: [
        {
          id: 'w',
          memberLoads: ['1', '2'].map((id) => ({ kind: 'uniform', member: id, forcePerMm: [0, 0, w] })),
        },
      ],
    })
    const i = (250 * 18 ** 3) / 12
    close(-result.nodes.get('m')![2], (5 * -w * 800 ** 4) / (384 * 12_548.5 * i))
    expect(Math.abs(-result.nodes.get('m')![2] - 0.6559)).toBeLessThan(0.005)
    close(result.reactions.get('a')![2], 75)
  })

  // P L^3 / 48 E I and M = P L / 4: 0.6996 mm, 14.81 MPa.
  it('simple beam, load at the middle: 0.6996 mm and 14.81 MPa for 400 mm of 20 × 45 under 1000 N', () => {
    const section = rectangleSection(45, 20)
    const beam = beamOf(400, section, 12_548.5, [PIN, ROLLER])
    const problem: FrameProblem = {
      ...beam,
      cases: [{ id: 'p', nodeLoads: [{ node: 'm', forceN: [0, 0, -1000] }] }],
    }
    const [result] = solved(problem)
    close(-result.nodes.get('m')![2], (1000 * 400 ** 3) / (48 * 12_548.5 * ((20 * 45 ** 3) / 12)))
    expect(Math.abs(-result.nodes.get('m')![2] - 0.6996)).toBeLessThan(0.002)
    const one = makeBeam(problem.members[0], [0, 0, 0], [200, 0, 0])!
    const most = Math.max(
      ...sectionForces(one, result.members.get('1')!, []).map((s) => Math.abs(s.momentZNmm)),
    )
    close(most, 100_000)
    expect(Math.abs(most / section.szMm3 - 14.81)).toBeLessThan(0.01)
  })

  // P L^3 / 3 E I.
  it('cantilever 200 mm of 38 × 38 under 300 N: 0.3837 mm', () => {
    const [result] = solved(cantilever(200, SQUARE38, 300))
    close(-result.nodes.get('tip')![2], (300 * 200 ** 3) / (3 * 12_000 * (38 ** 4 / 12)))
    expect(Math.abs(-result.nodes.get('tip')![2] - 0.3837)).toBeLessThan(0.002)
  })

  // Standard beam tables: 1/4 and 1/5 of the simple beam.
  it('built in at both ends: a quarter under a load at the middle, a fifth under a spread load', () => {
    const section = rectangleSection(45, 20)
    const cases: FrameProblem['cases'] = [
      { id: 'p', nodeLoads: [{ node: 'm', forceN: [0, 0, -1000] }] },
      {
        id: 'w',
        memberLoads: ['1', '2'].map((id) => ({ kind: 'uniform', member: id, forcePerMm: [0, 0, -1] })),
      },
    ]
    const simple = solved({ ...beamOf(400, section, 12_000, [PIN, ROLLER]), cases })
    const fixed = solved({ ...beamOf(400, section, 12_000, [ALL, ALL]), cases })
    const sag = (results: typeof simple, i: number) => results[i].nodes.get('m')![2]
    close(sag(fixed, 0) / sag(simple, 0), 0.25)
    close(sag(fixed, 1) / sag(simple, 1), 0.2)
  })

  it('a load between nodes gives what the same load at a node gives, moments and torque too', () => {
    const section = rectangleSection(45, 20, { shear: true })
    const beam = beamOf(400, section, 12_000, [ALL, ALL])
    const one = { ...beam, nodes: [beam.nodes[0], beam.nodes[2]], members: [{ ...beam.members[0], to: 'b' }] }
    const force: Vec3 = [40, -70, -1000]
    const [whole] = solved({
      ...one,
      cases: [
        { id: 'p', memberLoads: [{ kind: 'point', member: '1', atMm: 130, forceN: force, torqueNmm: 9000 }] },
      ],
    })
    const split = { ...beam, nodes: [beam.nodes[0], { id: 'm', at: [130, 0, 0] as Vec3 }, beam.nodes[2]] }
    const [parts] = solved({
      ...split,
      cases: [{ id: 'p', nodeLoads: [{ node: 'm', forceN: force, momentNmm: [9000, 0, 0] }] }],
    })
    for (const node of ['a', 'b'])
      whole.reactions.get(node)!.forEach((value, i) => {
        expect(value).toBeCloseTo(parts.reactions.get(node)![i], 6)
      })
  })

  // Timoshenko: P L^3 / 3 E I + P L / (G 5/6 A).
  it('counts shear where it is asked to', () => {
    const section = rectangleSection(60, 20, { shear: true })
    const [result] = solved(cantilever(150, section, 500))
    const bending = (500 * 150 ** 3) / (3 * 12_000 * ((20 * 60 ** 3) / 12))
    close(-result.nodes.get('tip')![2], bending + (500 * 150) / (750 * (5 / 6) * 1200))
  })

  it('finds the greatest moment between nodes: w L^2 / 8', () => {
    const beam = beamOf(800, rectangleSection(18, 250), 12_000, [PIN, ROLLER])
    const problem: FrameProblem = {
      ...beam,
      nodes: [beam.nodes[0], beam.nodes[2]],
      members: [{ ...beam.members[0], to: 'b' }],
      cases: [{ id: 'w', memberLoads: [{ kind: 'uniform', member: '1', forcePerMm: [0, 0, -0.2] }] }],
    }
    const [result] = solved(problem)
    const one = makeBeam(problem.members[0], [0, 0, 0], [800, 0, 0])!
    const sections = sectionForces(one, result.members.get('1')!, problem.cases[0].memberLoads!)
    close(Math.max(...sections.map((s) => Math.abs(s.momentZNmm))), (0.2 * 800 ** 2) / 8)
  })
})

const IC = 38 ** 4 / 12
const IB = (20 * 60 ** 3) / 12
const [P, H, L, E] = [100, 600, 400, 12_000]

const swayOf = (isFixed: boolean, knee?: number) => (area: number) =>
  solved(portal(isFixed, {}, knee, area))[0]

describe('portals', () => {
  // P h^3 / (6 E Ic) + P h^2 L / (12 E Ib): 2.0043 mm; knee P h / 2; couple P h / L.
  const rigidSway = (P * H ** 3) / (6 * E * IC) + (P * H ** 2 * L) / (12 * E * IB)

  it('pinned feet: sway 2.0043 mm, knee 30 000 N mm, vertical couple 150 N', () => {
    const sway = unstretched((area) => swayOf(false)(area).nodes.get('kneeLeft')![0])
    close(sway, rigidSway)
    expect(Math.abs(sway - 2.0043)).toBeLessThan(0.001)
    const real = swayOf(false)(1)
    close(Math.abs(real.members.get('legLeft')!.to[5]), 30_000)
    close(real.reactions.get('footRight')![2], 150)
    close(real.reactions.get('footLeft')![2], -150)
    // Castigliano: the legs' own stretch adds 2 (h / L)^2 P h / E A.
    close(real.nodes.get('kneeLeft')![0], rigidSway + (2 * (H / L) ** 2 * P * H) / (E * 38 * 38))
  })

  // H = 3 P L / (8 h (2k + 3)), k = Ib h / (Ic L) (Kleinlogel): 27.128 N.
  it('pinned feet, load at the middle: thrust 27.128 N', () => {
    const thrust = unstretched(
      (area) => solved(portal(false, {}, undefined, area))[1].reactions.get('footLeft')![0],
    )
    const k = (IB * H) / (IC * L)
    close(thrust, (3 * 1000 * L) / (8 * H * (2 * k + 3)))
    expect(Math.abs(thrust - 27.128)).toBeLessThan(0.02)
  })

  // Kleinlogel; Steel Designers' Manual: k = (Ib / L) / (Ic / h).
  it('fixed feet: sway 0.4975 mm, base 15 763.5, knee 14 236.5 N mm, couple 71.18 N', () => {
    const k = IB / L / (IC / H)
    const sway = unstretched((area) => swayOf(true)(area).nodes.get('kneeLeft')![0])
    const base = unstretched((area) => Math.abs(swayOf(true)(area).members.get('legLeft')!.from[5]))
    const knee = unstretched((area) => Math.abs(swayOf(true)(area).members.get('legLeft')!.to[5]))
    const couple = unstretched((area) => swayOf(true)(area).reactions.get('footRight')![2])
    close(sway, ((P * H ** 3) / (12 * E * IC)) * ((3 * k + 2) / (6 * k + 1)))
    close(base, ((P * H) / 2) * ((3 * k + 1) / (6 * k + 1)))
    close(knee, ((P * H) / 2) * ((3 * k) / (6 * k + 1)))
    expect(Math.abs(sway - 0.4975)).toBeLessThan(0.0005)
    expect(Math.abs(base - 15_763.5)).toBeLessThan(1)
    expect(Math.abs(knee - 14_236.5)).toBeLessThan(1)
    expect(Math.abs(couple - 71.18)).toBeLessThan(0.01)
  })

  // By the slope-deflection equations: a knee that gives adds P h^2 / (2 k).
  it('knees that give: the sway grows by P h^2 / 2k', () => {
    const knee = 5e6
    const sway = unstretched((area) => swayOf(false, knee)(area).nodes.get('kneeLeft')![0])
    close(sway, rigidSway + (P * H * H) / (2 * knee))
  })

  it('the same knee as a joint between two nodes gives the same sway', () => {
    const knee = 5e6
    const base = portal(false)
    const stiff = [1e8, 1e8, 1e8, 1e11, knee, 1e11] as const
    const problem: FrameProblem = {
      ...base,
      nodes: [...base.nodes, { id: 'topLeft', at: [0, 0, 600] }, { id: 'topRight', at: [400, 0, 600] }],
      members: base.members.map((m) =>
        m.id === 'legLeft' ? { ...m, to: 'topLeft' } : m.id === 'legRight' ? { ...m, to: 'topRight' } : m,
      ),
      links: [
        { id: 'left', from: 'topLeft', to: 'kneeLeft', at: [0, 0, 600], stiffness: stiff },
        { id: 'right', from: 'kneeRight', to: 'topRight', at: [400, 0, 600], stiffness: stiff },
      ],
    }
    const [jointed] = solved(problem)
    const sprung = swayOf(false, knee)(1)
    close(jointed.nodes.get('kneeLeft')![0], sprung.nodes.get('kneeLeft')![0], 1e-5)
    expect(Math.abs(jointed.links.get('left')![4])).toBeCloseTo(30_000, 0)
  })
})

describe('raked legs', () => {
  // Statics: leg N = P / (2 cos a), thrust H = (P / 2) tan a.
  it.each([
    [1000, 5, 43.744, 501.91],
    [600, 5, 26.247, 301.146],
    [1300, 10, 114.6, 660.0],
  ])('A-frame, %d N at %d degrees: thrust %d N, leg %d N', (load, degrees, thrust, leg) => {
    const a = (degrees * Math.PI) / 180
    const [result] = solved(aFrame(load, a))
    close(result.reactions.get('left')![0], (load / 2) * Math.tan(a))
    close(-result.members.get('legLeft')!.to[0], load / (2 * Math.cos(a)))
    expect(Math.abs(result.reactions.get('left')![0] - thrust)).toBeLessThan(0.05)
    expect(Math.abs(-result.members.get('legLeft')!.to[0] - leg)).toBeLessThan(0.1)
  })
})

describe('in space', () => {
  // Bent in plan: tip = P a^3/3EI + P b^3/3EI + (P b) a^... : the first arm bends and twists, the second bends.
  it('cantilevered bent: bending of both arms and torsion of the first', () => {
    const [a, b, p] = [300, 200, 250]
    const section = rectangleSection(30, 30)
    const [result] = solved({
      nodes: [
        { id: 'wall', at: [0, 0, 0] },
        { id: 'corner', at: [a, 0, 0] },
        { id: 'tip', at: [a, b, 0] },
      ],
      members: [member('1', 'wall', 'corner', section), member('2', 'corner', 'tip', section)],
      supports: [{ node: 'wall', fixed: ALL }],
      cases: [{ id: 'p', nodeLoads: [{ node: 'tip', forceN: [0, 0, -p] }] }],
    })
    const ei = 12_000 * (30 ** 4 / 12)
    const gj = 750 * section.jMm4
    close(
      -result.nodes.get('tip')![2],
      (p * a ** 3) / (3 * ei) + (p * b ** 3) / (3 * ei) + (p * b * b * a) / gj,
    )
    close(Math.abs(result.reactions.get('wall')![3]), p * b)
    close(Math.abs(result.reactions.get('wall')![4]), p * a)
  })

  /** A three-legged frame with an offset, a joint and a spring: nothing in it is symmetrical. */
  const crooked = (turn: (v: Vec3) => Vec3): FrameProblem => {
    const at = (v: Vec3) => turn(v)
    const s = rectangleSection(45, 22, { shear: true })
    return {
      nodes: [
        { id: 'a', at: at([0, 0, 0]) },
        { id: 'b', at: at([400, 50, 20]) },
        { id: 'c', at: at([120, 380, -30]) },
        { id: 'd', at: at([90, 100, 500]) },
        { id: 'e', at: at([95, 100, 500]) },
        { id: 'f', at: at([300, 250, 620]) },
      ],
      members: [
        member('1', 'a', 'd', s, { yAxis: at([0, 1, 0]) }),
        member('2', 'b', 'd', s, { yAxis: at([0, 1, 0.2]), offsetTo: at([3, -4, 5]) }),
        member('3', 'c', 'd', s, { yAxis: at([1, 0, 0]), endFrom: { ry: 2e6 } }),
        member('4', 'e', 'f', s, { yAxis: at([0, 0, 1]), offsetFrom: at([0, 10, 0]) }),
      ],
      links: [
        {
          id: 'joint',
          from: 'd',
          to: 'e',
          at: at([92, 110, 495]),
          xAxis: at([1, 0, 0]),
          yAxis: at([0, 1, 0]),
          stiffness: [3e4, 2e4, 5e4, 4e6, 3e6, 2e6],
        },
      ],
      supports: ['a', 'b', 'c'].map((node) => ({ node, fixed: ALL })),
      cases: [
        {
          id: 'p',
          nodeLoads: [{ node: 'f', forceN: at([30, -20, -400]), momentNmm: at([0, 0, 5000]) }],
          memberLoads: [
            { kind: 'uniform', member: '2', forcePerMm: at([0, 0.1, -0.3]) },
            { kind: 'point', member: '4', atMm: 60, forceN: at([0, 0, -90]), torqueNmm: 700 },
          ],
        },
      ],
    }
  }

  it('turning the whole structure changes nothing', () => {
    const [straight] = solved(crooked((v) => v))
    for (const [axis, angle] of [
      [[0, 0, 1], 0.7],
      [[0.6, 0.8, 0], 1.9],
      [[2 / 3, 1 / 3, -2 / 3], -2.4],
    ] as [Vec3, number][]) {
      const [turned] = solved(crooked(turnBy(axis, angle)))
      for (const id of ['1', '2', '3', '4'])
        turned.members.get(id)!.from.forEach((value, i) => {
          expect(Math.abs(value - straight.members.get(id)!.from[i])).toBeLessThan(
            1e-6 * 400 * (i < 3 ? 1 : 100),
          )
        })
      expect(Math.hypot(...turned.nodes.get('f')!.slice(0, 3))).toBeCloseTo(
        Math.hypot(...straight.nodes.get('f')!.slice(0, 3)),
        7,
      )
      turned.links.get('joint')!.forEach((value, i) => {
        expect(Math.abs(value - straight.links.get('joint')![i])).toBeLessThan(1e-6 * 400 * (i < 3 ? 1 : 100))
      })
    }
  })

  it('its mirror image moves as its mirror image', () => {
    const upright = portal(false, {
      cases: [{ id: 'p', nodeLoads: [{ node: 'kneeLeft', forceN: [70, 0, -300] }] }],
    })
    const flip = (v: Vec3): Vec3 => [400 - v[0], v[1], v[2]]
    const mirrored: FrameProblem = {
      ...upright,
      nodes: upright.nodes.map((node) => ({ ...node, at: flip(node.at) })),
      cases: [{ id: 'p', nodeLoads: [{ node: 'kneeLeft', forceN: [-70, 0, -300] }] }],
    }
    const [a] = solved(upright)
    const [b] = solved(mirrored)
    for (const { id } of upright.nodes) {
      expect(a.nodes.get(id)![0]).toBeCloseTo(-b.nodes.get(id)![0], 9)
      expect(a.nodes.get(id)![2]).toBeCloseTo(b.nodes.get(id)![2], 9)
    }
  })

  it('a rigid motion of all supports strains nothing', () => {
    const still = crooked((v) => v)
    const spin: Vec3 = [0.001, -0.002, 0.0015]
    const shift: Vec3 = [3, -2, 1]
    const at = new Map(still.nodes.map((node) => [node.id, node.at]))
    const motion = (p: Vec3): Vec3 => [
      shift[0] + spin[1] * p[2] - spin[2] * p[1],
      shift[1] + spin[2] * p[0] - spin[0] * p[2],
      shift[2] + spin[0] * p[1] - spin[1] * p[0],
    ]
    const supports = still.supports!.map((support) => {
      const [ux, uy, uz] = motion(at.get(support.node)!)
      return { ...support, moved: { ux, uy, uz, rx: spin[0], ry: spin[1], rz: spin[2] } }
    })
    const answer = solveFrame({ ...still, supports, cases: [{ id: 'moved' }] })
    if (!answer.ok) throw new Error(answer.error.message)
    const [result] = answer.value.cases
    motion(at.get('f')!).forEach((value, i) => {
      expect(result.nodes.get('f')![i]).toBeCloseTo(value, 8)
    })
    for (const ends of result.members.values())
      for (const force of ends.from) expect(Math.abs(force)).toBeLessThan(1e-5)
  })

  // Patch test: a bar in uneven pieces carries an even pull and an even bending moment exactly.
  it('uneven pieces carry an even strain and an even curvature', () => {
    const places = [0, 70, 95, 210, 400]
    const section = rectangleSection(40, 25)
    const [pull, bend] = solved({
      nodes: places.map((x, i) => ({ id: `${i}`, at: [x, 0, 0] })),
      members: places.slice(1).map((_, i) => member(`${i}`, `${i}`, `${i + 1}`, section)),
      supports: [{ node: '0', fixed: ALL }],
      cases: [
        { id: 'pull', nodeLoads: [{ node: '4', forceN: [5000, 0, 0] }] },
        { id: 'bend', nodeLoads: [{ node: '4', momentNmm: [0, 20_000, 0] }] },
      ],
    })
    places.slice(1).forEach((x, i) => {
      close(pull.nodes.get(`${i + 1}`)![0], (5000 * x) / (12_000 * 1000))
      close(bend.nodes.get(`${i + 1}`)![4], (20_000 * x) / (12_000 * section.izMm4))
      close(-bend.nodes.get(`${i + 1}`)![2], (20_000 * x * x) / (2 * 12_000 * section.izMm4))
    })
  })
})

describe('feet', () => {
  /** Four legs under a stiff top of 300 × 400, feet on the floor. */
  const stool = (friction?: number, cases: FrameProblem['cases'] = []): FrameProblem => {
    const corners = [
      ['fl', 0, 0],
      ['fr', 300, 0],
      ['bl', 0, 400],
      ['br', 300, 400],
    ] as const
    return {
      nodes: corners.flatMap(([id, x, y]) => [
        { id: `foot-${id}`, at: [x, y, 0] as Vec3 },
        { id: `top-${id}`, at: [x, y, 500] as Vec3 },
      ]),
      members: [
        ...corners.map(([id]) => member(`leg-${id}`, `foot-${id}`, `top-${id}`, SQUARE38)),
        ...[
          ['fl', 'fr'],
          ['bl', 'br'],
          ['fl', 'bl'],
          ['fr', 'br'],
        ].map(([a, b]) => member(`${a}-${b}`, `top-${a}`, `top-${b}`, SQUARE38)),
      ],
      feet: corners.map(([id]) => ({
        id,
        node: `foot-${id}`,
        ...(friction === undefined ? {} : { friction }),
      })),
      cases,
    }
  }
  const down = (n: number, id = 'fl') => ({ node: `top-${id}`, forceN: [0, 0, -n] as Vec3 })
  const all = (n: number) => ['fl', 'fr', 'bl', 'br'].map((id) => down(n / 4, id))

  it('share an even load evenly', () => {
    const [result] = solved(stool(undefined, [{ id: 'p', nodeLoads: all(1000) }]))
    for (const { forceN } of result.feet.values()) expect(forceN[2]).toBeCloseTo(250, 6)
  })

  it('lift on the side away from a push, and the others take it all', () => {
    const push = { node: 'top-fl', forceN: [110, 0, 0] as Vec3 }
    const [result] = solved(stool(undefined, [{ id: 'p', nodeLoads: [...all(400), push] }]))
    const state = (id: string) => result.feet.get(id)!.state
    expect([state('fl'), state('fr')]).toEqual(['lifted', 'holds'])
    const sum = [...result.feet.values()].reduce((total, { forceN }) => total + forceN[2], 0)
    expect(sum).toBeCloseTo(400, 6)
  })

  it('tip over when the push is more than the weight can hold', () => {
    // 400 N at 150 mm from the feet against F at 500 mm: it tips at 120 N... on both sides' feet together.
    const at = (f: number) => {
      const pushes = ['fl', 'bl'].map((id) => ({ node: `top-${id}`, forceN: [f / 2, 0, 0] as Vec3 }))
      const answer = solveFrame(stool(undefined, [{ id: 'p', nodeLoads: [...all(400), ...pushes] }]))
      return answer.ok ? answer.value.cases[0].status : answer.error.kind
    }
    expect(at(119)).toBe('held')
    expect(at(121)).toBe('tips')
  })

  it('slide when friction cannot hold, and not before', () => {
    const at = (f: number) => {
      const pushes = ['fl', 'fr', 'bl', 'br'].map((id) => ({
        node: `top-${id}`,
        forceN: [f / 4, 0, 0] as Vec3,
      }))
      const answer = solveFrame(stool(0.2, [{ id: 'p', nodeLoads: [...all(400), ...pushes] }]))
      return answer.ok ? answer.value.cases[0].status : answer.error.kind
    }
    expect(at(79)).toBe('held')
    expect(at(81)).toBe('slides')
  })

  it('settle, tip or slide under any push, and pass the independent check whenever they settle', () => {
    const tally = { held: 0, tips: 0, slides: 0, unsettled: 0 }
    fc.assert(
      fc.property(
        fc.constantFrom(undefined, 0.1, 0.3, 0.6),
        fc.array(fc.integer({ min: -150, max: 150 }), { minLength: 8, maxLength: 8 }),
        fc.array(fc.integer({ min: 0, max: 600 }), { minLength: 4, maxLength: 4 }),
        (friction, pushes, weights) => {
          const nodeLoads = ['fl', 'fr', 'bl', 'br'].map((id, i) => ({
            node: `top-${id}`,
            forceN: [pushes[2 * i], pushes[2 * i + 1], -weights[i] - 1] as Vec3,
          }))
          const problem = stool(friction, [{ id: 'p', nodeLoads }])
          const answer = solveFrame(problem)
          if (!answer.ok) throw new Error(answer.error.message)
          const [result] = answer.value.cases
          tally[result.status]++
          if (result.status !== 'held') return
          expect(verifyFrame(problem, problem.cases[0], result)).toEqual([])
        },
      ),
      { numRuns: 400 },
    )
    expect(tally.held).toBeGreaterThan(50)
    expect(tally.tips).toBeGreaterThan(5)
    expect(tally.slides).toBeGreaterThan(5)
    expect(tally.unsettled).toBeLessThan(4)
  })

  it('legs that splay are held by friction up to its limit, then spread', () => {
    const splayed = (friction: number): FrameProblem => ({
      nodes: [
        { id: 'l', at: [-100, 0, 0] },
        { id: 'r', at: [100, 0, 0] },
        { id: 'b', at: [0, 200, 0] },
        { id: 'top', at: [0, 60, 500] },
      ],
      members: ['l', 'r', 'b'].map((id) => member(id, id, 'top', SQUARE38)),
      feet: ['l', 'r', 'b'].map((id) => ({ id, node: id, friction })),
      cases: [{ id: 'p', nodeLoads: [{ node: 'top', forceN: [0, 0, -1000] }] }],
    })
    const [firm] = solved(splayed(2))
    const [slick] = solved(splayed(0.05))
    expect([...firm.feet.values()].every(({ state }) => state === 'holds')).toBe(true)
    expect([...slick.feet.values()].every(({ state }) => state === 'slips')).toBe(true)
    for (const { forceN } of slick.feet.values())
      expect(Math.hypot(forceN[0], forceN[1])).toBeCloseTo(0.05 * forceN[2], 2)
    expect(slick.nodes.get('top')![2]).toBeLessThan(firm.nodes.get('top')![2])
  })
})

describe('what it says about itself', () => {
  it('gives the condition of its equations, worse for a slenderer frame', () => {
    const of = (mm: number) => {
      const model = prepareFrame({
        ...portal(true),
        members: portal(true).members.map((m) => ({ ...m, section: rectangleSection(mm, 38) })),
      })
      return model.ok ? model.value.condition : Number.NaN
    }
    expect(of(38)).toBeGreaterThan(1)
    expect(of(4)).toBeGreaterThan(of(38))
  })

  it('names the node of a mechanism', () => {
    const loose: FrameProblem = {
      ...portal(false),
      supports: [{ node: 'footLeft', fixed: ['ux', 'uy', 'uz', 'rx', 'rz'] }],
    }
    const answer = solveFrame(loose)
    expect(answer).toMatchObject({ ok: false, error: { kind: 'mechanism' } })
    if (!answer.ok) expect(answer.error.message).toMatch(/Node «\w+» can (move|turn)/)
    const hinged = portal(false)
    const four = solveFrame({
      ...hinged,
      members: hinged.members.map((m) => (m.id.startsWith('leg') ? { ...m, endTo: { ry: 0, rz: 0 } } : m)),
    })
    expect(four).toMatchObject({ ok: false, error: { kind: 'mechanism' } })
    const spinning = solveFrame({
      ...hinged,
      members: hinged.members.map((m) =>
        m.id === 'legLeft' ? { ...m, endFrom: { rx: 0 }, endTo: { rx: 0 } } : m,
      ),
    })
    expect(spinning).toMatchObject({
      ok: false,
      error: { kind: 'mechanism', message: expect.stringContaining('legLeft') },
    })
  })

  const cases: [string, Partial<FrameProblem>, RegExp][] = [
    ['no supports', { supports: [], feet: [] }, /stands on nothing/],
    ['an unknown node', { members: [member('m', 'nowhere', 'middle', SQUARE38)] }, /begins at «nowhere»/],
    ['a member of no length', { members: [member('m', 'middle', 'middle', SQUARE38)] }, /no length/],
    [
      'a wild number',
      { cases: [{ id: 'c', nodeLoads: [{ node: 'middle', forceN: [0, 0, Number.NaN] }] }] },
      /three numbers/,
    ],
    ['a bad modulus', { members: [{ ...portal(false).members[0], eMPa: -1 }] }, /moduli/],
    [
      'a load off its member',
      {
        cases: [{ id: 'c', memberLoads: [{ kind: 'point', member: 'beam1', atMm: 300, forceN: [0, 0, 1] }] }],
      },
      /beyond its end/,
    ],
    ['two nodes of one name', { nodes: [...portal(false).nodes, portal(false).nodes[0]] }, /Two nodes/],
  ]
  it.each(cases)('refuses %s in a sentence', (_, change, message) => {
    const answer = solveFrame({ ...portal(false), ...change })
    expect(answer.ok).toBe(false)
    if (!answer.ok) expect(answer.error.message).toMatch(message)
  })
})
