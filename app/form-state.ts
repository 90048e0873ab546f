import type { RefusalCode } from '#lib/shop/refusal'

/** What a form knows after it was sent. A failed form keeps what was typed. */
export interface FormState {
  readonly ok?: boolean
  readonly code?: RefusalCode
  /** One sentence for the whole form. */
  readonly sentence?: string
  /** What was done, where a form says more than its own `done`: a number, a name. */
  readonly said?: string
  /** Sentence by field name. */
  readonly fields?: Readonly<Record<string, string>>
  /** What was typed, by field name. */
  readonly values?: Readonly<Record<string, string>>
  /** Changes with every answer, so that the form can move focus to it. */
  readonly at?: number
}

export const freshForm: FormState = {}
