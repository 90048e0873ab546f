/**
 * The checks that solved load cases and the wood's movement make: for every part and joint the worst case, in a
 * sentence. N, mm, MPa. Limits of comfort (sag, sway, creak) are common practice or assumed and say so.
 * Tests: tests/core/statics/strength.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { GRADES } from '#lib/core/wood/grades'
import type { SpeciesValueName } from '#lib/core/wood/species'
import { fifthPercentile } from '#lib/core/wood/strength'
import { type Chance, marginOf, type StrengthCheck, say3 } from './checks'
import type { StaticsModel } from './from-model'
import type { JointDemand, PartDemand } from './judge-case'
import { longTermMm } from './load-cases'
import type { Movements } from './movement'
import { plainName } from './part-axis'
import type { CaseResultOf } from './run-cases'
import type { Sourced } from './sources'

/** Sag of a loaded span, as a share of it. */
export const SAG_LIMITS = { seat: 1 / 100, table: 1 / 200, shelf: 1 / 240 } as const
/** Sway under the test push, as a share of the height. */
export const SWAY_LIMIT = 1 / 60
/** Parts that slide past each other by more than this creak. */
export const CREAK_LIMIT_MM = 0.3

const practice = (source: string): Sourced => ({ source, tag: 'practice' })
const assumed = (source: string): Sourced => ({ source, tag: 'assumed' })
const FRAME: Sourced = practice('elastic space frame with joints that give')

const meanOverCapacity = (factor: number, variation: number): number => factor / fifthPercentile(1, variation)

function woodSource(model: StaticsModel, partId: string, value: SpeciesValueName): Sourced {
  const { wood } = model.parts.get(partId)!
  const tag = wood.species.tags[value] ?? 'assumed'
  return { source: `${wood.species.name}: ${wood.species.source}; ${GRADES[wood.grade].label}`, tag }
}

interface Worst<T> {
  readonly demand: T
  readonly of: CaseResultOf
}

/** The worst demand of each key over all cases. */
function worstBy<T>(
  results: readonly CaseResultOf[],
  pick: (one: CaseResultOf) => readonly T[],
  key: (demand: T) => string,
  size: (demand: T) => number,
): Worst<T>[] {
  const worst = new Map<string, Worst<T>>()
  for (const of of results)
    for (const demand of pick(of)) {
      const before = worst.get(key(demand))
      if (before === undefined || size(demand) > size(before.demand)) worst.set(key(demand), { demand, of })
    }
  return [...worst.values()]
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)

const PART_WORDS = {
  bending: ['bending', 'bends to', 'morMPa'],
  shear: ['shear', 'is sheared to', 'shearMPa'],
  buckling: ['buckling', 'is pressed with', 'moeMPa'],
} as const

function partCheck(model: StaticsModel, { demand: d, of }: Worst<PartDemand>): StrengthCheck {
  const { axis, wood } = model.parts.get(d.partId)!
  const [noun, verb, value] = PART_WORDS[d.kind]
  const margin = marginOf(d.share, 1)
  const name = plainName(axis.part)
  const notch = d.isNotched ? ', at a notch' : ''
  return {
    id: `${d.kind}/${d.partId}`,
    kind: d.kind,
    weight: 'safety',
    title: `${name}: ${noun}`,
    demand: d.share * d.capacity,
    capacity: d.capacity,
    unit: d.unit,
    margin,
    passes: margin >= 1,
    loadCase: of.loadCase.name,
    where: { partIds: [d.partId], at: d.at },
    sources: [of.loadCase.source, woodSource(model, d.partId, value), FRAME],
    sentence: `«${name}» ${verb} ${say3(d.share * d.capacity)} ${d.unit}${notch}, where ${say3(d.capacity)} ${d.unit} is allowed: ${lower(of.loadCase.name)}.`,
    chance: chanceOf(`${d.partId}/${d.kind}`, d.variation, wood.factor),
  }
}

const chanceOf = (key: string, variation: number, factor: number): Chance => ({
  key,
  variation,
  meanOverCapacity: meanOverCapacity(factor, variation),
})

const jointName = (model: StaticsModel, { piece }: JointDemand): string =>
  `${plainName(model.parts.get(piece.joint.a)!.axis.part)} to ${lower(plainName(model.parts.get(piece.joint.b)!.axis.part))}`

const CARRIER_SOURCE: Readonly<Record<'glue' | 'screws' | 'shoulders' | 'woodBeyond', Sourced>> = {
  glue: {
    source:
      'glue by the grains that meet: Wood Handbook FPL-GTR-190 ch. 10; twist of crossed grains EN 16351, Blaß and Görlacher 2002, by the shear strength of the wood',
    tag: 'memory',
  },
  screws: {
    source: 'Wood Handbook FPL-GTR-190 ch. 8 (withdrawal read, lateral K and head from memory)',
    tag: 'memory',
  },
  shoulders: {
    source: 'bearing across the grain, Wood Handbook Table 5-3b; tight shoulders',
    tag: 'practice',
  },
  woodBeyond: { source: 'shear along the grain beyond the notch, Wood Handbook Table 5-3b', tag: 'practice' },
}

function jointCheck(model: StaticsModel, { demand: d, of }: Worst<JointDemand>): StrengthCheck {
  const carrier = d.use.governing
  const margin = Number.isFinite(d.use.share) ? marginOf(d.use.share, 1) : 0
  const name = jointName(model, d)
  const middle: Vec3 = d.piece.frame.origin
  const common = {
    id: `joint/${d.piece.id}`,
    kind: 'joint' as const,
    weight: 'safety' as const,
    title: `Joint, ${lower(name)}`,
    margin,
    passes: margin >= 1,
    loadCase: of.loadCase.name,
    where: { partIds: [d.piece.joint.a, d.piece.joint.b], jointId: d.piece.joint.id, at: middle },
  }
  if (carrier === undefined)
    return {
      ...common,
      demand: 0,
      capacity: 1,
      unit: 'times',
      sources: [of.loadCase.source],
      sentence: `${name}: only pressed together.`,
    }
  const isHeld = Number.isFinite(carrier.share)
  const unit = carrier.unit
  return {
    ...common,
    demand: isHeld ? carrier.demand : 1,
    capacity: isHeld ? carrier.capacity : 0,
    unit: isHeld ? unit : 'times',
    sources: [of.loadCase.source, CARRIER_SOURCE[carrier.kind], FRAME],
    sentence: isHeld
      ? `${name}: ${carrier.how}, ${say3(carrier.demand)} ${unit} where ${say3(carrier.capacity)} ${unit} is allowed: ${lower(of.loadCase.name)}.`
      : `${name}: ${carrier.how}: ${lower(of.loadCase.name)}.`,
    ...(isHeld
      ? { chance: chanceOf(`${d.piece.id}/${carrier.kind}`, carrier.variation, carrier.factor) }
      : {}),
  }
}

function sagChecks(model: StaticsModel, results: readonly CaseResultOf[]): StrengthCheck[] {
  const limit = SAG_LIMITS[model.use.kind]
  const sagging = results.filter(({ loadCase }) => loadCase.shows === 'sag')
  return worstBy(
    sagging,
    ({ demands }) => demands.sags,
    ({ partId }) => partId,
    ({ mm }) => mm,
  ).map(({ demand, of }) => {
    const mm = of.loadCase.isLasting ? longTermMm(demand.mm) : demand.mm
    const capacity = limit * demand.spanMm
    const name = plainName(model.parts.get(demand.partId)!.axis.part)
    const margin = marginOf(mm, capacity)
    const lasting = of.loadCase.isLasting ? ', twice the first sag since the load stays' : ''
    return {
      id: `sag/${demand.partId}`,
      kind: 'sag',
      weight: 'comfort',
      title: `${name}: sag`,
      demand: mm,
      capacity,
      unit: 'mm',
      margin,
      passes: margin >= 1,
      loadCase: of.loadCase.name,
      where: { partIds: [demand.partId], at: demand.at },
      sources: [of.loadCase.source, practice(`sag of at most 1/${Math.round(1 / limit)} of the span`)],
      sentence: `«${name}» sags ${say3(mm)} mm over ${Math.round(demand.spanMm)} mm${lasting}; ${say3(capacity)} mm is the most that does not show or feel.`,
    }
  })
}

/** The floor, or the lower end of what hangs. */
const lowestMm = ({ wall, frame }: StaticsModel): number =>
  wall === undefined ? 0 : Math.min(...frame.nodes.map(({ at }) => at[2]))

function swayCheck(model: StaticsModel, results: readonly CaseResultOf[]): StrengthCheck[] {
  const pushed = results.filter(({ loadCase }) => loadCase.shows === 'sway')
  if (pushed.length === 0) return []
  const worst = pushed.reduce((a, b) => (b.demands.swayMm > a.demands.swayMm ? b : a))
  const heightMm = Math.max(...model.use.surfaces.map((id) => model.parts.get(id)!.axis.topMm))
  const capacity = SWAY_LIMIT * (heightMm - lowestMm(model))
  const margin = marginOf(worst.demands.swayMm, capacity)
  const pushN = worst.loadCase.sizeN * worst.run.share
  return [
    {
      id: 'sway',
      kind: 'sway',
      weight: 'comfort',
      title: 'Racking',
      demand: worst.demands.swayMm,
      capacity,
      unit: 'mm',
      margin,
      passes: margin >= 1,
      loadCase: worst.loadCase.name,
      where: { partIds: [], at: [model.centre[0], model.centre[1], heightMm] },
      sources: [worst.loadCase.source, assumed('sway of at most 1/60 of the height feels firm')],
      sentence: `It sways ${say3(worst.demands.swayMm)} mm under ${Math.round(pushN)} N at the top; more than ${say3(capacity)} mm feels loose.`,
    },
  ]
}

function creakChecks(model: StaticsModel, results: readonly CaseResultOf[]): StrengthCheck[] {
  const sat = results.filter(({ loadCase }) => loadCase.shows === 'sag')
  const bare = (one: CaseResultOf): JointDemand[] =>
    one.demands.joints.filter(({ piece }) => !piece.joint.glued)
  const worst = worstBy(
    sat,
    bare,
    () => 'all',
    ({ slipMm }) => slipMm,
  )
  return worst.map(({ demand, of }) => {
    const margin = marginOf(demand.slipMm, CREAK_LIMIT_MM)
    const name = jointName(model, demand)
    return {
      id: 'creak',
      kind: 'creak',
      weight: 'comfort',
      title: 'Creaking',
      demand: demand.slipMm,
      capacity: CREAK_LIMIT_MM,
      unit: 'mm',
      margin,
      passes: margin >= 1,
      loadCase: of.loadCase.name,
      where: {
        partIds: [demand.piece.joint.a, demand.piece.joint.b],
        jointId: demand.piece.joint.id,
        at: demand.piece.frame.origin,
      },
      sources: [
        of.loadCase.source,
        assumed(`joints without glue that slide more than ${CREAK_LIMIT_MM} mm creak`),
      ],
      sentence: `${name}: the parts slide ${say3(demand.slipMm)} mm past each other, ${lower(of.loadCase.name)}; beyond ${CREAK_LIMIT_MM} mm they creak.`,
    }
  })
}

function movementChecks(model: StaticsModel, { held, gaps }: Movements): StrengthCheck[] {
  const name = (id: string): string => plainName(model.parts.get(id)!.axis.part)
  const source: Sourced = { source: 'Wood Handbook FPL-GTR-190 eq. 13-2, Table 13-5', tag: 'read' }
  const acrosses = held.map((one): StrengthCheck => {
    const margin = marginOf(one.growthMm, one.limitMm)
    const how = one.isGlued ? 'glued' : 'screwed'
    return {
      id: `movement/${one.partId}/${one.byId}`,
      kind: 'movement',
      weight: 'comfort',
      title: `${name(one.partId)}: held across its grain`,
      demand: one.growthMm,
      capacity: one.limitMm,
      unit: 'mm',
      margin,
      passes: margin >= 1,
      loadCase: 'From winter to summer',
      where: { partIds: [one.partId, one.byId], jointId: one.jointIds[0], at: one.at },
      sources: [source, practice(`${how} across the grain over at most ${one.isGlued ? 75 : 125} mm`)],
      sentence: `«${name(one.partId)}» is ${how} to «${name(one.byId)}» over ${Math.round(one.spanMm)} mm across its grain and moves ${say3(one.growthMm)} mm there from winter to summer${margin >= 1 ? '' : '; it will crack or tear loose unless it can slide'}.`,
    }
  })
  const closing = gaps.map((gap): StrengthCheck => {
    const margin = marginOf(gap.growthMm, gap.gapMm)
    return {
      id: `gap/${gap.partIds.join('/')}`,
      kind: 'gap',
      weight: 'comfort',
      title: `Gap between ${lower(name(gap.partIds[0]))} and ${lower(name(gap.partIds[1]))}`,
      demand: gap.growthMm,
      capacity: gap.gapMm,
      unit: 'mm',
      margin,
      passes: margin >= 1,
      loadCase: 'From winter to summer',
      where: { partIds: gap.partIds, at: gap.at },
      sources: [source],
      sentence: `Swelling takes ${say3(gap.growthMm)} mm of the ${say3(gap.gapMm)} mm between «${name(gap.partIds[0])}» and «${name(gap.partIds[1])}».`,
    }
  })
  return [...acrosses, ...closing]
}

/** All checks but tipping, in no order. */
export function strengthChecks(
  model: StaticsModel,
  results: readonly CaseResultOf[],
  movement: Movements,
): StrengthCheck[] {
  const parts = worstBy(
    results,
    ({ demands }) => demands.parts,
    (d) => `${d.kind}/${d.partId}`,
    (d) => d.share,
  )
  const joints = worstBy(
    results,
    ({ demands }) => demands.joints,
    ({ piece }) => piece.id,
    ({ use }) => use.share,
  )
  return [
    ...parts.map((worst) => partCheck(model, worst)),
    ...joints.map((worst) => jointCheck(model, worst)),
    ...sagChecks(model, results),
    ...swayCheck(model, results),
    ...creakChecks(model, results),
    ...movementChecks(model, movement),
  ]
}
