import type { VariantPlan } from '#lib/data/variant-sheet'

export interface PoolWords {
  readonly text: string
  /** Where its cutting can be planned: for the chosen one alone. */
  readonly toPlan: boolean
}

/** Whether the pool yields all parts, as far as the last cut plan tells. */
export function planWords(plan: VariantPlan | null, isChosen: boolean, say: (at: Date) => string): PoolWords {
  if (!plan) return { text: 'Not planned yet', toPlan: isChosen }
  const { wanted, placed, plannedAt, isUnfinished, isOlder } = plan
  const found = placed >= wanted ? `All ${wanted} parts` : `${wanted - placed} of ${wanted} parts short`
  if (isOlder) return { text: `${found}, but of earlier numbers (${say(plannedAt)})`, toPlan: isChosen }
  return { text: isUnfinished ? `${found} so far` : `${found}, planned ${say(plannedAt)}`, toPlan: false }
}
