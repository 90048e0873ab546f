import type { ParameterValues } from '#lib/core/design/model'

/** The variant whose pictures are shown. */
export interface LookedAt {
  readonly id: string
  readonly name: string
  readonly version: number
  readonly designId: string
  readonly parameters: ParameterValues
}
