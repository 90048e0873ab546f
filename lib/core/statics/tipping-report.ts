/**
 * Tipping of a model: from its real feet, weight and outline, by the published forces; a person on the very edge; a
 * person who stands on the footrest. N, mm, rad. Method: stability.ts. Tests: tests/core/statics/strength.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { StrengthCheck } from './checks'
import { marginOf, say3 } from './checks'
import type { StaticsModel } from './from-model'
import { footRestPoint, surfaceOutline } from './load-cases'
import { axisPoint } from './part-axis'
import {
  pushAtTippingN,
  rakeToPassRad,
  SEAT_TIPPING,
  type StandingPiece,
  shelfTipping,
  supportPolygon,
  TABLE_TIPPING,
  type Tipping,
  type TippingCase,
  tiltAngleRad,
  tippingOf,
} from './stability'

/** How the legs on the side to which it goes over lean that way, and how they would for it to just pass, rad. */
export interface Lean {
  readonly nowRad: number
  readonly toPassRad: number
}

export interface LeaningTipping extends Tipping {
  /** Absent where no leg stands there, or nothing tips it. */
  readonly lean?: Lean
}

export interface TippingReport {
  readonly piece: StandingPiece
  readonly support: readonly Vec2[]
  readonly cases: readonly LeaningTipping[]
  /** Someone on the very edge, nothing pushing. */
  readonly onEdge: LeaningTipping | undefined
  /** Someone who steps on the footrest of an empty seat. */
  readonly onFootRest: LeaningTipping | undefined
  /** Tilt at which the empty piece falls, the least of all directions. */
  readonly tiltRad: number
}

/** Advice: not below this even where 1 would pass (common practice). */
export const ADVISED_FACTOR = 1.25

const ON_EDGE: TippingCase = {
  id: 'onEdge',
  name: 'Sitting on the very edge',
  loadN: 600,
  insetMm: 0,
  pushN: 0,
  source: { source: '600 N of EN 1022, at the edge itself', tag: 'practice' },
}
const ON_FOOTREST: TippingCase = {
  id: 'onFootRest',
  name: 'Stepping on the footrest, seat empty',
  loadN: 600,
  insetMm: 0,
  pushN: 0,
  source: {
    source: '600 N of EN 1022 on the footrest: EN 16139 lists the case, the load is assumed',
    tag: 'assumed',
  },
}

function standing(model: StaticsModel): StandingPiece {
  const feet = [...model.parts.values()].flatMap(({ axis }) => axis.floor.map((p): Vec2 => [p[0], p[1]]))
  return {
    feet,
    centre: [model.centre[0], model.centre[1], model.centre[2]],
    weightN: model.weightN,
    surface: surfaceOutline(model),
    surfaceHeightMm: Math.max(...model.use.surfaces.map((id) => model.parts.get(id)!.axis.topMm)),
  }
}

/** Legs stand more upright than this: the cosine of the lean. */
const LEG_UPRIGHT = 0.5

/** Of the leg that stands furthest out on the side to which it goes over. */
function leanOf({ parts }: StaticsModel, { worst }: Tipping): Lean | undefined {
  const [tx, ty] = worst.towards
  const legs = [...parts.values()]
    .filter(({ axis }) => axis.floor.length > 0 && Math.abs(axis.part.frame.x[2]) > LEG_UPRIGHT)
    .map(({ axis }) => {
      const [a, b] = [axisPoint(axis, axis.fromMm), axisPoint(axis, axis.toMm)]
      const [foot, top] = a[2] < b[2] ? [a, b] : [b, a]
      const out = (p: Vec3): number => p[0] * tx + p[1] * ty
      return { footMm: out(foot), outMm: out(foot) - out(top), legHeightMm: top[2] - foot[2] }
    })
  if (legs.length === 0 || !Number.isFinite(worst.factor)) return undefined
  const { outMm, legHeightMm } = legs.reduce((far, leg) => (leg.footMm > far.footMm ? leg : far))
  const nowRad = Math.atan(outMm / legHeightMm)
  const { outsetMm } = worst
  return { nowRad, toPassRad: rakeToPassRad({ rakeRad: nowRad, legHeightMm, outsetMm }) }
}

function leaning(model: StaticsModel, tipping: Tipping | undefined): LeaningTipping | undefined {
  const lean = tipping && leanOf(model, tipping)
  return tipping && lean ? { ...tipping, lean } : tipping
}

/** @returns undefined if its feet span no area */
export function tippingReport(model: StaticsModel): TippingReport | undefined {
  const piece = standing(model)
  const support = supportPolygon(piece.feet)
  if (support === undefined) return undefined
  const { kind } = model.use
  const list =
    kind === 'seat' ? SEAT_TIPPING : kind === 'table' ? TABLE_TIPPING : shelfTipping(piece.surfaceHeightMm)
  const cases = list.flatMap((one) => leaning(model, tippingOf(piece, one)) ?? [])
  const rest = model.use.footRests?.[0]
  const step = rest === undefined ? undefined : footRestPoint(model, rest)
  const levers = cases[0].lines.map(({ levers: { weightMm } }) => weightMm)
  return {
    piece,
    support,
    cases,
    onEdge: kind === 'seat' ? leaning(model, tippingOf(piece, ON_EDGE)) : undefined,
    onFootRest:
      step === undefined
        ? undefined
        : leaning(model, tippingOf(piece, ON_FOOTREST, { point: [step[0], step[1]], heightMm: step[2] })),
    tiltRad: tiltAngleRad(Math.min(...levers), piece.centre[2]),
  }
}

const WAYS: readonly (readonly [Vec2, string])[] = [
  [[0, -1], 'forwards'],
  [[0, 1], 'backwards'],
  [[-1, 0], 'to the left'],
  [[1, 0], 'to the right'],
]

/** A direction in plan, in words. @example sayWay([0, -1]) //=> 'forwards' */
export const sayWay = (towards: Vec2): string =>
  WAYS.reduce((best, way) =>
    way[0][0] * towards[0] + way[0][1] * towards[1] > best[0][0] * towards[0] + best[0][1] * towards[1]
      ? way
      : best,
  )[1]

/** What would have to be done about a piece that tips. */
function remedy({ case: one, worst }: Tipping, weightN: number): string {
  if (worst.factor >= ADVISED_FACTOR) return ''
  if (worst.factor >= 1) return ` Little to spare: ${ADVISED_FACTOR} is advised.`
  const tipsN = Math.floor(pushAtTippingN({ loadN: one.loadN, weightN }, worst.levers))
  if (one.weight === 'condition')
    return ` ${tipsN} N pull it over: it must not stand free. Fix it to a wall before anything is put on it.`
  if (one.weight === 'comfort' && one.loadN === 0)
    return ` ${tipsN} N push it over: it is no stand for what must not fall, and nobody should lean on it.`
  return ` Its feet would have to stand ${Math.ceil(worst.outsetMm)} mm further out there.`
}

function tippingCheck(
  tipping: Tipping,
  weight: StrengthCheck['weight'],
  heightMm: number,
  weightN: number,
): StrengthCheck {
  const { case: one, worst } = tipping
  const margin = Number.isFinite(worst.factor) ? marginOf(1, worst.factor) : marginOf(0, 1)
  const way = sayWay(worst.towards)
  const times = Number.isFinite(worst.factor)
    ? `it stands ${say3(worst.factor)} times what tips it ${way}`
    : `nothing tips it ${way}`
  return {
    id: `tipping/${one.id}`,
    kind: 'tipping',
    weight,
    title: `Tipping: ${one.name.toLowerCase()}`,
    demand: 1,
    capacity: margin,
    unit: 'times',
    margin,
    passes: worst.factor >= 1,
    loadCase: one.name,
    where: { partIds: [], at: [worst.loadAt[0], worst.loadAt[1], heightMm] },
    sources: [one.source],
    sentence: `${one.name}: ${times}.${remedy(tipping, weightN)}`,
    ...(weight === 'condition' ? { condition: 'once it is fixed to a wall' } : {}),
  }
}

/** The checks that a tipping report makes. */
export function tippingChecks(report: TippingReport): StrengthCheck[] {
  const { surfaceHeightMm, weightN } = report.piece
  const { onFootRest, onEdge } = report
  const check = (tipping: Tipping, weight: StrengthCheck['weight'], heightMm = surfaceHeightMm) =>
    tippingCheck(tipping, weight, heightMm, weightN)
  return [
    ...report.cases.map((tipping) => check(tipping, tipping.case.weight ?? 'safety')),
    ...(onFootRest === undefined ? [] : [check(onFootRest, 'safety', onFootRest.worst.levers.heightMm)]),
    ...(onEdge === undefined ? [] : [check(onEdge, 'comfort')]),
  ]
}
