/**
 * Parts that are glued up from staves: which may be, how their staves are named in plans and books, and what is still
 * wanted of a panel of which some staves are cut. A stave's id is its part's id, `~`, and its number from 1; the part
 * counts as made with its last stave.
 * Figures are common practice: staves of 40 to 120 mm (narrower ones are many joints, wider ones cup), half a
 * millimetre of planing on each edge of a joint. Whole micrometres. Tests: tests/shop/staves.test.ts
 */
import type { BlankNeed } from '#lib/core/board/demand'

export const STAVE_RULE = {
  minWidthUm: 40_000,
  maxWidthUm: 120_000,
  jointUm: 500,
  maxStaves: 12,
} as const

const MARK = '~'

/** @example staveId('top', 2) //=> 'top~2' */
export const staveId = (partId: string, number: number): string => `${partId}${MARK}${number}`

/** The part that an id is of. @example partOfStave('top~2') //=> 'top' */
export const partOfStave = (id: string): string => id.split(MARK)[0]

/** @example staveNumber('top~2') //=> 2 @example staveNumber('top') //=> null */
export function staveNumber(id: string): number | null {
  const [, number] = id.split(MARK)
  return number === undefined ? null : Number(number)
}

/** Wide enough that two staves of the narrowest kind make no more than it. */
export const mayBeGluedUp = (need: Pick<BlankNeed, 'roughWidthUm' | 'stave'>): boolean =>
  need.stave === undefined && need.roughWidthUm >= 2 * STAVE_RULE.minWidthUm - 2 * STAVE_RULE.jointUm

/** Widths of the staves that are cut, by part. */
export type StavesMade = ReadonlyMap<string, readonly number[]>

/** Staves among the parts that were made. */
export function stavesMade(
  made: readonly { readonly partId: string; readonly widthUm: number }[],
): StavesMade {
  const widths = new Map<string, number[]>()
  for (const { partId, widthUm } of made) {
    if (staveNumber(partId) === null) continue
    const part = partOfStave(partId)
    widths.set(part, [...(widths.get(part) ?? []), widthUm])
  }
  return widths
}

/**
 * Width that more staves must make when some are cut: each of those is short of one joint, and the panel needs one
 * joint between old and new.
 * @example restOfPanelUm(303_000, [102_000, 102_000]) //=> 101_000
 */
export const restOfPanelUm = (panelUm: number, madeUm: readonly number[]): number =>
  panelUm - madeUm.reduce((sum, w) => sum + w, 0) + 2 * STAVE_RULE.jointUm * madeUm.length

/** A part of which some staves are cut is a need of its own, as wide as what is still wanted. */
function split(need: BlankNeed, made: StavesMade): BlankNeed[] {
  const begun = need.partIds.filter((id) => made.has(id))
  if (begun.length === 0) return [need]
  const rest = need.partIds.filter((id) => !made.has(id))
  const whole = rest.length > 0 ? [{ ...need, partIds: rest, count: rest.length }] : []
  const open = begun.map((partId): BlankNeed => {
    const widths = made.get(partId) ?? []
    const roughWidthUm = Math.max(STAVE_RULE.minWidthUm, restOfPanelUm(need.roughWidthUm, widths))
    const { ends: _, ...plain } = need
    return {
      ...plain,
      id: `${need.id}, rest of ${partId}`,
      name: `${need.name}, what is wanted still`,
      partIds: [partId],
      count: 1,
      roughWidthUm,
      finishedWidthUm: Math.min(need.finishedWidthUm, roughWidthUm),
      stavesMade: widths.length,
    }
  })
  return [...whole, ...open]
}

/**
 * The needs, and after them the strips of those that may be glued up.
 * @param gluedUp ids of needs that may be; one that was begun may be in any case
 */
export function needsWithStaves(
  needs: readonly BlankNeed[],
  gluedUp: ReadonlySet<string>,
  made: StavesMade,
): BlankNeed[] {
  const all = needs.flatMap((need) => split(need, made))
  const staves = all.flatMap((need, of): BlankNeed[] => {
    const isWanted = gluedUp.has(need.id) || need.stavesMade !== undefined
    if (!isWanted || !mayBeGluedUp(need)) return []
    const { ends: _, ...plain } = need
    return [
      {
        ...plain,
        id: `${need.id}, stave`,
        name: `${need.name}, stave`,
        partIds: [],
        count: 0,
        roughWidthUm: STAVE_RULE.minWidthUm,
        finishedWidthUm: STAVE_RULE.minWidthUm,
        stave: { ...STAVE_RULE, of, panelUm: need.roughWidthUm },
      },
    ]
  })
  return [...all, ...staves]
}

/** Ids of parts that a set of pieces finishes: the last of a part's planned staves, with those cut before. */
export function partsFinished(
  planned: readonly string[],
  cutNow: readonly string[],
  cutBefore: ReadonlySet<string>,
): string[] {
  const now = new Set(cutNow)
  const parts = new Set(cutNow.filter((id) => staveNumber(id) !== null).map(partOfStave))
  return [...parts].filter((part) =>
    planned
      .filter((id) => staveNumber(id) !== null && partOfStave(id) === part)
      .every((id) => now.has(id) || cutBefore.has(id)),
  )
}
