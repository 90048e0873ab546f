/**
 * The loads that a piece is judged by: published practice for seats, tables and shelves, as static forces on the
 * frame. N, mm. Loads: EN 12520 and EN 16139 / EN 1728 (seating at home and elsewhere), ISO 7173 (a stool without a back takes the backward force
 * at the seat), EN 12521 / EN 1730 (tables); most values are from memory and tagged so. Impact and fatigue tests are not
 * computed: a joint that works loose over years is not seen here. The piece's own weight is always on.
 * Tests: tests/core/statics/load-cases.test.ts
 */

import {
  area,
  centroid,
  convexHull,
  intersectConvex,
  type Polygon2,
  rectangle,
  type Vec2,
} from '#lib/core/geometry/polygon2'
import { add, cross, dot, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { speciesDensityKgPerM3 } from '#lib/core/wood/density'
import type { FrameCase, MemberLoad } from './frame-problem'
import { GRAVITY, type StaticsModel } from './from-model'
import { axisPlace, axisPoint } from './part-axis'
import type { SeatLevel } from './seat-levels'
import type { Sourced } from './sources'

export interface LoadCase {
  readonly id: string
  readonly name: string
  readonly source: Sourced
  /** Largest of its forces, N. */
  readonly sizeN: number
  /** What it shows beyond strength. */
  readonly shows: 'sag' | 'sway' | 'none'
  /** Stays on for years: deflection doubles (Wood Handbook ch. 5 and 9, from memory). */
  readonly isLasting: boolean
  /** Always on. */
  readonly fixed: readonly MemberLoad[]
  /**
   * reduce: a push is eased until the piece just stands, as EN 1728 does (from memory). weigh: the seat is weighed down
   * until it does (likewise).
   */
  readonly whenTips: 'reduce' | 'weigh'
  /** The push that is eased, or what the seat is weighed down with, 1000 N of it. */
  readonly variable: readonly MemberLoad[]
}

/** A case with its variable loads taken times `share`. */
export const frameCaseOf = (one: LoadCase, share: number): FrameCase => ({
  id: one.id,
  memberLoads: [...one.fixed, ...one.variable.map((load) => timesLoad(load, share))],
})

function timesLoad(load: MemberLoad, by: number): MemberLoad {
  if (load.kind === 'uniform') return { ...load, forcePerMm: scale(load.forcePerMm, by) }
  return { ...load, forceN: scale(load.forceN, by), torqueNmm: (load.torqueNmm ?? 0) * by }
}

/** Sustained load: long-term deflection about twice the first (Wood Handbook FPL-GTR-190, from memory). */
export const CREEP_FACTOR = 2
/** @example longTermMm(1.2) //=> 2.4 */
export const longTermMm = (firstMm: number): number => CREEP_FACTOR * firstMm

const memory = (source: string): Sourced => ({ source, tag: 'memory' })
const practice = (source: string): Sourced => ({ source, tag: 'practice' })

interface SeatLoads {
  readonly standard: string
  readonly staticN: number
  readonly edgeN: number
  readonly footRestN: number
  readonly legForwardN: number
  readonly legSidewaysN: number
}

/** Requirements by level; the tests are those of EN 1728. All from memory. */
export const SEAT_LOADS: Readonly<Record<SeatLevel, SeatLoads>> = {
  home: {
    ...{ standard: 'EN 12520', staticN: 1300, edgeN: 1300, footRestN: 1300 },
    ...{ legForwardN: 400, legSidewaysN: 300 },
  },
  public: {
    ...{ standard: 'EN 16139 level 1', staticN: 1600, edgeN: 1300, footRestN: 1300 },
    ...{ legForwardN: 500, legSidewaysN: 400 },
  },
  hard: {
    ...{ standard: 'EN 16139 level 2', staticN: 2000, edgeN: 1600, footRestN: 1600 },
    ...{ legForwardN: 620, legSidewaysN: 760 },
  },
}

/** The same at every level. */
const SEAT_TEST = { onSeatN: 1000, padMm: 200, edgeInsetMm: 80, edgePadMm: 100 } as const

const seatSources = ({ standard }: SeatLoads) => ({
  static: memory(`${standard}, seat static load after EN 1728`),
  edge: memory(`${standard}, seat front edge static load after EN 1728`),
  footRest: memory(`${standard}, foot-rail static load after EN 1728`),
  legForward: memory(
    `${standard}, leg forward static load after EN 1728, with 1000 N on the seat; ISO 7173 for a stool: at the seat`,
  ),
  legSideways: memory(`${standard}, leg sideways static load after EN 1728, with 1000 N on the seat`),
})

export const TABLE_LOADS = {
  staticN: { value: 1000, source: memory('EN 12521, vertical static load after EN 1730') },
  edgeInsetMm: 50,
  horizontalN: {
    value: 300,
    source: memory('EN 12521, horizontal static load after EN 1730, with 500 N on the top'),
  },
  onTopN: 500,
  padMm: 200,
} as const

export const SHELF_LOADS = {
  /** N/mm2: 1 kN/m2, about books two thirds of a hand deep on every shelf. */
  spread: {
    value: 0.001,
    source: practice('1 kN/m2 on every shelf (about 100 kg/m2), as for books'),
  },
  racking: { value: 0.05, source: practice('a twentieth of the load, sideways at the top') },
  leastRackingN: 50,
  /** Of what hangs on a wall. */
  leaned: {
    value: 200,
    insetMm: 50,
    source: {
      source: 'EN 16122:2012 11.2 puts 200 N so on what stands (assumed there too); the same on what hangs',
      tag: 'assumed',
    } as const,
  },
} as const

const DOWN: Vec3 = [0, 0, -1]

/** A force at a world point of a part, as a load on its member with the twist of standing off the axis. */
function partLoad(model: StaticsModel, partId: string, at: Vec3, forceN: Vec3): MemberLoad {
  const { axis } = model.parts.get(partId)!
  const members = model.membersOf.get(partId)!
  const wish = axisPlace(axis, at)
  const x = Math.min(members[members.length - 1].toMm, Math.max(members[0].fromMm, wish))
  const member = members.find(({ toMm }) => x <= toMm + 1e-9) ?? members[members.length - 1]
  const off = sub(at, axisPoint(axis, x))
  return {
    kind: 'point',
    member: member.id,
    atMm: Math.min(member.toMm - member.fromMm, Math.max(0, x - member.fromMm)),
    forceN,
    torqueNmm: dot(cross(off, forceN), axis.part.frame.x),
  }
}

function ownWeight(model: StaticsModel): MemberLoad[] {
  return [...model.parts].flatMap(([id, { axis, wood }]) => {
    const members = model.membersOf.get(id)!
    const lengthMm = members.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0)
    const weightN = axis.volumeMm3 * 1e-9 * speciesDensityKgPerM3(wood.species) * GRAVITY
    return members.map(
      (member): MemberLoad => ({
        kind: 'uniform',
        member: member.id,
        forcePerMm: scale(DOWN, weightN / lengthMm),
      }),
    )
  })
}

/** A square pad's load on the surfaces beneath it, as two forces on each at the quarters of what it covers. */
function padLoad(model: StaticsModel, centre: Vec2, loadN: number, padMm: number): MemberLoad[] {
  for (let side = padMm; side < 40 * padMm; side *= 1.5) {
    const pad = rectangle(
      centre[0] - side / 2,
      centre[1] - side / 2,
      centre[0] + side / 2,
      centre[1] + side / 2,
    )
    const shares = model.use.surfaces
      .map((id) => ({ id, piece: intersectConvex(model.parts.get(id)!.axis.plan, pad) }))
      .filter(({ piece }) => piece.length > 2)
    const total = shares.reduce((sum, { piece }) => sum + area(piece), 0)
    if (total < 1) continue
    return shares.flatMap(({ id, piece }) => onPatch(model, id, piece, (loadN * area(piece)) / total))
  }
  return []
}

function onPatch(model: StaticsModel, id: string, piece: Polygon2, loadN: number): MemberLoad[] {
  const { axis } = model.parts.get(id)!
  const [x, y] = centroid(piece)
  const grain: Vec2 = [axis.part.frame.x[0], axis.part.frame.x[1]]
  const reach = piece.map((p) => (p[0] - x) * grain[0] + (p[1] - y) * grain[1])
  const quarter = (Math.max(...reach) - Math.min(...reach)) / 4
  return [-1, 1].map((way) =>
    partLoad(
      model,
      id,
      [x + way * quarter * grain[0], y + way * quarter * grain[1], axis.topMm],
      scale(DOWN, loadN / 2),
    ),
  )
}

/** A force sideways at the surfaces, shared by their areas. */
function sideLoad(model: StaticsModel, forceN: Vec3): MemberLoad[] {
  const top = model.use.kind === 'shelf' ? topSurfaces(model) : model.use.surfaces
  const areas = top.map((id) => area(model.parts.get(id)!.axis.plan))
  const total = areas.reduce((sum, one) => sum + one, 0)
  return top.map((id, i) => {
    const { axis } = model.parts.get(id)!
    const [x, y] = centroid(axis.plan)
    return partLoad(model, id, [x, y, axis.topMm], scale(forceN, areas[i] / total))
  })
}

function topSurfaces(model: StaticsModel): readonly string[] {
  const topMm = Math.max(...model.use.surfaces.map((id) => model.parts.get(id)!.axis.topMm))
  return model.use.surfaces.filter((id) => model.parts.get(id)!.axis.topMm > topMm - 3)
}

/** Outline of what is loaded, seen from above. */
export const surfaceOutline = (model: StaticsModel): Polygon2 =>
  convexHull(
    (model.use.kind === 'shelf' ? topSurfaces(model) : model.use.surfaces).flatMap(
      (id) => model.parts.get(id)!.axis.plan,
    ),
  )

interface Bounds {
  readonly middle: Vec2
  readonly low: Vec2
  readonly high: Vec2
}
function boundsOf(outline: Polygon2): Bounds {
  const low: Vec2 = [Math.min(...outline.map((p) => p[0])), Math.min(...outline.map((p) => p[1]))]
  const high: Vec2 = [Math.max(...outline.map((p) => p[0])), Math.max(...outline.map((p) => p[1]))]
  return { middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2], low, high }
}

/** Middles of the four sides, so far inside. */
function edgePlaces(
  { middle, low, high }: Bounds,
  insetMm: number,
): readonly (readonly [string, string, Vec2])[] {
  const [dx, dy] = [Math.min(insetMm, (high[0] - low[0]) / 2), Math.min(insetMm, (high[1] - low[1]) / 2)]
  return [
    ['front', 'front edge', [middle[0], low[1] + dy]],
    ['back', 'back edge', [middle[0], high[1] - dy]],
    ['left', 'left edge', [low[0] + dx, middle[1]]],
    ['right', 'right edge', [high[0] - dx, middle[1]]],
  ]
}

const WAYS: readonly (readonly [string, string, Vec3])[] = [
  ['forward', 'forwards', [0, -1, 0]],
  ['backward', 'backwards', [0, 1, 0]],
  ['left', 'to the left', [-1, 0, 0]],
  ['right', 'to the right', [1, 0, 0]],
]

interface Draft {
  readonly id: string
  readonly name: string
  readonly source: Sourced
  readonly sizeN: number
  readonly shows?: LoadCase['shows']
  readonly isLasting?: boolean
  readonly loads: readonly MemberLoad[]
  readonly push?: readonly MemberLoad[]
  readonly counter?: readonly MemberLoad[]
}

function seatCases(model: StaticsModel, level: SeatLevel): Draft[] {
  const bounds = boundsOf(surfaceOutline(model))
  const [loads, test, from] = [SEAT_LOADS[level], SEAT_TEST, seatSources(SEAT_LOADS[level])]
  const onSeat = padLoad(model, bounds.middle, test.onSeatN, test.padMm)
  const cases: Draft[] = [
    {
      id: 'seat',
      name: 'Sat on, in the middle',
      source: from.static,
      sizeN: loads.staticN,
      shows: 'sag',
      loads: padLoad(model, bounds.middle, loads.staticN, test.padMm),
    },
    ...edgePlaces(bounds, test.edgeInsetMm).map(
      ([id, name, at]): Draft => ({
        id: `seat-${id}`,
        name: `Sat on, at the ${name}`,
        source: from.edge,
        sizeN: loads.edgeN,
        loads: padLoad(model, at, loads.edgeN, test.edgePadMm),
      }),
    ),
    ...WAYS.map(([id, name, way], i): Draft => {
      const pushN = i < 2 ? loads.legForwardN : loads.legSidewaysN
      return {
        id: `push-${id}`,
        name: `Pushed ${name} while sat on`,
        source: i < 2 ? from.legForward : from.legSideways,
        sizeN: pushN,
        shows: 'sway',
        loads: onSeat,
        push: sideLoad(model, scale(way, pushN)),
      }
    }),
  ]
  const rests = (model.use.footRests ?? []).map(
    (id): Draft => ({
      id: `footrest-${id}`,
      name: 'Stood on, on the footrest',
      source: from.footRest,
      sizeN: loads.footRestN,
      loads: [partLoad(model, id, footRestPoint(model, id), scale(DOWN, loads.footRestN))],
      counter: padLoad(model, bounds.middle, test.onSeatN, test.padMm),
    }),
  )
  return [...cases, ...rests]
}

/** How far inside an edge the middle of a sole stands at least (common practice). */
const SOLE_MM = 20

/** Where feet press on a footrest: on its upper face, near the higher edge; on the middle of one narrower than a sole. */
export function footRestPoint(model: StaticsModel, id: string): Vec3 {
  const { axis } = model.parts.get(id)!
  const { frame, blank } = axis.part
  const [y, z] = [
    { along: frame.y, half: blank.widthMm / 2 },
    { along: frame.z, half: blank.thicknessMm / 2 },
  ]
  const [up, across] = Math.abs(frame.y[2]) >= Math.abs(frame.z[2]) ? [y, z] : [z, y]
  const top = add(
    axisPoint(axis, (axis.fromMm + axis.toMm) / 2),
    scale(up.along, Math.sign(up.along[2]) * up.half),
  )
  const isLevel = Math.abs(across.along[2]) < 1e-6
  const outwards = Math.sign(isLevel ? dot(across.along, sub(top, model.centre)) : across.along[2]) || 1
  return add(top, scale(across.along, outwards * Math.max(0, across.half - SOLE_MM)))
}

function tableCases(model: StaticsModel): Draft[] {
  const bounds = boundsOf(surfaceOutline(model))
  const L = TABLE_LOADS
  const onTop = padLoad(model, bounds.middle, L.onTopN, L.padMm)
  return [
    {
      id: 'top',
      name: 'Loaded in the middle',
      source: L.staticN.source,
      sizeN: L.staticN.value,
      shows: 'sag',
      loads: padLoad(model, bounds.middle, L.staticN.value, L.padMm),
    },
    ...edgePlaces(bounds, L.edgeInsetMm).map(
      ([id, name, at]): Draft => ({
        id: `top-${id}`,
        name: `Loaded at the ${name}`,
        source: L.staticN.source,
        sizeN: L.staticN.value,
        loads: padLoad(model, at, L.staticN.value, 100),
      }),
    ),
    ...WAYS.map(
      ([id, name, way]): Draft => ({
        id: `push-${id}`,
        name: `Pushed ${name}`,
        source: L.horizontalN.source,
        sizeN: L.horizontalN.value,
        shows: 'sway',
        loads: onTop,
        push: sideLoad(model, scale(way, L.horizontalN.value)),
      }),
    ),
  ]
}

function shelfCases(model: StaticsModel): Draft[] {
  const L = SHELF_LOADS
  const loads = model.use.surfaces.flatMap((id) => spreadLoad(model, id, L.spread.value))
  const totalN = model.use.surfaces.reduce(
    (sum, id) => sum + area(model.parts.get(id)!.axis.plan) * L.spread.value,
    0,
  )
  const rackN = Math.max(L.leastRackingN, L.racking.value * totalN)
  return [
    {
      id: 'full',
      name: 'Every shelf full, for years',
      source: L.spread.source,
      sizeN: totalN,
      shows: 'sag',
      isLasting: true,
      loads,
    },
    ...WAYS.map(
      ([id, name, way]): Draft => ({
        id: `push-${id}`,
        name: `Full, and pushed ${name}`,
        source: L.racking.source,
        sizeN: rackN,
        shows: 'sway',
        loads,
        push: sideLoad(model, scale(way, rackN)),
      }),
    ),
    ...(model.wall === undefined ? [] : [leanedOn(model, loads)]),
  ]
}

/** A full shelf on a wall with someone's weight on its front edge. */
function leanedOn(model: StaticsModel, full: readonly MemberLoad[]): Draft {
  const { value, insetMm, source } = SHELF_LOADS.leaned
  const [[, , front]] = edgePlaces(boundsOf(surfaceOutline(model)), insetMm)
  return {
    id: 'leaned',
    name: 'Full, and leaned on at the front edge',
    source,
    sizeN: value,
    loads: [...full, ...padLoad(model, front, value, 100)],
  }
}

/** An even load over a part, N/mm2 of its outline. */
function spreadLoad(model: StaticsModel, id: string, perMm2: number): MemberLoad[] {
  const { axis } = model.parts.get(id)!
  const members = model.membersOf.get(id)!
  const lengthMm = members.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0)
  const perMm = (area(axis.plan) * perMm2) / lengthMm
  return members.map(
    (member): MemberLoad => ({ kind: 'uniform', member: member.id, forcePerMm: scale(DOWN, perMm) }),
  )
}

/** Every load case of the piece's use, on its frame. */
export function loadCases(model: StaticsModel, level: SeatLevel = 'home'): LoadCase[] {
  const { kind } = model.use
  const drafts =
    kind === 'seat' ? seatCases(model, level) : kind === 'table' ? tableCases(model) : shelfCases(model)
  const own = ownWeight(model)
  // Cases that share their loads share the list, so that it is worked out once.
  const lists = new Map<readonly MemberLoad[], readonly MemberLoad[]>()
  const withOwn = (loads: readonly MemberLoad[]): readonly MemberLoad[] => {
    const known = lists.get(loads) ?? [...own, ...loads]
    lists.set(loads, known)
    return known
  }
  return drafts.map(({ loads, push = [], counter, shows = 'none', isLasting = false, ...rest }) => ({
    ...rest,
    shows,
    isLasting,
    fixed: withOwn(loads),
    whenTips: counter === undefined ? 'reduce' : 'weigh',
    variable: counter ?? push,
  }))
}
