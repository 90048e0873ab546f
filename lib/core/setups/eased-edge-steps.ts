/**
 * Edges rounded and chamfered on the router table: one step for all edges of one bit, those across the grain first, so
 * that the long ones clean up their tear-out. mm. A 45° bit makes an equal chamfer on a square edge only; on any other the
 * note says so. Tests: tests/core/setups/eased-edges.test.ts
 */
import type { Chamfer, EasedEdge, Part, RoundOver } from '#lib/core/design/model'
import { edgesBetween } from '#lib/core/design/part-body'
import { length, sub } from '#lib/core/geometry/vec3'
import { type Draft, type PartContext, warn } from './part-context'
import { roundOverPasses } from './passes'
import { settingMm } from './step'
import { mmText, passesText } from './wording'

/** An edge whose faces turn by this much more or less than a quarter is not square. */
const SQUARE_RAD = 0.01

const isRound = (op: Part['operations'][number]): op is RoundOver => op.kind === 'roundOver'
const isChamfer = (op: Part['operations'][number]): op is Chamfer => op.kind === 'chamfer'
const isAcrossGrain = (op: EasedEdge): boolean => op.between.some((face) => face.startsWith('end'))
const sizeOf = (op: EasedEdge): number => (op.kind === 'chamfer' ? op.widthMm : op.radiusMm)

/** Edges of one size together, in the order in which they are run. */
function groupsOf<T extends EasedEdge>(all: readonly T[]): readonly (readonly T[])[] {
  const groups = new Map<string, T[]>()
  for (const op of [...all.filter(isAcrossGrain), ...all.filter((each) => !isAcrossGrain(each))]) {
    const key = settingMm(sizeOf(op))
    groups.set(key, [...(groups.get(key) ?? []), op])
  }
  return [...groups.values()]
}

/** @returns rounded edges first, then chamfers */
export const easedEdgeSteps = (part: Part, context: PartContext): readonly Draft[] =>
  [...groupsOf(part.operations.filter(isRound)), ...groupsOf(part.operations.filter(isChamfer))].map(
    (group) => easedDraft(part, group, context),
  )

function bitOf(op: EasedEdge): Pick<Draft, 'needs' | 'settings'> {
  const sizeMm = sizeOf(op)
  if (op.kind === 'chamfer')
    return {
      needs: { bit: 'chamfer 45°', depth: settingMm(sizeMm) },
      settings: { bit: 'chamfer 45°', bitMm: sizeMm, depthMm: sizeMm },
    }
  const bit = `round-over ${mmText(sizeMm)}`
  return { needs: { bit }, settings: { bit, bitMm: sizeMm } }
}

function easedDraft(part: Part, group: readonly EasedEdge[], context: PartContext): Draft {
  const { routerTable, times } = context.input.shop
  const [first] = group
  const sizeMm = sizeOf(first)
  const passes = roundOverPasses(sizeMm, routerTable.maxPassMm)
  const key = `op:${part.id}:${group.map((each) => each.id).join('+')}`
  const edges = group.flatMap((op) => edgesBetween(part, op.between))
  const runMm = edges.reduce((sum, { from, to }) => sum + length(sub(to, from)), 0)
  const isOdd = edges.some(({ turnRad }) => Math.abs(turnRad - Math.PI / 2) > SQUARE_RAD)
  if (part.blank.lengthMm < routerTable.minLengthMm) {
    warn(
      context,
      key,
      'tooShortToRout',
      `${part.name}: shorter than ${mmText(routerTable.minLengthMm)}; hold it in a jig or with a push pad.`,
    )
  }
  const count = group.length
  const { needs, settings } = bitOf(first)
  return {
    key,
    kind: first.kind,
    station: 'routerTable',
    needs,
    settings: { ...settings, passDepthMm: Math.min(sizeMm / 2, routerTable.maxPassMm) },
    passes,
    count,
    note: `${count === 1 ? 'One edge' : `${count} edges`}, those across the grain first; ${passesText(passes)}, the last one light.${isOdd ? ' Not all of these edges are square: finish those with a block plane to a pencil line.' : ''}`,
    seconds: passes * count * times.handle + (passes * runMm) / times.routeFeed,
    operationIds: group.map((each) => each.id),
  }
}
