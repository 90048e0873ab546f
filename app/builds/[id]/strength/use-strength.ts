'use client'
import type { ParameterValues } from '#lib/core/design/model'
import type { StrengthOptions } from '#lib/core/statics/strength'
import type { BrowserWorker } from '#lib/engine/browser-worker'
import type { StrengthAnswer, StrengthAsk } from '#lib/engine/strength-run'
import { type Question, useQuestion } from '../use-question'

/** What every question is about: the design, its numbers and what it is judged for. */
export interface Asked {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly options: StrengthOptions
}

export type Desk = BrowserWorker<StrengthAsk, StrengthAnswer>
type Kind = StrengthAnswer['kind']
type AskOf<K extends Kind> = StrengthAsk & { readonly kind: K }
type AnswerOf<K extends Kind> = Extract<StrengthAnswer, { kind: K }>

/** A question of one kind about strength: its answer is of the same kind. */
export const useStrength = <K extends Kind>(desk: Desk): Question<AskOf<K>, AnswerOf<K>> =>
  useQuestion(desk as unknown as BrowserWorker<AskOf<K>, AnswerOf<K>>)
