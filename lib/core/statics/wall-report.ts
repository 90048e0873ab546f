/**
 * What a piece that hangs asks of its wall: for every fixing the most that pulls it straight out and the most that goes
 * along the wall, over all load cases, N. The wall is not judged, so its check is a condition and has no capacity.
 * Tests: tests/core/statics/wall.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { type StrengthCheck, say3 } from './checks'
import type { StaticsModel } from './from-model'
import { plainName } from './part-axis'
import type { CaseResultOf } from './run-cases'
import type { Sourced } from './sources'

export interface FixingDemand {
  readonly partId: string
  readonly at: Vec3
  /** Straight out of the wall and along it, N, at the same time, in the case that is worst for it. */
  readonly pullN: number
  readonly alongN: number
  readonly loadCase: string
}

export interface WallReport {
  readonly fixings: readonly FixingDemand[]
  /** What they are in: «Wall rail». */
  readonly inParts: readonly string[]
  /** Of the case with the most. */
  readonly source: Sourced
}

type Fixing = NonNullable<StaticsModel['wall']>['fixings'][number]

/** Fixings at one node share what it holds. */
function demandOf({ partId, at, node }: Fixing, shared: number, one: CaseResultOf): FixingDemand {
  const [x, y, z] = one.result.reactions.get(node) ?? [0, 0, 0]
  return {
    ...{ partId, at, loadCase: one.loadCase.name },
    pullN: Math.max(0, y) / shared,
    alongN: Math.hypot(x, z) / shared,
  }
}

const sizeOf = ({ pullN, alongN }: FixingDemand): number => Math.hypot(pullN, alongN)

/** @returns undefined for what stands on the floor, or where no load was put on */
export function wallReport(model: StaticsModel, results: readonly CaseResultOf[]): WallReport | undefined {
  if (model.wall === undefined || results.length === 0) return undefined
  const { fixings } = model.wall
  const worst = fixings.map((fixing) => {
    const shared = fixings.filter(({ node }) => node === fixing.node).length
    return results
      .map((one) => demandOf(fixing, shared, one))
      .reduce((a, b) => (sizeOf(b) > sizeOf(a) ? b : a))
  })
  const most = worst.reduce((a, b) => (sizeOf(b) > sizeOf(a) ? b : a))
  const names = fixings.map(({ partId }) => plainName(model.parts.get(partId)!.axis.part))
  return {
    fixings: worst,
    inParts: [...new Set(names)],
    source: results.find(({ loadCase }) => loadCase.name === most.loadCase)!.loadCase.source,
  }
}

/** What has to be done for a piece that hangs to be safe. */
export function wallCheck({ fixings, inParts, source }: WallReport): StrengthCheck {
  const most = fixings.reduce((a, b) => (sizeOf(b) > sizeOf(a) ? b : a))
  const [pull, along] = [say3(most.pullN), say3(most.alongN)]
  return {
    id: 'wall',
    kind: 'wall',
    weight: 'condition',
    title: 'Fixings into the wall',
    demand: sizeOf(most),
    capacity: 0,
    unit: 'N',
    margin: 0,
    passes: false,
    loadCase: most.loadCase,
    where: { partIds: [most.partId], at: most.at },
    sources: [source, { source: 'one fixing near every piece that holds on to the wall', tag: 'assumed' }],
    sentence: `${fixings.length} fixings into the wall are counted on, in ${inParts.map((name) => `«${name}»`).join(' and ')}. The hardest loaded must bear ${pull} N straight out and ${along} N along the wall at once: ${most.loadCase.toLowerCase()}. What a wall bears is not known here: screw into studs, or keep to what the maker of the fixings says for that wall, and look for pipes and cables first.`,
    condition: 'once it is fixed to a wall that bears it',
  }
}
