import type { ParameterValues } from '#lib/core/design/model'
import type { PoolWords } from './plan-words'

/** A variant as its column shows it. */
export interface ShownVariant {
  readonly id: string
  readonly name: string
  readonly chosen: boolean
  readonly version: number
  readonly designId: string
  readonly parameters: ParameterValues
  readonly comments: number
  readonly votes: readonly {
    readonly memberName: string
    readonly isMine: boolean
    readonly isOlder: boolean
  }[]
  /** Pictures of its 3-D view that members show. */
  readonly stills: readonly { readonly id: string; readonly caption: string }[]
  readonly pool: PoolWords
}
