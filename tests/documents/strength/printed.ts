/** What a shipped design's strength report prints. */
import { designById } from '#lib/core/design/designs/registry'
import type { ParameterValues } from '#lib/core/design/model'
import { compareJoints } from '#lib/core/statics/compare-joints'
import { scatterOf } from '#lib/core/statics/monte-carlo'
import type { DocumentOrder } from '#lib/documents/order'
import type { PrintedStrength } from '#lib/documents/strength/report-content'
import { strengthSheet } from '#lib/engine/strength-run'

export const FACTS: Pick<DocumentOrder, 'paper' | 'units' | 'titleBlock' | 'madeAt'> = {
  paper: 'a4',
  units: 'mm',
  titleBlock: {
    design: 'Counter seat',
    build: 'Seats for the kitchen',
    shop: 'Mill Lane',
    date: '6 May 2026',
  },
  madeAt: new Date('2026-05-06T09:00:00Z'),
}

export const JUDGED_FOR = [
  ['Wood', 'Northern red oak'],
  ['Air of the year', '35 to 65 %'],
] as const

export function printed(designId: string, parameters: ParameterValues): PrintedStrength {
  const design = designById(designId)!
  const built = design.build(parameters)
  if (!built.ok) throw new Error(built.error[0].message)
  const sheet = strengthSheet(built.value, {})
  if (!sheet.ok) throw new Error(sheet.error)
  return {
    ...sheet.value,
    comparison: compareJoints(design, parameters),
    scatter: scatterOf(sheet.value.report.checks, { seed: 1, draws: 200 }),
    judgedFor: JUDGED_FOR,
  }
}
