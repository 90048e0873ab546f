import { designById } from '#lib/core/design/designs/registry'
import type { PlanInput } from '#lib/shop/plan-input'
import { partOfStave, staveNumber } from '#lib/shop/staves'

/** What the maker calls each part of the design that was planned. */
export function partNames(input: PlanInput): (partId: string) => string | undefined {
  const model = designById(input.design.designId)?.build(input.design.parameters)
  const names = new Map(model?.ok ? model.value.parts.map((p) => [p.id, p.name]) : [])
  return (id) => {
    const name = names.get(partOfStave(id))
    const number = staveNumber(id)
    return name !== undefined && number !== null ? `${name}, stave ${number}` : name
  }
}
