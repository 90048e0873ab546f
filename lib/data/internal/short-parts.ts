import 'server-only'
import type { CutPlan } from '#lib/core/cutting/problem'
import type { PlanInput } from '#lib/shop/plan-input'
import { partOfStave } from '#lib/shop/staves'
import { database } from '../client'

export interface ShortParts {
  /** By kind of part: how many the newest plan could not place, and the size that they need. */
  readonly parts: readonly {
    readonly name: string
    readonly missing: number
    readonly sizeUm: readonly [number, number, number]
  }[]
  /** The smallest board, flat and sound, that would make them all; null where none was found. */
  readonly cure: { readonly lengthUm: number; readonly widthUm: number } | null
}

interface Row {
  readonly needs: PlanInput['needs']
  readonly partIds: readonly (readonly string[])[] | null
  readonly cure: CutPlan['cure'] | null
}

/** What the newest plan of a build leaves unmade. */
export async function shortParts(buildId: string): Promise<ShortParts> {
  const [row] = await database().$queryRaw<Row[]>`
    select "input" -> 'needs' as needs, "result" -> 'partIds' as "partIds",
      "result" -> 'plan' -> 'cure' as cure
    from "CutPlan" where "buildId" = ${buildId}::uuid and not "isTogether"
    order by "createdAt" desc, "id" limit 1`
  if (!row?.partIds) return { parts: [], cure: null }
  const placed = new Set(row.partIds.flat().map(partOfStave))
  const parts = row.needs.flatMap((n) => {
    const missing = n.partIds.filter((p) => !placed.has(p)).length
    const sizeUm = [n.roughLengthUm, n.roughWidthUm, n.finishedThicknessUm] as const
    return missing > 0 ? [{ name: n.name, missing, sizeUm }] : []
  })
  const cure = row.cure ? { lengthUm: row.cure.lengthUm, widthUm: row.cure.widthUm } : null
  return { parts, cure: parts.length > 0 ? cure : null }
}
