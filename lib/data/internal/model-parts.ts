import 'server-only'
import type { ParameterValues } from '#lib/core/design/model'
import { Kept } from '#lib/core/units/kept'
import { canonicalJson } from '#lib/shop/plan-input'
import type { Transaction } from '../transaction'
import { modelOf } from './plan-source'

export interface ModelParts {
  readonly partIds: readonly string[]
  /** Design, its version and every parameter, as one text: alike texts, alike models. */
  readonly text: string
}

export const designText = (designId: string, designVersion: number, parameters: ParameterValues): string =>
  canonicalJson({ designId, designVersion, parameters })

/** A model is built once for its numbers, not at every look at a list; the oldest goes first. */
const kept = new Kept<ModelParts | null>(500)

/** The parts that a variant asks for, or null when its numbers make no piece. */
export async function modelParts(
  designId: string,
  parameters: unknown,
  tx?: Transaction,
): Promise<ModelParts | null> {
  const key = canonicalJson({ designId, parameters })
  const known = kept.get(key)
  if (known !== undefined) return known
  const model = await modelOf(designId, parameters, tx)
  const found = model.ok
    ? {
        partIds: model.value.parts.map((p) => p.id),
        text: designText(designId, model.value.designVersion, model.value.parameters),
      }
    : null
  kept.set(key, found)
  return found
}
