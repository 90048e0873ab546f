/**
 * What a recipe's piece may be although every formula is right: two parts in the same wood, nothing on the floor, feet
 * that do not reach it or go into it. mm. Designs in code are tested for it once; a member's is looked at as it is made.
 * Out: notices, each with its row. Tests: tests/core/design/recipe/soundness.test.ts
 */

import { boxOf } from '../fit/way-in'
import type { Notice, Part } from '../model'
import { sayValue } from '../parameters'
import { allSharedWood, type SharedWood } from '../shared-wood'

const LEVEL_MM = 0.05
/** A leg that ends no higher than this above the floor was meant to stand on it. */
const NEARLY_MM = 3
const REASON = 'geometry of the parts as they are written'

/** A part and the row of the recipe that it comes from. */
export interface RowPart {
  readonly part: Part
  /** `parts.3`. */
  readonly at: string
}

const say = (mm: number): string => sayValue(mm, 'mm')
const others = (count: number, what: string): string => (count > 0 ? `, and ${count} more ${what}` : '')

/** Groups in the order of their first. */
function grouped<T>(all: readonly T[], keyOf: (each: T) => string): T[][] {
  const groups = new Map<string, T[]>()
  for (const each of all) groups.set(keyOf(each), [...(groups.get(keyOf(each)) ?? []), each])
  return [...groups.values()]
}

function sharing(all: readonly RowPart[]): Notice[] {
  const rowOf = new Map(all.map(({ part, at }) => [part.id, at]))
  const rows = ({ a, b }: SharedWood): string => `${rowOf.get(a.id)} ${rowOf.get(b.id)}`
  return grouped(allSharedWood(all.map(({ part }) => part)), rows).map((pairs) => {
    const { a, b, deepMm } = pairs.reduce((deepest, pair) => (pair.deepMm > deepest.deepMm ? pair : deepest))
    return {
      level: 'stop',
      message: `«${a.name}» and «${b.name}» are in the same wood, ${say(deepMm)} deep${others(pairs.length - 1, 'like them')}. Move one of them, make it smaller, or let it in.`,
      source: REASON,
      at: rowOf.get(b.id),
    }
  })
}

function standing(all: readonly RowPart[]): Notice[] {
  const low = all.map((each) => ({ ...each, mm: boxOf(each.part).min[2] }))
  const [lowest] = [...low].sort((a, b) => a.mm - b.mm)
  if (lowest.mm > LEVEL_MM)
    return [
      {
        level: 'stop',
        message: `Nothing stands on the floor: the lowest part, «${lowest.part.name}», ends ${say(lowest.mm)} above it.`,
        source: REASON,
        at: lowest.at,
      },
    ]
  const below = low.filter(({ mm }) => mm < -LEVEL_MM)
  const above = low.filter(({ mm }) => mm > LEVEL_MM && mm < NEARLY_MM)
  return [
    ...grouped(below, ({ at }) => at).map(
      ([first, ...more]): Notice => ({
        level: 'stop',
        message: `«${first.part.name}» goes ${say(-first.mm)} into the floor${others(more.length, 'like it')}.`,
        source: REASON,
        at: first.at,
      }),
    ),
    ...grouped(above, ({ at }) => at).map(
      ([first, ...more]): Notice => ({
        level: 'caution',
        message: `«${first.part.name}» ends ${say(first.mm)} above the floor${others(more.length, 'like it')}: it will not carry, or the piece rocks.`,
        source: REASON,
        at: first.at,
      }),
    ),
  ]
}

/** @param hangs it hangs on a wall: nothing need stand on the floor */
export const soundnessNotices = (all: readonly RowPart[], hangs: boolean): Notice[] =>
  all.length === 0 ? [] : [...sharing(all), ...(hangs ? [] : standing(all))]
