/**
 * What a finish plan takes: area, product, hours and masking of every region, and the order in which to go. mm2, mm,
 * litres, hours. Together, whatever another part covers is left out; apart, only glue faces are left out and masked:
 * glue does not hold on finish. Masking between parts is reckoned along the whole border of where they touch, so it is
 * the most that may be needed. Tests: tests/core/finish/quantities.test.ts
 */
import type { Model } from '#lib/core/design/model'
import { type Coating, type FinishPlan, type FinishRegion, faceNameOf, regionAt } from './finish-plan'
import type { CoatKind } from './products'
import { meetingLength, type Surface, surfacesOf, type Touch, touchesOf } from './surfaces'

/** What stays in brush, roller, rag and tin (common practice). */
export const STAYS_IN_BRUSH = 0.1

export interface RegionNeed {
  readonly region: FinishRegion
  readonly areaMm2: number
  /** Of it, end grain: it drinks more than the tin reckons with. */
  readonly endGrainMm2: number
  /** Left out because another part lies on it. */
  readonly coveredMm2: number
  readonly litres: number
  readonly hours: number
}

export interface FinishNeed {
  /** In the order in which to go. */
  readonly regions: readonly RegionNeed[]
  readonly bareMm2: number
  readonly maskingMm: number
  /** From the first coat to the last one dry, one region after the other. */
  readonly hours: number
}

/** @param areaMm2 and the coats of @param coating @example litresFor(9e6, { coats: 2, spreadM2PerL: 9, … }) //=> 2.2 */
export const litresFor = (areaMm2: number, { kind, coats, spreadM2PerL }: Coating): number =>
  kind === 'bare' ? 0 : ((areaMm2 / 1e6) * coats * (1 + STAYS_IN_BRUSH)) / spreadM2PerL

export const hoursFor = ({ kind, coats, recoatHours }: Coating): number =>
  kind === 'bare' ? 0 : coats * recoatHours

/** Colour goes into the wood before anything seals it; nothing holds on wax. */
const TURN: Readonly<Record<CoatKind, number>> = {
  bare: 0,
  stain: 1,
  shellac: 2,
  oil: 3,
  varnish: 3,
  paint: 4,
  wax: 5,
}

interface Finished {
  readonly surface: Surface
  readonly region: FinishRegion | undefined
  readonly coveredMm2: number
}

/** Hidden faces and undersides, before what is seen. */
function insideShare(finished: readonly Finished[]): number {
  let [inside, all] = [0, 0]
  for (const { surface } of finished) {
    const name = faceNameOf(surface.part, surface.of)
    const isHidden = (name !== undefined && surface.part.faces[name] === 'hidden') || surface.normal[2] < -0.5
    all += surface.areaMm2
    if (isHidden) inside += surface.areaMm2
  }
  return all === 0 ? 0 : inside / all
}

const isMeant = (plan: FinishPlan, touch: Touch): boolean => plan.when === 'together' || touch.isGlued

function needOf(region: FinishRegion, all: readonly Finished[]): RegionNeed {
  const own = all.filter((f) => f.region === region)
  const sum = (of: (f: Finished) => number): number => own.reduce((total, f) => total + of(f), 0)
  const open = ({ surface, coveredMm2 }: Finished): number => Math.max(0, surface.areaMm2 - coveredMm2)
  const areaMm2 = sum(open)
  return {
    region,
    areaMm2,
    endGrainMm2: sum((f) => (f.surface.isEndGrain ? open(f) : 0)),
    coveredMm2: sum((f) => f.coveredMm2),
    litres: litresFor(areaMm2, region.coating),
    hours: areaMm2 > 0 ? hoursFor(region.coating) : 0,
  }
}

const isFinished = (region: FinishRegion | undefined): boolean =>
  region !== undefined && region.coating.kind !== 'bare'

/** Two regions that would be brushed alike need no line between them. */
const lookOf = (region: FinishRegion | undefined): string =>
  region === undefined || region.coating.kind === 'bare'
    ? 'bare'
    : `${region.coating.kind} ${region.coating.colour ?? ''}`

/** Where paint may run over: nobody sees a hidden face that stays bare. */
const isIndifferent = ({ surface, region }: Finished): boolean => {
  const name = faceNameOf(surface.part, surface.of)
  return name === undefined || (!isFinished(region) && surface.part.faces[name] === 'hidden')
}

/** Along the edges of parts where one finish ends and another begins. */
function maskingOnParts(all: readonly Finished[]): number {
  const byPart = new Map<string, Finished[]>()
  for (const f of all.filter((one) => !isIndifferent(one)))
    byPart.set(f.surface.part.id, [...(byPart.get(f.surface.part.id) ?? []), f])
  let sumMm = 0
  for (const own of byPart.values())
    own.forEach((a, i) => {
      for (const b of own.slice(i + 1))
        if (lookOf(a.region) !== lookOf(b.region)) sumMm += meetingLength(a.surface, b.surface)
    })
  return sumMm
}

/** Along the borders of where parts touch. */
function maskingBetween(
  plan: FinishPlan,
  touches: readonly Touch[],
  regionOf: (s: Surface) => FinishRegion | undefined,
  looksOf: (partId: string) => ReadonlySet<string>,
): number {
  return touches.reduce((sum, touch) => {
    if (plan.when === 'apart') {
      if (!touch.isGlued) return sum
      return sum + [touch.a, touch.b].filter((s) => isFinished(regionOf(s))).length * touch.outlineMm
    }
    const looks = new Set([...looksOf(touch.a.part.id), ...looksOf(touch.b.part.id)])
    return looks.size > 1 ? sum + touch.outlineMm : sum
  }, 0)
}

/** Everything that a plan takes on a model. @example finishNeed(model, usualPlan(model)).regions[0].litres //=> 0.14 */
export function finishNeed(model: Model, plan: FinishPlan): FinishNeed {
  const surfaces = surfacesOf(model)
  const touches = touchesOf(model, surfaces)
  const covered = new Map<Surface, number>()
  for (const touch of touches.filter((t) => isMeant(plan, t)))
    for (const surface of [touch.a, touch.b])
      covered.set(surface, (covered.get(surface) ?? 0) + touch.areaMm2)
  const all = surfaces.map((surface): Finished => {
    const name = faceNameOf(surface.part, surface.of)
    const region = name === undefined ? undefined : regionAt(plan, surface.part, name)
    return { surface, region, coveredMm2: covered.get(surface) ?? 0 }
  })
  const regionBySurface = new Map(all.map((f) => [f.surface, f.region]))
  const looks = new Map<string, Set<string>>()
  for (const { surface, region, coveredMm2 } of all) {
    if (surface.areaMm2 - coveredMm2 < 1 || isIndifferent({ surface, region, coveredMm2 })) continue
    const own = looks.get(surface.part.id) ?? new Set()
    looks.set(surface.part.id, own.add(lookOf(region)))
  }
  const inside = (region: FinishRegion): number => insideShare(all.filter((f) => f.region === region))
  const regions = [...plan.regions]
    .sort((a, b) => TURN[a.coating.kind] - TURN[b.coating.kind] || inside(b) - inside(a))
    .map((region) => needOf(region, all))
  return {
    regions,
    bareMm2: all
      .filter((f) => f.region === undefined)
      .reduce((sum, f) => sum + Math.max(0, f.surface.areaMm2 - f.coveredMm2), 0),
    maskingMm:
      maskingOnParts(all) +
      maskingBetween(
        plan,
        touches,
        (s) => regionBySurface.get(s),
        (id) => looks.get(id) ?? new Set(),
      ),
    hours: regions.reduce((sum, { hours }) => sum + hours, 0),
  }
}
