import type { PlanInput } from '#lib/shop/plan-input'
import { partOfStave, staveNumber } from '#lib/shop/staves'
import { findDesign } from '../../../designs/find-design'

/** What the maker calls each part of the design that was planned. */
export async function partNames(input: PlanInput): Promise<(partId: string) => string | undefined> {
  const design = await findDesign(input.design.designId)
  const model = design?.build(input.design.parameters)
  const names = new Map(model?.ok ? model.value.parts.map((p) => [p.id, p.name]) : [])
  return (id) => {
    const name = names.get(partOfStave(id))
    const number = staveNumber(id)
    return name !== undefined && number !== null ? `${name}, stave ${number}` : name
  }
}
