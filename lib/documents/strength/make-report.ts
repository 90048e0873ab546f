/**
 * Works out a model's strength and sets the report as a PDF: plain data in, bytes out; seconds of work, so it runs in
 * the document thread. Tests: tests/documents/strength/make-report.test.ts
 */
import { designById } from '#lib/core/design/designs/registry'
import { compareJoints } from '#lib/core/statics/compare-joints'
import { ownDesign } from '#lib/engine/own-design'
import { scatterWithJoints, strengthSheet } from '#lib/engine/strength-run'
import { sayStrengthInUnits } from '#lib/format/sentence'
import type { DocumentOrder, MadeDocument } from '../order'
import { writePdf } from '../pdf/write-pdf'
import { strengthReport } from './report-content'

const DRAWS = { seed: 1, draws: 2000 }

export type StrengthOrder = Extract<DocumentOrder, { kind: 'strength' }>

export async function makeStrengthReport(order: StrengthOrder): Promise<MadeDocument> {
  const { model, options, judgedFor, recipe } = order
  const sheet = strengthSheet(model, options)
  if (!sheet.ok) return { status: 'refused', message: sayStrengthInUnits(sheet.error, order.units) }
  const design = recipe ? ownDesign(model.designId, recipe) : designById(model.designId)
  const printed = {
    ...sheet.value,
    ...(design ? { comparison: compareJoints(design, model.parameters, options) } : {}),
    scatter: scatterWithJoints(model, sheet.value.report.checks, options, DRAWS),
    judgedFor,
  }
  return { status: 'made', bytes: await writePdf(strengthReport(printed, order)) }
}
