/**
 * What the page of a build asks about strength, and the answers: plain data that a worker can send. The same calls
 * as the verb `strength` (strength-door.ts), with progress. A study is made anew for each question, since it takes
 * less time than keeping it in step. Tests: tests/engine/strength-run.test.ts
 */
import { designById } from '#lib/core/design/designs/registry'
import type { Design, Model, ParameterValues } from '#lib/core/design/model'
import type { StrengthCheck } from '#lib/core/statics/checks'
import { compareJoints, type JointComparison } from '#lib/core/statics/compare-joints'
import { compareWoods, type WoodVerdict } from '#lib/core/statics/compare-woods'
import { type CureReport, curesFor } from '#lib/core/statics/cure'
import {
  type DeflectedShape,
  type DrawnPart,
  deflectedShapes,
  drawnParts,
} from '#lib/core/statics/deflected-shape'
import { type ScatterReport, scatterOf } from '#lib/core/statics/monte-carlo'
import {
  checkStrength,
  type StrengthOptions,
  type StrengthReport,
  studyStrength,
} from '#lib/core/statics/strength'
import { err, ok, type Result } from '#lib/core/units/result'

interface AskedOf {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly options: StrengthOptions
}

export type StrengthAsk = AskedOf &
  (
    | { readonly kind: 'study' }
    | { readonly kind: 'compare' }
    | { readonly kind: 'woods' }
    | { readonly kind: 'cure'; readonly checkId: string }
    | { readonly kind: 'scatter'; readonly seed: number; readonly draws: number }
  )

/** A report, and what its drawings need. */
export interface StrengthSheet {
  readonly report: StrengthReport
  readonly parts: readonly DrawnPart[]
  readonly shapes: readonly DeflectedShape[]
  /** Where a wood is left open: how it would do in each that there is. */
  readonly woods: readonly WoodVerdict[]
}

export type StrengthAnswer =
  | { readonly kind: 'study'; readonly sheet: StrengthSheet }
  | { readonly kind: 'compare'; readonly comparison: JointComparison }
  | { readonly kind: 'woods'; readonly woods: readonly WoodVerdict[] }
  | { readonly kind: 'cure'; readonly report: CureReport }
  | { readonly kind: 'scatter'; readonly report: ScatterReport }

/** Steps done, and of how many if that is known. */
export type OnProgress = (done: number, of?: number) => void

function modelOf(design: Design, { parameters }: AskedOf): Result<Model, string> {
  const built = design.build(parameters)
  return built.ok ? built : err(built.error.map(({ message }) => message).join(' '))
}

/** The report of a model and all that its page shows at once. @returns a sentence for what cannot be judged */
export function strengthSheet(model: Model, options: StrengthOptions): Result<StrengthSheet, string> {
  const study = studyStrength(model, options)
  if (!study.ok) return study
  const { report } = study.value
  return ok({
    report,
    parts: drawnParts(study.value),
    shapes: deflectedShapes(study.value),
    woods: compareWoods(model, options),
  })
}

/** The model with its wood left open. */
const openWood = (model: Model): Model => ({
  ...model,
  parts: model.parts.map(({ species: _, ...part }) => part),
})

/** How it would do in every wood, or why it cannot be judged in any. */
function woodsOf(model: Model, options: StrengthOptions): Result<StrengthAnswer, string> {
  const woods = compareWoods(model, options)
  if (woods.length > 0) return ok({ kind: 'woods', woods })
  const report = checkStrength(model, options)
  return report.ok ? ok({ kind: 'woods', woods }) : report
}

/** The checks with all joints softer or stiffer; none if that cannot be judged. */
function checksWith(
  model: Model,
  options: StrengthOptions,
  jointStiffness: number,
): readonly StrengthCheck[] {
  const report = checkStrength(model, { ...options, jointStiffness })
  return report.ok ? report.value.checks : []
}

/** Many such pieces, their joints tighter or looser. @param checks of the model's report */
export function scatterWithJoints(
  model: Model,
  checks: readonly StrengthCheck[],
  options: StrengthOptions,
  by: { readonly seed: number; readonly draws: number; readonly onProgress?: OnProgress },
): ScatterReport {
  const [soft, stiff] = [0.5, 2].map((times) => checksWith(model, options, times))
  return scatterOf(checks, { ...by, soft, stiff })
}

/**
 * @param design where it is not a shipped one
 * @returns a sentence, and no number, for what cannot be judged
 */
export function answerAsk(
  ask: StrengthAsk,
  onProgress?: OnProgress,
  design: Design | undefined = designById(ask.designId),
): Result<StrengthAnswer, string> {
  if (!design) return err('This design is not in the shop any more.')
  if (ask.kind === 'compare')
    return ok({ kind: 'compare', comparison: compareJoints(design, ask.parameters, ask.options) })
  const model = modelOf(design, ask)
  if (!model.ok) return model
  if (ask.kind === 'study') {
    const sheet = strengthSheet(model.value, ask.options)
    return sheet.ok ? ok({ kind: 'study', sheet: sheet.value }) : sheet
  }
  if (ask.kind === 'woods') return woodsOf(openWood(model.value), ask.options)
  const report = checkStrength(model.value, ask.options)
  if (!report.ok) return report
  const { checks } = report.value
  switch (ask.kind) {
    case 'cure': {
      const check = checks.find(({ id }) => id === ask.checkId)
      if (!check) return err('There is no such check any more.')
      const cures = curesFor(design, ask.parameters, check, ask.options, undefined, onProgress)
      return ok({ kind: 'cure', report: cures })
    }
    case 'scatter': {
      const by = { seed: ask.seed, draws: ask.draws, ...(onProgress ? { onProgress } : {}) }
      return ok({ kind: 'scatter', report: scatterWithJoints(model.value, checks, ask.options, by) })
    }
  }
}
