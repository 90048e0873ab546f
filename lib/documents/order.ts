/**
 * What may be asked for of a build's documents, as plain data that a thread can be handed. `makeDocument` makes it.
 * Tests: tests/documents/document-desk.test.ts
 */
import type { Model } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import type { StrengthOptions } from '#lib/core/statics/strength'
import type { LengthUnit } from '#lib/core/units/inches'
import type { WoodColours } from './export/glb'
import type { PacketSetup } from './packet'
import type { PaperName } from './sheet/paper'
import type { TitleBlock } from './sheet/plate'
import type { ScaleDenominator } from './sheet/scales'

export interface DocumentSettings {
  readonly paper: PaperName
  readonly units: LengthUnit
  readonly titleBlock: TitleBlock
  readonly madeAt: Date
}

export type DocumentOrder = DocumentSettings & {
  readonly model: Model
} & (
    | { readonly kind: 'sheet'; readonly sheet: string; readonly scale?: ScaleDenominator }
    | { readonly kind: 'drawings' }
    | { readonly kind: 'templates' }
    | {
        readonly kind: 'packet'
        readonly setups?: readonly PacketSetup[]
        readonly setupNotes?: readonly string[]
      }
    | { readonly kind: 'glb'; readonly colours: WoodColours }
    | { readonly kind: 'stl' }
    | {
        readonly kind: 'strength'
        /** Of a design that is not a shipped one: its ways to join are built from it. */
        readonly recipe?: Recipe
        readonly options: StrengthOptions
        /** In words: the wood, how good its pieces are, the air of the year. */
        readonly judgedFor: readonly (readonly [label: string, value: string])[]
      }
  )

export type MadeDocument =
  | { readonly status: 'made'; readonly bytes: Uint8Array }
  /** A sentence for the reader. */
  | { readonly status: 'refused'; readonly message: string }
