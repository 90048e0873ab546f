/**
 * What the page of a build asks about strength, and the answers: plain data that a worker can send. The same calls
 * as the verb `strength` (strength-door.ts), with progress. A study is made anew for each question, since it takes
 * less time than keeping it in step. Tests: tests/engine/strength-run.test.ts
 */
import { designById } from '#lib/core/design/designs/registry'
import type { Design, ParameterValues } from '#lib/core/design/model'
import type { StrengthCheck } from '#lib/core/statics/checks'
import { compareJoints, type JointComparison } from '#lib/core/statics/compare-joints'
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
  type StrengthStudy,
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
    | { readonly kind: 'cure'; readonly checkId: string }
    | { readonly kind: 'scatter'; readonly seed: number; readonly draws: number }
  )

/** A report, and what its drawings need. */
export interface StrengthSheet {
  readonly report: StrengthReport
  readonly parts: readonly DrawnPart[]
  readonly shapes: readonly DeflectedShape[]
}

export type StrengthAnswer =
  | { readonly kind: 'study'; readonly sheet: StrengthSheet }
  | { readonly kind: 'compare'; readonly comparison: JointComparison }
  | { readonly kind: 'cure'; readonly report: CureReport }
  | { readonly kind: 'scatter'; readonly report: ScatterReport }

/** Steps done, and of how many if that is known. */
export type OnProgress = (done: number, of?: number) => void

function studied(design: Design, { parameters, options }: AskedOf): Result<StrengthStudy, string> {
  const built = design.build(parameters)
  if (!built.ok) return err(built.error.map(({ message }) => message).join(' '))
  return studyStrength(built.value, options)
}

/** The checks with all joints softer or stiffer; none if that cannot be judged. */
function checksWith(design: Design, ask: AskedOf, jointStiffness: number): readonly StrengthCheck[] {
  const built = design.build(ask.parameters)
  const report = built.ok ? checkStrength(built.value, { ...ask.options, jointStiffness }) : built
  return report.ok ? report.value.checks : []
}

/** @returns a sentence, and no number, for what cannot be judged */
export function answerAsk(ask: StrengthAsk, onProgress?: OnProgress): Result<StrengthAnswer, string> {
  const design = designById(ask.designId)
  if (!design) return err('This design is not in the shop any more.')
  if (ask.kind === 'compare')
    return ok({ kind: 'compare', comparison: compareJoints(design, ask.parameters, ask.options) })
  const study = studied(design, ask)
  if (!study.ok) return study
  const { report } = study.value
  switch (ask.kind) {
    case 'study':
      return ok({
        kind: 'study',
        sheet: { report, parts: drawnParts(study.value), shapes: deflectedShapes(study.value) },
      })
    case 'cure': {
      const check = report.checks.find(({ id }) => id === ask.checkId)
      if (!check) return err('There is no such check any more.')
      const cures = curesFor(design, ask.parameters, check, ask.options, undefined, onProgress)
      return ok({ kind: 'cure', report: cures })
    }
    case 'scatter': {
      const { seed, draws } = ask
      const [soft, stiff] = [checksWith(design, ask, 0.5), checksWith(design, ask, 2)]
      const scatter = scatterOf(report.checks, {
        seed,
        draws,
        soft,
        stiff,
        ...(onProgress ? { onProgress } : {}),
      })
      return ok({ kind: 'scatter', report: scatter })
    }
  }
}
